"""Figures of volume: from the mash tun to the fermenter, and all the water that it takes."""

from mashwright.brew.board import lines, number
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import litres_in, thickness_in, to_the_weight, weight_in
from mashwright.brew.pours import (
    Pour,
    absorption,
    dead_space,
    dissolved,
    doughed_in,
    in_the_tun,
    less,
    mash_pours,
    of_one_mash,
    sparge_pour,
    strike_water,
    top_up,
    total,
    unstated_water,
    weight_kg,
)
from mashwright.brewing.volumes import (
    COOLED_SHARE,
    GRAIN_VOLUME_L_PER_KG,
    mash_volume_l,
    total_liquor_l,
)
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.kettle.boil_volumes import (
    KETTLE_SOURCES,
    boil_paths,
    from_waters,
    kettle,
    run_off_of,
)
from mashwright.figures.mash import water_of_open_steps
from mashwright.ingredients.kinds import Place, SpargeBy
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown


def _per_weight(brew: Brew, litres_per_kg: float) -> str:
    """Litres to the kilogram in the recipe's own units: ``0.12 gal/lb``."""
    one, volume, weight = to_the_weight(brew, litres_per_kg)
    return f"{number(one, 3)} {volume}/{weight}"


@figure("liquor-to-grist", unit="l/kg")
def liquor_to_grist(brew: Brew) -> Figure:
    """Mash thickness at mash-in (water to grain)."""
    parts, water = doughed_in(brew), strike_water(brew)
    if not water.stated:
        raise Unknown("the mash water", water.path)
    grain, poured_in = of_one_mash(brew)
    grain_kg = weight_kg(parts) * grain
    value = water.litres * (poured_in / grain_kg)
    poured = mash_pours(brew)
    whole = total(poured) * (poured_in / (weight_kg(in_the_tun(brew)) * grain))

    def working() -> str:
        thick = thickness_in(brew, value.typical)
        met_l = water.litres.typical * poured_in
        rows = [f"{litres_in(brew, met_l)} ÷ {weight_in(brew, grain_kg)} = {thick}{_of_several(brew)}"]
        if len(poured) > 1:
            poured_later = " and ".join(pour.name for pour in poured[1:])
            rows.append(f"with {poured_later}: {thickness_in(brew, whole.typical)}")
        return lines(rows)

    parts_shown = (("in the end", whole),) if len(poured) > 1 else ()
    return Figure(value, working, (water.path,), parts=parts_shown)


@figure("mash-volume", unit="l", sources=("common-practice",))
def mash_volume(brew: Brew) -> Figure:
    """Largest volume of the mash."""
    parts, poured = in_the_tun(brew), mash_pours(brew)
    grain, poured_in = of_one_mash(brew)
    unsaid = water_of_open_steps(brew)
    grain_kg, water = weight_kg(parts) * grain, (total(poured) + Range.exact(unsaid)) * poured_in
    taken = GRAIN_VOLUME_L_PER_KG
    value = Range(
        mash_volume_l(water.low, grain_kg, taken.low),
        mash_volume_l(water.typical, grain_kg, taken.typical),
        mash_volume_l(water.high, grain_kg, taken.high),
    )
    assumed = _assumed_waters(brew, unsaid)

    def working() -> str:
        dry = f"{weight_in(brew, grain_kg)} × {_per_weight(brew, taken.typical)}"
        filled = litres_in(brew, value.typical)
        return f"{litres_in(brew, water.typical)} of water + {dry} = {filled}{_of_several(brew)}"

    return Figure(value, working, tuple(pour.path for pour in poured if pour.stated), assumed)


def _of_several(brew: Brew) -> str:
    """Which mash a volume is of, where the grist is mashed in several."""
    mash = brew.recipe.mash
    if not mash.known or mash.number == 1:
        return ""
    return ", the first of several mashes" if mash.reiterated else f", in each of {mash.number} mashes"


