"""Every case of YAML's official test suite in eight places of a collection: reviewed in time, in words, and no fault.

A case on its own is a strange file; in the middle of a recipe it is a slip, and what stands before and behind it must
still be found where it stands.
"""

import re
import time
from collections.abc import Callable
from pathlib import Path
from textwrap import indent
from typing import Any

import pytest

from mashwright.reviewing.collection import Collection
from mashwright.reviewing.results import Reviewed
from mashwright.reviewing.settings import Run

SOUND = """recipe: Lane Pale
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
"""
LONGEST_S = 1.0

AS_RECIPE: dict[str, Callable[[str], str]] = {
    "before a recipe": lambda case: f"{case}\n{SOUND}",
    "behind a recipe": lambda case: f"{SOUND}{case}",
    "within its notes": lambda case: f"{SOUND}notes:\n{indent(case, '  ')}\n",
    "as its grist": lambda case: f"recipe: Lane Pale\nbatch: 20 l\ngrist:\n{indent(case, '  ')}\n",
    "within a line of its grist": lambda case: f"{SOUND}  - grain:\n{indent(case, '      ')}\n    weight: 1 kg\n",
    "with Windows' line ends": lambda case: re.sub(r"\r?\n", "\r\n", f"{SOUND}mash:\n{indent(case, '  ')}\n"),
}
AS_BREWHOUSE: dict[str, Callable[[str], str]] = {
    "as a brewhouse": lambda case: case,
    "as its settings of rules": lambda case: f"brewhouse: Saltmarsh Lane\nrules:\n{indent(case, '  ')}\n",
}


def reviewed(recipe: str, name: str) -> list[Reviewed]:
    collection = Collection(Run("2026-01-01", collection=True))
    began = time.process_time()
    recipes = list(collection.text(recipe, name))
    assert time.process_time() - began < LONGEST_S
    assert collection.faults == []
    return recipes


def assert_in_words(recipes: list[Reviewed], texts: dict[str, str]) -> None:
    for one in recipes:
        lines = re.split(r"\r\n|\r|\n", texts[one.path])
        for result in one.results:
            assert len(result.message.splitlines()) == 1, result
            assert 1 <= result.place.line <= len(lines), result
            assert result.place.column <= len(lines[result.place.line - 1]) + 2, result


@pytest.mark.parametrize("place", AS_RECIPE)
def test_a_case_in_a_recipe(place: str, yaml_suite: Any) -> None:
    assert len(yaml_suite) >= 350
    for case in yaml_suite:
        text = AS_RECIPE[place](case.text)
        recipes = reviewed(text, "recipe.yaml")
        assert [one.path for one in recipes] == ["recipe.yaml"], case
        assert_in_words(recipes, {"recipe.yaml": text})


@pytest.mark.parametrize("place", AS_BREWHOUSE)
def test_a_case_in_a_brewhouse(place: str, yaml_suite: Any, tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()  # the top of the repository: no brewhouse above it counts
    house, recipe = tmp_path / "brewhouse.yaml", tmp_path / "recipe.yaml"
    for case in yaml_suite:
        text = AS_BREWHOUSE[place](case.text)
        house.write_bytes(text.encode())
        recipes = reviewed(SOUND, str(recipe))
        assert [one.name for one in recipes][-1] == "Lane Pale", "the recipe is still reviewed"
        assert_in_words(recipes, {one.path: SOUND if one.name == "Lane Pale" else text for one in recipes})
