"""The stated ABV against the gravities, by each published formula."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

CASES = {
    "by balling": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.050, fg: 1.010, abv: 5.3 %}
""",
        [],
    ),
    "by the straight line": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.100, fg: 1.020, abv: 10.5 %}
""",
        [],
    ),
    "by the steep formula": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.100, fg: 1.020, abv: 11.6 %}
""",
        [],
    ),
    "within a tenth": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.050, fg: 1.010, abv: 5.8 %}
""",
        [],
    ),
    "past it": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.050, fg: 1.010, abv: 6.0 %}
""",
        [
            "5:38: warning: an ABV of 6.0 % does not fit: OG 1.050 and FG 1.010 give 5.3 %",
        ],
    ),
    "far past it": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.050, fg: 1.010, abv: 7.5 %}
""",
        [
            "5:38: error: an ABV of 7.5 % does not fit: OG 1.050 and FG 1.010 give 5.3 %",
        ],
    ),
    "far below it": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.050, fg: 1.010, abv: 3.5 %}
""",
        [
            "5:38: error: an ABV of 3.5 % does not fit: OG 1.050 and FG 1.010 give 5.3 %",
        ],
    ),
    "small beer": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.031, fg: 1.010, abv: 2.8 %}
""",
        [],
    ),
    "a range": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.048-1.052, fg: 1.010-1.012, abv: 4.7-5.4 %}
""",
        [],
    ),
    "without fg": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.048, abv: 4.8 %}
""",
        [],
    ),
    "without fg too much": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {og: 1.048, abv: 7 %}
""",
        [
            "7:27: warning: an ABV of 7 % does not fit: this grist, mash and yeast give 4.4-5.2 %",
        ],
    ),
    "alone too little": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {rests: [{at: 67 °C, for: 60 min}]}
yeast: {kind: English ale}
targets: {abv: 2 %}
""",
        [
            "7:16: warning: an ABV of 2 % does not fit: this grist, mash and yeast give 3.3-5.5 %",
        ],
    ),
    "sugar in the fermenter after the og": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
  - {sugar: table sugar, weight: 700 g, add: fermenter}
targets: {og: 1.043, fg: 1.008, abv: 6.3 %}
""",
        [],
    ),
    "more than any yeast": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.050, fg: 1.010, abv: 50 %}
""",
        [
            "5:38: error: 50 % alcohol is more than any yeast makes, at most 25 %",
        ],
    ),
    "fg above og": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.050, fg: 1.060, abv: 5 %}
""",
        [],
    ),
    "an unknown grain with both gravities": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: moon dust, weight: 4 kg}
targets: {og: 1.050, fg: 1.010, abv: 8 %}
""",
        [
            "5:38: error: an ABV of 8 % does not fit: OG 1.050 and FG 1.010 give 5.3 %",
        ],
    ),
    "an unknown grain alone": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: moon dust, weight: 4 kg}
targets: {abv: 8 %}
""",
        ["4:13: open: what moon dust is"],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_alcohol(found: Found, case: str) -> None:
    recipe, expected = CASES[case]
    assert found("alcohol", recipe) == expected
