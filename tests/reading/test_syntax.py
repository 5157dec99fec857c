"""Texts that are no YAML: one finding each, where a person would look, with a way out."""

import pytest

from mashwright.reading.document import read_document
from mashwright.reading.nodes import Mapping, Span, data, span

TOP = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4 kg}\n"


def problems(text: str) -> list[str]:
    document = read_document(text)
    places = [document.place(problem.span) for problem in document.problems]
    return [
        f"{place.line}:{place.column}: {problem.message}"
        for place, problem in zip(places, document.problems, strict=True)
    ]


OUT_OF_STEP = "this line is not in line with the fields above; indent them alike"
DASH_OUT_OF_STEP = "this dash is not in line with its list; indent all dashes of a list alike"
UNDER_THE_DASH = "this field is under the dash; put it under the first field of its line, two spaces further in"
TOO_FAR = "this field is indented too far; indent it like the fields it belongs with"
NOT_CLOSED = "the {0} that starts here is not closed, or lacks a comma; add {1} at its end"
TAB = "there is a tab here; indent with spaces; put two here"
NEVER = 'the quote " that starts here is never closed; add " at the end of the text'
NO_COLON = "a colon is missing here; write field: value"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (TOP + "boil:60 min\n", "5:5: put a space after this colon; write boil: 60 min"),
        ("recipe: X\nbatch:20 l\ngrist: []\n", "2:6: put a space after this colon; write batch: 20 l"),
        (
            TOP + "mash:\n  water:14 l\n  strike: 73 °C\n",
            "6:8: put a space after this colon; write water: 14 l",
        ),
        (TOP + "mash: {water:14 l}\n", "5:13: put a space after this colon; write water: 14 l"),
        (TOP + "this is free text\n", f"5:1: {NO_COLON}"),
        ("My recipe\n" + TOP, f"1:1: {NO_COLON}"),
        (TOP + "boil = 60 min\n", f"5:1: {NO_COLON}"),
        (TOP + "efficiency 72 %\n", "5:1: a colon is missing here; write efficiency: 72 %"),
        (
            "recipe:Rauchbier\nbatch:20 l\ngrist: []\n",
            "1:7: put a space after this colon; write recipe: Rauchbier",
        ),
    ],
)
def test_a_missing_colon_or_the_blank_behind_it(text: str, told: str) -> None:
    assert problems(text) == [told]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            TOP + "notes: try this: x\n",
            (
                '5:16: this line has a second colon; put quotes around the text ("try this: x"),'
                " or give the second field a line of its own"
            ),
        ),
        (
            TOP + "boil: 60 min hops: x # as ever\n",
            (
                '5:18: this line has a second colon; put quotes around the text ("60 min hops: x"),'
                " or give the second field a line of its own"
            ),
        ),
        (
            TOP + f"notes: {'long ' * 10}: x\n",
            (
                "5:58: this line has a second colon; put quotes around the text,"
                " or give the second field a line of its own"
            ),
        ),
        (
            TOP + "notes: {by: a b:c: d}\n",
            "5:16: this value has a second colon; put quotes around the value",
        ),
        (
            TOP + "mash: {water: 14 l, strike: 73 C: 5}\n",
            "5:32: a comma is missing in front of C:, or there should be quotes around the text",
        ),
    ],
)
def test_two_colons_in_a_line(text: str, told: str) -> None:
    assert problems(text) == [told]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            TOP + "  {grain: raw wheat, weight: 1 kg}\n",
            "5:3: a dash is missing here; write - {grain: raw wheat, weight: 1 kg}",
        ),
        (
            TOP + "  -{grain: raw wheat, weight: 1 kg}\n",
            "5:3: put a space after this dash; write - {grain: raw wheat, weight: 1 kg}",
        ),
        (
            "recipe: X\ngrist:\n  -grain: pale ale malt\n   weight: 4 kg\n",
            "3:3: put a space after this dash; write - grain: pale ale malt",
        ),
        ("recipe: X\ngrist:\n  - grain: pale ale malt\n  weight: 4 kg\n", f"4:3: {UNDER_THE_DASH}"),
        ("recipe: X\ngrist:\n  - grain: pale ale malt\n      weight: 4 kg\n", f"4:13: {TOO_FAR}"),
        (TOP + " boil: {for: 60 min}\n", f"5:2: {OUT_OF_STEP}"),
        (TOP + "mash:\n  water: 14 l\n strike: 73 °C\n", f"7:2: {OUT_OF_STEP}"),
        (TOP + "mash:\n  water: 14 l\n    strike: 73 °C\n", f"7:11: {TOO_FAR}"),
        (TOP + " - {grain: raw wheat, weight: 1 kg}\n", f"5:2: {DASH_OUT_OF_STEP}"),
        (TOP + "    - {grain: raw wheat, weight: 1 kg}\n", f"5:5: {DASH_OUT_OF_STEP}"),
        (
            " recipe: X\nbatch: 20 l\n",
            "2:1: this line stands outside the recipe; indent it like the fields above",
        ),
        (
            TOP + "notes: - what\n",
            "5:8: a list cannot start behind a colon; put the - on a line of its own, or the text in quotes",
        ),
    ],
)
def test_dashes_and_indentation(text: str, told: str) -> None:
    assert problems(text) == [told]


