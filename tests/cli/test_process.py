"""The program as a process: signals, pipes, environments, and the same bytes for the same call."""

import os
import pty
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

Call = Callable[..., tuple[int, str, str]]

FAULTY = """\
recipe: Bräu
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 2 kg}
  - {grain: raw wheat, weight: 5 kg}
mash: {rests: [{at: 66 °C, for: 60 min}]}
boil: {for: 60 mün}
"""


def fill(folder: Path, number: int) -> None:
    for index in range(number):
        (folder / f"r{index:04}.yaml").write_text(FAULTY)


def test_the_same_call_gives_the_same_bytes(process: Call, folder: Path) -> None:
    fill(folder, 3)
    for form in ("text", "json", "sarif"):
        call = ("review", "--format", form, "--today", "2026-01-01")
        first = process(*call, PYTHONHASHSEED="1")
        assert first[0] == 1
        assert process(*call, PYTHONHASHSEED="2", LC_ALL="C", TZ="Asia/Tokyo", COLUMNS="40") == first


def test_nothing_is_coloured_or_wider_than_80_where_it_is_no_terminal(process: Call, folder: Path) -> None:
    fill(folder, 1)
    _, out, err = process("review", "--notes", TERM="xterm-256color")
    assert "\x1b" not in out + err
    first, *below = out.splitlines()
    assert first.startswith("r0000.yaml:")
    assert below
    assert all(len(line) <= 80 or not line.startswith(" ") for line in below)


@pytest.mark.parametrize(
    ("environment", "coloured"),
    [({"TERM": "xterm"}, True), ({"TERM": "xterm", "NO_COLOR": "1"}, False), ({"TERM": "dumb"}, False)],
)
def test_colour_on_a_terminal_only_where_it_is_wanted(
    environment: dict[str, str], coloured: bool, folder: Path
) -> None:
    fill(folder, 1)
    ours, theirs = pty.openpty()
    cleared = {name: value for name, value in os.environ.items() if name != "NO_COLOR"}
    subprocess.run(
        [sys.executable, "-m", "mashwright", "review"],
        stdout=theirs,
        stderr=subprocess.DEVNULL,
        env={**cleared, **environment},
        check=False,
        timeout=60,
    )
    os.close(theirs)
    shown = os.read(ours, 100_000).decode(errors="replace")
    os.close(ours)
    assert ("\x1b[31merror\x1b[0m" in shown) is coloured
    assert "error" in shown


def test_letters_that_the_locale_has_not_are_no_crash(process: Call, folder: Path) -> None:
    fill(folder, 1)
    status, out, err = process("review", LC_ALL="C", PYTHONUTF8="0", PYTHONCOERCECLOCALE="0")
    assert status == 1
    assert "Traceback" not in err
    assert 'r0000.yaml:7:13: error: quantity: the time "60 mün" has an unknown unit' in out


def test_a_closed_pipe_ends_quietly_by_the_signal(folder: Path) -> None:
    fill(folder, 300)
    command = f'"{sys.executable}" -m mashwright review 2>err | head -1; echo "${{PIPESTATUS[0]}}"'
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, timeout=60, check=True)
    first, status = done.stdout.splitlines()
    assert re.match(r"r0000\.yaml:\d+:\d+: \w+: ", first)
    assert status == str(128 + signal.SIGPIPE)
    assert (folder / "err").read_text() == ""


def test_a_pipe_that_takes_errors_too(folder: Path) -> None:
    fill(folder, 300)
    command = f'"{sys.executable}" -m mashwright review 2>&1 | head -1; echo "${{PIPESTATUS[0]}}"'
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, timeout=60, check=True)
    assert (done.stdout.splitlines()[1:], done.stderr) == ([str(128 + signal.SIGPIPE)], "")


@pytest.mark.parametrize(
    ("before", "redirected", "status", "told"),
    [
        ("", ">&-", 1, "1 recipe reviewed: 1 error"),
        ("", "- <&-", 1, "1 recipe reviewed: 1 error"),
        ("", "2>&-", 1, ""),
        ("ulimit -f 0;", ">full", 2, "mashwright: the results cannot be written: File too large"),
    ],
)
def test_streams_that_are_closed_or_full(before: str, redirected: str, status: int, told: str, folder: Path) -> None:
    fill(folder, 1)
    command = f'{before} "{sys.executable}" -m mashwright review {redirected}'
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, timeout=60, check=False)
    assert done.returncode == status
    assert done.stderr.split("\n")[-2:][0].startswith(told)
    assert "Traceback" not in done.stderr


def test_an_interrupt_ends_quietly_by_the_signal(folder: Path) -> None:
    fill(folder, 1)
    running = subprocess.Popen(
        [sys.executable, "-m", "mashwright", "review", "-"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    time.sleep(1.0)  # it waits for the recipe by then
    running.send_signal(signal.SIGINT)
    out, err = running.communicate(timeout=30)
    assert (running.returncode, out, err) == (-signal.SIGINT, b"", b"")


def test_help_and_version(process: Call) -> None:
    status, out, _ = process("--version")
    assert (status, re.fullmatch(r"mashwright \d+\.\d+\.\d+\n", out) is not None) == (0, True)
    for arguments in (("--help",), ("-h",), ()):
        status, out, err = process(*arguments)
        assert (status, err) == (0, "")
        assert re.findall(r"^  ([a-z][a-z-]*)  ", out, re.MULTILINE) == [
            "amend",
            "begin",
            "book",
            "compare",
            "explain",
            "figures",
            "language-server",
            "names",
            "review",
            "schema",
            "sheet",
        ]
