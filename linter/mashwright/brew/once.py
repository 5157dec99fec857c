"""What is computed once a brew, when first asked for; figures are too (``mashwright.figures.function``)."""

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

from mashwright.brew.brew import Brew
from mashwright.recipe.stated import Unknown

Made = TypeVar("Made")


def once(compute: Callable[[Brew], Made]) -> Callable[[Brew], Made]:
    """Make of a function one that is computed once a brew; what it raises as Unknown is kept too.

    Args:
        compute: takes nothing but the brew and never gives None.
    """

    @wraps(compute)
    def computed(brew: Brew) -> Made:
        known: Made | Unknown | None = brew.computed.get(compute)
        if known is None:
            try:
                known = compute(brew)
            except Unknown as unknown:
                known = unknown.again()
            brew.computed[compute] = known
        if isinstance(known, Unknown):
            raise brew.refused(known)
        return known

    return computed
