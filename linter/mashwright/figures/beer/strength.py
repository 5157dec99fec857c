"""Figures of the beer: how far it ferments, and how strong that makes it."""

from collections.abc import Callable
from typing import NamedTuple

from msgspec import Struct

from mashwright.brew.board import gravity, lines, number
from mashwright.brew.brew import Brew
from mashwright.brew.enzymes import late_enzymes, mash_enzymes
from mashwright.brew.once import once
from mashwright.brew.own import kind_of, yeast_of
from mashwright.brew.parts import MALT_EXTRACTS, Part
from mashwright.brew.plan import USUAL_REST_C
from mashwright.brew.yeasts import kinds
from mashwright.brewing.alcohol import alcohol_by_volume, final_gravity, real_degree
from mashwright.brewing.attenuation import (
    DIASTATIC,
    LACTOSE,
    MALTODEXTRIN,
    ROASTED,
    USUAL_YEAST,
    base_malt_share,
    caramel_malt_share,
    kilned_malt_share,
    late_starch,
    little_enzyme,
    malt_extract_share,
    malt_wort_attenuation,
    time_counts,
    wort_attenuation,
    yeast_pull,
)
from mashwright.brewing.gravity import points
from mashwright.brewing.mash import minutes_counted
from mashwright.brewing.mash_rates import ADDED_LINTNER
from mashwright.figures.beer.unboiled import UNBOILED_PERCENT, living_enzymes
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.grist import grist_diastatic_power
from mashwright.figures.mash import Delivery, deliveries, follow, og, rests_at
from mashwright.finding import Path
from mashwright.ingredients.kinds import IngredientKind, Sort, YeastSort
from mashwright.measures.constants import REAL_PER_APPARENT
from mashwright.measures.range import Range
from mashwright.recipe.model import Yeast
from mashwright.recipe.stated import Unknown
from mashwright.words.vocabulary import mentions

ORDINARY_CEILING = 88.0  # apparent attenuation at which an all-malt wort ends with ordinary yeast, %; common practice
WILD = 88.0  # apparent attenuation that Brettanomyces usually brings a beer to, %; from memory
UNSAID = 3.0  # points added to the band for each of yeast and mash that the recipe does not state; judgement
_SUGAR = 0.95  # of a sugar of which nothing is known: nearly all of it ferments; judgement
_WORTH_SAYING = 1.0  # points by which sugar lifts a wort's attenuation; judgement
_SOURCES = ("chandrasekhar", "munsche-1894", "moritz-1891", "mash-or-steep-article", "judgement")


class Splitter(NamedTuple):
    """What goes on splitting dextrins in the beer.

    Attributes:
        name: as a brewer says it: ``diastatic saison yeast``, ``glucoamylase in the fermenter``.
        path: where it stands.
        of_malt: it is the malt's own enzymes, in wort that was not boiled.
    """

    name: str
    path: Path
    of_malt: bool = False


class Fermenting(Struct, frozen=True, gc=False):
    """What the yeast of a recipe can do.

    Attributes:
        attenuation: apparent, %, of a usual wort.
        tolerance: % ABV, or None where nothing says it.
        splitter: what goes on splitting dextrins in the beer, None where nothing does.
        mash_enzyme: what split them in the mash alone, "" where nothing did.
        assumed: where the recipe names no yeast that is known.
    """

    attenuation: Range
    tolerance: Range | None
    splitter: Splitter | None
    mash_enzyme: str
    assumed: str
    path: Path

    @property
    def dextrins(self) -> bool:
        """Whether dextrins go on fermenting, in the bottle too: by diastatic yeast, or enzymes that nothing ended."""
        return self.splitter is not None


@once
def fermenting(brew: Brew) -> Fermenting:
    """The yeast: as stated, else of the table by its kind; of several, what the strongest can do.

    Raises:
        Unknown: a stated value cannot be read.
    """
    recipe = brew.recipe
    splitter = still_splitting(brew)
    added = mash_enzymes(recipe, brew.brewhouse)
    mash_enzyme = next((one.name for one in added if _surely_splits(brew, one.name)), "")
    usual = Range(USUAL_YEAST - 5, USUAL_YEAST, USUAL_YEAST + 5)
    yeasts = [yeast for yeast in recipe.yeast if not _only_sours(brew, yeast)]
    if not yeasts:
        assumed = f"a yeast of {USUAL_YEAST:g} % attenuation, since none is stated"
        return Fermenting(usual, None, splitter, mash_enzyme, assumed, recipe.yeast.path)
    attenuations, tolerances, assumed = [], [], ""
    for yeast in yeasts:
        yeast.attenuation.readable("a readable attenuation of the yeast")
        yeast.tolerance.readable("a readable tolerance of the yeast")
        known = yeast_of(brew.brewhouse, yeast.kind) if yeast.kind else None
        stated = yeast.attenuation.range if yeast.attenuation.known else None
        attenuations.append(stated or (known.attenuation if known is not None else usual))
        if stated is None and known is None:
            assumed = f"{USUAL_YEAST:g} % attenuation for the yeast, of which nothing is known"
        if yeast.tolerance.known:
            tolerances.append(yeast.tolerance.range)
        elif known is not None:
            tolerances.append(known.tolerance)
    attenuation = max(attenuations, key=lambda value: value.typical)
    tolerance = max(tolerances, key=lambda value: value.typical) if len(tolerances) == len(yeasts) else None
    return Fermenting(attenuation, tolerance, splitter, mash_enzyme, assumed, yeasts[0].path)


