"""The words of the format and of the tables, each in one place."""

import json
from enum import StrEnum
from pathlib import Path
from typing import Any

import pytest

import mashwright_schema
from mashwright.ingredients import fermentables, tables, yeasts
from mashwright.ingredients.kinds import (
    Cereal,
    Group,
    HopForm,
    IngredientKind,
    NeedsMash,
    Place,
    RestBy,
    SpargeBy,
    YeastSort,
)

SCHEMA = json.loads(Path(mashwright_schema.__file__).with_name("recipe.schema.json").read_text("utf-8"))


def choices(*steps: str) -> set[str]:
    here: Any = SCHEMA
    for step in steps:
        here = here[step]
    return set(here["enum"])


@pytest.mark.parametrize(
    ("words", "steps"),
    [
        (IngredientKind, ("$defs", "grist-line", "properties", "kind")),
        (Place, ("$defs", "grist-line", "properties", "add")),
        (RestBy, ("$defs", "rest", "properties", "by")),
        (SpargeBy, ("$defs", "sparge-fields", "properties", "by")),
    ],
)
def test_the_format_takes_these_words(words: type[StrEnum], steps: tuple[str, ...]) -> None:
    assert set(words) == choices(*steps)


def test_hops_are_of_these_forms_in_one_number_or_the_other() -> None:
    assert {form.removesuffix("s") for form in choices("$defs", "hop", "properties", "form")} == set(HopForm)


def test_each_line_is_named_by_one_of_these_fields() -> None:
    assert set(Group) <= set(SCHEMA["$defs"]["grist-line"]["properties"])


def test_the_tables_hold_these_words() -> None:
    listed = tuple(fermentables.everything())
    assert {one.kind for one in listed} <= set(IngredientKind)
    assert {one.needs_mash for one in listed} <= set(NeedsMash)
    grown = {one.cereal for one in listed}
    assert set(Cereal) - grown <= {Cereal.UNKNOWN}
    assert {yeasts.entry(name).sort for name in tables.blocks("yeasts")} == set(YeastSort)
