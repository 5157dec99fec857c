"""Several processes give what one gives; when one of them is ended or all are interrupted, nothing is left behind."""

import importlib.util
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

Call = Callable[..., tuple[int, str, str]]

SOUND = "recipe: {0}\nbatch: 20 l\ngrist:\n  - {{grain: pale ale malt, weight: 4 kg}}\n"
FAULTY = SOUND.replace("4 kg", "4")
TOLD = 'error: quantity: the weight "4" has no unit; write 4 kg or 4 lb'
COMMAND = [sys.executable, "-m", "mashwright", "review", "--jobs", "2"]

RAISES = '"""Does it raise?"""\ndef check(brew, limits):\n    raise RuntimeError("out of malt")\n'
ENDS = '"""Does it end?"""\nimport os, signal\ndef check(brew, limits):\n    os.kill(os.getpid(), signal.SIGKILL)\n'
SLOW = '"""Is it slow?"""\nimport time\ndef check(brew, limits):\n    time.sleep(0.05)\n    return ()\n'


def generator() -> ModuleType:
    path = Path(__file__).parent.parent / "benchmarks" / "recipes.py"
    spec = importlib.util.spec_from_file_location("recipes", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def fill(folder: Path, number: int, text: str = SOUND) -> None:
    for index in range(number):
        (folder / f"r{index:04}.yaml").write_text(text.format(f"Brew {index}"))


def test_the_same_bytes_as_by_one_process(process: Call, folder: Path) -> None:
    generator().write(folder, 410)
    (folder / "0001" / "brewhouse.yaml").write_text(
        "brewhouse: Shed\nrules: {run-off: off}\naccepted: [{rule: original-gravity, reason: as we like it}]\n"
    )
    (folder / "0001" / "broken.yaml").write_bytes(b"recipe: [\xff\n")
    (folder / "0002" / "other.yaml").write_text("name: x\n")
    told = {}
    for jobs in ("1", "2"):
        forms = ("--format", "text", "--format", "json", "--output", f"../{jobs}.json")
        more = ("--format", "sarif", "--output", f"../{jobs}.sarif", "--format", "junit", "--output", f"../{jobs}.xml")
        ended = process("review", "--notes", "--today", "2026-01-01", "--jobs", jobs, *forms, *more)
        assert ended[0] == 1
        assert len(ended[1].splitlines()) > 100
        told[jobs] = (*ended, *((folder.parent / f"{jobs}.{one}").read_bytes() for one in ("json", "sarif", "xml")))
    assert told["1"] == told["2"]


def test_a_rule_that_raises_in_a_process(process: Call, folder: Path, plugin: Callable[[str], str]) -> None:
    fill(folder, 2, FAULTY)
    told = (
        "the rule odd-rule failed: RuntimeError: out of malt; the other rules went on;"
        " please report it to those who make odd"
    )
    closing = (
        "2 recipes reviewed: 2 errors; 16 rules could not judge 2 recipes (--notes shows why);"
        " 2 faults of the program, so this is not the whole review"
    )
    path = plugin(RAISES)
    ended = process("review", "--jobs", "2", PYTHONPATH=path)
    assert ended == (
        2,
        f"r0000.yaml:4:36: {TOLD}\nr0001.yaml:4:36: {TOLD}\n",
        f"mashwright: r0000.yaml: {told}\nmashwright: r0001.yaml: {told}\n{closing}\n",
    )
    assert process("review", "--jobs", "1", PYTHONPATH=path) == ended


def test_a_process_that_is_ended_from_outside(process: Call, folder: Path, plugin: Callable[[str], str]) -> None:
    fill(folder, 2)
    (folder / "report.txt").write_text("old")
    told = (
        "mashwright: a process that reviewed recipes was ended from outside, perhaps because memory ran out;"
        " 2 files from r0000.yaml on are not reviewed; try fewer --jobs\n"
    )
    path = plugin(ENDS)
    assert process("review", "--jobs", "2", PYTHONPATH=path) == (2, "", told)
    assert process("review", "--jobs", "2", "--output", "report.txt", PYTHONPATH=path) == (2, "", told)
    assert (folder / "report.txt").read_text() == "old"
    assert sorted(os.listdir(folder)) == [".git", "r0000.yaml", "r0001.yaml", "report.txt"]


def assert_nobody_left(group: int) -> None:
    """All processes of a group have ended, or do within a moment."""
    for _ in range(50):
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return
        time.sleep(0.1)
    pytest.fail("processes are left")


def started(folder: Path, path: str) -> "subprocess.Popen[bytes]":
    """A parallel review under way: its first findings are there, and seconds of work before it."""
    fill(folder, 600, FAULTY)
    running = subprocess.Popen(
        COMMAND,
        env={**os.environ, "PYTHONPATH": path},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
    )
    assert running.stdout is not None
    assert running.stdout.readline() == f"r0000.yaml:4:36: {TOLD}\n".encode()
    return running


@pytest.mark.parametrize("everybody", [True, False], ids=["from the keyboard", "to the first process"])
def test_an_interrupt_in_the_middle(everybody: bool, folder: Path, plugin: Callable[[str], str]) -> None:
    running = started(folder, plugin(SLOW))
    began = time.monotonic()
    if everybody:
        os.killpg(running.pid, signal.SIGINT)
    else:
        running.send_signal(signal.SIGINT)
    _, err = running.communicate(timeout=30)
    assert (running.returncode, err) == (-signal.SIGINT, b"")
    assert time.monotonic() - began < 2.5, "it waited for what was under way, which takes longer"
    assert_nobody_left(running.pid)


def test_an_interrupt_while_nobody_reads(folder: Path) -> None:
    """The first process waits for its reader, and the others for work: they complain of nothing."""
    fill(folder, 1500, FAULTY)
    running = subprocess.Popen(COMMAND, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True)
    time.sleep(3.0)
    os.killpg(running.pid, signal.SIGINT)
    _, err = running.communicate(timeout=30)
    assert (running.returncode, err) == (-signal.SIGINT, b"")
    assert_nobody_left(running.pid)


def test_a_closed_pipe_in_the_middle(folder: Path, plugin: Callable[[str], str]) -> None:
    running = started(folder, plugin(SLOW))
    assert running.stdout is not None
    assert running.stderr is not None
    running.stdout.close()
    assert running.wait(timeout=30) == -signal.SIGPIPE
    assert running.stderr.read() == b""
    running.stderr.close()
    assert_nobody_left(running.pid)


@pytest.mark.parametrize("jobs", ["0", "-1", "two"])
def test_a_number_of_processes_that_is_none(jobs: str, mashwright: Call) -> None:
    status, out, err = mashwright("review", "--jobs", jobs)
    assert (status, out) == (2, "")
    assert "invalid value for '--jobs'" in err


def test_more_processes_than_recipes(process: Call, folder: Path) -> None:
    fill(folder, 1)
    assert process("review", "--jobs", "8") == (0, "", "1 recipe reviewed: no errors, no warnings\n")
