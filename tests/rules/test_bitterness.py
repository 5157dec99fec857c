from collections.abc import Callable

import pytest

import mashwright

Found = Callable[..., list[str]]

HOUR = "hop: Fuggle, weight: 30 g, alpha: 6 %, boil: 60 min"  # 20.8 IBU, 17 to 27


def recipe(stated: str, *hops: str, batch: str = "20 l", weight: str = "4.4 kg") -> str:
    """A short recipe whose hops begin on line 4; its target bitterness stands two lines after them."""
    lines = ["recipe: Tried", f"batch: {batch}", f"grist: [{{grain: pale malt, weight: {weight}}}]"]
    lines += ["hops:"] if hops else []
    targets = ["targets:", "  og: 1.050", *([f"  bitterness: {stated}"] if stated else [])]
    return "\n".join([*lines, *(f"  - {{{hop}}}" for hop in hops), *targets, ""])


@pytest.mark.parametrize("stated", ["17 IBU", "20 IBU", "27 IBU", "20-40 IBU"])
def test_what_a_model_gives_is_believed(found: Found, stated: str) -> None:
    assert found("bitterness", recipe(stated, HOUR)) == []


@pytest.mark.parametrize("stated", ["13 IBU", "30 IBU", "37 IBU"])
def test_outside_every_model_is_a_note_at_least(found: Found, stated: str) -> None:
    told = found("bitterness", recipe(stated, HOUR))
    assert [one.split(": ")[1] for one in told] == ["note"]
    assert "21 IBU (17 to 27) by published models" in told[0]


def test_a_decimal_point_is_asked_about_at_the_hops(found: Found) -> None:
    assert found("bitterness", recipe("18 IBU", HOUR.replace("30 g", "250 g"))) == [
        "5:27: error: with 250 g of Fuggle these hops would give about 173 IBU, not 18 IBU; did you mean 25 g?"
    ]
    assert found("bitterness", recipe("30 IBU", HOUR.replace("30 g", "4 g"))) == [
        "5:27: error: with 4 g of Fuggle these hops would give about 2.8 IBU, not 30 IBU; did you mean 40 g?"
    ]


def test_more_than_the_models_give(found: Found) -> None:
    gives = "is more than these hops give: about 21 IBU (17 to 27) by published models"
    assert found("bitterness", recipe("39 IBU", HOUR)) == [f"8:15: warning: 39 IBU {gives}"]
    assert found("bitterness", recipe("54 IBU", HOUR)) == [f"8:15: warning: 54 IBU {gives}"]
    assert found("bitterness", recipe("55 IBU", HOUR)) == [f"8:15: error: 55 IBU {gives}"]


def test_less_than_the_models_give(found: Found) -> None:
    hour = HOUR.replace("30 g", "60 g")
    gives = "about 42 IBU (33 to 54) by published models"
    assert found("bitterness", recipe("24 IBU", hour)) == [f"8:15: note: these hops give more than 24 IBU: {gives}"]
    assert found("bitterness", recipe("23 IBU", hour)) == [f"8:15: warning: these hops give more than 23 IBU: {gives}"]
    assert found("bitterness", recipe("16 IBU", hour)) == [f"8:15: error: these hops give more than 16 IBU: {gives}"]


def test_a_few_units_are_nothing(found: Found) -> None:
    weak = HOUR.replace("30 g", "5 g")  # 3.5 IBU, 2.8 to 4.5
    assert found("bitterness", recipe("5 IBU", weak)) == []
    assert [one.split(": ")[1] for one in found("bitterness", recipe("9 IBU", weak))] == ["note"]
    assert found("bitterness", recipe("10 IBU", weak)) == [
        "8:15: error: 10 IBU is more than these hops give: about 3 IBU (3 to 4) by published models"
    ]


def test_ninety_from_twenty_grams(found: Found) -> None:
    assert found("bitterness", recipe("90 IBU", HOUR.replace("30 g", "20 g"))) == [
        "8:15: error: 90 IBU is more than these hops give: about 14 IBU (11 to 18) by published models"
    ]


