"""What a recipe claims of its beer to those who drink it: in its name, its style and its notes."""

from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from mashwright.patterns import pattern
from mashwright.words.negation import claim_taken_back, denies, says_free
from mashwright.words.phrases import Phrases
from mashwright.words.tokens import plain, sentences
from mashwright.words.vocabulary import phrases_of, plain_mentions, plain_speaks_of

FREE, COELIAC, VERY_LOW, LOW = "free", "coeliac", "very low", "low"
"""Claims of gluten: of none; for those who must avoid it; the one word for little that law knows; any other."""
_BEFORE = ("free of", "free from", "free of any", "no", "without", "zero", "non")
_SHORT = pattern(r"\bGF\b")


class Speech(NamedTuple):
    """What is said to drinkers.

    Attributes:
        texts: name, style and notes, as far as there are any: which it is, and what it says as ``tokens.plain`` has it.
        written: the same as they were written.
    """

    texts: tuple[tuple[str, str], ...]
    written: tuple[tuple[str, str], ...]

    def claims(self, tag: str) -> str:
        """In which text something of the vocabulary is claimed and not taken back, nor asked; "" where in none."""
        return next((where for where, text in self.texts if _claims(phrases_of(tag, where), text)), "")

    def claims_free_of(self, names: Iterable[str]) -> str:
        """In which text the beer is claimed to be free of a thing of one of these names; "" where in none."""
        phrases = _free_of(tuple(names))
        return next((where for where, text in self.texts if _claims(phrases, text)), "")

    def mentions(self, tag: str) -> bool:
        """Whether something of the vocabulary is spoken of, be it taken back or not."""
        return any(plain_mentions(tag, where, text) for where, text in self.texts)

    def gluten(self) -> tuple[str, str] | None:
        """What is claimed of gluten: ``FREE``, ``COELIAC``, ``VERY_LOW`` or ``LOW``, and in which text."""
        for where, text in self.texts:
            # nothing of little gluten passes for a claim of none
            if _claims(phrases_of("gluten-free", where), phrases_of("speaks-of-gluten", where).without(text)):
                return FREE, where
        if (place := self._for_coeliacs()) is not None:
            return COELIAC, place
        if (place := self._short()) is not None:
            return FREE, place
        for where, text in self.texts:
            if _claims(phrases_of("very-low-gluten", where), text):
                return VERY_LOW, where
            if _claims(phrases_of("low-gluten", where), text):
                return LOW, where
        return None

    def _for_coeliacs(self) -> str | None:
        """Where a beer is said to be meant for coeliac drinkers; not where they are warned."""
        for where, text in self.texts:
            if any(_speaks_to_coeliacs(where, sentence) for sentence in sentences(text)):
                return where
        return None

    def _short(self) -> str | None:
        """Where "GF" stands for free of gluten, in capitals."""
        for where, text in self.written:
            if (short := _SHORT().search(text)) is not None:
                before = plain(text[: short.start()])
                if not claim_taken_back(before, len(before)):
                    return where
        return None


def speech(name: str, style: str, notes: str) -> Speech:
    """What a recipe says to drinkers."""
    written = tuple((where, text) for where, text in (("name", name), ("style", style), ("notes", notes)) if text)
    return Speech(tuple((where, plain(text)) for where, text in written), written)


def _claims(phrases: Phrases, text: str) -> bool:
    return any(
        not (text.startswith(" ?", end) or says_free(text, end) or claim_taken_back(text, start))
        for start, end in phrases.within(text)
    )


def _speaks_to_coeliacs(where: str, sentence: str) -> bool:
    words = sentence.split()
    return (
        plain_speaks_of("coeliac", where, sentence)
        and plain_speaks_of("for-them", where, sentence)
        and not plain_speaks_of("against-them", where, sentence)
        and not ("no" in words or any(map(denies, words)))
    )


@lru_cache(maxsize=64)
def _free_of(names: tuple[str, ...]) -> Phrases:
    """How a claim to be free of something is written."""
    return Phrases(
        spelling
        for name in names
        for spelling in (f"{name} free", f"{name}free", *(f"{word} {name}" for word in _BEFORE))
    )
