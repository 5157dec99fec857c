"""Slipped units, one finding each, and sound recipes that look odd."""

from collections.abc import Callable

import pytest

import mashwright

Found = Callable[..., list[str]]

CASES = {
    "grams as kilograms": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 2900 kg}
  - {grain: caramel malt 40, weight: 300 g}
""",
        [
            (
                "4:40: error: 2900 kg of two-row pale malt is 145 kg to each litre of beer, more than any mash;"
                " did you mean 2900 g?"
            ),
        ],
    ),
    "no other unit helps": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 100 kg}
""",
        [
            "4:40: error: 100 kg of two-row pale malt is 5 kg to each litre of beer, more than any mash",
        ],
    ),
    "kilograms as grams": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 5 g}
""",
        [
            "4:40: error: 5 g of two-row pale malt does almost nothing in 20 l; did you mean 5 kg?",
        ],
    ),
    "nothing of it": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: black malt, weight: 0 g}
""",
        [
            "5:33: warning: 0 g of black malt is nothing; weigh it or leave the line out",
        ],
    ),
    "no beer at all": (
        """\
recipe: Test Brew
batch: 0 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
""",
        [
            "2:8: error: a batch of 0 l is not a beer",
        ],
    ),
    "a little black malt": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: black malt, weight: 10 g}
""",
        [],
    ),
    "millilitres": (
        """\
recipe: Test Brew
batch: 20 ml
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
""",
        [
            "2:8: error: a batch of 20 ml would have 225 kg of grist and sugars to each litre; did you mean 20 l?",
        ],
    ),
    "hectolitres": (
        """\
recipe: Test Brew
batch: 20 hl
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
""",
        [
            "2:8: error: a batch of 20 hl would have 0.0022 kg of grist and sugars to each litre; did you mean 20 l?",
        ],
    ),
    "a large batch": (
        """\
recipe: Test Brew
batch: 20 hl
grist:
  - {grain: two-row pale malt, weight: 450 kg}
""",
        [],
    ),
    "mash water in millilitres": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
mash: {water: 14 ml}
""",
        [
            "5:15: error: 14 ml of mash water is 0.0031 l/kg, too little to wet the grain; did you mean 14 l?",
        ],
    ),
    "fahrenheit as celsius": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
mash: {strike: 164 °C, rests: [{at: 152 °C, for: 60 min}]}
""",
        [
            "5:16: error: 164 °C is hotter than boiling; did you mean 164 °F (73.3 °C)?",
            "5:37: error: 152 °C is hotter than boiling; did you mean 152 °F (66.7 °C)?",
        ],
    ),
    "above the boil in any unit": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
mash: {rests: [{at: 320 °C, for: 60 min}]}
""",
        [
            "5:21: error: 320 °C is hotter than boiling",
        ],
    ),
    "celsius as fahrenheit": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
mash: {rests: [{at: 66 °F, for: 60 min}]}
""",
        [
            "5:21: warning: 66 °F is not a mash temperature; did you mean 66 °C?",
        ],
    ),
    "a cold dough in before warmer rests": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
mash: {rests: [{at: 68 °F, for: 30 min}, {at: 150 °F, for: 60 min}]}
""",
        [],
    ),
    "a boiling decoction": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
mash: {rests: [{at: 66 °C, for: 60 min}, {at: 76 °C, by: infusion, water: 7 l, of: 212 °F}]}
""",
        [],
    ),
    "fermentation": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
ferment: [{at: 19 °F, for: 10 d}, {at: 68 °C, for: 3 d}]
""",
        [
            "5:16: warning: 19 °F is below what wort or beer freezes at; did you mean 19 °C?",
            "5:40: error: 68 °C is hotter than any brewing yeast lives in; did you mean 68 °F (20 °C)?",
        ],
    ),
    "cold storage": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
ferment: [{at: 50 °F, for: 14 d}, {at: 31 °F, for: 6 weeks}]
""",
        [],
    ),
    "grain temperature": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
mash: {grain-temperature: 68 °C}
""",
        [
            "5:27: warning: 68 °C is hotter than any grain store; did you mean 68 °F (20 °C)?",
        ],
    ),
    "a minus in front": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg, gelatinises: -62 °C}
steep: {water: 3 l, at: -68 °C}
mash:
  strike: -73 °C
  grain-temperature: -18 °C
  rests: [{at: -66 °C, for: 60 min}, {at: 76 °C, by: infusion, water: 7 l, of: -95 °C}]