def test_ninety_claimed_for_one_addition(found: Found) -> None:
    text = recipe("", "hop: Fuggle, weight: 20 g, alpha: 6 %, boil: 60 min, bitterness: 90 IBU")
    assert found("bitterness", text) == [
        "5:71: error: 90 IBU is more than 20 g of Fuggle gives: about 14 IBU (11 to 18) by published models"
    ]


def test_a_claim_that_holds_and_a_sum_that_does_not(found: Found) -> None:
    text = recipe("90 IBU", HOUR + ", bitterness: 25 IBU")
    assert found("bitterness", text) == [
        "8:15: error: 90 IBU is more than these hops give: about 21 IBU (17 to 27) by published models"
    ]


def test_one_cause_one_finding(found: Found) -> None:
    text = recipe("90 IBU", HOUR + ", bitterness: 90 IBU")
    assert found("bitterness", text) == [
        "5:71: error: 90 IBU is more than 30 g of Fuggle gives: about 21 IBU (17 to 27) by published models"
    ]


def test_claims_alone_are_added_up(found: Found) -> None:
    claims = ("hop: Fuggle, bitterness: 20 IBU, boil: 60 min", "hop: Golding, bitterness: 10 IBU, boil: 15 min")
    assert found("bitterness", recipe("30 IBU", *claims)) == []
    assert found("bitterness", recipe("50 IBU", *claims)) == [
        "9:15: warning: 50 IBU is more than these hops give: about 30 IBU (22 to 33) by published models"
    ]


def test_the_harvest_widens_what_is_believed(found: Found) -> None:
    text = recipe("39 IBU", "hop: Northern Brewer, weight: 30 g, boil: 60 min")  # 7 to 13.5 % of alpha acid
    assert found("bitterness", text) == []
    assert found("bitterness", text.replace("39 IBU", "90 IBU")) == [
        "8:15: warning: 90 IBU is more than these hops give: about 35 IBU (22 to 51) by published models"
    ]


def test_a_lot_pins_it(found: Found) -> None:
    text = recipe("60 IBU", "hop: Northern Brewer, weight: 30 g, boil: 60 min, lot: NB-1")
    house = "brewhouse: Tried\nlots: {NB-1: {of: Northern Brewer, alpha: 7 %}}\n"
    assert [one.split(": ")[1] for one in found("bitterness", text)] == ["note"]
    assert found("bitterness", text, house) == [
        "8:15: warning: 60 IBU is more than these hops give: about 24 IBU (19 to 31) by published models"
    ]


def test_dry_hops_alone_are_doubted_only(found: Found) -> None:
    assert found("bitterness", recipe("40 IBU", "hop: Cascade, weight: 100 g, dry: 3 d")) == [
        "8:15: warning: 40 IBU is not possible: these hops give hardly any, at most 8 IBU"
    ]
    assert found("bitterness", recipe("", "hop: Cascade, weight: 100 g, dry: 3 d")) == []


def test_hoppy_beer_by_stands_is_believed(found: Found) -> None:
    hops = (
        "hop: Magnum, weight: 15 g, alpha: 13 %, boil: 60 min",
        "hop: Centennial, weight: 60 g, alpha: 10 %, whirlpool: 30 min, at: 80 °C",
        "hop: Cascade, weight: 100 g, dry: 3 d",
    )
    for stated in ("25 IBU", "35 IBU", "45 IBU"):
        assert found("bitterness", recipe(stated, *hops)) == []


@pytest.mark.parametrize(
    ("hops", "stated", "why"),
    [
        ("hop: hedge hop, weight: 30 g, boil: 60 min", "90 IBU", "5:11: open: the alpha acid of hedge hop"),
        ("hop: Fuggle, boil: 60 min", "90 IBU", "not stated: the weight of Fuggle"),
        ("hop: Fuggle, weight: 30 g, alpha: 6 %", "90 IBU", "not stated: when Fuggle goes in"),
        (HOUR.replace("6 %", "6"), "90 IBU", "5:40: open: a readable alpha of Fuggle"),
        (HOUR, "90", "8:15: open: a readable bitterness"),
        # the alpha acid or the weight is the fault
        (HOUR.replace("6 %", "60 %"), "20 IBU", "5:40: open: a plausible alpha acid of Fuggle"),
        (HOUR.replace("30 g", "30 kg"), "20 IBU", "5:27: open: a plausible weight of Fuggle"),
    ],
)
def test_silent_where_something_is_not_known(found: Found, hops: str, stated: str, why: str) -> None:
    assert found("bitterness", recipe(stated, hops)) == [why]


