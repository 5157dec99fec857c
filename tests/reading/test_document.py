"""What a document is read to, where everything stands, and what can be read past."""

import pytest

from mashwright.budgets import (
    BREWHOUSE_LINES,
    CHARACTERS,
    DEPTH,
    LIST_LINES,
    NAME_CHARACTERS,
    NODES,
    PROSE_CHARACTERS,
)
from mashwright.reading.document import Document, read_document
from mashwright.reading.nodes import Mapping, Problem, Scalar, Span, at, data, walk

TOP = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4 kg}\n"


def problems(text: str) -> list[str]:
    document = read_document(text)
    places = [document.place(problem.span) for problem in document.problems]
    return [
        f"{place.line}:{place.column}: {problem.message}"
        for place, problem in zip(places, document.problems, strict=True)
    ]


def position(document: Document, *path: str | int) -> tuple[int, int, int, int]:
    return tuple(document.place(document.span_of(path)))  # type: ignore[return-value]


def test_values_with_their_places() -> None:
    document = read_document(TOP)
    assert document.root is not None
    assert data(document.root) == {
        "recipe": "Lane Bitter",
        "batch": "20 l",
        "grist": [{"grain": "pale ale malt", "weight": "4 kg"}],
    }
    assert at(document.root, ("grist", 0, "weight")) == Scalar("4 kg", "4 kg", 74, 78, plain=True)
    assert [path for path, _ in walk(document.root)] == [
        (),
        ("recipe",),
        ("batch",),
        ("grist",),
        ("grist", 0),
        ("grist", 0, "grain"),
        ("grist", 0, "weight"),
    ]


def test_a_finding_points_to_the_value_the_first_key_of_an_item_or_the_key() -> None:
    document = read_document(TOP + "mash:\n  strike: '73 °C'\n  ph:\n  rests: []\n")
    assert position(document, "batch") == (2, 8, 2, 12)
    assert position(document, "grist") == (3, 1, 3, 6)
    assert position(document, "grist", 0) == (4, 6, 4, 11)
    assert position(document, "grist", 0, "weight") == (4, 36, 4, 40)
    assert position(document, "mash") == (5, 1, 5, 5)
    assert position(document, "mash", "strike") == (6, 11, 6, 18)
    assert position(document, "mash", "ph") == (7, 3, 7, 5)
    assert position(document, "mash", "rests") == (8, 3, 8, 8)


def test_what_is_missing_is_told_at_the_nearest_thing_around_it() -> None:
    document = read_document(TOP)
    assert position(document, "grist", 0, "colour") == (4, 6, 4, 11)
    assert position(document, "grist", 5) == (3, 1, 3, 6)
    assert position(document, "mash", "rests", 0) == (1, 1, 1, 7)
    assert position(document) == (1, 1, 1, 7)
    assert position(Document("", None), "mash") == (1, 1, 1, 1)


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
def test_lines_end_with_any_line_end(newline: str) -> None:
    document = read_document(TOP.replace("\n", newline))
    assert position(document, "grist", 0, "weight") == (4, 36, 4, 40)
    assert problems((TOP + "batch: 21 l\n").replace("\n", newline)) == [
        "5:1: batch is here twice (first in line 2); keep one of the two"
    ]


@pytest.mark.parametrize("sign", ["\u2028", "\u2029", "\x85"])
def test_other_separators_end_no_line(sign: str) -> None:
    document = read_document(f"# a{sign}b\nrecipe: Lane{sign}Bitter\nstyle: 'a{sign}b'\nbatch: 20 l\n")
    assert document.problems == ()
    assert position(document, "recipe") == (2, 9, 2, 20)
    assert position(document, "batch") == (4, 8, 4, 12)


def test_columns_count_characters() -> None:
    document = read_document("{recipe: 'Bräu 🍺 °', batch: 20}\n")
    assert position(document, "batch") == (1, 29, 1, 31)


