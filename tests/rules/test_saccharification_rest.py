from collections.abc import Callable

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


MALT = "grain: two-row pale malt, weight: 4.5 kg"
MASHED_AT = "beer is mashed at 62-70 °C"
HOT = f"the enzymes last minutes and the wort ferments poorly; {MASHED_AT}, or is very low alcohol meant?"


def test_ordinary_mashes(found: Found) -> None:
    for rests in (
        "at: 66 °C, for: 60 min",
        "at: 60 °C, for: 60 min",
        "at: 75 °C, for: 30 min",
        "at: 50 °C, for: 20 min; at: 64 °C, for: 30 min; at: 72 °C, for: 30 min; at: 76 °C, for: 5 min",
        "at: 58 °C, for: 20 min, to: 62 °C",
        "at: 140 °F, for: 60 min",
        "at: 66 °C, for: 10 h, to: 50 °C",
    ):
        assert found("saccharification_rest", recipe(MALT, rests=rests)) == []


def test_a_single_cold_rest_is_an_error(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT, rests="at: 54 °C, for: 60 min")) == [
        "7:12: error: no rest reaches 60 °C: at 54 °C only about 23 % of the starch turns to sugar"
    ]


def test_in_fahrenheit(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT, rests="at: 130 °F, for: 60 min")) == [
        "7:12: error: no rest reaches 140 °F: at 130 °F only about 27 % of the starch turns to sugar"
    ]


def test_a_cool_rest_is_a_warning(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT, rests="at: 58 °C, for: 60 min")) == [
        "7:12: warning: no rest reaches 60 °C: at 58 °C only about 64 % of the starch turns to sugar"
    ]


def test_a_hot_rest_is_a_warning_that_asks(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT, rests="at: 80 °C, for: 60 min")) == [
        f"7:12: warning: at 80 °C {HOT}"
    ]
    assert found("saccharification_rest", recipe(MALT, rests="at: 85 °C, for: 60 min")) == [
        f"7:12: warning: at 85 °C {HOT}"
    ]


def test_a_scalding_rest_is_an_error(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT, rests="at: 90 °C, for: 60 min")) == [
        f"7:12: error: at 90 °C heat ends the enzymes at once; {MASHED_AT}"
    ]


def test_where_very_low_alcohol_is_meant_it_is_a_note(found: Found) -> None:
    text = recipe(MALT, rests="at: 80 °C, for: 30 min", more="targets: {abv: 0.5 %}")
    assert found("saccharification_rest", text) == [f"7:12: note: at 80 °C {HOT}"]


def test_of_several_rests_the_nearest_is_named(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT, rests="at: 50 °C, for: 20 min; at: 80 °C, for: 30 min")) == [
        f"8:12: warning: at 80 °C {HOT}"
    ]


def test_enzymes_do_not_come_back_in_a_cooler_rest(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT, rests="at: 85 °C, for: 20 min; at: 66 °C, for: 60 min")) == [
        (
            "7:12: warning: the rest at 85 °C leaves less than 1 % of the enzymes for the one at 66 °C, and"
            " they do not come back"
        )
    ]


def test_a_temperature_given_as_a_range_may_touch(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT, rests="at: 58-61 °C, for: 60 min")) == []


def test_silent_where_no_rest_is_stated(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT)) == []


def test_silent_where_a_rest_cannot_be_read(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT, rests="at: 152, for: 60 min")) == []


def test_silent_without_enzymes(found: Found) -> None:
    assert found("saccharification_rest", recipe("grain: caramel malt 60, weight: 5 kg", rests="at: 54 °C")) == []
