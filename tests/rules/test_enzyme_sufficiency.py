from collections.abc import Callable

import pytest

import mashwright
from mashwright.finding import Level

Found = Callable[..., list[str]]


def recipe(*grist: str, rests: str = "", more: str = "") -> str:
    """A short recipe whose grist begins on line 4; its rests begin two lines after the grist."""
    lines = ["recipe: Tried", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if rests:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in rests.split("; "))]
    return "\n".join([*lines, more, ""])


HOUR = "at: 66 °C, for: 60 min"


def test_enough_enzyme(found: Found) -> None:
    assert found("enzyme_sufficiency", recipe("grain: pale ale malt, weight: 4 kg", rests=HOUR)) == []


def test_a_low_end_alone_is_not_worth_a_note(found: Found) -> None:
    """Pale ale malt may come with 35 °Lintner."""
    text = recipe("grain: pale ale malt, weight: 4 kg", "grain: flaked barley, weight: 400 g", rests=HOUR)
    assert found("enzyme_sufficiency", text) == []


def test_between_the_floor_and_comfort_is_a_note_if_the_rests_are_short(found: Found) -> None:
    grist = ("grain: pale ale malt, weight: 3 kg", "grain: flaked barley, weight: 2 kg")
    assert found("enzyme_sufficiency", recipe(*grist, rests=HOUR)) == []
    text = recipe(*grist, rests="at: 66 °C, for: 25 min")
    assert found("enzyme_sufficiency", text) == [
        (
            "3:1: note: the mash averages 36 °Lintner; below 40 °Lintner conversion is slow, so test with iodine"
            " before run-off"
        )
    ]


def test_below_the_floor_is_a_warning(found: Found) -> None:
    text = recipe("grain: light Munich malt, weight: 2.5 kg", "grain: flaked rice, weight: 2.5 kg", rests=HOUR)
    assert found("enzyme_sufficiency", text) == [
        "3:1: warning: the mash averages 20 °Lintner; below 30 °Lintner it converts slowly and may not finish"
    ]


def test_the_floor_itself_holds(found: Found) -> None:
    text = recipe(
        "grain: pale malt, weight: 3 kg, diastatic-power: 50 °Lintner",
        "grain: flaked rice, weight: 2 kg",
        rests="at: 66 °C, for: 40 min",
    )
    assert found("enzyme_sufficiency", text) == [
        (
            "3:1: note: the mash averages 30 °Lintner; below 40 °Lintner conversion is slow, so test with iodine"
            " before run-off"
        )
    ]


def test_a_value_just_below_the_floor_prints_unlike_it(found: Found) -> None:
    text = recipe(
        "grain: pale malt, weight: 3 kg, diastatic-power: 49.9 °Lintner", "grain: flaked rice, weight: 2 kg", rests=HOUR
    )
    assert found("enzyme_sufficiency", text) == [
        "3:1: warning: the mash averages 29.9 °Lintner; below 30 °Lintner it converts slowly and may not finish"
    ]


def test_error_where_even_the_best_lot_stays_too_low(found: Found) -> None:
    text = recipe("grain: dark Munich malt, weight: 1 kg", "grain: flaked rice, weight: 3 kg", rests=HOUR)
    assert found("enzyme_sufficiency", text) == [
        "3:1: error: the mash averages 7.5 °Lintner, 10 °Lintner at best; below 20 °Lintner its starch does not convert"
    ]


def test_a_lot_turns_a_warning_into_an_error(found: Found) -> None:
    text = recipe("grain: light Munich malt, weight: 2 kg, lot: M-1", "grain: flaked rice, weight: 2 kg", rests=HOUR)
    house = "brewhouse: Tried\nlots:\n  M-1: {of: light Munich malt, diastatic-power: 34 °Lintner}\n"
    assert found("enzyme_sufficiency", text, house) == [
        "3:1: error: the mash averages 17 °Lintner, 17 °Lintner at best; below 20 °Lintner its starch does not convert"
    ]


