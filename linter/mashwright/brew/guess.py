"""What an ingredient of which nothing is known may be: anything of its sort, and a few readings of that in turn.

A recipe with an unknown grain or hop is judged once for each reading. What is found in all of them is so whatever the
ingredient is; what is found in some only hangs on it, and nobody can say.
"""

from typing import NamedTuple

from mashwright.ingredients.kinds import IngredientKind
from mashwright.ingredients.lookup import hop_alpha
from mashwright.measures.range import Range


class Guess(NamedTuple):
    """One reading: the kind of table that an unknown grain is taken for, and which end of alpha acid a hop has.

    "" is anything: all that a grain or a hop can have, as one wide range.
    """

    grain: str
    alpha: str


ANYTHING = Guess("", "")
READINGS = (
    Guess(IngredientKind.BASE_MALT, "typical"),
    Guess(IngredientKind.KILNED_MALT, "low"),
    Guess(IngredientKind.CARAMEL_MALT, "high"),
    Guess(IngredientKind.ROASTED_MALT, "low"),
    Guess(IngredientKind.RAW_GRAIN, "high"),
    Guess(IngredientKind.FLAKED_GRAIN, "low"),
)
"""Together they span what grain and hops can be [judgement]."""


def alpha_percent(guess: Guess) -> Range:
    """Alpha acid of a hop of which nothing is known, %: what the table's hops have, or one end or the middle of that.

    Source: [judgement], over the table's own values.
    """
    listed = hop_alpha()
    return Range.exact(float(getattr(listed, guess.alpha))) if guess.alpha else listed
