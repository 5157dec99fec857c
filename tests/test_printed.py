"""Any text in any field and any file's name, in every form and command: nothing printed hides, turns, steers or orders.

Derandomised, so that each run is the same run; ``FUZZ_TIMES=20`` makes it twenty times as long, with other examples.
"""

import json
import os
import re
import sys
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from io import BytesIO, StringIO, TextIOWrapper
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple
from xml.etree.ElementTree import fromstring

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from mashwright.cli.command import run

TIMES = int(os.environ.get("FUZZ_TIMES", "1"))
FORMS = ("text", "json", "sarif", "junit", "markdown")
HOSTILE = (
    "::add-mask::x", "::set-output name=a::b", "::stop-commands::t", "##[group]x", "##vso[task.complete result=Failed]",
    "\x1b[0Ksection_start:1:x\r\x1b[0K", "\x1b]0;owned\x07", "\x1b[2J", "\u202e", "\u2066", "\u200b", "\u200d",
    "\ufeff", "\u00ad", "\u2028", "\x85", "\x7f", "\x9b31m", "\U000e0041", "\ufe0f", "\u3164", "\u2800", "\udcff",
    "\ud800", "\x00", "e" + "\u0301" * 40, "\n", "\r\n", "\n::error::x", "\t", "<script>", "](https://a.example)",
    "![a](b)", "@brewers", "```", "|", "]]>", "&#x1b;", "\\u001b", "\ufffe", "word", "malt", " ", " " * 30, "a" * 70,
    "°C", "🍺", "4 kg", "%", "#", ":",
)  # fmt: skip
TEXTS = st.lists(
    st.sampled_from(HOSTILE) | st.text(st.characters(exclude_categories=()), max_size=3), min_size=1, max_size=8
).map("".join)


