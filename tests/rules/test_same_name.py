"""Two recipes of one name."""

import time

import pytest

import mashwright
from mashwright_rules.collection import same_name


def recipe(name: str) -> str:
    return f"recipe: {name}\nbatch: 20 l\ngrist:\n  - {{grain: pale ale malt, weight: 4 kg}}\n"


def told(name: str, where: str, first: str = "first") -> str:
    message = f"{name} is the name of {first}.yaml too; rename one of the two, or delete it"
    return f"{where}.yaml:1:9: warning: {message}"


@pytest.mark.parametrize(
    "other",
    ["Harbour Bräu", "harbour bräu", "HARBOUR-BRÄU", "Harbour  Bra\u0308u", "harbourbrau", "'Harbour Brau!'"],
)
def test_capitals_blanks_hyphens_and_accents_make_no_other_name(other: str) -> None:
    found = mashwright.try_rule(same_name, recipe("Harbour Bräu"), recipe(other))
    assert found == [told(other.strip("'"), "second")]


@pytest.mark.parametrize("other", ["Harbour Bräu 2", "Harbour", "Bräu Harbour", "'?'"])
def test_another_name_is_another_recipe(other: str) -> None:
    assert mashwright.try_rule(same_name, recipe("Harbour Bräu"), recipe(other)) == []


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Strike -1.5", "Strike +1.5"),
        ("Trial 01-strike--1.5", "Trial 01-strike-+1.5"),
        ("Strike -1.5", "Strike 1.5"),
        ("Strike 1.5", "Strike 15"),
        ("Pale 1/2", "Pale 12"),
        ("Pale ½", "Pale 12"),
    ],
)
def test_a_number_keeps_its_sign_and_its_point(one: str, other: str) -> None:
    assert mashwright.try_rule(same_name, recipe(one), recipe(other)) == []
    assert mashwright.try_rule(same_name, recipe(other), recipe(one)) == []


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Batch-2", "Batch 2"),
        ("Batch - 2", "Batch 2"),
        ("Batch no. 2", "Batch No 2"),
        ("Strike -1,5", "Strike −1.5"),
        ("Pale ½", "Pale 1/2"),
        ("Pale 2.", "Pale 2"),
        ("1884-10 Ale", "1884 10 Ale"),
    ],
)
def test_other_marks_beside_a_number_make_no_other_name(one: str, other: str) -> None:
    assert mashwright.try_rule(same_name, recipe(one), recipe(other)) == [told(other, "second")]


def test_names_of_nothing_but_marks_are_none() -> None:
    assert mashwright.try_rule(same_name, recipe("'?'"), recipe("'!!!'")) == []


def test_each_later_file_points_to_the_first() -> None:
    found = mashwright.try_rule(same_name, recipe("A"), recipe("a"), recipe("A."))
    assert found == [told("a", "second"), told("A.", "third")]


def test_one_recipe_alone_has_its_name_for_itself() -> None:
    assert mashwright.try_rule(same_name, recipe("A")) == []


def seconds(number: int) -> tuple[float, int]:
    gathered = [(f"{index:06}.yaml", (f"name{index % (number - 10)}", "Name")) for index in range(number)]
    began = time.process_time()
    found = list(same_name.check_collection(gathered, same_name.Limits()))
    return time.process_time() - began, len(found)


def test_ten_thousand_recipes() -> None:
    took_s, found = seconds(10_000)
    assert found == 10
    assert took_s < 2
