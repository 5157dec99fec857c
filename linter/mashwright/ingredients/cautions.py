"""Things that can poison, by the words that brewers write for them; the table is cautions.csv, edited by hand.

A row is ``harm,source,when,words,unless,says``: alternatives are parted by a slash, and the sentence comes last, so
that it may hold commas.

No source was read for this table: `common-practice` stands where herbals, foraging and food books commonly warn,
`from-memory` where only memory says so. It is no list of what may be used: a thing that is missing here is not thereby
harmless, and nothing here gives a dose that is.
"""

from functools import lru_cache
from typing import NamedTuple

from mashwright.ingredients.tables import lines

HARMS = (POISON, RISK, CARE) = ("poison", "risk", "care")
"""What a brewer's amount does: it can poison; it may, by the plant, the part or the amount; it asks for care."""


class Caution(NamedTuple):
    """One thing, or several of a kind.

    Attributes:
        words: alternatives; all the words of one of them stand in a name.
        harm: ``poison``, ``risk`` or ``care``.
        says: what it does, after the name.
        source: a key of the bibliography.
        unless: words beside which another thing is meant.
        raw: whether it only matters where it is not boiled.
    """

    words: tuple[frozenset[str], ...]
    harm: str
    says: str
    source: str
    unless: frozenset[str] = frozenset()
    raw: bool = False


_LOOK_ALIKE = "it is easily mistaken for a poisonous plant; somebody who knows them looks at every piece"
_GATHERED = frozenset({"foraged", "forage", "wildcrafted", "wild", "hedgerow"})
_NOT_GATHERED = frozenset(
    {"yeast", "rice", "hop", "honey", "culture", "bacteria", "fermentation", "brett", "brettanomyces", "ale", "flower"}
)
_VAGUE = frozenset({"herb", "green", "leaf", "root", "plant", "mushroom", "fungus", "berry", "flower", "bark", "seed"})
_NEGATED = frozenset(
    {"removed", "without", "no", "free", "off", "less", "not", "pitted", "stoned", "destemmed", "never"}
)
_APART = str.maketrans(dict.fromkeys('-‐‑–—,;:./()[]#&+*_"“”\t\n', " ") | dict.fromkeys("'’", ""))


@lru_cache(maxsize=4096)
def words_of(name: str) -> frozenset[str]:
    """The words of a name, in lower case and the singular, so that ``Elder leaves`` gives ``elder`` and ``leaf``."""
    return frozenset(map(_singular, name.casefold().translate(_APART).split()))


def _singular(word: str) -> str:
    if len(word) <= 3 or word[-1] != "s" or word.endswith(("ss", "us", "is", "as")):
        return word
    for ending, instead in (("leaves", "leaf"), ("ies", "y"), ("oes", "o"), ("shes", "sh"), ("ches", "ch")):
        if word.endswith(ending):
            return word[: -len(ending)] + instead
    return word[:-1]


@lru_cache(maxsize=4096)
def caution(name: str) -> Caution | None:
    """The worst that is to be said of a thing of that name."""
    said = words_of(name)
    if said.isdisjoint(_triggers()):
        return None
    found = [one for one in listed() if said.isdisjoint(one.unless) and _named(one, said)]
    if found:
        return min(found, key=lambda one: HARMS.index(one.harm))
    return _gathered(said) if said & _GATHERED and not said & _NOT_GATHERED else None


@lru_cache(maxsize=1)
def listed() -> tuple[Caution, ...]:
    """The whole table."""
    return tuple(
        Caution(
            tuple(frozenset(alternative.split()) for alternative in words.split("/")),
            harm,
            says,
            source,
            frozenset(unless.split()),
            when == "raw",
        )
        for harm, source, when, words, unless, says in (line.split(",", 5) for line in lines("cautions"))
    )


def _named(one: Caution, said: frozenset[str]) -> bool:
    """Whether one of its alternatives is meant; "cherries, stones removed" are free of what two words would name."""
    return any(
        alternative <= said and (len(alternative) == 1 or said.isdisjoint(_NEGATED)) for alternative in one.words
    )


def _gathered(said: frozenset[str]) -> Caution:
    """A plant that somebody picked: what it was taken for is all that the recipe knows."""
    return Caution((), RISK if said & _VAGUE else CARE, _LOOK_ALIKE, "common-practice")


@lru_cache(maxsize=1)
def _triggers() -> frozenset[str]:
    """Words one of which stands in every name that is listed."""
    return _GATHERED.union(*(alternative for one in listed() for alternative in one.words))
