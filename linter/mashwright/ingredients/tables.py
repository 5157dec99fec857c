"""The tables as they lie on disk: plain CSV in long rows, edited by hand.

A row is ``name,property,low,typical,high,unit,source``; no field holds a comma, so a row splits plainly; several source
keys are parted by spaces. Rows of one name stand together. A row is cut up only when its entry is asked for.
"""

import os
from functools import cache
from typing import NamedTuple

from mashwright.edited_tables import lines_of
from mashwright.measures.range import Range

Sources = tuple[tuple[str, tuple[str, ...]], ...]
"""Property and the keys of the sources behind its value."""

_FOLDER = os.path.dirname(__file__)


class Row(NamedTuple):
    """One value of one entry; an empty ``high`` beside a ``low`` is open upwards."""

    what: str
    low: str
    typical: str
    high: str
    unit: str
    source: str

    @property
    def range(self) -> Range:
        """The value in the row's unit; where only the ends are known, typical is the middle."""
        if not self.low:
            return Range.exact(float(self.typical))
        low, high = float(self.low), float(self.high)
        return Range(low, float(self.typical) if self.typical else (low + high) / 2, high)

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of its sources."""
        return tuple(self.source.split())


@cache
def lines(table: str) -> list[str]:
    """The lines of a table without its heading.

    Raises:
        ValueError: the file is not in the form in which it is edited; says how.
    """
    path = os.path.join(_FOLDER, f"{table}.csv")
    return lines_of(path, free=table in _WITH_A_FREE_TEXT, quoted=table == "sources")


_WITH_A_FREE_TEXT = frozenset(("cautions", "sources"))
"""Tables with one column that may hold commas."""


@cache
def blocks(table: str) -> dict[str, list[str]]:
    """The lines of each entry, by name."""
    found: dict[str, list[str]] = {}
    block: list[str] = []
    start = None
    for line in lines(table):
        if start is None or not line.startswith(start):
            start = line[: line.index(",") + 1]
            block = found[start[:-1]] = []
        block.append(line)
    return found


def rows(table: str, name: str) -> list[Row]:
    """The rows of one entry.

    Raises:
        KeyError: the table has no entry of that name.
    """
    return [Row(*line.split(",")[1:]) for line in blocks(table)[name]]


def only(name: str, found: list[Row]) -> dict[str, Row]:
    """The rows of one entry by property.

    Raises:
        ValueError: a property stands twice.
    """
    by_property = {row.what: row for row in found}
    if len(by_property) != len(found):
        raise ValueError(f"{name}: a property stands twice")
    return by_property


def sources(found: list[Row]) -> Sources:
    """The keys behind each property."""
    return tuple((row.what, row.keys) for row in found)


def aliases(table: str) -> list[tuple[str, str]]:
    """Pairs of an alias and the name that it stands for."""
    start = f"{table},"
    pairs = [line.split(",") for line in lines("aliases") if line.startswith(start)]
    return [(alias, name) for _, alias, name in pairs]
