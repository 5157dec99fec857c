"""What beer is packaged in, and the gas that each bears; the table is vessels.csv, edited by hand.

A row is ``words,name,sort,low,typical,high,unit,refermented,sizes,source``: ``words`` are what a recipe may write,
parted by a slash; ``sizes`` the words that name a size by definition of the trade, each with its litres. Up to
``low`` a sound vessel of the kind is commonly used; ``typical`` is where doubt begins, ``high`` what the kind is made
for or a little more. Both are in volumes of carbon dioxide, or in bar at 20 °C. A rating that is printed on the vessel
comes before any of it.
"""

from enum import StrEnum
from functools import cache
from typing import NamedTuple

from mashwright.ingredients.names import words as words_of
from mashwright.ingredients.tables import lines
from mashwright.measures.range import Range


class VesselSort(StrEnum):
    """What beer is packaged in; the first three are sealed: nothing lets gas out before they burst."""

    BOTTLE = "bottle"
    CAN = "can"
    JUG = "jug"
    KEG = "keg"
    CASK = "cask"


class Vessel(NamedTuple):
    """One kind of vessel.

    Attributes:
        words: as recipes write it, the first one as messages do.
        name: as a message calls the kind, ``ordinary bottles``, ``a soda keg``.
        sort: what sort of vessel that is.
        bears: usually up to, doubtful from, and made for at most; in volumes, or in bar at 20 °C.
        in_bar: the unit of ``bears``.
        refermented: whether beer may make gas in it.
        sizes: words that name its size too, and the litres.
        sources: keys of the bibliography.
    """

    words: tuple[str, ...]
    name: str
    sort: VesselSort
    bears: Range
    in_bar: bool
    refermented: bool
    sizes: tuple[tuple[str, float], ...]
    sources: tuple[str, ...]

    @property
    def sealed(self) -> bool:
        """Whether nothing lets gas out of it before it bursts."""
        return self.sort in (VesselSort.BOTTLE, VesselSort.CAN, VesselSort.JUG)


def vessel(word: str) -> Vessel | None:
    """The kind of vessel of that name, whatever its case, hyphens and word order."""
    return _by_words().get(words_of(word))


def size_l(word: str) -> float | None:
    """What a vessel of that name holds, l; None where its name does not say it.

    Source: 4.5, 9 and 18 imperial gallons and a sixth of a US beer barrel, by definition of the trade.
    """
    kind, named = vessel(word), words_of(word)
    return next((litres for name, litres in kind.sizes if words_of(name) == named), None) if kind else None


@cache
def listed() -> tuple[Vessel, ...]:
    """The whole table."""
    found = []
    for line in lines("vessels"):
        words, name, sort, low, typical, high, unit, refermented, sizes, source = line.split(",")
        bears = Range(float(low), float(typical), float(high))
        sized = sizes.split()
        found.append(
            Vessel(
                tuple(words.split("/")),
                name,
                VesselSort(sort),
                bears,
                unit == "bar",
                refermented == "yes",
                tuple(zip(sized[::2], map(float, sized[1::2]), strict=True)),
                tuple(source.split()),
            )
        )
    return tuple(found)


@cache
def _by_words() -> dict[frozenset[str], Vessel]:
    return {words_of(word): one for one in listed() for word in one.words}
