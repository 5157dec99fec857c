"""A run that is asked to end does so by the signal and leaves nothing: no half file, no process, no open pipe."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest

FAULTY = "recipe: {0}\nbatch: 20 l\ngrist:\n  - {{grain: pale ale malt, weight: 4}}\n"
LINE = 'r000.yaml:4:36: error: quantity: the weight "4" has no unit; write 4 kg or 4 lb\n'
SLOW = '"""Is it slow?"""\nimport time\ndef check(brew, limits):\n    time.sleep(0.02)\n    return ()\n'
SWALLOWS = """\
\"\"\"Does it end?\"\"\"
import os, signal, time

def check(brew, limits):
    try:
        os.kill(os.getpid(), signal.{0})
        time.sleep(5)
    except BaseException:
        pass
    return ()
"""
HEARD = """\
import signal
signal.signal(signal.SIGINT, signal.default_int_handler)
signal.signal(signal.SIGTERM, signal.SIG_DFL)
signal.signal(signal.SIGHUP, signal.SIG_DFL)
"""
"""As where a person starts it, even if the tests run under nohup."""
MAIN = "from mashwright.__main__ import main\nmain()\n"
PATIENT_S = 60


@contextmanager
def begun(*arguments: str, before: str = "", **environment: str) -> Iterator["subprocess.Popen[str]"]:
    """A run in a group of its own, whose processes are all ended at last."""
    code = f"import sys\n{HEARD}\n{before}\nsys.argv[1:] = {list(arguments)!r}\n{MAIN}"
    pipe = subprocess.PIPE
    running = subprocess.Popen(
        [sys.executable, "-c", code],
        stdin=pipe,
        stdout=pipe,
        stderr=pipe,
        text=True,
        env={**os.environ, **environment},
        start_new_session=True,
    )
    with running:
        try:
            yield running
        finally:
            with suppress(ProcessLookupError):
                os.killpg(running.pid, signal.SIGKILL)


def parts(folder: Path) -> list[str]:
    return [name for name in os.listdir(folder) if name.endswith(".part")]


def wait_for(what: Callable[[], object]) -> None:
    until = time.monotonic() + PATIENT_S
    while not what():
        assert time.monotonic() < until, "it has not come to that"
        time.sleep(0.02)


def is_gone(group: int) -> bool:
    try:
        os.killpg(group, 0)
    except ProcessLookupError:
        return True
    return False


def fill(folder: Path) -> None:
    for index in range(600):
        (folder / f"r{index:03}.yaml").write_text(FAULTY.format(f"Brew {index}"))


@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
def test_no_half_file_is_left(name: str, folder: Path) -> None:
    (folder / "report").write_text("old")
    number = signal.Signals[name]
    with begun("review", "-", "--output", "report") as running:
        wait_for(lambda: parts(folder))
        running.send_signal(number)
        out, err = running.communicate(timeout=PATIENT_S)
    assert (running.returncode, out, err) == (-number, "", "")
    assert (parts(folder), (folder / "report").read_text()) == ([], "old")


@pytest.mark.parametrize(
    ("method", "name"), [("fork", "SIGTERM"), ("fork", "SIGHUP"), ("spawn", "SIGTERM"), ("forkserver", "SIGTERM")]
)
def test_many_processes_end_with_the_first(method: str, name: str, folder: Path, plugin: Callable[[str], str]) -> None:
    fill(folder)
    number = signal.Signals[name]
    before = f"import multiprocessing\nmultiprocessing.set_start_method({method!r})"
    arguments = ("review", "--jobs", "2", "--format", "text", "--format", "json", "--output", "report")
    with begun(*arguments, before=before, PYTHONPATH=plugin(SLOW)) as running:
        assert running.stdout is not None
        assert running.stdout.readline() == LINE
        running.send_signal(number)
        _, err = running.communicate(timeout=PATIENT_S)
        assert (running.returncode, err) == (-number, "")
        wait_for(lambda: is_gone(running.pid))
    assert parts(folder) == []


@pytest.mark.parametrize("name", ["SIGHUP", "SIGTERM"])
def test_a_signal_to_all_of_them(name: str, folder: Path, plugin: Callable[[str], str]) -> None:
    fill(folder)
    number = signal.Signals[name]
    with begun("review", "--jobs", "2", PYTHONPATH=plugin(SLOW)) as running:
        assert running.stdout is not None
        assert running.stdout.readline() == LINE
        os.killpg(running.pid, number)
        _, err = running.communicate(timeout=PATIENT_S)
        assert (running.returncode, err) == (-number, "")
        wait_for(lambda: is_gone(running.pid))


@pytest.mark.parametrize("method", ["fork", "spawn", "forkserver"])
def test_where_the_first_process_is_killed_no_other_stays(
    method: str, folder: Path, plugin: Callable[[str], str]
) -> None:
    fill(folder)
    before = f"import multiprocessing\nmultiprocessing.set_start_method({method!r})"
    with begun("review", "--jobs", "3", before=before, PYTHONPATH=plugin(SLOW)) as running:
        assert running.stdout is not None
        assert running.stdout.readline() == LINE
        running.kill()
        running.communicate(timeout=PATIENT_S)  # comes back once nobody holds the pipes open
        wait_for(lambda: is_gone(running.pid))


@pytest.mark.parametrize("name", ["SIGTERM", "SIGHUP"])
def test_a_rule_does_not_swallow_it(name: str, folder: Path, plugin: Callable[[str], str]) -> None:
    (folder / "r000.yaml").write_text(FAULTY.format("A").replace("4}", "4 kg}"))
    (folder / "report").write_text("old")
    with begun("review", "--output", "report", PYTHONPATH=plugin(SWALLOWS.format(name))) as running:
        out, err = running.communicate(timeout=PATIENT_S)
    assert (running.returncode, out, err) == (-signal.Signals[name], "", "")
    assert (parts(folder), (folder / "report").read_text()) == ([], "old")


def test_what_the_caller_has_ignored_stays_ignored(folder: Path) -> None:
    before = "import signal\nsignal.signal(signal.SIGHUP, signal.SIG_IGN)"
    with begun("review", "-", "--output", "report", before=before) as running:
        wait_for(lambda: parts(folder))
        running.send_signal(signal.SIGHUP)
        running.communicate(FAULTY.format("A"), timeout=PATIENT_S)
    assert running.returncode == 1
    assert "quantity" in (folder / "report").read_text()
