"""Two runs that write one baseline: one waits for the other, and nothing is lost."""

import fcntl
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from mashwright.cli import known

Call = Callable[..., tuple[int, str, str]]

FAULTY = "recipe: Lane Bitter\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 4}\n"
WRITE = ("review", "--baseline", "known", "--write-baseline")
WAITS = "mashwright: known: another run writes a baseline in this folder; this one waits for it\n"


@contextmanager
def begun(name: str) -> Iterator["subprocess.Popen[str]"]:
    """A run that writes the baseline and has yet to get its recipe."""
    command = [sys.executable, "-m", "mashwright", *WRITE, "-", "--name", name]
    pipe = subprocess.PIPE
    with subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=pipe, text=True) as running:
        try:
            yield running
        finally:
            running.kill()


def wait_until_locked(folder: Path) -> None:
    number = os.open(folder, os.O_RDONLY)
    try:
        for _ in range(600):
            try:
                fcntl.flock(number, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError:
                return
            fcntl.flock(number, fcntl.LOCK_UN)
            time.sleep(0.05)
    finally:
        os.close(number)
    pytest.fail("nobody holds the lock")


def test_two_runs_that_write_one_baseline_lose_nothing(folder: Path) -> None:
    for name in ("a.yaml", "b.yaml"):
        (folder / name).write_text(FAULTY)
    with begun("a.yaml") as first:
        wait_until_locked(folder)
        with begun("b.yaml") as second:
            assert second.stderr is not None
            assert second.stderr.readline() == WAITS
            assert first.communicate(FAULTY, timeout=60)[1].startswith("mashwright: known: 1 finding written down\n")
            assert second.communicate(FAULTY, timeout=60)[1].startswith("mashwright: known: 2 findings written down\n")
    lines = (folder / "known").read_text().splitlines()[1:]
    assert [line.split("\t")[0] for line in lines] == ["a.yaml", "b.yaml"]
    assert sorted(os.listdir(folder)) == [".git", "a.yaml", "b.yaml", "known"]


def test_a_run_that_crashed_keeps_nobody_waiting(folder: Path, process: Call) -> None:
    (folder / "b.yaml").write_text(FAULTY)
    with begun("a.yaml") as first:
        wait_until_locked(folder)
        first.send_signal(signal.SIGKILL)
        first.wait(60)
        status, _, err = process(*WRITE, "b.yaml")
    assert (status, err.splitlines()[0]) == (0, "mashwright: known: 1 finding written down")


@pytest.mark.parametrize("more", ["--write-baseline", "--prune"])
def test_nobody_waits_for_ever(more: str, mashwright: Call, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (folder / "known").write_text("")
    (folder / "a.yaml").write_text(FAULTY)
    monkeypatch.setattr(known, "LOCK_SECONDS", 0.1)
    number = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(number, fcntl.LOCK_EX)
        after = "another run still writes a baseline in this folder after 0.1 s; try again once it has ended"
        told = f"{WAITS}mashwright: known: {after}\n"
        assert mashwright("review", "--baseline", "known", more) == (2, "", told)
        assert mashwright("review", "--baseline", "known", "--quiet")[::2] == (1, "")  # who only reads does not wait
    finally:
        os.close(number)
    assert (folder / "known").read_text() == ""


def test_a_file_system_without_locks_is_told(mashwright: Call, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(fcntl, "flock", fail)
    (folder / "a.yaml").write_text(FAULTY)
    status, _, err = mashwright(*WRITE)
    told = "its folder cannot be locked (Operation not supported); let no other run write this baseline meanwhile"
    assert (status, err.splitlines()[0]) == (0, f"mashwright: known: {told}")
    assert (folder / "known").read_text().count("quantity") == 1


def test_a_pipe_in_place_of_the_folder_keeps_nobody_waiting(process: Call, folder: Path) -> None:
    (folder / "a.yaml").write_text(FAULTY)
    os.mkfifo(folder / "pipe")
    told = (2, "", "mashwright: pipe/known: this baseline cannot be read: Not a directory\n")
    assert process("review", "a.yaml", "--baseline", "pipe/known", "--write-baseline") == told
