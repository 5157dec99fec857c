from collections.abc import Callable

import mashwright

Found = Callable[..., list[str]]

HOUSE = "brewhouse: Here\nwater: {calcium: 20 mg/l, magnesium: 150 mg/l, alkalinity: 110 mg/l}\n"


def water(more: str = "", **ions: float) -> str:
    """A recipe with a balanced water on line 7."""
    usual = {"calcium": 60, "magnesium": 8, "sodium": 20, "chloride": 40, "sulfate": 55, "alkalinity": 110}
    stated = ", ".join(f"{ion}: {mg:g} mg/l" for ion, mg in {**usual, **ions}.items() if mg >= 0)
    head = "recipe: Tried\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 5 kg}\nmash:\n  water: 15 l\n"
    return f"{head}water: {{{stated}}}\n{more}"


def test_an_ordinary_water(found: Found) -> None:
    assert found("water_ions", water()) == []


def test_nothing_said_of_water(found: Found) -> None:
    text = water().replace("water: {", "notes: {")
    assert found("water_ions", text) == []
    assert found("water_ions", text, HOUSE) == []


def test_the_brewhouse_is_asked_where_salts_are_added(found: Found) -> None:
    text = water().replace("  water: 15 l\nwater: {", "  water: 15 l\n  salts: {gypsum: 1 g}\nnotes: {")
    assert found("water_ions", text, HOUSE) == [
        (
            "7:19: error: the beer's water contains 150 mg/l of magnesium; above 125 mg/l it acts as a laxative;"
            " dilute it with distilled water"
        ),
        (
            "7:19: note: the mash water contains 35.5 mg/l of calcium; at least 50 mg/l is usual, though pale"
            " lagers are brewed with less"
        ),
    ]


def test_calcium(found: Found) -> None:
    assert found("water_ions", water(calcium=49, sodium=-1)) == [
        (
            "7:18: note: the mash water contains 49 mg/l of calcium; at least 50 mg/l is usual, though pale lagers"
            " are brewed with less"
        )
    ]
    assert found("water_ions", water(calcium=260, sodium=-1)) == [
        "7:18: note: the mash water contains 260 mg/l of calcium; 250 mg/l is more than mash and yeast can use"
    ]
    assert found("water_ions", water(calcium=50, sodium=-1)) == []


def test_salts_make_up_for_soft_water(found: Found) -> None:
    text = water(calcium=10, sodium=-1).replace("  water: 15 l\n", "  water: 15 l\n  salts: {gypsum: 4 g}\n")
    assert found("water_ions", text) == []


def test_magnesium(found: Found) -> None:
    assert found("water_ions", water(magnesium=31, sodium=-1)) == [
        "7:38: note: the beer's water contains 31 mg/l of magnesium; above 30 mg/l it begins to taste sour and bitter"
    ]
    assert found("water_ions", water(magnesium=125, sodium=-1))[0].startswith("7:38: note: ")
    assert found("water_ions", water(magnesium=126, sodium=-1)) == [
        (
            "7:38: error: the beer's water contains 126 mg/l of magnesium; above 125 mg/l it acts as a laxative;"
            " dilute it with distilled water"
        )
    ]
    assert found("water_ions", water(magnesium=126, sodium=-1).replace("126 mg/l", "118-130 mg/l")) == [
        (
            "7:38: warning: the beer's water contains 124 mg/l of magnesium; above 125 mg/l it acts as a laxative;"
            " dilute it with distilled water"
        )
    ]


def test_distilled_water_mends_it() -> None:
    review = mashwright.review_text(water(magnesium=140, calcium=80, sodium=-1))
    remedies = [one.remedies for one in review.recipes[0].results if one.level.word == "error"]
    assert [[remedy.text for remedy in of_one] for of_one in remedies] == [
        ["use distilled water for 15 % of the water"]
    ]


def test_tastes(found: Found) -> None:
    assert found("water_ions", water(sodium=160, chloride=250, sulfate=-1)) == [
        "7:54: note: the beer's water contains 160 mg/l of sodium; above 150 mg/l it tastes salty"
    ]
    assert found("water_ions", water(chloride=260, sodium=-1)) == [
        "7:56: note: the beer's water contains 260 mg/l of chloride; above 250 mg/l it tastes salty"
    ]
    assert found("water_ions", water(sulfate=360, sodium=-1)) == [
        "7:74: note: the beer's water contains 360 mg/l of sulfate; above 350 mg/l it tastes harsh and of sulfur"
    ]