TAG = "the tag {0} means nothing in a recipe; write the plain value, or put the text in quotes"
NO_NAME = "a list or braces cannot be the name of a field; quote the text, or write a name before the colon"
NO_NUMBER = "{0} is not a usable number; write the number or leave the line out"
REPEATS = "*{0} points to nothing above it; write the value itself, or put the text in quotes"
TWICE = "{0} is here twice (first in line {1}); keep one of the two"


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ("notes: !!str 5\n", ["5:8: " + TAG.format("!!str")]),
        ("notes: !good\n", ["5:8: " + TAG.format("!good")]),
        ("notes: &a !thing {b: 1}\n", ["5:11: " + TAG.format("!thing")]),
        ("!!str notes: 5\n", ["5:1: " + TAG.format("!!str")]),
        (
            "mash:\n  <<: {water: 14 l}\n",
            ["6:3: << copies fields from elsewhere, which a recipe does not do; write the fields out"],
        ),
        ("batch: 21 l\nbatch: 22 l\n", ["5:1: " + TWICE.format("batch", 2), "6:1: " + TWICE.format("batch", 2)]),
        ("mash: {water: 14 l, 'water': 15 l}\n", ["5:21: " + TWICE.format("water", 5)]),
        ("efficiency: .nan\n", ["5:13: " + NO_NUMBER.format(".nan")]),
        ("mash: {water: -.INF}\n", ["5:15: " + NO_NUMBER.format("-.INF")]),
        (f"efficiency: 1e{'9' * 100}\n", [f"5:13: {NO_NUMBER.format('1e' + '9' * 35 + '...')}"]),
        (
            "additions:\n  - {what: coriander, orange peel, weight: 20 g}\n",
            [
                (
                    '6:23: "orange peel" stands alone after a comma; quote the whole text'
                    ' (what: "coriander, orange peel"), or write its field and a colon'
                )
            ],
        ),
        ("mash: {water}\n", ['5:8: "water" has no value; write water: and a value, or leave it out']),
    ],
)
def test_what_can_be_read_past(lines: str, told: list[str]) -> None:
    assert problems(TOP + lines) == told
    root = read_document(TOP + lines).root
    assert isinstance(root, Mapping)
    assert root.get("batch") == Scalar("20 l", "20 l", 27, 31, plain=True)


def test_a_decimal_comma_in_braces_stays_one_value() -> None:
    document = read_document(TOP + "hops:\n  - {hop: Fuggle, alpha: 4,5 %, boil: 60,5 min}\n")
    assert document.problems == ()
    assert document.root is not None
    assert data(document.root)["hops"] == [{"hop": "Fuggle", "alpha": "4,5 %", "boil": "60,5 min"}]  # type: ignore[index]
    assert position(document, "hops", 0, "alpha") == (6, 26, 6, 31)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (TOP + "[a, b]: c\n", f"5:1: {NO_NAME}"),
        (TOP + "{a: b}: c\n", f"5:1: {NO_NAME}"),
        (TOP + "? [a]\n: c\n", f"5:3: {NO_NAME}"),
        (
            TOP + "---\nrecipe: Y\n",
            "5:1: a second document starts here; keep one recipe to a file and leave out the ---",
        ),
        (
            TOP + "...\nrecipe: Y\n",
            "6:1: a second document starts here; keep one recipe to a file and leave out the ...",
        ),
        (TOP + "notes: *gone\n", "5:8: " + REPEATS.format("gone")),
        (TOP + "notes: &n [*n]\n", "5:12: " + REPEATS.format("n")),
    ],
)
def test_where_reading_ends(text: str, told: str) -> None:
    assert problems(text) == [told]
    assert read_document(text).root is None


@pytest.mark.parametrize("text", ["", "\n", "   \n\n", "# Lane Bitter\n", "---\n", "--- # x\n...\n", "\r\n"])
def test_a_file_that_holds_nothing(text: str) -> None:
    told = "this file has only spaces and comments; a recipe starts with a line such as recipe: House Bitter"
    assert problems(text) == [f"1:1: {told}"]


