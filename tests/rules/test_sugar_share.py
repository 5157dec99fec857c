"""The share of sugar, and what does not count as sugar."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

CASES = {
    "tripel": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 6 kg}
  - {sugar: table sugar, weight: 900 g}
""",
        [],
    ),
    "a quarter": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 3.5 kg}
  - {sugar: table sugar, weight: 700 g}
""",
        [
            "5:6: note: sugar gives 26 % of the extract, more than 25 %; strong ales carry that, others may turn thin",
        ],
    ),
    "a quarter of a strong ale": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 5 kg}
  - {sugar: table sugar, weight: 1 kg}
""",
        [],
    ),
    "a third is a note": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {sugar: table sugar, weight: 1.2 kg}
""",
        [
            "5:6: note: sugar gives 35 % of the extract, more than 33 %; strong ales carry that, others may turn thin",
        ],
    ),
    "a half is asked": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 2.5 kg}
  - {sugar: table sugar, weight: 1.6 kg}
""",
        [
            (
                "5:6: warning: sugar gives 53 % of the extract, more than 45 %; the beer turns thin and the yeast"
                " may lack food; is this on purpose?"
            ),
        ],
    ),
    "two sugars count together": (
        """\
recipe: Test Brew
batch: 5 gal
grist:
  - {grain: two-row pale malt, weight: 6 lb}
  - {sugar: honey, weight: 2.5 lb}
  - {sugar: dextrose, weight: 1 lb}
""",
        [
            (
                "5:6: warning: sugar gives 47 % of the extract, more than 45 %; the beer turns thin and the yeast"
                " may lack food; is this on purpose?"
            ),
        ],
    ),
    "lactose is no such sugar": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 2 kg}
  - {sugar: lactose, weight: 1.5 kg}
""",
        [],
    ),
    "sorghum syrup stands in for malt": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {sugar: sorghum syrup, weight: 3 kg}
""",
        [],
    ),
    "sugar beside sorghum syrup": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {sugar: sorghum syrup, weight: 1.5 kg}
  - {sugar: table sugar, weight: 1.5 kg}
""",
        [
            (
                "5:6: warning: sugar gives 57 % of the extract, more than 45 %; the beer turns thin and the yeast"
                " may lack food; is this on purpose?"
            ),
        ],
    ),
    "no sugar": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
""",
        [],
    ),
    "a weight that cannot be read": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 2 kg}
  - {sugar: table sugar, weight: lots}
""",
        ["5:34: open: the weight of table sugar"],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_sugar_share(found: Found, case: str) -> None:
    recipe, expected = CASES[case]
    assert found("sugar_share", recipe) == expected


@pytest.mark.parametrize(("style", "told"), [("braggot", 0), ("Bragget", 0), ("barley wine", 1)])
def test_a_braggot_is_half_honey_by_nature(found: Found, style: str, told: int) -> None:
    grist = "  - {grain: pale malt, weight: 3 kg}\n  - {sugar: honey, weight: 4 kg}\n"
    assert len(found("sugar_share", f"recipe: Bee\nstyle: {style}\nbatch: 20 l\ngrist:\n{grist}")) == told
