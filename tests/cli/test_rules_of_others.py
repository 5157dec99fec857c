"""Rules of others in a distribution of their own: what they write, raise and change stays out of reports."""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

Call = Callable[..., tuple[int, str, str]]
Plugin = Callable[[str], str]

SOUND = "recipe: {0}\nbatch: 20 l\ngrist:\n  - {{grain: pale ale malt, weight: 4 kg}}\n"
ODD = '''
"""Is it odd?"""
import atexit, ctypes, os, signal, subprocess, sys, threading, time
from mashwright.rule import Finding, Level

LOADING

def check(brew, limits):
    BODY
    yield Finding(("batch",), Level.WARNING, "it is odd")
'''
TOLD = "a.yaml:2:8: warning: odd-rule: it is odd\n"
WRITES = {
    "print": "print('NOISE')",
    "descriptor": "os.write(1, b'NOISE')",
    "sys.__stdout__": "print('NOISE', file=sys.__stdout__, flush=True)",
    "a program": "subprocess.run(['echo', 'NOISE'], check=True)",
    "a shell": "os.system('echo NOISE')",
    "C": "ctypes.CDLL(None).puts(b'NOISE'); ctypes.CDLL(None).fflush(None)",
    "C, at the end": "ctypes.CDLL(None).puts(b'NOISE')",
    "a thread": "threading.Thread(target=os.write, args=(1, b'NOISE')).start()",
    "at exit": "atexit.register(os.write, 1, b'NOISE')",
    "at exit, by print": "atexit.register(lambda: print('NOISE', file=sys.__stdout__))",
}


def rule(body: str = "pass", loading: str = "") -> str:
    return ODD.replace("BODY", body).replace("LOADING", loading)


@pytest.mark.parametrize("jobs", ["1", "2"])
@pytest.mark.parametrize("how", WRITES)
def test_what_a_rule_writes_reaches_no_report(how: str, jobs: str, process: Call, folder: Path, plugin: Plugin) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A"))
    path = plugin(rule(WRITES[how]))
    status, out, err = process("review", "--jobs", jobs, PYTHONPATH=path)
    assert (status, out) == (0, TOLD)
    # another process of ours ends without the courtesies of Python and of C
    assert "NOISE" in err or (jobs == "2" and ("exit" in how or "end" in how))
    more = ("--format", "json", "--output", "../report.json", "--format", "sarif")
    status, out, _ = process("review", "--jobs", jobs, *more, PYTHONPATH=path)
    assert status == 0
    assert json.loads(out)["version"] == "2.1.0"
    assert [one["message"] for one in json.loads((folder.parent / "report.json").read_text())["recipes"][0]["findings"]]


@pytest.mark.parametrize("command", ["explain", "figures", "review", "complete"])
def test_what_is_written_as_a_rule_is_loaded_reaches_nothing(
    command: str, process: Call, folder: Path, plugin: Plugin
) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A"))
    path = plugin(rule(loading="os.write(1, b'NOISE'); print('NOISE'); os.system('echo NOISE')"))
    shell = {"_MASHWRIGHT_COMPLETE": "bash_complete", "COMP_WORDS": "mashwright explain odd", "COMP_CWORD": "2"}
    arguments = {"explain": ["odd-rule"], "figures": ["a.yaml"], "review": ["."], "complete": []}[command]
    environment = shell if command == "complete" else {}
    status, out, err = process(*([command] if arguments else []), *arguments, PYTHONPATH=path, **environment)
    assert status == 0
    assert "NOISE" not in out
    assert out
    assert err.count("NOISE") == 3


@pytest.mark.parametrize(
    ("redirected", "told"),
    [(">&-", ""), ("2>&-", TOLD), (">&- 2>&-", ""), ("<&- 2>&-", TOLD), ("<&- >&- 2>&-", "")],
)
def test_streams_that_are_closed_while_rules_write(redirected: str, told: str, folder: Path, plugin: Plugin) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A"))
    line = f'"{sys.executable}" -m mashwright review a.yaml --output ../report {redirected}; echo $?'
    if told:
        line = line.replace(" --output ../report", "")
    done = subprocess.run(
        ["bash", "-c", line],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
        env={**os.environ, "PYTHONPATH": plugin(rule("os.write(1, b'NOISE'); print('NOISE')"))},
    )
    assert done.stdout == f"{told}0\n"
    assert "Traceback" not in done.stderr
    if not told:
        assert (folder.parent / "report").read_text() == TOLD


def test_a_reader_that_goes_away_while_rules_write(folder: Path, plugin: Plugin) -> None:
    for index in range(300):
        (folder / f"r{index:04}.yaml").write_text(SOUND.format(index))
    line = f'"{sys.executable}" -m mashwright review 2>err | head -1; echo "${{PIPESTATUS[0]}}"'
    environment = {**os.environ, "PYTHONPATH": plugin(rule("os.write(1, b'NOISE\\n')"))}
    done = subprocess.run(["bash", "-c", line], capture_output=True, text=True, timeout=60, check=True, env=environment)
    assert done.stdout == TOLD.replace("a.yaml", "r0000.yaml") + f"{128 + signal.SIGPIPE}\n"
    assert set((folder / "err").read_text().splitlines()) == {"NOISE"}


ENDS = {
    "SystemExit": "sys.exit(0)",
    "KeyboardInterrupt": "raise KeyboardInterrupt",
    "GeneratorExit": "raise GeneratorExit",
    "MemoryError": "raise MemoryError",
    "RecursionError": "check.__globals__['deep'] = lambda: deep(); deep()",
}


