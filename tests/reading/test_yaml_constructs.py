"""The constructs of YAML 1.2 and its official test suite: each is read as it is meant, or told in plain words.

The constructs below stand here for where the suite is not installed; ``conftest.py`` says where it is looked for.

Source: YAML Ain't Markup Language, version 1.2, revision 1.2.2, 2021; the chapter is named with each.
"""

# ruff: noqa: E501 -- a finding is asserted whole, on its line

import json
import time
from typing import Any

import pytest

import mashwright
from mashwright.reading.document import read_document
from mashwright.reading.nodes import data

READ: list[tuple[str, str, object]] = [
    ("5.1 a next line", "x: a\x85b\n", {"x": "a b"}),
    ("5.1 a line separator", "x: a\u2028b\n", {"x": "a b"}),
    ("5.1 beyond the basic plane", "x: 🍺\n", {"x": "🍺"}),
    ("5.4 a carriage return alone", "x: 1\ry: 2\r", {"x": 1, "y": 2}),
    ("5.4 mixed line ends", "x: 1\r\ny: 2\nz: 3\r", {"x": 1, "y": 2, "z": 3}),
    ("5.5 a tab before a value", "x:\ta\n", {"x": "a"}),
    ("5.5 a tab behind a value", "x: a\t\n", {"x": "a"}),
    (
        "5.7 every escape",
        'x: "\\0\\a\\b\\t\\n\\v\\f\\r\\e\\ \\"\\/\\\\\\N\\_\\L\\P\\x41\\u0041\\U00000041"\n',
        {"x": '\x00\x07\x08\t\n\x0b\x0c\r\x1b "/\\\x85\xa0\u2028\u2029AAA'},
    ),
    ("6.6 a comment without a blank", "x: a#b\n", {"x": "a#b"}),
    ("6.7 a comment within a list", "x:\n# a\n- 1\n   # b\n- 2\n", {"x": [1, 2]}),
    ("6.8 a version", "%YAML 1.2\n---\nx: 1\n", {"x": 1}),
    ("6.8 an old version", "%YAML 1.1\n---\nx: 1\n", {"x": 1}),
    ("6.9 an anchor and an alias", "x: &a 1\ny: *a\n", {"x": 1, "y": 1}),
    ("6.9 an anchor anew", "x: &a 1\ny: *a\nz: &a 2\nw: *a\n", {"x": 1, "y": 1, "z": 2, "w": 2}),
    ("7.1 an alias as a key", "x: &a b\n*a : c\n", {"x": "b", "b": "c"}),
    ("7.2 an empty value", "x:\n", {"x": None}),
    ("7.3 a quote over lines", 'x: "a\n  b\n\n  c\\\n  d"\n', {"x": "a b\ncd"}),
    ("7.3 a plain text over lines", "x: a\n  b\n  c\n", {"x": "a b c"}),
    ("7.4 a list with a comma at its end", "x: [a, b, ]\n", {"x": ["a", "b"]}),
    ("7.4 a pair within a list", "x: [a: b]\n", {"x": [{"a": "b"}]}),
    ("7.4 an explicit pair", "x: [? a : b]\n", {"x": [{"a": "b"}]}),
    ("7.4 a colon at once behind a quote", 'x: {"a":b}\n', {"x": {"a": "b"}}),
    ("8.1 a literal", "x: |\n  a\n  b\n", {"x": "a\nb\n"}),
    ("8.1 a folded text", "x: >-\n  a\n  b\n", {"x": "a b"}),
    ("8.1 an indentation of its own", "x: |2\n    a\n", {"x": "  a\n"}),
    ("8.1 a literal without text", "x: |\n", {"x": ""}),
    ("8.2 a list beside its key", "x:\n- a\n- b\n", {"x": ["a", "b"]}),
    ("8.2 a list within a list", "- - a\n  - b\n", [["a", "b"]]),
    ("8.2 an explicit key", "? a\n: b\n", {"a": "b"}),
    ("9.1 a mark of a document", "---\nx: 1\n...\n", {"x": 1}),
    ("9.2 text behind the mark", "--- x\n", "x"),
    ("10.2 a null", "x: ~\ny: null\n", {"x": None, "y": None}),
    ("10.2 an octal and a hexadecimal number", "x: 0o17\ny: 0xFF\n", {"x": 15, "y": 255}),
    ("10.3 old truths", "x: no\ny: on\nz: y\n", {"x": "no", "y": "on", "z": "y"}),
    ("10.3 a day and base sixty", "x: 2026-11-25\ny: 1:30\n", {"x": "2026-11-25", "y": "1:30"}),
    ("10.3 a number with blanks", "x: 1_000\n", {"x": "1_000"}),
]