def test_an_alpha_acid_that_is_the_fault(found: Found) -> None:
    assert found("bitterness", recipe("20 IBU", HOUR.replace("6 %", "0.6 %"))) == []


def test_no_hops_and_a_bitterness(found: Found) -> None:
    assert found("bitterness", recipe("40 IBU")) == []


def test_beer_does_not_hold_so_much(found: Found) -> None:
    strong = HOUR.replace("30 g", "165 g")  # 114 IBU, 91 to 148
    assert found("bitterness", recipe("110 IBU", strong)) == []
    holds = "on paper, but beer rarely contains more than 110 IBU"
    assert found("bitterness", recipe("111 IBU", strong)) == [f"8:15: note: 111 IBU {holds}"]
    assert found("bitterness", recipe("151 IBU", strong)) == [f"8:15: warning: 151 IBU {holds}"]
    assert found("bitterness", recipe("", strong)) == []
    more = HOUR.replace("30 g", "300 g")
    assert found("bitterness", recipe("", more)) == [
        f"5:27: warning: 300 g of Fuggle alone would give 208 IBU {holds}; did you mean 30 g?"
    ]


def test_american_units(found: Found) -> None:
    text = recipe("80 IBU", "hop: Fuggle, weight: 1 oz, alpha: 6 %, boil: 60 min", batch="5 gal", weight="9.7 lb")
    assert found("bitterness", text) == [
        "8:15: error: 80 IBU is more than these hops give: about 21 IBU (17 to 27) by published models"
    ]


def test_the_weight_or_the_figure_mends_it() -> None:
    (finding,) = mashwright.review_text(recipe("45 IBU", HOUR)).recipes[0].results
    assert (finding.rule, finding.place.line, finding.place.column) == ("bitterness", 8, 15)
    assert [remedy.text for remedy in finding.remedies] == [
        "use 65 g of Fuggle instead of 30 g",
        "change the stated bitterness from 45 IBU to 21 IBU",
    ]


def test_ounces_are_weighed_in_tenths() -> None:
    text = recipe("45 IBU", "hop: Fuggle, weight: 1 oz, alpha: 6 %, boil: 60 min", batch="5 gal", weight="9.7 lb")
    (finding,) = mashwright.review_text(text).recipes[0].results
    assert [remedy.text for remedy in finding.remedies] == [
        "use 2.2 oz of Fuggle instead of 1 oz",
        "change the stated bitterness from 45 IBU to 21 IBU",
    ]


def test_settings(found: Found) -> None:
    assert found("bitterness", recipe("37 IBU", HOUR), doubtful_times=1.1) == [
        "8:15: warning: 37 IBU is more than these hops give: about 21 IBU (17 to 27) by published models"
    ]


MUCH = HOUR.replace("30 g", "190 g")  # 131 IBU, 105 to 171
THEN = "hops then were weaker and often a year old or older; state"


def old(text: str, source: str = "a brewing book of 1853") -> str:
    """The same recipe out of an old book, which is told on the line after its targets."""
    return f"{text}source: {source}\n"


def test_what_old_hops_give_is_asked(found: Found) -> None:
    holds = "on paper, but beer rarely contains more than 110 IBU"
    more = HOUR.replace("30 g", "300 g")
    assert found("bitterness", recipe("", more)) == [
        f"5:27: warning: 300 g of Fuggle alone would give 208 IBU {holds}; did you mean 30 g?"
    ]
    assert found("bitterness", old(recipe("", more))) == [
        f"4:1: note: the hops add up to 208 IBU {holds}; {THEN} how old they were"
    ]
    assert found("bitterness", old(recipe("118 IBU", MUCH))) == [
        f"8:15: note: 118 IBU {holds}; {THEN} how old they were"
    ]


