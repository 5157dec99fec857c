"""How a sum is written on the board: plain numbers, a line each, nothing wider than a page."""

from collections.abc import Iterable
from math import floor, log10

from mashwright.measures.range import Range
from mashwright.words.sentences import Measure


def number(value: float, digits: int = 4) -> Measure:
    """A number with so many significant digits, no needless zeros, no exponent."""
    if value == 0 or value != value:  # noqa: PLR0124  (not a number prints as nan)
        return Measure(f"{value:g}", value, "")
    places = max(0, digits - 1 - floor(log10(abs(value))))
    text = f"{value:.{places}f}"
    return Measure(text.rstrip("0").rstrip(".") if "." in text else text, value, "")


def told(value: float, limit: float, digits: int = 2) -> Measure:
    """A number beside the limit that it misses: digits are added until the two print differently."""
    while number(value, digits) == number(limit, digits) and digits < 9:
        digits += 1
    return number(value, digits)


def gravity(sg: float) -> Measure:
    """A specific gravity as brewers write it."""
    return Measure(f"{sg:.3f}", sg, "SG")


def share(value: float) -> str:
    """A share 0-1 in per cent."""
    return f"{number(100 * value, 3)} %"


def spread(value: Range, digits: int = 3) -> str:
    """A range: the typical value, with its ends in brackets where they differ."""
    typical = number(value.typical, digits)
    if value.known:
        return typical
    return f"{typical} ({number(value.low, digits)} to {number(value.high, digits)})"


def lines(rows: Iterable[str]) -> str:
    """Several lines of a working."""
    return "\n".join(rows)