def test_the_other_spelling_has_its_place(found: Found) -> None:
    text = water(sulfate=360, sodium=-1).replace("sulfate", "sulphate")
    assert found("water_ions", text) == [
        "7:75: note: the beer's water contains 360 mg/l of sulfate; above 350 mg/l it tastes harsh and of sulfur"
    ]


def test_a_gose_is_salted(found: Found) -> None:
    salted = water(calcium=60).replace("  water: 15 l\n", "  water: 15 l\n  salts: {table salt: 22 g}\n")
    assert found("water_ions", salted) != []
    for more in ("style: Gose", "notes: a gose, salted as usual", "notes: a salty beer"):
        assert found("water_ions", salted.replace("batch", f"{more}\nbatch")) == []
    assert found("water_ions", salted.replace("batch", "notes: not a gose\nbatch")) != []


def test_an_analysis_that_does_not_balance(found: Found) -> None:
    assert found("water_ions", water(alkalinity=200)) == [
        "7:1: note: the water's negative ions are 1.7 mEq/l more than the others, so its analysis has a slip"
    ]
    assert found("water_ions", water(sodium=60, sulfate=39)) == [
        "7:1: note: the water's positive ions are 2.1 mEq/l more than the others, so its analysis has a slip"
    ]
    assert found("water_ions", water(calcium=110, sulfate=55)) == [
        (
            "7:1: note: the water's positive ions are 2.5 mEq/l more than the others, so its analysis has a slip;"
            " is its sulfate given as sulfur, a third of it?"
        )
    ]


def test_an_analysis_with_holes_is_not_weighed_up(found: Found) -> None:
    assert found("water_ions", water(alkalinity=300, sodium=-1)) == []


def test_what_no_water_holds(found: Found) -> None:
    assert found("water_ions", water(sulfate=5500)) == [
        "7:91: warning: no brewing water contains 5500 mg/l of sulfate; is its unit right?"
    ]


def test_salts_without_a_volume_leave_it_open(found: Found) -> None:
    text = water(calcium=10, sodium=-1).replace("  water: 15 l\n", "  salts: {gypsum: 4 g}\n")
    assert found("water_ions", text) == []


def test_heaps_of_salt_are_another_question(found: Found) -> None:
    text = water().replace("  water: 15 l\n", "  water: 15 l\n  salts: {calcium chloride: 200 g}\n")
    assert found("water_ions", text) == []


def salted(salts: str, **ions: float) -> str:
    return water(**ions).replace("  water: 15 l\n", f"  water: 15 l\n  salts: {{{salts}}}\nsparge: {{water: 15 l}}\n")


def test_what_the_water_does_not_state_counts_as_nothing(found: Found) -> None:
    assert found("water_ions", salted("table salt: 15 g", sodium=-1, chloride=0)) == [
        "7:23: note: the beer's water contains 197 mg/l of sodium; above 150 mg/l it tastes salty",
        "7:23: note: the beer's water contains 303 mg/l of chloride; above 250 mg/l it tastes salty",
    ]
    unsaid = salted("table salt: 15 g").replace("\nwater: {", "\nnotes: {")
    assert found("water_ions", unsaid) == [
        "7:23: note: the beer's water contains 197 mg/l of sodium; above 150 mg/l it tastes salty",
        "7:23: note: the beer's water contains 303 mg/l of chloride; above 250 mg/l it tastes salty",
    ]
    assert found("water_ions", salted("table salt: 3 g", sodium=-1)) == []
    unreadable = salted("table salt: 15 g", sodium=-1).replace("40 mg/l", "some")
    assert found("water_ions", unreadable) == ["9:56: open: a readable water"]


def test_so_much_that_nobody_brews_with_it(found: Found) -> None:
    assert found("water_ions", salted("table salt: 40 g")) == [
        (
            "7:23: warning: the beer's water contains 545 mg/l of sodium; above 150 mg/l it tastes salty, and nobody"
            " brews with that much"
        ),
        "7:23: note: the beer's water contains 849 mg/l of chloride; above 250 mg/l it tastes salty",
    ]
    burton = salted("gypsum: 40 g", sulfate=55)
    assert all(": note: " in message for message in found("water_ions", burton))
    gose = salted("table salt: 40 g").replace("recipe: Tried", "recipe: Gose")
    assert found("water_ions", gose) == []


def test_less_of_the_salt_mends_it() -> None:
    (finding,) = (
        one for one in mashwright.review_text(salted("table salt: 40 g")).recipes[0].results if one.level.value > 1
    )
    assert [remedy.text for remedy in finding.remedies] == ["use 9 g of table salt instead of 40 g"]
