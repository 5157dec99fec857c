"""A figure's range beside what the recipe states and what the style has."""

from markupsafe import Markup

from mashwright.measures.range import Range
from mashwright.reporting.book.svg import Scale, el, line, picture, rect


def bar(
    number: str, title: str, describes: str, value: Range, stated: float | None, low: float | None, high: float | None
) -> Markup:
    """Band: what was computed; upright stroke: the typical; diamond: what is stated; bracket below: the style.

    Args:
        number: of the picture on its page.
        describes: its numbers in words.
        stated: in the unit of ``value``, or None.
        low, high: of the style; ``high`` None where it is open upwards or there is no style.
    """
    ends = [value.low, value.high, *(one for one in (stated, low, high) if one is not None)]
    room = 0.06 * (max(ends) - min(ends))
    scale = Scale(min(ends) - room, max(ends) + room, 6, 234)
    parts = [line(6, 14, 234, 14, "hair"), rect(scale(value.low), 7, scale(value.high) - scale(value.low), 14, "band")]
    if low is not None:
        end = scale(high) if high is not None else 234.0
        parts.append(el("path", d=_bracket(scale(low), end, closed=high is not None), class_="soft"))
    parts.append(line(scale(value.typical), 4, scale(value.typical), 24, "strong"))
    if stated is not None:
        x = scale(stated)
        parts.append(el("path", d=f"M{x:.2f} 7.5 L{x + 6.5:.2f} 14 L{x:.2f} 20.5 L{x - 6.5:.2f} 14 Z", class_="stated"))
    return picture(number, title, describes, 34, *parts, width=240)


def _bracket(left: float, right: float, *, closed: bool) -> str:
    end = f"L{right:.2f} 26" if closed else ""
    return f"M{left:.2f} 26 L{left:.2f} 31 L{right:.2f} 31 {end}"