def test_a_long_rest_lowers_it_by_one_level(found: Found) -> None:
    text = recipe(
        "grain: light Munich malt, weight: 2.5 kg",
        "grain: flaked rice, weight: 2.5 kg",
        rests="at: 62 °C, for: 45 min; at: 70 °C, for: 45 min",
    )
    assert found("enzyme_sufficiency", text) == [
        "3:1: note: the mash averages 20 °Lintner; below 30 °Lintner it needs a long rest; test with iodine"
    ]


def test_a_long_rest_in_the_cold_does_not(found: Found) -> None:
    text = recipe(
        "grain: light Munich malt, weight: 2.5 kg",
        "grain: flaked rice, weight: 2.5 kg",
        rests="at: 50 °C, for: 90 min; at: 66 °C, for: 45 min",
    )
    assert found("enzyme_sufficiency", text) == [
        "3:1: warning: the mash averages 20 °Lintner; below 30 °Lintner it converts slowly and may not finish"
    ]


def test_added_enzymes_lower_it_by_one_level(found: Found) -> None:
    text = recipe(
        "grain: dark Munich malt, weight: 1 kg",
        "grain: flaked rice, weight: 3 kg",
        more="mash: {enzymes: {alpha-amylase: 5 g}, rests: [{at: 66 °C, for: 60 min}]}",
    )
    assert found("enzyme_sufficiency", text) == [
        "3:1: warning: the mash averages 7.5 °Lintner; below 20 °Lintner it depends on the added enzymes"
    ]


def test_malts_that_convert_themselves_are_only_slow(found: Found) -> None:
    text = recipe("grain: dark Munich malt, weight: 4.5 kg", "grain: caramel malt 60, weight: 500 g", rests=HOUR)
    assert found("enzyme_sufficiency", text) == [
        "3:1: note: the mash averages 27 °Lintner; below 30 °Lintner it needs a long rest; test with iodine"
    ]


def test_malt_boiled_in_the_cooker_brings_no_enzyme(found: Found) -> None:
    text = recipe(
        "grain: two-row pale malt, weight: 1 kg",
        "grain: two-row pale malt, weight: 2 kg, prepare: cereal mash",
        "grain: maize grits, weight: 2 kg, prepare: cereal mash",
        rests=HOUR,
        more="cereal-mash: {boil: 30 min}",
    )
    assert found("enzyme_sufficiency", text) == [
        "3:1: warning: the mash averages 25 °Lintner; below 30 °Lintner it converts slowly and may not finish"
    ]


def test_silent_where_nothing_has_enzymes(found: Found) -> None:
    assert found("enzyme_sufficiency", recipe("grain: caramel malt 60, weight: 5 kg", rests=HOUR)) == []


def test_silent_where_an_ingredient_is_unknown(found: Found) -> None:
    text = recipe("grain: moonlight grain, weight: 3 kg", "grain: flaked rice, weight: 3 kg", rests=HOUR)
    assert found("enzyme_sufficiency", text) == ["4:13: open: what moonlight grain is"]


def test_the_floor_is_a_setting(found: Found) -> None:
    text = recipe("grain: pale ale malt, weight: 3 kg", "grain: flaked barley, weight: 2 kg", rests=HOUR)
    assert found("enzyme_sufficiency", text, floor_lintner=40) == [
        "3:1: warning: the mash averages 36 °Lintner; below 40 °Lintner it converts slowly and may not finish"
    ]


def test_shares_need_no_weights(found: Found) -> None:
    text = recipe("grain: dark Munich malt, share: 40 %", "grain: flaked rice, share: 60 %", rests=HOUR)
    assert found("enzyme_sufficiency", text) == [
        "3:1: error: the mash averages 12 °Lintner, 16 °Lintner at best; below 20 °Lintner its starch does not convert"
    ]


def porter(source: str, *, brown: int, pale: int, more: str = "") -> str:
    """A grist of brown and pale malt, in pounds."""
    text = recipe(
        f"grain: brown malt, weight: {brown} lb{more}",
        f"grain: pale malt, weight: {pale} lb",
        rests="at: 152 °F, for: 60 min",
    )
    return text.replace("batch:", f"{source}batch:", 1).replace("20 l", "5 US gal")


