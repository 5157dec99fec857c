"""Things that can poison, by the words that brewers write for them; the table is cautions.csv, edited by hand.

A row is ``harm,source,when,above,words,unless,says``: alternatives are parted by a slash, and the sentence comes last,
so that it may hold commas. It is written of one thing, with what changes for several in braces: ``{it} {holds}``
becomes "they hold", and ``{them}`` is "it" or "them". ``above`` is in grams to the litre of beer.

No source was read for this table: `common-practice` stands where herbals, foraging and food books commonly warn,
`from-memory` where only memory says so; amounts are our judgement on either. It is no list of what may be used: a
thing that is missing here is not thereby harmless, and nothing here gives a dose that is.
"""

import re
from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from mashwright.ingredients.tables import lines

HARMS = (POISON, DANGER, RISK, CARE) = ("poison", "danger", "risk", "care")
"""What a brewer's amount does: poisons; hurts otherwise; may, by plant, part or amount; asks for care."""
WHENS = (RAW, SEALED, ALIKE) = ("raw", "sealed", "alike")
"""Only where it is not boiled; only where it is closed in; a row that tells of look-alikes itself."""


class Caution(NamedTuple):
    """One thing, or several of a kind.

    Attributes:
        words: alternatives; all the words of one of them stand in a name.
        harm: ``poison``, ``danger``, ``risk`` or ``care``.
        says: what it does, after the name, with what changes for several in braces.
        source: a key of the bibliography.
        unless: words beside which another thing is meant.
        raw: whether it only matters where it is not boiled.
        sealed: whether it only matters where it is closed in, as in a bottle.
        alike: whether it warns of what looks alike.
        above_g_per_l: it only matters above this, g to the litre of beer; 0 for any amount, said or not.
    """

    words: tuple[frozenset[str], ...]
    harm: str
    says: str
    source: str
    unless: frozenset[str] = frozenset()
    raw: bool = False
    sealed: bool = False
    alike: bool = False
    above_g_per_l: float = 0.0

    def told(self, name: str, ending: str = "") -> str:
        """What is to be said of a thing of that name, with what follows it, in the number of the name."""
        return agreed(self.says + ending, plural=is_plural(name))


_MISTAKEN = "{it} {is} easily mistaken for something poisonous"
_CERTAIN = ", so identify every piece with certainty"
_FORAGED = frozenset({"foraged", "forage", "foraging", "wildcrafted", "hedgerow", "hedge", "roadside", "wayside"})
_PICKED = frozenset({"picked", "handpicked", "gathered"})
_NOT_FORAGED = frozenset(
    {"yeast", "honey", "culture", "starter", "bacteria", "fermentation", "brett", "brettanomyces", "ale", "beer"}
)
_GROWN = frozenset({"garden", "orchard", "allotment", "farm", "farmed", "cultivated", "bought", "grown"})
_CROPS = frozenset({"rice", "hop"})
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
    if len(word) <= 3 or not _several(word):
        return word
    for ending, instead in (("leaves", "leaf"), ("ies", "y"), ("oes", "o"), ("shes", "sh"), ("ches", "ch")):
        if word.endswith(ending):
            return word[: -len(ending)] + instead
    return word[:-1]


def _several(word: str) -> bool:
    """Whether a word that stands in lower case ends as a plural does; ``hibiscus`` and ``molasses`` do not."""
    return word[-1:] == "s" and not word.endswith(("ss", "us", "is", "myces")) and word not in _SINGULAR_IN_S


_SINGULAR_IN_S = frozenset(
    {"molasses", "species", "series", "gas", "christmas", "ananas", "pampas", "copperas", "sassafras"}
)
_PLURAL_WITHOUT_S = frozenset({"fungi", "bacteria", "algae", "cacti", "geese"})
_AFTER_THE_NOUN = frozenset({"raw", "fresh", "whole", "ground", "frozen", "wild", "ripe", "unripe", "green"})
_AFTER_THE_HEAD = re.compile(r"[,;:(\[]|\s(?:of|in|with|without|from|for|to|at|by|on|off)\s")
_TO_AGREE = re.compile(r"\{(\w+)\}")
_OF_SEVERAL = {"it": "they", "them": "them", "its": "their", "is": "are", "was": "were", "has": "have", "does": "do"}


@lru_cache(maxsize=4096)
def is_plural(name: str) -> bool:
    """Whether a brewer says "they" of a thing: of ``elder leaves, dried``, and not of ``oil of cloves``."""
    head = _AFTER_THE_HEAD.split(name.casefold().strip(), maxsplit=1)[0].translate(_APART).split()
    while len(head) > 1 and _after_the_noun(head[-1]):
        head.pop()
    if not head:
        return False
    if "and" in head[1:-1]:  # two things, not "sweet and bitter orange peel"
        first = head[: head.index("and")]
        return len(head) == 3 or _names_several(first[-1]) or _names_several(head[-1])
    return _names_several(head[-1])


