"""Look-up by the name that a brewer writes."""

from collections.abc import Iterator
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from mashwright.budgets import COMPARED, GUESSED
from mashwright.ingredients import fermentables, tables
from mashwright.ingredients.fermentables import Fermentable, unknown
from mashwright.ingredients.names import normalised, words
from mashwright.measures.constants import EBC_BELOW_LOVIBOND, EBC_PER_LOVIBOND
from mashwright.measures.range import Range

if TYPE_CHECKING:
    from mashwright.ingredients.hops import Hop
    from mashwright.ingredients.styles import Style
    from mashwright.ingredients.yeasts import Yeast

__all__ = ["fermentable", "hop", "most_guessed", "nearest", "normalised", "style", "unknown", "yeast"]

_ORIGINS = frozenset({
    "american", "australian", "bavarian", "belgian", "bohemian", "british", "canadian", "continental", "czech",
    "european", "french", "german", "irish", "north", "polish", "scottish",
})  # fmt: skip
_OPTIONAL = {
    "fermentables": _ORIGINS | {"base", "fresh", "frozen", "grain", "organic", "puree", "pure", "raw", "style", "type"},
    "hops": _ORIGINS | {"cone", "hop", "leaf", "pellet", "type", "whole", "wye"},
    "yeasts": frozenset({"dry", "liquid", "strain", "style", "type", "yeast"}),
    "styles": frozenset({"beer", "style", "type"}),
}
"""Words that may be left out or put in where no entry needs them; asked only when the whole name is not known."""

_CRYSTAL = ("crystal", "caramel")
_CARAMEL = frozenset((*_CRYSTAL, "c"))


@lru_cache(maxsize=4096)  # each recipe asks for the same few
def fermentable(name: str) -> Fermentable | None:
    """The grain, sugar, extract or fruit of that name; a caramel malt between two listed colours is interpolated."""
    if (found := _written("fermentables").get(name.casefold())) is not None:
        return fermentables.entry(found)
    if (colour := _caramel_lovibond(words(name))) is not None:
        return fermentables.caramel_malt(colour)
    return None if (found := _found("fermentables", name)) is None else fermentables.entry(found)


@lru_cache(maxsize=4096)  # each recipe asks for the same few
def hop(name: str) -> "Hop | None":
    """The hop of that name."""
    from mashwright.ingredients import hops

    return None if (found := _found("hops", name)) is None else hops.entry(found)


