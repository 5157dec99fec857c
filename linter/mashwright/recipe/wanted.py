"""What an unreadable place of a recipe lacks, in words."""

from mashwright.finding import Path
from mashwright.recipe.cursor import FIELD_WORDS
from mashwright.recipe.model import Recipe

_WORDS = {**FIELD_WORDS, "og": "OG", "fg": "FG", "abv": "ABV", "ph": "pH"}


def wanted(recipe: Recipe, path: Path) -> str:
    """What an unreadable place lacks, as a brewer would say it: ``a readable weight of Fuggle``."""
    key = next((step for step in reversed(path) if isinstance(step, str)), "recipe")
    word = _WORDS.get(key, key.replace("-", " "))
    if len(path) > 2 and isinstance(path[-2], str) and path[-2] in ("salts", "acid", "enzymes"):
        return f"a readable amount of {word}"
    named = [line.name for line in recipe.grist if line.path == path[:-1] and line.name]
    named += [hop.name for hop in recipe.hops if hop.path == path[:-1] and hop.name]
    return f"a readable {word}{f' of {named[0]}' if named else ''}"