def test_old_hops_without_an_alpha_acid_are_reckoned_as_ours_and_nothing_is_said(found: Found) -> None:
    cones = "hop: Fuggle, weight: 600 g, boil: 2 h, form: cone"
    assert found("bitterness", old(recipe("", cones))) == []
    assert [one[-20:] for one in found("bitterness", recipe("", cones))] == ["; did you mean 60 g?"]


def test_less_than_old_hops_give_is_a_note(found: Found) -> None:
    gives = "these hops give more than 50 IBU: about 131 IBU (105 to 171) by published models"
    assert found("bitterness", recipe("50 IBU", MUCH)) == [f"8:15: error: {gives}"]
    assert found("bitterness", old(recipe("50 IBU", MUCH))) == [f"8:15: note: {gives}; {THEN} how old they were"]


def test_more_than_old_hops_give_is_as_wrong_as_ever(found: Found) -> None:
    assert found("bitterness", old(recipe("90 IBU", HOUR))) == [
        "8:15: error: 90 IBU is more than these hops give: about 21 IBU (17 to 27) by published models"
    ]


def test_old_hops_whose_age_is_known_are_counted_as_such(found: Found) -> None:
    aged = HOUR.replace("30 g", "500 g").replace("boil: 60 min", "age: 18 months, boil: 60 min")
    (message,) = found("bitterness", old(recipe("", aged)))
    assert message.endswith("IBU on paper, but beer rarely contains more than 110 IBU")


@pytest.mark.parametrize(
    ("source", "is_old"),
    [
        ("old brewing book, leaf 3", True),
        ("notes of 9th March 1886", True),
        ("old folder of the club, 1986", False),
        ("house book, page 3", False),
        ("the Circle's summer beer", False),
    ],
)
def test_what_an_old_source_is(found: Found, source: str, is_old: bool) -> None:
    (message,) = found("bitterness", old(recipe("50 IBU", MUCH), source))
    assert ("note" in message) is is_old
    assert ("hops then" in message) is is_old


def test_a_year_in_a_name_alone_makes_nothing_old(found: Found) -> None:
    text = recipe("50 IBU", MUCH).replace("recipe: Tried", "recipe: Stout 1853")
    assert found("bitterness", text)[0].startswith("8:15: error")
    assert found("bitterness", old(text, "the third leaf"))[0].startswith("8:15: note")


def aged(age: str) -> str:
    return recipe("35 IBU", f"hop: Cascade, weight: 60 g, {age}, boil: 60 min")


def test_a_stated_alpha_acid_is_not_aged_again(found: Found) -> None:
    assert found("bitterness", aged("alpha: 6 %, age: 5 years")) == []
    assert found("bitterness", aged("alpha: 1.2 %, age: 5 years"))[0].startswith("8:15: error: 35 IBU is more")


def test_a_figure_that_only_fresh_hops_would_reach(found: Found) -> None:
    assert found("bitterness", aged("age: 5 years")) == [
        (
            "5:39: warning: kept cool, Cascade has little alpha acid left after 5 years; these hops give about"
            " 0.95 IBU, not 35 IBU; fresh they would give about 46 IBU"
        )
    ]
    (of_a_harvest,) = found("bitterness", aged("harvest: 2015") + "measured: [{date: 2020-10-01}]\n")
    assert of_a_harvest.startswith("5:43: warning: kept cool, Cascade of the 2015 harvest has little alpha acid left")
    (too_few,) = found("bitterness", aged("age: 5 years").replace("60 g", "6 g"))
    assert too_few.startswith("8:15: error: 35 IBU is not possible: these hops give hardly any")
    assert found("bitterness", aged("age: 12 months")) == []
    assert found("bitterness", aged("form: pellet")) == []


def test_fresh_hops_mend_it() -> None:
    (finding,) = mashwright.review_text(aged("age: 5 years")).recipes[0].results
    assert [remedy.text for remedy in finding.remedies] == ["use Cascade of 6 months instead of 5 years"]


