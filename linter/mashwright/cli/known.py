"""The baseline of a review: read, held against a trusted copy's, and written."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from time import monotonic, sleep
from typing import TYPE_CHECKING

import click
from msgspec.structs import replace

from mashwright.budgets import BASELINE_BYTES, LOCK_SECONDS
from mashwright.cli.output import opened
from mashwright.printable import complain, publish

if TYPE_CHECKING:
    from mashwright.reviewing.baseline import Baseline, Record
    from mashwright.reviewing.compare import Comparison
    from mashwright.reviewing.trusted import Trusted

MOST_GONE = 10
_LARGER = f"larger than {BASELINE_BYTES >> 20} MiB; keep a baseline for each folder instead"


def known_of(path: str | None, trusted: "Trusted | None", *, fresh: bool) -> "tuple[Comparison | None, list[str]]":
    """The comparison with the baseline that counts, and what is to be told of another in its place under review.

    Args:
        path: of the baseline; None without one.
        trusted: the copy whose baseline counts.
        fresh: it need not be there yet.

    Raises:
        click.ClickException: it cannot be read.
        ConfigurationError: it is no baseline.
    """
    if path is None:
        return None, []
    from mashwright.reviewing.compare import Comparison

    if trusted is None or not (trusted.covers(path) or trusted.holds(path)):
        return Comparison(_baseline(path, fresh=fresh)), []
    from mashwright.reviewing.changes import of_baseline
    from mashwright.reviewing.results import shown_path

    ours, theirs = trusted.back(path), trusted.twin(path)
    shown, there = shown_path(ours), os.path.lexists(theirs)
    mine, known = _baseline(ours, fresh=there), _baseline(theirs, fresh=True)
    missing = f"{shown} is not in the trusted folder; nothing counts as known"
    remarks = list(of_baseline(mine, known, shown)) if there else [missing]
    known = replace(known, folder=os.path.dirname(shown) or ".")  # its paths are those under review
    return Comparison(known), remarks


@contextmanager
def alone(path: str) -> Iterator[None]:
    """From the reading of a baseline until it is written no other run writes it, so that nothing is lost.

    The lock is its folder's, which leaves no file behind and ends with its process, however that ends.

    Raises:
        click.ClickException: another run did not end in time.
    """
    try:
        folder = os.open(os.path.dirname(os.path.realpath(path)), os.O_RDONLY | getattr(os, "O_DIRECTORY", 0))
    except (FileNotFoundError, NotADirectoryError):  # which is told when the baseline is read or written
        yield
        return
    except OSError as error:  # it may be written, and not read; or a system that opens no folders
        complain(f"{path}: {_unlocked(error)}")
        yield
        return
    try:
        _lock(folder, path)
        yield
    finally:
        _unlock(folder)
        os.close(folder)


def _lock(folder: int, path: str) -> None:
    try:
        from fcntl import LOCK_EX, LOCK_NB, flock
    except ImportError as error:
        complain(f"{path}: {_unlocked(error)}")
        return
    until = monotonic() + LOCK_SECONDS
    told = False
    while True:
        try:
            flock(folder, LOCK_EX | LOCK_NB)
        except BlockingIOError:
            if monotonic() >= until:
                message = f"another run still writes a baseline in this folder after {LOCK_SECONDS:g} s"
                raise click.ClickException(f"{path}: {message}; try again once it has ended") from None
            if not told:
                complain(f"{path}: another run writes a baseline in this folder; this one waits for it")
            told = True
            sleep(_LOOK_S)
        except OSError as error:  # a file system without locks
            complain(f"{path}: {_unlocked(error)}")
            return
        else:
            return


_LOOK_S = 0.05
"""After which a run that waits looks again."""


def _unlock(folder: int) -> None:
    """At once, even where a process that was begun meanwhile still holds the folder."""
    try:
        from fcntl import LOCK_UN, flock

        flock(folder, LOCK_UN)
    except (ImportError, OSError):
        pass


def _unlocked(error: Exception) -> str:
    why = error.strerror if isinstance(error, OSError) and error.strerror else error
    return f"its folder cannot be locked ({why}); let no other run write this baseline meanwhile"


def _baseline(path: str, *, fresh: bool) -> "Baseline":
    from mashwright.reviewing.baseline import Baseline
    from mashwright.reviewing.links import refusal
    from mashwright.reviewing.ordinary import ordinary

    if refused := refusal(path):
        raise click.ClickException(f"{path}: {refused}")
    try:
        data = ordinary(os.path.realpath(path), BASELINE_BYTES)
        if data is None:
            raise click.ClickException(f"{path}: this is no ordinary file; a baseline is one")
        if len(data) > BASELINE_BYTES:
            raise click.ClickException(f"{path}: this baseline is {_LARGER}")
        return Baseline.read(data.decode("utf-8"), path)
    except FileNotFoundError:
        if fresh:
            return Baseline(folder=os.path.dirname(path) or ".")
        raise click.ClickException(f"{path}: baseline not found; make it with --write-baseline") from None
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) and error.strerror else error
        raise click.ClickException(f"{path}: this baseline cannot be read: {why}") from None


def write_known(records: "list[Record]", path: str) -> None:
    """Write a baseline.

    Raises:
        click.ClickException: it cannot be written, or could not be read again.
    """
    from mashwright.reviewing.baseline import written

    text = written(records)
    if len(text.encode()) > BASELINE_BYTES:
        raise click.ClickException(f"{path}: this baseline would be {_LARGER}")
    with opened(path, "baseline") as out:
        publish(text, out, tabs=True)


def tell_known(known: "Comparison", *, pruned: bool) -> None:
    """What became of the known findings, on standard error."""
    for old, new in sorted(known.renamed.items()):
        complain(f"{old} is known again as {new}")
    for record in sorted(known.gone)[:MOST_GONE]:
        complain(f"gone since the baseline: {record.path}: {record.rule} at {record.place}")
    if len(known.gone) > MOST_GONE:
        complain(f"and {len(known.gone) - MOST_GONE} more gone")
    if known.gone and not pruned:
        complain("--prune takes what is gone out of the baseline")
