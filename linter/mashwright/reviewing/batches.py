"""Reviews files by other processes or machines, in batches; what comes out is merged in the order of the files."""

import os
from collections import deque
from collections.abc import Iterable, Iterator
from itertools import islice
from threading import local
from typing import TYPE_CHECKING

from mashwright.crash import of_file
from mashwright.reviewing.files import Candidate
from mashwright.reviewing.houses import Houses
from mashwright.reviewing.outcomes import Outcome, Reviewer
from mashwright.reviewing.plugins import ConfigurationError, installed
from mashwright.reviewing.results import Fault, shown_path
from mashwright.reviewing.settings import Run
from mashwright.reviewing.watch import Watch
from mashwright.signals import is_over

if TYPE_CHECKING:
    from concurrent.futures import Executor, Future

BATCH = 40
"""Files that one process gets at a time: some 60 ms of work, so that handing over costs little."""


_kept = local()
"""The brewhouses that a thread of this process has read in the run at which it works."""


def outcomes(candidates: Iterable[Candidate], run: Run, number: str = "") -> list[Outcome]:
    """Review a batch of files; a plain function, so that another process can be asked for it.

    Args:
        number: of the run, which is nobody else's; within it a process reads each brewhouse once. "" keeps none.
    """
    with Watch(strangers=installed().strangers) as watch:
        reviewer = Reviewer(run, watch, _houses(run, number))
        wanted = (candidate for candidate in candidates if not is_over())
        return list(reviewer.candidates(wanted))


def _houses(run: Run, number: str) -> Houses:
    if number and getattr(_kept, "number", "") == number:
        kept: Houses = _kept.houses
        return kept
    houses = Houses(installed(), run.trusted)
    _kept.number, _kept.houses = number, houses
    return houses


def outcomes_by(executor: "Executor", candidates: Iterable[Candidate], run: Run, window: int) -> Iterator[Outcome]:
    """Review files by any executor of concurrent.futures, in their order, with so many batches on the way at most.

    Args:
        window: batches; bounds what is held in memory, however many files there are.

    Raises:
        ConfigurationError: a process of the executor was ended from outside, or cannot be started.
    """
    from concurrent.futures import BrokenExecutor

    number = os.urandom(16).hex()
    waiting: deque[tuple[list[Candidate], Future[list[Outcome]]]] = deque()
    files = iter(candidates)
    now: list[Candidate] = []
    batch: list[Candidate] = []
    try:
        while (batch := list(islice(files, BATCH))) or waiting:
            if batch:
                waiting.append((batch, _handed_out(executor, batch, run, number)))
            if len(waiting) >= window or not batch:
                now, future = waiting.popleft()
                yield from _arrived(now, future)
                now = []
    except BrokenExecutor:
        left = list(dict.fromkeys((*now, *(one for some, _ in waiting for one in some), *batch, *files)))
        message = "a process that reviewed recipes was ended from outside, perhaps because memory ran out"
        so_far = f"{len(left)} files from {shown_path(left[0].path)} on are not reviewed"
        raise ConfigurationError(f"{message}; {so_far}; try fewer --jobs") from None
    except GeneratorExit:  # and on nothing else: where a pool breaks as well, it fails on what was cancelled here
        for _, future in waiting:
            future.cancel()
        raise


def _handed_out(executor: "Executor", batch: list[Candidate], run: Run, number: str) -> "Future[list[Outcome]]":
    try:
        return executor.submit(outcomes, batch, run, number)
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
