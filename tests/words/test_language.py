"""Our own sentences, held to what a program can hold: questions, spaces, units, length, and the words not to use.

They are gathered from where they stand: the sentences of the rules, the titles and the workings of figures, what the
reading, the amounts and the settings say, the helps of the commands, and the golden files, where values fill them in.
"""

import ast
import re
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

import click
import pytest

from mashwright.cli.command import command as program
from mashwright.figures import ALL
from mashwright.reviewing.plugins import installed

TESTS = Path(__file__).parent.parent
GOLDEN = TESTS / "golden"
MASHWRIGHT = TESTS.parent / "linter" / "mashwright"

SPEAKING = (
    "brew",
    "cli",
    "figures",
    "measures",
    "reading",
    "recipe",
    "reporting",
    "reviewing",
    "knobs.py",
    "crash.py",
    "finding.py",
)
"""Where a sentence of the program may stand in the code."""


class Line(NamedTuple):
    """A line that is shown to a brewer."""

    where: str
    text: str


def _pieces(file: Path) -> Iterator[Line]:
    """The texts of a file that are not docstrings; of an f-string its values are ``{}``."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    not_said: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr):
            not_said.add(id(node.value))
        if isinstance(node, ast.JoinedStr):
            not_said.update(id(value) for value in node.values)
        if isinstance(node, ast.FormattedValue) and node.format_spec:
            not_said.add(id(node.format_spec))
        if isinstance(node, ast.Call) and ast.unparse(node.func) in ("pattern", "re.compile"):
            not_said.update(id(argument) for argument in node.args)
    for node in ast.walk(tree):
        if id(node) in not_said:
            continue
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            text = node.value
        elif isinstance(node, ast.JoinedStr):
            text = "".join(str(one.value) if isinstance(one, ast.Constant) else "{}" for one in node.values)
        else:
            continue
        if re.search(r"[a-z{}]{2} [a-z{]", text):
            yield Line(f"{file.relative_to(MASHWRIGHT)}:{node.lineno}", text)


@cache
def in_code() -> tuple[Line, ...]:
    """What the code says by itself."""
    files = [path for name in SPEAKING for path in ((MASHWRIGHT / name).rglob("*.py") or [MASHWRIGHT / name])]
    files += [MASHWRIGHT / name for name in SPEAKING if name.endswith(".py")]
    return tuple(line for file in sorted(set(files)) for line in _pieces(file))


@cache
def in_rules() -> tuple[Line, ...]:
    """The sentences of the rules."""
    return tuple(
        Line(f"{rule.id}: {name}", text)
        for rule in installed().rules.values()
        for name, text in rule.module.SAYS.items()
    )


@cache
def in_titles() -> tuple[Line, ...]:
    """The titles of the figures."""
    return tuple(Line(function.id, function.title) for function in ALL)


@cache
def in_helps() -> tuple[Line, ...]:
    """The helps of all commands and their options."""

    def of(command: click.Command) -> Iterator[Line]:
        for text in (command.help, command.short_help, command.epilog):
            if text:
                for paragraph in text.split("\n\n"):
                    yield Line(f"{command.name} --help", " ".join(paragraph.split()))
        for option in command.params:
            if isinstance(option, click.Option) and option.help:
                yield Line(f"{command.name} {option.opts[0]}", option.help)
        if isinstance(command, click.Group):
            context = click.Context(command)
            for name in command.list_commands(context):
                one = command.get_command(context, name)
                assert one is not None
                yield from of(one)

    return tuple(of(program))


_FINDING = re.compile(r"\S+\.yaml:\d+:\d+: (?:(error|warning|note): [a-z-]+: )?(.*)")
_ROW = re.compile(r"    (\S.*?)   +\S")


class Golden(NamedTuple):
    """What stands in the golden files."""

    findings: tuple[Line, ...]
    remedies: tuple[Line, ...]
    labels: tuple[Line, ...]
    others: tuple[Line, ...]


@cache
def golden() -> Golden:
    """The golden pages, their lines by what they are."""
    findings, remedies, labels, others = [], [], [], []
    for file in (
        *sorted((GOLDEN / "rules").glob("*.txt")),
        GOLDEN / "sample-review.txt",
        GOLDEN / "notebook-audit.txt",
    ):
        name = file.name
        lines = file.read_text(encoding="utf-8").splitlines()
        for number, text in enumerate(lines, start=1):
            where = f"{name}:{number}"
            if found := _FINDING.fullmatch(text):
                findings.append(Line(where, found[2]))
            elif re.match(r"    (?:mend it|or): ", text):
                following = [text.partition(": ")[2]]
                for line in lines[number:]:
                    if not line.startswith("        "):
                        break
                    following.append(line.strip())
                remedies.append(Line(where, " ".join(following)))
            elif row := _ROW.match(text):
                labels.append(Line(where, row[1]))
            else:
                others.append(Line(where, text.strip()))
    for number, text in enumerate((GOLDEN / "dangers.txt").read_text(encoding="utf-8").splitlines(), start=1):
        others.append(Line(f"dangers.txt:{number}", text.split(": ", 3)[-1]))
    return Golden(tuple(findings), tuple(remedies), tuple(labels), tuple(others))


def test_the_lines_are_found() -> None:
    assert len(in_rules()) > 400
    assert len(in_titles()) > 50
    assert len(in_code()) > 500
    assert len(in_helps()) > 25
    assert min(map(len, golden())) > 50


def everything() -> Iterator[Line]:
    yield from in_rules()
    yield from in_titles()
    yield from in_code()
    yield from in_helps()
    for lines in golden():
        yield from lines


def told(lines: Iterable[Line]) -> list[str]:
    """Lines as a failing test shows them, each text once."""
    return [f"{line.where}: {line.text}" for line in {line.text: line for line in lines}.values()]


# --- questions

_ASKS = re.compile(
    r"(?:or )?(?:did you mean|(?:is|are|was|were|did|does|do|has|have|should|could|can)"
    r" (?:it|its|this|that|these|the|you|a|an|not)\b)"
)

ASKED_LATER = "lot: did-you-mean-lot"
"""The one sentence whose question mark is a part of its own, since more lots may be named before it."""


def asks_badly(text: str) -> bool:
    """Whether a question lacks its mark, or something follows a question that is none."""
    said = text.split("; ")
    marked = [part.endswith(("?", "?)")) for part in said]
    asked = [bool(_ASKS.match(part)) for part in said]
    if any(question and not mark for question, mark in zip(asked, marked, strict=True)):
        return True
    return sorted(marked) != marked or any("? " in part for part in said)


@pytest.mark.parametrize(
    ("text", "bad"),
    [
        ("5 kg is a lot; did you mean 500 g", True),
        ("5 kg is a lot; did you mean 500 g?", False),
        ("did you mean 500 g?; weigh it", True),
        ("is it meant? weigh it", True),
        (" has a colour of 5 EBC", False),
        ("the mash is hot", False),
    ],
)
def test_a_bad_question_is_seen(text: str, bad: bool) -> None:
    assert asks_badly(text) is bad


def test_a_question_ends_with_its_mark_and_comes_last() -> None:
    lines = (line for line in (*in_rules(), *golden().findings) if line.where != ASKED_LATER)
    assert told(line for line in lines if asks_badly(line.text)) == []


# --- spaces and length


def spaced_badly(text: str) -> bool:
    """Whether two words stand more than a space apart."""
    return bool(re.search(r"\S  +\S", text))


def test_two_spaces_are_seen() -> None:
    assert spaced_badly("the mash  is hot")
    assert not spaced_badly("  the mash is hot")


def test_words_are_a_space_apart() -> None:
    assert told(line for line in everything() if spaced_badly(line.text)) == []


MOST_WORDS = 30


def too_long(text: str) -> bool:
    """Whether a part of a message, between semicolons, is more than can be called across a brewhouse."""
    return any(len(part.split()) > MOST_WORDS for part in re.split(r"[;.] |: (?=\D)", text))


def test_a_long_sentence_is_seen() -> None:
    assert too_long("word " * 31)
    assert not too_long("word " * 30)
    assert not too_long("word " * 20 + "; " + "word " * 20)


def test_no_sentence_is_too_long_to_be_called_across_a_brewhouse() -> None:
    lines = (*in_rules(), *in_titles(), *in_helps(), *golden().findings, *golden().remedies)
    assert told(line for line in lines if too_long(line.text)) == []


# --- words

NOT_THESE = {
    r"blanks?": "space",
    r"liquors?": "water, strike water, sparge water",
    r"waters(?! of| are)": "water",
    r"dough(?:ed|ing|s)?[ -]in": "mash in",
    r"goods": "grain bed",
    r"coppers?": "kettle",
    r"acceptances?": "entry",
    r"wants?|wanted|wanting|asks? for|asked for": "needs",
    r"reckon(?:s|ed|ing)?": "work out, count",
    r"tells?": "says, shows",
    r"holds?(?= (?:gluten|oats|alcohol|sulfite|sugar|starch|\w+ acid))": "contains",
    r"(?:is|are|be|been) taken (?:as|for)|taken:": "assumed, read as",
    r"yeasts? (?:that|which) splits?(?: dextrins)?": "diastatic yeast",
    r"favourable end": "best case, worst case",
    r"silent(?:ly)?": "skipped",
    r"hardly meant|is none|is no (?:recipe|field|number|specific|list|length|day|food|gravity|pH)": "is not a",
    r"next to nothing": "almost nothing",
    r"at the (?:least|most)": "at least, at most, in front",
    r"commonly|somewhere|hence|thereof|therein": "the everyday word",
    r"in place of": "instead of",
}
"""Words that are not used here, as patterns, and what is said instead."""


def not_these(text: str) -> list[str]:
    """What should be said instead of the words in a text that are not used; names and values in it apart."""
    plain = re.sub(r"`[^`]*`|\{[^}]*\}|\"[^\"]*\"", "{}", text)
    found = (
        (re.search(rf"(?<![\w-])(?:{bad})(?![\w-])", plain, re.IGNORECASE), good) for bad, good in NOT_THESE.items()
    )
    return [f"{hit[0]}: say {good}" for hit, good in found if hit]


def test_a_word_that_is_not_used_is_seen() -> None:
    assert not_these("the liquor wants salt") == ["liquor: say water, strike water, sparge water", "wants: say needs"]
    assert not_these("at dough-in 2 l at the least") == [
        "dough-in: say mash in",
        "at the least: say at least, at most, in front",
    ]
    assert not_these('"copper finings" need water') == []


def test_the_words_are_the_trades_and_everyday_ones() -> None:
    lines = {line.text: line for line in everything()}.values()
    assert [f"{line.where}: {line.text} ({bad})" for line in lines for bad in not_these(line.text)] == []


# --- remedies, units

VERBS = (
    "add|use|cut|raise|change|move|leave out|rest|cook|boil|brew|mash|state|write|put|say|take|keep|package|pitch"
    "|ferment|fill|dilute|sparge|steep|delete|weigh|carbonate|set|bring|strike"
)


def test_a_remedy_begins_with_a_verb() -> None:
    assert told(line for line in golden().remedies if not re.match(rf"(?:{VERBS})\b", line.text)) == []


_GOES_ON = r"(?:in [A-Z]|in the|it|its|the|is|does|which|and|but|by)\b"
_NUMBER = re.compile(rf"(?<![\w.,:/°-])\d[\d.,]*(?:-\d[\d.]*)?(?![\w.,:/°-]|\s*(?:%|°|(?!{_GOES_ON})[a-zA-Z]))")
_BARE_BY_NATURE = re.compile(r"[01]\.\d{3}(?:-[01]\.\d{3})?|1[5-9]\d\d|20\d\d")

MOST_PH = 25
"""By which a mash may fall on paper, with acid enough; more than 14 is nonsense of the recipe's, and is printed."""


def without_unit(text: str) -> list[str]:
    """The numbers in a message that have no unit; a gravity, a year and a pH have none.

    A range in brackets behind an amount has its unit from there; what is quoted is as the recipe writes it.
    """
    plain = re.sub(r"\"[^\"]*\"|\([\d.]+ to [\d.]+\)", "", text)
    found = [hit.rstrip(".,") for hit in _NUMBER.findall(plain)]
    ph = re.search(r"\bpH\b", plain)
    return [one for one in found if not _BARE_BY_NATURE.fullmatch(one) and not (ph and float(one) <= MOST_PH)]


@pytest.mark.parametrize(
    ("text", "bare"),
    [
        ("the mash averages 15 °Lintner; below 30 it converts slowly", ["30"]),
        ("beer rarely contains more than 110", ["110"]),
        ("about 11 IBU (9 to 14) by published models", []),
        ("OG 1.050 of 1934 at pH 5.2; it is 5", []),
        ("1.7; wait", ["1.7"]),
    ],
)
def test_a_number_without_its_unit_is_seen(text: str, bare: list[str]) -> None:
    assert without_unit(text) == bare


def test_a_number_has_its_unit() -> None:
    assert told(line for line in golden().findings if without_unit(line.text)) == []
