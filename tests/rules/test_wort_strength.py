"""The strongest wort for the mash water, against what is stated or needed."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

CASES = {
    "within": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
mash: {water: 22 l}
targets: {pre-boil-gravity: 1.058}
""",
        [],
    ),
    "typically past": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
mash: {water: 22 l}
targets: {pre-boil-gravity: 1.065}
""",
        [
            (
                "6:29: warning: a gravity before the boil of 1.065 is stated, but with 22 l of mash water this"
                " grist gives at most 1.062, and a sparge only weakens it"
            ),
        ],
    ),
    "surely past": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
mash: {water: 22 l}
targets: {pre-boil-gravity: 1.072}
""",
        [
            (
                "6:29: error: a gravity before the boil of 1.072 is stated, but with 22 l of mash water this"
                " grist gives at most 1.062, and a sparge only weakens it"
            ),
        ],
    ),
    "thicker": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
mash: {water: 13 l}
targets: {pre-boil-gravity: 1.072}
""",
        [],
    ),
    "by thickness in quarts": (
        """\
recipe: Test Brew
batch: 5 gal
grist:
  - {grain: pale ale malt, weight: 11 lb}
mash: {thickness: 2 qt/lb}
targets: {first-wort-gravity: 20 °P}
""",
        [
            (
                "6:31: error: a first wort of 20 °P is stated, but with 20.8 l of mash water this grist gives at"
                " most 15.8 °P, and a sparge only weakens it"
            ),
        ],
    ),
    "infusions count": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
mash: {water: 13 l, rests: [{at: 66 °C, for: 60 min}, {at: 76 °C, by: infusion, water: 9 l, of: 98 °C}]}
targets: {pre-boil-gravity: 1.072}
""",
        [
            (
                "6:29: error: a gravity before the boil of 1.072 is stated, but with 22 l of mash water this"
                " grist gives at most 1.062, and a sparge only weakens it"
            ),
        ],
    ),
    "from the og": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 9 kg}
mash: {water: 50 l}
boil: {volume: 22 l}
targets: {og: 1.085}
""",
        [
            (
                "7:15: error: OG 1.085 needs 1.077 in the 22 l before the boil, but with 50 l of mash water this"
                " grist gives at most 1.050, and a sparge only weakens it"
            ),
        ],
    ),
    "sugar in the kettle is apart": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
  - {sugar: table sugar, weight: 2 kg}
mash: {water: 26 l}
boil: {volume: 25 l}
targets: {og: 1.085}
""",
        [],
    ),
    "an og that the grist cannot give": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
mash: {water: 22 l}
boil: {volume: 22 l}
targets: {og: 1.120}
""",
        [],
    ),
    "no water stated": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
targets: {pre-boil-gravity: 1.150}
""",
        ["not stated: the mash water"],
    ),
    "water that cannot be read": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
mash: {water: plenty}
targets: {pre-boil-gravity: 1.150}
""",
        ["5:15: open: a readable water of the mash"],
    ),
    "nothing stated": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
mash: {water: 22 l}
""",
        [],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_wort_strength(found: Found, case: str) -> None:
    recipe, expected = CASES[case]
    assert found("wort_strength", recipe) == expected
