from collections.abc import Callable

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


MUNICH = "grain: light Munich malt, weight: 5 kg"


def test_an_all_munich_mash_in_its_time(found: Found) -> None:
    for rest in ("at: 67 °C, for: 75 min", "at: 68 °C, for: 75 min", "at: 68 °C, for: 60 min"):
        assert found("conversion_time", recipe(MUNICH, rests=rest)) == []


def test_a_strong_malt_is_quick(found: Found) -> None:
    text = recipe("grain: two-row pale malt, weight: 5 kg", rests="at: 67 °C, for: 15 min")
    assert found("conversion_time", text) == []


def test_too_short_before_a_mash_out(found: Found) -> None:
    text = recipe(MUNICH, rests="at: 67 °C, for: 15 min; at: 76 °C, for: 10 min")
    assert found("conversion_time", text) == [
        "7:24: warning: this mash needs about 36 min at 67 °C to convert, but its rests give 15 min before the mash-out"
    ]


def test_the_run_off_counts_where_no_mash_out_stops_it(found: Found) -> None:
    text = recipe(MUNICH, rests="at: 67 °C, for: 5 min")
    assert found("conversion_time", text) == [
        (
            "7:24: warning: this mash needs about 36 min at 67 °C to convert, but its rests give 5 min and the"
            " run-off about 15 min"
        )
    ]


def test_an_error_where_even_the_best_would_be_starchy(found: Found) -> None:
    text = recipe(MUNICH, rests="at: 67 °C, for: 2 min; at: 76 °C, for: 1 min")
    assert found("conversion_time", text) == [
        "7:24: error: this mash needs about 36 min at 67 °C to convert, but its rests give 2 min before the mash-out"
    ]


def test_nine_tenths_converted_is_a_note(found: Found) -> None:
    text = recipe(MUNICH, rests="at: 67 °C, for: 25 min; at: 76 °C, for: 10 min")
    assert found("conversion_time", text) == [
        "7:24: note: this mash needs about 36 min at 67 °C to convert, but its rests give 25 min before the mash-out"
    ]


def test_a_short_rest_in_fahrenheit(found: Found) -> None:
    text = recipe(MUNICH, rests="at: 150 °F, for: 10 min; at: 170 °F, for: 10 min")
    assert found("conversion_time", text) == [
        (
            "7:25: warning: this mash needs about 39 min at 150 °F to convert, but its rests give 10 min before"
            " the mash-out"
        )
    ]


def test_a_time_that_was_assumed_is_never_a_fault(found: Found) -> None:
    text = recipe(
        "grain: dark Munich malt, weight: 4 kg", "grain: flaked rice, weight: 1 kg", rests="at: 60 °C; at: 76 °C"
    )
    levels = [line.split(": ")[1] for line in found("conversion_time", text)]
    assert levels in ([], ["note"])
    assert found("conversion_time", recipe(MUNICH)) == []


def test_silent_where_enzymes_are_short_and_not_time(found: Found) -> None:
    text = recipe(
        "grain: light Munich malt, weight: 2.5 kg", "grain: flaked rice, weight: 2.5 kg", rests="at: 66 °C, for: 60 min"
    )
    assert found("conversion_time", text) == []


def test_silent_without_enzymes(found: Found) -> None:
    assert found("conversion_time", recipe("grain: flaked oats, weight: 3 kg", rests="at: 66 °C, for: 10 min")) == []


def test_silent_where_no_rest_converts(found: Found) -> None:
    for rest in ("at: 54 °C, for: 20 min", "at: 80 °C, for: 20 min", "at: 90 °C, for: 20 min"):
        assert found("conversion_time", recipe(MUNICH, rests=rest)) == []


def test_silent_where_enzymes_are_added(found: Found) -> None:
    text = recipe(MUNICH, more="mash: {enzymes: {alpha-amylase: 5 g}, rests: [{at: 67 °C, for: 2 min}]}")
    assert found("conversion_time", text) == []


def test_a_lot_decides(found: Found) -> None:
    text = recipe(
        "grain: light Munich malt, weight: 5 kg, lot: M-1", rests="at: 67 °C, for: 15 min; at: 76 °C, for: 5 min"
    )
    strong = "brewhouse: Tried\nlots:\n  M-1: {of: light Munich malt, diastatic-power: 140 °Lintner}\n"
    weak = "brewhouse: Tried\nlots:\n  M-1: {of: light Munich malt, diastatic-power: 28 °Lintner}\n"
    assert found("conversion_time", text, strong) == [
        "7:24: note: this mash needs about 19 min at 67 °C to convert, but its rests give 15 min before the mash-out"
    ]
    assert found("conversion_time", text, weak) == [
        "7:24: warning: this mash needs about 43 min at 67 °C to convert, but its rests give 15 min before the mash-out"
    ]


def test_less_than_half_of_the_time_is_a_warning_whatever_converts(found: Found) -> None:
    """After 18 min nine tenths of what can be released is sugar; but the mash wants 38."""
    text = recipe(MUNICH, rests="at: 66 °C, for: 18 min; at: 77 °C, for: 10 min")
    assert found("conversion_time", text) == [
        "7:24: warning: this mash needs about 38 min at 66 °C to convert, but its rests give 18 min before the mash-out"
    ]
    assert found("conversion_time", text.replace("18 min", "25 min")) == [
        "7:24: note: this mash needs about 38 min at 66 °C to convert, but its rests give 25 min before the mash-out"
    ]


def test_munich_malt_of_the_standard_converts_in_an_hour(found: Found) -> None:
    """A standard has 15-25 min at 70 °C for it, a home mash twice that; by its power alone it would be an hour."""
    weak = "grain: light Munich malt, weight: 5 kg, diastatic-power: 28 °Lintner"
    assert found("conversion_time", recipe(weak, rests="at: 67 °C, for: 45 min; at: 76 °C, for: 10 min")) == []


def test_opaque_beer_keeps_its_starch(found: Found) -> None:
    assert found("conversion_time", OPAQUE) == []


OPAQUE = recipe(
    "grain: sorghum malt, weight: 1.5 kg",
    "grain: sorghum, weight: 3 kg, prepare: cereal mash",
    rests="at: 60 °C, for: 60 min",
    more="cereal-mash: {boil: 60 min}",
)


def test_shares_need_no_weights(found: Found) -> None:
    text = recipe("grain: light Munich malt, share: 100 %", rests="at: 67 °C, for: 15 min; at: 76 °C, for: 10 min")
    assert found("conversion_time", text) == [
        "7:24: warning: this mash needs about 36 min at 67 °C to convert, but its rests give 15 min before the mash-out"
    ]
