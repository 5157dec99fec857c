"""The mash over time: its temperature above, below it what becomes of starch and enzymes."""

from collections.abc import Sequence

from markupsafe import Markup

from mashwright.brew.board import number
from mashwright.brewing.mash import Minute
from mashwright.reporting.book.svg import Scale, line, path, picture, text

_LEFT, _RIGHT = 34.0, 392.0


def mash(course: Sequence[Minute], converted_at: float | None) -> Markup:
    """Two pictures over one time line.

    Args:
        course: the mash minute by minute; not empty.
        converted_at: minutes after which it is done; None where it is not by its end.
    """
    end = course[-1]
    time = Scale(0, max(1.0, end.minute), _LEFT, _RIGHT)
    heats = [one.at_c for one in course]
    heat = Scale(min(heats) - 3, max(heats) + 3, 88, 22)
    share = Scale(0, 100, 250, 122)
    parts: list[Markup] = [text(0, 10, "temperature of the mash, °C")]
    parts.append(path(((time(one.minute), heat(one.at_c)) for one in course), "curve strong"))
    told: float | None = None
    for before, one in zip((None, *course), course, strict=False):
        if (before is None or before.at_c != one.at_c) and (told is None or abs(one.at_c - told) >= 2):
            told = one.at_c
            parts.append(text(min(time(one.minute) + 2, 360), heat(one.at_c) - 5, f"{number(one.at_c, 3)}"))
    parts.append(text(0, 112, "per cent of all starch, or of the first enzymes"))
    for value in (0, 25, 50, 75, 100):
        parts += [
            line(_LEFT, share(value), _RIGHT, share(value), "hair"),
            text(28, share(value) + 4, f"{value}", "", "end"),
        ]
    for minute in time.ticks(6):
        parts += [
            line(time(minute), 250, time(minute), 254, "soft"),
            text(time(minute), 267, f"{minute:g}", "", "middle"),
        ]
    parts.append(text(_RIGHT, 281, "minutes", "", "end"))
    parts.append(path(((time(one.minute), share(one.released)) for one in course), "curve dashed"))
    parts.append(path(((time(one.minute), share(one.enzyme_left)) for one in course), "curve dotted accent"))
    parts.append(path(((time(one.minute), share(one.converted)) for one in course), "curve strong"))
    if converted_at is not None:
        x = time(converted_at)
        parts += [line(x, 118, x, 250, "paper"), line(x, 118, x, 250, "accent")]
        beyond = x > 290
        words = f"done after {number(converted_at, 2)} min"
        parts.append(text(x - 4 if beyond else x + 4, 244, words, "on-paper", "end" if beyond else "start"))
    done = f"Conversion is done after {number(converted_at, 2)} minutes." if converted_at is not None else ""
    describes = (
        f"From {number(course[0].at_c, 3)} °C at the start to {number(end.at_c, 3)} °C after {number(end.minute, 3)}"
        f" minutes. At the end {number(end.released, 3)} % of the starch is released, {number(end.converted, 3)} %"
        f" turned to sugar, and {number(end.enzyme_left, 3)} % of the enzymes left. {done}"
    )
    return picture("mash", "The mash over time", describes.rstrip(), 286, *parts)
