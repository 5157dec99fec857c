"""The brewhouse's own ingredients: what a club says once of its malts, hops, yeasts and enzymes, by all their names.

They are looked up before the tables. Where a brewhouse has none, nothing is done at all.
"""

from typing import TYPE_CHECKING

from msgspec.structs import replace

from mashwright.ingredients import lookup
from mashwright.ingredients.enzymes import Enzyme, enzyme
from mashwright.ingredients.fermentables import Fermentable
from mashwright.ingredients.kinds import IngredientKind, Sort
from mashwright.ingredients.names import normalised
from mashwright.measures.range import Range
from mashwright.recipe.brewhouse import Brewhouse, Described
from mashwright.recipe.stated import Stated

if TYPE_CHECKING:
    from mashwright.ingredients.hops import Hop
    from mashwright.ingredients.yeasts import Yeast

NO_HOUSE = Brewhouse()
"""One that says nothing."""
FIELDS: dict[Sort, tuple[str, ...]] = {
    Sort.GRIST: ("cereal", "colour", "extract", "moisture", "diastatic-power", "gelatinises", "fermentable"),
    Sort.HOP: ("alpha",),
    Sort.YEAST: ("attenuation", "tolerance", "flocculation", "diastatic", "temperature"),
    Sort.ENZYME: ("temperature",),
}
"""What can be said of each sort, beside its kind and its other names."""


def own(house: Brewhouse, sort: Sort, name: str) -> Described | None:
    """What the brewhouse says of a thing of its own, whatever case, hyphens and word order of its name."""
    if not house.ingredients:
        return None
    if not house.by_name:
        house.by_name.update(_by_name(house))
    return house.by_name.get((sort, normalised(name)))


def own_names(house: Brewhouse, sort: Sort) -> tuple[str, ...]:
    """All names of the brewhouse's own things of a sort."""
    if not house.ingredients:
        return ()
    things = [thing for thing in house.ingredients.values() if sort_of(thing) is sort]
    return tuple(name for thing in things for name in (thing.name, *map(str, thing.also)))


def sort_of(thing: Described) -> Sort | None:
    """What a thing is, by its kind; where two tables have that name, by what is said of it. None where that is open."""
    from mashwright.ingredients.sorts import sorts_of

    sorts = sorts_of(thing.kind) if thing.kind else ()
    if len(sorts) > 1:
        sorts = tuple(sort for sort in sorts if said_of(thing) and said_of(thing) <= {*FIELDS[sort]})
    return sorts[0] if len(sorts) == 1 else None


def said_of(thing: Described) -> set[str]:
    """The fields that are stated of a thing, beside its kind and its other names."""
    fields = {field for of_sort in FIELDS.values() for field in of_sort}
    return {field for field in fields if _is_said(getattr(thing, field.replace("-", "_")))}


def own_fermentable(thing: Described, name: str) -> Fermentable | None:
    """The table's entry that a thing of the grist is one of, by its kind or by its own name; None where there is none.

    Args:
        thing: as the brewhouse describes it.
        name: by which a recipe calls it.
    """
    from mashwright.ingredients.sorts import plain_kind

    if not (plain := plain_kind(thing.kind)):
        return lookup.fermentable(thing.kind)
    entry = lookup.fermentable(name)
    return entry if entry is not None and entry.kind == plain else None


def fermentable_of(house: Brewhouse, name: str) -> Fermentable | None:
    """The sugar, extract, grain or fruit of that name: of the brewhouse's own, else of the table."""
    thing = own(house, Sort.GRIST, name)
    if thing is None:
        return lookup.fermentable(name)
    if (entry := own_fermentable(thing, name)) is None:
        from mashwright.ingredients.sorts import plain_kind

        entry = lookup.unknown(plain_kind(thing.kind))
    as_sold = thing.extract.known and entry.kind in _AS_SOLD
    return replace(
        entry,
        name=thing.name,
        extract_dry=_range(thing.extract, entry.extract_dry),
        moisture=Range.exact(0.0) if as_sold else _range(thing.moisture, entry.moisture),
        fermentable=_range(thing.fermentable, entry.fermentable),
    )


