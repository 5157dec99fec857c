"""Names that a slip in one word, or a word left out, makes of a known one: what whole names compared do not show.

``munic`` is one letter away from a word of many names and far from each of them; ``Sorachi`` is half a name.
"""

from collections.abc import Callable
from functools import cache, lru_cache
from itertools import chain

from mashwright.budgets import GUESSED_CHARACTERS
from mashwright.ingredients import lookup, minerals, tables
from mashwright.ingredients.enzymes import enzyme, names_of_enzymes
from mashwright.ingredients.fermentables import Fermentable
from mashwright.ingredients.names import words
from mashwright.words.singular import singular
from mashwright.words.tokens import written

# Of the letters of a word of up to five letters, and of a longer one; judgement.
_SHORT_ALIKE, _ALIKE = 0.8, 0.82
_SHORTEST = 4  # letters of a word that can be told from another by its likeness; judgement
_FEW = 2  # names that a part of a name can be of, so that it says one of them; judgement
_MOST_WORDS = 6  # of a name that is gone through word by word; judgement

_KNOWN: dict[str, Callable[[str], object]] = {
    "fermentables": lookup.fermentable,
    "hops": lookup.hop,
    "yeasts": lookup.yeast,
    "styles": lookup.style,
    "enzymes": enzyme,
    "salts": minerals.salt,
    "acids": minerals.acid,
}


@lru_cache(maxsize=1024)  # each remedy that is tried asks again
def slips(name: str, table: str) -> tuple[str, ...]:
    """Known names of which a name is a slip by its words: each misspelt word put right, or what is left out added.

    Args:
        name: as a brewer wrote it, and the table does not know it; a very long one is a slip of none.
        table: ``fermentables``, ``hops``, ``yeasts``, ``styles``, ``enzymes``, ``salts`` or ``acids``.
    """
    said = written(name)
    if len(name) > GUESSED_CHARACTERS or not 0 < len(said) <= _MOST_WORDS:
        return ()
    meant = [_corrected(word, table) for word in said]
    if meant != said:
        spelt = name
        for word, right in zip(said, meant, strict=True):
            if right != word and (at := spelt.casefold().find(word)) >= 0:
                spelt = f"{spelt[:at]}{right}{spelt[at + len(word) :]}"
        return (spelt,) if _KNOWN[table](spelt) is not None else ()
    whole = words(name)
    if max(map(len, said)) < _SHORTEST or not whole:
        return ()
    longer: dict[str, str] = {}  # the shortest name of each entry that has all the words
    for one in sorted((one for one in _spellings(table) if whole < words(one)), key=len):
        longer.setdefault(known_as(one, table), one)
    return tuple(longer.values()) if len(longer) <= _FEW else ()


def with_words(name: str, table: str) -> tuple[str, ...]:
    """Names that have all the words of one, each put right: for looking, since it is far from what was written."""
    said = written(name)
    if len(name) > GUESSED_CHARACTERS or not 0 < len(said) <= _MOST_WORDS or max(map(len, said)) < _SHORTEST:
        return ()
    whole = words(" ".join(_corrected(word, table) for word in said))
    longer: dict[str, str] = {}
    for one in sorted((one for one in _spellings(table) if whole and whole <= words(one)), key=len):
        longer.setdefault(known_as(one, table), one)
    return tuple(longer.values())


def kind_by_words(name: str, kinds: frozenset[str]) -> str:
    """The kind of all fermentables that have the known words of a name; "" where they are of several kinds.

    Args:
        name: as a brewer wrote it, and no table knows it.
        kinds: those that are possible.
    """
    known = words(name) & _vocabulary("fermentables")[0]
    if not known or len(name) > GUESSED_CHARACTERS:
        return ""
    found = {entry.kind for one, entry in _entries() if known <= one and entry.kind in kinds}
    return found.pop() if len(found) == 1 else ""


@cache
def _entries() -> tuple[tuple[frozenset[str], Fermentable], ...]:
    """The words of each name of the fermentables, with what it stands for."""
    named = ((words(one), lookup.fermentable(one)) for one in _spellings("fermentables"))
    return tuple((said, entry) for said, entry in named if entry is not None)


def _corrected(word: str, table: str) -> str:
    known, spellings = _vocabulary(table)
    if len(word) < _SHORTEST or not word.isalpha() or words(word) <= known:
        return word
    from mashwright.words.nearest import nearest

    near = nearest(word, spellings, _SHORT_ALIKE if len(word) <= 5 else _ALIKE)
    return spellings[near] if near is not None else word


@cache
def _vocabulary(table: str) -> tuple[frozenset[str], dict[str, str]]:
    """The words of a table's names in their common form; and those that are long enough, each as it is written."""
    spelt: dict[str, str] = {}
    for one in _spellings(table):
        for word in one.replace("-", " ").replace("(", " ").replace(")", " ").split():
            if len(word) >= _SHORTEST and word.isalpha():
                spelt.setdefault(word.casefold(), word)
                spelt.setdefault(singular(word.casefold()), singular(word))
    return frozenset(chain.from_iterable(words(one) for one in _spellings(table))), spelt


@cache
def _spellings(table: str) -> tuple[str, ...]:
    """All names that a table knows, as they are written there."""
    if table == "enzymes":
        return names_of_enzymes()
    if table in ("salts", "acids"):
        return minerals.names_of(table)
    return (*tables.blocks(table), *(alias for alias, _ in tables.aliases(table)))


def known_as(name: str, table: str) -> str:
    """What a name stands for in a table; "" where it is not known."""
    found = _KNOWN[table](name)
    if isinstance(found, tuple) and not hasattr(found, "name"):
        found = found[0]  # an acid, with its strength
    return str(getattr(found, "name", found)) if found is not None else ""
