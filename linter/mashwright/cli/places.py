"""Where results may not go: in the place of what they tell of, or of each other."""

import os
from collections.abc import Iterable, Sequence
from typing import NamedTuple

import click

from mashwright.cli.output import descriptor


class _Place(NamedTuple):
    """Where a result goes, by its name without links and in small letters, and by what is there now."""

    path: str
    real: str
    status: os.stat_result | None


def are_apart(places: Sequence[str | None]) -> bool:
    """Whether each result has a place of its own; None is standard output.

    Two names that differ in the case of letters are one place: they are on other machines.
    """
    streams = [number for one in places if (number := descriptor(one)) is not None]
    seen: list[_Place] = []
    for one in places:
        if one is not None and descriptor(one) is None:
            if _taken([one], seen) is not None:
                return False
            seen.append(_place(one))
    return len(set(streams)) == len(streams)


def keep_clear(places: Sequence[str], files: Iterable[str], are: str, what: str = "report") -> None:
    """See that no result takes the place of one of these files, whatever name of it is given.

    Args:
        places: of results.
        files: that a run reads.
        are: what each of them is, as "under review".
        what: the result is, in a word.

    Raises:
        click.ClickException: one would.
    """
    results = [_place(one) for one in places if descriptor(one) is None]
    if results and (place := _taken(files, results)) is not None:
        raise click.ClickException(f"{place} is {are}, and a {what} would take its place; give the {what} another name")


def _place(path: str) -> _Place:
    return _Place(path, os.path.realpath(path).casefold(), _status(path))


def _status(path: str) -> os.stat_result | None:
    try:
        return os.stat(path)
    except (OSError, ValueError):
        return None


def _taken(files: Iterable[str], places: Sequence[_Place]) -> str | None:
    """The first place in which one of the files lies, if there is one."""
    for file in files:
        status, name = _status(file), os.path.basename(file).casefold()
        for place in places:
            if status is not None and place.status is not None and os.path.samestat(status, place.status):
                return place.path
            # of many files the names are compared first, since looking for links on a way takes longer
            if name == os.path.basename(place.real) and os.path.realpath(file).casefold() == place.real:
                return place.path
    return None
