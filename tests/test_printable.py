"""The one door to a person or a file: what passes it as it is, what as its escape, and that there is no other."""

import ast
import json
import re
import unicodedata
from io import StringIO
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

import mashwright
from mashwright.printable import MARKS, complain, harmless, printed, publish, say
from mashwright.reporting.machine import dump

SOURCES = Path(mashwright.__file__).parent
ANY_TEXT = st.text(st.characters(exclude_categories=()), max_size=40)
ORDERS = [
    "::add-mask::x",
    " ::set-output name=a::b",
    "##[group]x",
    "##vso[task.complete]",
    "###[x",
    "\t::stop-commands::",
]
TEXTS = ANY_TEXT | st.lists(st.sampled_from([*ORDERS, ":", "#", "[", " ", "\u200b", "a"])).map("".join)


def is_order(line: str) -> bool:
    """Whether a runner that reads this line of a log would do what it says."""
    return line.strip().startswith("::") or re.search(r"##[a-z]*\[", line, re.IGNORECASE) is not None


def is_seen(line: str) -> bool:
    """Whether every character shows; marks and emoji as they usually stand."""
    without = re.sub("(?<=[^ -~])[\ufe0e\ufe0f]", "", line)
    categories = {unicodedata.category(one) for one in without.replace(" ", "")}
    hidden = re.search("[\ufe00-\ufe0f\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180f\u2800\u3164\uffa0]", without)
    return not categories & {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp", "Zs"} and hidden is None


@pytest.mark.parametrize(
    "text",
    [
        "the mash averages 24 °Lintner; below 30 its starch does not convert",
        "Märzen – 3 × ½ lb, “Größe”",
        "Плзень, 啤酒, μπύρα, ビール",
        "e\u0301 and a\u0308",  # accents as letters of their own
        "हिन्दी, தமிழ், עִבְרִית",
        "🍺 ❤️ ☀︎ ✔️",
        "a::b, # 1, #[x], [::], 10:30",
    ],
)
def test_what_can_be_read_passes(text: str) -> None:
    assert printed(text) == text


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("a\nb\r\tc\0", "a\\nb\\r\\tc\\x00"),
        ("\x1b[31m\x7f\x9b", "\\x1b[31m\\x7f\\x9b"),
        ("\u2028\u2029\x85", "\\u2028\\u2029\\x85"),
        ("\u202e\u2066\u200e\u061c", "\\u202e\\u2066\\u200e\\u061c"),
        ("a\u200bb\u200d\ufeff\u00ad\u2060", "a\\u200bb\\u200d\\ufeff\\xad\\u2060"),
        ("a\u00a0b\u3000", "a\\xa0b\\u3000"),
        ("\udcff\ud800", "\\udcff\\ud800"),
        ("\U000e0041\ue000\U0010ffff\u0378", "\\U000e0041\\ue000\\U0010ffff\\u0378"),
        ("a\ufe0f\U000e0100", "a\\ufe0f\\U000e0100"),
        ("❤\ufe0f\ufe0f", "❤\ufe0f\\ufe0f"),
        ("\u3164\u115f\u2800\u034f", "\\u3164\\u115f\\u2800\\u034f"),
        ("\u0301 \u0338", "\\u0301 \\u0338"),
        ("\u200b\u0301", "\\u200b\\u0301"),
        ("e" + "\u0301" * 8, "e" + "\u0301" * MARKS + "\\u0301" * 2),
    ],
)
def test_what_does_not_show_is_escaped(text: str, shown: str) -> None:
    assert harmless(text) == shown


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ("::add-mask::x", "\\x3a:add-mask::x"),
        ("    ::stop-commands::x", "    \\x3a:stop-commands::x"),
        (":::", "\\x3a::"),
        ("a.yaml ##[group]x", "a.yaml \\x23#[group]x"),
        ("###vso[task.setvariable]", "#\\x23#vso[task.setvariable]"),
        ("##VSO[x]##[y]", "\\x23#VSO[x]\\x23#[y]"),
        ("\x1b[0Ksection_start:1:x\r\x1b[0K", "\\x1b[0Ksection_start:1:x\\r\\x1b[0K"),
    ],
)
def test_no_order_to_a_runner(line: str, shown: str) -> None:
    assert printed(line) == shown


@given(TEXTS)
def test_a_line_shows_all_it_has_and_orders_nothing(text: str) -> None:
    line = printed(text)
    assert is_seen(line)
    assert not is_order(line)
    assert printed(line) == line


@given(st.lists(TEXTS, max_size=3), st.integers(0, 3))
@example(["##[x", "\U0001f37a\U000e0001\udcff", "\\", '"##[', "\x7f\n"], 1)
def test_json_says_the_same_in_escapes(texts: list[str], depth: int) -> None:
    document = dict.fromkeys(["", *texts], texts)
    text = dump(document, depth)
    assert json.loads(text.encode("utf-8")) == document
    assert all(is_seen(line) and not is_order(line) for line in text.split("\n"))


@given(TEXTS)
def test_the_door(text: str) -> None:
    said, inked, published, table = StringIO(), StringIO(), StringIO(), StringIO()
    say(text, said)
    say(f"{text}\x1b[31m{text}\x1b[0m{text}", inked, inked=True)
    publish(text, published)
    publish(f"a\t{text}", table, tabs=True)
    assert said.getvalue() == f"{printed(text)}\n"
    assert inked.getvalue() == "{0}\x1b[31m{0}\x1b[0m{0}\n".format(printed(text))
    assert published.getvalue().count("\n") == text.removesuffix("\n").count("\n") + 1
    assert all(is_seen(line) and not is_order(line) for line in published.getvalue().split("\n"))
    assert all(is_seen(line) for line in table.getvalue().replace("\t", "").split("\n"))


def test_what_the_program_says_for_itself_is_a_line(capsys: pytest.CaptureFixture[str]) -> None:
    complain("a\n::b")
    assert capsys.readouterr() == ("", "mashwright: a\\n::b\n")


def calls(tree: ast.AST) -> list[str]:
    return [ast.unparse(one.func) for one in ast.walk(tree) if isinstance(one, ast.Call)]


def test_there_is_no_other_door() -> None:
    """Nothing but that module prints, echoes, or writes text into an open file."""
    others = {"print", "input", "click.echo", "click.secho", "echo", "secho", "click.echo_via_pager", "os.write"}
    files = [path for room in ("linter", "rules", "schema") for path in (SOURCES.parent.parent / room).rglob("*.py")]
    assert len(files) > 100
    made = {path: calls(ast.parse(path.read_text(encoding="utf-8"))) for path in files if path.name != "printable.py"}
    found = [
        (path.name, one)
        for path, names in made.items()
        for one in names
        if one in others or one.endswith((".write", ".writelines", ".print_exc"))
    ]
    # a recipe of the user's own, as it stands; the pages of a book, whose templates have a door of their own; and the
    # folder that git alone reads
    doors = [("amend.py", "new.write"), ("folder.py", "file.write"), ("repository.py", "file.write")]
    assert sorted(found) == doors
