"""Files reviewed by any executor of concurrent.futures: the same values in the same order, so many at once."""

import os
import re
from collections.abc import Callable, Iterator
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor, ThreadPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context
from pathlib import Path

import pytest

import mashwright
from mashwright.reviewing import houses
from mashwright.reviewing.batches import BATCH, outcomes, outcomes_by
from mashwright.reviewing.collection import WINDOW, Collection
from mashwright.reviewing.files import Candidate, Loaded
from mashwright.reviewing.outcomes import Outcome
from mashwright.reviewing.plugins import ConfigurationError, Installed
from mashwright.reviewing.read_house import HouseRead
from mashwright.reviewing.results import Counts
from mashwright.reviewing.settings import Run

Make = Callable[..., Collection]
Tell = Callable[..., list[str]]

SOUND = "recipe: {0}\nbatch: 20 l\ngrist:\n  - {{grain: pale ale malt, weight: 4 kg}}\n"
FAULTY = SOUND.replace("4 kg", "4")
GONE = "this file was there a moment ago and is gone; was it moved while it was read?"


@contextmanager
def cluster() -> Iterator[Executor]:
    """Two worker processes of Dask's scheduler on this machine, behind its executor."""
    distributed = pytest.importorskip("distributed", reason="the dependency group cluster is not installed")
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, silence_logs=50
        ) as machines,
        distributed.Client(machines) as client,
    ):
        yield client.get_executor()


EXECUTORS = {
    "threads": lambda: ThreadPoolExecutor(2),
    "processes": lambda: ProcessPoolExecutor(2, mp_context=get_context("spawn")),
    "a cluster": cluster,
}


