"""The waters and vessels of a brew: what the recipe pours, and what the brewhouse keeps or boils away."""

from msgspec import Struct

from mashwright.brew.batch import fermenter_volume_of, kettle_loss_of, kit_of
from mashwright.brew.board import number
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import litres_in, thickness_in, to_the_weight
from mashwright.brew.parts import Part, weighed
from mashwright.brewing.boiling import usual_boil_off_l_per_h
from mashwright.brewing.volumes import (
    ABSORPTION_L_PER_KG,
    BAG_ABSORPTION_L_PER_KG,
    EXTRACT_VOLUME_L_PER_KG,
)
from mashwright.finding import Path
from mashwright.ingredients.kinds import Place, SpargeBy
from mashwright.measures.range import Range
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.stated import Open, Stated, Unknown

# Liquor to grist where a recipe states neither water nor thickness, l/kg; common practice.
USUAL_THICKNESS = Range(2.5, 3.0, 3.6)
# Wort below the false bottom where no brewhouse says it, share of the mash water; common practice.
_DEAD_SHARE = Range(0.0, 0.02, 0.05)
_USUAL_BOIL_MIN = 60.0  # common practice
_LONG_BOIL_MIN = 90.0  # the longest that is usual; common practice
_EXACT_0 = Range.exact(0.0)


class Pour(Struct, frozen=True, gc=False):
    """One water of a brew.

    Attributes:
        name: strike, infusion, cereal mash, sparge, steep, top-up in the kettle, top-up in the fermenter.
        litres: as stated or reckoned.
        path: where it stands, or would stand.
        stated: whether the recipe says it.
    """

    name: str
    litres: Range
    path: Path
    stated: bool = True


def kit(brew: Brew) -> Brewhouse:
    """The brewhouse whose vessels the recipe is brewed in; an empty one where they are far too small for it."""
    return kit_of(brew.recipe, brew.brewhouse)


def unstated_water(brew: Brew, litres_per_kg: float) -> str:
    """What is taken where the recipe states no mash water, as an assumption tells it. Raises as ``thickness_unit``."""
    return f"a mash of {thickness_in(brew, litres_per_kg)}, since no mash water is stated"


def doughed_in(brew: Brew) -> tuple[Part, ...]:
    """What the strike water meets: all that is mashed from the beginning, but not what comes from the cereal cooker.

    Raises:
        Unknown: nothing is mashed, or its weight is not known.
    """
    parts = weighed(brew.mashed())
    return tuple(part for part in parts if not part.line.cereal_mash) or parts


def of_one_mash(brew: Brew) -> tuple[float, float]:
    """What part of the grain and of the mash water is in the tun at once: all, where the grist is mashed once."""
    mash = brew.recipe.mash
    mash.mashes.readable("a readable number of mashes")
    number = mash.number if mash.known else 1
    return 1 / number, 1.0 if mash.reiterated else 1 / number


def has_mash(brew: Brew) -> bool:
    """Whether anything is mashed; taken so where the grist cannot be read."""
    if brew.recipe.mash.known:
        return True
    try:
        return bool(brew.placed(Place.MASH, Place.LATE_MASH))
    except Unknown:
        return True


def in_the_tun(brew: Brew) -> tuple[Part, ...]:
    """All that lies in the tun at the end, late grain and hulls too."""
    brew.mashed()
    return weighed(brew.placed(Place.MASH, Place.LATE_MASH))


def weight_kg(parts: tuple[Part, ...]) -> float:
    """Typical weight of several parts, kg."""
    return sum(part.weight_kg for part in parts)


