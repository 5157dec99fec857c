"""What brewers say, by what they mean with it; the table is vocabulary.csv, edited by hand.

A row is ``tag,phrase,unless,where,source``. A phrase is found in any case and number, with blanks or hyphens, and not
where a "not" takes it back (``negation``); a star stands for any letters of a word. ``unless`` are longer phrases that
hold it and mean another thing, parted by a slash: sour cherries make no sour beer. ``where`` are the texts in which it
says so, parted by blanks:

- ``name``, ``style``, ``notes``, ``source`` of a recipe,
- ``ingredient``: the name of what goes in, of a yeast or a hop too,
- ``when``: the words for when an addition goes in.

No book was read for it: it holds what brewers commonly write, or is from memory, and is marked so.
"""

import os
from bisect import bisect_right
from collections.abc import Iterator
from functools import cache, lru_cache
from typing import NamedTuple

from mashwright.budgets import NAME_CHARACTERS
from mashwright.edited_tables import lines_of
from mashwright.words.negation import says_free, taken_back
from mashwright.words.phrases import Phrases
from mashwright.words.tokens import plain

PLACES = ("name", "style", "notes", "source", "ingredient", "when")


class Entry(NamedTuple):
    """One row.

    Attributes:
        tag: what is meant.
        phrase: as brewers write it.
        unless: longer phrases that hold it and mean another thing.
        where: some of ``PLACES``.
        source: a key of the bibliography.
    """

    tag: str
    phrase: str
    unless: tuple[str, ...]
    where: tuple[str, ...]
    source: str


@cache
def _rows() -> dict[str, list[str]]:
    """The rows of each tag, cut up only when the tag is asked for."""
    found: dict[str, list[str]] = {}
    for row in lines_of(os.path.join(os.path.dirname(__file__), "vocabulary.csv")):
        found.setdefault(row[: row.index(",")], []).append(row)
    return found


def listed() -> tuple[Entry, ...]:
    """The whole table."""
    return tuple(_entry(row) for rows in _rows().values() for row in rows)


def _entry(row: str) -> Entry:
    tag, phrase, unless, where, source = row.split(",")
    return Entry(tag, phrase, tuple(filter(None, unless.split("/"))), tuple(where.split()), source)


def speaks_of(tag: str, where: str, text: str) -> bool:
    """Whether a text says what a tag means, and does not take it back.

    Args:
        tag: one of the table's.
        where: one of ``PLACES``: what sort of text it is.
        text: as it was written.

    Raises:
        KeyError: the table has no such tag for such a text.
    """
    return _speaks_of(tag, where, text) if len(text) <= NAME_CHARACTERS else plain_speaks_of(tag, where, plain(text))


def plain_speaks_of(tag: str, where: str, text: str) -> bool:
    """The same of a text as ``tokens.plain`` gives it."""
    return any(not (says_free(text, end) or taken_back(text, start)) for start, end in _spoken(tag, where, text))


def mentions(tag: str, where: str, text: str) -> bool:
    """Whether a text holds what a tag means, taken back or not; otherwise as ``speaks_of``.

    What a thing is called is asked so, since "non-GMO flour" is flour; and what can hurt if it goes unnoticed.
    """
    return _mentions(tag, where, text) if len(text) <= NAME_CHARACTERS else plain_mentions(tag, where, plain(text))


def plain_mentions(tag: str, where: str, text: str) -> bool:
    """The same of a text as ``tokens.plain`` gives it."""
    return next(_spoken(tag, where, text), None) is not None


def phrases_of(tag: str, where: str) -> Phrases:
    """The phrases of a tag for one sort of text, for those who read a "not" themselves.

    Raises:
        KeyError: the table has no such tag for such a text.
    """
    return _compiled(tag, where)[0]


def _spoken(tag: str, where: str, text: str) -> Iterator[tuple[int, int]]:
    """Where the phrases of a tag stand in a plain text and mean it."""
    phrases, others = _compiled(tag, where)
    of_others: list[tuple[int, int]] | None = None
    for start, end in phrases.within(text):
        if of_others is None:
            of_others = list(others.within(text))
        at = bisect_right(of_others, (start, len(text))) - 1
        if at < 0 or end > of_others[at][1]:
            yield start, end


@lru_cache(maxsize=4096)
def _speaks_of(tag: str, where: str, text: str) -> bool:
    return plain_speaks_of(tag, where, plain(text))


@lru_cache(maxsize=4096)
def _mentions(tag: str, where: str, text: str) -> bool:
    return plain_mentions(tag, where, plain(text))


@cache
def _compiled(tag: str, where: str) -> tuple[Phrases, Phrases]:
    """The phrases of a tag for one sort of text, and the longer ones that mean another thing."""
    rows = [one for one in map(_entry, _rows().get(tag, ())) if where in one.where]
    if not rows:
        raise KeyError((tag, where))
    return Phrases(one.phrase for one in rows), Phrases(other for one in rows for other in one.unless)
