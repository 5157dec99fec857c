"""The alcohol against the yeast's tolerance."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

CASES = {
    "below": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: English ale}
targets: {og: 1.070, fg: 1.016}
""",
        [],
    ),
    "past its kinds is a note": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: English ale}
targets: {og: 1.101, fg: 1.026}
""",
        [
            (
                "5:15: note: the beer reaches 10.2 % alcohol, more than the 10 % that English ale yeast usually"
                " tolerates; the beer may stay sweet"
            ),
        ],
    ),
    "a point past its kinds": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: English ale}
targets: {og: 1.110, fg: 1.024}
""",
        [
            (
                "5:15: warning: the beer reaches 11.8 % alcohol, more than the 10 % that English ale yeast"
                " usually tolerates; the beer may stay sweet"
            ),
        ],
    ),
    "far past its kinds is no error": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: English ale}
targets: {og: 1.150, fg: 1.030}
""",
        [
            (
                "5:15: warning: the beer reaches 16.8 % alcohol, more than the 10 % that English ale yeast"
                " usually tolerates; the beer may stay sweet"
            ),
        ],
    ),
    "past what is stated": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: house, attenuation: 80 %, tolerance: 9 %}
targets: {og: 1.095, fg: 1.020}
""",
        [
            (
                "5:52: warning: the beer reaches 10.2 % alcohol, more than the stated tolerance of 9 %; it may"
                " stay sweet"
            ),
        ],
    ),
    "far past what is stated": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: house, attenuation: 80 %, tolerance: 9 %}
targets: {og: 1.110, fg: 1.020}
""",
        [
            ("5:52: error: the beer reaches 12.3 % alcohol, more than the stated tolerance of 9 %; it may stay sweet"),
        ],
    ),
    "of two the stronger counts": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: [{kind: English ale}, {kind: high-gravity ale}]
targets: {og: 1.110, fg: 1.020}
""",
        [],
    ),
    "from the grist": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 13 kg}
yeast: {kind: English ale}
""",
        [
            (
                "5:15: warning: the beer reaches 11.3 % alcohol, more than the 10 % that English ale yeast"
                " usually tolerates; the beer may stay sweet"
            ),
        ],
    ),
    "nothing known of the yeast": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: house}
targets: {og: 1.150, fg: 1.020}
""",
        [],
    ),
    "no yeast": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
targets: {og: 1.150, fg: 1.020}
""",
        [],
    ),
    "the stated ABV where it follows": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 9 kg}
yeast: {kind: house ale, attenuation: 80 %, tolerance: 14 %}
targets: {og: 1.128, fg: 1.024, abv: 13.8 %}
""",
        [],
    ),
    "a stated ABV that does not follow": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 9 kg}
yeast: {kind: house ale, attenuation: 80 %, tolerance: 9 %}
targets: {og: 1.100, fg: 1.020, abv: 8 %}
""",
        [
            (
                "5:56: warning: the beer reaches 10.9 % alcohol, more than the stated tolerance of 9 %; it may"
                " stay sweet"
            ),
        ],
    ),
    "a little past what is stated": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 9 kg}
yeast: {kind: house ale, attenuation: 80 %, tolerance: 14 %}
targets: {og: 1.128, fg: 1.024}
""",
        [
            ("5:56: note: the beer reaches 14.4 % alcohol, more than the stated tolerance of 14 %; it may stay sweet"),
        ],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_yeast_tolerance(found: Found, case: str) -> None:
    recipe, expected = CASES[case]
    assert found("yeast_tolerance", recipe) == expected
