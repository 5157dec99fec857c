"""Names that come near a misspelt one. Loaded only when a name is not known."""

from collections.abc import Iterable
from difflib import SequenceMatcher
from functools import lru_cache
from math import inf

from mashwright.ingredients.names import normalised

_ALIKE = 0.6


def rank(name: str, spellings: Iterable[tuple[str, str]], count: int) -> tuple[str, ...]:
    """The entries whose spellings come nearest to a name, best first.

    Letters are compared as written and with the words in order; of names that differ only in a number, the nearer
    number is the nearer name.

    Args:
        name: as a brewer wrote it.
        spellings: pairs of a spelling and the entry that it stands for.
        count: how many entries at most.
    """
    best: dict[str, tuple[float, float]] = {}
    written, key = SequenceMatcher(b=_letters(name.casefold())), SequenceMatcher(b=_letters(normalised(name)))
    for spelling, entry in spellings:
        likeness = max(_likeness(written, spelling.casefold()), _likeness(key, normalised(spelling)))
        if likeness >= _ALIKE:
            best[entry] = max(best.get(entry, (0.0, -inf)), (round(likeness, 3), -_apart(name, spelling)))
    return tuple(sorted(best, key=lambda entry: best[entry], reverse=True)[:count])


def close(name: str, candidates: Iterable[str], least: float) -> list[tuple[float, str]]:
    """As ``lookup.close``."""
    matcher = SequenceMatcher(b=name.casefold())
    alike = []
    for one in dict.fromkeys(candidates):
        matcher.set_seq1(one.casefold())
        if matcher.real_quick_ratio() >= least and matcher.quick_ratio() >= least and matcher.ratio() >= least:
            alike.append((matcher.ratio(), one))
    return sorted(alike, key=lambda pair: -pair[0])


def _likeness(matcher: "SequenceMatcher[str]", text: str) -> float:
    matcher.set_seq1(_letters(text))
    return matcher.ratio() if matcher.real_quick_ratio() >= _ALIKE and matcher.quick_ratio() >= _ALIKE else 0.0


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
