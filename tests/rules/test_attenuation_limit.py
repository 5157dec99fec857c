"""What no ordinary wort ferments to, and what splits dextrins."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

CASES = {
    "at the limit": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: American ale}
targets: {og: 1.050, fg: 1.007}
""",
        [],
    ),
    "a point is allowed": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: American ale}
targets: {og: 1.050, fg: 1.0055}
""",
        [],
    ),
    "past it": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: American ale}
targets: {og: 1.050, fg: 1.004}
""",
        [
            (
                "6:26: warning: FG 1.004 from OG 1.050 is an attenuation of 92 %; without enzymes or diastatic"
                " yeast this wort reaches at most 88 %"
            ),
        ],
    ),
    "far past it": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: American ale}
targets: {og: 1.050, fg: 1.000}
""",
        [
            (
                "6:26: error: FG 1.000 from OG 1.050 is an attenuation of 100 %; without enzymes or diastatic"
                " yeast this wort reaches at most 88 %"
            ),
        ],
    ),
    "far past it with an unknown yeast": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.050, fg: 1.000}
""",
        [
            (
                "5:26: warning: FG 1.000 from OG 1.050 is an attenuation of 100 %; without enzymes or diastatic"
                " yeast this wort reaches at most 88 %"
            ),
        ],
    ),
    "with sugar": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
  - {sugar: table sugar, weight: 1 kg}
yeast: {kind: American ale}
targets: {og: 1.065, fg: 1.004}
""",
        [],
    ),
    "past what its sugar lifts it to": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
  - {sugar: table sugar, weight: 1 kg}
yeast: {kind: American ale}
targets: {og: 1.065, fg: 0.998}
""",
        [
            (
                "7:26: warning: FG 0.998 from OG 1.065 is an attenuation of 103 %; without enzymes or diastatic"
                " yeast this wort reaches at most 98 %, since its sugar ferments fully and its malt to 88 %"
            ),
        ],
    ),
    "stated attenuation past what sugar lifts it to": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
  - {sugar: dextrose, weight: 500 g}
yeast: {kind: American ale, attenuation: 78 %}
targets: {attenuation: 96 %}
""",
        [
            (
                "7:24: warning: an attenuation of 96 % is too much; without enzymes or diastatic yeast this wort"
                " reaches at most 94 %, since its sugar ferments fully and its malt to 88 %"
            ),
        ],
    ),
    "stated attenuation above the yeast's, by sugar": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
  - {sugar: dextrose, weight: 500 g}
yeast: {kind: American ale, attenuation: 78 %}
targets: {attenuation: 90 %}
""",
        [],
    ),
    "diastatic": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: saison}
targets: {og: 1.050, fg: 1.000}
""",
        [],
    ),
    "diastatic as stated": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: house, attenuation: 78 %, diastatic: true}
targets: {og: 1.050, fg: 1.000}
""",
        [],
    ),
    "Brettanomyces": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: [{kind: English ale}, {kind: Brettanomyces}]
targets: {og: 1.050, fg: 1.000}
""",
        [],
    ),
    "enzymes in the mash": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {enzymes: {glucoamylase: 5 ml}}
yeast: {kind: American ale}
targets: {og: 1.050, fg: 1.000}
""",
        [],
    ),
    "fg not below og": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: American ale}
targets: {og: 1.048, fg: 1.048}
""",
        [
            "6:26: error: FG 1.048 is not below OG 1.048: nothing would have fermented",
        ],
    ),
    "below what alcohol shows": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: saison}
targets: {og: 1.050, fg: 0.985}
""",
        [
            "6:26: error: FG 0.985 from OG 1.050 is not possible; with all of its extract fermented it ends at 0.989",
        ],
    ),
    "stated attenuation": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: American ale}
targets: {attenuation: 93 %}
""",
        [
            (
                "6:24: warning: an attenuation of 93 % is too much; without enzymes or diastatic yeast this wort"
                " reaches at most 88 %"
            ),
        ],
    ),
    "stated attenuation in the limit": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: American ale}
targets: {attenuation: 80 %}
""",
        [],
    ),
    "only fg": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: American ale}
targets: {fg: 1.000}
""",
        [],
    ),
    "an unknown grain": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: moon dust, weight: 4 kg}
yeast: {kind: American ale}
targets: {og: 1.050, fg: 1.000}
""",
        ["4:13: open: what moon dust is"],
    ),
    "grist, rests and yeast are known": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 66 °C, for: 60 min}]}
yeast: {kind: American ale}
targets: {og: 1.050, fg: 1.003}
""",
        [],
    ),
    "a yeast of which nothing is known": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: Ardennes}
targets: {og: 1.050, fg: 1.003}
""",
        [
            (
                "6:26: note: FG 1.003 from OG 1.050 is an attenuation of 94 %; without enzymes or diastatic yeast"
                " this wort reaches at most 88 %"
            ),
        ],
    ),
    "a yeast that is stated to go further": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: Ardennes, attenuation: 90-96 %}
targets: {og: 1.050, fg: 1.003}
""",
        [],
    ),
    "a mixed culture": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: spontaneous}
targets: {og: 1.050, fg: 1.001}
""",
        [],
    ),
    "an enzyme that leaves dextrins alone": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {enzymes: {beta-glucanase: 2 g}}
yeast: {kind: American ale}
targets: {og: 1.050, fg: 1.003}
""",
        [
            (
                "7:26: warning: FG 1.003 from OG 1.050 is an attenuation of 94 %; without enzymes or diastatic"
                " yeast this wort reaches at most 88 %"
            ),
        ],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_attenuation_limit(found: Found, case: str) -> None:
    recipe, expected = CASES[case]
    assert found("attenuation_limit", recipe) == expected
