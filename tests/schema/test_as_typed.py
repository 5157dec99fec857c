"""The schemas for editors: written by the program, in step with the short forms, and as strict as they can be."""

import json
import os
from pathlib import Path

import jsonschema
import pytest

import mashwright_schema
from mashwright.finding import Path as Place
from mashwright.reading.as_typed import as_typed
from mashwright.reading.document import read_document
from mashwright.reading.nodes import data
from mashwright.reading.schema import understood
from mashwright.reading.short_forms import EXAMPLES

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
