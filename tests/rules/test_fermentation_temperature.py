"""Temperatures of fermentation against what the yeast likes."""

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
    "in its range": (
        """\
yeast: {kind: English ale}
ferment: [{at: 19 °C}]
""",
        [],
    ),
    "two degrees outside": (
        """\
yeast: {kind: English ale}
ferment: [{at: 24 °C}]
""",
        [],
    ),
    "three degrees warm": (
        """\
yeast: {kind: English ale}
ferment: [{at: 25 °C}]
""",
        [
            "6:16: note: 25 °C is warm for English ale yeast, which ferments at 18 to 22 °C",
        ],
    ),
    "seven degrees warm": (
        """\
yeast: {kind: English ale}
ferment: [{at: 29 °C}]
""",
        [
            "6:16: warning: 29 °C is warm for English ale yeast, which ferments at 18 to 22 °C",
        ],
    ),
    "three degrees cold": (
        """\
yeast: {kind: English ale}
ferment: [{at: 15 °C}]
""",
        [
            "6:16: note: 15 °C is cold for English ale yeast, which ferments at 18 to 22 °C",
        ],
    ),
    "five degrees cold": (
        """\
yeast: {kind: English ale}
ferment: [{at: 13 °C}]
""",
        [
            "6:16: warning: 13 °C is cold for English ale yeast, which ferments at 18 to 22 °C",
        ],
    ),
    "in Fahrenheit": (
        """\
yeast: {kind: English ale}
ferment: [{at: 86 °F}]
""",
        [
            "6:16: warning: 86 °F is warm for English ale yeast, which ferments at 64 to 72 °F",
        ],
    ),
    "a rest at the end and a cold store": (
        """\
yeast: {kind: Bavarian lager}
ferment: [{at: 10 °C}, {at: 18 °C}, {at: 1 °C}]
""",
        [],
    ),
    "rising at its end": (
        """\
yeast: {kind: Bavarian lager}
ferment: [{at: 10 °C, to: 16 °C}]
""",
        [],
    ),
    "a late step far too warm": (
        """\
yeast: {kind: Bavarian lager}
ferment: [{at: 10 °C}, {at: 28 °C}]
""",
        [
            "6:29: warning: 28 °C is warm for Bavarian lager yeast, which ferments at 7 to 15 °C",
        ],
    ),
    "saison in its heat": (
        """\
yeast: {kind: saison}
ferment: [{at: 33 °C}]
""",
        [],
    ),
    "above what yeast stands": (
        """\
yeast: {kind: saison}
ferment: [{at: 36 °C}]
""",
        [
            "6:16: warning: 36 °C is warm for saison yeast, which ferments at 15 to 35 °C",
        ],
    ),
    "kveik in its heat": (
        """\
yeast: {kind: kveik}
ferment: [{at: 38 °C}]
""",
        [],
    ),
    "a yeast that no table knows": (
        """\
yeast: {kind: house}
ferment: [{at: 30 °C}]
""",
        [],
    ),
    "above what any yeast stands": (
        """\
yeast: {kind: house}
ferment: [{at: 98 °F}]
""",
        [
            "6:16: warning: 98 °F is hotter than the 95 °F that brewing yeast (except kveik) tolerates",
        ],
    ),
    "no yeast at all": (
        """\
ferment: [{at: 37 °C}]
""",
        [
            "5:16: warning: 37 °C is hotter than the 35 °C that brewing yeast (except kveik) tolerates",
        ],
    ),
    "a souring culture in its heat": (
        """\
yeast: {kind: lactobacillus}
ferment: [{at: 40 °C}]
""",
        [],
    ),
    "of two the widest range counts": (
        """\
yeast: [{kind: English ale}, {kind: saison}]
ferment: [{at: 30 °C}]
""",
        [],
    ),
    "Fahrenheit read as Celsius is another question": (
        """\
yeast: {kind: English ale}
ferment: [{at: 68 °C}]
""",
        [],
    ),
    "no temperature": (
        """\
yeast: {kind: English ale}
ferment: [{for: 10 d}]
""",
        [],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_fermentation_temperature(found: Found, case: str) -> None:
    text, expected = CASES[case]
    assert found("fermentation_temperature", HEAD + text) == expected


RISING = "yeast: {{kind: English ale}}\nferment: [{{{}}}]\n"


@pytest.mark.parametrize(
    ("step", "expected"),
    [
        ("at: 60 °F, to: 68 °F, for: 6 d", []),
        ("at: 14 °C, to: 20 °C", []),
        (
            "at: 11 °C, to: 15 °C",
            ["6:16: warning: 11 °C rising to 15 °C is cold for English ale yeast, which ferments at 18 to 22 °C"],
        ),
        (
            "at: 54 °F, to: 64 °F",
            ["6:16: note: 54 °F rising to 64 °F is cold for English ale yeast, which ferments at 64 to 72 °F"],
        ),
        (
            "at: 15 °C, to: 12 °C",
            ["6:16: note: 15 °C is cold for English ale yeast, which ferments at 18 to 22 °C"],
        ),
        (
            "at: 26 °C, to: 28 °C",
            ["6:16: note: 26 °C is warm for English ale yeast, which ferments at 18 to 22 °C"],
        ),
    ],
)
def test_a_step_that_rises_is_judged_by_its_middle(found: Found, step: str, expected: list[str]) -> None:
    assert found("fermentation_temperature", HEAD + RISING.format(step)) == expected


def test_the_usual_is_told_in_the_recipes_degrees() -> None:
    (finding,) = mashwright.review_text(HEAD + RISING.format("at: 60 °F")).recipes[0].results
    assert [(row.label, row.value, row.unit) for row in finding.evidence] == [
        ("usual from", 64, "°F"),
        ("usual to", 72, "°F"),
    ]


def test_an_old_recipe_tells_the_heat_at_pitching(found: Found) -> None:
    cool = HEAD + RISING.format("at: 60 °F, for: 6 d")
    assert len(found("fermentation_temperature", cool)) == 1
    assert found("fermentation_temperature", f"{cool}source: brewhouse ledger, 1909\n") == []
    assert found("fermentation_temperature", f"{cool}source: old brewing book\n") == []
    assert len(found("fermentation_temperature", f"{cool}source: the club's ledger, 1986\n")) == 1
    for at in ("50 °F", "76 °F"):
        other = HEAD + RISING.format(f"at: {at}")
        told = found("fermentation_temperature", other)
        assert len(told) == 1
        assert found("fermentation_temperature", f"{other}source: brewhouse ledger, 1909\n") == told


@pytest.mark.parametrize(
    ("yeast", "told"),
    [
        ("kind: English ale, at: 42 °C", "warning: 42 °C may kill English ale yeast, which tolerates at most 35 °C"),
        ("kind: the old jar, at: 42 °C", "warning: 42 °C may kill the old jar yeast, which tolerates at most 35 °C"),
        ("kind: English ale, at: 108 °F", "warning: 108 °F may kill English ale yeast, which tolerates at most 95 °F"),
        ("kind: Bavarian lager, at: 24 °C", "note: 24 °C could be too warm to pitch Bavarian lager yeast"),
        ("kind: kveik, at: 40 °C", ""),
        ("kind: English ale, at: 24 °C", ""),
        ("kind: lactic acid bacteria, at: 42 °C", ""),
    ],
)
def test_yeast_that_is_pitched_hot(found: Found, yeast: str, told: str) -> None:
    text = f"recipe: T\nbatch: 20 l\ngrist:\n  - {{grain: pale ale malt, weight: 4.4 kg}}\nyeast: {{{yeast}}}\n"
    lines = found("fermentation_temperature", text)
    assert [told in line for line in lines] == ([True] if told else [])
