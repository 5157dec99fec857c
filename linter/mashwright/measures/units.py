"""Units: how a value turns into the canonical unit of its kind and back, and how a brewer writes it."""

from math import floor, log10

from mashwright.measures.gravity_scale import plato, specific_gravity
from mashwright.measures.range import Range
from mashwright.measures.spellings import unit_key
from mashwright.measures.unit_table import ROWS, TABLES, USUAL, Kind, Unit
from mashwright.words.sentences import Measure

__all__ = [
    "Kind",
    "Unit",
    "convert",
    "counted",
    "find",
    "from_canonical",
    "said",
    "step_of",
    "to_canonical",
    "units_of",
]


def find(spelling: str, kind: Kind) -> Unit | None:
    """The unit of a kind by any of its spellings; None where it is not one of them."""
    table = TABLES[kind]
    unit = table.get(spelling)
    if unit is None:
        unit = table.get(unit_key(spelling))
    return unit


def units_of(kind: Kind) -> tuple[str, ...]:
    """The usual spellings of a kind's units, for messages and for editors; empty for bare numbers."""
    if kind is Kind.PITCH:
        return ("g", "ml", "packs", "billion cells")
    if kind is Kind.BOTTLE_RATING:
        return ("bar", "psi", "volumes")
    rows = ROWS[kind]
    return tuple(row[0][0] for row in rows[: USUAL.get(kind, len(rows))] if row[0][0])


def _known(unit: str, kind: Kind) -> Unit:
    found = find(unit, kind)
    if found is None:
        raise ValueError(f"{unit!r} is not a unit of {kind.value}")
    return found


def convert(value: float, unit: Unit, kind: Kind) -> float:
    """A value in a unit as its canonical value; see `to_canonical`."""
    if kind is Kind.GRAVITY and unit.name in _PLATO_SCALES:
        return specific_gravity(value)
    if not value and unit.name == "°WK":
        return 0.0  # malt without enzymes has none on either scale
    return value * unit.scale + unit.offset


_PLATO_SCALES = frozenset({"°P", "°Brix", "°Balling"})
_CLAMPED = frozenset({Kind.MALT_COLOUR, Kind.BEER_COLOUR, Kind.DIASTATIC_POWER})


def to_canonical(value: float, unit: str, kind: Kind) -> float:
    """A value in a unit, as the canonical value of its kind.

    Raises:
        ValueError: the unit is not one of the kind's.
    """
    return convert(value, _known(unit, kind), kind)


def from_canonical(value: float, unit: str, kind: Kind) -> float:
    """A canonical value of a kind, in a unit; colours and diastatic power never below 0.

    Raises:
        ValueError: the unit is not one of the kind's.
    """
    found = _known(unit, kind)
    if kind is Kind.GRAVITY and found.name in _PLATO_SCALES:
        return plato(value)
    inside = (value - found.offset) / found.scale
    return max(inside, 0.0) if kind in _CLAMPED else inside


def step_of(unit: str, kind: Kind) -> float:
    """The smallest step that can be weighed or set with a unit, in the canonical unit; for °P near 12 °P.

    Raises:
        ValueError: the unit is not one of the kind's.
    """
    found = _known(unit, kind)
    if kind is Kind.GRAVITY and found.name in _PLATO_SCALES:
        return found.step * 0.004
    return found.step * found.scale


_COMPOUND = {"lb oz": ("lb", "oz", 16), "h min": ("h", "min", 60)}


def said(value: Range | float, unit: str, kind: Kind) -> Measure:
    """A canonical value or range as a brewer writes it in a unit: ``1.62 kg``, ``3 lb 9 oz``, ``64-66 °C``, ``1.048``.

    Raises:
        ValueError: the unit is not one of the kind's.
    """
    found = _known(unit, kind)
    low, high = (value.low, value.high) if isinstance(value, Range) else (value, value)
    if found.name in _COMPOUND:
        ends = [_compound(from_canonical(end, unit, kind), *_COMPOUND[found.name]) for end in (low, high)]
        text = ends[0] if ends[0] == ends[1] else " to ".join(ends)
    else:
        first, last = (_figure(from_canonical(end, unit, kind), found) for end in (low, high))
        both = f"{first} to {last}" if "-" in first + last else f"{first}-{last}"
        text = counted(first if first == last else both, found.name)
    typical = value.typical if isinstance(value, Range) else value
    return Measure(text, from_canonical(typical, unit, kind), found.name)


def counted(number: str, unit: str) -> str:
    """A number with a unit's usual name, in the singular after 1: ``2 firkins``, ``1 quarter of malt``, ``1.048``."""
    if unit in ("", "SG", "pH"):
        return number
    head, of, rest = unit.partition(" of ")
    if number == "1" and head.endswith("s") and len(head) > 3 and not head.endswith("cells"):
        unit = head[:-1] + of + rest
    return f"{number} {unit}"


def _figure(value: float, unit: Unit) -> str:
    if unit.name == "SG":
        return f"{value:.3f}"
    digits = unit.digits
    if value:
        digits = max(digits, min(1 - floor(log10(abs(value))), 9))
    text = f"{value:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _compound(value: float, large: str, small: str, ratio: int) -> str:
    """The whole of a larger unit and the rest in the smaller: quarters of an ounce, whole minutes."""
    parts = round(value * ratio * 4) / 4 if small == "oz" else float(round(value * ratio))
    whole, rest = divmod(parts, ratio)
    if not rest:
        return f"{whole:.0f} {large}"
    return f"{rest:g} {small}" if not whole else f"{whole:.0f} {large} {rest:g} {small}"
