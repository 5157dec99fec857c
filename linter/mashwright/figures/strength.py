"""Figures of the beer: how far it ferments, and how strong that makes it."""

from dataclasses import dataclass

from mashwright.brewing.alcohol import alcohol_by_volume, final_gravity, real_degree
from mashwright.brewing.attenuation import (
    DIASTATIC,
    LACTOSE,
    MALTODEXTRIN,
    REAL_PER_APPARENT,
    ROASTED,
    USUAL_YEAST,
    base_malt_share,
    caramel_malt_share,
    kilned_malt_share,
    malt_extract_share,
    malt_wort_attenuation,
    wort_attenuation,
)
from mashwright.brewing.gravity import points
from mashwright.brewing.mash import minutes_below
from mashwright.figures.board import gravity, lines, number
from mashwright.figures.brew import Brew
from mashwright.figures.conversion import follow, rests_at
from mashwright.figures.figure import Figure, Unknown
from mashwright.figures.function import figure
from mashwright.figures.gravity import deliveries, og
from mashwright.figures.grist import grist_diastatic_power
from mashwright.figures.parts import MALT_EXTRACTS, Part
from mashwright.finding import Path, Range
from mashwright.ingredients.lookup import yeast as look_up_yeast

UNSAID = 3.0  # points added to the band for each of yeast and mash that the recipe does not state; judgement
_SOURCES = ("chandrasekhar", "munsche-1894", "moritz-1891", "mash-or-steep-article", "judgement")


@dataclass(frozen=True, slots=True)
class Fermenting:
    """What the yeast of a recipe can do.

    Attributes:
        attenuation: apparent, %, of a usual wort.
        tolerance: % ABV, or None where nothing says it.
        dextrins: it splits dextrins too: diastatic yeast, or enzymes in the fermenter.
        assumed: where the recipe names no yeast that is known.
        tolerance_from_memory: the table's tolerance rests on memory alone.
    """

    attenuation: Range
    tolerance: Range | None
    dextrins: bool
    assumed: str
    path: Path
    tolerance_from_memory: bool = False


def fermenting(brew: Brew) -> Fermenting:
    """The yeast: as stated, else of the table by its kind; of several, what the strongest can do.

    Raises:
        Unknown: a stated value cannot be read.
    """
    recipe = brew.recipe
    enzymes = any(step.enzymes for step in recipe.ferment)
    usual = Range(USUAL_YEAST - 5, USUAL_YEAST, USUAL_YEAST + 5)
    if not recipe.yeast:
        return Fermenting(
            usual, None, enzymes, f"a yeast of {USUAL_YEAST:g} % attenuation, since none is stated", ("yeast",)
        )
    attenuations, tolerances, dextrins, assumed, memory = [], [], enzymes, "", False
    for yeast in recipe.yeast:
        for key in ("attenuation", "tolerance"):
            if (*yeast.path, key) in recipe.unreadable:
                raise Unknown(f"a readable {key} of the yeast", (*yeast.path, key))
        known = look_up_yeast(yeast.kind) if yeast.kind else None
        stated = yeast.attenuation.range if yeast.attenuation is not None else None
        attenuations.append(stated or (known.attenuation if known is not None else usual))
        if stated is None and known is None:
            assumed = f"{USUAL_YEAST:g} % attenuation for the yeast, of which nothing is known"
        if yeast.tolerance is not None:
            tolerances.append(yeast.tolerance.range)
        elif known is not None and known.tolerance is not None:
            tolerances.append(known.tolerance)
            memory = True
        dextrins = (
            dextrins
            or (yeast.diastatic is True)
            or (yeast.diastatic is None and known is not None and known.diastatic == "yes")
        )
    attenuation = max(attenuations, key=lambda value: value.typical)
    tolerance = max(tolerances, key=lambda value: value.typical) if len(tolerances) == len(recipe.yeast) else None
    return Fermenting(attenuation, tolerance, dextrins, assumed, recipe.yeast[0].path, memory)


def malt_degree(brew: Brew, yeast: Fermenting) -> tuple[float, str]:
    """Real degree to which what the mash converts will ferment, 0-1, and its working.

    Raises:
        Unknown: the mash cannot be followed.
    """
    mashed = follow(brew)
    release_c = mashed.typical.release_c
    if release_c is None:
        raise Unknown("a rest that releases starch", ("mash", "rests"))
    minutes = minutes_below(rests_at(brew.plan.rests, "typical"), 70)
    power = grist_diastatic_power(brew).typical
    malt = malt_wort_attenuation(release_c, minutes, power)
    degree = base_malt_share(malt, yeast.attenuation.typical)
    said = (
        f"mash: starch released at {number(release_c, 3)} °C on average, {number(minutes, 3)} min below 70 °C,"
        f" {number(power, 3)} °Lintner: real degree {number(degree, 3)} with this yeast"
    )
    return degree, said


