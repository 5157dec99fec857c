"""The ions of the brewing water beside what is usual."""

from collections.abc import Sequence

from markupsafe import Markup

from mashwright.brew.board import number
from mashwright.measures.range import Range
from mashwright.reporting.book.svg import Scale, line, picture, rect, text

Ion = tuple[str, Range | None, Range | None, float | None, float | None]
"""Name, mg/l in the mash and in the kettle, and the least and the most that are usual."""


def ions(rows: Sequence[Ion]) -> Markup:
    """A bar an ion: filled is all water of the kettle, the upright stroke the mash, shaded what is usual."""
    values = [one for _, mash, kettle, low, high in rows for one in (_end(mash), _end(kettle), low, high)]
    scale = Scale(0, max(1.0, *(one for one in values if one is not None)) * 1.02, 84, 346)
    drawn: list[Markup] = []
    told = []
    y = 4.0
    for name, mash, kettle, low, high in rows:
        drawn.append(text(78, y + 14, name, "", "end"))
        if high is not None:
            drawn.append(rect(scale(low or 0), y, scale(high) - scale(low or 0), 20, "band"))
        if kettle is not None:
            drawn += [rect(84, y + 6, scale(kettle.typical) - 84, 8, "bar")]
            if not kettle.known:
                drawn.append(line(scale(kettle.low), y + 10, scale(kettle.high), y + 10, "range"))
        if mash is not None:
            drawn += [
                line(scale(mash.typical), y, scale(mash.typical), y + 20, "paper"),
                line(scale(mash.typical), y, scale(mash.typical), y + 20, "accent"),
            ]
        shown = kettle if kettle is not None else mash
        if shown is not None:
            drawn.append(text(396, y + 14, f"{number(shown.typical, 3)}", "", "end"))
            told.append(f"{name} {number(shown.typical, 3)}")
        y += 26
    for value in scale.ticks(4):
        drawn += [
            line(scale(value), y - 2, scale(value), y + 2, "soft"),
            text(scale(value), y + 14, f"{value:g}", "", "middle"),
        ]
    drawn.append(text(396, y + 14, "mg/l", "", "end"))
    return picture("ions", "Ions of the water", f"mg/l in all water: {', '.join(told)}.", y + 20, *drawn)


def _end(value: Range | None) -> float | None:
    return value.high if value is not None else None
