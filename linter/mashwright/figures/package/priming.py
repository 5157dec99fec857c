"""What goes into the beer with sugar in it when it is packaged: the priming, and what else is added then."""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew.board import gravity
from mashwright.brew.brew import Brew
from mashwright.brew.own import NO_HOUSE, fermentable_of
from mashwright.brewing.alcohol import final_gravity
from mashwright.brewing.carbonation import (
    DRY_EXTRACT_RATIO,
    FROM_DISACCHARIDE,
    FROM_MONOSACCHARIDE,
    LEAST_YIELD,
    fermented_volumes,
)
from mashwright.figures.beer import fg
from mashwright.figures.mash import og
from mashwright.figures.package.packaged import beer_volume, packaged_volume, size_of
from mashwright.finding import Path
from mashwright.ingredients.fermentables import Fermentable
from mashwright.ingredients.kinds import PRIMING_WORT, Group, IngredientKind, Place
from mashwright.measures.constants import CO2_G_PER_VOLUME, MIN_PER_DAY
from mashwright.measures.range import Range
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.model import Addition, GristLine, Package, Priming
from mashwright.recipe.stated import Open, Unknown
from mashwright.words.vocabulary import mentions
from mashwright.words.when import when

# A sugar of these is glucose or fructose; the others are taken as sucrose or maltose; by definition.
_MONOSACCHARIDES = frozenset({
    "dextrose", "anhydrous dextrose", "fructose", "invert sugar", "invert sugar no. 1", "invert sugar no. 2",
    "invert sugar no. 3", "invert sugar no. 4", "honey", "agave syrup", "date syrup",
})  # fmt: skip
FRUIT_DONE_D = 10.0
"""Days in which the sugar of fruit has fermented out, at the usual heat; common practice, one to two weeks."""
_IDLE_SHARE = 0.01  # of the weight; below it nothing ferments to speak of, judgement
# Of the extract of wort in full fermentation so much is still there; from memory.
_KRAUSEN_LEFT = Range(0.5, 0.7, 0.9)
# Weight of a litre, kg; common practice.
_KG_PER_L: dict[str, Range] = {
    IngredientKind.SYRUP: Range(1.32, 1.40, 1.43),
    IngredientKind.LIQUID_EXTRACT: Range(1.35, 1.41, 1.45),
    IngredientKind.FRUIT_OR_OTHER: Range(1.0, 1.05, 1.08),
}
_GRANULAR_KG_PER_L = Range(0.6, 0.85, 1.0)
_FERMENTING_KINDS = (*_KG_PER_L, IngredientKind.SUGAR, IngredientKind.DRY_EXTRACT)


class Sugar(NamedTuple):
    """Priming sugar, or what else brings sugar when the beer is packaged.

    Attributes:
        name: as the recipe calls it.
        co2_per_g: grams of gas from a gram as it is weighed.
        grams_per_l: to a litre of beer, or None where the recipe does not say.
        text: the amount as it stands, ``""`` without one.
        path: where the amount stands.
        kg_per_l: of wort, which is measured and not weighed; None of a sugar.
    """

    name: str
    co2_per_g: Range
    grams_per_l: Range | None
    text: str
    path: Path
    assumed: str
    kg_per_l: Range | None = None


def co2_yield(house: Brewhouse, name: str, *, extract: bool, path: Path = ()) -> tuple[Range, str]:
    """Grams of gas from a gram of a sugar as it is weighed, and what was assumed; the path is told where none comes.

    Raises:
        Unknown: nothing in it ferments.
    """
    entry = fermentable_of(house, name) if name else None
    if not entry or entry.extract_dry is None or entry.fermentable is None:
        sugar = Range(LEAST_YIELD * FROM_DISACCHARIDE, FROM_DISACCHARIDE, FROM_DISACCHARIDE)
        if not extract:
            return sugar, f"{name or 'the priming sugar'} taken as table sugar"
        return _of_extract(1.0), f"{name} taken as dry malt extract"
    dry = entry.extract_dry.typical / 100 * (1 - entry.dampness.typical / 100)
    if entry.kind in (IngredientKind.DRY_EXTRACT, IngredientKind.LIQUID_EXTRACT):
        # against dry malt extract as the table has it: 99.5 % of the dry matter, 3 % moisture
        return _of_extract(min(1.0, dry / 0.965)), ""
    ferments = entry.fermentable.typical / 100
    if dry * ferments < _IDLE_SHARE:
        raise Unknown("a priming sugar that yeast ferments", path)
    most = (FROM_MONOSACCHARIDE if entry.name in _MONOSACCHARIDES else FROM_DISACCHARIDE) * dry * ferments
    return Range(LEAST_YIELD * most, most, most), ""


