"""Amounts of a page as the format writes them: its own names of units, a scale for a bare degree."""

from mashwright.longhand.pieces import Amount, cut
from mashwright.measures.quantity import Kind
from mashwright.measures.units import counted, find
from mashwright.patterns import pattern

KINDS = (
    Kind.MASS, Kind.VOLUME, Kind.TEMPERATURE, Kind.TIME, Kind.GRAVITY, Kind.SHARE, Kind.BITTERNESS, Kind.BEER_COLOUR,
    Kind.ALPHA_UNITS, Kind.PACKS, Kind.CELLS, Kind.THICKNESS, Kind.CARBONATION, Kind.PRESSURE, Kind.DOSE,
)  # fmt: skip
"""What an amount of a page may be, the likeliest first."""
_NUMBER = pattern(
    r"\s*((?:\d+ )?\d[\d./]*(?:\s*(?:-|–|to)\s*\d[\d./]*)?)\s*(.*?)\.?\s*",
)
_SOME_GRAVITY = pattern(r"1\.\d{2,4}(?:\s*-\s*1?\.?\d{2,4})?|1[01]\d\d(?:\s*-\s*1[01]\d\d)?")
BOIL_OF_WATER = 100


def value(text: str, kind: Kind | None = None) -> str:
    """An amount with its unit by its usual name; another text as it is."""
    found = _NUMBER().fullmatch(text)
    if found is None or not found[2]:
        return text
    for one in KINDS if kind is None else (kind,):
        unit = find(found[2], one)
        if unit is not None and unit.name:
            return counted(found[1], unit.name)
    return text


def is_gravity(text: str) -> bool:
    """Whether a bare number is a specific gravity: 1.048, or 1048."""
    return _SOME_GRAVITY().fullmatch(text) is not None


def amounts(text: str) -> list[Amount]:
    """Every amount in a text."""
    return [piece for piece in cut(text, KINDS, frozenset()) if isinstance(piece, Amount)]
