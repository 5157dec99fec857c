"""How much of a common spice or fining a beer usually gets, by weight; the table is doses.csv, edited by hand.

A row is ``words,low,high,source``: alternatives are parted by a slash, low and high are grams to the litre of beer. No
book was read for it: it holds what brewers commonly write, rounded to the generous side, or is from memory, and
is marked so. It tells a slip from a dose; it is no advice on flavour, and nothing here says that one is fit to drink.
"""

from functools import cache, lru_cache
from typing import NamedTuple

from mashwright.ingredients.tables import lines
from mashwright.words.tokens import words_of

# What may stand beside the name of a spice without making another thing of it, as "syrup" or "liqueur" does.
_BESIDE = frozenset({
    "seed", "whole", "ground", "crushed", "cracked", "dried", "dry", "toasted", "roasted", "organic", "stick", "bark",
    "quill", "pod", "bean", "berry", "flower", "petal", "root", "powder", "powdered", "grated", "flake", "flaked",
    "coarse", "coarsely", "fine", "finely", "freshly", "lightly", "roughly", "chopped", "broken", "split", "scraped",
    "indian", "ceylon", "black", "green", "white", "sweet", "bitter", "seville", "madagascar", "bourbon", "tahitian",
    "of", "the",
})  # fmt: skip


class UsualDose(NamedTuple):
    """What a beer usually gets of a thing.

    Attributes:
        low, high: grams to the litre of beer.
        source: a key of the bibliography.
    """

    low: float
    high: float
    source: str


@lru_cache(maxsize=1024)
def usual_dose(name: str) -> UsualDose | None:
    """The usual dose of a spice or fining of that name; None where it is another thing, or more than the one."""
    said = words_of(name)
    meant = [(len(words), dose) for words, dose in doses() if words <= said and said - words <= _BESIDE]
    return max(meant, key=lambda one: one[0])[1] if meant else None


@cache
def doses() -> tuple[tuple[frozenset[str], UsualDose], ...]:
    """The whole table: the words of each alternative, in the singular and lower case, with its dose."""
    return tuple(
        (words_of(alternative), UsualDose(float(low), float(high), source))
        for words, low, high, source in (line.split(",") for line in lines("doses"))
        for alternative in words.split("/")
    )