sparge: {at: -76 °C}
hops: [{hop: Fuggle, weight: 30 g, whirlpool: 20 min, at: -80 °C}, {hop: Fuggle, weight: 30 g, dry: 3 d, at: -14 °C}]
yeast: {kind: English ale, at: -18 °C}
ferment: [{at: -18 °C, to: -20 °C, for: 10 d}]
package: {in: bottles, at: -20 °C}
measured: [{og: 1.049, temperatures: {mash: -66 °C}}]
""",
        [
            "4:61: error: -62 °C is not a temperature at which starch gelatinises; did you mean 62 °C?",
            "5:25: error: -68 °C is ice, not water; did you mean 68 °C?",
            "7:11: error: -73 °C is not a mash temperature; did you mean 73 °C?",
            "8:22: warning: -18 °C is colder than any grain store; did you mean 18 °C?",
            "9:16: error: -66 °C is not a mash temperature; did you mean 66 °C?",
            "9:80: error: -95 °C is ice, not water; did you mean 95 °C?",
            "10:14: error: -76 °C is ice, not water; did you mean 76 °C?",
            "11:59: warning: -80 °C is below what wort or beer freezes at; did you mean 80 °C?",
            "11:110: warning: -14 °C is below what wort or beer freezes at; did you mean 14 °C?",
            "12:32: warning: -18 °C is below what wort or beer freezes at; did you mean 18 °C?",
            "13:16: warning: -18 °C is below what wort or beer freezes at; did you mean 18 °C?",
            "13:28: warning: -20 °C is below what wort or beer freezes at; did you mean 20 °C?",
            "14:28: warning: -20 °C is below what wort or beer freezes at; did you mean 20 °C?",
            "15:45: warning: -66 °C is below what wort or beer freezes at; did you mean 66 °C?",
        ],
    ),
    "as cold as beer is kept": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
mash: {grain-temperature: -8 °C, rests: [{at: 66 °C, for: 60 min}]}
hops: [{hop: Fuggle, weight: 30 g, dry: 3 d, at: -1 °C}]
ferment: [{at: 18 °C, for: 10 d}, {at: -1 °C, for: 3 d}, {at: -2 °C, for: 6 weeks}]
package: {in: keg, at: -1 °C}
""",
        [],
    ),
    "colder than a cellar, and no minus meant": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
ferment: [{at: -60 °C, for: 10 d}]
""",
        ["5:16: warning: -60 °C is below what wort or beer freezes at"],
    ),
    "sparge": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
sparge: {at: 170 °C}
""",
        [
            "5:14: error: 170 °C is hotter than boiling; did you mean 170 °F (76.7 °C)?",
        ],
    ),
    "hours for minutes": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
mash: {rests: [{at: 66 °C, for: 60 h}]}
boil: {for: 60 h}
""",
        [
            "5:33: warning: a rest of 60 h is longer than a day; did you mean 60 min?",
            "6:13: warning: a boil of 60 h is longer than a day; did you mean 60 min?",
        ],
    ),
    "a sour mash of days": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
mash: {rests: [{at: 67 °C, for: 60 min}, {at: 45 °C, for: 2 d}]}
""",
        [],
    ),
    "minutes for days": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
ferment: [{at: 19 °C, for: 10 min}]
hops: [{hop: Fuggle, weight: 20 g, dry: 4 min}]
""",
        [
            "5:28: warning: a fermentation step of 10 min is too short to do anything; did you mean 10 d?",
            "6:41: warning: a dry hopping of 4 min is too short to do anything; did you mean 4 d?",
        ],
    ),
    "a zero too many": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 1.0048}
""",
        [
            "5:15: warning: a wort of 1.0048 is hardly stronger than water; did you mean 1.048?",
        ],
    ),
    "points as plato": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.5 kg}
targets: {og: 50 °P}
""",
        [
            "5:15: error: a wort of 50 °P is stronger than any wort; did you mean 1.050?",
        ],
    ),
    "colour as enzymes": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: caramel malt 60, weight: 400 g, diastatic-power: 60 °L}
""",
        [
            (
                "5:62: warning: caramel malt 60 has no enzymes, so 60 °L cannot be its diastatic power; is 60"
                " °Lovibond its colour?"
            ),
        ],
    ),
    "enzymes as colour": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg, colour: 125 °L}
