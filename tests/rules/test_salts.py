from collections.abc import Callable

import pytest

import mashwright

Found = Callable[..., list[str]]

CAUTION = "goggles and gloves, and acid into water, never water into acid"
WATER = (
    "water: {calcium: 60 mg/l, magnesium: 8 mg/l, sodium: 20 mg/l, chloride: 40 mg/l, sulfate: 55 mg/l,"
    " alkalinity: 110 mg/l}\n"
)


def recipe(mash: str = "", more: str = "", water: str = "15 l") -> str:
    """A recipe of 5 kg of pale ale malt; what is put into the mash stands on line 7."""
    head = "recipe: Tried\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 5 kg}\nmash:\n"
    return f"{head}  water: {water}\n{f'  {mash}' if mash else '  bag: false'}\n{more}"


SPARGE = "sparge: {by: batch, water: 15 l}\n"


@pytest.mark.parametrize(
    "mash",
    [
        "salts: {gypsum: 10 g, calcium chloride: 5 g, Epsom salt: 3 g}",
        "salts: {table salt: 12 g}",
        "salts: {campden tablet: 1 g}",
        "acid: {lactic acid 88 %: 6 ml}",
        "acid: {lactic acid: 6 ml}",
        "acid: {phosphoric acid 10 %: 20 ml}",
        "acid: {acidulated malt: 100 g}",
        "acid: {citric acid: 4 g}",
    ],
)
def test_ordinary_amounts(found: Found, mash: str) -> None:
    assert found("salts", recipe(mash, SPARGE)) == []
    assert found("salts", recipe(mash, SPARGE + WATER)) == []


def test_nothing_put_in(found: Found) -> None:
    assert found("salts", recipe()) == []


@pytest.mark.parametrize(
    ("mash", "finding"),
    [
        (
            "salts: {gypsm: 4 g}",
            "7:18: warning: nothing is known of gypsm, so it is not counted; did you mean gypsum?",
        ),
        (
            "salts: {stardust: 4 g}",
            "7:21: warning: nothing is known of stardust among the salts, so it is not counted",
        ),
        (
            "salts: {lactic acid 88 %: 4 g}",
            "7:29: warning: lactic acid 88 % is an acid and is not counted here; put it under acid",
        ),
        ("acid: {gypsum: 4 g}", "7:18: warning: gypsum is a salt and is not counted here; put it under salts"),
        (
            "acid: {lactc acid: 4 ml}",
            "7:22: warning: nothing is known of lactc acid, so it is not counted; did you mean lactic acid?",
        ),
        ("salts: {gypsum: 4 ml}", "7:19: warning: gypsum is weighed; 4 ml of it cannot be counted"),
        (
            "salts: {calcium chloride: 4 ml}",
            (
                "7:29: warning: calcium chloride is weighed, and a solution by the salt that is in it;"
                " 4 ml of it cannot be counted"
            ),
        ),
        (
            "acid: {citric acid: 4 ml}",
            "7:23: warning: citric acid is weighed; 4 ml of a solution of it cannot be counted",
        ),
    ],
)
def test_what_cannot_be_counted(found: Found, mash: str, finding: str) -> None:
    assert found("salts", recipe(mash, SPARGE)) == [finding]


@pytest.mark.parametrize(
    ("mash", "finding"),
    [
        (
            "acid: {phosphoric acid: 4 ml}",
            f"7:27: note: phosphoric acid is sold at 10 % and at 85 %, which is far stronger; state which; {CAUTION}",
        ),
        ("acid: {phosphoric acid 85 %: 4 ml}", f"7:32: note: phosphoric acid 85 % burns eyes and skin: {CAUTION}"),
        ("acid: {sulfuric acid 10 %: 4 ml}", f"7:30: note: sulfuric acid 10 % burns eyes and skin: {CAUTION}"),
        (
            "salts: {slaked lime: 1 g}",
            "7:24: note: slaked lime is caustic: goggles and gloves, and stir it into cold water, never near acid",
        ),
        (
            "acid: {battery acid: 4 ml}",
            (
                "7:24: error: battery acid is sold for cleaning and batteries, not for food;"
                " only food-grade acid goes into beer"
            ),
        ),
        (
            "acid: {oxalic acid: 4 g}",
            "7:23: error: oxalic acid is poisonous or caustic and has no place in a beer",
        ),
    ],
)
def test_what_burns_or_poisons(found: Found, mash: str, finding: str) -> None:
    assert found("salts", recipe(mash, SPARGE)) == [finding]


def test_lime_of_which_there_is_none_burns_nobody(found: Found) -> None:
    assert found("salts", recipe("salts: {slaked lime: 0 g}", SPARGE)) == []


def test_grams_to_the_litre(found: Found) -> None:
    """45 g in 30 l are 1.5 g/l, 90 g are 3 g/l."""
    assert found("salts", recipe("salts: {gypsum: 45 g}", SPARGE)) == []
    assert found("salts", recipe("salts: {gypsum: 46 g}", SPARGE)) == [
        "7:19: warning: 46 g of gypsum in 30 l of water is 1.53 g/l; beers are brewed with at most 1.5 g/l"
    ]
    assert found("salts", recipe("salts: {gypsum: 100 g}", SPARGE)) == [
        "7:19: error: 100 g of gypsum in 30 l of water is 3.3 g/l; no beer has more than 3 g/l"
    ]


