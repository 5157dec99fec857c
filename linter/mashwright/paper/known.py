"""What a name is known as, by the tables of ingredients."""

from functools import lru_cache

from mashwright.ingredients.lookup import fermentable, hop, yeast


@lru_cache(maxsize=4096)
def what(name: str) -> str:
    """``grist``, ``hop`` or ``yeast``; "" where no table knows it. Malt is looked for first."""
    if fermentable(name) is not None:
        return "grist"
    if hop(name) is not None:
        return "hop"
    return "yeast" if yeast(name) is not None else ""


@lru_cache(maxsize=4096)
def yeast_only(name: str) -> str:
    """``yeast`` where the tables know a kind of yeast by that name; else ""."""
    return "yeast" if yeast(name) is not None else ""