def still_splitting(brew: Brew) -> Splitter | None:
    """What goes on splitting dextrins in the beer: diastatic yeast, else an enzyme that nothing has ended.

    The boil ends what an enzyme in the mash does; what goes into the fermenter works on, and so does that of a mash
    whose wort is stated not to be boiled.
    """
    recipe = brew.recipe
    for yeast, known in zip(recipe.yeast, kinds(brew), strict=True):
        if yeast.diastatic or (yeast.diastatic is None and known is not None and known.surely_splits):
            kind = yeast.kind.removeprefix("diastatic ").removesuffix("yeast").strip()
            name = " ".join(filter(None, ("diastatic", kind, "yeast")))
            return Splitter(name, (*yeast.path, "diastatic") if yeast.diastatic else yeast.kind.path)
    added = [one for one in late_enzymes(recipe, brew.brewhouse) if _may_split(brew, one.name)]
    if added:
        first = min(added, key=lambda one: not _surely_splits(brew, one.name))
        return Splitter(f"{first.name} in the fermenter", first.path)
    boil = recipe.boil.time
    if boil.known and boil.range.high <= 0:
        for one in mash_enzymes(recipe, brew.brewhouse):
            if _surely_splits(brew, one.name):
                return Splitter(f"{one.name} in wort that was not boiled", one.path)
    if (path := living_enzymes(brew)) is not None:
        return Splitter("malt enzymes in unboiled wort", path, of_malt=True)
    return None


def _only_sours(brew: Brew, yeast: Yeast) -> bool:
    """Whether a culture is of bacteria that sour a wort and ferment little of it."""
    known = yeast_of(brew.brewhouse, yeast.kind) if yeast.kind else None
    return known is not None and known.sort is YeastSort.BACTERIA


def malt_degree(brew: Brew, yeast: Fermenting) -> tuple[float, Callable[[], list[str]]]:
    """Real degree to which what the mash converts will ferment, 0-1, and its working.

    Raises:
        Unknown: the mash cannot be followed.
    """
    mashed = follow(brew)
    convert_c = mashed.typical.convert_c
    if convert_c is None:
        raise Unknown("a rest that converts starch", brew.recipe.mash.rests.path)
    rests = rests_at(brew.plan.rests, "typical")
    minutes = minutes_counted(rests)
    power = grist_diastatic_power(brew).typical + (ADDED_LINTNER if brew.adds("starch") else 0.0)
    if brew.adds("starch"):
        convert_c = min(
            convert_c, USUAL_REST_C.typical
        )  # such enzymes stand more heat; how far they split is not known
    malt = malt_wort_attenuation(convert_c, minutes, power)
    degree = base_malt_share(malt, yeast.attenuation.typical)

    def working() -> list[str]:
        at, weight, counted = number(convert_c, 3), 0.06 * time_counts(convert_c), min(max(minutes, 15.0), 120.0)
        time = f" × (1 + {number(weight, 2)} × ln({number(counted, 3)} min ÷ 60))" if weight and counted != 60 else ""
        late = late_starch(convert_c, minutes)
        late_said = f" - {number(late, 2)} for late starch" if late else ""
        few = f" - {number(little_enzyme(convert_c), 3)} × (60 - {number(power, 3)} °Lintner)" if power < 60 else ""
        usual, this = number(malt, 3), number(yeast.attenuation.typical, 3)
        pulled: str = usual
        if pull := yeast_pull(yeast.attenuation.typical):
            pulled = f"({usual} {'+' if pull > 0 else '-'} {number(abs(pull), 2)} for a yeast of {this} %)"
        return [
            f"mash: starch turned to sugar at {at} °C on average, {number(minutes, 3)} min at 60-70 °C:",
            f"  90 ÷ (1 + e^(({at} - 76.8) ÷ 4.8)){time}{late_said}{few} = {usual} % with a usual yeast",
            f"  {REAL_PER_APPARENT:g} × {pulled} ÷ 100 = {number(degree, 3)}, the real degree of base malt",
        ]

    return degree, working


