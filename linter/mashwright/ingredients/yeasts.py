"""Yeasts by kind; a supplier's figures for a strain are better than these."""

from functools import cache

from msgspec import Struct

from mashwright.ingredients.tables import Sources, only, rows, sources
from mashwright.measures.range import Range


class Yeast(Struct, frozen=True, gc=False):
    """One kind of yeast.

    Attributes:
        name: as brewers call the kind.
        species: in Latin.
        attenuation: apparent, %.
        tolerance: alcohol that it stands, % ABV.
        temperature_c: usual at fermentation, °C.
        flocculation: ``low``, ``low to medium``, ``medium``, ``medium to high``, ``high`` or ``variable``.
        diastatic: ``yes``, ``no`` (not usual for the kind) or ``some`` (the kind holds strains of both sorts).
        sources: the keys behind each property of the table.
    """

    name: str
    species: str
    attenuation: Range
    tolerance: Range
    temperature_c: Range
    flocculation: str
    diastatic: str
    sources: Sources


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
        attenuation=row["attenuation"].range,
        tolerance=row["tolerance"].range,
        temperature_c=row["temperature"].range,
        flocculation=row["flocculation"].typical,
        diastatic=row["diastatic"].typical,
        sources=sources(found),
    )
