"""Names that come near a misspelt one; what compares letters is loaded only when a name is not known."""

from collections.abc import Callable, Iterable
from functools import lru_cache
from math import inf

from mashwright.budgets import GUESSED_CHARACTERS

_ALIKE = 0.6


def close(name: str, candidates: Iterable[str], least: float) -> list[tuple[float, str]]:
    """The names that are at least so like one, the nearest first, each with how like it is.

    Args:
        name: as somebody wrote it; case has no say; a very long one is near to none.
        candidates: names that it could mean.
        least: from 0 for nothing in common to 1 for the same.
    """
    if len(name) > GUESSED_CHARACTERS:
        return []
    from difflib import SequenceMatcher

    matcher = SequenceMatcher(b=name.casefold())
    alike = []
    for one in dict.fromkeys(one for one in candidates if len(one) <= GUESSED_CHARACTERS):
        matcher.set_seq1(one.casefold())
        if matcher.real_quick_ratio() >= least and matcher.quick_ratio() >= least and matcher.ratio() >= least:
            alike.append((matcher.ratio(), one))
    return sorted(alike, key=lambda pair: -pair[0])


def nearest(name: str, candidates: Iterable[str], least: float) -> str | None:
    """The one name that is nearest, as ``close`` finds it; of several that are as near, the last by the alphabet."""
    return max(close(name, candidates, least), default=(0.0, None))[1]


def rank(
    name: str, spellings: Iterable[tuple[str, str]], count: int, normalised: Callable[[str], str]
) -> tuple[str, ...]:
    """The entries whose spellings come nearest to a name, best first.

    Letters are compared as written and with the words in order; of names that differ only in a number, the nearer
    number is the nearer name.

    Args:
        name: as a brewer wrote it; a very long one is near to none.
        spellings: pairs of a spelling and the entry that it stands for.
        count: how many entries at most.
        normalised: a name with its words in order.
    """
    if len(name) > GUESSED_CHARACTERS:
        return ()
    best: dict[str, tuple[float, float]] = {}
    written, key = _Letters(name.casefold()), _Letters(normalised(name))
    for spelling, entry in spellings:
        likeness = max(written.likeness(spelling.casefold()), key.likeness(normalised(spelling)))
        if likeness >= _ALIKE:
            best[entry] = max(best.get(entry, (0.0, -inf)), (round(likeness, 3), -_apart(name, spelling)))
    return tuple(sorted(best, key=lambda entry: best[entry], reverse=True)[:count])


class _Letters:
    """The letters of a name, to be compared with those of many."""

    def __init__(self, text: str) -> None:
        from difflib import SequenceMatcher

        letters = _letters(text)
        self.matcher = SequenceMatcher(b=letters)
        self.bag, self.length = _bag(letters)

    def likeness(self, text: str) -> float:
        """How like a text is, 0-1; 0 where it is not enough."""
        letters = _letters(text)
        bag, length = _bag(letters)
        if 2 * (self.bag & bag).bit_count() < _ALIKE * (self.length + length):
            return 0.0  # not so many letters are the same, whatever their order; most names end here
        self.matcher.set_seq1(letters)
        likeness = self.matcher.ratio()
        return likeness if likeness >= _ALIKE else 0.0


_LETTER_BITS = 32  # more of one letter no name in a table has


@lru_cache(maxsize=8192)
def _bag(text: str) -> tuple[int, int]:
    """How often each letter stands in a text, as so many bits of its own, and how long the text is.

    What two bags have in common is at least as many as the letters that two texts have.
    """
    counts = [0] * 32
    for letter in text:
        counts[ord(letter) % 32] += 1
    bag = 0
    for count in counts:
        bag = bag << _LETTER_BITS | (1 << min(count, _LETTER_BITS)) - 1
    return bag, len(text)


@lru_cache(maxsize=8192)
def _letters(text: str) -> str:
    return " ".join("".join(letter for letter in text if not letter.isdigit()).split())


def _apart(one: str, other: str) -> float:
    """How far apart their numbers are; a number against none is farthest."""
    a, b = _number(one), _number(other)
    return 0.0 if a == b else inf if a is None or b is None else abs(a - b)


def _number(text: str) -> float | None:
    digits = "".join(letter for letter in text if letter.isascii() and letter.isdigit())
    return float(digits[:6]) if digits else None