@once
def strike_water(brew: Brew) -> Pour:
    """The water of dough-in: stated, by the thickness, or a usual one.

    Raises:
        Unknown: nothing is mashed, or what is stated cannot be read.
    """
    grain_kg = weight_kg(doughed_in(brew))
    mash = brew.recipe.mash
    if not mash.known:
        steep = brew.recipe.steep
        if steep.water.known:
            return _more_than_nothing(Pour("strike", steep.water.range, steep.water.path))
        return Pour("strike", USUAL_THICKNESS * grain_kg, brew.recipe.mash.path, stated=False)
    mash.water.readable("a readable water of the mash")
    mash.thickness.readable("a readable thickness of the mash")
    grain, water = of_one_mash(brew)
    met_kg = grain_kg * grain / water  # a reiterated mash draws the water of its first part alone
    if mash.water.known:
        return _more_than_nothing(Pour("strike", mash.water.range, mash.water.path))
    if mash.thickness.known:
        return _more_than_nothing(Pour("strike", mash.thickness.range * met_kg, mash.thickness.path))
    return Pour("strike", USUAL_THICKNESS * met_kg, mash.water.path, stated=False)


def _more_than_nothing(pour: Pour) -> Pour:
    if pour.litres.low <= 0:
        raise Open("mash water of more than nothing", pour.path)
    return pour


def mash_pours(brew: Brew) -> tuple[Pour, ...]:
    """The waters that lie in the mash tun in the end, the cereal mash's and the infusions' too.

    An infusion whose water the recipe leaves open is not among them.
    """
    pours = [strike_water(brew)]
    recipe = brew.recipe
    cooker = recipe.cereal_mash
    if cooker.water.known:
        pours.append(Pour("cereal mash", cooker.water.range, cooker.water.path))
    rests = recipe.mash.rests if recipe.mash.known else ()
    pours += [Pour("infusion", rest.water.range, rest.water.path) for rest in rests if rest.water.known]
    return tuple(pours)


def total(pours: tuple[Pour, ...] | list[Pour]) -> Range:
    """Waters added up, l."""
    return sum((pour.litres for pour in pours), _EXACT_0)


def sparge_pour(brew: Brew) -> Pour | None:
    """The sparge water; nothing where there is none, None where the recipe leaves it open."""
    recipe = brew.recipe
    sparge = recipe.sparge
    sparge.water.readable("a readable sparge")
    path = sparge.water.path if sparge.known else sparge.path
    if sparge.water.known:
        return Pour("sparge", sparge.water.range, path)
    if sparge.known and sparge.by == SpargeBy.NONE:
        return Pour("sparge", _EXACT_0, path)
    in_a_bag = recipe.mash.known and recipe.mash.bag
    return Pour("sparge", _EXACT_0, path, stated=False) if in_a_bag and not sparge.known else None


def top_up(brew: Brew, vessel: str) -> Range:
    """Water added in the ``kettle`` or ``fermenter``, l; of several worts, in those of all of them."""
    worts = brew.recipe.worts
    stated: list[Stated] = [getattr(one.top_up, vessel) for one in worts or (brew.recipe,)]
    return sum((quantity.range for quantity in stated if quantity.known), _EXACT_0)


@once
def absorption(brew: Brew) -> tuple[Range, str]:
    """Wort that drained grain keeps, l/kg, and what was assumed, "" where the brewhouse says it."""
    house = kit(brew)
    mash = brew.recipe.mash
    bag = mash.known and mash.bag
    if house.absorption.known:
        stated = house.absorption.range
        return (Range(min(stated.low, BAG_ABSORPTION_L_PER_KG.low), stated.typical, stated.high) if bag else stated), ""
    if bag:
        usual = BAG_ABSORPTION_L_PER_KG
        low, typical, _, volume, weight = _kept(brew, usual)
        return usual, f"{typical} {volume} of wort kept by each {weight} of grain in the bag, {low} if squeezed"
    usual = ABSORPTION_L_PER_KG
    low, typical, high, volume, weight = _kept(brew, usual)
    return usual, f"{typical} {volume} of wort kept by each {weight} of grain ({low} to {high})"


def _kept(brew: Brew, usual: Range) -> tuple[str, str, str, str, str]:
    """The three values in the recipe's own units, and these."""
    try:
        scale, volume, weight = to_the_weight(brew, 1.0)
    except Unknown:
        scale, volume, weight = 1.0, "l", "kg"
    low, typical, high = (number(one * scale, 3 if scale == 1 else 2) for one in (usual.low, usual.typical, usual.high))
    return low, typical, high, volume, weight