TOLD: list[tuple[str, str, list[str]]] = [
    (
        "5.1 a control character",
        "x: a\x01b\n",
        ["1:5: there is an invisible control character (U+0001) here; delete it"],
    ),
    (
        "5.1 a delete character",
        "x: a\x7fb\n",
        ["1:5: there is an invisible control character (U+007F) here; delete it"],
    ),
    ("5.1 a C1 control", "x: a\x90b\n", ["1:5: there is an invisible control character (U+0090) here; delete it"]),
    (
        "5.1 a surrogate's neighbour",
        "x: a\ufffeb\n",
        ["1:5: there is an invisible control character (U+FFFE) here; delete it"],
    ),
    (
        "5.2 a mark in the middle",
        "x: a\ufeffb\n",
        ["1:5: a byte-order mark (U+FEFF) stands in the middle of the text; delete it"],
    ),
    ("5.3 a reserved indicator", "x: @a\n", ['1:4: a value cannot start with @; put it in quotes: "@a"']),
    ("5.3 another reserved indicator", "x: `a\n", ['1:4: a value cannot start with `; put it in quotes: "`a"']),
    ("5.3 a percent sign", "x: %a\n", ['1:4: a value cannot start with %; put it in quotes: "%a"']),
    (
        "5.5 a tab as indentation",
        "x:\n\ty: 1\n",
        ["2:1: there is a tab here; indent with spaces; put two here"],
    ),
    (
        "5.7 an unknown escape",
        'x: "\\q"\n',
        ["1:5: a backslash in double quotes has a meaning of its own; use single quotes: '...'"],
    ),
    (
        "5.7 half an escape",
        'x: "\\x4"\n',
        ["1:7: a backslash in double quotes has a meaning of its own; use single quotes: '...'"],
    ),
    (
        "5.7 a surrogate escape",
        'x: "\\ud800"\n',
        ["1:7: a backslash in double quotes has a meaning of its own; use single quotes: '...'"],
    ),
    (
        "5.7 beyond Unicode",
        'x: "\\U00110000"\n',
        ["1:7: a backslash in double quotes has a meaning of its own; use single quotes: '...'"],
    ),
    (
        "6.1 less indentation",
        "x:\n  y: 1\n z: 2\n",
        ["3:2: this line is not in line with the fields above; indent them alike"],
    ),
    (
        "6.1 more indentation",
        "x: 1\n  y: 2\n",
        ["2:4: this field is indented too far; indent it like the fields it belongs with"],
    ),
    (
        "6.6 only a comment",
        "# a\n",
        ["1:1: this file has only spaces and comments; a recipe starts with a line such as recipe: House Bitter"],
    ),
    (
        "6.8 a version to come",
        "%YAML 2.0\n---\nx: 1\n",
        ["1:1: a line that starts with % means nothing in a recipe; leave it out"],
    ),
    (
        "6.8 two versions",
        "%YAML 1.2\n%YAML 1.2\n---\nx: 1\n",
        ["2:1: a line that starts with % means nothing in a recipe; leave it out"],
    ),
    (
        "6.8 a directive of nobody's",
        "%FOO bar\n---\nx: 1\n",
        ["1:1: a line that starts with % means nothing in a recipe; leave it out"],
    ),
    (
        "6.8 a tag handle",
        "%TAG !e! tag:example.com,2000:\n---\nx: !e!a 1\n",
        ["1:1: a line that starts with % means nothing in a recipe; leave it out"],
    ),
    (
        "6.9 a verbatim tag",
        "x: !<tag:yaml.org,2002:str> a\n",
        [
            "1:4: the tag !<tag:yaml.org,2002:str> means nothing in a recipe; write the plain value, or put the text in quotes"
        ],
    ),
    (
        "6.9 a tag that is not closed",
        "x: !<a\n",
        ["1:7: this cannot be read; look at the line above for a missing colon, quote or bracket"],
    ),
    (
        "6.9 the non-specific tag",
        "x: ! a\n",
        ["1:4: the tag ! means nothing in a recipe; write the plain value, or put the text in quotes"],
    ),
    (
        "6.9 an undeclared handle",
        "x: !e!a 1\n",
        ["1:4: this cannot be read; look at the line above for a missing colon, quote or bracket"],
    ),
    ("6.9 two anchors", "x: &a &b 1\n", ['1:4: a value cannot start with &; put it in quotes: "&a &b 1"']),
    ("6.9 an anchor without a name", "x: & 1\n", ['1:4: a value cannot start with &; put it in quotes: "& 1"']),
    (
        "7.1 an unknown alias",
        "x: *a\n",
        ["1:4: *a points to nothing above it; write the value itself, or put the text in quotes"],
    ),
    (
        "7.1 an alias of itself",
        "x: &a [*a]\n",
        ["1:8: *a points to nothing above it; write the value itself, or put the text in quotes"],
    ),
    (
        "7.1 a merge key",
        "x: &a {b: 1}\ny: {<<: *a}\n",
        ["2:5: << copies fields from elsewhere, which a recipe does not do; write the fields out"],
    ),
    (
        "7.2 an empty key",
        ": a\n",
        ["1:1: this line is not in line with the fields above; indent them alike"],
    ),
    ("7.2 an empty item", "x: [a, , b]\n", ["1:8: a value is missing here, or a bracket or comma is out of place"]),
    (
        "7.3 a quote that is not closed",
        'x: "a\n',
        ['1:4: the quote " that starts here is never closed; add " at the end of the text'],
    ),
    (
        "7.3 a single quote that is not closed",
        "x: 'a\n",
        [
            "1:4: the quote ' that starts here is never closed; add ' at the end of the text, or double quotes around it if this is an apostrophe"
        ],
    ),
    (
        "7.3 text behind a quote",
        'x: "a" b\n',
        ["1:8: text follows a closing quote; leave the quotes out, or put them around all of it"],
    ),
    (
        "7.3 a document mark in a quote",
        'x: "a\n---\nb"\n',
        ['1:4: the quote " that starts here is never closed; add " at the end of the text'],
    ),
    (
        "7.3 a colon in a plain text",
        "x: a: b\n",
        [
            '1:5: this line has a second colon; put quotes around the text ("a: b"), or give the second field a line of its own'
        ],
    ),
    ("7.3 a key over two lines", "x\ny: 1\n", ["1:1: a colon is missing here; write field: value"]),
    (
        "7.3 a key of more than 1024 letters",
        "k" * 1100 + ": 1\n",
        ["1:1101: this field is indented too far; indent it like the fields it belongs with"],
    ),
    (
        "7.4 a list that is not closed",
        "x: [a\n",
        ["1:4: the [ that starts here is not closed, or lacks a comma; add ] at its end"],
    ),
    (
        "7.4 braces that are not closed",
        "x: {a: b\n",
        ["1:4: the { that starts here is not closed, or lacks a comma; add } at its end"],
    ),
    ("7.4 a bracket too many", "x: [a]]\n", ["1:7: ] closes nothing; take it away, or add the bracket that opens it"]),
    ("7.4 the wrong bracket", "x: [a}\n", ["1:6: } cannot close the [ before it; write ] here first"]),
    (
        "7.4 a key that is a list",
        "{[a, b]: c}\n",
        ["1:2: a list or braces cannot be the name of a field; quote the text, or write a name before the colon"],
    ),
    ("7.4 a key without a value", "x: {a, b: c}\n", ['1:5: "a" has no value; write a: and a value, or leave it out']),
    ("8.1 an indentation of 0", "x: |0\n a\n", ['1:4: a value cannot start with |; put it in quotes: "|0"']),
    ("8.1 an indentation of 10", "x: |10\n a\n", ['1:4: a value cannot start with |; put it in quotes: "|10"']),
    ("8.1 two ends of a literal", "x: |+-\n a\n", ['1:4: a value cannot start with |; put it in quotes: "|+-"']),
    ("8.1 a literal that is not indented", "x: |\na\n", ["2:1: a colon is missing here; write field: value"]),
    (
        "8.2 a list on its key's line",
        "x: - a\n",
        ["1:4: a list cannot start behind a colon; put the - on a line of its own, or the text in quotes"],
    ),
    (
        "8.2 an explicit key that is a list",
        "? - a\n: - b\n",
        ["1:3: a list or braces cannot be the name of a field; quote the text, or write a name before the colon"],
    ),
    (
        "8.2 a list and a mapping",
        "- a\nb: c\n",
        ["2:1: this field is under the dash; put it under the first field of its line, two spaces further in"],
    ),
    ("8.2 one key twice", "x: 1\nx: 2\n", ["2:1: x is here twice (first in line 1); keep one of the two"]),
    (
        "8.2 one key twice in other quotes",
        "x: 1\n'x': 2\n",
        ["2:1: x is here twice (first in line 1); keep one of the two"],
    ),
    (
        "9.2 two documents",
        "x: 1\n---\ny: 2\n",
        ["2:1: a second document starts here; keep one recipe to a file and leave out the ---"],
    ),
    (
        "9.2 two documents parted by their end",
        "x: 1\n...\ny: 2\n",
        ["3:1: a second document starts here; keep one recipe to a file and leave out the ..."],
    ),
    (
        "9.2 nothing at all",
        "",
        ["1:1: this file has only spaces and comments; a recipe starts with a line such as recipe: House Bitter"],
    ),
    (
        "9.2 marks alone",
        "---\n---\n",
        ["2:1: a second document starts here; keep one recipe to a file and leave out the ---"],
    ),
    (
        "10.2 numbers without bound",
        "x: .inf\ny: -.INF\n",
        [
            "1:4: .inf is not a usable number; write the number or leave the line out",
            "2:4: -.INF is not a usable number; write the number or leave the line out",
        ],
    ),
    (
        "10.2 no number",
        "x: .nan\n",
        ["1:4: .nan is not a usable number; write the number or leave the line out"],
    ),
]