def degree_of(part: Part, malt: float, yeast: Fermenting) -> float:
    """Real degree to which one part ferments, 0-1."""
    if part.kind == IngredientKind.ROASTED_MALT:
        return ROASTED
    if part.kind == IngredientKind.CARAMEL_MALT:
        return caramel_malt_share(part.colour_lovibond.typical if part.colour_lovibond is not None else 60.0)
    if part.kind in MALT_EXTRACTS:
        return malt_extract_share(yeast.attenuation.typical, liquid=part.kind == IngredientKind.LIQUID_EXTRACT)
    if part.sweet:
        if part.table_name == "lactose":
            return LACTOSE
        if part.table_name == "maltodextrin":
            return MALTODEXTRIN
        return part.ferments(_SUGAR)
    return kilned_malt_share(malt) if part.kind == IngredientKind.KILNED_MALT else malt


@figure("apparent-attenuation", unit="%", sources=_SOURCES)
def apparent_attenuation(brew: Brew) -> Figure:
    """Expected apparent attenuation."""
    yeast = fermenting(brew)
    given = [one for one in deliveries(brew) if one.typical_kg > 0]
    if not given:
        raise Unknown("extract in the grist", brew.recipe.grist.path)
    needs_mash = any(
        one.part.mashed and one.part.kind not in (IngredientKind.CARAMEL_MALT, IngredientKind.ROASTED_MALT)
        for one in given
    )
    malt, of_the_mash = malt_degree(brew, yeast) if needs_mash else (0.0, list)
    degrees = [(one, degree_of(one.part, malt, yeast)) for one in given]
    gravity_points = points(og(brew).typical)
    band = wort_attenuation([(one.typical_kg, degree) for one, degree in degrees], gravity_points)
    total = sum(one.typical_kg for one in given)
    assumed = tuple(text for text in (yeast.assumed, *(brew.plan.assumed if needs_mash else ())) if text)
    wider = UNSAID * (bool(yeast.assumed) + (needs_mash and not brew.plan.stated))
    ceiling = apparent_ceiling(brew)
    splits = yeast.dextrins or bool(yeast.mash_enzyme)
    if not splits and wild(brew):
        value = Range(max(0.0, band.low - wider), max(WILD, band.typical), max(DIASTATIC.high, band.high))
        assumed = (*assumed, "some of the dextrins fermented too, by Brettanomyces in its months")
    elif yeast.splitter is not None and yeast.splitter.of_malt:
        value = Range(max(0.0, band.low - wider), max(UNBOILED_PERCENT, band.typical), max(DIASTATIC.high, band.high))
        assumed = (*assumed, f"dextrins fermented too, by {yeast.splitter.name}")
    elif splits:
        value = Range(
            max(DIASTATIC.low, band.low), max(DIASTATIC.typical, band.typical), max(DIASTATIC.high, band.high)
        )
        by = yeast.splitter.name if yeast.splitter is not None else f"{yeast.mash_enzyme} in the mash"
        assumed = (*assumed, f"dextrins fermented too, by {by}")
    else:
        most = ceiling if ceiling is not None else max(100.0, band.typical)
        low, typical, high = band.low - wider, band.typical, band.high + wider
        value = Range(*(max(0.0, min(most, one)) for one in (low, typical, high)))

    def working() -> str:
        rows = of_the_mash()
        rows += [
            f"  {number(100 * one.typical_kg / total, 3)} % of the extract from {one.part.name} × {number(degree, 3)}"
            for one, degree in degrees
        ]
        held = ""
        if value.typical < band.typical:
            held = f", held to {number(value.typical, 3)} %, which ordinary yeast does not pass"
        elif value.typical > band.typical:
            held = f", taken as {number(value.typical, 3)} %, since dextrins ferment too"
        late = f", less {number(0.1 * (gravity_points - 65), 2)} for a strong wort" if gravity_points > 65 else ""
        rows.append(
            f"  added up, ÷ {REAL_PER_APPARENT:g} for what a hydrometer shows{late} = {number(band.typical, 3)} %{held}"
        )
        rows += _lifted_by_sugar(degrees, gravity_points, band.typical, yeast)
        return lines(rows)

    return Figure(
        value,
        working,
        paths=(yeast.path, *(one.part.path for one in given)),
        assumed=assumed,
        sources=("cutaia-2009", *(("sta1-guide", "raw-ale-answer") if splits else ())),
    )


