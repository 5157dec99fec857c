"""The gas that a vessel will hold beside what it bears."""

from collections.abc import Sequence

from markupsafe import Markup

from mashwright.brew.board import number
from mashwright.measures.range import Range
from mashwright.reporting.book.svg import Scale, line, picture, rect, text


def gas(value: Range, limits: Sequence[tuple[str, float]], unit: str, called: str) -> Markup:
    """Band and upright stroke: the gas; the strokes below it: what the vessel bears.

    Args:
        value: of the gas, in ``unit``.
        limits: word and value in the same unit, the lowest first.
        unit: volumes or bar.
        called: the vessel with what it bears, as a message says it.
    """
    most = max(value.high, *(one for _, one in limits))
    scale = Scale(0, most * 1.15, 4, 396)
    drawn: list[Markup] = [text(0, 10, f"all gas in the beer, {unit}"), line(4, 30, 396, 30, "hair")]
    drawn += [rect(scale(value.low), 18, scale(value.high) - scale(value.low), 24, "band")]
    drawn.append(line(scale(value.typical), 14, scale(value.typical), 46, "strong"))
    for one in scale.ticks(6):
        drawn += [line(scale(one), 48, scale(one), 52, "soft"), text(scale(one), 64, f"{one:g}", "", "middle")]
    for index, (word, one) in enumerate(limits):
        y = 84 + 16 * (len(limits) - 1 - index)
        drawn += [line(scale(one), 16, scale(one), y - 10, "paper"), line(scale(one), 16, scale(one), y, "accent")]
        left = scale(one) > 230
        drawn.append(
            text(scale(one) + (-4 if left else 4), y, f"{number(one, 3)} {word}", "", "end" if left else "start")
        )
    told = "; ".join(f"{word} {number(one, 3)}" for word, one in limits)
    describes = (
        f"{number(value.typical, 3)} {unit} ({number(value.low, 3)} to {number(value.high, 3)}) in {called}: {told}."
    )
    return picture("gas", "Gas against what the vessel bears", describes, 90 + 16 * (len(limits) - 1), *drawn)
