"""The figures of the mash's pH, and of the acid and the salts that it needs."""

from msgspec import Struct

from mashwright.brew.board import lines, number
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import litres_in
from mashwright.brew.parts import Part, weighed
from mashwright.brew.pours import USUAL_THICKNESS, has_mash, unstated_water
from mashwright.brewing.acids import MASH_PH, carbonate_share_removed, meq_per_ml, share_given
from mashwright.brewing.mash_ph import (
    ACIDULATED_PH_PER_PERCENT,
    Shift,
    acid_buffer_meq,
    distilled_water_ph,
    grain_of,
    mash_ph_band,
    ph_with_acid,
    slope_ph_per_meq_l,
)
from mashwright.brewing.water import LEAST_CALCIUM_MG_L, salt_gives
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.water.brewing_water import Dose, acid_meq, liquor, tap_water, water_in_mash
from mashwright.finding import Path
from mashwright.ingredients.kinds import IngredientKind
from mashwright.ingredients.minerals import ACIDULATED_MALT
from mashwright.ingredients.minerals import acid as known_acid
from mashwright.measures.quantity import Kind
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown

# Weaker than this a straight line through the buffer of malt leads nowhere; pH, judgement.
LINE_ENDS_PH = 4.8


_BUFFER = "{} mEq that move 1 kg by 1 pH"
_CAUTION = (
    "add half of it, stir, measure a cooled sample, then the rest; strong acid burns: goggles and gloves on,"
    " acid into water and never water into acid"
)
_SOURCES = ("troester-mash-ph", "mash-ph-page", "briggs-2004", "from-memory", "judgement")


class _Mash(Struct, frozen=True, gc=False):
    """The pH of a mash before acid goes in.

    Attributes:
        distilled: in distilled water.
        residual_meq_l: of the water.
        thickness: l/kg.
        shifts: of the water and of acidulated malt.
        buffer: mEq of acid that move 1 kg by 1 pH.
    """

    parts: tuple[Part, ...]
    distilled: Range
    residual_meq_l: Range
    thickness: Range
    shifts: tuple[Shift, ...]
    buffer: Range
    assumed: tuple[str, ...]
    paths: tuple[Path, ...]

    @property
    def band(self) -> Range:
        """Where it stands without acid."""
        return mash_ph_band(self.distilled, self.shifts)

    @property
    def typical(self) -> float:
        """The middle of it, wherever the straight lines lead."""
        return self.distilled.typical + sum(shift.ph.typical for shift in self.shifts)


@once
def _without_acid(brew: Brew) -> _Mash:
    """The mash before acid goes in.

    Raises:
        Unknown: nothing is mashed, or a colour or what is in the water is not known.
    """
    if brew.recipe.mash.reiterated:
        raise Unknown("the pH of a mash whose water is wort, which is not computed", brew.recipe.mash.path)
    water, parts = water_in_mash(brew), brew.mashed()
    thickness, assumed = _thickness(brew, parts)
    grains = []
    for part in parts:
        if part.colour_lovibond is None:
            raise Unknown(f"the colour of {part.name}", part.path)
        grains.append((grain_of(part.kind, part.cereal, part.colour_lovibond.typical), part.amount))
    residual = water.residual_meq_l
    slope = slope_ph_per_meq_l(thickness.typical)
    typical = slope.typical * residual.typical
    ends = [one * other for one in (slope.low, slope.high) for other in (residual.low, residual.high)]
    shifts = (Shift("water", Range(min(*ends, typical), typical, max(*ends, typical))), *_acidulated(brew, parts))
    return _Mash(
        parts,
        distilled_water_ph(grains),
        residual,
        thickness,
        shifts,
        acid_buffer_meq(grains),
        (*water.assumed, *assumed),
        (*(part.path for part in parts), *((brew.recipe.water.path,) if brew.recipe.water.known else ())),
    )


@figure("mash-ph", unit="pH", sources=_SOURCES)
def mash_ph(brew: Brew) -> Figure:
    """Mash pH, cooled sample."""
    mash = _without_acid(brew)
    acids = _acids(brew, mash)
    band = mash_ph_band(mash.distilled, (*mash.shifts, *acids))

    def working() -> str:
        water, *others = mash.shifts
        rows = [f"this grist in distilled water: about {number(mash.distilled.typical, 3)}"]
        rows.append(
            f"water: residual alkalinity {number(mash.residual_meq_l.typical, 3)} mEq/l × (0.013 ×"
            f" {number(mash.thickness.typical, 3)} l/kg + 0.013) = {_signed(water.ph.typical)}"
        )
        rows += [f"{shift.what}: {_signed(shift.ph.typical)}" for shift in (*others, *acids)]
        total = f"  = {band.typical:.2f} ({band.low:.2f} to {band.high:.2f}): no sum is closer, so measure"
        if band.typical < LINE_ENDS_PH:
            total += "; this sour, the sum is little more than a guess"
        return lines([*rows, total])

    return Figure(band, working, paths=mash.paths, assumed=mash.assumed)