def _of_extract(strength: float) -> Range:
    """By the weight that takes the place of table sugar."""
    whole = FROM_DISACCHARIDE * strength
    return Range(whole / DRY_EXTRACT_RATIO.high, whole / DRY_EXTRACT_RATIO.typical, whole / DRY_EXTRACT_RATIO.low)


def priming_sugar_of(brew: Brew, priming: Priming) -> Sugar:
    """The priming sugar of a recipe, or its wort; table sugar where it names none.

    Raises:
        Unknown: nothing in it ferments, or it is wort of which nobody can say how much does.
    """
    name, kg_per_l = priming.name, Range.exact(1.0)
    if priming.group == PRIMING_WORT or is_wort(name):
        co2, kg_per_l, assumed = _of_wort(brew, priming)
    else:
        co2, assumed = co2_yield(brew.brewhouse, name, extract=priming.group == Group.EXTRACT, path=priming.path)
        if priming.volume.known:
            kg_per_l = _density(fermentable_of(brew.brewhouse, name) if name else None)
    if not priming.known:
        return Sugar("table sugar", co2, None, "", brew.recipe.package.path, "table sugar, since no priming is stated")
    path: Path = priming.weight.path
    grams, text = None, ""
    if priming.weight.known:
        grams = Range.span(lambda kg, v: 1000 * kg / v, priming.weight.range, packaged_volume(brew))
        text = priming.weight.text
    elif priming.volume.known:
        beer, into = packaged_volume(brew), priming.volume.range
        whole = beer + into
        grams = Range.span(lambda litres, kg, v: 1000 * kg * litres / v, into, kg_per_l, whole)
        text, path = priming.volume.text, priming.volume.path
    elif priming.rate.known:
        grams, text, path = priming.rate.range, priming.rate.text, priming.rate.path
    elif priming.each.known and (bottle := bottle_of(brew.recipe.package)) is not None:
        grams = Range.span(lambda kg, v: 1000 * kg / v, priming.each.range, bottle[0])
        text, path = f"{priming.each.text} to each {bottle[1]}", priming.each.path
    wort = kg_per_l if priming.group == PRIMING_WORT or is_wort(name) else None
    return Sugar(name or "table sugar", co2, grams, text, path, assumed, wort)


def bottle_of(package: Package) -> tuple[Range, str] | None:
    """What the bottle holds that each dose of sugar goes into, l and in words; None where nothing says it."""
    stated = package.priming.bottle if package.priming.bottle.known else package.size
    if stated.known:
        return (stated.range, stated.text) if stated.range.low > 0 else None
    size = size_of(package)
    return None if size is None else (size, package.vessel)


def is_wort(name: str) -> bool:
    """Whether beer is primed with wort, fresh or fermenting."""
    return mentions("wort", "ingredient", name) or _is_krausen(name)


def _is_krausen(name: str) -> bool:
    return mentions("krausen", "ingredient", name)


def _of_wort(brew: Brew, priming: Priming) -> tuple[Range, Range, str]:
    """Gas from a gram of wort, the weight of a litre of it in kg, and what was assumed."""
    fermenting = _is_krausen(priming.name)
    targets = brew.recipe.targets
    whole = targets.og.range if targets.og.known else og(brew).range
    if priming.gravity.known:
        start, assumed, left = priming.gravity.range, "", Range.exact(1.0)
        whole = whole if fermenting and whole.typical > start.typical else start
    else:
        start, left = whole, Range.exact(1.0)
        assumed = f"{priming.name} of this beer's own wort, {gravity(start.typical)}"
        if fermenting:
            left = _KRAUSEN_LEFT
            assumed += f", of whose extract {100 * left.typical:.0f} % is still there"
    if priming.attenuation.known:
        end = Range.span(final_gravity, whole, priming.attenuation.range)
    else:
        end = targets.fg.range if targets.fg.known else fg(brew).range

    def gas(lost: float, ends: float, share: float) -> float:
        return fermented_volumes(max(whole.typical, lost), lost, ends) * share * CO2_G_PER_VOLUME / (1000 * lost)

    value = Range(
        gas(start.low, end.high, left.low),
        gas(start.typical, end.typical, left.typical),
        gas(start.high, end.low, left.high),
    )
    if value.typical <= 0:
        raise Open("wort that still ferments", priming.gravity.path)
    return value, start, assumed


