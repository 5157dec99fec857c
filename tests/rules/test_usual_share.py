from collections.abc import Callable

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


BASE = "grain: pale malt, weight: 4 kg"


def test_usual_shares(found: Found) -> None:
    text = recipe(
        BASE,
        "grain: caramel malt 80, weight: 400 g",
        "grain: chocolate malt, weight: 250 g",
        "grain: black malt, weight: 150 g",
    )
    assert found("usual_share", text) == []


def test_an_imperial_stout(found: Found) -> None:
    text = recipe(
        "grain: pale ale malt, weight: 8 kg",
        "grain: roasted barley, weight: 700 g",
        "grain: chocolate malt, weight: 500 g",
        "grain: black malt, weight: 300 g",
        "grain: caramel malt 120, weight: 500 g",
    )
    assert found("usual_share", text) == []


def test_half_as_much_again_is_a_note(found: Found) -> None:
    assert found("usual_share", recipe(BASE, "grain: black malt, weight: 400 g")) == [
        "5:6: note: 9.1 % of the grist is black malt; more than 5 % is unusual"
    ]


def test_twice_as_much_is_a_warning_and_never_more(found: Found) -> None:
    assert found("usual_share", recipe(BASE, "grain: black malt, weight: 4 kg")) == [
        "5:6: warning: 50 % of the grist is black malt; more than 5 % is unusual"
    ]


def test_what_is_only_taste_stays_a_note(found: Found) -> None:
    assert found("usual_share", recipe("grain: peated malt, weight: 4 kg")) == [
        "4:6: note: 100 % of the grist is peated malt; more than 5 % is unusual"
    ]
    assert found("usual_share", recipe(BASE, "grain: brown malt, weight: 3 kg")) == [
        "5:6: note: 43 % of the grist is brown malt; more than 15 % is unusual"
    ]


def test_two_lines_of_one_malt_count_together(found: Found) -> None:
    text = recipe(BASE, "grain: black malt, weight: 300 g", "grain: black patent malt, weight: 320 g")
    assert found("usual_share", text) == [
        "6:6: warning: 13 % of the grist is black patent malt; more than 5 % is unusual"
    ]


def test_caramel_malts_count_together(found: Found) -> None:
    text = recipe(
        "grain: pale malt, weight: 2 kg",
        "grain: caramel malt 20, weight: 650 g",
        "grain: caramel malt 60, weight: 700 g",
        "grain: caramel malt 40, weight: 800 g",
    )
    assert found("usual_share", text) == [
        "3:1: warning: 52 % of the grist is caramel malt in all; more than 25 % is unusual"
    ]


def test_extract_counts_as_the_grain_that_it_was_made_from(found: Found) -> None:
    text = recipe(
        "extract: light dry malt extract, weight: 2.5 kg",
        "grain: caramel malt 60, weight: 400 g",
        "grain: chocolate malt, weight: 150 g",
        more="steep: {at: 68 °C, for: 30 min}",
    )
    assert found("usual_share", text) == []


def test_other_questions_are_left_alone(found: Found) -> None:
    text = recipe(
        "grain: pale malt, weight: 1 kg",
        "grain: acidulated malt, weight: 1 kg",
        "grain: flaked oats, weight: 2 kg",
        "grain: wheat malt, weight: 4 kg",
    )
    assert found("usual_share", text) == []


def test_silent_where_nothing_converts(found: Found) -> None:
    assert found("usual_share", recipe("grain: caramel malt 60, weight: 4 kg")) == []