def told(text: str) -> list[str]:
    document = read_document(text)
    places = [(document.place(problem.span), problem.message) for problem in document.problems]
    return [f"{place.line}:{place.column}: {message}" for place, message in places]


def reviewed(text: str) -> int:
    """A text goes through the whole review; how many findings there are."""
    review = mashwright.review_text(text)
    assert review.faults == ()
    (recipe,) = review.recipes
    lines = text.count("\n") + text.count("\r") + 1
    assert all(1 <= result.place.line <= lines and result.message.isprintable() for result in recipe.results)
    return len(recipe.results)


@pytest.mark.parametrize(("text", "value"), [one[1:] for one in READ], ids=[one[0] for one in READ])
def test_a_construct_that_is_read(text: str, value: object) -> None:
    document = read_document(text)
    assert told(text) == []
    assert document.root is not None
    assert data(document.root) == value
    assert reviewed(text) >= 1, "it is no recipe, and that must be said"


@pytest.mark.parametrize(("text", "messages"), [one[1:] for one in TOLD], ids=[one[0] for one in TOLD])
def test_a_construct_that_is_told(text: str, messages: list[str]) -> None:
    assert told(text) == messages
    assert reviewed(text) >= 1


# --- the official suite ---


def test_every_case_is_reviewed_without_a_fault_and_in_time(yaml_suite: Any) -> None:
    assert len(yaml_suite) >= 350
    for case in yaml_suite:
        began = time.process_time()
        assert reviewed(case.text) >= 1, case
        assert time.process_time() - began < 1, case


