"""Enzymes that brewers add, what they work on and how hot; the table is enzymes.csv, edited by hand.

A row is ``words,works-on,from,to,source``: alternatives are parted by a slash, what it works on by spaces; from and to
are the °C between which it works at all. A maker's sheet comes before any of it.
"""

from functools import cache, lru_cache
from typing import NamedTuple

from mashwright.ingredients.names import words
from mashwright.ingredients.tables import lines
from mashwright.words.tokens import written

# What may stand beside an enzyme's name without making another of it.
_BESIDE = frozenset({"enzyme", "enzymes", "liquid", "dry", "dried", "powder", "powdered", "brewing", "food", "grade"})


class Enzyme(NamedTuple):
    """An enzyme as it is sold for brewing.

    Attributes:
        name: the first of its names.
        works_on: of starch, dextrins, gums, protein, fruit, diacetyl, lactose.
        low_c, high_c: between which it works, °C; above the second it is destroyed.
        source: a key of the bibliography.
    """

    name: str
    works_on: frozenset[str]
    low_c: float
    high_c: float
    source: str


@lru_cache(maxsize=256)
def enzyme(name: str) -> Enzyme | None:
    """The enzyme of that name, whatever its hyphens and word order."""
    said = words(name)
    return _by_words().get(said) or _by_words().get(said - _BESIDE)


def names_of_enzymes() -> tuple[str, ...]:
    """All names of the table."""
    return tuple(_by_name())


def nearest_enzyme(name: str, own: tuple[str, ...] = ()) -> str | None:
    """The name that comes nearest to one that is not known, if any comes near.

    Args:
        name: as a brewer wrote it.
        own: names that are known beside those of the table.
    """
    from mashwright.words.nearest import nearest

    if (near := nearest(name, own, 0.75)) is not None:
        return near
    near = nearest(" ".join(written(name)), _by_name(), 0.75)
    return near.replace(" ", "-") if near is not None else None


@cache
def _by_name() -> dict[str, Enzyme]:
    found = {}
    for line in lines("enzymes"):
        names, works_on, low, high, source = line.split(",")
        first, *others = names.split("/")
        entry = Enzyme(first, frozenset(works_on.split()), float(low), float(high), source)
        found.update(dict.fromkeys((first, *others), entry))
    return found


@cache
def _by_words() -> dict[frozenset[str], Enzyme]:
    return {words(name): entry for name, entry in _by_name().items()}
