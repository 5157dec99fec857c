"""The time of conversion minute by minute, and the quick estimate that stands beside it on the board."""

import re

import pytest

import mashwright

PALE = "grain: two-row pale malt, weight: 4 kg"
DARK = "grain: dark Munich malt, weight: 2 kg"
HOUR = "{at: 66 °C, for: 60 min}"


def board(*grist: str, rests: str) -> tuple[float, float, str]:
    """Both times in minutes, and the last line of the working."""
    lines = "".join(f"  - {{{line}}}\n" for line in grist)
    sheet = mashwright.figures_of(f"recipe: T\nbatch: 20 l\ngrist:\n{lines}mash: {{rests: [{rests}]}}\n")
    working = next(row.working for row in sheet.rows if row.id == "conversion-time")
    counted = re.search(r"if need be: (?:more than )?(\d+) min", working)
    estimated = re.search(r"about (\d+) min", working)
    assert counted is not None
    assert estimated is not None
    return float(counted[1]), float(estimated[1]), working.splitlines()[-1]


@pytest.mark.parametrize("grist", [PALE, DARK, "grain: light Munich malt, weight: 5 kg"])
@pytest.mark.parametrize("at_c", [64, 66, 68, 72])
def test_they_agree_in_an_ordinary_mash(grist: str, at_c: float) -> None:
    counted, estimated, last = board(grist, rests=f"{{at: {at_c} °C, for: 60 min}}")
    assert counted == pytest.approx(estimated, abs=10)
    assert last.endswith(f"about {estimated:g} min")


@pytest.mark.parametrize(
    ("grist", "rests", "why"),
    [
        (
            (PALE,),
            "{at: 50 °C, for: 20 min}, {at: 62 °C, for: 40 min}, {at: 72 °C, for: 20 min}",
            "it counts this rest alone, not the rests before it",
        ),
        (
            (PALE, "grain: maize grits, weight: 2 kg"),
            HOUR,
            "it counts barley malt alone, and the starch of maize grits comes later",
        ),
        ((DARK, "grain: flaked rice, weight: 3 kg"), HOUR, "the enzymes fade in so long a mash"),
        ((PALE,), "{at: 57 °C, for: 60 min}", "starch converts while more of it is released"),
    ],
)
def test_where_they_part_the_board_says_why(grist: tuple[str, ...], rests: str, why: str) -> None:
    counted, estimated, last = board(*grist, rests=rests)
    assert abs(counted - estimated) > 9.5
    assert last == f"  it parts from the time above, since {why}"
