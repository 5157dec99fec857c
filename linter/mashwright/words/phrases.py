"""Phrases looked for in a text, word by word, whatever their case, number and hyphens."""

import re
from collections.abc import Iterable, Iterator

from mashwright.words.tokens import plain

_BETWEEN = r" (?:\n )?"  # a line's end parts no phrase


class Phrases:
    """Several phrases, made ready to be looked for together.

    A star stands for any letters of a word: ``lactobac*``, ``*flour``.
    """

    __slots__ = ("_pattern",)

    def __init__(self, phrases: Iterable[str]) -> None:
        found = sorted(set(map(_pattern, phrases)), key=len, reverse=True)  # of several that fit the longest is taken
        self._pattern = re.compile(rf" (?:{'|'.join(found)})(?= |\Z)" if found else "(?!)")

    def within(self, text: str) -> Iterator[tuple[int, int]]:
        """Where they stand in a text, as ``tokens.plain`` gives it: the first letter of each, and what follows it."""
        return ((match.start(), match.end() - 1) for match in self._pattern.finditer(f" {text}"))

    def without(self, text: str) -> str:
        """A text, as ``tokens.plain`` gives it, with a comma in place of each of them."""
        return self._pattern.sub(" ,", f" {text}")[1:]


def _pattern(phrase: str) -> str:
    """The pattern of a phrase, in the common form of its words."""
    return _BETWEEN.join(map(_word, " ".join(_common(word) for word in phrase.split()).split()))


def _common(word: str) -> str:
    return word.casefold() if "*" in word else plain(word)


def _word(word: str) -> str:
    return r"\S*".join(map(re.escape, word.split("*")))