def _names_several(noun: str) -> bool:
    return _several(noun) or noun in _PLURAL_WITHOUT_S


def _after_the_noun(word: str) -> bool:
    participle = word.endswith("ed") and not word.endswith("eed")
    return participle or word in _AFTER_THE_NOUN or not any(map(str.isalpha, word))


def agreed(text: str, *, plural: bool) -> str:
    """A sentence that is written of one thing, of one or of several: ``{it} {holds}`` as "it holds" or "they hold"."""

    def word(found: re.Match[str]) -> str:
        one = found[1]
        if plural:
            return _OF_SEVERAL.get(one) or _plural_verb(one)
        return "it" if one == "them" else one

    return _TO_AGREE.sub(word, text)


def _plural_verb(verb: str) -> str:
    return f"{verb[:-3]}y" if verb.endswith("ies") else verb[:-1]


def caution(
    name: str, *, boiled: bool = False, sealed: bool = False, g_per_l: Callable[[], float | None] | None = None
) -> Caution | None:
    """The worst that is to be said of a thing of that name, with what may look like it where somebody gathered it.

    Args:
        name: as the recipe writes it.
        boiled: whether it is boiled in the kettle.
        sealed: whether it goes into a closed vessel.
        g_per_l: gives its weight to the litre of beer, None where that is not said; asked only where it matters.
    """
    rows, gathered = _cautions(name)
    found = [
        one
        for one in rows
        if not (one.raw and boiled)
        and not (one.sealed and not sealed)
        and not (one.above_g_per_l and not _above(one.above_g_per_l, g_per_l))
    ]
    if not found:
        return gathered
    worst = min(found, key=lambda one: HARMS.index(one.harm))
    if gathered is None or worst.alike:
        return worst
    harm = min(worst.harm, gathered.harm, key=HARMS.index)
    also = _MISTAKEN.replace("{is}", "{is} also")
    return worst._replace(harm=harm, says=f"{worst.says}; {also}{_CERTAIN}", alike=True)


def _above(limit_g_per_l: float, g_per_l: Callable[[], float | None] | None) -> bool:
    dose = g_per_l() if g_per_l is not None else None
    return dose is not None and dose > limit_g_per_l


@lru_cache(maxsize=4096)
def _cautions(name: str) -> tuple[tuple[Caution, ...], Caution | None]:
    """The rows of the table that name it, and what is said of a plant that somebody gathered."""
    said = words_of(name)
    if said.isdisjoint(_triggers()):
        return (), None
    rows = tuple(one for one in listed() if said.isdisjoint(one.unless) and _named(one, said))
    return rows, _gathered(said) if _is_gathered(said) else None


@lru_cache(maxsize=1)
def listed() -> tuple[Caution, ...]:
    """The whole table."""
    return tuple(
        Caution(
            tuple(frozenset(alternative.split()) for alternative in words.split("/")),
            harm,
            says + _CERTAIN if when == ALIKE else says,
            source,
            frozenset(unless.split()),
            when == RAW,
            when == SEALED,
            when == ALIKE,
            float(above or 0),
        )
        for harm, source, when, above, words, unless, says in (line.split(",", 6) for line in lines("cautions"))
    )


def _named(one: Caution, said: frozenset[str]) -> bool:
    """Whether one of its alternatives is meant; "cherries, stones removed" are free of what two words would name."""
    return any(
        alternative <= said and (len(alternative) == 1 or said.isdisjoint(_NEGATED)) for alternative in one.words
    )


def _is_gathered(said: frozenset[str]) -> bool:
    """Whether somebody gathered it where it grows wild, so that another thing may have got among it."""
    if not said.isdisjoint(_NOT_FORAGED):
        return False
    if not said.isdisjoint(_FORAGED):
        return True
    if not said.isdisjoint(_CROPS):
        return False
    return "wild" in said or (not said.isdisjoint(_PICKED) and said.isdisjoint(_GROWN))


def _gathered(said: frozenset[str]) -> Caution:
    """A plant that somebody picked: what it was taken for is all that the recipe knows."""
    return Caution((), RISK if said & _VAGUE else CARE, _MISTAKEN + _CERTAIN, "common-practice", alike=True)


@lru_cache(maxsize=1)
def _triggers() -> frozenset[str]:
    """Words one of which stands in every name that is listed."""
    words = (word for one in listed() for alternative in one.words for word in alternative)
    return _FORAGED.union(_PICKED, ("wild",), words)
