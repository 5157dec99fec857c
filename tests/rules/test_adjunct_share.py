from collections.abc import Callable

import pytest

import mashwright

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


def test_two_fifths_is_everyday(found: Found) -> None:
    text = recipe("grain: two-row pale malt, weight: 2.7 kg", "grain: flaked wheat, weight: 1.8 kg")
    assert found("adjunct_share", text) == []


def test_a_little_more_is_a_note(found: Found) -> None:
    text = recipe("grain: six-row pale malt, weight: 5.3 lb", "grain: flaked maize, weight: 4.7 lb")
    assert found("adjunct_share", text) == [
        "3:1: note: 47 % of the grist is unmalted; malts of 160 °Lintner easily carry about 40 %"
    ]


def test_evidence_and_remedy_count_the_malt_extract_too() -> None:
    text = recipe(
        "grain: six-row pale malt, weight: 1.3 kg",
        "grain: flaked maize, weight: 2 kg",
        "grain: flaked rice, weight: 1.2 kg",
        "extract: light dry malt extract, weight: 660 g",
    )
    (result,) = [one for one in mashwright.review_text(text).recipes[0].results if one.rule == "adjunct-share"]
    assert result.message.startswith("62 % of the grist is unmalted")
    assert sum(row.value for row in result.evidence) == pytest.approx(62.02, abs=0.01)


def test_weak_malt_carries_less(found: Found) -> None:
    text = recipe("grain: light Munich malt, weight: 3.5 kg", "grain: raw wheat, weight: 1.5 kg")
    assert found("adjunct_share", text) == [
        "3:1: note: 30 % of the grist is unmalted; malts of 40 °Lintner easily carry about 23 %"
    ]


def test_three_fifths_itself_is_a_note(found: Found) -> None:
    text = recipe("grain: six-row pale malt, weight: 2 kg", "grain: flaked maize, weight: 3 kg")
    assert found("adjunct_share", text) == [
        "3:1: note: 60 % of the grist is unmalted; malts of 160 °Lintner easily carry about 40 %"
    ]


def test_above_three_fifths_is_a_warning_and_never_more(found: Found) -> None:
    text = recipe("grain: high-enzyme malt, weight: 1 kg", "grain: flaked maize, weight: 4 kg")
    assert found("adjunct_share", text) == [
        (
            "3:1: warning: 80 % of the grist is unmalted;"
            " above 60 % the yeast runs short of nitrogen and the beer turns thin"
        )
    ]


@pytest.mark.parametrize(("malt_kg", "adjunct_kg", "share"), [(1.5, 3.5, 70), (1, 4, 80), (0.6, 4.4, 88)])
def test_that_enzymes_are_short_as_well_does_not_soften_it(
    found: Found, malt_kg: float, adjunct_kg: float, share: int
) -> None:
    text = recipe(f"grain: light Munich malt, weight: {malt_kg} kg", f"grain: flaked rice, weight: {adjunct_kg} kg")
    words = "above 60 % the yeast runs short of nitrogen and the beer turns thin"
    assert found("adjunct_share", text) == [f"3:1: warning: {share} % of the grist is unmalted; {words}"]


def test_added_enzymes_lower_it(found: Found) -> None:
    mash = "mash: {enzymes: {alpha-amylase: 5 g}}"
    much = recipe("grain: six-row pale malt, weight: 1.5 kg", "grain: flaked maize, weight: 3.5 kg", more=mash)
    assert found("adjunct_share", much) == [
        "3:1: note: 70 % of the grist is unmalted; above 60 % the yeast runs short of nitrogen and the beer turns thin"
    ]
    some = recipe("grain: six-row pale malt, weight: 2.5 kg", "grain: flaked maize, weight: 2.5 kg", more=mash)
    assert found("adjunct_share", some) == []


def test_hulls_and_sugar_are_no_grain(found: Found) -> None:
    text = recipe(
        "grain: two-row pale malt, weight: 2.9 kg",
        "grain: flaked wheat, weight: 2.1 kg",
        "grain: rice hulls, weight: 1 kg",
        "sugar: table sugar, weight: 1 kg",
    )
    assert found("adjunct_share", text) == [
        "3:1: note: 42 % of the grist is unmalted; malts of 125 °Lintner easily carry about 40 %"
    ]


def test_silent_without_malt(found: Found) -> None:
    assert found("adjunct_share", recipe("grain: flaked oats, weight: 2 kg")) == []


def test_the_share_is_a_setting(found: Found) -> None:
    text = recipe("grain: two-row pale malt, weight: 4 kg", "grain: flaked wheat, weight: 1 kg")
    assert found("adjunct_share", text, most_percent=15) == [
        (
            "3:1: warning: 20 % of the grist is unmalted;"
            " above 15 % the yeast runs short of nitrogen and the beer turns thin"
        )
    ]
