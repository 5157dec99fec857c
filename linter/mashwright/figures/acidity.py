"""The figure of the mash's pH."""

from mashwright.brewing.mash_ph import (
    ACID_BUFFER_MEQ,
    ACIDULATED_PH_PER_PERCENT,
    Shift,
    distilled_water_ph,
    grain_of,
    mash_ph_band,
    slope_ph_per_meq_l,
)
from mashwright.figures.board import lines, number
from mashwright.figures.brew import Brew
from mashwright.figures.figure import Figure, Unknown
from mashwright.figures.function import figure
from mashwright.figures.liquor import acid_meq, liquor, water_in_mash
from mashwright.figures.parts import Part
from mashwright.figures.pours import USUAL_THICKNESS, unstated_water
from mashwright.finding import Range
from mashwright.ingredients.minerals import acid as known_acid
from mashwright.reading.quantity import Kind

# Weaker than this a straight line through the buffer of malt leads nowhere; pH, judgement.
LINE_ENDS_PH = 4.8


@figure("mash-ph", unit="pH", sources=("troester-mash-ph", "mash-ph-page", "briggs-2004", "from-memory", "judgement"))
def mash_ph(brew: Brew) -> Figure:
    """Mash pH of a cooled sample, a band."""
    water, parts = water_in_mash(brew), brew.mashed()
    thickness, assumed = _thickness(brew, parts)
    for part in parts:
        if part.colour_lovibond is None:
            raise Unknown(f"the colour of {part.name}", part.path)
    distilled = distilled_water_ph(
        (grain_of(part.kind, part.cereal, part.colour_lovibond.typical), part.amount)
        for part in parts
        if part.colour_lovibond is not None
    )
    residual = water.residual_meq_l
    slope = slope_ph_per_meq_l(thickness.typical)
    typical = slope.typical * residual.typical
    ends = [one * other for one in (slope.low, slope.high) for other in (residual.low, residual.high)]
    shifts = [Shift("water", Range(min(*ends, typical), typical, max(*ends, typical)))]
    shifts += _acids(brew, parts)
    band = mash_ph_band(distilled, shifts)

    def working() -> str:
        rows = [f"this grist in distilled water: about {number(distilled.typical, 3)}"]
        rows.append(
            f"water: residual alkalinity {number(residual.typical, 3)} mEq/l × (0.013 ×"
            f" {number(thickness.typical, 3)} l/kg + 0.013) = {_signed(shifts[0].ph.typical)}"
        )
        rows += [f"{shift.what}: {_signed(shift.ph.typical)}" for shift in shifts[1:]]
        total = f"  = {band.typical:.2f}, somewhere from {band.low:.2f} to {band.high:.2f}: no sum is surer, so measure"
        if band.typical < LINE_ENDS_PH:
            total += "; so sour that the sum is hardly more than a guess"
        return lines([*rows, total])

    return Figure(
        band,
        working,
        paths=(*(part.path for part in parts), *((("water",),) if brew.recipe.water is not None else ())),
        assumed=(*water.assumed, *assumed),
    )


def _signed(shift: float) -> str:
    return f"{shift:+.2f} pH".replace("-", "−")


def _thickness(brew: Brew, parts: tuple[Part, ...]) -> tuple[Range, tuple[str, ...]]:
    volume = liquor(brew).mash_l
    if volume is not None:
        kg = sum(part.weight_kg for part in parts)
        return volume * (1 / kg), ()
    return USUAL_THICKNESS, (unstated_water(brew, USUAL_THICKNESS.typical),)


def _acids(brew: Brew, parts: tuple[Part, ...]) -> list[Shift]:
    shifts = []
    kg_or_share = sum(part.amount for part in parts)
    malt = sum(part.amount for part in parts if part.kind == "acidulated malt")
    added_kg = _acidulated_beside(brew)
    if malt or added_kg:
        percent = 100 * malt / kg_or_share
        if added_kg:
            percent += 100 * added_kg / sum(part.weight_kg for part in parts)
        fall = ACIDULATED_PH_PER_PERCENT
        moved = Range(-percent * fall.high, -percent * fall.typical, -percent * fall.low)
        shifts.append(Shift(f"{number(percent, 2)} % of acidulated malt × 0.1", moved))
    doses = liquor(brew).mash_acids
    meq = acid_meq(doses)
    if meq.high > 0:
        kg = sum(part.weight_kg for part in parts)
        buffer = ACID_BUFFER_MEQ
        moved = Range(-meq.high / kg / buffer.low, -meq.typical / kg / buffer.typical, -meq.low / kg / buffer.high)
        names = " and ".join(dose.amount.name for dose in doses)
        sum_ = (
            f"{number(meq.typical, 3)} mEq ÷ {number(kg, 3)} kg ÷ {number(buffer.typical)} mEq that move 1 kg by 1 pH"
        )
        shifts.append(Shift(f"{names}: {sum_}", moved))
    return shifts


def _acidulated_beside(brew: Brew) -> float:
    """Acidulated malt that stands among the acids instead of the grist, kg."""
    mash = brew.recipe.mash
    total = 0.0
    for amount in mash.acid if mash is not None else ():
        quantity = amount.quantity
        if quantity is not None and quantity.kind is Kind.MASS and known_acid(amount.name) == ("acidulated malt", None):
            total += quantity.range.typical
    return total
