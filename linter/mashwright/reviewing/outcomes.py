"""Reviews one file after the other, or a batch in another process: what comes out can be sent between processes."""

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import islice
from typing import TYPE_CHECKING

from mashwright.crash import missing_part, of_file
from mashwright.finding import Level, Path
from mashwright.reading.recognising import looks_like_recipe
from mashwright.reviewing.files import BREWHOUSE_NAMES, Candidate, Loaded, load, matches
from mashwright.reviewing.houses import HouseFile, Houses
from mashwright.reviewing.plugins import ConfigurationError, installed
from mashwright.reviewing.results import Fault, Reviewed, shown_path
from mashwright.reviewing.review import Gathered, review_loaded
from mashwright.reviewing.settings import Run
from mashwright.reviewing.watch import OvertimeError, Watch
from mashwright.signals import is_over

if TYPE_CHECKING:
    from concurrent.futures import Executor, Future

BATCH = 40
"""Files that one process gets at a time: some 60 ms of work, so that handing over costs little."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one file.

    Attributes:
        reviewed: the recipe with its findings; None where the file is no recipe.
        house: the brewhouse that was read for it, with that one's own findings.
        stop_at: from which level the recipe fails.
        gathered: what rules about the collection want to know of it.
        skipped: its path, where it was no recipe; else "".
        used: places of those acceptances of the brewhouse that had something to accept.
        remarks: what the file, or a brewhouse above it, changes in the settings of a trusted copy.
    """

    reviewed: Reviewed | None = None
    faults: tuple[Fault, ...] = ()
    house: Reviewed | None = None
    stop_at: Level = Level.ERROR
    gathered: tuple[Gathered, ...] = ()
    skipped: str = ""
    used: tuple[Path, ...] = ()
    remarks: tuple[str, ...] = ()


class Reviewer:
    """Reviews files one by one and reads each brewhouse once."""

    def __init__(self, run: Run, watch: Watch) -> None:
        self.run = run
        self.watch = watch
        self.houses = Houses(installed(), run.trusted)
        self._compared: set[str] = set()

    def candidate(self, candidate: Candidate) -> Outcome:
        """Review one file that may be a recipe or a brewhouse. A fault of the program hides no other file."""
        return self._guarded(partial(self._candidate, candidate), candidate.path)

    def text(self, loaded: Loaded, name: str) -> Outcome:
        """Review a text under a name, likewise; it need not lie on the disk."""
        return self._guarded(partial(self._text, loaded, name), name)

    def _guarded(self, work: Callable[[], Outcome], path: str) -> Outcome:
        """What the work on one file gives, or the fault that it ended in.

        Raises:
            ConfigurationError: a part of the program is not installed.
        """
        self.watch.begin()
        try:
            return work()
        except ConfigurationError:
            raise
        except (Exception, OvertimeError) as error:  # noqa: BLE001  (one file that the program cannot take hides no other)
            return Outcome(faults=(self._fault(error, path, "file"),))
        finally:
            self.watch.rest()

    def _fault(self, error: BaseException, path: str, what: str) -> Fault:
        self.watch.contains(error)
        if (missing := missing_part(error)) is not None:
            raise ConfigurationError(missing) from None
        return Fault("", shown_path(path), of_file(error, what))

    def _candidate(self, candidate: Candidate) -> Outcome:
        path = candidate.path
        if os.path.basename(path) in BREWHOUSE_NAMES:
            file = self.houses.read(path)
            return Outcome(house=file.reviewed, faults=file.faults)
        loaded = load(path)
        capitals = os.path.basename(path).lower() in BREWHOUSE_NAMES  # nobody finds it; as no recipe it is told why
        sure = capitals or (candidate.named and not self.run.skip_others)
        unknown = loaded.problem is not None and not loaded.text
        if not sure and not unknown and not looks_like_recipe(loaded.text) and not self._claimed(path):
            return Outcome(skipped=shown_path(path))
        return self._recipe(loaded, path)

    def _text(self, loaded: Loaded, name: str) -> Outcome:
        if os.path.basename(name) in BREWHOUSE_NAMES:
            return Outcome(house=self.houses.reviewed(loaded, shown_path(name))[1])
        return self._recipe(loaded, name)

    def _recipe(self, loaded: Loaded, path: str) -> Outcome:
        file = self.houses.nearest(path)
        house = file.house if file is not None else self.houses.plain()
        try:
            reviewed, faults, gathered, used = review_loaded(
                loaded, shown_path(path), house, self.run, inside(path, file), self.watch
            )
        except (Exception, OvertimeError) as error:  # noqa: BLE001  (likewise; but its brewhouse is told of)
            reviewed, gathered, used = None, (), tuple(item.path for item in house.brewhouse.accepted)
            faults = (self._fault(error, path, "recipe"),)
        seen = file.reviewed if file is not None else None
        faults += file.faults if file is not None else ()
        stop_at, remarks = self.run.stop_at or house.stop_at, tuple(self._changes(loaded, path))
        return Outcome(reviewed, faults, seen, stop_at, gathered, used=used, remarks=remarks)

    def _changes(self, loaded: Loaded, path: str) -> Iterator[str]:
        """What is to be told of a recipe and the brewhouses above it where a trusted copy counts."""
        if self.run.trusted is not None:
            from mashwright.reviewing import changes

            folder = os.path.dirname(os.path.abspath(path))
            yield from changes.of_houses(self.run.trusted, folder, self._compared)
            if not self.run.audit:
                yield from changes.of_acceptances(self.run.trusted, loaded, path)

    def _claimed(self, path: str) -> bool:
        """Whether a brewhouse says that its recipes lie there."""
        file = self.houses.nearest(path)
        return file is not None and matches(path, file.folder, file.house.brewhouse.recipes)


