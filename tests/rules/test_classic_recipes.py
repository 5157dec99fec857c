"""Classic recipes as a knowing brewer types them: nothing above a note is said of any."""

from pathlib import Path

import pytest

import mashwright

CLASSICS = (Path(__file__).parent / "classic_recipes.txt").read_text(encoding="utf-8").split("---\n")
"""Recipes, each between two lines of three hyphens."""


@pytest.mark.parametrize("text", CLASSICS, ids=lambda text: text.partition("\n")[0])
def test_a_classic_recipe_is_sound(text: str) -> None:
    (reviewed,) = mashwright.review_text(text, "classic.yaml").recipes
    told = [f"{one.rule}: {one.message}" for one in reviewed.results if one.level.word != "note"]
    assert told == []
    assert reviewed.unjudged == ()


def test_there_are_as_many_as_were_typed() -> None:
    assert len(CLASSICS) == 36
