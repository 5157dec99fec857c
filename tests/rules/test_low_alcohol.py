"""Weak beer and wort that is kept."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

HEAD = """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 1.2 kg}
"""

WEAK = (
    "{}: {} % alcohol protects less against germs than 2.5 % or more; if this is on purpose, it needs low pH, cold"
    " or heat, so ask an expert"
)

CASES = {
    "small beer": (
        """\
targets: {og: 1.028, fg: 1.008, abv: 2.6 %}
""",
        [],
    ),
    "at the limit": (
        """\
targets: {abv: 2.5 %}
""",
        [],
    ),
    "below the limit": (
        """\
targets: {abv: 2.4 %}
""",
        [
            (
                "5:16: note: 2.4 % alcohol protects less against germs than 2.5 % or more; if this is on purpose,"
                " it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "nearly without alcohol": (
        """\
targets: {abv: 1.1 %}
""",
        [
            (
                "5:16: warning: 1.1 % alcohol protects less against germs than 2.5 % or more; if this is on"
                " purpose, it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "without alcohol, by the gravities": (
        """\
targets: {og: 1.012, fg: 1.009}
""",
        [
            (
                "5:26: warning: 0.39 % alcohol protects less against germs than 2.5 % or more; if this is on"
                " purpose, it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "treated, by its notes": (
        """\
notes: pasteurised in the bottle
targets: {abv: 0.5 %}
""",
        [
            (
                "6:16: note: 0.5 % alcohol protects less against germs than 2.5 % or more; if this is on purpose,"
                " it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "treated, by an addition of acid": (
        """\
additions: [{what: lactic acid, volume: 20 ml, when: at packaging}]
targets: {abv: 0.5 %}
""",
        [
            (
                "6:16: note: 0.5 % alcohol protects less against germs than 2.5 % or more; if this is on purpose,"
                " it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "a souring culture": (
        """\
yeast: [{kind: English ale}, {kind: lactobacillus culture}]
targets: {abv: 2.4 %}
""",
        [
            (
                "6:16: note: 2.4 % alcohol protects less against germs than 2.5 % or more; if this is on purpose,"
                " it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "water of another source": (
        """\
notes: water from another source, placid, scolded for pressurelessness
targets: {abv: 0.5 %}
""",
        [WEAK.format("6:16: warning", "0.5")],
    ),
    "not sour, without acid": (
        """\
notes: not sour at all, brewed without acid
targets: {abv: 0.5 %}
""",
        [WEAK.format("6:16: warning", "0.5")],
    ),
    "lactose does not sour": (
        """\
yeast: [{kind: lactose free house yeast}]
targets: {abv: 0.5 %}
""",
        [WEAK.format("6:16: warning", "0.5")],
    ),
    "meant sour by its style": (
        """\
style: Berliner Weisse
targets: {abv: 0.5 %}
""",
        [WEAK.format("6:16: note", "0.5")],
    ),
    "a culture that the tables know": (
        """\
yeast: [{kind: English ale}, {kind: lactobacillus}]
targets: {abv: 0.5 %}
""",
        [WEAK.format("6:16: note", "0.5")],
    ),
    "a cube overnight": (
        """\
chill: {by: no-chill, for: 12 h}
""",
        [
            (
                "5:28: note: wort that cools in a closed vessel (no-chill) is not sour enough to be kept; pitch it the"
                " next day; to be kept it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "a cube for weeks": (
        """\
chill: {by: no-chill, for: 3 weeks}
""",
        [
            (
                "5:28: warning: wort that cools in a closed vessel (no-chill) is not sour enough to be kept; pitch it"
                " the next day; to be kept it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "no-chill of another source": (
        """\
notes: no-chill, water from another source
""",
        [
            (
                "5:8: warning: wort that cools in a closed vessel (no-chill) is not sour enough to be kept; pitch"
                " it the next day; to be kept it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "no-chill beside another no": (
        """\
notes: no hops no-chill
""",
        [
            (
                "5:8: warning: wort that cools in a closed vessel (no-chill) is not sour enough to be kep"
                "t; pitch it the next day; to be kept it needs low pH, cold or heat, so ask an"
                " expert"
            ),
        ],
    ),
    "no-chill with acid": (
        """\
notes: no chill with acid
""",
        [
            (
                "5:8: note: wort that cools in a closed vessel (no-chill) is not sour enough to be kept; pitch it"
                " the next day; to be kept it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "by the grist alone": (
        """\
yeast: {kind: English ale}
""",
        [
            (
                "3:1: note: 1.7 % alcohol protects less against germs than 2.5 % or more; if this is on purpose,"
                " it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "no-chill": (
        """\
notes: no-chill in a cube, pitched on Sunday
""",
        [
            (
                "5:8: warning: wort that cools in a closed vessel (no-chill) is not sour enough to be kept; pitch"
                " it the next day; to be kept it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "no-chill with an acid": (
        """\
notes: no-chill in a cube with acid to pH 4.2
""",
        [
            (
                "5:8: note: wort that cools in a closed vessel (no-chill) is not sour enough to be kept; pitch it"
                " the next day; to be kept it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "no chill haze": (
        """\
notes: no chill haze at all
""",
        [],
    ),
    "stored starter wort": (
        """\
notes: starter wort canned in jars, kept on the shelf for months
""",
        [
            (
                "5:8: warning: stored starter wort is not sour enough to hold back dangerous germs, boiled or"
                " not; it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "starter wort in the freezer": (
        """\
notes: starter wort is stored in the freezer
""",
        [
            (
                "5:8: note: stored starter wort is not sour enough to hold back dangerous germs, boiled or not;"
                " it needs low pH, cold or heat, so ask an expert"
            ),
        ],
    ),
    "a starter of the day": (
        """\
notes: starter wort made two days before
""",
        [],
    ),
    "an unreadable alcohol": (
        """\
targets: {og: 1.012, fg: 1.009, abv: little}
""",
        ["5:38: open: a readable ABV"],
    ),
    "gravities the wrong way round": (
        """\
targets: {og: 1.010, fg: 1.040}
""",
        [],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_low_alcohol(found: Found, case: str) -> None:
    text, expected = CASES[case]
    assert found("low_alcohol", HEAD + text) == expected