def inside(path: str, file: HouseFile | None) -> str:
    """The path seen from the brewhouse's folder."""
    return os.path.relpath(os.path.abspath(path), file.folder).replace(os.sep, "/") if file is not None else path


def outcomes(candidates: Iterable[Candidate], run: Run) -> list[Outcome]:
    """Review a batch of files; a plain function, so that another process can be asked for it."""
    with Watch(strangers=installed().strangers) as watch:
        reviewer = Reviewer(run, watch)
        return [reviewer.candidate(candidate) for candidate in candidates if not is_over()]


def outcomes_by(executor: "Executor", candidates: Iterable[Candidate], run: Run, window: int) -> Iterator[Outcome]:
    """Review files by any executor of concurrent.futures, in their order, with so many batches on the way at most.

    Args:
        window: batches; bounds what is held in memory, however many files there are.

    Raises:
        ConfigurationError: a process of the executor was ended from outside, or cannot be started.
    """
    from concurrent.futures import BrokenExecutor

    waiting: deque[tuple[list[Candidate], Future[list[Outcome]]]] = deque()
    files = iter(candidates)
    now: list[Candidate] = []
    batch: list[Candidate] = []
    try:
        while (batch := list(islice(files, BATCH))) or waiting:
            if batch:
                waiting.append((batch, _handed_out(executor, batch, run)))
            if len(waiting) >= window or not batch:
                now, future = waiting.popleft()
                yield from _arrived(now, future)
                now = []
    except BrokenExecutor:
        left = list(dict.fromkeys((*now, *(one for some, _ in waiting for one in some), *batch, *files)))
        message = "a process that reviewed recipes was ended from outside, perhaps for want of memory"
        so_far = f"{len(left)} files from {shown_path(left[0].path)} on are not reviewed"
        raise ConfigurationError(f"{message}; {so_far}; try fewer --jobs") from None
    except GeneratorExit:  # and on nothing else: where a pool breaks as well, it fails on what was cancelled here
        for _, future in waiting:
            future.cancel()
        raise


def _handed_out(executor: "Executor", batch: list[Candidate], run: Run) -> "Future[list[Outcome]]":
    try:
        return executor.submit(outcomes, batch, run)
    except OSError as error:
        raise ConfigurationError(no_processes(error)) from None


def no_processes(error: Exception) -> str:
    """What is told where the system starts no more processes."""
    why = error.strerror if isinstance(error, OSError) and error.strerror else error
    return f"processes cannot be started ({why}); give --jobs 1"


def _arrived(batch: list[Candidate], future: "Future[list[Outcome]]") -> list[Outcome]:
    """What came of a batch; where nothing could be sent back, a fault for each of its files.

    Raises:
        BrokenExecutor: its process was ended from outside.
    """
    from concurrent.futures import BrokenExecutor

    try:
        return future.result()
    except (BrokenExecutor, ConfigurationError):
        raise
    except Exception as error:  # noqa: BLE001  (the net that the other process has too; this is for the way back)
        faults = (Fault("", shown_path(one.path), of_file(error, "file")) for one in batch)
        return [Outcome(faults=(fault,)) for fault in faults]
