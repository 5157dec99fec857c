"""Things that can poison, by the words that brewers write for them; the table is cautions.csv, edited by hand.

A row is ``harm,source,when,above,words,unless,says``: alternatives are parted by a slash, and the sentence comes last,
so that it may hold commas. It is written of one thing, with what changes for several in braces: ``{it} {holds}``
becomes "they hold", and ``{them}`` is "it" or "them". ``above`` is in grams to the litre of beer.

No source was read for this table: `common-practice` stands where herbals, foraging and food books commonly warn,
`from-memory` where only memory says so; amounts are our judgement on either. It is no list of what may be used: a
thing that is missing here is not thereby harmless, and nothing here gives a dose that is.
"""

from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from mashwright.ingredients.tables import lines
from mashwright.words.negation import lacks
from mashwright.words.plurals import agreed, is_plural
from mashwright.words.tokens import words_of
from mashwright.words.vocabulary import mentions

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
    words = words_of(name)
    rows: tuple[Caution, ...] = ()
    if not words.isdisjoint(_triggers()):
        rows = tuple(one for one in listed() if words.isdisjoint(one.unless) and _named(one, words, name))
    return rows, _gathered(name) if _is_gathered(name) else None


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


def _named(one: Caution, words: frozenset[str], name: str) -> bool:
    """Whether one of its alternatives is meant; "cherries, stones removed" are free of what two words would name."""
    return any(alternative <= words and (len(alternative) == 1 or not lacks(name)) for alternative in one.words)


def _is_gathered(name: str) -> bool:
    """Whether somebody gathered it where it grows wild, so that another thing may have got among it."""
    if mentions("not-gathered", "ingredient", name):
        return False
    if mentions("gathered", "ingredient", name):
        return True
    if mentions("crop", "ingredient", name):
        return False
    picked = mentions("picked", "ingredient", name) and not mentions("grown", "ingredient", name)
    return picked or mentions("wild", "ingredient", name)


def _gathered(name: str) -> Caution:
    """A plant that somebody picked: what it was taken for is all that the recipe knows."""
    harm = RISK if mentions("some-plant", "ingredient", name) else CARE
    return Caution((), harm, _MISTAKEN + _CERTAIN, "common-practice", alike=True)


@lru_cache(maxsize=1)
def _triggers() -> frozenset[str]:
    """Words one of which stands in every name that is listed."""
    return frozenset(word for one in listed() for alternative in one.words for word in alternative)
