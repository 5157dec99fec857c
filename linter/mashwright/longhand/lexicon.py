"""What brewers write in a line beside names and amounts; the table is words.csv, edited by hand.

A row is ``language,phrase,field,value,source``: the phrase says that a field has a value (``fwh``: ``first-wort`` is
``true``); without a value it says which field the amount beside it belongs to (``boil``), and without a field it says
nothing by itself (``of``, ``at``). One phrase may stand for several fields; the line that it is in decides. No book was
read for it: it holds what brewers commonly write.

pages.csv has the same columns: headings and labels of a whole page, and its words of grammar, which are too many to be
read for a line of a recipe.
"""

import os
from functools import cache
from typing import NamedTuple
from unicodedata import combining, normalize

from mashwright.edited_tables import lines_of

MOST_WORDS = 5
"""Words of the longest phrase."""


class Meaning(NamedTuple):
    """What a phrase says: the value of a field, or which field an amount is of; neither for a word of grammar."""

    field: str
    value: str


Table = dict[str, tuple[Meaning, ...]]


@cache
def meanings() -> Table:
    """Each phrase, in small letters with blanks between its words, and what it can say."""
    return _read("words.csv", {})


@cache
def of_pages() -> Table:
    """The same with the words of whole pages, and each phrase as it is typed where accents are left out."""
    found = _read("pages.csv", meanings())
    for phrase, said in tuple(found.items()):
        if not phrase.isascii():
            for plain in {_unaccented(phrase), _unaccented(phrase.translate(_UMLAUTS))}:
                found.setdefault(plain, said)
    return found


_UMLAUTS = {ord("ä"): "ae", ord("ö"): "oe", ord("ü"): "ue", ord("å"): "aa", ord("ø"): "oe"}
_JOINED = {ord("ø"): "o", ord("æ"): "ae", ord("ß"): "ss", ord("œ"): "oe"}
"""Letters that are typed as two, or that no accent can be taken from."""


def _unaccented(phrase: str) -> str:
    folded = phrase.translate(_JOINED)
    return "".join(letter for letter in normalize("NFKD", folded) if not combining(letter))


def _read(name: str, more: Table) -> Table:
    found = dict(more)
    for row in lines_of(os.path.join(os.path.dirname(__file__), name)):
        _, phrase, field, value, _ = row.split(",")
        key = phrase.replace("-", " ")
        found[key] = (*found.get(key, ()), Meaning(field, value))
    return found


@cache
def values_of(field: str) -> dict[str, str]:
    """The phrases that stand for a value of a field, such as ``leaf`` for a ``form`` of ``cone``."""
    every = ((phrase, one) for phrase, all_of in meanings().items() for one in all_of)
    return {phrase: one.value for phrase, one in every if one.field == field and one.value}