@cache
def hop_alpha() -> Range:
    """Alpha acid of hops, %: the table's lowest, its middle one, its highest, of what more than memory says."""
    from mashwright.ingredients import hops

    listed = [alpha for name in tables.blocks("hops") if (alpha := hops.entry(name).alpha_to_compare) is not None]
    middle = sorted(one.typical for one in listed)[len(listed) // 2]
    return Range(min(one.low for one in listed), middle, max(one.high for one in listed))


@lru_cache(maxsize=4096)  # each recipe asks for the same few
def yeast(name: str) -> "Yeast | None":
    """The kind of yeast of that name."""
    from mashwright.ingredients import yeasts

    return None if (found := _found("yeasts", name)) is None else yeasts.entry(found)


@lru_cache(maxsize=4096)  # each recipe asks for the same few
def style(name: str) -> "Style | None":
    """The beer style of that name."""
    from mashwright.ingredients import styles

    return None if (found := _found("styles", name)) is None else styles.entry(found)


@lru_cache(maxsize=1024)  # each remedy that is tried asks again
def nearest(name: str, table: str, count: int = 3) -> tuple[str, ...]:
    """Names of a table's entries that come nearest to one that it does not know, best first.

    Args:
        name: as a brewer wrote it.
        table: ``fermentables``, ``hops``, ``yeasts`` or ``styles``.
        count: how many at most.
    """
    from mashwright.words.nearest import rank

    if table == "fermentables" and (colour := _caramel_lovibond(words(name))) is not None:
        listed = fermentables.caramel_malts()
        return tuple(listed[one] for one in sorted(listed, key=lambda one: abs(one - colour))[:count])
    return rank(name, _spellings(table), count, normalised)


def keeps_words(name: str, meant: str) -> bool:
    """Whether a name that may be meant has each word of a fermentable's name that the table itself uses.

    A slip of the pen spoils a word; one that is right says what the brewer wants: rice malt of any roast is no barley.
    """
    return (words(name) & _own_words()) <= words(meant)


def most_guessed(known: int = 0) -> int:
    """For how many unknown names of one list the nearest are looked for, among so many that stand in no table."""
    return min(GUESSED, max(1, COMPARED // max(1, known)))


@cache
def _own_words() -> frozenset[str]:
    """The words of the fermentables' names that tell one from another."""
    said = (words(spelling) for spelling, _ in _spellings("fermentables"))
    return frozenset(one for one in frozenset().union(*said) - _OPTIONAL["fermentables"] if not one.isdecimal())


@lru_cache(maxsize=4096)
def _found(table: str, name: str) -> str | None:
    if (listed := _written(table).get(name.casefold())) is not None:
        return listed
    keys = tuple(filter(None, _keys(table, name)))
    return next((known[key] for known in _indexes(table) for key in keys if key in known), None)


def _keys(table: str, name: str) -> Iterator[str]:
    """The keys to try for a name, the closest first: the whole, crystal for caramel, less optional words."""
    whole = words(name)
    for said in (whole, whole - _OPTIONAL[table]):
        yield _key(said)
        for one, other in (_CRYSTAL, _CRYSTAL[::-1]) if table == "fermentables" else ():
            if one in said:
                yield _key(said - {one} | {other})


def _indexes(table: str) -> Iterator[dict[str, str]]:
    yield _exact(table)
    if table == "fermentables":
        yield _malt_left_out()
    yield _shortened(table)


def _spellings(table: str) -> Iterator[tuple[str, str]]:
    yield from ((name, name) for name in tables.blocks(table))
    yield from tables.aliases(table)


@cache
def _written(table: str) -> dict[str, str]:
    """The spellings as they stand in the table; most names are found here, so keys are made only for the others."""
    return {spelling.casefold(): name for spelling, name in _spellings(table)}


@cache
def _exact(table: str) -> dict[str, str]:
    return {normalised(spelling): name for spelling, name in _spellings(table)}


@cache
def _malt_left_out() -> dict[str, str]:
    """Malts whose name says so even without the word: ``chocolate``, ``Vienna``, ``caramel wheat``."""
    exact = _exact("fermentables")
    short = ((_key(words(name) - {"malt"}), name) for name in tables.blocks("fermentables") if "malt" in name)
    return {key: name for key, name in short if key and key not in exact}


@cache
def _shortened(table: str) -> dict[str, str]:
    """Names less their optional words, where only one entry is left with that key."""
    claims: dict[str, set[str]] = {}
    for key, name in _exact(table).items():
        claims.setdefault(_key(frozenset(key.split()) - _OPTIONAL[table]), set()).add(name)
    return {key: names.pop() for key, names in claims.items() if len(names) == 1}


def _key(said: frozenset[str]) -> str:
    return " ".join(sorted(said))


def _caramel_lovibond(said: frozenset[str]) -> float | None:
    """The colour of a caramel malt told by nothing else: ``crystal 55``, ``C60``; from EBC, that of the nearest one."""
    numbers = [word for word in said if word.isdecimal()]
    if len(numbers) != 1 or not said & _CARAMEL or said - _CARAMEL - {"malt", "ebc", numbers[0]}:
        return None
    colour = float(numbers[0])
    if "ebc" not in said:
        return colour
    lovibond = (colour + EBC_BELOW_LOVIBOND) / EBC_PER_LOVIBOND
    return min(fermentables.caramel_malts(), key=lambda listed: abs(listed - lovibond))
