"""Builds pictures as SVG, element by element; what comes into one is escaped here, so that no text adds an element."""

import re
from collections.abc import Iterable

from markupsafe import Markup, escape

from mashwright.patterns import pattern
from mashwright.reporting.book.gate import shown

WIDTH = 400
"""Of every picture: words keep one size on a phone, and two stand abreast on a screen."""

_NAME = pattern(r"[a-z][a-zA-Z0-9-]*", re.ASCII)
Child = str | Markup
"""A text, which is escaped, or an element."""


def el(name: str, *children: Child, **attributes: str | float) -> Markup:
    """An element.

    Args:
        name: of the element.
        children: elements as they are; a text is escaped.
        attributes: by their names, ``_`` for ``-``; ``class_`` is class. Numbers have two digits behind the point.

    Raises:
        ValueError: a name that is none, or one that would run or fetch something.
    """
    told = []
    for key, value in attributes.items():
        attribute = key.rstrip("_").replace("_", "-") if key != "viewBox" else key
        if not _NAME().fullmatch(attribute) or attribute.startswith("on") or attribute in ("style", "href", "src"):
            raise ValueError(f"a picture has no attribute {attribute}")
        told.append(f' {attribute}="{escape(_written(value))}"')
    if not _NAME().fullmatch(name) or name in ("script", "foreignObject", "image", "use", "style"):
        raise ValueError(f"a picture has no element {name}")
    inside = "".join(str(one) if isinstance(one, Markup) else str(escape(shown(one))) for one in children)
    return Markup(f"<{name}{''.join(told)}>{inside}</{name}>")  # noqa: S704  (each part is escaped above)


def _written(value: str | float) -> str:
    if isinstance(value, str):
        return shown(value)
    return f"{value:.2f}".rstrip("0").rstrip(".") if value else "0"


def picture(number: str, title: str, describes: str, height: float, *children: Child, width: float = WIDTH) -> Markup:
    """A whole picture with its title and description, for who cannot see it.

    Args:
        number: what parts it from others of the page, such as ``mash``; no text of a recipe.
        height, width: in units of the picture.
    """
    return el(
        "svg",
        el("title", title, id=f"t-{number}"),
        el("desc", describes, id=f"d-{number}"),
        *children,
        viewBox=f"0 0 {_written(width)} {_written(height)}",
        role="img",
        aria_labelledby=f"t-{number} d-{number}",
    )


def line(x1: float, y1: float, x2: float, y2: float, class_: str = "ink") -> Markup:
    """A straight stroke."""
    return el("line", x1=x1, y1=y1, x2=x2, y2=y2, class_=class_)


def rect(x: float, y: float, width: float, height: float, class_: str = "bar") -> Markup:
    """A rectangle; none is narrower than nothing."""
    return el("rect", x=x, y=y, width=max(0.0, width), height=max(0.0, height), class_=class_)


def text(x: float, y: float, words: str, class_: str = "", anchor: str = "start") -> Markup:
    """Words in a picture."""
    return el("text", words, x=x, y=y, class_=class_ or "label", text_anchor=anchor)


def path(points: Iterable[tuple[float, float]], class_: str) -> Markup:
    """A line through points."""
    steps = " ".join(f"{'L' if at else 'M'}{_written(x)} {_written(y)}" for at, (x, y) in enumerate(points))
    return el("path", d=steps, class_=class_)


class Scale:
    """From a value to a place along a side of a picture.

    Args:
        low, high: values at its ends; where they are the same, a little room is made.
        start, end: the places.
    """

    def __init__(self, low: float, high: float, start: float, end: float) -> None:
        if high <= low:
            low, high = low - 0.5 * (abs(low) or 1.0) * 0.02, low + 0.5 * (abs(low) or 1.0) * 0.02
        self.low, self.high, self.start, self.end = low, high, start, end

    def __call__(self, value: float) -> float:
        """The place of a value; one outside stands at the end."""
        share = (min(max(value, self.low), self.high) - self.low) / (self.high - self.low)
        return self.start + share * (self.end - self.start)

    def ticks(self, number: int = 5) -> list[float]:
        """Round values along it, about so many."""
        from math import floor, log10

        rough = (self.high - self.low) / max(1, number)
        power = 10.0 ** floor(log10(rough))
        step = next((one * power for one in (1, 2, 2.5, 5, 10) if one * power >= rough * 0.999), 10 * power)
        first = -(-self.low // step)
        return [step * (first + index) for index in range(int((self.high - first * step) / step + 1e-9) + 1)]