@pytest.mark.parametrize("bullet", ["–", "—", "•", "*"])
def test_other_bullets_than_a_dash(bullet: str) -> None:
    told = f"{bullet} is not the dash of a list; write - and a space"
    assert problems(TOP.replace("  - {", f"  {bullet} {{")) == [f"4:3: {told}"]
    assert problems(TOP + f"  {bullet} grain: raw wheat\n    weight: 1 kg\n") == [f"5:3: {told}"]


def test_blanks_that_are_none_for_yaml() -> None:
    assert problems(TOP + "boil:\xa060 min\nhops: []\n") == ["5:6: use an ordinary space, not U+00A0"]
    assert problems(TOP + "mash:\n\u3000water: 14 l\n") == ["6:1: use an ordinary space, not U+3000"]
    assert problems(TOP + "notes: 5\xa0kg\n") == []


ODD = "use an ordinary space, not U+{0}"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("recipe: A\ngrist:\n  -\xa0grain: rye\n    weight: 5 kg\n", "3:4: " + ODD.format("00A0")),
        ("recipe: A\ngrist:\n  -\u2003{grain: rye, weight: 5 kg}\n", "3:4: " + ODD.format("2003")),
        ("recipe: A\ngrist:\n  - grain: rye\n\xa0\xa0\xa0\xa0weight: 5 kg\n", "4:1: " + ODD.format("00A0")),
        (TOP + "mash:\n\u2003water: 14 l\n\u2003strike: 70 °C\n", "6:1: " + ODD.format("2003")),
        (TOP + "mash:\n\u200bwater: 14 l\n", "6:1: " + ODD.format("200B")),
        (TOP.replace("batch: ", "batch:\xa0"), "2:7: " + ODD.format("00A0")),
        (TOP.replace("batch:", "batch\xa0:"), "2:6: " + ODD.format("00A0")),
    ],
)
def test_an_odd_blank_is_told_once_at_its_place(text: str, told: str) -> None:
    assert problems(text) == [told]


@pytest.mark.parametrize("mark", ["–", "—", "•", "·", "*"])
def test_a_list_mark_that_is_no_dash_before_a_line_of_fields(mark: str) -> None:
    told = f"{mark} is not the dash of a list; write - and a space"
    text = f"recipe: A\ngrist:\n{mark} grain: rye\n  weight: 5 kg\n{mark} grain: oats\n  weight: 2 kg\n"
    assert problems(text) == [f"3:1: {told}"]
    if mark != "*":
        assert problems(TOP + f"hops:\n  {mark} hop: Fuggle\n") == [f"6:3: {told}"]


