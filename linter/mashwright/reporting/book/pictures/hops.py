"""The hop additions on a time line, each with the bitterness that it gives."""

from collections.abc import Sequence

from markupsafe import Markup

from mashwright.brew.board import number
from mashwright.measures.range import Range
from mashwright.reporting.book.svg import Scale, el, line, picture, rect, text

BESIDE = ("mash", "first wort", "stand", "cold")
"""Places that have no minute of the boil; the first two stand before it, the others behind it."""


def hops(additions: Sequence[tuple[str, str, float | None, Range]], number_: int = 0) -> Markup:
    """A bar for each addition, over minutes to the end of the boil; the thin line is the range of its bitterness.

    Args:
        number_: of the beer on its page.
        additions: letter, place, minutes before the end of the boil where it is of the boil, and IBU; not empty.
    """
    most = max(1.0, *(one[3].high for one in additions))
    minutes = [one[2] for one in additions if one[2] is not None]
    longest = max(minutes, default=0.0)
    bitter = Scale(0, most * 1.12, 178, 30)
    before = [place for place in BESIDE[:2] if any(one[1] == place for one in additions)]
    left = 40 + 62 * len(before)
    boil = Scale(-longest if longest else -1.0, 0, left + 12, 288)
    drawn: list[Markup] = [text(0, 10, "bitterness of each addition, IBU")]
    for value in bitter.ticks(4):
        drawn += [
            line(34, bitter(value), 392, bitter(value), "hair"),
            text(28, bitter(value) + 4, f"{value:g}", "", "end"),
        ]
    for index, place in enumerate(before):
        drawn.append(text(40 + 62 * index + 28, 194, place, "", "middle"))
    drawn += [text(322, 194, "stand", "", "middle"), text(368, 194, "cold", "", "middle")]
    if longest:
        for value in Scale(0, longest, 0, 1).ticks(4):
            drawn.append(text(boil(-value), 194, f"{value:g}", "", "middle"))
        drawn.append(text((left + 300) / 2, 209, "minutes to the end of the boil", "", "middle"))
    seen: dict[int, int] = {}
    for letter, place, minute, ibu in additions:
        if place in before:
            x = 40 + 62 * before.index(place) + 28.0
        elif minute is not None:
            x = boil(-minute)
        else:
            x = 322.0 if place == "stand" else 368.0
        again = seen.get(round(x), 0)
        seen[round(x)] = again + 1
        x += 11 * again
        top = bitter(ibu.typical)
        drawn += [rect(x - 4, top, 8, 178 - top, "bar"), line(x, bitter(ibu.low), x, bitter(ibu.high), "range")]
        drawn.append(text(x, bitter(ibu.high) - 5, letter, "", "middle"))
    drawn.append(el("line", x1=34, y1=178, x2=392, y2=178, class_="soft"))
    told = "; ".join(
        f"{letter} {_when(place, minute)}, {number(ibu.typical, 3)} IBU"
        for letter, place, minute, ibu in additions[:12]
    )
    return picture(f"hops-{number_}", "Hops on a time line", f"{told}.", 214, *drawn)


def _when(place: str, minute: float | None) -> str:
    return f"{number(minute, 3)} min" if minute is not None else place or "as stated"
