"""Yeasts by kind; a supplier's figures for a strain are better than these."""

from functools import cache

from msgspec import Struct

from mashwright.ingredients.kinds import YeastSort
from mashwright.ingredients.tables import Sources, only, rows, sources
from mashwright.measures.range import Range


class Yeast(Struct, frozen=True, gc=False):
    """One kind of yeast.

    Attributes:
        name: as brewers call the kind.
        species: in Latin.
        sort: of ale, of lager, wild, bacteria, a mixture of both, or another thing.
        quick: whether it is through in days, as kveik is.
        attenuation: apparent, %.
        tolerance: alcohol that it stands, % ABV.
        temperature_c: usual at fermentation, °C.
        flocculation: ``low``, ``low to medium``, ``medium``, ``medium to high``, ``high`` or ``variable``.
        splits: whether it ferments dextrins too: ``yes``, ``slowly`` (in months), ``no`` (not usual for the kind) or
            ``some`` (the kind holds strains of both sorts).
        sources: the keys behind each property of the table.
    """

    name: str
    species: str
    sort: YeastSort
    quick: bool
    attenuation: Range
    tolerance: Range
    temperature_c: Range
    flocculation: str
    splits: str
    sources: Sources

    @property
    def of_beer(self) -> bool:
        """Whether it is a yeast of ale or lager, which ferments a wort in days and alone."""
        return self.sort in (YeastSort.ALE, YeastSort.LAGER)

    @property
    def sours(self) -> bool:
        """Whether bacteria in it turn a wort sour."""
        return self.sort in (YeastSort.BACTERIA, YeastSort.MIXED)

    @property
    def surely_splits(self) -> bool:
        """Whether it ferments dextrins in its own time: all strains of the kind do."""
        return self.splits == "yes"

    @property
    def goes_on(self) -> bool:
        """Whether it goes on fermenting for months, dextrins too."""
        return self.splits == "slowly"


@cache
def entry(name: str) -> Yeast:
    """The kind of exactly that name.

    Raises:
        KeyError: there is none.
    """
    found = rows("yeasts", name)
    row = only(name, found)
    return Yeast(
        name=name,
        species=row["species"].typical,
        sort=YeastSort(row["sort"].typical),
        quick=row["quick"].typical == "yes",
        attenuation=row["attenuation"].range,
        tolerance=row["tolerance"].range,
        temperature_c=row["temperature"].range,
        flocculation=row["flocculation"].typical,
        splits=row["splits"].typical,
        sources=sources(found),
    )
