"""Reviews one file after the other, or a batch in another process: what comes out can be sent between processes."""

import os
from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING

from mashwright.finding import Level, Path
from mashwright.reading.recognising import looks_like_recipe
from mashwright.reviewing.files import BREWHOUSE_NAMES, Candidate, Loaded, load, matches
from mashwright.reviewing.houses import HouseFile, Houses
from mashwright.reviewing.plugins import ConfigurationError, installed
from mashwright.reviewing.results import Fault, Reviewed, shown_path
from mashwright.reviewing.review import Gathered, review_loaded
from mashwright.reviewing.settings import Run

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

    def __init__(self, run: Run) -> None:
        self.run = run
        self.houses = Houses(installed(), run.trusted)
        self._compared: set[str] = set()

    def candidate(self, candidate: Candidate) -> Outcome:
        """Review one file that may be a recipe or a brewhouse."""
        path = candidate.path
        if os.path.basename(path) in BREWHOUSE_NAMES:
            return Outcome(house=self.houses.read(path).reviewed)
        loaded = load(path)
        capitals = os.path.basename(path).lower() in BREWHOUSE_NAMES  # nobody finds it; as no recipe it is told why
        sure = capitals or (candidate.named and not self.run.skip_others)
        unknown = loaded.problem is not None and not loaded.text
        if not sure and not unknown and not looks_like_recipe(loaded.text) and not self._claimed(path):
            return Outcome(skipped=shown_path(path))
        return self.recipe(loaded, path)

    def text(self, loaded: Loaded, name: str) -> Outcome:
        """Review a text under a name; it need not lie on the disk."""
        if os.path.basename(name) in BREWHOUSE_NAMES:
            return Outcome(house=self.houses.reviewed(loaded, shown_path(name))[1])
        return self.recipe(loaded, name)

    def recipe(self, loaded: Loaded, path: str) -> Outcome:
        """Review one recipe. What goes wrong in the program itself becomes a fault, and the other recipes go on."""
        file = self.houses.nearest(path)
        house = file.house if file is not None else self.houses.plain()
        shown = shown_path(path)
        try:
            reviewed, faults, gathered, used = review_loaded(loaded, shown, house, self.run, inside(path, file))
        except Exception as error:  # noqa: BLE001  (one recipe that the program cannot take must not hide the others)
            why = f"{type(error).__name__}: {error}"
            reviewed, gathered, used = None, (), tuple(item.path for item in house.brewhouse.accepted)
            faults = (
                Fault("", shown, f"this recipe could not be reviewed ({why}); please report it, with the recipe"),
            )
        seen = file.reviewed if file is not None else None
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
    reviewer = Reviewer(run)
    return [reviewer.candidate(candidate) for candidate in candidates]


def outcomes_by(executor: "Executor", candidates: Iterable[Candidate], run: Run, window: int) -> Iterator[Outcome]:
    """Review files by any executor of concurrent.futures, in their order, with so many batches on the way at most.

    Args:
        window: batches; bounds what is held in memory, however many files there are.

    Raises:
        ConfigurationError: a process of the executor was ended from outside.
    """
    from concurrent.futures import BrokenExecutor

    waiting: deque[Future[list[Outcome]]] = deque()
    files = iter(candidates)
    try:
        while batch := list(islice(files, BATCH)):
            waiting.append(executor.submit(outcomes, batch, run))
            if len(waiting) >= window:
                yield from waiting.popleft().result()
        while waiting:
            yield from waiting.popleft().result()
    except BrokenExecutor:
        message = "a process that reviewed recipes was ended from outside, perhaps for want of memory; try fewer --jobs"
        raise ConfigurationError(message) from None
    finally:
        for future in waiting:
            future.cancel()
