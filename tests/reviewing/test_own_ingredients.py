"""What is wrong with a brewhouse's own ingredients is told in the brewhouse, once, and not in its recipes."""

from collections.abc import Callable

import pytest

from mashwright.budgets import BREWHOUSE_LINES
from mashwright.reviewing.collection import Collection

Make = Callable[..., Collection]
Tell = Callable[..., list[str]]

RECIPE = """\
recipe: Light
batch: 20 l
grist:
  - {grain: our pale, weight: 4 kg}
hops:
  - {hop: bank hops, weight: 30 g, boil: 60 min}
yeast: {kind: lane yeast}
"""


@pytest.mark.parametrize(
    ("thing", "told"),
    [
        ("{kind: English ale, attenuation: 78 %, also: [a, b]}", ""),
        ("{kind: hop, alpha: 4-6 %, also: a}", ""),
        ("{kind: Crystal, alpha: 4-6 %}", ""),
        ("{kind: koji, temperature: 30-60 °C}", ""),
        ("{kind: raw grain, cereal: rye}", ""),
        ("{strain: saison}", ""),
        ("pale ale malt", ""),
        ("saisson", "2:10: error: field: nothing is known of saisson; did you mean saison?"),
        ("{kind: yeast}", "2:17: error: field: yeast says too little; write which, such as kind: English ale"),
        ("{kind: Enzymes}", "2:17: error: field: Enzymes says too little; write which, such as kind: glucoamylase"),
        (
            "{kind: Crystal}",
            (
                "2:17: error: field: Crystal is the name of a malt or sugar and of a hop; write a kind that means"
                " one of them only"
            ),
        ),
        (
            "{kind: heavy malt}",
            (
                "2:17: error: field: nothing is known of heavy malt; write a kind, such as base malt, sugar or hop,"
                " or the name of a malt, hop, yeast or enzyme"
            ),
        ),
        ("{kind: saisson}", "2:17: error: field: nothing is known of saisson; did you mean saison?"),
        ("{kind: caramal malt}", "2:17: error: field: nothing is known of caramal malt; did you mean caramel malt?"),
        (
            "{kind: thing}",
            (
                "2:17: error: field: nothing is known of thing; write a kind, such as base malt, sugar or hop, or the"
                " name of a malt, hop, yeast or enzyme"
            ),
        ),
        (
            "{kind: Fuggle, extract: 80 %}",
            "2:34: error: field: `extract` is said of malts and sugars, and thing is a hop; leave it out",
        ),
        (
            "{kind: pale ale malt, temperature: 18 °C}",
            (
                "2:45: error: field: `temperature` is said of yeasts and enzymes, and thing is a malt or sugar; leave"
                " it out"
            ),
        ),
        ("{kind: hop, alpha: 52 %}", "2:29: error: field: 52 % alpha acid is more than any hop has, about 2 to 20 %"),
        (
            "{kind: base malt, diastatic-power: 1120 °Lintner}",
            "2:45: error: field: 1120 °Lintner of diastatic power is more than any malt has, at most 240 °Lintner",
        ),
        ("{kind: saison, temperature: 200 °C}", "2:38: error: field: no yeast ferments at 200 °C"),
        ("{kind: koji, temperature: 300 °C}", "2:36: error: field: no enzyme works at 300 °C"),
        (
            "{kind: saison, attenuation: 78}",
            '2:38: error: quantity: the attenuation "78" has no unit; write 78 %',
        ),
        ("{kind: saison, also: [thing, Thing, things]}", ""),
        (
            "{kind: saison, vendor: 3}",
            (
                "2:25: error: field: `vendor` is not a field here; the others are `also`, `cereal`, `extract`,"
                " `colour`, `moisture`, `diastatic-power`, `gelatinises`, `fermentable`, `alpha`, `attenuation`,"
                " `tolerance`, `flocculation`, `diastatic` and `temperature`"
            ),
        ),
    ],
)
def test_one_ingredient(thing: str, told: str, collection: Make, lines: Tell) -> None:
    made = collection({"brewhouse.yaml": f"ingredients:\n  thing: {thing}\n"})
    assert lines(made.paths(("brewhouse.yaml",))) == ([f"brewhouse.yaml:{told}"] if told else [])


def test_a_name_of_two_things(collection: Make, lines: Tell) -> None:
    house = "ingredients:\n  Lane yeast: {kind: saison, also: [no. 3]}\n  kit: {kind: kveik, also: [x, No 3]}\n"
    assert lines(collection({"brewhouse.yaml": house}).paths(("brewhouse.yaml",))) == [
        "brewhouse.yaml:3:32: error: field: No 3 is a name of Lane yeast too; keep it in one of the two"
    ]


def test_a_malt_and_a_yeast_may_have_one_name(collection: Make, lines: Tell) -> None:
    house = "ingredients:\n  lane: {kind: saison}\n  pale: {kind: base malt, also: lane}\n"
    assert lines(collection({"brewhouse.yaml": house}).paths(("brewhouse.yaml",))) == []


GOOD = """\
ingredients:
  our pale: {kind: pale ale malt}
  bank hop: {kind: hop, alpha: 5 %}
  lane yeast: {kind: English ale}
"""


def test_the_recipes_that_use_them_are_told_nothing(collection: Make, lines: Tell) -> None:
    made = collection({"brewhouse.yaml": GOOD, "a.yaml": RECIPE, "b.yaml": RECIPE.replace("Light", "Dark")})
    unknown = [line for line in lines(made.paths((".",))) if "nothing is known" in line]
    assert unknown == []


def test_without_them_they_are_asked_about_in_each_recipe(collection: Make, lines: Tell) -> None:
    told = lines(collection({"brewhouse.yaml": "brewhouse: Shed\n", "a.yaml": RECIPE}).paths((".",)))
    assert [line.split(": ")[2] for line in told if "nothing is known" in line] == [
        "unknown-ingredient",
        "hop-alpha",
        "unknown-ingredient",
    ]


def test_a_fault_is_told_once_for_many_recipes(collection: Make, lines: Tell) -> None:
    bad = GOOD.replace("alpha: 5 %", "alpha: 52 %")
    made = collection({"brewhouse.yaml": bad, **{f"{n}.yaml": RECIPE.replace("Light", f"No {n}") for n in range(5)}})
    told = [line for line in lines(made.paths((".",))) if "52 %" in line]
    assert told == ["brewhouse.yaml:3:32: error: field: 52 % alpha acid is more than any hop has, about 2 to 20 %"]
    assert made.wrong_houses


def test_as_many_as_a_brewhouse_may_have(collection: Make, lines: Tell) -> None:
    things = "".join(f"  thing {n}: {{kind: base malt, also: [a{n}, b{n}]}}\n" for n in range(BREWHOUSE_LINES))
    assert lines(collection({"brewhouse.yaml": f"ingredients:\n{things}"}).paths(("brewhouse.yaml",))) == []