@pytest.fixture
def club(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with more recipes than one batch, two of them alike, and a brewhouse; it is the current one."""
    folder = tmp_path / "club"
    (folder / ".git").mkdir(parents=True)
    for index in range(2 * BATCH + 10):
        text = (FAULTY if index % 7 == 0 else SOUND).format(f"Brew {index}" if index != 50 else "Brew 3")
        (folder / f"r{index:03}.yaml").write_text(text)
    (folder / "brewhouse.yaml").write_text("brewhouse: Shed\nstop-at: warning\nrules: {run-off: off}\n")
    (folder / "x.yaml").write_text("name: x\n")
    monkeypatch.chdir(folder)
    return folder


@pytest.mark.filterwarnings("ignore")  # a scheduler warns of much that is not ours
@pytest.mark.parametrize("kind", EXECUTORS)
def test_the_same_review_by(kind: str, club: Path) -> None:
    alone = mashwright.review(["."], today="2026-01-01")
    assert alone.counts == Counts(reviewed=90, skipped=1, errors=13, warnings=1, unjudging=15, unjudged=13)
    assert [
        (one.path, result.message) for one in alone.recipes for result in one.results if result.rule == "same-name"
    ] == [("r050.yaml", "Brew 3 is the name of r003.yaml too; rename one of the two, or delete it")]
    with EXECUTORS[kind]() as executor:  # type: ignore[attr-defined]
        assert mashwright.review(["."], today="2026-01-01", executor=executor) == alone


def test_a_process_reads_each_brewhouse_once_in_a_run_and_anew_in_the_next(
    club: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, read = houses.read_house, []

    def noted(text: str | Loaded, shown: str, found: Installed) -> HouseRead:
        read.append(shown)
        return real(text, shown, found)

    monkeypatch.setattr(houses, "read_house", noted)
    with ThreadPoolExecutor(1) as executor:
        strict = mashwright.review(["."], executor=executor)
        assert read == ["brewhouse.yaml"] * 2, "by the one that reviews, and by the one that merges"
        (club / "brewhouse.yaml").write_text("brewhouse: Shed\nstop-at: error\n")
        mild = mashwright.review(["."], executor=executor)
        assert len(read) == 4
    assert [review.recipes[1].stop_at.word for review in (strict, mild)] == ["warning", "error"]


class InTurn(Executor):
    """Does its work when the result is asked for, and counts what is on its way."""

    def __init__(self) -> None:
        self.open = self.most = self.cancelled = 0

    def submit(self, fn: Callable[..., object], /, *args: object, **named: object) -> "Future[object]":
        executor = self
        self.open += 1
        self.most = max(self.most, self.open)

        class Later(Future):  # type: ignore[type-arg]
            def result(self, timeout: float | None = None) -> object:
                executor.open -= 1
                return fn(*args, **named)

            def cancel(self) -> bool:
                executor.cancelled += 1
                return True

        return Later()


RUN = Run("2026-01-01", remedies=False)


def files(number: int) -> Iterator[Candidate]:
    return (Candidate(f"none-{index:05}.yaml", named=False) for index in range(number))


def test_they_come_in_order_and_only_so_many_are_on_their_way() -> None:
    executor = InTurn()
    paths = [outcome.reviewed.path for outcome in outcomes_by(executor, files(1000), RUN, 3) if outcome.reviewed]
    assert paths == [f"none-{index:05}.yaml" for index in range(1000)]
    assert (executor.most, executor.open, executor.cancelled) == (3, 0, 0)


def test_the_files_are_not_all_asked_for_at_once() -> None:
    asked = 0

    def counted() -> Iterator[Candidate]:
        nonlocal asked
        for candidate in files(100_000):
            asked += 1
            yield candidate

    some = outcomes_by(InTurn(), counted(), RUN, WINDOW)
    next(some)
    assert asked == WINDOW * BATCH
    some.close()  # type: ignore[attr-defined]


def test_what_is_not_begun_is_cancelled_when_nobody_wants_it() -> None:
    executor = InTurn()
    some = outcomes_by(executor, files(400), RUN, 5)
    next(some)
    some.close()  # type: ignore[attr-defined]
    assert executor.cancelled == 4


def test_an_executor_that_breaks_is_told_in_words() -> None:
    class Broken(InTurn):
        def submit(self, fn: Callable[..., object], /, *args: object, **named: object) -> "Future[object]":
            raise BrokenExecutor("a child process terminated abruptly")

    message = (
        "a process that reviewed recipes was ended from outside, perhaps because memory ran out;"
        " {0} from none-{1} on are not reviewed; try fewer --jobs"
    )
    with pytest.raises(ConfigurationError, match=f"^{message.format('3 files', '00000.yaml')}$"):
        list(outcomes_by(Broken(), files(3), RUN, 1))

    class Breaking(InTurn):
        submitted = 0

        def submit(self, fn: Callable[..., object], /, *args: object, **named: object) -> "Future[object]":
            if self.submitted == 6:
                raise BrokenExecutor("a child process terminated abruptly")
            self.submitted += 1
            return super().submit(fn, *args, **named)

    arrived: list[Outcome] = []
    with pytest.raises(ConfigurationError, match=f"^{message.format('920 files', '00080.yaml')}$"):
        arrived.extend(outcomes_by(Breaking(), files(1000), RUN, 5))
    assert len(arrived) == 80


def test_a_file_that_vanishes_before_its_process_comes_to_it(collection: Make, lines: Tell) -> None:
    made = collection({name: SOUND.format(name) for name in ("a.yaml", "b.yaml", "c.yaml")})
    found = made.find((".",))
    os.unlink("b.yaml")
    told = ["a.yaml: nothing", f"b.yaml:1:1: error: unreadable: {GONE}", "c.yaml: nothing"]
    with ThreadPoolExecutor(2) as executor:
        assert lines(made.files(found, executor)) == told
    assert lines(collection().files(found)) == told


def test_a_recipe_that_the_program_cannot_take_hides_no_other(
    collection: Make, lines: Tell, monkeypatch: pytest.MonkeyPatch
) -> None:
    from mashwright.reviewing import outcomes as room

    real = room.read

    def fail(loaded: object, path: str) -> object:
        if path == "b.yaml":
            raise ZeroDivisionError("division by zero")
        return real(loaded, path)  # type: ignore[arg-type]

    monkeypatch.setattr(room, "read", fail)
    made = collection({name: SOUND.format(name) for name in ("a.yaml", "b.yaml", "c.yaml")})
    assert lines(made.paths((".",))) == ["a.yaml: nothing", "c.yaml: nothing"]
    (fault,) = made.faults
    assert (fault.rule, fault.path) == ("", "b.yaml")
    assert re.fullmatch(
        rf"a fault of mashwright {re.escape(mashwright.__version__)} \(ZeroDivisionError: division by zero"
        r" at mashwright\.reviewing\.outcomes:\d+\) kept this recipe from being reviewed;"
        r" report this line and the recipe to those who make it",
        fault.message,
    )


def test_outcomes_are_plain_values_that_can_be_sent(club: Path) -> None:
    import pickle

    found = outcomes([Candidate("r000.yaml", named=True), Candidate("x.yaml", named=False)], RUN)
    assert pickle.loads(pickle.dumps(found)) == found
    assert found[1] == Outcome(skipped="x.yaml")