def drained_with_sparge(brew: Brew) -> Range | None:
    """What fills the tun when the water of a batch sparge is poured on the drained grain, l; None for other sparges.

    Of several waters, each drained by itself, the largest.

    Raises:
        Unknown: nothing is mashed, or the sparge water cannot be read.
    """
    sparge = brew.recipe.sparge
    if not sparge.known or sparge.by != SpargeBy.BATCH or not sparge.water.known:
        return None
    grain, poured_in = of_one_mash(brew)
    grain_kg, kept = weight_kg(in_the_tun(brew)) * grain, absorption(brew)[0]
    dead = dead_space(brew)[0] * grain  # each mash leaves its own
    waters = [one.water.range for one in brew.recipe.sparges if one.water.known] or [sparge.water.range]
    taken, water = GRAIN_VOLUME_L_PER_KG, max(waters, key=lambda one: one.typical) * poured_in
    return Range(
        mash_volume_l(water.low + dead.low + kept.low * grain_kg, grain_kg, taken.low),
        mash_volume_l(water.typical + dead.typical + kept.typical * grain_kg, grain_kg, taken.typical),
        mash_volume_l(water.high + dead.high + kept.high * grain_kg, grain_kg, taken.high),
    )


def _assumed_waters(brew: Brew, unsaid: float) -> tuple[str, ...]:
    assumed = []
    water = strike_water(brew)
    if not water.stated:
        assumed.append(unstated_water(brew, water.litres.typical / weight_kg(doughed_in(brew))))
    if unsaid > 0:
        assumed.append(f"{litres_in(brew, unsaid)} for infusions that state no water")
    return tuple(assumed)


@figure("run-off-volume", unit="l", sources=("grain-absorption-page", "common-practice"))
def run_off_volume(brew: Brew) -> Figure:
    """Wort run off into the kettle."""
    poured, sparge = mash_pours(brew), sparge_pour(brew)
    kept, assumed_kept = absorption(brew)
    dead, assumed_dead = dead_space(brew)
    grain_kg = weight_kg(in_the_tun(brew))
    assumed = [one for one in (assumed_kept, assumed_dead) if one]
    if poured[0].stated and sparge is not None:
        water = total((*poured, sparge))
        value = run_off_of(brew, water)
        top = " + ".join(litres_in(brew, pour.litres.typical) for pour in (*poured, sparge) if pour.litres.high > 0)
        waters = tuple(pour.path for pour in (*poured, sparge) if pour.stated)

        def forward() -> str:
            return (
                f"{top} - {weight_in(brew, grain_kg)} × {_per_weight(brew, kept.typical)}"
                f" - {litres_in(brew, dead.typical)} in the tun = {litres_in(brew, value.typical)}"
            )

        return Figure(value, forward, waters, tuple(assumed))
    before = kettle(brew)
    other = _beside_run_off(brew)
    needed = less(before.pre, Range.exact(other))
    assumed = [*before.assumed, "as much sparge water as the batch needs, since the waters are not all stated"]

    def backward() -> str:
        boiled = f"{litres_in(brew, before.pre.typical)} before the boil"
        rest = f" - {litres_in(brew, other)} from steep, top-up, sugars and extract = {litres_in(brew, needed.typical)}"
        return f"{boiled}{rest if other > 0 else ', all of it run off'}"

    return Figure(needed, backward, (brew.recipe.batch.path,), tuple(assumed))


def _beside_run_off(brew: Brew) -> float:
    """What comes to the kettle beside the run-off, l."""
    steep = brew.recipe.steep
    steeped = steep.water.range.typical if steep.water.known else 0.0
    return steeped + top_up(brew, "kettle").typical + dissolved(brew)