def test_an_old_recipe_is_asked_for_the_enzymes_of_its_brown_malt(found: Found) -> None:
    """Brown malt of the eighteenth century made porter alone; today's has no enzymes."""
    old = 'source: "A notebook of 1853"\n'
    told = "4:1: warning: the mash averages 24 °Lintner; below 30 °Lintner it converts slowly and may not finish"
    assert found("enzyme_sufficiency", porter(old, brown=9, pale=3)) == [
        told.replace("24", "25") + "; if the brown malt had enzymes, state its diastatic-power"
    ]
    assert found("enzyme_sufficiency", porter("", brown=9, pale=3)) == [
        told.replace("24", "25").replace("4:1", "3:1"),
    ]


def test_an_old_recipe_that_states_them_is_not_asked(found: Found) -> None:
    old = 'source: "A notebook of 1853"\n'
    stated = porter(old, brown=9, pale=3, more=", diastatic-power: 0 °Lintner")
    assert [line for line in found("enzyme_sufficiency", stated) if "state its" in line] == []
    assert found("enzyme_sufficiency", porter(old, brown=9, pale=3, more=", diastatic-power: 40 °Lintner")) == []


def test_a_munich_malt_of_the_standard_converts_itself(found: Found) -> None:
    """A malt standard asks 80 °WK, 27 °Lintner, of Munich malt that converts in 15 to 25 min [tgl-17756]."""
    text = "recipe: T\nbatch: 20 l\ngrist: [{grain: light Munich malt, weight: 5 kg, diastatic-power: %s}]\n"
    (told,) = found("enzyme_sufficiency", text % "28 °Lintner")
    assert ": note: " in told
    (told,) = found("enzyme_sufficiency", text % "22 °Lintner")
    assert ": warning: " in told


OPAQUE = recipe(
    "grain: sorghum malt, weight: 1.5 kg",
    "grain: sorghum, weight: 3 kg, prepare: cereal mash",
    rests="at: 60 °C, for: 60 min",
    more="cereal-mash: {boil: 60 min}",
)


def test_opaque_sorghum_beer_is_sound(found: Found) -> None:
    """Malt of sorghum converts a cooked porridge at 60 °C; the beer is strained, not run off, and keeps starch."""
    opaque = "below 30 °Lintner the beer stays opaque with starch, as sorghum beer should"
    assert found("enzyme_sufficiency", OPAQUE) == [f"3:1: note: the mash averages 10 °Lintner; {opaque}"]
    results = mashwright.review_text(OPAQUE).recipes[0].results
    assert [one.rule for one in results if one.level > Level.NOTE] == []
    barley = OPAQUE.replace("sorghum malt", "dark Munich malt")
    assert ": error: " in found("enzyme_sufficiency", barley)[0]


@pytest.mark.parametrize("rice_kg", [1.5, 2.5, 4])
@pytest.mark.parametrize("minutes", [60, 90])
def test_weak_malt_that_is_diluted_is_still_warned_of(found: Found, rice_kg: float, minutes: int) -> None:
    """Weak malts convert sooner than their power says, but rice dilutes all of their enzymes."""
    text = recipe(
        "grain: dark Munich malt, weight: 2 kg",
        f"grain: flaked rice, weight: {rice_kg:g} kg",
        rests=f"at: 66 °C, for: {minutes} min",
    )
    (told,) = found("enzyme_sufficiency", text)
    assert ": note: " not in told


def test_a_malt_never_takes_its_own_place() -> None:
    """What is wrong is the stated power, at which another rule points; more of the same malt mends nothing."""
    text = """\
recipe: T
batch: 20 l
grist: [{grain: two-row pale malt, weight: 4.5 kg, diastatic-power: 2 °Lintner}]
mash: {rests: [{at: 66 °C, for: 60 min}]}
"""
    (reviewed,) = mashwright.review_text(text).recipes
    mends = [remedy.text for one in reviewed.results for remedy in one.remedies]
    assert "enzyme-sufficiency" in {one.rule for one in reviewed.results}
    assert mends == ["write colour: 2 °Lovibond, and diastatic-power: 125 °Lintner"]