def seen(text: str) -> bool:
    """Whether every character of a text shows, line ends apart; marks and emoji as they usually stand."""
    without = re.sub("(?<=[^ -~])\ufe0f", "", text.replace("\n", "").replace(" ", ""))
    hidden = re.search("[\ufe00-\ufe0f\u034f\u115f\u1160\u17b4\u17b5\u180b-\u180f\u2800\u3164\uffa0]", without)
    flood = re.search("[\u0300-\u036f]{7}", without)
    odd = {unicodedata.category(one) for one in without} & {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp", "Zs"}
    return not (hidden or flood or odd)


def orders(text: str) -> list[str]:
    """The lines that a runner would take for its own, in any of the ways in which they find them."""
    lines = text.splitlines()
    return [line for line in lines if line.strip().startswith("::") or re.search(r"(?i)##[a-z]*\[", line)]


def quoted(text: str) -> str:
    """In double quotes for YAML, which cannot hold half letters even so."""
    return json.dumps("".join("?" if "\ud800" <= one <= "\udfff" else one for one in text))


def recipe(text: str, *, sound: bool) -> str:
    """A recipe with a text wherever a text may stand; and if it is not to be sound, wherever none may."""
    name, other = quoted(text), quoted(f"{text}x")
    lines = [
        f"recipe: {name}", f"by: {name}", f"style: {name}", f"source: {name}", f"notes: {{{name}: {name}}}",
        "batch: 20 l", "grist:", f"  - {{grain: {name}, weight: 4 kg, lot: {name}}}",
        "  - {grain: caramel malt 60, weight: 5 kg}",
        f"  - {{grain: {other}, kind: raw grain, weight: 2 kg}}",
        "mash: {water: 20 l, rests: [{at: 66 °C, for: 10 min}, {at: 62 °C, for: 10 min}]}",
        f"hops: [{{hop: {name}, weight: 30 g, alpha: 5 %, boil: 60 min}}]",
        f"additions: [{{what: {name}, weight: 1 g, when: {name}}}]",
        f"yeast: {{kind: {name}, tolerance: 3 %}}", "targets: {og: 1.120, fg: 1.001, abv: 2 %, bitterness: 90 IBU}",
        f"accepted: [{{rule: final-gravity, reason: {name}}}, {{rule: {name}, reason: {name}, until: {name}}}]",
    ]  # fmt: skip
    if not sound:
        lines += [f"sparge: {{water: {name}, at: {name}, by: {name}, {name}: 1}}", f"{name}: {name}", f"top-up: {name}"]
        lines += [
            f"measured: [{{date: {name}, og: {name}}}]",
            f"boil: {{volume: {name}}}",
            f"ferment: [{{at: {name}}}]",
        ]
    return "\n".join(lines) + "\n"


def brewhouse(text: str) -> str:
    name = quoted(text)
    return (
        f"brewhouse: {name}\nefficiency: 72 %\nlots: {{{name}: {{of: {name}, moisture: 4 %}}}}\n"
        f"ingredients: {{{name}: {{kind: base malt}}}}\nrules: {{{name}: {{{name}: {name}}}, run-off: {{{name}: 1}}}}\n"
        f"accepted: [{{rule: run-off, reason: {name}}}]\nrecipes: [{name}]\n{name}: {name}\n"
        f"kettle: {{volume: {name}}}\n"
    )


def as_name(text: str) -> str:
    """As much of a text as a file's name can hold."""
    name = text.replace("/", "_").replace("\0", "_")
    name = "".join(one for one in name if not "\ud800" <= one <= "\udc7f")
    return os.fsdecode(os.fsencode(name)[:120]) or "x"


def field(text: str) -> str:
    """A text as a stranger may have put it into a baseline."""
    return re.sub("[\t\n\r\ud800-\udfff]", "_", text)


def as_bytes(text: str) -> bytes:
    """A text in UTF-8, and what is none of it as a bad editor would leave it."""
    return b"".join(
        one.encode("utf-8", "surrogateescape" if "\udc80" <= one <= "\udcff" else "surrogatepass") for one in text
    )


class Said(NamedTuple):
    """What one command line printed."""

    status: int
    out: str
    err: str


def said(*arguments: str, stdin: bytes = b"") -> Said:
    with pytest.MonkeyPatch.context() as patch, redirect_stdout(StringIO()) as out, redirect_stderr(StringIO()) as err:
        patch.setattr(sys, "stdin", TextIOWrapper(BytesIO(stdin)))
        status = run(arguments)
    for text in (out.getvalue(), err.getvalue()):
        assert seen(text), (arguments, text)
        assert orders(text) == [], arguments
    return Said(status, out.getvalue(), err.getvalue())


@contextmanager
def club(text: str, house: str) -> Iterator[str]:
    """A repository, as the current folder, in which a text is in names of a folder and of files, and in each field."""
    name, before = as_name(text), os.getcwd()
    with TemporaryDirectory() as folder:
        os.chdir(folder)
        try:
            Path(".git").mkdir()
            os.mkdir(f"x{name}")
            for path, content in (
                (f"x{name}/{name}.yaml", recipe(text, sound=True)),
                (f"x{name}/a.yaml", recipe(text, sound=False)),
                (f"x{name}/b{name}.yaml", f"recipe: {text}\n{text}\ngrist: {text}\n"),
                (f"x{name}/c{name}.yaml", text),
                (f"x{name}/brewhouse.yaml", house),
            ):
                Path(path).write_bytes(as_bytes(content))
            yield name
        finally:
            os.chdir(before)


def test_the_trial_recipe_is_read() -> None:
    """Else nothing of what follows would be tried."""
    with club("Lane word", brewhouse("Lane word")):
        ended = said("review", "xLane word/Lane word.yaml", "--notes")
        found = {line.split(": ")[2] for line in ended.out.splitlines() if ": error: " in line or ": warning: " in line}
        assert found >= {"usual-share", "original-gravity", "bitterness", "accepted"}
        assert "unreadable" not in found
        figures = said("figures", "xLane word/Lane word.yaml").out
        assert figures.count("Lane word") > 5


@settings(max_examples=12 * TIMES, derandomize=TIMES == 1, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(TEXTS)
@example("::add-mask::x\n::stop-commands::y ##[group] " * 3)
@example("\x1b[31m\u202e\u200b\U000e0041\ufe0f\u2028\x85\x7f\x9b")
@example("aaa ::set-output name=x::y ##vso[task.setvariable variable=x]y" * 3)
@example("](https://elsewhere.example) @brewers | ``` <b> ![x](y)")
def test_nothing_printed_hides_turns_steers_or_orders(text: str) -> None:
    with club(text, brewhouse(text)) as name:
        folder, listed = f"x{name}", [f"x{name}/{one}{name}.yaml" for one in ("", "b", "c")]
        outputs = [part for form in FORMS for part in ("--format", form, "--output", f"review.{form}")]
        said("review", folder, "--notes", *outputs)
        for form in FORMS:
            written = Path(f"review.{form}").read_text(encoding="utf-8")
            assert seen(written), form
            assert orders(written) == [], form
        json.loads(Path("review.json").read_text(encoding="utf-8"))
        json.loads(Path("review.sarif").read_text(encoding="utf-8"))
        fromstring(Path("review.junit").read_text(encoding="utf-8"))
        said("review", folder, "--audit")
        for path in listed:
            said("figures", path)
            json.loads(said("figures", path, "--format", "json").out)
        # a baseline, of which everything is gone later, under the name and in the folder
        said("review", folder, "--baseline", "known.txt", "--write-baseline")
        known = Path("known.txt").read_text(encoding="utf-8")
        assert seen(known.replace("\t", ""))
        assert orders(known) == []
        for path in listed:
            os.unlink(path)
        with open("known.txt", "a", encoding="utf-8") as file:
            file.write(f"{field(text)}\t{field(text)}\t{field(text)}\terror\t1\n\\ud800\ta\tb\terror\t1\n")
        for form in FORMS:
            said("review", folder, "--baseline", "known.txt", "--format", form)
        said("review", folder, "--baseline", "known.txt", "--prune")
        said("review", f"{folder}/brewhouse.yaml")


@settings(max_examples=30 * TIMES, derandomize=TIMES == 1, deadline=None)
@given(TEXTS)
@example("::add-mask::x")
@example("\x1b[31m\n::x")
def test_what_is_typed_comes_back_harmless(text: str) -> None:
    """In complaints of the command line's own, and of what is not there."""
    typed = as_name(text)
    with TemporaryDirectory() as folder:
        before = os.getcwd()
        os.chdir(folder)
        try:
            for arguments in (
                (typed,), ("explain", typed), ("names", typed), ("names", "hops", typed), ("review", typed),
                ("figures", typed), ("figures", f"{typed}.yaml"),
                ("review", f"--{typed}"), ("review", "--format", typed), ("review", "--today", typed),
                ("review", "--stop-at", typed), ("review", "--jobs", typed), ("review", "--baseline", typed),
                ("review", "--format", "text", "--output", f"{typed}/x/y"), ("review", "--output", f"{typed}.yaml"),
                ("figures", "--name", typed, "-"), ("review", "-", typed), ("review", "--name", typed),
                ("review", "--trusted", typed, "."), (f"--{typed}",),
            ):  # fmt: skip
                if arguments[-1] not in ("-", ""):
                    said(*arguments)
            for form in FORMS:
                said("review", "-", "--name", f"{typed}.yaml", "--format", form, stdin=text.encode("utf-8", "replace"))
            said("review", "-", "--name", "brewhouse.yaml", stdin=brewhouse(text).encode("utf-8", "replace"))
        finally:
            os.chdir(before)