def dead_space(brew: Brew) -> tuple[Range, str]:
    """Wort that stays in the tun below the false bottom, l, and what was assumed."""
    mash = brew.recipe.mash
    if not mash.known or mash.bag:
        return _EXACT_0, ""
    tun = kit(brew).mash_tun
    if tun.dead_space.known:
        return tun.dead_space.range * mash.number, ""
    left = _DEAD_SHARE * strike_water(brew).litres.typical
    return left, f"{litres_in(brew, left.typical)} left in the tun (0 to {litres_in(brew, left.high)})"


def boil_minutes(brew: Brew) -> tuple[Range, str]:
    """Length of the boil, min, and what was assumed."""
    recipe = brew.recipe
    if recipe.boil.time.known:
        return recipe.boil.time.range, ""
    recipe.boil.time.readable("a readable length of the boil")
    # hops that go in as the heat goes off say nothing of how long it boiled before
    longest = max((hop.boil.range.typical for hop in recipe.hops if hop.boil.known), default=0) or _USUAL_BOIL_MIN
    minutes = Range(longest, longest, max(longest, _LONG_BOIL_MIN))
    return minutes, f"a boil of {number(longest, 3)} min, since its length is not stated"


def boil_off(brew: Brew, wort_l: float) -> tuple[Range, str]:
    """Water that boils away in an hour, l/h, and what was assumed."""
    kettle = kit(brew).kettle
    if kettle.boil_off.known:
        return kettle.boil_off.range, ""
    usual = usual_boil_off_l_per_h(wort_l)
    ends = f"{litres_in(brew, usual.low)} to {litres_in(brew, usual.high)}"
    return usual, f"{litres_in(brew, usual.typical)} boiled away in an hour ({ends})"


def kettle_loss(brew: Brew, wort: Range) -> tuple[Range, str]:
    """Wort that stays in the kettle with hops and trub, l at 20 °C, and what was assumed."""
    lost = kettle_loss_of(brew.recipe, brew.brewhouse, wort)
    if not lost.stated:
        return lost.litres, f"{litres_in(brew, lost.litres.typical)} left in the kettle with hops and trub"
    many = lost.of_hops.high > 0
    return lost.litres, f"{litres_in(brew, lost.of_hops.typical)} more kept by this many hops" if many else ""


def into_fermenter(brew: Brew) -> Range:
    """Beer wort in the fermenter, l at 20 °C, what is topped up there included.

    Raises:
        Unknown: the recipe gives no batch that can be read, or one of which nothing is left.
    """
    return with_top_up(brew, fermenter_volume_of(brew.recipe, brew.brewhouse))


def with_top_up(brew: Brew, volume: Range) -> Range:
    """A batch counted in the kettle is diluted by what is added in the fermenter; others hold it already."""
    batch = brew.recipe.batch
    in_kettle = batch.known and not batch.fermenter.known and batch.kettle.known
    return volume + top_up(brew, "fermenter") if in_kettle else volume


def less(first: Range, second: Range) -> Range:
    """What is left of a volume, never below 0."""
    return (first - second).not_below_0


def dissolved(brew: Brew) -> float:
    """Volume that sugars and malt extract bring to the kettle, l."""
    litres = 0.0
    for part in weighed(brew.placed(Place.KETTLE)):
        if part.extract is not None:
            extract_kg = part.weight_kg * part.extract.typical
            litres += extract_kg * EXTRACT_VOLUME_L_PER_KG + max(0.0, part.weight_kg - extract_kg)
    return litres


__all__ = [
    "Pour",
    "absorption",
    "boil_minutes",
    "boil_off",
    "dead_space",
    "dissolved",
    "doughed_in",
    "has_mash",
    "in_the_tun",
    "into_fermenter",
    "kettle_loss",
    "kit",
    "less",
    "mash_pours",
    "of_one_mash",
    "sparge_pour",
    "strike_water",
    "top_up",
    "total",
    "unstated_water",
    "weight_kg",
]