def test_aged_hops_without_a_claim_are_no_question(found: Found) -> None:
    lambic = "hop: Hallertau, weight: 100 g, age: 3 years, alpha: 4 %, boil: 4 h, form: cone"
    assert found("bitterness", recipe("", lambic)) == []


UNITS = "hop: Cascade, alpha-units: {} AAU, boil: 60 min"


def test_alpha_units_that_are_the_bitterness(found: Found) -> None:
    text = recipe("35 IBU", UNITS.format(35))
    gives = "about 114 IBU (92 to 149) by published models"
    assert found("bitterness", text) == [
        f"8:15: error: these hops give more than 35 IBU: {gives}; did you mean 35 IBU, about 11 AAU?"
    ]
    (finding,) = mashwright.review_text(text).recipes[0].results
    assert [remedy.text for remedy in finding.remedies] == ["use 11 AAU of hops instead of 35 AAU"]
    (two,) = found("bitterness", recipe("35 IBU", UNITS.format(30), UNITS.format(5)))
    assert two.endswith("; did you mean 35 IBU, about 11 AAU?")
    (other,) = found("bitterness", recipe("30 IBU", UNITS.format(35)))
    assert other == f"8:15: error: these hops give more than 30 IBU: {gives}"
    assert found("bitterness", recipe("35 IBU", UNITS.format(10))) == []


def test_alpha_units_that_are_the_bitterness_of_one_addition(found: Found) -> None:
    text = recipe("", UNITS.format(35) + ", bitterness: 35 IBU")
    gives = "35 AAU of Cascade gives more than 35 IBU: about 114 IBU (92 to 149) by published models"
    assert found("bitterness", text) == [f"5:67: error: {gives}; did you mean 35 IBU, about 11 AAU?"]
    (finding,) = mashwright.review_text(text).recipes[0].results
    assert [remedy.text for remedy in finding.remedies] == ["use 11 AAU of hops instead of 35 AAU"]
    (other,) = found("bitterness", recipe("", UNITS.format(35) + ", bitterness: 30 IBU"))
    assert "is it" not in other


GRAMS = ("hop: Columbus, weight: 1 g, alpha: 15 %, boil: 60 min", "hop: Cascade, weight: 2 g, alpha: 6 %, boil: 5 min")


def test_grams_where_ounces_are_meant(found: Found) -> None:
    text = recipe("55 IBU", *GRAMS, batch="5 gal", weight="11 lb")
    gives = "55 IBU is more than these hops give: about 2 IBU (2 to 3) by published models"
    assert found("bitterness", text) == [f"9:15: error: {gives}; did you mean 1 oz of Columbus?"]
    (first,) = mashwright.review_text(text).recipes[0].results[-1].remedies
    assert first.text == "use 1 oz of Columbus instead of 1 g, and the other hops likewise"
    assert [edit.text for edit in first.edits] == ["1 oz", "2 oz"]
    metric = found("bitterness", recipe("55 IBU", *GRAMS))
    assert "oz" not in metric[0]
    grams = recipe("55 IBU", *(one.replace("2 g", "20 g") for one in GRAMS), batch="5 gal", weight="11 lb")
    assert "oz" not in found("bitterness", grams)[0]


KIT = """\
recipe: Kit
batch: 23 l
grist:
  - {extract: hopped light malt extract, weight: 1.7 kg, bitterness: %s}
  - {sugar: dextrose, weight: 1 kg}
targets: {og: 1.040, bitterness: %s}
"""


@pytest.mark.parametrize(
    ("of_the_kit", "stated", "told"),
    [
        ("22 IBU", "22 IBU", []),
        ("390 IBU", "26 IBU", []),
        (
            "22 IBU",
            "70 IBU",
            ["6:34: error: 70 IBU is more than these hops give: about 22 IBU (16 to 24) by published models"],
        ),
        ("bitter", "22 IBU", ["4:70: open: a readable bitterness of hopped light malt extract"]),
    ],
)
def test_a_kit_is_bitter_by_what_it_states(of_the_kit: str, stated: str, told: list[str], found: Found) -> None:
    assert found("bitterness", KIT % (of_the_kit, stated)) == told