@figure("total-liquor", unit="l", sources=("grain-absorption-page", *KETTLE_SOURCES))
def total_liquor(brew: Brew) -> Figure:
    """Water balance of the brew."""
    try:
        waters = _all_waters(brew)
    except Unknown as unknown:
        if unknown.path not in (brew.recipe.grist.path, brew.recipe.mash.path):
            raise
        waters = None  # nothing is mashed
    if waters is not None:
        value = total(waters)
        paths = tuple(pour.path for pour in waters if pour.stated)
        return Figure(value, lambda: _account(brew, value.typical, waters), paths, _losses_assumed(brew))
    reckoned = kettle(brew)
    grain_kg, kept, dead = _kept(brew)
    sugars, added = dissolved(brew), top_up(brew, "fermenter")
    value = Range(
        # measured cold, the same water is 4 % less
        total_liquor_l(reckoned.pre.low * COOLED_SHARE, grain_kg, kept.low, dead.low) + added.low - sugars,
        total_liquor_l(reckoned.pre.typical, grain_kg, kept.typical, dead.typical) + added.typical - sugars,
        total_liquor_l(reckoned.pre.high, grain_kg, kept.high, dead.high) + added.high - sugars,
    )
    value = value.not_below_0
    return Figure(value, lambda: _account(brew, value.typical, None), boil_paths(brew), _losses_assumed(brew))


def _kept(brew: Brew) -> tuple[float, Range, Range]:
    """Grain that keeps wort, kg, what a kg keeps, and what stays in the tun."""
    try:
        return weight_kg(in_the_tun(brew)), absorption(brew)[0], dead_space(brew)[0]
    except Unknown:
        return weight_kg(brew.placed(Place.STEEP)), absorption(brew)[0], Range.exact(0.0)


def _losses_assumed(brew: Brew) -> tuple[str, ...]:
    grain_kg, _, dead = _kept(brew)
    assumed = [absorption(brew)[1]] if grain_kg > 0 else []
    assumed += [dead_space(brew)[1]] if dead.high > 0 else []
    try:
        assumed += kettle(brew).assumed
    except Unknown:
        assumed += []
    return tuple(one for one in assumed if one)


def _all_waters(brew: Brew) -> tuple[Pour, ...] | None:
    """Every water of the recipe, where it states them all."""
    given = from_waters(brew)
    if given is None:
        return None
    pour = brew.recipe.top_up
    added = []
    for vessel in ("kettle", "fermenter"):
        litres = top_up(brew, vessel)
        if pour.known and litres.high > 0:
            added.append(Pour(f"top-up in the {vessel}", litres, (*pour.path, vessel)))
    return (*(one for one in given[1] if one.litres.high > 0), *added)


def _account(brew: Brew, litres: float, waters: tuple[Pour, ...] | None) -> str:
    """Where all of the water goes, a line each; what is left over is said."""
    rows = []
    if waters is not None:
        sums = " + ".join(f"{litres_in(brew, pour.litres.typical)} {pour.name}" for pour in waters)
        rows.append(f"{sums} = {litres_in(brew, litres)}")
    grain_kg, kept, dead = _kept(brew)
    gone = [(f"kept by {weight_in(brew, grain_kg)} of grain", kept.typical * grain_kg)] if grain_kg > 0 else []
    gone.append(("left in the tun", dead.typical))
    sugars = dissolved(brew)
    try:
        reckoned = kettle(brew)
    except Unknown:
        reckoned = None
    if reckoned is not None:
        boiled = reckoned.pre.typical - reckoned.post.typical
        gone += [("boiled away", boiled), ("left in the kettle with hops and trub", reckoned.loss.typical)]
        into = top_up(brew, "fermenter").typical + reckoned.wort.typical
        if waters is None:
            gone.append(("shrinks on cooling", reckoned.post.typical * (1 - COOLED_SHARE)))
            gone.append(("into the fermenter", into))
        else:
            hot = litres + sugars - sum(amount for _, amount in gone[:-1]) - top_up(brew, "fermenter").typical
            gone.append(("shrinks on cooling", hot * (1 - COOLED_SHARE)))
    rows += [f"  {litres_in(brew, amount)} {what}" for what, amount in gone if amount > 0.005]
    if sugars > 0.05:
        rows.append(f"  less {litres_in(brew, sugars)} that dissolved sugars and extract bring")
    if waters is None:
        rows.append(f"  = {litres_in(brew, litres)}; up to 4 % less if it is measured cold")
    elif reckoned is not None:
        left = litres + sugars - sum(amount for _, amount in gone)
        wanted = reckoned.wort.typical + top_up(brew, "fermenter").typical
        rows.append(f"  leaves {litres_in(brew, left)} for the fermenter, which needs {litres_in(brew, wanted)}")
    return lines(rows)
