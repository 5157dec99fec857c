"""What a brewhouse is told of itself, and what its recipes are then spared."""

from collections.abc import Callable

import pytest

from mashwright.budgets import FAULTS, FINDINGS
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.results import Counts

Make = Callable[..., Collection]
Tell = Callable[..., list[str]]
Install = Callable[..., None]

RECIPE = "recipe: Light\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 5 kg}\n"


@pytest.fixture(autouse=True)
def _rules(install: Install, light_grist: str) -> None:
    install(ours={"light_grist": light_grist})


@pytest.mark.parametrize(
    ("of", "meant"),
    [
        ("two-row pale mlt", "did you mean two-row pale malt?"),
        ("hedge barly", "did you mean hedge barley?"),
        ("zzyzx", "describe it once under `ingredients`"),
    ],
)
def test_a_lot_of_what_nothing_knows_is_told_in_the_brewhouse(
    of: str, meant: str, collection: Make, lines: Tell
) -> None:
    house = f"lots:\n  PM-2: {{of: {of}, moisture: 4 %}}\ningredients:\n  hedge barley: {{kind: raw grain}}\n"
    made = collection({"brewhouse.yaml": house, "a.yaml": RECIPE})
    told = lines(made.paths((".",)))
    assert told == [f"brewhouse.yaml:2:14: warning: field: nothing is known of {of}; {meant}", "a.yaml: nothing"]
    assert not made.wrong_houses
    assert made.sum.counts() == Counts(reviewed=1, warnings=1)


@pytest.mark.parametrize(
    "lot", ["of: pale malt", "of: hedge barley", "of: Fuggle, alpha: 4 %", "of: hill hop, alpha: 4 %"]
)
def test_a_lot_of_what_is_known_is_told_nothing(lot: str, collection: Make, lines: Tell) -> None:
    house = f"lots: {{A: {{{lot}}}}}\ningredients: {{hedge barley: {{kind: raw grain}}}}\n"
    assert lines(collection({"brewhouse.yaml": house}).paths(("brewhouse.yaml",))) == []


def test_an_empty_brewhouse_is_not_told_of_recipes(collection: Make, lines: Tell) -> None:
    made = collection({"brewhouse.yaml": "# to come\n"})
    assert lines(made.paths(("brewhouse.yaml",))) == [
        (
            "brewhouse.yaml:1:1: error: unreadable: this file has only spaces and comments;"
            " a brewhouse starts with a line such as brewhouse: Saltmarsh Lane"
        )
    ]


def test_a_setting_without_its_unit_is_a_quantity_like_any_other(collection: Make, lines: Tell) -> None:
    made = collection({"brewhouse.yaml": "rules: {light-grist: {floor: 3}}\nefficiency: 72\n"})
    assert lines(made.paths(("brewhouse.yaml",))) == [
        'brewhouse.yaml:1:30: error: quantity: the floor "3" has no unit; write 3 kg or 3 lb',
        'brewhouse.yaml:2:13: error: quantity: the efficiency "72" has no unit; write 72 %',
    ]


def test_a_file_that_is_no_recipe_is_told_once_and_no_rule_speaks(
    install: Install, collection: Make, lines: Tell
) -> None:
    loud = '"""Loud?"""\nfrom mashwright.rule import Finding, Level\n\n'
    loud += 'def check(brew, limits):\n    yield Finding((), Level.WARNING, "loud")\n'
    install(others={"loud": loud})
    made = collection({"ci.yaml": "name: CI\non: push\n", "a.yaml": RECIPE})
    assert lines(made.paths(("ci.yaml", "a.yaml"))) == [
        "ci.yaml:1:1: error: field: this is not a recipe: it has no `recipe:`, `batch:` or `grist:`",
        "a.yaml:1:1: warning: loud: loud",
    ]


def test_no_rule_speaks_of_a_line_that_was_misread(install: Install, collection: Make, lines: Tell) -> None:
    loud = '"""Loud?"""\nfrom mashwright.rule import Finding, Level\n\n'
    loud += "def check(brew, limits):\n    for line in brew.recipe.grist:\n"
    loud += '        yield Finding((*line.path, "grain"), Level.WARNING, f"nothing is known of {line.name}")\n'
    install(others={"loud": loud})
    text = RECIPE + "  - {grain: rye 3 kg}\n"
    assert lines(collection().text(text, "a.yaml")) == [
        "a.yaml:4:13: warning: loud: nothing is known of pale ale malt",
        "a.yaml:5:13: error: field: the weight is in the name; write grain: rye and weight: 3 kg",
    ]


def test_of_very_many_unknown_lots_no_more_are_looked_up_than_are_put_into_words(
    collection: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    looked_up: list[str] = []
    monkeypatch.setattr("mashwright.ingredients.lookup.fermentable", looked_up.append)
    house = "lots:\n" + "".join(f"  L{number}: {{of: zzyzx {number}}}\n" for number in range(1900))
    made = collection({"brewhouse.yaml": house})
    (reviewed,) = made.paths(("brewhouse.yaml",))
    assert len(reviewed.results) == FINDINGS + 1
    assert len(looked_up) <= 2 * FAULTS
