"""What is wrong with a brewhouse's own ingredients: told in the brewhouse, once, and not in each of its recipes."""

from collections.abc import Iterator

from mashwright.brew.own import FIELDS, said_of, sort_of
from mashwright.finding import Path
from mashwright.ingredients.kinds import IngredientKind, Sort
from mashwright.ingredients.lookup import most_guessed, nearest
from mashwright.ingredients.names import normalised
from mashwright.ingredients.sorts import sorts_of
from mashwright.measures.bounds import Bounds
from mashwright.measures.quantity import Kind, said
from mashwright.reading.syntax import short
from mashwright.recipe.brewhouse import Brewhouse, Described
from mashwright.words.nearest import close

_ONE = {Sort.GRIST: "a malt or sugar", Sort.HOP: "a hop", Sort.YEAST: "a yeast", Sort.ENZYME: "an enzyme"}
_ALL = {Sort.GRIST: "malts and sugars", Sort.HOP: "hops", Sort.YEAST: "yeasts", Sort.ENZYME: "enzymes"}
_KINDS_SHOWN = "a kind, such as base malt, sugar or hop, or the name of a malt, hop, yeast or enzyme"
_COLDEST_ENZYME_C, _HOTTEST_ENZYME_C = -5.0, 115.0  # between which some enzyme of the table works; from memory
_TABLES = ("fermentables", "hops", "yeasts")
_ALIKE = 0.85  # of the letters of a kind that may be meant; judgement


def faults(house: Brewhouse, bounds: Bounds) -> Iterator[tuple[Path, str]]:
    """Each with its place: a kind that nothing knows, a field of another sort, a value that cannot be, a name twice."""
    unknown, first = 0, dict[tuple[Sort, str], str]()
    for thing in house.ingredients.values():
        if not thing.kind:
            continue  # the schema asks for it
        if (sort := sort_of(thing)) is None:
            unknown += 1
            yield thing.kind.path, _of_kind(thing, guess=len(_TABLES) * unknown <= most_guessed())
            continue
        yield from _of_other_sorts(thing, sort)
        yield from _impossible(thing, bounds)
        for path, name in ((thing.path, thing.name), *((one.path, str(one)) for one in thing.also)):
            other = first.setdefault((sort, normalised(name)), thing.name)
            if other != thing.name:
                yield path, f"{short(name)} is a name of {short(other)} too; keep it in one of the two"


_WHICH = {
    "yeast": "English ale",
    "enzyme": "glucoamylase",
    "malt": "base malt",
    "grain": "raw grain",
    "extract": "dry extract",
    "fruit": "fruit or other",
}
"""Words that say too little, each with a kind as it is written."""


def _of_kind(thing: Described, *, guess: bool) -> str:
    """What is said of a kind that is none, or one of several."""
    if (example := _WHICH.get(normalised(thing.kind))) is not None:
        return f"{short(thing.kind)} says too little; write which, such as kind: {example}"
    several = sorts_of(thing.kind)
    if several:
        names = " and of ".join(_ONE[sort] for sort in several)
        return f"{short(thing.kind)} is the name of {names}; write a kind that means one of them only"
    known = [str(kind) for kind in (*IngredientKind, Sort.HOP)] if guess else []
    known += [one for table in _TABLES for one in nearest(thing.kind, table, 1) if guess]
    near = [name for _, name in close(thing.kind, known, _ALIKE)][:1]
    asked = f"did you mean {near[0]}?" if near else f"write {_KINDS_SHOWN}"
    return f"nothing is known of {short(thing.kind)}; {asked}"


def _of_other_sorts(thing: Described, sort: Sort) -> Iterator[tuple[Path, str]]:
    """Fields that are of another sort of thing, and so would count for nothing."""
    for field in sorted(said_of(thing) - {*FIELDS[sort]}):
        owners = " and ".join(_ALL[other] for other, fields in FIELDS.items() if field in fields)
        yield (
            (*thing.path, field),
            f"`{field}` is said of {owners}, and {short(thing.name)} is {_ONE[sort]}; leave it out",
        )


def _impossible(thing: Described, bounds: Bounds) -> Iterator[tuple[Path, str]]:
    """Values that no such thing has."""
    alpha, power, heat = thing.alpha, thing.diastatic_power, thing.temperature
    if alpha.known and alpha.range.typical > bounds.most_alpha_percent:
        yield alpha.path, f"{alpha.text} alpha acid is more than any hop has, about 2 to 20 %"
    if power.known and power.range.typical > bounds.most_lintner:
        most = said(bounds.most_lintner, power.unit, Kind.DIASTATIC_POWER)
        yield power.path, f"{power.text} of diastatic power is more than any malt has, at most {most}"
    if not heat.known:
        return
    if sort_of(thing) is Sort.YEAST:
        if not bounds.frozen_c <= heat.range.low <= heat.range.high <= bounds.dead_yeast_c:
            yield heat.path, f"no yeast ferments at {heat.text}"
    elif not _COLDEST_ENZYME_C <= heat.range.low <= heat.range.high <= _HOTTEST_ENZYME_C:
        yield heat.path, f"no enzyme works at {heat.text}"