def _lifted_by_sugar(
    degrees: list[tuple[Delivery, float]], gravity_points: float, whole: float, yeast: Fermenting
) -> list[str]:
    """Why a wort with sugar goes further than its malt, and than its yeast is said to; nothing where none does."""
    others = [(one.typical_kg, degree) for one, degree in degrees if not one.part.sweet]
    if not others or len(others) == len(degrees):
        return []
    without = wort_attenuation(others, gravity_points).typical
    if whole - without < _WORTH_SAYING:
        return []
    of_yeast = yeast.attenuation.typical
    beyond = f", and further than the {number(of_yeast, 3)} % of its yeast" if whole > of_yeast else ""
    why = "sugar ferments completely, so the wort ferments further than its malt alone"
    return [f"  without its sugar {number(without, 3)} %: {why}{beyond}"]


@figure("fg", unit="SG", sources=("common-practice",))
def fg(brew: Brew) -> Figure:
    """Final gravity."""
    start, attenuation = og(brew), apparent_attenuation(brew)
    value = Range.along(final_gravity, (start.range,), (attenuation.range,))
    return Figure(
        value,
        lambda: (
            f"1 + ({gravity(start.typical)} - 1) × (1 - {number(attenuation.typical, 3)} ÷ 100)"
            f" = {gravity(value.typical)}"
        ),
        paths=attenuation.paths,
        assumed=(*start.assumed, *attenuation.assumed),
        sources=(*attenuation.sources, *start.sources),
        memory=start.memory,
    )


@figure("real-attenuation", unit="%", sources=("balling-nielsen", "cutaia-2009"))
def real_attenuation(brew: Brew) -> Figure:
    """Expected real attenuation."""
    start, attenuation = og(brew), apparent_attenuation(brew)
    value = Range.span(lambda sg, aa: real_degree(sg, final_gravity(sg, aa)), start.range, attenuation.range)
    return Figure(
        value,
        lambda: f"about {REAL_PER_APPARENT:g} × {number(attenuation.typical, 3)} % = {number(value.typical, 3)} %",
        paths=attenuation.paths,
        assumed=attenuation.assumed,
        sources=attenuation.sources,
        memory=start.memory,
    )


@figure("abv", unit="% vol", sources=("balling-nielsen", "oiml-r22"))
def abv(brew: Brew) -> Figure:
    """Alcohol by volume."""
    start, attenuation = og(brew), apparent_attenuation(brew)
    value = Range.along(lambda sg, aa: alcohol_by_volume(sg, final_gravity(sg, aa)), (start.range, attenuation.range))
    end = final_gravity(start.typical, attenuation.typical)
    return Figure(
        value,
        lambda: (
            f"Balling's balance from {gravity(start.typical)} to {gravity(end)}"
            f" = {number(value.typical, 3)} % by volume"
        ),
        paths=attenuation.paths,
        assumed=(*start.assumed, *attenuation.assumed),
        sources=(*attenuation.sources, *start.sources),
        memory=start.memory,
    )


def _surely_splits(brew: Brew, enzyme: str) -> bool:
    """Whether an enzyme of this name, or one of a blend, takes dextrins apart; the brewhouse's own by its kind."""
    return mentions("splits-dextrins", "ingredient", kind_of(brew.brewhouse, Sort.ENZYME, enzyme))


def _may_split(brew: Brew, enzyme: str) -> bool:
    """Whether it may: all that is not known to work on something else alone."""
    kind = kind_of(brew.brewhouse, Sort.ENZYME, enzyme)
    return _surely_splits(brew, enzyme) or not mentions("splits-no-dextrins", "ingredient", kind)


def splits_dextrins(brew: Brew) -> bool:
    """Whether diastatic yeast, Brettanomyces, or enzymes added to mash or fermenter may take the wort all the way."""
    added = mash_enzymes(brew.recipe, brew.brewhouse)
    return fermenting(brew).dextrins or wild(brew) or any(_may_split(brew, one.name) for one in added)


def wild(brew: Brew) -> bool:
    """Whether Brettanomyces, alone or in a mixed culture, goes on fermenting for months."""
    return any(kind is not None and kind.goes_on for kind in kinds(brew))


def apparent_ceiling(brew: Brew, malt_percent: float = ORDINARY_CEILING) -> float | None:
    """Apparent attenuation that ordinary yeast does not pass, %, or None where something splits dextrins.

    None, too, where the yeast is known or stated to go further.

    Args:
        malt_percent: of an all-malt wort; what is sugar ferments wholly and lifts it.

    Raises:
        Unknown: the extract of a line is not known.

    Source: mixing by mass of extract, as in the attenuation of a wort.
    """
    if splits_dextrins(brew) or fermenting(brew).attenuation.high > malt_percent:
        return None
    given = deliveries(brew)
    total = sum(one.typical_kg for one in given)
    if total <= 0:
        return malt_percent
    sugar = sum(one.typical_kg * one.part.ferments(_SUGAR) for one in given if one.part.sweet)
    return malt_percent * (1 - sugar / total) + 100 / REAL_PER_APPARENT * sugar / total