@pytest.mark.parametrize("text", ["---\n" + TOP, TOP + "...\n", "%YAML 1.2\n---\n" + TOP])
def test_the_marks_of_one_document_do_no_harm(text: str) -> None:
    assert problems(text) == []


def test_nesting_is_bounded() -> None:
    told = f"lists or braces stand more than {DEPTH} deep here; a recipe needs five"
    assert problems("a: " + "[" * (DEPTH - 1) + "]" * (DEPTH - 1)) == []
    assert problems("a: " + "[" * DEPTH + "]" * DEPTH) == [f"1:{DEPTH + 3}: {told}"]
    assert problems("a: " + "{b: " * 100 + "}" * 100) == [f"1:{4 + 4 * (DEPTH - 1)}: {told}"]


def test_the_number_of_values_is_bounded_and_aliases_count_in_full() -> None:
    most = NODES - 3  # the mapping, the key and the list count too
    assert problems("notes: [" + "1," * most + "]\n") == []
    told = f"there are more than {NODES} values up to here; a recipe needs a few hundred, so split the file"
    assert problems("notes: [" + "1," * (most + 1) + "]\n") == [f"1:{9 + 2 * most}: {told}"]
    tens = "".join(f"{name}: &{name} [{','.join([f'*{inner}'] * 10)}]\n" for inner, name in ("ab", "bc", "cd"))
    bomb = f"a: &a [{','.join('x' * 10)}]\n{tens}e: [{','.join(['*d'] * 10)}]\n"
    told = f"*d repeats so much that there are more than {NODES} values up to here; write out what is meant"
    assert problems(bomb) == [f"5:5: {told}"]


def test_the_characters_of_aliases_count_in_full() -> None:
    lines = "".join("  - *a\n" for _ in range(99))
    text = "notes:\n  - &a " + "x" * 10_000 + "\n" + lines
    assert problems(text) == []
    told = f"*a repeats so much that there are more than {CHARACTERS} characters up to here; write out what is meant"
    assert problems(text + lines) == [f"106:5: {told}"]


def test_the_depth_of_aliases_counts_in_full() -> None:
    half = DEPTH // 2 - 1
    text = "notes:\n  - &a " + "[" * half + "]" * half + "\n  - &b " + "[" * half + "*a" + "]" * half + "\n"
    assert problems(text) == []
    told = f"with *b, lists or braces stand more than {DEPTH} deep here; a recipe needs five"
    assert problems(text + "  - [*b]\n") == [f"4:6: {told}"]


def test_the_length_of_a_name_is_bounded_and_that_of_notes_is_not() -> None:
    most = NAME_CHARACTERS
    assert problems(f"recipe: {'x' * most}\n") == []
    told = f"at most {most} are read; write it shorter, and the rest under `notes`"
    assert problems(f"recipe: {'x' * (most + 1)}\n") == [f"1:1: `recipe` has {most + 1} characters; {told}"]
    assert problems(f"grist:\n  - '{'x' * (most + 1)}'\n") == [f"2:5: `grist` has {most + 1} characters; {told}"]
    assert problems(f"notes: {'x' * 9999}\n") == []
    assert problems(f"notes: [{{a: {'x' * 9999}}}]\n") == []
    assert problems(f"source: {'x' * PROSE_CHARACTERS}\n") == []
    most = PROSE_CHARACTERS
    told = f"at most {most} are read; write it shorter, and the rest under `notes`"
    assert problems(f"source: {'x' * (most + 1)}\n") == [f"1:1: `source` has {most + 1} characters; {told}"]


def test_the_length_of_a_key_is_bounded() -> None:
    assert problems(f"{'x' * NAME_CHARACTERS}: 1\n") == []
    told = f"the name of this field has 201 characters; at most {NAME_CHARACTERS} are read; write it shorter"
    assert problems(f"{'x' * 201}: 1\n") == [f"1:1: {told}"]


