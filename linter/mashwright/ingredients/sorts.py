"""What sort of thing a kind names: of the grist, a hop, a yeast or an enzyme.

A kind is a word of the format, such as ``base malt``, or the name of what the tables know: ``pale ale malt``,
``Fuggle``, ``English ale``, ``glucoamylase``.
"""

from functools import cache, lru_cache

from mashwright.ingredients.enzymes import enzyme
from mashwright.ingredients.kinds import IngredientKind, Sort
from mashwright.ingredients.lookup import fermentable, hop, yeast
from mashwright.ingredients.names import normalised


@lru_cache(maxsize=1024)
def sorts_of(kind: str) -> tuple[Sort, ...]:
    """The sorts of which a kind can be: none where nothing knows it, several where two tables have such a name."""
    if normalised(kind) == Sort.HOP:
        return (Sort.HOP,)
    if plain_kind(kind):
        return (Sort.GRIST,)
    known = {
        Sort.GRIST: fermentable(kind),
        Sort.HOP: hop(kind),
        Sort.YEAST: yeast(kind),
        Sort.ENZYME: enzyme(kind),
    }
    return tuple(sort for sort, found in known.items() if found is not None)


def plain_kind(kind: str) -> str:
    """The word of the format for what malting or milling made of a thing; "" where a kind is none of these."""
    return _plain_kinds().get(normalised(kind), "")


@cache
def _plain_kinds() -> dict[str, str]:
    return {normalised(kind): str(kind) for kind in IngredientKind}
