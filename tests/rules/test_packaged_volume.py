"""What the packages take against the beer that there is."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

HEAD = """\
recipe: Tried
batch: {package: 20 l}
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
"""

CASES = {
    "one package of it all": ("package: {in: bottles}", []),
    "forty pints": ("package: {in: bottles, count: 40, size: 500 ml}", []),
    "shares of all": ("package:\n  - {in: keg, share: 60 %}\n  - {in: bottles, share: 40 %}", []),
    "the rest": ("package:\n  - {in: keg, volume: 12 l}\n  - {in: bottles}", []),
    "a cask says what it holds": (
        "package: {in: firkin, count: 1}",
        ["5:30: warning: the packages take about 40.9 l, and there is about 20 l of beer; fill fewer or smaller ones"],
    ),
    "a pin is what there is": ("package: {in: pin, count: 1}", []),
    "sixty pints": (
        "package: {in: bottles, count: 60, size: 500 ml}",
        ["5:31: warning: the packages take about 30 l, and there is about 20 l of beer; fill fewer or smaller ones"],
    ),
    "a little more than there is": ("package: {in: bottles, count: 43, size: 500 ml}", []),
    "shares past all": (
        "package:\n  - {in: keg, share: 60 %}\n  - {in: bottles, share: 60 %}",
        ["7:26: error: the shares of the packages come to 120 %; they cannot be more than 100 %"],
    ),
    "nothing left": (
        "package:\n  - {in: keg, volume: 20 l}\n  - {in: bottles, carbonation: 2.3 volumes}",
        ["7:6: warning: the other packages take about 20 l of about 20 l, so nothing is left for this one"],
    ),
    "left over": (
        "package: {in: bottles, count: 24, size: 330 ml}",
        ["5:31: note: about 12.1 l of 20 l goes into no package; is this on purpose?"],
    ),
    "a count alone": (
        "package: {in: bottles, count: 24}",
        ["5:31: note: a count without a size does not say how much beer goes in; add `size`, such as size: 500 ml"],
    ),
    "a size that cannot be read": (
        "package: {in: bottles, count: 24, size: big}",
        ["5:41: open: a readable size"],
    ),
    "a list in which something cannot be read": (
        "package:\n  - {in: keg}\n  - [keg]",
        ["7:5: open: a readable package"],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_what_is_said(case: str, found: Found) -> None:
    text, told = CASES[case]
    assert found("packaged_volume", f"{HEAD}{text}\n") == told


def test_as_many_as_there_is_beer_for(mended: Found) -> None:
    text = f"{HEAD}package:\n  - {{in: keg, volume: 10 l}}\n  - {{in: bottles, count: 60, size: 500 ml}}\n"
    assert mended("packaged_volume", text) == ["use 20 instead of 60 bottles"]