def test_the_lines_of_a_list_are_bounded_and_those_of_notes_are_not() -> None:
    assert problems("hops: [" + "1," * LIST_LINES + "]\n") == []
    told = f"`hops` has {LIST_LINES + 1} lines; at most {LIST_LINES} are read; split the recipe"
    assert problems("hops: [" + "1," * (LIST_LINES + 1) + "]\n") == [f"1:1: {told}"]
    salts = "".join(f"  s{number}: 1 g\n" for number in range(LIST_LINES + 1))
    told = f"`salts` has {LIST_LINES + 1} fields; at most {LIST_LINES} are read; split the recipe"
    assert problems("salts:\n" + salts) == [f"1:1: {told}"]
    told = f"this recipe has {LIST_LINES + 1} fields; at most {LIST_LINES} are read; split the recipe"
    assert problems(salts.replace("  ", "")) == [f"1:1: {told}"]
    assert problems("notes:\n" + salts) == []


def test_a_brewhouse_keeps_more_lots_than_a_recipe_has_lines() -> None:
    lots = "".join(f"  A{number}: {{of: pale malt}}\n" for number in range(BREWHOUSE_LINES + 1))
    document = read_document("lots:\n" + lots, "brewhouse")
    told = f"`lots` has {BREWHOUSE_LINES + 1} fields; at most {BREWHOUSE_LINES} are read; split the brewhouse"
    assert [problem.message for problem in document.problems] == [told]
    assert read_document("lots:\n" + lots[: lots.rindex("  A")], "brewhouse").problems == ()


def test_an_alias_gives_the_value_again() -> None:
    document = read_document("a: &x {b: 1}\nc: *x\nd: &y 2\ne: [*y, *y]\n")
    assert document.root is not None
    assert data(document.root) == {"a": {"b": 1}, "c": {"b": 1}, "d": 2, "e": [2, 2]}
    assert position(document, "d") == (3, 7, 3, 8)


AGAIN = "{0} is here twice (first in line {1}); keep one of the two, or give it {2} of its own"


def test_a_list_item_that_starts_over_is_read_as_two() -> None:
    text = "rests:\n  - at: 52 °C\n    for: 10 min\n    at: 66 °C\n    for: 60 min\n  - at: 76 °C\n"
    assert problems(text) == ["4:5: " + AGAIN.format("at", 2, "a dash")]
    root = read_document(text).root
    assert root is not None
    assert data(root) == {
        "rests": [{"at": "52 °C", "for": "10 min"}, {"at": "66 °C", "for": "60 min"}, {"at": "76 °C"}]
    }


def test_a_single_field_that_comes_again_is_left_out() -> None:
    text = "rests:\n  - {at: 52 °C, for: 10 min, at: 66 °C}\n"
    assert problems(text) == ["2:30: " + AGAIN.format("at", 2, "braces")]
    root = read_document(text).root
    assert root is not None
    assert data(root) == {"rests": [{"at": "52 °C", "for": "10 min"}]}
    assert problems("rests:\n  - at: 52 °C\n    for: 10 min\n    for: 60 min\n") == ["4:5: " + TWICE.format("for", 3)]


@pytest.mark.parametrize(
    ("text", "start", "mark"),
    [
        ("recipe: A\n<<<<<<< HEAD\nbatch: 20 l\n=======\nbatch: 21 l\n>>>>>>> other\n", 10, "<<<<<<<"),
        ("recipe: A\nnotes: |\n  one\n  <<<<<<< HEAD\n  two\n", 27, "<<<<<<<"),
        ("recipe: A\r\nbatch: 21 l\r\n>>>>>>> other\r\n", 24, ">>>>>>>"),
    ],
)
def test_marks_of_a_merge_are_told_wherever_they_stand(text: str, start: int, mark: str) -> None:
    message = f"a merge of two versions left {mark} here; keep one of the two and take the marks out"
    assert read_document(text).problems == (Problem(Span(start, start + 7), message),)


def test_arrows_in_a_note_are_no_marks_of_a_merge() -> None:
    assert read_document("notes: mash in <<<<<<< slowly >>>>>>>x\n").problems == ()
