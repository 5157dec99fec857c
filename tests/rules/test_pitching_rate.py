"""Yeast that is pitched against what the wort wants."""

from collections.abc import Callable

import pytest

import mashwright

Found = Callable[..., list[str]]

HEAD = """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
"""

CASES = {
    "enough for an ale": (
        """\
yeast: {kind: American ale, pitch: 7 g}
targets: {og: 1.048}
""",
        [],
    ),
    "thin for an ale": (
        """\
yeast: {kind: American ale, pitch: 6 g}
targets: {og: 1.048}
""",
        [
            "5:36: warning: 6 g of dry yeast is 0.3 g/l; an ale needs at least 0.35 g/l",
        ],
    ),
    "enough for a lager": (
        """\
yeast: {kind: Bavarian lager, pitch: 14 g}
ferment: [{at: 10 °C}]
targets: {og: 1.048}
""",
        [],
    ),
    "thin for a lager": (
        """\
yeast: {kind: Bavarian lager, pitch: 11.5 g}
ferment: [{at: 10 °C}]
targets: {og: 1.048}
""",
        [
            "5:38: warning: 11.5 g of dry yeast is 0.57 g/l; a lager of 1.048 needs at least 0.69 g/l",
        ],
    ),
    "a lager yeast pitched warm": (
        """\
yeast: {kind: Bavarian lager, pitch: 11.5 g}
ferment: [{at: 19 °C}]
targets: {og: 1.048}
""",
        [],
    ),
    "thin for a strong ale": (
        """\
yeast: {kind: American ale, pitch: 11 g}
targets: {og: 1.110}
""",
        [
            ("5:36: note: 11 g of dry yeast is 0.55 g/l; an ale of 1.110 needs at least 0.61 g/l"),
        ],
    ),
    "by the litre": (
        """\
yeast: {kind: American ale, pitch: 0.2 g/l}
targets: {og: 1.048}
""",
        [
            "5:36: warning: 0.2 g/l of dry yeast is thin; an ale needs at least 0.35 g/l",
        ],
    ),
    "a yeast that no table knows": (
        """\
yeast: {kind: house, pitch: 5 g}
targets: {og: 1.048}
""",
        [
            "5:29: warning: 5 g of dry yeast is 0.25 g/l; an ale needs at least 0.35 g/l",
        ],
    ),
    "one pack for an ordinary ale": (
        """\
yeast: {kind: American ale, pitch: 1 pack}
targets: {og: 1.048}
""",
        [],
    ),
    "one pack for a strong ale": (
        """\
yeast: {kind: American ale, pitch: 1 pack}
targets: {og: 1.085}
""",
        [
            (
                "5:36: warning: 1 pack has about 100 billion cells, 33 % of the 307 billion that this wort of"
                " 1.085 needs"
            ),
        ],
    ),
    "one pack in a starter for a strong ale": (
        """\
yeast: {kind: American ale, pitch: 1 pack, starter: 2 l}
targets: {og: 1.085}
""",
        [],
    ),
    "one old pack": (
        """\
yeast: {kind: American ale, pitch: 1 pack, viability: 50 %}
targets: {og: 1.048}
""",
        [
            ("5:36: warning: 1 pack has about 50 billion cells, 28 % of the 179 billion that this wort of 1.048 needs"),
        ],
    ),
    "one pack for a lager": (
        """\
yeast: {kind: Bavarian lager, pitch: 1 pack}
targets: {og: 1.048}
""",
        [
            (
                "5:38: warning: 1 pack has about 100 billion cells, 28 % of the 357 billion that this wort of"
                " 1.048 needs"
            ),
        ],
    ),
    "two packs for a lager": (
        """\
yeast: {kind: Bavarian lager, pitch: 2 packs}
targets: {og: 1.048}
""",
        [],
    ),
    "slurry": (
        """\
yeast: {kind: Bavarian lager, pitch: 200 ml}
targets: {og: 1.048}
""",
        [],
    ),
    "too little slurry": (
        """\
yeast: {kind: Bavarian lager, pitch: 100 ml}
targets: {og: 1.048}
""",
        [
            (
                "5:38: warning: 100 ml has about 120 billion cells, 34 % of the 357 billion that this wort of"
                " 1.048 needs"
            ),
        ],
    ),
    "counted cells": (
        """\
yeast: {kind: American ale, pitch: 50 billion cells}
targets: {og: 1.048}
""",
        [
            "5:36: warning: 50 billion cells is 28 % of the 179 billion cells that this wort of 1.048 needs",
        ],
    ),
    "kveik is pitched thin": (
        """\
yeast: {kind: kveik, pitch: 2 g}
targets: {og: 1.048}
""",
        [],
    ),
    "a souring culture": (
        """\
yeast: {kind: sour culture, pitch: 1 g}
targets: {og: 1.048}
""",
        [],
    ),
    "barm by weight": (
        """\
yeast: {kind: English ale, pitch: 6 oz}
targets: {og: 1.048}
""",
        [],
    ),
    "nobody says how much": (
        """\
yeast: {kind: American ale}
targets: {og: 1.048}
""",
        [],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_pitching_rate(found: Found, case: str) -> None:
    text, expected = CASES[case]
    assert found("pitching_rate", HEAD + text) == expected


def test_what_no_scale_shows_is_no_warning(found: Found) -> None:
    """0.526 g/l where 0.53 is wanted, 44.7 % of the cells where 45 % is the edge."""
    text = HEAD + "yeast: {kind: Bavarian lager, pitch: 13.6 g}\ntargets: {og: 1.048}\n"
    assert [one.split(": ")[1] for one in found("pitching_rate", text)] == ["note"]
    cells = HEAD + "yeast: {kind: American ale, pitch: 75 billion cells}\ntargets: {og: 1.048}\n"
    assert [one.split(": ")[1] for one in found("pitching_rate", cells)] == ["note"]


@pytest.mark.parametrize(("pitch", "level"), [("5.2 g", []), ("4.6 g", ["note"]), ("4 g", ["warning"])])
def test_weak_wort_wants_less(found: Found, pitch: str, level: list[str]) -> None:
    """By hand: 1.034 is 8.5 °P, and 0.35 g/l × 8.5 ÷ 12 is 0.25 g/l, 5 g in 20 l."""
    told = found("pitching_rate", HEAD + f"yeast: {{kind: English ale, pitch: {pitch}}}\ntargets: {{og: 1.034}}\n")
    assert [one.split(": ")[1] for one in told] == level
    assert all(one.endswith("an ale of 1.034 needs at least 0.25 g/l") for one in told)


@pytest.mark.parametrize(
    ("pitch", "told"),
    [
        (
            "11.5 kg",
            "error: 11.5 kg of yeast is 575 g/l; even thick barm is at most 60 g/l; did you mean 11.5 g?",
        ),
        ("5 lb", "error: 5 lb of yeast is 113 g/l; even thick barm is at most 60 g/l"),
        ("200000 billion cells", "warning: 200000 billion cells is about 1119 times the yeast that this wort needs"),
        ("300 g", ""),
        ("11.5 g", ""),
    ],
)
def test_far_too_much_is_a_slip(found: Found, pitch: str, told: str) -> None:
    text = (
        "recipe: T\nby: x\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4.4 kg}\n"
        f"yeast: {{kind: English ale, pitch: {pitch}}}\ntargets: {{og: 1.048}}\n"
    )
    lines = found("pitching_rate", text)
    assert [f"6:35: {told}" in line for line in lines] == ([True] if told else [])


def test_grams_for_kilograms_mend_it() -> None:
    text = (
        "recipe: T\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4.4 kg}\n"
        "yeast: {kind: kveik, pitch: 11.5 kg}\ntargets: {og: 1.048}\n"
    )
    (told,) = [one for one in mashwright.review_text(text).recipes[0].results if one.rule == "pitching-rate"]
    assert [one.text for one in told.remedies] == ["use 11.5 g instead of 11.5 kg"]
