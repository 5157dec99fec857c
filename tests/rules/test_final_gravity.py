"""The stated FG against grist, mash and yeast."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

CASES = {
    "in the band": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.048, fg: 1.011}
""",
        [],
    ),
    "two points above it": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.048, fg: 1.018}
""",
        [],
    ),
    "too high": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.048, fg: 1.020}
""",
        [
            (
                "7:26: warning: FG 1.020 from OG 1.048 is an attenuation of 58 %; this grist, mash and yeast give"
                " 65 to 81 %, so FG 1.009-1.017"
            ),
        ],
    ),
    "too low with a hot mash": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 73 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.048, fg: 1.010}
""",
        [
            (
                "7:26: error: FG 1.010 from OG 1.048 is an attenuation of 79 %; this grist, mash and yeast give "
                "52 to 64 %, so FG 1.017-1.023"
            ),
        ],
    ),
    "far too low with a hot mash": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 76 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.048, fg: 1.008}
""",
        [
            (
                "7:26: error: FG 1.008 from OG 1.048 is an attenuation of 83 %; this grist, mash and yeast give "
                "39 to 51 %, so FG 1.024-1.030"
            ),
        ],
    ),
    "far too low but nothing stated": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: light Munich malt, weight: 4 kg}
  - {grain: caramel malt 120, weight: 1.5 kg}
targets: {og: 1.060, fg: 1.008}
""",
        [
            (
                "6:26: warning: FG 1.008 from OG 1.060 is an attenuation of 87 %; this grist, mash and yeast give"
                " 52 to 76 %, so FG 1.014-1.029"
            ),
        ],
    ),
    "in plato": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 12 °P, fg: 5.5 °P}
""",
        [
            (
                "7:26: warning: FG 5.5 °P from OG 12 °P is an attenuation of 55 %; this grist, mash and yeast "
                "give 65 to 81 %, so FG 2.3-4.3 °P"
            ),
        ],
    ),
    "og not stated": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {fg: 1.030}
""",
        [
            (
                "7:15: warning: FG 1.030 from about 1.044 is an attenuation of 31 %; this grist, mash and yeast "
                "give 65 to 81 %, so FG 1.007-1.018"
            ),
        ],
    ),
    "lactose stays": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
  - {sugar: lactose, weight: 500 g}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.058, fg: 1.022}
""",
        [],
    ),
    "diastatic yeast too high is a note": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: saison}
targets: {og: 1.048, fg: 1.018}
""",
        [
            (
                "7:26: note: FG 1.018 from OG 1.048 is an attenuation of 62 %; this grist, mash and yeast give 75"
                " to 100 %, so FG 1.000-1.012"
            ),
        ],
    ),
    "diastatic yeast low": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: saison}
targets: {og: 1.048, fg: 1.002}
""",
        [],
    ),
    "Brettanomyces low": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: [{kind: English ale}, {kind: Brettanomyces}]
targets: {og: 1.048, fg: 1.003}
""",
        [],
    ),
    "a strong wort a little lower": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 10 kg}
  - {sugar: lactose, weight: 500 g}
mash: {rests: [{at: 69 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.115, fg: 1.034}
""",
        [],
    ),
    "past any wort": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.048, fg: 1.001}
""",
        [
            (
                "7:26: error: FG 1.001 from OG 1.048 is an attenuation of 98 %; this grist, mash and yeast give 65 to"
                " 81 %, so FG 1.009-1.017"
            ),
        ],
    ),
    "past any wort, of a yeast that is not stated, is asked elsewhere": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
targets: {og: 1.048, fg: 1.001}
""",
        [],
    ),
    "above the og is asked elsewhere": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.048, fg: 1.049}
""",
        [],
    ),
    "a yeast of low attenuation": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: house, attenuation: 20 %}
targets: {og: 1.030, fg: 1.022}
""",
        [],
    ),
    "as the yeast alone would": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 63 °C, for: 90 min}]}
yeast: {kind: house, attenuation: 70 %}
targets: {og: 1.048, fg: 1.0145}
""",
        [],
    ),
    "a rest that cannot be read": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: hot, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.048, fg: 1.030}
""",
        ["5:21: open: a readable mash"],
    ),
    "flakes in a cool first rest": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 2.5 kg}
  - {grain: flaked wheat, weight: 2.2 kg}
  - {grain: flaked oats, weight: 250 g}
mash: {rests: [{at: 45 °C, for: 15 min}, {at: 69 °C, for: 60 min}]}
yeast: {kind: Belgian wit}
targets: {og: 1.050, fg: 1.005}
""",
        [
            (
                "9:26: error: FG 1.005 from OG 1.050 is an attenuation of 90 %; this grist, mash and yeast"
                " give 66 to 78 %, so FG 1.011-1.017"
            ),
        ],
    ),
    "sugar under another key": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: light Munich malt, weight: 3 kg}
  - {grain: table sugar, weight: 1.5 kg}
mash: {rests: [{at: 66 °C, for: 60 min}]}
yeast: {kind: American ale}
targets: {og: 1.058, fg: 1.006}
""",
        [],
    ),
    "glucoamylase in the mash": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4 kg}
mash: {rests: [{at: 64 °C, for: 75 min}], enzymes: {amyloglucosidase: 5 ml}}
yeast: {kind: American ale}
targets: {og: 1.050, fg: 0.998}
""",
        [],
    ),
    "above any wort of this mash but capped": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale malt, weight: 4.5 kg}
mash: {rests: [{at: 64 °C, for: 90 min}]}
yeast: {kind: American ale}
targets: {og: 1.050, fg: 1.022}
""",
        [
            (
                "7:26: warning: FG 1.022 from OG 1.050 is an attenuation of 56 %; this grist, mash and yeast"
                " give 73 to 88 %, so FG 1.006-1.014"
            ),
        ],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_final_gravity(found: Found, case: str) -> None:
    recipe, expected = CASES[case]
    assert found("final_gravity", recipe) == expected


def test_rests_that_end_the_enzymes_first_are_what_is_wrong(found: Found) -> None:
    text = HOT.format("{at: 77 °C, for: 10 min}, {at: 66 °C, for: 60 min}", "1.012")
    assert found("final_gravity", text) == []
    assert len(found("final_gravity", text.replace("1.012", "1.035"))) == 1
    assert len(found("final_gravity", HOT.format("{at: 74 °C, for: 60 min}", "1.008"))) == 1


HOT = """\
recipe: Test Brew
batch: 20 l
grist:
  - {{grain: pale malt, weight: 4.5 kg}}
mash: {{rests: [{}]}}
yeast: {{kind: American ale}}
targets: {{og: 1.050, fg: {}}}
"""