def test_in_gallons(found: Found) -> None:
    text = recipe("salts: {gypsum: 4 oz}", "sparge: {by: batch, water: 4 gal}\n", water="4 gal")
    assert found("salts", text) == [
        "7:19: error: 4 oz of gypsum in 8 gal of water is 3.7 g/l; no beer has more than 3 g/l"
    ]


def test_salts_of_the_boil_go_by_the_kettle(found: Found) -> None:
    boil = "boil: {volume: 25 l, for: 60 min, salts: {table salt: 80 g}}\n"
    assert found("salts", recipe("", SPARGE + boil)) == [
        "9:55: error: 80 g of table salt in 25 l of water is 3.2 g/l; no beer has more than 3 g/l"
    ]


def test_no_volume_no_dose(found: Found) -> None:
    text = recipe("salts: {gypsum: 100 g}").replace("  water: 15 l\n", "")
    assert found("salts", text) == []


def test_magnesium_hurts(found: Found) -> None:
    """A gram in 1 l is 98.6 mg/l; 36 g in 30 l are 118, and 126 with the 8 of the water."""
    assert found("salts", recipe("salts: {Epsom salt: 36 g}", SPARGE)) == []
    assert found("salts", recipe("salts: {Epsom salt: 36 g}", SPARGE + WATER)) == [
        (
            "7:23: error: 36 g of Epsom salt brings the beer's water to 126 mg/l of magnesium; above 125 mg/l it"
            " acts as a laxative"
        )
    ]
    assert found("salts", recipe("salts: {Epsom salt: 33-37 g}", SPARGE + WATER)) == [
        (
            "7:23: warning: 33-37 g of Epsom salt brings the beer's water to 123 mg/l of magnesium; above 125 mg/l"
            " it acts as a laxative"
        )
    ]


def test_acid_of_the_sparge(found: Found) -> None:
    sparge = "sparge: {by: batch, water: 15 l, acid: {lactic acid 88 %: 20 ml}}\n"
    assert found("salts", recipe("", sparge)) == []
    assert found("salts", recipe("", sparge + WATER)) == [
        (
            "8:59: warning: 20 ml of lactic acid 88 % in 15 l is 15 mEq/l of acid, but the water has only 2.2 mEq/l of"
            f" alkalinity; {CAUTION}"
        )
    ]
    assert found("salts", recipe("", (sparge + WATER).replace("20 ml", "9 ml"))) == []


def test_acid_of_the_mash(found: Found) -> None:
    """34 ml of 88 % are 389 mEq, 78 to the kilogram."""
    assert found("salts", recipe("acid: {lactic acid 88 %: 34 ml}")) == []
    assert found("salts", recipe("acid: {lactic acid 88 %: 60 ml}")) == [
        (
            "7:28: warning: 60 ml of lactic acid 88 % is 137 mEq of acid to each kg of grain, which lowers mash pH"
            f" by about 3.3; {CAUTION}"
        )
    ]


def test_acid_that_nobody_should_drink(found: Found) -> None:
    assert found("salts", recipe("acid: {lactic acid 88 %: 600 ml}", SPARGE)) == [
        (
            "7:28: error: 600 ml of lactic acid 88 % in 30 l of water is 229 mEq/l of acid, more than anyone"
            f" should drink; {CAUTION}"
        )
    ]
    assert found("salts", recipe("acid: {phosphoric acid 10 %: 1.5 l}", SPARGE)) == [
        (
            "7:32: error: 1.5 l of phosphoric acid 10 % in 30 l of water is 55 mEq/l of acid, more than anyone"
            f" should drink; {CAUTION}"
        )
    ]


def test_an_amount_that_cannot_be_read_ends_the_sums(found: Found) -> None:
    assert found("salts", recipe("salts: {gypsum: much, Epsom salt: 90 g}", SPARGE)) == [
        "7:19: open: a readable weight of gypsum"
    ]


@pytest.mark.parametrize(
    ("mash", "remedy"),
    [
        ("salts: {gypsum: 100 g}", "use 10 g of gypsum instead of 100 g"),
        ("salts: {Epsom salt: 60 g}", "use 6 g of Epsom salt instead of 60 g"),
        ("acid: {lactic acid 88 %: 60 ml}", "use 8 ml of lactic acid 88 % instead of 60 ml"),
    ],
)
def test_less_of_it_mends_it(mash: str, remedy: str) -> None:
    review = mashwright.review_text(recipe(mash, "sparge: {by: batch, water: 18 l}\n"))
    mended = [one.remedies for one in review.recipes[0].results if one.rule == "salts"]
    assert [[remedy.text for remedy in remedies] for remedies in mended] == [[remedy]]


def test_calcium_chloride_is_doubted_earlier(found: Found) -> None:
    grist = "recipe: T\nbatch: 20 l\ngrist: [{grain: pale ale malt, weight: 4.5 kg}]\n"
    text = grist + "mash: {water: 14 l, salts: {%s: 40 g}}\n"
    sparge = "sparge: {water: 17 l}\n"
    assert [one.split(": ")[1] for one in found("salts", text % "calcium chloride" + sparge)] == ["warning"]
    assert found("salts", text % "gypsum" + sparge) == []