""",
        [
            (
                "4:54: warning: 125 °L is the colour of a dark malt, not of two-row pale malt; is 125 °Lintner"
                " its diastatic power?"
            ),
        ],
    ),
    "dark base malt": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: dark Munich malt, weight: 4 kg, colour: 25 °Lovibond}
""",
        [],
    ),
    "shares of 110": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, share: 80 %}
  - {grain: wheat malt, share: 30 %}
targets: {og: 1.050}
""",
        [
            "3:1: warning: the shares of the grist add up to 110 %, not 100 %",
        ],
    ),
    "shares of 98": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, share: 80 %}
  - {grain: wheat malt, share: 18 %}
targets: {og: 1.050}
""",
        [],
    ),
    "unreadable values": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: many}
mash: {rests: [{at: hot, for: long}]}
""",
        ["4:40: open: a readable weight of two-row pale malt"],
    ),
    "more enzymes than any malt has": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.5 kg, diastatic-power: 300 °Lintner}
""",
        [
            (
                "4:60: error: 300 °Lintner is more than any malt has, at most 240 °Lintner; did you mean 300 °WK"
                " (about 90 °Lintner)?"
            ),
        ],
    ),
    "more than any malt has in either unit": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.5 kg, diastatic-power: 99999 °Lintner}
""",
        [
            "4:60: error: 99999 °Lintner is more than any malt has, at most 240 °Lintner",
        ],
    ),
    "too much of it in WK": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.5 kg, diastatic-power: 900 °WK}
""",
        [
            "4:60: error: 900 °WK is more than any malt has, at most 240 °Lintner",
        ],
    ),
    "shares without a gravity": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, share: 90 %}
  - {grain: wheat malt, share: 10 %}
""",
        [
            ("3:1: warning: shares need a target OG to become weights; write targets: {og: ...}, or weights instead"),
        ],
    ),
    "shares beside weights": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4 kg}
  - {grain: wheat malt, share: 10 %}
targets: {og: 1.050}
""",
        [
            ("3:1: warning: some lines of the grist have a weight and others a share; use one kind throughout"),
        ],
    ),
    "ten times the mash water": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 5 kg}
mash: {water: 140 l}
""",
        [
            "5:15: warning: 140 l of mash water is 28 l/kg, far too thin for a mash; did you mean 14 l?",
        ],
    ),
    "a tenth of the mash water": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 6 kg}
mash: {water: 3 l}
""",
        [
            "5:15: warning: 3 l of mash water is 0.5 l/kg, too little to wet the grain; did you mean 30 l?",
        ],
    ),
    "no mash water": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 6 kg}
mash: {water: 0 l}
""",
        [
            "5:15: error: 0 l of mash water is not a mash",
        ],
    ),
    "all the water counts": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 5 kg}
mash:
  water: 4 l
  rests: [{at: 50 °C, for: 20 min}, {at: 66 °C, for: 60 min, by: infusion, water: 8 l, of: 98 °C}]
""",
        [],
    ),
    "a thickness that wets nothing": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 5 kg}
