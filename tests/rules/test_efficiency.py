"""The stated efficiency against what brewers get."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

CASES = {
    "at 88 percent": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 88 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [],
    ),
    "at 88 1 percent": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 88.1 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [
            (
                "3:13: note: an efficiency of 88.1 % into the fermenter is more than brewers get, at most 88 %;"
                " was it measured elsewhere?"
            ),
        ],
    ),
    "at 100 percent": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 100 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [
            (
                "3:13: warning: an efficiency of 100 % into the fermenter is more than brewers get, at most 88 %;"
                " was it measured elsewhere?"
            ),
        ],
    ),
    "at 100 5 percent": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 100.5 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [
            (
                "3:13: error: an efficiency of 100.5 % is more than the grain contains; most brewers get 60 to 81"
                " % of it into the fermenter"
            ),
        ],
    ),
    "at 60 percent": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 60 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [],
    ),
    "at 59 9 percent": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 59.9 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [
            "3:13: note: an efficiency of 59.9 % is low; most brewers get at least 60 %",
        ],
    ),
    "at 40 percent": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 40 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [
            "3:13: note: an efficiency of 40 % is low; most brewers get at least 60 %",
        ],
    ),
    "at 39 9 percent": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 39.9 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [
            ("3:13: note: an efficiency of 39.9 % is below 40 %; more than half of the extract stays in the grain"),
        ],
    ),
    "at 0 72 percent": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 0.72 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [
            "3:13: warning: an efficiency of 0.72 % looks wrong; did you mean 72 %?",
        ],
    ),
    "in the kettle 90": (
        """\
recipe: Test Brew
batch: 20 l
mash-efficiency: 90 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [],
    ),
    "in the kettle 91": (
        """\
recipe: Test Brew
batch: 20 l
mash-efficiency: 91 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [
            (
                "3:18: note: an efficiency of 91 % in the kettle is more than brewers get, at most 90 %; was it"
                " measured elsewhere?"
            ),
        ],
    ),
    "a strong wort may take less": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 52 %
grist:
  - {grain: two-row pale malt, weight: 9 kg}
targets: {og: 1.095}
""",
        [],
    ),
    "a range around the limit": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 84-92 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [],
    ),
    "unstated": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        [],
    ),
    "unreadable": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: high
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
        ["3:13: open: a readable efficiency"],
    ),
    "nothing arrives": (
        """\
recipe: Test Brew
batch: 20 l
efficiency: 0 %
grist:
  - {grain: pale ale malt, weight: 4 kg}
""",
        [
            "3:13: error: with an efficiency of 0 % no extract reaches the wort",
        ],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_efficiency(found: Found, case: str) -> None:
    recipe, expected = CASES[case]
    assert found("efficiency", recipe) == expected


def left_in_the_goods(efficiency: str, more: str, weight: str = "5 kg") -> str:
    grist = f"grist:\n  - {{grain: two-row pale malt, weight: {weight}}}\n"
    return f"recipe: Test Brew\nbatch: 20 l\nefficiency: {efficiency}\n{grist}{more}\n"


@pytest.mark.parametrize(
    ("more", "weight", "why"),
    [
        ("sparge: {by: none}", "5 kg", "without a sparge"),
        ("targets: {og: 1.085}", "10 kg", "in a wort this strong"),
        ("", "14 kg", "in a wort this strong"),
    ],
)
def test_what_stays_in_the_goods_explains_it(found: Found, more: str, weight: str, why: str) -> None:
    assert found("efficiency", left_in_the_goods("45 %", more, weight)) == []
    assert found("efficiency", left_in_the_goods("39 %", more, weight)) == [
        f"3:13: note: an efficiency of 39 % is below 40 %, even {why}"
    ]
    assert found("efficiency", left_in_the_goods("95 %", more, weight))[0].startswith("3:13: warning")


@pytest.mark.parametrize("more", ["sparge: {by: fly}", "targets: {og: 1.050}"])
def test_nothing_explains_it(found: Found, more: str) -> None:
    assert found("efficiency", left_in_the_goods("45 %", more)) == [
        "3:13: note: an efficiency of 45 % is low; most brewers get at least 60 %"
    ]
    assert found("efficiency", left_in_the_goods("39 %", more))[0].startswith("3:13: note")  # within its own width
    assert found("efficiency", left_in_the_goods("37 %", more))[0].startswith("3:13: warning")