_AS_SOLD = (
    IngredientKind.SUGAR,
    IngredientKind.SYRUP,
    IngredientKind.DRY_EXTRACT,
    IngredientKind.LIQUID_EXTRACT,
    IngredientKind.FRUIT_OR_OTHER,
)
"""Kinds whose stated extract is of the thing as it is sold."""


def hop_of(house: Brewhouse, name: str) -> "Hop | None":
    """The hop of that name: of the brewhouse's own, else of the table."""
    thing = own(house, Sort.HOP, name)
    if thing is None:
        return lookup.hop(name)
    entry = lookup.hop(thing.kind)
    alpha = _range(thing.alpha, entry.alpha if entry is not None else None)
    if entry is None:
        from mashwright.ingredients.hops import Hop

        return Hop(thing.name, "", "", alpha, None, None, ())
    sources = _without(entry.sources, "alpha") if thing.alpha.known else entry.sources
    return replace(entry, name=thing.name, alpha=alpha, sources=sources)


def has_alpha(house: Brewhouse, name: str) -> bool:
    """Whether the alpha acid of a hop of that name is known."""
    found = hop_of(house, name)
    return found is not None and found.alpha is not None


def yeast_of(house: Brewhouse, name: str) -> "Yeast | None":
    """The kind of yeast of that name: of the brewhouse's own, else of the table."""
    thing = own(house, Sort.YEAST, name)
    if thing is None:
        return lookup.yeast(name)
    entry = lookup.yeast(thing.kind)
    if entry is None:
        return None
    splits = entry.splits if thing.diastatic is None else "yes" if thing.diastatic else "no"
    return replace(
        entry,
        name=thing.name,
        attenuation=_range(thing.attenuation, entry.attenuation) or entry.attenuation,
        tolerance=_range(thing.tolerance, entry.tolerance) or entry.tolerance,
        temperature_c=_range(thing.temperature, entry.temperature_c) or entry.temperature_c,
        flocculation=thing.flocculation or entry.flocculation,
        splits=splits,
        sources=_without(entry.sources, *said_of(thing), *(("splits",) if thing.diastatic is not None else ())),
    )


def enzyme_of(house: Brewhouse, name: str) -> Enzyme | None:
    """The enzyme of that name: of the brewhouse's own, else of the table."""
    thing = own(house, Sort.ENZYME, name)
    if thing is None:
        return enzyme(name)
    entry = enzyme(thing.kind)
    if entry is None or not thing.temperature.known:
        return entry
    works = thing.temperature.range
    return entry._replace(low_c=works.low, high_c=works.high)


def kind_of(house: Brewhouse, sort: Sort, name: str) -> str:
    """What the brewhouse says a thing is, by which its nature can be read; the name itself where it says nothing."""
    thing = own(house, sort, name)
    return thing.kind if thing is not None else name


def _by_name(house: Brewhouse) -> dict[tuple[str, str], Described | None]:
    """Its ingredients by sort and name; of two things of one name the first counts, which its own review tells."""
    found: dict[tuple[str, str], Described | None] = {("", ""): None}  # never empty, so that it is made once
    for thing in house.ingredients.values():
        if (sort := sort_of(thing)) is not None:
            for name in (thing.name, *thing.also):
                found.setdefault((sort, normalised(name)), thing)
    return found


def _is_said(value: object) -> bool:
    """Whether a field stands there, readable or not."""
    mentioned = getattr(value, "mentioned", None)
    return bool(mentioned) if mentioned is not None else value is not None and value != ""


def _range(stated: Stated, usual: Range | None) -> Range | None:
    return stated.range if stated.known else usual


def _without(sources: tuple[tuple[str, tuple[str, ...]], ...], *fields: str) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return tuple(one for one in sources if one[0] not in fields)