@pytest.mark.parametrize("jobs", ["1", "2"])
@pytest.mark.parametrize("name", ENDS)
def test_what_a_rule_raises_ends_nothing(name: str, jobs: str, process: Call, folder: Path, plugin: Plugin) -> None:
    for one in "ab":
        (folder / f"{one}.yaml").write_text(SOUND.format(one).replace("4 kg", "4"))
    status, out, err = process("review", "--jobs", jobs, PYTHONPATH=plugin(rule(ENDS[name])))
    assert status == 2
    assert [line.split(": error: ")[0] for line in out.splitlines()] == ["a.yaml:4:36", "b.yaml:4:36"]
    faults = err.splitlines()[:-1]
    assert len(faults) == 2
    for one, fault in zip("ab", faults, strict=True):
        assert fault.startswith(f"mashwright: {one}.yaml: the rule odd-rule failed: {name}")
        assert fault.endswith("; the other rules went on; please report it to those who make odd")


@pytest.mark.parametrize("name", ENDS)
def test_what_is_raised_as_a_rule_is_loaded_ends_nothing(
    name: str, process: Call, folder: Path, plugin: Plugin
) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A"))
    body = ENDS[name].replace("check.__globals__['deep']", "deep")
    status, out, err = process("review", PYTHONPATH=plugin(rule(loading=body)))
    assert (status, out) == (2, "")
    assert err.startswith(f"mashwright: the rule odd-rule failed: odd_rules.odd_rule of odd cannot be loaded: {name}")
    assert len(err.splitlines()) == 2


@pytest.mark.parametrize("error", ["SystemExit(0)", "KeyboardInterrupt", "GeneratorExit"])
def test_a_module_that_raises_when_it_is_asked_what_it_has(
    error: str, process: Call, folder: Path, plugin: Plugin
) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A").replace("4 kg", "4"))
    loading = f"def __getattr__(name):\n    raise {error}\n"
    status, out, err = process("review", PYTHONPATH=plugin(rule(loading=loading)))
    assert (status, out.count(" error: quantity: ")) == (2, 1)
    assert err.startswith(f"mashwright: the rule odd-rule failed: odd_rules.odd_rule of odd is no rule: {error[:9]}")


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_a_rule_that_does_not_end(jobs: str, process: Call, folder: Path, plugin: Plugin) -> None:
    for one in "ab":
        (folder / f"{one}.yaml").write_text(SOUND.format(one).replace("4 kg", "4"))
    loading = "from mashwright import budgets; budgets.RULE_SECONDS = 0.5"
    status, out, err = process("review", "--jobs", jobs, PYTHONPATH=plugin(rule("while True: pass", loading)))
    assert (status, out.count(" error: quantity: ")) == (2, 2)
    told = "the rule odd-rule failed: it was not through after 0.5 s; the other rules went on"
    assert err.count(told) == 2


def test_the_time_that_a_rule_has_is_ten_seconds(process: Call, folder: Path, plugin: Plugin) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A"))
    began = time.monotonic()
    status, _, err = process("review", PYTHONPATH=plugin(rule("time.sleep(50)")))
    assert 10 <= time.monotonic() - began < 45
    assert status == 2
    assert err.startswith("mashwright: a.yaml: the rule odd-rule failed: it was not through after 10 s; ")


@pytest.mark.parametrize(
    "body", ["try:\n        time.sleep(50)\n    except BaseException:\n        pass", "time.sleep(50)"]
)
def test_an_interrupt_from_the_keyboard_ends_the_run(body: str, folder: Path, plugin: Plugin) -> None:
    for index in range(200):
        (folder / f"r{index:04}.yaml").write_text(SOUND.format(index))
    with subprocess.Popen(
        [sys.executable, "-m", "mashwright", "review"],
        env={**os.environ, "PYTHONPATH": plugin(rule(f"os.write(2, b'begun')\n    {body}"))},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
    ) as running:
        assert running.stderr is not None
        assert running.stderr.read(5) == b"begun"
        time.sleep(0.2)
        running.send_signal(signal.SIGINT)
        _, err = running.communicate(timeout=30)
    assert (running.returncode, err) == (-signal.SIGINT, b"")


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ("os.chdir('/')", "it called os.chdir, which was undone"),
        ("sys.setrecursionlimit(90)", "it called sys.setrecursionlimit, which was undone"),
    ],
)
@pytest.mark.parametrize("jobs", ["1", "2"])
def test_what_a_rule_changes_for_all_is_undone(
    body: str, told: str, jobs: str, process: Call, folder: Path, plugin: Plugin
) -> None:
    for one in "ab":
        (folder / f"{one}.yaml").write_text(SOUND.format(one))
    status, out, err = process("review", "--jobs", jobs, PYTHONPATH=plugin(rule(body)))
    assert (status, out) == (2, TOLD + TOLD.replace("a.yaml", "b.yaml"))
    assert err.count(f"the rule odd-rule failed: {told}") == 2


def test_what_a_rule_leaves_behind_is_no_traceback(process: Call, folder: Path, plugin: Plugin) -> None:
    (folder / "a.yaml").write_text(SOUND.format("A"))
    body = (
        "class Left:\n        def __del__(self):\n            raise ValueError('left')\n"
        "    Left()\n    import threading; threading.Thread(target=lambda: 1 / 0).start()"
    )
    status, out, err = process("review", PYTHONPATH=plugin(rule(body)))
    assert (status, out) == (0, TOLD)
    assert "mashwright: a rule or a library left an error behind: ValueError: left\n" in err
    assert "mashwright: a rule or a library left an error behind: ZeroDivisionError: division by zero\n" in err
    assert "Traceback" not in err
