from collections.abc import Callable

import mashwright

Found = Callable[..., list[str]]

PALE = "grain: Pilsner malt, weight: 5 kg"


def recipe(mash: str = "", water: str = "", *grist: str, name: str = "Tried") -> str:
    """A recipe with 15 l of mash water; what more the mash holds is on the line after it."""
    lines = [f"recipe: {name}", "batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist or (PALE,))]
    lines += [
        "mash:",
        "  water: 15 l",
        *([f"  {mash}"] if mash else []),
        *([f"water: {{{water}}}"] if water else []),
        "",
    ]
    return "\n".join(lines)


SOFT = "calcium: 20 mg/l, magnesium: 3 mg/l, alkalinity: 20 mg/l"
HARD = "calcium: 60 mg/l, magnesium: 10 mg/l, alkalinity: 450 mg/l"
MIDDLING = "calcium: 60 mg/l, magnesium: 10 mg/l, alkalinity: 250 mg/l"
UNSAID_WATER = ["not stated: what is dissolved in the water"]
STOUT = (PALE, "grain: roasted barley, weight: 500 g", "grain: caramel malt 80, weight: 500 g")


def test_pale_malt_in_soft_water(found: Found) -> None:
    assert found("mash_ph", recipe("", SOFT)) == []


def test_stout_in_hard_water_and_in_soft(found: Found) -> None:
    assert found("mash_ph", recipe("", MIDDLING, *STOUT)) == []
    assert found("mash_ph", recipe("", SOFT, *STOUT)) == []


def test_nothing_known_of_the_water(found: Found) -> None:
    assert found("mash_ph", recipe()) == UNSAID_WATER
    assert found("mash_ph", recipe("", "alkalinity: 450 mg/l")) == ["not stated: the calcium of the water"]


def test_pale_malt_in_hard_water(found: Found) -> None:
    assert found("mash_ph", recipe("", MIDDLING)) == [
        (
            "5:1: note: mash pH is about 6 (5.8 to 6.2); above 5.8 the starch converts slowly and the husks give"
            " a harsh taste"
        )
    ]
    assert found("mash_ph", recipe("", HARD)) == [
        (
            "5:1: warning: mash pH is about 6.2 (6.0 to 6.5); above 5.8 the starch converts slowly and the husks"
            " give a harsh taste"
        )
    ]


def test_dilution_and_acid_settle_it(found: Found) -> None:
    assert found("mash_ph", recipe("", f"{HARD}, dilution: 70 %")) == []
    assert found("mash_ph", recipe("acid: {lactic acid 88 %: 12 ml}", HARD)) == []
    assert found("mash_ph", recipe("", HARD, PALE, "grain: acidulated malt, weight: 250 g")) == []


def test_never_an_error(found: Found) -> None:
    worse = HARD.replace("450", "1200")
    assert [one.split(": ")[1] for one in found("mash_ph", recipe("", worse))] == ["warning"]
    acid = recipe("acid: {lactic acid 88 %: 30 ml}", SOFT)
    assert found("mash_ph", acid) == [
        (
            "5:1: warning: mash pH is about 4.4 (4.1 to 4.8); below 5.2 the enzymes slow down and the beer may"
            " taste sharp"
        )
    ]


def test_so_much_acid_that_its_amount_is_asked_about(found: Found) -> None:
    assert found("mash_ph", recipe("acid: {lactic acid 88 %: 60 ml}", SOFT)) == []


def test_a_sour_beer_is_meant(found: Found) -> None:
    text = recipe("acid: {lactic acid 88 %: 30 ml}", SOFT, name="Berliner of the Lane")
    assert found("mash_ph", text) == []


def test_words_that_only_look_sour(found: Found) -> None:
    acid = "acid: {lactic acid 88 %: 30 ml}"
    for name in ("Source of the Lane", "Gosehawk", "Sour Cherry Porter", "Placid Pond"):
        assert [one.split(": ")[1] for one in found("mash_ph", recipe(acid, SOFT, name=name))] == ["warning"]
    for more in ("yeast: {kind: lactobacillus}", "style: Flemish red ale", "notes: a sour beer", "style: kettle sour"):
        assert found("mash_ph", recipe(acid, SOFT) + more + "\n") == []
    asked = "is it a reading in the hot mash, which is about 0.35 below that of a cooled sample?"
    for more in ("", "notes: not sour", "notes: the sink smells sour"):
        assert found("mash_ph", recipe("ph: 4.5", name="Source") + f"{more}\n") == [
            f"7:7: warning: a mash pH of 4.5 is below 5.2; {asked}"
        ]
    assert found("mash_ph", recipe("ph: 4.5", name="Source") + "notes: kettle-soured\n") == UNSAID_WATER


def test_the_brewhouse_knows_the_water(found: Found) -> None:
    house = "brewhouse: Here\nwater: {calcium: 60 mg/l, alkalinity: %d mg/l}\n"
    assert found("mash_ph", recipe(), house % 250) == []
    assert found("mash_ph", recipe(), house % 500) == [
        (
            "5:1: note: mash pH is about 6.2 (6.0 to 6.6); above 5.8 the starch converts slowly and the husks"
            " give a harsh taste"
        )
    ]


def test_a_stated_ph(found: Found) -> None:
    for ph in ("5.2", "5.4", "5.8"):
        assert found("mash_ph", recipe(f"ph: {ph}")) == UNSAID_WATER
    assert found("mash_ph", recipe("ph: 5.1")) == [
        (
            "7:7: note: a mash pH of 5.1 is below 5.2; is it a reading in the hot mash, which is about 0.35 below"
            " that of a cooled sample?"
        )
    ]
    assert found("mash_ph", recipe("ph: 4.9")) == [
        (
            "7:7: warning: a mash pH of 4.9 is below 5.2; is it a reading in the hot mash, which is about 0.35"
            " below that of a cooled sample?"
        )
    ]
    assert found("mash_ph", recipe("ph: 5.9")) == [
        "7:7: note: a mash pH of 5.9 is above 5.8; the starch converts slowly and the husks give a harsh taste"
    ]
    assert found("mash_ph", recipe("ph: 6.2")) == [
        "7:7: warning: a mash pH of 6.2 is above 5.8; the starch converts slowly and the husks give a harsh taste"
    ]
    assert found("mash_ph", recipe("ph: 4.5", name="Gose of the Lane")) == UNSAID_WATER


def test_a_stated_ph_that_the_water_does_not_give(found: Found) -> None:
    assert found("mash_ph", recipe("ph: 5.6", SOFT)) == []
    assert found("mash_ph", recipe("ph: 5.3", HARD)) == [
        (
            "7:7: note: grist and water give a pH of about 6.2 (6.0 to 6.5); 5.3 needs acid or acidulated malt"
            " that the recipe does not state"
        )
    ]


def test_silent_where_nothing_converts(found: Found) -> None:
    assert found("mash_ph", recipe("", HARD, "grain: caramel malt 60, weight: 4 kg")) == []


def test_salts_without_a_volume_leave_it_open(found: Found) -> None:
    text = recipe("salts: {gypsum: 4 g}", HARD).replace("  water: 15 l\n", "")
    assert found("mash_ph", text) == ["not stated: the mash water, into which the salts go"]


def test_acid_mends_it() -> None:
    review = mashwright.review_text(recipe("", HARD))
    mended = [
        [remedy.text for remedy in one.remedies] for one in review.recipes[0].results if one.level.word == "warning"
    ]
    assert mended == [["add 14 ml of lactic acid 88 % to the mash, with goggles and gloves"]]


LIFTED = "above 5.8 the starch converts slowly and the husks give a harsh taste"


def mended(text: str) -> list[list[str]]:
    """The remedies of each finding of this rule."""
    results = mashwright.review_text(text).recipes[0].results
    return [[remedy.text for remedy in one.remedies] for one in results if one.rule == "mash-ph"]


def test_soda_that_lifts_it_is_named_and_left_out(found: Found) -> None:
    text = recipe("salts: {baking soda: 30 g}", SOFT)
    assert found("mash_ph", text) == [
        (f"5:1: warning: mash pH is about 7 (6.7 to 7.7), 1.2 of it from 30 g of baking soda; {LIFTED}")
    ]
    assert mended(text) == [["leave out the 30 g of baking soda"]]


def test_lime_that_lifts_it_is_left_out_and_then_nothing_is_said_of_it() -> None:
    text = recipe("salts: {gypsum: 4 g, lime: 20 g}", SOFT)
    assert mended(text) == [["leave out the 20 g of lime"]]
    left = mashwright.review_text(text.replace("20 g", "0 g")).recipes[0].results
    assert [one.rule for one in left if one.rule in ("mash-ph", "salts", "quantity")] == []


def test_less_of_it_where_a_dark_grist_wants_some(found: Found) -> None:
    stout = (PALE, "grain: roasted barley, weight: 500 g", "grain: acidulated malt, weight: 250 g")
    assert found("mash_ph", recipe("salts: {baking soda: 5 g}", SOFT, *stout)) == []
    assert mended(recipe("salts: {baking soda: 30 g}", SOFT, *stout)) == [
        ["use 6 g of baking soda instead of 30 g", "leave out the 30 g of baking soda"]
    ]


def test_two_that_lift_it_go_together() -> None:
    assert mended(recipe("salts: {baking soda: 20 g, slaked lime: 9 g}", SOFT.replace("20 mg/l, m", "60 mg/l, m"))) == [
        ["leave out the 20 g of baking soda and 9 g of slaked lime"]
    ]


def test_acid_only_where_the_water_is_too_alkaline_without_it() -> None:
    assert mended(recipe("salts: {baking soda: 15 g}", HARD)) == [
        [
            "leave out the 15 g of baking soda, and add 14 ml of lactic acid 88 % to the mash, with goggles and gloves",
        ]
    ]


def test_a_little_chalk_is_not_what_is_wrong(found: Found) -> None:
    assert found("mash_ph", recipe("salts: {chalk: 1 g}", HARD)) == [
        f"5:1: warning: mash pH is about 6.2 (6.0 to 6.6); {LIFTED}"
    ]
    assert found("mash_ph", recipe("salts: {chalk: 3 g}", SOFT)) == []


def test_a_stated_ph_that_soda_leads_away_from(found: Found) -> None:
    text = recipe("salts: {baking soda: 30 g}", SOFT).replace("mash:\n", "mash:\n  ph: 5.4\n")
    assert found("mash_ph", text) == [
        ("6:7: note: grist and water give a pH of about 7.0 (6.7 to 7.7); 5.4 needs less than 30 g of baking soda")
    ]


def test_less_acid_mends_it() -> None:
    review = mashwright.review_text(recipe("acid: {lactic acid 88 %: 30 ml}", SOFT))
    mended = [[remedy.text for remedy in one.remedies] for one in review.recipes[0].results if one.rule == "mash-ph"]
    assert mended == [["use 6 ml of lactic acid 88 % instead of 30 ml"]]
