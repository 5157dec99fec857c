from collections.abc import Callable

import mashwright

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


MALT = "grain: two-row pale malt, weight: 4.5 kg"
MASHED_AT = "beer is mashed at 62-70 °C"
HOT = f"the enzymes last minutes and the wort ferments poorly; {MASHED_AT}; or is very low alcohol the aim?"


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
        "7:12: warning: no rest reaches 60 °C: at 58 °C only about 63 % of the starch turns to sugar"
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
        f"7:12: error: at 90 °C the heat destroys the enzymes at once; {MASHED_AT}"
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
            "7:12: warning: the rest at 85 °C leaves less than 1 % of the enzymes for the rest at 66 °C; enzymes"
            " lost to heat do not come back"
        )
    ]


def test_a_temperature_given_as_a_range_may_touch(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT, rests="at: 58-61 °C, for: 60 min")) == []


def test_silent_where_no_rest_is_stated(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT)) == []


def test_silent_where_a_rest_cannot_be_read(found: Found) -> None:
    assert found("saccharification_rest", recipe(MALT, rests="at: 152, for: 60 min")) == ["7:12: open: a readable mash"]


def test_silent_without_enzymes(found: Found) -> None:
    assert found("saccharification_rest", recipe("grain: caramel malt 60, weight: 5 kg", rests="at: 54 °C")) == []


FIRST = (
    "leaves little of the enzyme that makes the wort ferment for the rest at 66 °C; put the hot rest last"
    " or leave it out; or is very low alcohol the aim?"
)


def test_a_hot_rest_before_the_others(found: Found) -> None:
    hot = recipe(MALT, rests="at: 78 °C, for: 10 min; at: 66 °C, for: 60 min")
    assert found("saccharification_rest", hot) == [f"7:12: warning: the rest at 78 °C {FIRST}"]
    between = recipe(MALT, rests="at: 50 °C, for: 10 min; at: 77 °C, for: 15 min; at: 66 °C, for: 60 min")
    assert found("saccharification_rest", between) == [f"8:12: warning: the rest at 77 °C {FIRST}"]
    meant = hot.replace("\n\n", "\ntargets: {abv: 1.5 %}\n")
    assert found("saccharification_rest", meant) == [f"7:12: note: the rest at 78 °C {FIRST}"]


def test_a_hot_rest_in_fahrenheit(found: Found) -> None:
    hot = recipe(MALT, rests="at: 172 °F, for: 10 min; at: 151 °F, for: 60 min")
    assert found("saccharification_rest", hot) == [
        f"7:12: warning: the rest at 172 °F {FIRST.replace('66 °C', '151 °F')}"
    ]


def test_the_hot_rest_goes_last() -> None:
    hot = recipe(MALT, rests="at: 78 °C, for: 10 min; at: 66 °C, for: 60 min")
    (finding,) = mashwright.review_text(hot).recipes[0].results
    (remedy,) = finding.remedies
    assert remedy.text.startswith("move the rest at 78 °C to the end; ABV goes from 2.8 to 5.")
    assert [edit.text for edit in remedy.edits] == ["66 °C", "60 min", "78 °C", "10 min"]


def cooling(rests: str) -> str:
    return recipe(MALT, rests=rests)


def test_a_mash_does_not_cool_by_itself(found: Found) -> None:
    falls = "by itself, and enzymes lost to heat do not come back; rest from cool to hot, or state what"
    down = cooling("at: 72 °C, for: 30 min; at: 63 °C, for: 40 min; at: 52 °C, for: 15 min")
    assert found("saccharification_rest", down) == [
        f"8:12: warning: no mash cools from 72 °C to 63 °C {falls} cools it"
    ]
    pounds = cooling("at: 122 °F, for: 15 min; at: 162 °F, for: 20 min; at: 145 °F, for: 40 min")
    assert found("saccharification_rest", pounds) == [
        f"9:12: warning: no mash cools from 162 °F to 145 °F {falls} cools it"
    ]
    heated = cooling("at: 72 °C, for: 30 min; at: 63 °C, for: 40 min, by: heat")
    assert found("saccharification_rest", heated) == [
        f"8:12: warning: no mash cools from 72 °C to 63 °C {falls} cools it"
    ]


def test_a_mash_that_may_well_cool(found: Found) -> None:
    for rests in (
        "at: 66 °C, for: 60 min; at: 62 °C, for: 30 min",
        "at: 70 °C, for: 60 min, to: 64 °C; at: 62 °C, for: 30 min",
        "at: 70 °C, for: 10 min; at: 45 °C, for: 20 min, by: infusion, water: 8 l, of: 10 °C; at: 66 °C, for: 60 min",
        "at: 66 °C, for: 60 min; at: 45 °C, for: 24 h",
        "at: 68 °C, for: 8 h; at: 58 °C, for: 10 min",
        "at: 52 °C, for: 15 min; at: 63 °C, for: 40 min; at: 72 °C, for: 30 min; at: 78 °C, for: 5 min",
        "at: 76 °C, for: 1 min; at: 72 °C, for: 60 min",
        (
            "at: 52 °C, for: 20 min; at: 64 °C, for: 40 min, by: decoction, pull: 4 l, boil: 15 min;"
            " at: 72 °C, for: 20 min, by: decoction, pull: 4 l, boil: 15 min; at: 77 °C, for: 10 min"
        ),
        (  # turbid
            "at: 45 °C, for: 15 min; at: 52 °C, for: 15 min, by: infusion, water: 3 l, of: 98 °C;"
            " at: 65 °C, for: 45 min, by: infusion, water: 6 l, of: 98 °C;"
            " at: 72 °C, for: 30 min, by: infusion, water: 5 l, of: 98 °C"
        ),
    ):
        assert found("saccharification_rest", cooling(rests)) == []


def test_the_rests_are_turned_round() -> None:
    down = cooling("at: 72 °C, for: 30 min; at: 63 °C, for: 40 min; at: 52 °C, for: 15 min")
    (finding,) = mashwright.review_text(down).recipes[0].results
    (remedy,) = finding.remedies
    assert remedy.text.startswith("put the rests in order, cool to hot: 52 °C, 63 °C, 72 °C; ABV goes from 4.")
    assert [edit.text for edit in remedy.edits] == ["52 °C", "15 min", "72 °C", "30 min"]
    more_said = down.replace("for: 15 min", "for: 15 min, by: heat")
    assert mashwright.review_text(more_said).recipes[0].results[0].remedies == ()


def test_a_cold_mash_is_followed(found: Found) -> None:
    for cold in ("0 °C", "12 °C", "25 °C"):
        assert found("saccharification_rest", recipe(MALT, rests=f"at: {cold}, for: 60 min")) == [
            f"7:12: error: no rest reaches 60 °C: at {cold} hardly any of the starch turns to sugar"
        ]
        assert found("saccharification_rest", recipe(MALT, rests=f"at: {cold}, for: 60 min; at: 66 °C")) == []
    extract = recipe(MALT, rests="at: 12 °C, for: 12 h", more="targets: {abv: 0.5 %}")
    assert [one.split(":")[2] for one in found("saccharification_rest", extract)] == [" note"]


def test_a_mash_that_climbs_and_gives_a_little_is_no_fall(found: Found) -> None:
    """The first rest follows none, though it lies far below the last."""
    rests = "at: 61 °C, for: 20 min; at: 70 °C, for: 40 min; at: 67 °C, for: 10 min"
    assert found("saccharification_rest", recipe(MALT, rests=rests)) == []
