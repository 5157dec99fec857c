"""A whole collection in one picture: where each beer stands among the others."""

from collections import Counter
from collections.abc import Sequence

from markupsafe import Markup

from mashwright.brewing.glass_colour import srgb_of_srm
from mashwright.reporting.book.svg import Scale, el, line, picture, rect, text

_LEFT, _RIGHT, _TOP, _BOTTOM = 40.0, 388.0, 24.0, 250.0
CELLS = 16
"""Squares along each side of the picture of a large collection."""

Dot = tuple[float, float, float | None, bool]
"""Across, up, SRM or None, and whether the review found an error."""


class Axis:
    """One side of the picture: its words, and the ends of what is shown."""

    def __init__(self, words: str, values: Sequence[float]) -> None:
        self.words = words
        room = 0.05 * (max(values) - min(values)) or 0.01
        self.low, self.high = max(0.0, min(values) - room), max(values) + room


def _frame(across: Axis, up: Axis) -> tuple[Scale, Scale, list[Markup]]:
    x = Scale(across.low, across.high, _LEFT, _RIGHT)
    y = Scale(up.low, up.high, _BOTTOM, _TOP)
    drawn: list[Markup] = [text(0, 12, up.words), text(_RIGHT, 282, across.words, "", "end")]
    for value in y.ticks(5):
        drawn += [
            line(_LEFT, y(value), _RIGHT, y(value), "hair"),
            text(_LEFT - 6, y(value) + 4, _tick(value, up.words), "", "end"),
        ]
    for value in x.ticks(5):
        drawn += [
            line(x(value), _BOTTOM, x(value), _BOTTOM + 4, "soft"),
            text(x(value), _BOTTOM + 17, _tick(value, across.words), "", "middle"),
        ]
    return x, y, drawn


def _tick(value: float, words: str) -> str:
    return f"{value:.3f}" if words == "OG" else f"{value:g}"


def scatter(number: str, title: str, across: str, up: str, dots: Sequence[Dot]) -> Markup:
    """A dot for each beer in its own colour; a cross through it marks an error.

    Args:
        number: of the picture on its page.
        across, up: words of the two sides.
        dots: not empty. Where several fall together the later ones are drawn smaller, so that each can be seen.
    """
    x, y, drawn = _frame(Axis(across, [one[0] for one in dots]), Axis(up, [one[1] for one in dots]))
    seen: Counter[tuple[int, int]] = Counter()
    for right, high, srm, wrong in dots:
        cell = round(x(right) / 5), round(y(high) / 5)
        radius = max(2.5, 6 - 1.5 * seen[cell])
        seen[cell] += 1
        fill = srgb_of_srm(max(0.0, srm)) if srm is not None else "none"
        drawn.append(el("circle", cx=x(right), cy=y(high), r=radius, fill=fill, class_="dot"))
        if wrong:
            a, b = x(right), y(high)
            for sign in (1, -1):
                drawn += [
                    line(a - 8, b - 8 * sign, a + 8, b + 8 * sign, "cross-under"),
                    line(a - 8, b - 8 * sign, a + 8, b + 8 * sign, "cross"),
                ]
    return picture(number, title, _told(dots, across, up), 288, *drawn)


def density(number: str, title: str, across: str, up: str, dots: Sequence[Dot]) -> Markup:
    """Squares, each the larger the more beers stand there; for a collection too large for dots."""
    x, y, drawn = _frame(Axis(across, [one[0] for one in dots]), Axis(up, [one[1] for one in dots]))
    width, height = (_RIGHT - _LEFT) / CELLS, (_BOTTOM - _TOP) / CELLS
    cells = Counter(
        (min(CELLS - 1, int((x(one[0]) - _LEFT) / width)), min(CELLS - 1, int((y(one[1]) - _TOP) / height)))
        for one in dots
    )
    most = max(cells.values())
    for (column, row), count in sorted(cells.items()):
        share = max(0.25, (count / most) ** 0.5)
        w, h = width * share, height * share
        drawn.append(rect(_LEFT + width * (column + 0.5) - w / 2, _TOP + height * (row + 0.5) - h / 2, w, h, "bar"))
    return picture(number, title, _told(dots, across, up), 288, *drawn)


def _told(dots: Sequence[Dot], across: str, up: str) -> str:
    wide, high = [one[0] for one in dots], [one[1] for one in dots]
    wrong = sum(one[3] for one in dots)
    return (
        f"{len(dots)} beers. {across} from {min(wide):.4g} to {max(wide):.4g}, {up} from {min(high):.4g} to"
        f" {max(high):.4g}. {wrong} of them with an error. The tables of the book have each with its numbers."
    )
