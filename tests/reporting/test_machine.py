import json
from io import StringIO
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from msgspec.structs import replace

import mashwright_schema
from mashwright.finding import Level
from mashwright.reading.document import Place
from mashwright.reporting import write, written
from mashwright.reporting.machine import dump, review_document, rounded
from mashwright.reviewing.results import EvidenceRow, Result, Review, Reviewed


def validator(name: str) -> jsonschema.Draft202012Validator:
    text = Path(mashwright_schema.__file__).with_name(f"{name}.schema.json").read_text("utf-8")
    schema = json.loads(text)
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


WEIGHT = {"pointer": "/grist/0/weight", "text": "1.62 kg", "line": 9, "column": 13, "end-line": 9, "end-column": 19}
WEIGHT["put"] = "1.62 kg"
REST = {"pointer": "/mash/rests/0/for", "text": "90 min", "line": 17, "column": 22, "end-line": 17, "end-column": 28}
REST["put"] = "90 min"
ENZYMES = {
    "rule": "enzyme-sufficiency",
    "level": "warning",
    "pointer": "/grist",
    "line": 7,
    "column": 1,
    "end-line": 7,
    "end-column": 6,
    "message": "the mash averages 24 °Lintner; below 30 its starch does not convert",
    "says": [{"id": "hopeless", "values": {"power": {"text": "24", "value": 24, "unit": "°Lintner"}, "limit": "30"}}],
    "gap": 0.2,
    "evidence": [
        {"label": "two-row pale malt, 1.2 kg", "value": 110, "unit": "°Lintner", "pointer": "/grist/0"},
        {"label": "raw wheat, 3.5 kg", "value": 0, "unit": "°Lintner", "pointer": "/grist/1"},
        {"label": "what enters the mash", "value": "4.7 kg", "unit": "", "pointer": None},
    ],
    "remedies": [
        {
            "text": "1.62 kg of two-row pale malt instead of 1.2 kg; OG 1.048 to 1.052",
            "edits": [WEIGHT],
        },
        {
            "text": "rest 90 min instead of 60 and weigh 1.62 kg of two-row pale malt",
            "edits": [
                REST,
                WEIGHT,
            ],
        },
    ],
    "accepted": None,
    "state": None,
    "identity": "enzyme-sufficiency /grist",
}
DOUBT = {
    "rule": "adjunct-share",
    "level": "note",
    "pointer": "/grist/1",
    "line": 10,
    "column": 5,
    "end-line": 10,
    "end-column": 10,
    "message": "raw wheat is 42 % of the grist; above 40 % the run-off is slow",
    "says": [],
    "gap": 0.05,
    "evidence": [],
    "remedies": [],
    "accepted": None,
    "state": "new",
    "identity": "",
}
ACCEPTED = {
    "rule": "original-gravity",
    "level": "error",
    "pointer": "/targets/og",
    "line": 30,
    "column": 7,
    "end-line": 30,
    "end-column": 12,
    "message": "this grist gives 1.048 at most; 1.090 is stated",
    "says": [],
    "gap": 0.875,
    "evidence": [],
    "remedies": [],
    "accepted": {"reason": "the old book counts its gravities so", "until": "2027-12-31"},
    "state": "unchanged",
    "identity": "original-gravity /targets/og",
}
DOCUMENT = {
    "format": "mashwright-review",
    "version": 1,
    "recipes": [
        {"path": "house/harbour wheat.yaml", "name": "Harbour Wheat", "findings": [ENZYMES, DOUBT], "open": []},
        {"path": "house/mild.yaml", "name": "Marsh Mild", "findings": [], "open": []},
        {"path": "old/größe.yaml", "name": "", "findings": [ACCEPTED], "open": []},
    ],
    "faults": [{"rule": "run-off", "path": "house/mild.yaml", "message": "division by zero"}],
    "remarks": [],
    "counts": {"reviewed": 3, "skipped": 1, "errors": 0, "warnings": 1, "notes": 1, "open": 0, "unsearched": 0},
}


def test_review_document(review: Review) -> None:
    document = review_document(review)
    assert document == DOCUMENT
    assert list(document) == list(DOCUMENT)
    assert list(document["recipes"][0]["findings"][0]) == list(ENZYMES)
    validator("review").validate(document)


@pytest.mark.parametrize(
    ("place", "value"),
    [
        (("recipes", 0, "findings", 0, "level"), "fatal"),
        (("recipes", 0, "findings", 0, "line"), 0),
        (("recipes", 0, "findings", 0, "pointer"), "grist"),
        (("recipes", 0, "findings", 0, "accepted"), {"reason": "so"}),
        (("recipes", 0, "colour"), "red"),
        (("counts", "errors"), -1),
        (("version",), 2),
    ],
)
def test_the_schema_refuses_what_is_no_review(review: Review, place: tuple[str | int, ...], value: object) -> None:
    document = review_document(review)
    holder: Any = document
    for step in place[:-1]:
        holder = holder[step]
    holder[place[-1]] = value
    with pytest.raises(jsonschema.ValidationError):
        validator("review").validate(document)


def test_dump_reads_back_and_keeps_letters(review: Review) -> None:
    text = written("json", review)
    assert json.loads(text) == DOCUMENT
    assert text.startswith('{\n "format": "mashwright-review",\n "version": 1,\n "recipes": [\n  {"path": ')
    assert text.endswith("\n}\n")
    assert "old/größe.yaml" in text
    out = StringIO()
    write("json", review, out)
    assert out.getvalue() == text
    assert len(text.splitlines()) == 22


def test_dump_of_a_name_that_is_no_utf_8(enzymes: Result) -> None:
    review = Review((Reviewed("a\udcff.yaml", "", (enzymes,)),))
    text = dump(review_document(review))
    assert '"path": "a\\udcff.yaml"' in text
    assert json.loads(text.encode()) == review_document(review)


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (79.6703296, "79.6703"),
        (1.0498251519, "1.04983"),
        (0.000012345678, "1.23457e-05"),
        (1234567.8, "1234570"),
        (110.0, "110"),
        (0.0, "0"),
        (float("inf"), "null"),
        (float("nan"), "null"),
        (None, "null"),
    ],
)
def test_numbers_have_6_significant_digits(value: float | None, expected: str) -> None:
    assert json.dumps(rounded(value)) == expected


def test_a_number_without_bound_is_null(doubt: Result) -> None:
    endless = replace(doubt, gap=float("inf"), evidence=(EvidenceRow("time", float("inf"), "min", None, None),))
    document = review_document(Review((Reviewed("a.yaml", "", (endless,)),)))
    assert document["recipes"][0]["findings"][0]["gap"] is None
    assert document["recipes"][0]["findings"][0]["evidence"][0]["value"] is None
    validator("review").validate(document)


def test_a_finding_at_the_root_and_one_with_odd_keys_validate() -> None:
    results = tuple(
        Result("unreadable", Level.ERROR, pointer, Place(1, 1, 1, 1), "the file is empty")
        for pointer in ("", "/a~1b/0/m~0n", "/")
    )
    validator("review").validate(review_document(Review((Reviewed("-", "", results),))))


def test_unknown_forms_are_refused() -> None:
    with pytest.raises(KeyError):
        written("xml", Review(()))
