"""Phrases looked for in a text, word by word, whatever their case, number and hyphens."""

import re
from collections.abc import Iterable, Iterator

from mashwright.words.tokens import plain

_BETWEEN = r" (?:\n )?"  # a line's end parts no phrase


class Phrases:
    """Several phrases, made ready to be looked for together.

    A star stands for any letters of a word: ``lactobac*``, ``*flour``.
    """

    __slots__ = ("_parts", "_pattern", "_phrases")

    def __init__(self, phrases: Iterable[str]) -> None:
        self._phrases = {" ".join(map(_common, phrase.split())) for phrase in phrases}
        self._parts = {max(phrase.replace("*", " ").split(), key=len) for phrase in self._phrases}
        self._pattern: re.Pattern[str] | None = None

    def within(self, text: str) -> Iterator[tuple[int, int]]:
        """Where they stand in a text, as ``tokens.plain`` gives it: the first letter of each, and what follows it."""
        if self._can_be_in(text):
            yield from ((match.start(), match.end() - 1) for match in self._compiled().finditer(f" {text}"))

    def without(self, text: str) -> str:
        """A text, as ``tokens.plain`` gives it, with a comma in place of each of them."""
        return self._compiled().sub(" ,", f" {text}")[1:] if self._can_be_in(text) else text

    def _can_be_in(self, text: str) -> bool:
        """Whether a text has the longest word of one; most have none, so that nothing is compiled to look for it."""
        return self._pattern is not None or any(part in text for part in self._parts)

    def _compiled(self) -> re.Pattern[str]:
        if self._pattern is None:
            found = sorted(map(_pattern, self._phrases), key=len, reverse=True)  # of several that fit the longest
            self._pattern = re.compile(rf" (?:{'|'.join(found)})(?= |\Z)")
        return self._pattern


def _pattern(phrase: str) -> str:
    """The pattern of a phrase in the common form of its words."""
    return _BETWEEN.join(map(_word, phrase.split()))


def _common(word: str) -> str:
    return word.casefold() if "*" in word else plain(word)


def _word(word: str) -> str:
    return r"\S*".join(map(re.escape, word.split("*")))
