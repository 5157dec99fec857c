"""What countries allow of sulfite in beer, and from when on it must be told; the table is sulfite.csv, edited by hand.

A row is ``where,what,mg-per-l,cask,source``: ``content`` is the most that beer may hold, ``label`` and ``absent`` what
may go untold, all as sulfur dioxide from every source. ``cask`` is the figure for beer that ferments again in the cask,
empty where it is the same. A checker may say what a rule is, never that a label is lawful.
"""

from functools import cache
from typing import NamedTuple

from mashwright.ingredients.tables import lines


class SulfiteLimit(NamedTuple):
    """What one country, or several, allow.

    Attributes:
        where: as a message says it.
        mg_per_l: sulfur dioxide in beer.
        sources: keys of the bibliography.
    """

    where: str
    mg_per_l: float
    sources: tuple[str, ...]


@cache
def contents(*, cask: bool) -> tuple[SulfiteLimit, ...]:
    """The most that beer may hold, the strictest first.

    Args:
        cask: whether it ferments again in the cask.
    """
    found = [
        SulfiteLimit(where, float(in_cask if cask and in_cask else plain), tuple(source.split()))
        for where, what, plain, in_cask, source in (line.split(",") for line in lines("sulfite"))
        if what == "content"
    ]
    return tuple(sorted(found, key=lambda one: one.mg_per_l))


@cache
def label_mg_per_l() -> float:
    """The least from which a label must tell of it."""
    return min(float(line.split(",")[2]) for line in lines("sulfite") if line.split(",")[1] == "label")
