"""Rules at work: one that does not end, one that changes the process for everybody, and a real interrupt among them."""

import os
import signal
import sys
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor

import pytest

import mashwright
from mashwright import budgets
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.results import Fault

Make = Callable[..., Collection]
Tell = Callable[..., list[str]]
Install = Callable[..., None]

RECIPE = "recipe: {0}\nbatch: 20 l\ngrist:\n  - {{grain: pale ale malt, weight: 2 kg}}\n"
ODD = '''
"""Does it end?"""
import os, signal, sys, time
from mashwright.knobs import Knob
from mashwright.rule import Edit, Finding, Level

def check(brew, limits):
    BODY
    yield Finding(("grist",), Level.ERROR, "done")
'''
QUICK = '"""Is it quick?"""\nfrom mashwright.rule import Finding, Level\ndef check(brew, limits):\n'
QUICK += '    yield Finding(("batch",), Level.NOTE, "quick")\n'
TOLD = "it was not through after 0.2 s; the other rules went on; please report it to those who make ours"


@pytest.fixture(autouse=True)
def short_time(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Rules have a fifth of a second, and all signals are as they were afterwards."""
    numbers = (signal.SIGALRM, signal.SIGINT, signal.SIGTERM)
    before = [signal.getsignal(number) for number in numbers]
    monkeypatch.setattr(budgets, "RULE_SECONDS", 0.2)
    yield
    assert [signal.getsignal(number) for number in numbers] == before
    assert signal.getitimer(signal.ITIMER_REAL) == (0.0, 0.0)


def odd(body: str) -> dict[str, str]:
    return {"odd": ODD.replace("BODY", body), "quick": QUICK}


ENDLESS = [
    "while True: pass",
    "time.sleep(60)",
    "while True: list(range(100))",
    "while True: (yield from ())",
    "import subprocess; subprocess.run(['sleep', '60'], check=False)",
    "import threading; threading.Lock().acquire() and threading.Event().wait()",
    "import re; re.match('(a*)*b', 'a' * 40)",
    """
    while True:
        try:
            time.sleep(60)
        except Exception:
            pass
""",
    """
    while True:
        try:
            time.sleep(60)
        except:
            time.sleep(0.01)
""",
    """
    while True:
        try:
            time.sleep(60)
        except BaseException:
            pass
""",
]


@pytest.mark.parametrize("body", ENDLESS)
def test_a_rule_that_does_not_end_is_told_and_the_others_go_on(
    body: str, install: Install, collection: Make, lines: Tell
) -> None:
    install(ours=odd(body))
    made = collection({name: RECIPE.format(name) for name in ("a.yaml", "b.yaml")})
    assert lines(made.paths((".",))) == ["a.yaml:2:8: note: quick: quick", "b.yaml:2:8: note: quick: quick"]
    assert made.faults == [Fault("odd", "a.yaml", TOLD), Fault("odd", "b.yaml", TOLD)]


@pytest.mark.parametrize("body", [ENDLESS[0], ENDLESS[2], ENDLESS[8].replace("60", "0.01")])
def test_it_is_told_in_another_thread_too(body: str, install: Install, collection: Make) -> None:
    install(ours=odd(body))
    collection({name: RECIPE.format(name) for name in ("a.yaml", "b.yaml")})
    with ThreadPoolExecutor(1) as executor:
        review = mashwright.review(["."], executor=executor)
    assert [[one.rule for one in recipe.results] for recipe in review.recipes] == [["quick"], ["quick"]]
    assert review.faults == (Fault("odd", "a.yaml", TOLD), Fault("odd", "b.yaml", TOLD))


def test_it_is_told_where_somebody_else_has_set_an_alarm(install: Install, collection: Make) -> None:
    install(ours=odd(ENDLESS[0]))
    made = collection({"a.yaml": RECIPE.format("a")})
    rang = []
    before = signal.signal(signal.SIGALRM, lambda *_: rang.append(True))
    signal.setitimer(signal.ITIMER_REAL, 0.1)
    try:
        assert len(list(made.paths((".",)))) == 1
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)
    assert made.faults == [Fault("odd", "a.yaml", TOLD)]
    assert rang == [True]


def test_a_rule_that_is_too_slow_again_and_again_is_left_out(install: Install, collection: Make) -> None:
    install(ours=odd("time.sleep(60)"))
    made = collection({f"{name}.yaml": RECIPE.format(name) for name in "abcde"})
    began = time.monotonic()
    assert [len(one.results) for one in made.paths((".",))] == [1] * 5
    assert time.monotonic() - began < 5 * 0.2
    left = "it was too slow on 3 recipes, so it was not asked about this one"
    assert made.faults == [
        *(Fault("odd", f"{name}.yaml", TOLD) for name in "abc"),
        *(Fault("odd", f"{name}.yaml", left) for name in "de"),
    ]


def test_the_time_is_counted_over_all_that_is_tried_of_a_recipe(install: Install, collection: Make) -> None:
    """A rule that is slow each time it is asked, and asked for each step of a remedy."""
    source = ODD.replace('    BODY\n    yield Finding(("grist",), Level.ERROR, "done")\n', "") + (
        "    time.sleep(0.05)\n"
        '    knob = Knob(1000, lambda n: (Edit(("batch",), f"{20 - n / 100:g} l"),), lambda n: "less")\n'
        '    yield Finding(("grist",), Level.ERROR, "slow", knobs=(knob,) * 9)\n'
    )
    install(ours={"odd": source, "quick": QUICK})
    made = collection({"a.yaml": RECIPE.format("a")})
    began = time.monotonic()
    (reviewed,) = made.paths((".",))
    assert time.monotonic() - began < 1
    assert [one.rule for one in reviewed.results] == ["quick", "odd"]
    assert made.faults == [Fault("odd", "a.yaml", TOLD)]


@pytest.mark.parametrize("part", ["edits", "say"])
def test_a_knob_that_does_not_end_is_told_by_its_rule(part: str, install: Install, collection: Make) -> None:
    edits = 'lambda n: (Edit(("batch",), "5 l"),)'
    turns = {"edits": f"lambda n: time.sleep(60), {edits}", "say": f"{edits}, lambda n: time.sleep(60)"}[part]
    body = f'yield Finding(("batch",), Level.ERROR, "big", knobs=(Knob(1, {turns}),))'
    install(ours={"odd": ODD.replace("BODY", body).replace('    yield Finding(("grist",), Level.ERROR, "done")\n', "")})
    made = collection({"a.yaml": RECIPE.format("a")})
    assert [[one.message for one in reviewed.results] for reviewed in made.paths((".",))] == [["big"]]
    assert made.faults == [Fault("odd", "a.yaml", TOLD)]


@pytest.mark.parametrize("part", ["gather", "check_collection"])
def test_a_rule_about_the_collection_that_does_not_end(part: str, install: Install, collection: Make) -> None:
    bodies = {"gather": "return 1", "check_collection": "return ()", part: "while True: pass"}
    source = '"""Does it end?"""\n'
    source += f"def gather(brew):\n    {bodies['gather']}\n"
    source += f"def check_collection(gathered, limits):\n    {bodies['check_collection']}\n"
    install(ours={"odd": source, "quick": QUICK})
    made = collection({"a.yaml": RECIPE.format("a")})
    assert [len(one.results) for one in made.paths((".",))] == [1]
    (fault,) = made.faults
    path = "a.yaml" if part == "gather" else ""
    assert (fault.rule, fault.path) == ("odd", path)
    assert fault.message.startswith("it was not through after 0.2")


def test_the_program_itself_has_no_more_time(
    install: Install, collection: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    from mashwright.reviewing import read

    real = read.read_document

    def slow(text: str) -> object:
        if "b.yaml" in text:
            time.sleep(60)
        return real(text)

    monkeypatch.setattr(read, "read_document", slow)
    install(ours={"quick": QUICK})
    made = collection({name: RECIPE.format(name) for name in ("a.yaml", "b.yaml", "c.yaml")})
    assert [one.path for one in made.paths((".",))] == ["a.yaml", "c.yaml"]
    (fault,) = made.faults
    assert (fault.rule, fault.path) == ("", "b.yaml")
    assert fault.message.startswith(
        f"a fault of mashwright {mashwright.__version__} (OvertimeError: not through in time"
    )


@pytest.mark.parametrize(
    ("body", "what"),
    [
        ("os.chdir('/')", "os.chdir"),
        ("os.mkdir('x'); os.chdir('x'); os.rmdir('../x')", "os.chdir"),
        ("sys.setrecursionlimit(60)", "sys.setrecursionlimit"),
        ("sys.setrecursionlimit(100_000)", "sys.setrecursionlimit"),
    ],
)
def test_what_a_rule_changes_for_everybody_is_undone(body: str, what: str, install: Install, collection: Make) -> None:
    install(ours=odd(body))
    made = collection({name: RECIPE.format(name) for name in ("a.yaml", "b.yaml")})
    here, depth = os.getcwd(), sys.getrecursionlimit()
    assert [[one.rule for one in reviewed.results] for reviewed in made.paths((".",))] == [["quick", "odd"]] * 2
    told = f"it called {what}, which was undone; please report it to those who make ours"
    assert made.faults == [Fault("odd", "a.yaml", told), Fault("odd", "b.yaml", told)]
    assert (os.getcwd(), sys.getrecursionlimit()) == (here, depth)


@pytest.mark.parametrize(
    "body",
    [
        "signal.signal(signal.SIGINT, signal.SIG_IGN)",
        "signal.signal(signal.SIGALRM, signal.SIG_DFL)",
        "signal.setitimer(signal.ITIMER_REAL, 0)",
        "signal.alarm(0)",
    ],
)
def test_signals_that_a_rule_takes_are_taken_back(body: str, install: Install, collection: Make) -> None:
    body = f"if brew.recipe.name != 'a': time.sleep(60)\n    {body}"
    install(ours=odd(body))
    made = collection({f"{name}.yaml": RECIPE.format(name) for name in "ab"})
    assert [len(one.results) for one in made.paths((".",))] == [2, 1]
    assert made.faults == [Fault("odd", "b.yaml", TOLD)]


@pytest.mark.parametrize(
    "body",
    [
        "os.kill(os.getpid(), signal.SIGINT); time.sleep(60)",
        "os.kill(os.getpid(), signal.SIGINT); raise KeyboardInterrupt",
        """
    try:
        os.kill(os.getpid(), signal.SIGINT)
        time.sleep(0.05)
    except KeyboardInterrupt:
        pass
""",
        """
    try:
        os.kill(os.getpid(), signal.SIGINT)
        time.sleep(0.05)
    except BaseException:
        raise ValueError("no")
""",
    ],
)
def test_a_real_interrupt_ends_the_run_whatever_the_rule_makes_of_it(
    body: str, install: Install, collection: Make
) -> None:
    install(ours=odd(body))
    made = collection({"a.yaml": RECIPE.format("a")})
    with pytest.raises(KeyboardInterrupt):
        list(made.paths((".",)))
    assert made.faults == []


def test_an_interrupt_where_there_are_only_rules_of_our_own(collection: Make, monkeypatch: pytest.MonkeyPatch) -> None:
    from mashwright.reviewing import guard

    def interrupted(*_: object) -> None:
        os.kill(os.getpid(), signal.SIGINT)

    monkeypatch.setattr(guard, "found_by", interrupted)
    with pytest.raises(KeyboardInterrupt):
        list(collection({"a.yaml": RECIPE.format("a")}).paths((".",)))