def _density(entry: Fermentable | None) -> Range:
    return _KG_PER_L.get(entry.kind, _GRANULAR_KG_PER_L) if entry else _GRANULAR_KG_PER_L


def added_sugars(brew: Brew) -> tuple[Sugar, ...]:
    """What else brings sugar when the beer is packaged and can be reckoned: additions by name, amount and time."""
    found = []
    for one in at_packaging(brew):
        entry, amount = fermentable_of(brew.brewhouse, one.what), one.weight or one.volume
        if not entry or entry.kind not in _FERMENTING_KINDS or not amount.known:
            continue
        try:
            co2, assumed = co2_yield(brew.brewhouse, one.what, extract=False)
        except Unknown:
            continue
        beer = beer_volume(brew)
        if one.weight.known:
            path = one.weight.path
            grams = Range.span(lambda kg, v: 1000 * kg / v, one.weight.range, beer)
        else:
            path = one.volume.path
            grams = Range.span(lambda litres, kg, v: 1000 * kg * litres / v, amount.range, _density(entry), beer)
        found.append(Sugar(one.what, co2, grams, amount.text, path, assumed))
    return tuple(found)


def at_packaging(brew: Brew) -> Iterator[Addition]:
    """Additions that go in as the beer is packaged, by their own words."""
    for one in brew.recipe.additions:
        if when(one.when).packaged:
            yield one


def sugary_in_fermenter(brew: Brew) -> Iterator[tuple[str, Path, float]]:
    """Fruit, and additions that bring sugar late, by their own words: name, place, grams of sugar; 0 where unsaid."""
    for part in brew.grist():
        if part.group == Group.FRUIT and part.place == Place.FERMENTER and not _fermented_out(part.line):
            yield part.name, part.path, 1000 * part.weight_kg * part.extract_share().typical * part.ferments(1.0)
    packaged = {one.path for one in at_packaging(brew)}
    for one in brew.recipe.additions:
        if one.path not in packaged and when(one.when).in_fermenter and brings_sugar(one.what, brew.brewhouse):
            yield one.what, one.path, _sugar_g(brew, one)


def _fermented_out(line: GristLine) -> bool:
    """Whether fruit stands so long in the fermenter that its sugar is gone."""
    return line.time.known and line.time.range.low >= FRUIT_DONE_D * MIN_PER_DAY


def _sugar_g(brew: Brew, one: Addition) -> float:
    """What of an addition ferments, g; 0 where no weight is said or no table knows it."""
    entry = fermentable_of(brew.brewhouse, one.what)
    if not one.weight.known or not entry or entry.extract_dry is None:
        return 0.0
    dry = entry.extract_dry.typical / 100 * (1 - entry.dampness.typical / 100)
    return 1000 * one.weight.range.typical * dry * entry.ferments(1.0)


def unknown_sugars(brew: Brew) -> tuple[Addition, ...]:
    """Additions at packaging that surely bring sugar, of which nobody can say how much."""
    reckoned = {sugar.path[:-1] for sugar in added_sugars(brew)}
    return tuple(
        one for one in at_packaging(brew) if one.path not in reckoned and brings_sugar(one.what, brew.brewhouse)
    )


def brings_sugar(what: str, house: Brewhouse = NO_HOUSE) -> bool:
    """Whether a thing surely holds sugar that ferments, by the brewhouse, the tables or its words."""
    entry = fermentable_of(house, what)
    if entry:
        ferments = entry.fermentable is None or entry.fermentable.high / 100 > _IDLE_SHARE
        return ferments and entry.kind in _FERMENTING_KINDS
    return mentions("sugary", "ingredient", what)
