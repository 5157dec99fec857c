"""What is told of how a review went stands in every form of report."""

import json
from xml.etree.ElementTree import fromstring

import pytest

from mashwright.reporting import written
from mashwright.reporting.text import remarks
from mashwright.reviewing.results import Review

REVIEW = Review((), remarks=("brewhouse.yaml: `rules` \x1b[31m", "git is not found on PATH"))


def test_in_lines() -> None:
    assert list(remarks(REVIEW)) == [
        "mashwright: brewhouse.yaml: `rules` \\x1b[31m",
        "mashwright: git is not found on PATH",
    ]


def test_in_json_and_sarif() -> None:
    assert json.loads(written("json", REVIEW))["remarks"] == list(REVIEW.remarks)
    assert json.loads(written("sarif", REVIEW))["runs"][0]["invocations"] == [
        {
            "executionSuccessful": True,
            "toolExecutionNotifications": [{"level": "note", "message": {"text": remark}} for remark in REVIEW.remarks],
        }
    ]


def test_in_junit_they_are_a_case_that_passes() -> None:
    root = fromstring(written("junit", REVIEW))
    assert (root.get("tests"), root.get("failures"), root.get("errors")) == ("1", "0", "0")
    case = root.find("testsuite/testcase")
    assert case is not None
    assert (case.get("name"), case.findtext("system-out")) == (
        "how the review went",
        "brewhouse.yaml: `rules` \\x1b[31m\ngit is not found on PATH",
    )


def test_in_markdown() -> None:
    assert written("markdown", REVIEW).split("\n")[1:] == [
        "",
        "### How the review went",
        "",
        "- brewhouse.yaml: \\`rules\\` \\\\x1b\\[&#8288;31m",
        "- git is not found on PATH",
        "",
    ]


@pytest.mark.parametrize("form", ["json", "sarif", "junit", "markdown"])
def test_a_review_without_any_says_nothing(form: str) -> None:
    assert "how the review went" not in written(form, Review(())).lower()