def _wanted(brew: Brew) -> tuple[float, str]:
    """The pH that the mash is to come to: as stated, else the middle of the wanted band; and how it reads."""
    mash = brew.recipe.mash
    mash.ph.readable("a readable pH of the mash")
    if mash.ph.known:
        return mash.ph.range.typical, "as stated"
    return MASH_PH, "the middle of the usual range"


@figure("mash-acid-needed", unit="ml", sources=_SOURCES)
def mash_acid_needed(brew: Brew) -> Figure:
    """Lactic acid (88 %) needed in the mash."""
    mash, (wanted, why), kg = _without_acid(brew), _wanted(brew), _weight(brew)
    meq = _to_move(mash, wanted, kg, down=True)
    value = meq * (1 / meq_per_ml("lactic acid", 88, wanted))
    others = (("lactic acid", 80), ("phosphoric acid", 10), ("phosphoric acid", 85))
    delivered = meq_per_ml("lactic acid", 88, wanted)

    def working() -> str:
        from_ph = mash.typical
        if from_ph <= wanted:
            return f"without acid the mash has pH {from_ph:.2f}; the aim is {number(wanted, 3)}, {why}: no acid needed"
        moved = f"({from_ph:.2f} without acid - {number(wanted, 3)}, {why}) × {number(kg, 3)} kg"
        rows = [
            f"{moved} × {_BUFFER.format(number(mash.buffer.typical, 3))} = {number(meq.typical, 3)} mEq",
            f"  ÷ {number(delivered, 3)} mEq that 1 ml of it gives off there = {number(value.typical, 2)} ml",
        ]
        doses = liquor(brew).mash_acids
        if doses:
            rows.append(f"  the recipe has {_as_stated(doses)}")
        rows.append(f"  {_CAUTION}")
        return lines(rows)

    return Figure(
        value,
        working,
        paths=mash.paths,
        assumed=mash.assumed,
        parts=tuple((f"{name} {percent} %", meq * (1 / meq_per_ml(name, percent, wanted))) for name, percent in others),
        memory=True,
    )


@figure("mash-soda-needed", unit="g", sources=_SOURCES)
def mash_soda_needed(brew: Brew) -> Figure:
    """Baking soda needed in the mash."""
    mash, (wanted, why), kg = _without_acid(brew), _wanted(brew), _weight(brew)
    meq = _to_move(mash, wanted, kg, down=False)
    per_g = salt_gives("baking soda")["alkalinity"].typical * carbonate_share_removed(wanted)
    value = meq * (1 / per_g)

    def working() -> str:
        from_ph = mash.typical
        if from_ph >= wanted:
            return f"without acid the mash has pH {from_ph:.2f}; the aim is {number(wanted, 3)}, {why}: no acid needed"
        moved = f"({number(wanted, 3)}, {why} - {from_ph:.2f}) × {number(kg, 3)} kg"
        return lines(
            [
                f"{moved} × {_BUFFER.format(number(mash.buffer.typical, 3))} = {number(meq.typical, 3)} mEq",
                f"  ÷ {number(per_g, 3)} mEq that 1 g takes up there = {number(value.typical, 2)} g",
            ]
        )

    return Figure(value, working, paths=mash.paths, assumed=mash.assumed, memory=True)


@figure("calcium-salt-needed", unit="g", sources=("water-report-article", "water-101", "iupac-atomic-weights"))
def calcium_salt_needed(brew: Brew) -> Figure:
    """Gypsum needed for 50 mg/l of calcium."""
    if not has_mash(brew):
        raise Unknown("grain that is mashed", brew.recipe.grist.path)
    tap, volume = tap_water(brew), liquor(brew).mash_l
    if "calcium" not in tap.ions:
        raise Unknown("the calcium of the water", brew.recipe.water.calcium.path)
    if volume is None:
        raise Unknown("the mash water, into which salts go", brew.recipe.mash.water.path)
    has = tap.ions["calcium"]
    missing = Range(LEAST_CALCIUM_MG_L - has.high, LEAST_CALCIUM_MG_L - has.typical, LEAST_CALCIUM_MG_L - has.low)
    milligrams = missing.not_below_0.times(volume)
    gypsum, chloride = (salt_gives(name)["calcium"] for name in ("gypsum", "calcium chloride"))
    value = milligrams * (1 / gypsum.typical)

    def working() -> str:
        if has.typical >= LEAST_CALCIUM_MG_L:
            return f"the water has {number(has.typical, 3)} mg/l before any salt: none"
        return (
            f"({number(LEAST_CALCIUM_MG_L)} - {number(has.typical, 3)} mg/l in the water) ×"
            f" {litres_in(brew, volume.typical)} of it ÷ {number(gypsum.typical, 3)} mg in 1 g to the litre"
            f" = {number(value.typical, 2)} g"
        )

    return Figure(
        value,
        working,
        paths=tap.paths,
        assumed=(*tap.assumed, "salts of the recipe left out: this is for the water alone"),
        parts=(("as calcium chloride", Range.along(lambda mg, one: mg / one, (milligrams,), (chloride,))),),
    )