def test_a_list_in_a_text_above_is_not_to_blame() -> None:
    assert problems(TOP + "notes: |\n  * remark\n  •\xa0another\nboil = 60 min\n") == [f"8:1: {NO_COLON}"]


def test_a_dash_of_another_kind_in_a_text_is_fine() -> None:
    assert problems(TOP + "notes: a – b\nby: – Ann\nsource: –\n") == []


@pytest.mark.parametrize("name", ["“Lane Bitter”", "„Lane Bitter“", "‘Lane Bitter’"])
def test_names_and_words_in_curly_quotes_are_taken_without_them(name: str) -> None:
    root = read_document(TOP.replace("Lane Bitter", name).replace("batch", "“batch”")).root
    assert isinstance(root, Mapping)
    assert data(root)["recipe"] == "Lane Bitter"  # type: ignore[index]
    assert data(root)["batch"] == "20 l"  # type: ignore[index]
    assert span(root, ("recipe",)) == Span(8, 8 + len(name))


@pytest.mark.parametrize("text", ["“a” and “b”", "“20 l”", "“”", "”", "“a"])
def test_other_curly_quotes_stay(text: str) -> None:
    root = read_document(f"notes: {text}\n").root
    assert root is not None
    assert data(root) == {"notes": text}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (TOP + "\tboil: {for: 60 min}\n", f"5:1: {TAB}"),
        (TOP + "mash:\n\twater: 14 l\n", f"6:1: {TAB}"),
        (TOP.replace("  - {", "  \t- {"), f"4:3: {TAB}"),
        (TOP + "\t\n", f"5:1: {TAB}"),
    ],
)
def test_a_tab_in_front_of_a_line(text: str, told: str) -> None:
    assert problems(text) == [told]


@pytest.mark.parametrize("text", [TOP.replace("batch: ", "batch:\t"), TOP + "notes: a\tb\n"])
def test_a_tab_that_does_no_harm(text: str) -> None:
    assert problems(text) == []


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            TOP + "notes: 'tis good\n",
            (
                "5:8: the quote ' that starts here is never closed; add ' at the end of the text,"
                " or double quotes around it if this is an apostrophe"
            ),
        ),
        (TOP + 'notes: "hello\n', '5:8: the quote " that starts here is never closed; add " at the end of the text'),
        ('recipe: "A\nbatch: "20 l"\ngrist: []\n', "1:9: " + NEVER),
        ('recipe: "A\n\n# b\nbatch: 20 l\ngrist: [{grain: "rye", weight: 1 kg}]\n', "1:9: " + NEVER),
        ('by: A\nrecipe: "A\nbatch: 20 l\nstyle: "mild"\n', "2:9: " + NEVER),
        (
            TOP.replace("20 l", '"20 l”'),
            '2:8: the quote " that starts here is closed by a curly one; write " at both ends',
        ),
        (
            TOP + "by: 'brewer's best'\n",
            '5:13: an apostrophe ends this quoted text too early; write "brewer\'s best"',
        ),
        (
            TOP + 'style: "best" bitter\n',
            "5:15: text follows a closing quote; leave the quotes out, or put them around all of it",
        ),
        (
            TOP + r'notes: "C:\quince"' + "\n",
            "5:11: a backslash in double quotes has a meaning of its own; use single quotes: '...'",
        ),
    ],
)
def test_quotes(text: str, told: str) -> None:
    assert problems(text) == [told]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (TOP + "notes: [a, b\n", "5:8: " + NOT_CLOSED.format("[", "]")),
        (TOP + "notes: [\n", "5:8: " + NOT_CLOSED.format("[", "]")),
        (TOP + "notes: [a,\n# b\n", "5:8: " + NOT_CLOSED.format("[", "]")),
        (TOP + "mash: {water: 14 l\n", "5:7: " + NOT_CLOSED.format("{", "}")),
        (TOP + "mash: {water: 14 l\nboil: {for: 60 min}\n", "5:7: " + NOT_CLOSED.format("{", "}")),
        (
            TOP + "mash: {water: 14 l strike: 73 °C}\n",
            "5:20: a comma is missing in front of strike:, or there should be quotes around the text",
        ),
        (
            TOP + "mash: {salts: {gypsum: 4 g} strike: 73 °C}\n",
            "5:29: a comma is missing in front of this",
        ),
        (
            TOP + "mash: {water: 14 l; strike: 73 °C}\n",
            "5:19: there is a semicolon here; put commas between fields in braces",
        ),
        (
            TOP + "mash: {water: 14 l}}\n",
            "5:20: } closes nothing; take it away, or add the bracket that opens it",
        ),
        (
            TOP + "mash: {rests: [{at: 66 °C, for: 60 min]}\n",
            "5:39: ] cannot close the { before it; write } here first",
        ),
        (TOP + "mash: {rests: [{at: 66 °C}}\n", "5:27: } cannot close the [ before it; write ] here first"),
        (TOP + "notes: ]\n", "5:8: ] closes nothing; take it away, or add the bracket that opens it"),
        (TOP + "notes: [sic] what\n", "5:14: text follows a closing bracket; put quotes around all of it"),
    ],
)
def test_brackets(text: str, told: str) -> None:
    assert problems(text) == [told]


