"""The checker of a run's first document says what the quick one says, or that it is not sure."""

import importlib
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from mashwright.reading.at_first import UnsureError, is_valid
from mashwright.reading.document import read_document
from mashwright.reading.nodes import data
from mashwright_schema import load

SAMPLES = sorted((Path(__file__).parents[2] / "sample-recipes").rglob("*.yaml"))
ODD = (5, 1.5, True, None, "", "x", "5 kg of it", "2027-02-30", "2027-02-28", "a\nb", [], {}, ["x"], {"x": 1}, [{}])


def quick(schema: str) -> Any:
    return importlib.import_module("jsonschema_rs").Draft202012Validator(load(schema))


def schema_of(path: Path) -> str:
    return "brewhouse" if path.name == "brewhouse.yaml" else "recipe"


def changed(value: Any) -> Iterator[Any]:
    """A document with something else in one place, or without it, or with something more."""
    yield from ODD
    if isinstance(value, dict):
        yield {**value, "unknown": 1}
        for key, inner in value.items():
            yield {one: other for one, other in value.items() if one != key}
            yield from ({**value, key: other} for other in changed(inner))
    elif isinstance(value, list):
        for index, inner in enumerate(value[:2]):
            yield from ([*value[:index], other, *value[index + 1 :]] for other in changed(inner))


def said(value: Any, schema: str) -> bool | None:
    try:
        return is_valid(value, load(schema), load(schema))
    except UnsureError:
        return None


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_it_says_the_same_of_samples_and_of_what_is_wrong_in_them(path: Path) -> None:
    document = read_document(path.read_text(encoding="utf-8"))
    assert document.root is not None
    values, schema = data(document.root), schema_of(path)
    checker = quick(schema)
    assert said(values, schema) is checker.is_valid(values)
    answers = [(said(one, schema), checker.is_valid(one)) for one in changed(values)]
    assert False in {one for one, _ in answers}
    assert [one for one, _ in answers].count(None) < len(answers) / 20
    assert all(one is None or one is other for one, other in answers)


def test_most_samples_are_surely_valid() -> None:
    documents = [(read_document(path.read_text(encoding="utf-8")).root, schema_of(path)) for path in SAMPLES]
    sure = [said(data(root), schema) for root, schema in documents if root is not None]
    assert None not in sure
    assert sure.count(True) > len(SAMPLES) * 0.8


def test_what_is_not_known_is_left_to_the_other() -> None:
    for schema in ({"oneOf": []}, {"type": "integer"}, {"const": 1}, {"enum": ["a", 1]}):
        with pytest.raises(UnsureError):
            is_valid(1, schema, schema)


def test_one_sound_recipe_is_checked_without_the_quick_checker(tmp_path: Path) -> None:
    code = (
        "import sys; from mashwright.cli.command import run; run(sys.argv[1:]); print('jsonschema_rs' in sys.modules)"
    )
    text = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4 kg}\n"
    for number, loaded in ((1, "False"), (2, "True")):
        (tmp_path / f"{number}.yaml").write_text(re.sub("Bitter", f"Bitter {number}", text))
        call = [sys.executable, "-c", code, "review", "--quiet", str(tmp_path)]
        done = subprocess.run(call, capture_output=True, text=True, check=True, timeout=60)
        assert done.stdout.splitlines()[-1] == loaded