def _as_stated(doses: tuple[Dose, ...]) -> str:
    return " and ".join(f"{dose.quantity.text} of {dose.amount.name}" for dose in doses)


def _weight(brew: Brew) -> float:
    """Weight of the mash's grain, kg. Raises Unknown where shares alone are stated."""
    return sum(part.weight_kg for part in weighed(brew.mashed()))


def _to_move(mash: _Mash, wanted: float, kg: float, *, down: bool) -> Range:
    """Acid, mEq, that brings a mash down to a pH, or alkali up to it; nothing where it is there."""
    band, way = mash.band, 1 if down else -1
    near, far = (band.low, band.high) if down else (band.high, band.low)

    def meq(from_ph: float, buffer: float) -> float:
        return max(0.0, way * (from_ph - wanted)) * buffer * kg

    typical = meq(mash.typical, mash.buffer.typical)
    return Range(min(meq(near, mash.buffer.low), typical), typical, max(meq(far, mash.buffer.high), typical))


def _signed(shift: float) -> str:
    return f"{shift:+.2f} pH".replace("-", "−")


def _thickness(brew: Brew, parts: tuple[Part, ...]) -> tuple[Range, tuple[str, ...]]:
    volume = liquor(brew).mash_l
    if volume is not None:
        kg = sum(part.weight_kg for part in parts)
        return volume * (1 / kg), ()
    return USUAL_THICKNESS, (unstated_water(brew, USUAL_THICKNESS.typical),)


def _acidulated(brew: Brew, parts: tuple[Part, ...]) -> list[Shift]:
    kg_or_share = sum(part.amount for part in parts)
    malt = sum(part.amount for part in parts if part.kind == IngredientKind.ACIDULATED_MALT)
    added_kg = _acidulated_beside(brew)
    if not malt and not added_kg:
        return []
    percent = 100 * malt / kg_or_share
    if added_kg:
        percent += 100 * added_kg / sum(part.weight_kg for part in parts)
    fall = ACIDULATED_PH_PER_PERCENT
    moved = Range(-percent * fall.high, -percent * fall.typical, -percent * fall.low)
    return [Shift(f"{number(percent, 2)} % of acidulated malt × 0.1", moved)]


def _acids(brew: Brew, mash: _Mash) -> list[Shift]:
    """What acid does to the mash: as much as it gives off where the mash ends, over the buffer of this grist."""
    doses = liquor(brew).mash_acids
    if acid_meq(doses).high <= 0:
        return []
    kg = sum(part.weight_kg for part in mash.parts)

    def delivered(end: str, ph: float) -> float:
        return sum(float(getattr(dose.gives["acid"], end)) * share_given(dose.known, ph) for dose in doses)

    def moved(end: str, buffer: float) -> float:
        return ph_with_acid(mash.typical, buffer, lambda ph: delivered(end, ph) / kg) - mash.typical

    buffer = mash.buffer
    typical = moved("typical", buffer.typical)
    low, high = min(typical, moved("high", buffer.low)), max(typical, moved("low", buffer.high))
    names = " and ".join(dose.amount.name for dose in doses)
    given = number(delivered("typical", mash.typical + typical), 3)
    sum_ = f"{given} mEq ÷ {number(kg, 3)} kg ÷ {_BUFFER.format(number(buffer.typical, 3))}"
    return [Shift(f"{names}: {sum_}", Range(low, typical, high))]


def _acidulated_beside(brew: Brew) -> float:
    """Acidulated malt that stands among the acids instead of the grist, kg."""
    mash = brew.recipe.mash
    total = 0.0
    for amount in mash.acid if mash.known else ():
        quantity = amount.quantity
        if quantity.known and quantity.kind is Kind.MASS and known_acid(amount.name) == (ACIDULATED_MALT, None):
            total += quantity.range.typical
    return total
