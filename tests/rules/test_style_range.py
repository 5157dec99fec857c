from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]


def recipe(style: str, targets: str, *, grist: str = "grain: Pilsner malt, weight: 4.3 kg", hops: str = "") -> str:
    lines = ["recipe: Tried", f"style: {style}", "batch: 20 l", f"grist: [{{{grist}}}]", f"targets: {{{targets}}}"]
    return "\n".join([*lines, *([f"hops: [{{{hops}}}]"] if hops else []), ""])


WITHIN = "og: 1.048, fg: 1.010, abv: 5 %, bitterness: 30 IBU, colour: 3.5 SRM"


@pytest.mark.parametrize("targets", [WITHIN, WITHIN.replace("3.5 SRM", "7 EBC"), "og: 12 °P", "bitterness: 40.4 IBU"])
def test_within(found: Found, targets: str) -> None:
    assert found("style_range", recipe("German pils", targets)) == []


@pytest.mark.parametrize("style", ["beer of the house", "pale ale"])
def test_a_style_that_is_none_or_several(found: Found, style: str) -> None:
    assert found("style_range", recipe(style, "og: 1.150, bitterness: 100 IBU")) == []


def test_a_style_that_is_left_empty_cannot_be_judged(found: Found) -> None:
    assert found("style_range", recipe("", "og: 1.150, bitterness: 100 IBU")) == ["2:1: open: a readable style"]


def test_each_figure_outside_is_a_note(found: Found) -> None:
    targets = "og: 1.060, fg: 1.020, abv: 7 %, bitterness: 60 IBU, colour: 20 SRM"
    assert found("style_range", recipe("Kölsch", targets)) == [
        "5:15: note: OG 1.060 is above the 1.044-1.050 of Kölsch (judge programme 2021)",
        "5:26: note: FG 1.020 is above the 1.007-1.011 of Kölsch (judge programme 2021)",
        "5:38: note: alcohol of 7 % is above the 4.4-5.2 % of Kölsch (judge programme 2021)",
        "5:55: note: bitterness of 60 IBU is above the 18-30 IBU of Kölsch (judge programme 2021)",
        "5:71: note: colour of 20 SRM is above the 3.5-5 SRM of Kölsch (judge programme 2021)",
    ]


def test_in_the_recipes_own_units(found: Found) -> None:
    assert found("style_range", recipe("Kölsch", "og: 16 °P")) == [
        "5:15: note: OG 16 °P is above the 11-12.4 °P of Kölsch (judge programme 2021)"
    ]
    assert found("style_range", recipe("Kölsch", "og: 1.048, color: 40 EBC")) == [
        "5:29: note: colour of 40 EBC is above the 6.9-9.8 EBC of Kölsch (judge programme 2021)"
    ]


def test_within_another_edition(found: Found) -> None:
    # one edition has cream ale from 2 SRM, the one before from 2.5
    assert found("style_range", recipe("cream ale", "og: 1.048, colour: 2 SRM")) == []
    outside = "(judge programme 2021; outside that of judge programme 2015 too)"
    assert found("style_range", recipe("cream ale", "og: 1.048, colour: 9 SRM")) == [
        f"5:30: note: colour of 9 SRM is above the 2-5 SRM of cream ale {outside}"
    ]


def test_figured_where_nothing_is_stated(found: Found) -> None:
    hops = "hop: Magnum, weight: 100 g, alpha: 13 %, boil: 60 min"
    assert found("style_range", recipe("Kölsch", "og: 1.048, fg: 1.010, abv: 4.9 %, colour: 4 SRM", hops=hops)) == [
        "2:8: note: bitterness of about 153 IBU is above the 18-30 IBU of Kölsch (judge programme 2021)"
    ]


def test_a_range_that_reaches_in_is_within(found: Found) -> None:
    assert found("style_range", recipe("Kölsch", "og: 1.048-1.060, bitterness: 25-60 IBU")) == []


def test_what_cannot_be_read_or_figured_is_passed_over(found: Found) -> None:
    targets = "og: strong, fg: 1.010, abv: 5 %, colour: 4 SRM"
    assert found("style_range", recipe("Kölsch", targets, grist="grain: hedge grass, weight: 4 kg")) == [
        "5:15: open: a readable OG"
    ]


def test_settings(found: Found) -> None:
    assert found("style_range", recipe("Kölsch", "og: 1.053, colour: 4 SRM"), gravity_points=3) == []


def test_from_40_srm_on_black_is_black(found: Found) -> None:
    """Imperial stout goes to 40 SRM, and to the eye no beer is darker."""

    def of_colour(style: str, targets: str) -> list[str]:
        return [line for line in found("style_range", recipe(style, targets)) if "colour" in line]

    assert of_colour("imperial stout", "colour: 75 SRM") == []
    assert of_colour("imperial stout", "colour: 20 SRM") == [
        "5:19: note: colour of 20 SRM is below the 30 SRM or more of imperial stout (judge programme 2021)"
    ]
    assert of_colour("Baltic porter", "colour: 50 SRM") == [
        "5:19: note: colour of 50 SRM is above the 17-30 SRM of Baltic porter (judge programme 2021)"
    ]
