"""Oxygen for the yeast, by the strength of the wort and the sort of the yeast."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

LIQUID = "yeast: {kind: English ale, pitch: 2 packs}\n"
DRY = "yeast: {kind: English ale, pitch: 23 g}\n"


def recipe(aeration: str, og: str = "1.090", yeast: str = LIQUID) -> str:
    return f"recipe: Tried\nbatch: 20 l\naeration: {aeration}\n{yeast}targets: {{og: {og}}}\n"


CASES = {
    "none in a strong wort": (
        recipe("{by: none}"),
        ["3:16: warning: without oxygen the yeast may stop early in a wort of 1.090; give it at least 10 mg/l"],
    ),
    "none in a usual wort": (
        recipe("{by: none}", "1.048"),
        ["3:16: note: without oxygen the yeast could be slow to start; aerate the cooled wort before pitching"],
    ),
    "none for dry yeast": (recipe("{by: none}", yeast=DRY), []),
    "air in a usual wort": (recipe("{by: air}", "1.048"), []),
    "air in a strong wort": (
        recipe("{by: air}"),
        [
            (
                "3:16: note: air gives at most about 8 mg/l of oxygen, which could be too little for a wort of 1.090;"
                " use pure oxygen, or aerate again within 18 h"
            )
        ],
    ),
    "air twice": (recipe("{by: air, times: 2}"), []),
    "more than air gives": (
        recipe("{by: air, oxygen: 14 mg/l}"),
        ["3:29: warning: air may not dissolve 14 mg/l of oxygen; about 8 mg/l is the most"],
    ),
    "oxygen enough": (recipe("{by: oxygen, oxygen: 12 mg/l}"), []),
    "too little for so strong a wort": (
        recipe("{by: oxygen, oxygen: 8 mg/l}"),
        [
            "3:32: note: 8 mg/l of oxygen could be too little for a wort of 1.090; at least 10 mg/l is usual",
        ],
    ),
    "hardly any": (
        recipe("{oxygen: 3 mg/l}", "1.048"),
        ["3:20: note: 3 mg/l of oxygen is little for fresh yeast; most worts need at least 6 mg/l"],
    ),
    "more than yeast needs": (
        recipe("{by: oxygen, oxygen: 25 mg/l}"),
        ["3:32: note: 25 mg/l of oxygen is more than yeast needs; it could make the beer stale"],
    ),
    "far too much": (
        recipe("{by: oxygen, oxygen: 80 mg/l}"),
        ["3:32: warning: 80 mg/l of oxygen may harm the yeast; at most 20 mg/l is usual"],
    ),
    "no strength": ("recipe: Tried\naeration: {by: air}\n", []),
    "a strength that cannot be read": (recipe("{by: air}", "strong"), ["5:15: open: a readable OG"]),
}


@pytest.mark.parametrize("case", CASES)
def test_what_is_said(case: str, found: Found) -> None:
    text, told = CASES[case]
    assert found("aeration", text) == told


def test_oxygen_instead_of_air(mended: Found) -> None:
    assert mended("aeration", recipe("{by: air, oxygen: 14 mg/l}")) == ["use pure oxygen instead of air"]
    assert mended("aeration", recipe("{by: oxygen, oxygen: 80 mg/l}")) == ["set 10 mg/l instead of 80 mg/l"]