def degree_of(part: Part, malt: float, yeast: Fermenting) -> float:
    """Real degree to which one part ferments, 0-1."""
    if part.kind == "roasted malt":
        return ROASTED
    if part.kind == "caramel malt":
        return caramel_malt_share(part.colour_lovibond.typical if part.colour_lovibond is not None else 60.0)
    if part.kind in MALT_EXTRACTS:
        return malt_extract_share(yeast.attenuation.typical)
    if part.line.group in ("sugar", "fruit"):
        if part.table_name == "lactose":
            return LACTOSE
        if part.table_name == "maltodextrin":
            return MALTODEXTRIN
        return part.fermentable.typical / 100 if part.fermentable is not None else 0.95
    return kilned_malt_share(malt) if part.kind == "kilned malt" else malt


@figure("apparent-attenuation", unit="%", sources=_SOURCES)
def apparent_attenuation(brew: Brew) -> Figure:
    """Apparent attenuation to be expected."""
    yeast = fermenting(brew)
    given = [one for one in deliveries(brew) if one.typical_kg > 0]
    if not given:
        raise Unknown("extract in the grist", ("grist",))
    needs_mash = any(one.part.mashed and one.part.kind not in ("caramel malt", "roasted malt") for one in given)
    malt, said = malt_degree(brew, yeast) if needs_mash else (0.0, "")
    degrees = [(one, degree_of(one.part, malt, yeast)) for one in given]
    gravity_points = points(og(brew).typical)
    band = wort_attenuation([(one.typical_kg, degree) for one, degree in degrees], gravity_points)
    total = sum(one.typical_kg for one in given)
    assumed = tuple(text for text in (yeast.assumed, *(brew.plan.assumed if needs_mash else ())) if text)
    wider = UNSAID * (bool(yeast.assumed) + (needs_mash and not brew.plan.stated))
    if yeast.dextrins:
        value = Range(
            max(DIASTATIC.low, band.low), max(DIASTATIC.typical, band.typical), max(DIASTATIC.high, band.high)
        )
        assumed = (*assumed, "dextrins fermented too, by diastatic yeast or enzymes in the fermenter")
    else:
        value = Range(max(0.0, band.low - wider), band.typical, band.high + wider)

    def working() -> str:
        rows = [said] if said else []
        rows += [
            f"  {number(100 * one.typical_kg / total, 3)} % of the extract from {one.part.name} × {number(degree, 3)}"
            for one, degree in degrees
        ]
        late = f", less {number(0.1 * (gravity_points - 65), 2)} for a strong wort" if gravity_points > 65 else ""
        rows.append(
            f"  added up, ÷ {REAL_PER_APPARENT:g} for what a hydrometer shows{late} = {number(band.typical, 3)} %"
        )
        return lines(rows)

    return Figure(
        value,
        working,
        paths=(yeast.path, *(one.part.path for one in given)),
        assumed=assumed,
        sources=("cutaia-2009", *(("sta1-guide",) if yeast.dextrins else ())),
    )


@figure("fg", unit="SG", sources=("common-practice",))
def fg(brew: Brew) -> Figure:
    """Final gravity."""
    start, attenuation = og(brew), apparent_attenuation(brew)
    value = Range.span(final_gravity, start.range, attenuation.range)
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
    """Real attenuation to be expected."""
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
    value = Range.span(lambda sg, aa: alcohol_by_volume(sg, final_gravity(sg, aa)), start.range, attenuation.range)
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


def splits_dextrins(brew: Brew) -> bool:
    """Whether diastatic yeast, Brettanomyces, or enzymes added to mash or fermenter may take the wort all the way."""
    recipe = brew.recipe
    if fermenting(brew).dextrins or (recipe.mash is not None and recipe.mash.enzymes):
        return True
    kinds = [look_up_yeast(yeast.kind) for yeast in recipe.yeast if yeast.kind]
    return any(kind is not None and kind.species.startswith("Brettanomyces") for kind in kinds)


def apparent_ceiling(brew: Brew, malt_percent: float) -> float | None:
    """Apparent attenuation that ordinary yeast does not pass, %, or None where something splits dextrins.

    Args:
        malt_percent: of an all-malt wort; what is sugar ferments wholly and lifts it.

    Raises:
        Unknown: the extract of a line is not known.

    Source: mixing by mass of extract, as in the attenuation of a wort.
    """
    if splits_dextrins(brew):
        return None
    given = deliveries(brew)
    total = sum(one.typical_kg for one in given)
    if total <= 0:
        return malt_percent
    sugar = sum(
        one.typical_kg * (one.part.fermentable.typical / 100 if one.part.fermentable is not None else 0.95)
        for one in given
        if one.part.line.group in ("sugar", "fruit")
    )
    return malt_percent * (1 - sugar / total) + 100 / REAL_PER_APPARENT * sugar / total
