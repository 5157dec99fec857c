"""The yeast that a name probably means, so that what is watched for does not vanish behind a slip of the pen."""

from functools import cache, lru_cache

from mashwright.ingredients import tables
from mashwright.ingredients.lookup import yeast
from mashwright.ingredients.names import words
from mashwright.ingredients.yeasts import Yeast
from mashwright.words.negation import lacks
from mashwright.words.tokens import written

# Of the letters of a word of up to five letters, of a longer one, and of a whole name; judgement.
_SHORT_ALIKE, _ALIKE, _WHOLE_ALIKE = 0.8, 0.82, 0.9
_SHORTEST = 4  # letters of a word that can be told from another by its likeness; judgement


@lru_cache(maxsize=1024)
def probable_yeast(kind: str) -> Yeast | None:
    """The kind of that name; else that of which it is a slip; else what splits dextrins by a single word of it.

    Args:
        kind: as the recipe writes it: ``saison``, ``saisson``, ``my saison``.
    """
    if not kind:
        return None
    if (known := yeast(kind)) is not None:
        return known
    meant = slip_of(kind) or kind
    if (known := yeast(meant)) is not None:
        return known
    if lacks(meant):
        return None
    found = [one for one in map(yeast, written(meant)) if one is not None and _watched(one)]
    return max(found, key=_watched, default=None)


@lru_cache(maxsize=1024)
def slip_of(kind: str) -> str | None:
    """The name of a kind of yeast from which a name is a slip of the pen away, None where it is no such slip."""
    if not kind or yeast(kind) is not None:
        return None
    said = written(kind)
    corrected = " ".join(_corrected(word) for word in said)
    if corrected != " ".join(said) and yeast(corrected) is not None:
        return corrected
    near = _nearest(" ".join(said), _spellings(), _WHOLE_ALIKE)
    if near is not None:
        return near
    # one word of several is misspelt, as in "saisson ale": the kind that the word is says what is meant
    slips = [meant for word, meant in zip(said, corrected.split(), strict=True) if word != meant]
    return next((meant for meant in slips if yeast(meant) is not None), None) if not lacks(kind) else None


def _watched(kind: Yeast) -> int:
    """How much there is to watch for: what splits dextrins; nothing in others, of which a single word says little."""
    return {"yes": 2, "slowly": 1}.get(kind.splits, 0)


def _corrected(word: str) -> str:
    if len(word) < _SHORTEST or words(word) <= _vocabulary()[0]:
        return word
    return _nearest(word, _vocabulary()[1], _SHORT_ALIKE if len(word) <= 5 else _ALIKE) or word


def _nearest(word: str, known: tuple[str, ...], least: float) -> str | None:
    from mashwright.words.nearest import nearest

    return nearest(word, known, least)


@cache
def _vocabulary() -> tuple[frozenset[str], tuple[str, ...]]:
    """The words of all names of yeasts: in their common form, and as they are written."""
    written = sorted({word for name in _spellings() for word in name.split()})
    return frozenset(one for word in written for one in words(word)), tuple(w for w in written if len(w) >= _SHORTEST)


@cache
def _spellings() -> tuple[str, ...]:
    """All names of yeasts as they are written, in small letters and without hyphens."""
    names = (*tables.blocks("yeasts"), *(alias for alias, _ in tables.aliases("yeasts")))
    return tuple(" ".join(written(name)) for name in names)