mash: {thickness: 0.3 l/kg}
""",
        [
            "5:19: error: a mash of 0.3 l/kg is too little to wet the grain; did you mean 3 l/kg?",
        ],
    ),
    "a thickness that is soup": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 5 kg}
mash: {thickness: 31 l/kg}
""",
        [
            "5:19: error: a mash of 31 l/kg is far too thin for a mash; did you mean 3.1 l/kg?",
        ],
    ),
    "a stiff mash is another question": (
        """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 5 kg}
mash: {thickness: 1.25 l/kg}
""",
        [],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_unit_slip(found: Found, case: str) -> None:
    recipe, expected = CASES[case]
    assert found("unit_slip", recipe) == expected


def coloured(name: str, colour: str) -> str:
    return f"recipe: Tried\nbatch: 20 l\ngrist:\n  - {{grain: {name}, weight: 300 g, colour: {colour}}}\n"


@pytest.mark.parametrize(
    ("name", "colour", "message"),
    [
        ("caramel malt 40", "400 EBC", "much darker than caramel malt 40 is, 91.5-118 EBC"),
        (
            "caramel malt 40",
            "4 °Lovibond",
            "much paler than caramel malt 40 is, 35-45 °Lovibond; did you mean 40 °Lovibond?",
        ),
        ("roasted barley", "50 EBC", "much paler than roasted barley is, 1191-1509 EBC"),
        (
            "pale ale malt",
            "26 °Lovibond",
            "much darker than pale ale malt is, 2-3 °Lovibond; did you mean 2.6 °Lovibond?",
        ),
        (
            "chocolate malt",
            "35 °Lovibond",
            "much paler than chocolate malt is, 300-490 °Lovibond; did you mean 350 °Lovibond?",
        ),
    ],
)
def test_a_colour_that_no_malt_of_the_name_has(found: Found, name: str, colour: str, message: str) -> None:
    (told,) = found("unit_slip", coloured(name, colour))
    assert told == f"4:{38 + len(name)}: warning: {colour} is {message}"


@pytest.mark.parametrize(
    ("name", "colour"),
    [
        ("caramel malt 40", "40 EBC"),
        ("caramel malt 120", "120 EBC"),
        ("crystal malt", "10 °Lovibond"),
        ("crystal malt", "400 EBC"),
        ("light Munich malt", "20 °Lovibond"),
        ("wheat malt", "9 °Lovibond"),
        ("roasted barley", "300 °Lovibond"),
        ("chocolate malt", "200 °Lovibond"),
        ("flaked oats", "20 °Lovibond"),
        ("pale ale malt", "0.3 °Lovibond"),
        ("house malt, kind: base malt", "8 °Lovibond"),
    ],
)
def test_a_colour_that_a_malt_may_have(found: Found, name: str, colour: str) -> None:
    assert found("unit_slip", coloured(name, colour)) == []


def test_another_spelling_of_colour_is_pointed_at(found: Found) -> None:
    text = coloured("pale ale malt", "26 °Lovibond").replace("colour", "color")
    assert found("unit_slip", text)[0].startswith("4:50: warning: 26 °Lovibond is much darker")


def test_the_malts_own_colour_mends_it() -> None:
    text = coloured("caramel malt 40", "400 EBC").replace("grist:", "grist:\n  - {grain: pale malt, weight: 4 kg}")
    findings = mashwright.review_text(text).recipes[0].results
    assert [one.remedies[0].text[:31] for one in findings if one.rule == "unit-slip"] == [
        "use 105 EBC instead of 400 EBC"
    ]


@pytest.mark.parametrize(
    ("batch", "water", "said"), [("5 imp gal", "1 imp qt", "imp qt/lb"), ("5 gal", "1 qt", "qt/lb")]
)
def test_thickness_in_the_recipes_own_unit(found: Found, batch: str, water: str, said: str) -> None:
    text = (
        f"recipe: Tried\nbatch: {batch}\ngrist: [{{grain: pale ale malt, weight: 10 lb}}]\nmash: {{water: {water}}}\n"
    )
    (told,) = found("unit_slip", text)
    assert f" {said}, too little to wet the grain" in told


def test_enzymes_that_are_the_number_of_the_colour(found: Found) -> None:
    """The line itself is pointed at, and no malt is offered in its own place."""
    text = "recipe: T\nbatch: 20 l\ngrist:\n  - {grain: two-row pale malt, weight: 4 kg, diastatic-power: %s}\n"
    assert found("unit_slip", text % "2 °Lintner") == [
        "4:63: warning: 2 °Lintner is far less than any two-row pale malt has; did you mean its colour, 2 °Lovibond?"
    ]
    assert found("unit_slip", text % "60 °Lintner") == []


def test_a_colour_in_the_other_scale_is_twice_as_dark(found: Found) -> None:
    text = "recipe: T\nbatch: 20 l\ngrist:\n  - {grain: chocolate malt, weight: 200 g, colour: %s}\n"
    (told,) = found("unit_slip", text % "900 °Lovibond")
    assert told.endswith("did you mean 900 EBC?")
    assert found("unit_slip", text % "900 EBC") == []
    assert found("unit_slip", text % "450 °Lovibond") == []


def test_mash_water_below_freezing_is_told_whatever_the_other_rests_are(found: Found) -> None:
    text = "recipe: T\nbatch: 20 l\ngrist: [{grain: pale malt, weight: 4 kg}]\nmash: {rests: [{at: %s}, {at: 66 °C}]}\n"
    assert found("unit_slip", text % "-5 °C") == ["4:21: error: -5 °C is not a mash temperature"]
    assert found("unit_slip", text % "66 °C, to: -5 °C") == ["4:32: error: -5 °C is not a mash temperature"]
    for cold in ("0 °C", "5 °C", "20 °C"):
        assert found("unit_slip", text % cold) == []
