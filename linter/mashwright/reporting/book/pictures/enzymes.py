"""Who brings enzymes to the mash and who only starch, beside the floors."""

from collections.abc import Sequence

from markupsafe import Markup

from mashwright.brew.board import number
from mashwright.measures.range import Range
from mashwright.reporting.book.svg import Scale, line, picture, rect, text


def enzymes(
    parts: Sequence[tuple[str, float, Range | None]], total: Range | None, floors: Sequence[tuple[str, float]]
) -> Markup:
    """Above, the weights as one bar: filled brings enzymes, open brings none. Below, the °Lintner that each adds.

    Args:
        parts: letter, share of the mash in %, and °Lintner that it adds, None where nothing is known of it.
        total: of the mash, °Lintner; None where it is not known.
        floors: word and °Lintner, the lowest first.
    """
    drawn = [text(0, 10, "share of the mash by weight")]
    x = 4.0
    for letter, share, adds in parts:
        width = 392 * share / 100
        brings = adds is not None and adds.typical > 0
        drawn.append(rect(x, 16, width, 20, "bar" if brings else "open"))
        if width > 14:
            drawn.append(text(x + width / 2, 31, letter, "on-bar" if brings else "label", "middle"))
        x += width
    height = 46.0
    if total is not None:
        most = max(total.high, *(value for _, value in floors), 1.0) if floors else max(total.high, 1.0)
        scale = Scale(0, most * 1.08, 4, 396)
        drawn.append(text(0, 56, "°Lintner that each adds to the whole mash"))
        x = 0.0
        for letter, _, adds in parts:
            if adds is None or adds.typical <= 0:
                continue
            drawn.append(rect(scale(x), 62, scale(x + adds.typical) - scale(x), 20, "bar edge"))
            if scale(x + adds.typical) - scale(x) > 14:
                drawn.append(text(scale(x) + 5, 77, letter, "on-bar"))
            x += adds.typical
        drawn += [
            line(scale(total.low), 90, scale(total.high), 90, "strong"),
            line(scale(total.low), 86, scale(total.low), 94, "strong"),
            line(scale(total.high), 86, scale(total.high), 94, "strong"),
        ]
        # the leftmost stands lowest, so that no stroke crosses its words
        for index, (word, value) in enumerate(floors):
            y = 112 + 16 * (len(floors) - 1 - index)
            drawn += [
                line(scale(value), 60, scale(value), y - 10, "paper"),
                line(scale(value), 60, scale(value), y, "accent"),
            ]
            drawn.append(text(scale(value) + 3, y, f"{number(value, 3)} {word}"))
        height = 118.0 + 16 * max(0, len(floors) - 1)
    told = [
        f"{letter} {number(share, 3)} % of the mash, "
        + (
            "of which nothing is known"
            if adds is None
            else f"adds {number(adds.typical, 3)} °Lintner"
            if adds.typical > 0
            else "brings no enzymes"
        )
        for letter, share, adds in parts[:12]
    ]
    whole = f" Together {number(total.typical, 3)} °Lintner." if total is not None else ""
    return picture("enzymes", "Who brings enzymes", f"{'; '.join(told)}.{whole}", height, *drawn)