@pytest.mark.parametrize(
    ("value", "quoted"),
    [
        ("%5", "%5"),
        ("@home", "@home"),
        ("`x` # said", "`x`"),
        ("*best* beer", "*best* beer"),
        ("& more", "& more"),
        ("> 5", "> 5"),
        ("| x", "| x"),
        ("? what", "? what"),
        (", what", ", what"),
        ('@ "home"', "@ 'home'"),
    ],
)
def test_a_value_that_starts_with_a_sign_of_yaml(value: str, quoted: str) -> None:
    told = f'a value cannot start with {value[0]}; put it in quotes: "{quoted}"'
    assert problems(f"{TOP}notes: {value}\n") == [f"5:8: {told}"]
    if value[0] != "?":  # behind a dash it starts a field, as YAML has it
        assert problems(f"{TOP}notes:\n  - {value}\n") == [f"6:5: {told}"]


def test_a_line_that_starts_with_a_per_cent_sign() -> None:
    told = "a line that starts with % means nothing in a recipe; leave it out"
    assert problems("%TITLE Bitter\n" + TOP) == [f"1:1: {told}"]
    assert problems(TOP + "% hop: x\n") == [f"5:1: {told}"]


@pytest.mark.parametrize(
    ("sign", "told"),
    [
        ("\x07", "there is an invisible control character (U+0007) here; delete it"),
        ("\x7f", "there is an invisible control character (U+007F) here; delete it"),
        ("\ufffe", "there is an invisible control character (U+FFFE) here; delete it"),
        ("\ufeff", "a byte-order mark (U+FEFF) stands in the middle of the text; delete it"),
        ("\0", "this is not a text file (there are zero bytes in it); save it as UTF-8 text"),
    ],
)
def test_characters_that_no_yaml_may_hold(sign: str, told: str) -> None:
    assert problems(f"{TOP}notes: a{sign}b\n") == [f"5:9: {told}"]
    assert problems(f"{TOP}# a{sign}b\n") == [f"5:4: {told}"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "# none\n",
            (
                "1:1: this file has only spaces and comments; a brewhouse starts with a line such as"
                " brewhouse: Saltmarsh Lane"
            ),
        ),
        ("a: 1\n---\nb: 2\n", "2:1: a second document starts here; keep one brewhouse to a file and leave out the ---"),
        ("%A\na: 1\n", "1:1: a line that starts with % means nothing in a brewhouse; leave it out"),
    ],
)
def test_a_brewhouse_is_not_told_of_recipes(text: str, told: str) -> None:
    document = read_document(text, "brewhouse")
    (problem,) = document.problems
    place = document.place(problem.span)
    assert f"{place.line}:{place.column}: {problem.message}" == told
