"""The units that make sense for a bare number, by the field that it stands in: what to offer first, two or three."""

from mashwright.finding import Path
from mashwright.measures.unit_table import Kind
from mashwright.measures.units import units_of

_KILOGRAMS = 40
"""A bare number up to here in a grist is kilograms or pounds, above it rather grams."""
_OUNCES = 16
"""Of hops, priming sugar and the like nobody writes more ounces than a pound has."""
_STARTER = 20
"""A bare volume of a yeast starter above this is millilitres."""
_PACKS = 4
_CELLS = 40
"""Of a bare number of yeast, up to the first packs, above the second cells: a packet is 11 g, a pitch 100 × 10^9."""


def usual_units(kind: Kind, number: float, place: Path) -> tuple[str, ...]:
    """The units to offer for a bare number of a kind, most fitting first.

    Args:
        kind: what the field holds.
        number: as it stands there.
        place: where in the document; () where that is not known.
    """
    fields = [step for step in place if isinstance(step, str)]
    key, owner = (fields[-1] if fields else ""), (fields[0] if fields else "")
    match kind:
        case Kind.MASS:
            if owner in ("grist", "grain-bill", ""):
                return ("kg", "lb") if number <= _KILOGRAMS else ("g", "kg")
            return ("g", "oz") if number <= _OUNCES else ("g",)
        case Kind.VOLUME:
            if owner == "additions" or key == "bottle":
                return ("ml", "fl oz") if number > 2 else ("ml", "l", "fl oz")
            return ("ml", "l") if owner == "yeast" and number > _STARTER else ("l", "gal")
        case Kind.TIME:
            return _times(key, owner, number)
        case Kind.PITCH:
            if number <= _PACKS:
                return ("packs", "g")
            return ("g", "ml") if number <= _CELLS else ("billion cells", "ml", "g")
        case Kind.PRESSURE:
            return ("bar", "psi") if number < 5 else ("psi", "kPa")
        case Kind.BOTTLE_RATING:
            return ("bar", "volumes")
        case Kind.BEER_COLOUR:
            return ("SRM", "EBC")
        case Kind.DIASTATIC_POWER:
            return ("°Lintner", "°WK")
        case Kind.ALKALINITY:
            return ("mg/l", "ppm", "°dH") if number <= 30 else ("mg/l", "ppm")
        case _:
            return units_of(kind)[:3]


def _times(key: str, owner: str, number: float) -> tuple[str, ...]:
    if owner == "ferment" or key == "dry":
        return ("d", "h") if number > 30 else ("d",) if number > 3 else ("d", "weeks")
    if key == "age":
        return ("weeks", "months")
    if number > 12:
        return ("min",) if owner else ("min", "d")
    return ("min", "h") if owner else ("min", "h", "d")
