"""What a brewer means to brew, by the recipe's own words."""

import pytest

from mashwright.words.intent import Intent


@pytest.mark.parametrize(
    ("intent", "sour"),
    [
        (Intent(name="Harbour Gose"), True),
        (Intent(style="Berlin wheat"), True),
        (Intent(name="Road to Berlin"), False),
        (Intent(notes="a gose, salted as usual"), True),
        (Intent(notes="not a gose"), False),
        (Intent(name="Sour Cherry Ale"), False),
        (Intent(style="red", listed=lambda _: "Flanders red ale"), True),
        (Intent(cultures=lambda: ("lactobacilli",)), True),
        (Intent(cultures=lambda: ("house",), sours=lambda _: True), True),
        (Intent(notes="a sour taste is a fault"), False),
    ],
)
def test_a_sour_beer(intent: Intent, sour: bool) -> None:
    assert intent.sour is sour


@pytest.mark.parametrize(
    ("intent", "raw"),
    [
        (Intent(name="Raw Ale"), True),
        (Intent(name="Raw Wheat Saison"), False),
        (Intent(notes="the wort is not boiled"), True),
        (Intent(notes="must not boil over"), False),
        (Intent(cultures=lambda: ("farmhouse kveik",)), True),
        (Intent(style="gose"), True),
    ],
)
def test_a_raw_beer(intent: Intent, raw: bool) -> None:
    assert intent.raw is raw


def test_where_it_is_said_to_be_unboiled() -> None:
    assert Intent(style="raw ale", notes="unboiled").unboiled == "style"
    assert Intent(style="bitter", notes="unboiled").unboiled == "notes"
    assert Intent(style="bitter", notes="boiled").unboiled is None


def test_salted_on_purpose_wherever_it_is_said() -> None:
    for intent in (Intent(name="Harbour Gose"), Intent(style="salted wit"), Intent(notes="a gose, salted as usual")):
        assert intent.salty
    assert not Intent(notes="unsalted butter on the side").salty


@pytest.mark.parametrize(
    ("source", "name", "old"),
    [
        ("old brewing book", "", True),
        ("a notebook of 1870", "", True),
        ("a notebook of 1970", "", False),
        ("old book, printed again in 1990", "", False),
        ("a book", "Porter 1802", True),
        ("", "Porter 1802", False),
        ("an old friend", "", False),
        ("a friend, three years old", "", False),
        ("", "", False),
    ],
)
def test_an_old_recipe(source: str, name: str, old: bool) -> None:
    assert Intent(name=name, source=source).old(1900) is old


def test_other_meanings() -> None:
    assert Intent(notes="second runnings of the strong ale").parti_gyle
    assert Intent(style="lambic").turbid
    assert Intent(name="Lane Kvass").of_bread
    assert Intent(name="Lane Kvass").of_sugar
    assert Intent(style="ginger beer").of_sugar
    assert not Intent(name="Wheat Beer with Ginger").of_sugar
    assert Intent(notes="glutenfree").to_drinkers.gluten() == ("free", "notes")


@pytest.mark.parametrize(
    ("source", "years"),
    [
        ('"A brewing book, leaf 31"', (1884,)),
        ('"The 1821 edition, typed in 1990; 20 lb, 12345 and ٢٠٢٠"', (1821, 1990, 1884)),
        ("", ()),
    ],
)
def test_years_are_those_of_a_recipe_with_a_source(source: str, years: tuple[int, ...]) -> None:
    assert Intent(name="October Ale, 1884", source=source).years == years
