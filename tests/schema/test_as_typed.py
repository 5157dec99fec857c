"""The schemas for editors: written by the program, in step with the short forms, and as strict as they can be."""

import json
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest

import mashwright_schema
from mashwright.finding import Path as Place
from mashwright.reading.as_typed import as_typed
from mashwright.reading.document import read_document
from mashwright.reading.nodes import data
from mashwright.reading.schema import understood
from mashwright.reading.short_forms import EXAMPLES

ROOT = Path(__file__).parents[2]
FOLDER = Path(mashwright_schema.__file__).parent
GRIST = "grist:\n  - {grain: rye, weight: 3 kg}\n"


@pytest.mark.parametrize("name", ["recipe", "brewhouse"])
def test_the_file_is_what_the_tables_make(name: str) -> None:
    written = FOLDER / f"{name}-as-typed.schema.json"
    made = json.dumps(as_typed(name), ensure_ascii=False, indent=1) + "\n"
    if os.environ.get("RENEW_GOLDEN"):
        written.write_text(made, encoding="utf-8")
    assert written.read_text(encoding="utf-8") == made
    jsonschema.Draft202012Validator.check_schema(json.loads(made))


def typed(place: Place, text: str) -> str:
    """A document in which a short form stands at a place."""
    value: object = text
    for step in reversed(place):
        value = [value] if isinstance(step, int) else {step: value}
    return json.dumps(value, ensure_ascii=False)[1:-1]


@pytest.mark.parametrize(
    ("name", "place", "text"),
    [(name, place, text) for name in EXAMPLES for place, texts in EXAMPLES[name].items() for text in texts],
)
def test_each_example_of_a_short_form_is_read_and_valid(name: str, place: Place, text: str) -> None:
    head = '{"brewhouse": "A", ' if name == "brewhouse" else '{"recipe": "A", "batch": "20 l", '
    grist = (
        ""
        if name == "brewhouse" or place[0] in ("grist", "grain-bill")
        else '"grist": [{"grain": "rye", "weight": "3 kg"}], '
    )
    document = read_document(f"{head}{grist}{typed(place, text)}}}", name)
    assert document.root is not None
    assert list(jsonschema.Draft202012Validator(as_typed(name)).iter_errors(data(document.root))) == []
    assert understood(document, name)[1] == []


@pytest.mark.parametrize(
    ("text", "valid"),
    [
        ("hops: [{name: Fuggle, amount: 20 g, form: leaf}]", True),
        ("targets: {ibu: 30 IBU}", True),
        ("yeast: {strain: English ale}", True),
        ("hops: [{hop: Fuggle, wieght: 20 g}]", False),
        ("hops: [{hop: Fuggle, form: pelet}]", False),
        ("boyl: 60 min", False),
    ],
)
def test_other_names_are_taken_and_slips_are_not(text: str, valid: bool) -> None:
    document = read_document(f"recipe: A\nbatch: 20 l\n{GRIST}{text}\n")
    assert document.root is not None
    assert jsonschema.Draft202012Validator(as_typed("recipe")).is_valid(data(document.root)) is valid


def schemas_in(one: object) -> Iterator[dict[str, Any]]:
    if isinstance(one, dict):
        yield one
    for inner in one.values() if isinstance(one, dict) else one if isinstance(one, list) else ():
        yield from schemas_in(inner)


@pytest.mark.parametrize("name", ["recipe", "brewhouse"])
def test_nothing_in_it_makes_an_editor_offer_nonsense(name: str) -> None:
    """From ``then`` and ``else`` editors take fields without a word of them, of examples that are mappings the type."""
    for one in schemas_in(as_typed(name)):
        assert not {"if", "then", "else"} & set(one), one
        examples = one.get("examples", [])
        assert not isinstance(examples, list) or not any(isinstance(example, dict | list) for example in examples)


@pytest.mark.parametrize("path", sorted((ROOT / "sample-recipes").glob("*/*.yaml")), ids=lambda path: path.stem)
def test_each_sample_is_valid_as_it_is_typed(path: Path) -> None:
    document = read_document(path.read_text(encoding="utf-8"))
    assert document.root is not None
    wrong = list(jsonschema.Draft202012Validator(as_typed("recipe")).iter_errors(data(document.root)))
    assert bool(wrong) is (path.stem == "typed-on-the-ferry"), wrong


def all_of(error: jsonschema.ValidationError) -> Iterator[jsonschema.ValidationError]:
    yield error
    for inner in error.context or ():
        yield from all_of(inner)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("mash: {water: 3 l, thickness: 3 l/kg}", "`water` and `thickness` stand together; keep one of them"),
        ("hops: [{hop: Fuggle, weight: 20 g, boil: 5 min, dry: 3 d}]", "`boil` and `dry` stand in one addition"),
        ("grain-bill: [{grain: rye, sugar: honey, weight: 3 kg}]", "`grain` and `sugar` stand in one line"),
        ("grain-bill: [{grain: rye}]", "this line has no weight; add one, such as weight: 2.9 kg"),
        ("grain-bill: [{extract: x, prepare: cereal mash, weight: 3 kg}]", "a malt extract has no starch to cook"),
        ("mash: {rests: [{at: 66 °C, for: 60 min, by: heat, water: 3 l}]}", "`water` belongs to an infusion"),
    ],
)
def test_what_may_not_stand_together_is_still_told(text: str, sentence: str) -> None:
    document = read_document(f"recipe: A\nbatch: 20 l\n{'' if 'grain-bill' in text else GRIST}{text}\n")
    assert document.root is not None
    found = list(jsonschema.Draft202012Validator(as_typed("recipe")).iter_errors(data(document.root)))
    said = [inner.schema.get("errorMessage", "") for one in found for inner in all_of(one)]
    assert found
    assert any(one.startswith(sentence) for one in said)