LENIENT = {
    "9C9N-1",  # a list in brackets that is not indented
    "9JBA-1",  # a comment at once behind a bracket
    "CVW2-1",  # a comment at once behind a comma
    "DK95-2",  # tabs where blanks are asked for
    "G5U8-1",  # dashes as items in brackets
    "QB6E-1",  # a quoted text that is not indented
    "S98Z-1",  # blanks at the head of a folded text
    "SU5Z-1",  # a comment at once behind a quote
    "X4QW-1",  # a comment at once behind >
    "Y79Y-4",  # tabs where blanks are asked for
    "YJV2-1",  # a dash as an item in brackets
}
"""What YAML forbids and the parser takes all the same; none of it changes what a brewer sees on the page."""


def test_what_is_forbidden_is_told_in_a_finding(yaml_suite: Any) -> None:
    taken = {case.id for case in yaml_suite if case.wrong and not told(case.text)}
    assert taken == LENIENT


def alike(ours: Any, theirs: Any) -> bool:
    """Whether two values are the same, numbers and truths compared as they are written."""
    if isinstance(theirs, dict):
        return isinstance(ours, dict) and ours.keys() == theirs.keys() and all(alike(ours[k], theirs[k]) for k in ours)
    if isinstance(theirs, list):
        return isinstance(ours, list) and len(ours) == len(theirs) and all(map(alike, ours, theirs))
    return ours == theirs or str(ours).lower() == str(theirs).lower()


DIFFERENT = {
    "652Z-1",  # ? at the start of a word in braces
    "L24T-2",  # blanks on the last line of a literal that has no end
    "Y2GN-1",  # a colon in the name of an anchor
}
"""Read as another value than YAML says."""


def test_what_is_read_is_what_is_meant(yaml_suite: Any) -> None:
    different, compared = set(), 0
    for case in yaml_suite:
        document = read_document(case.text)
        if case.wrong or case.json is None or document.root is None or document.problems:
            continue
        compared += 1
        if not alike(data(document.root), json.loads(case.json)):
            different.add(case.id)
    assert compared >= 150
    assert different == DIFFERENT
