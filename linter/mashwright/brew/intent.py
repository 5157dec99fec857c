"""What is meant by a recipe: its own words, and what the tables say of its style and its cultures."""

from mashwright.brew.own import kind_of
from mashwright.ingredients.kinds import Sort
from mashwright.ingredients.lookup import style, yeast
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.model import Recipe
from mashwright.words.intent import Intent
from mashwright.words.vocabulary import speaks_of


def intent_of(recipe: Recipe, house: Brewhouse) -> Intent:
    """What the author of a recipe means to brew; a culture of the brewhouse's own counts by its kind."""
    return Intent(
        recipe.name,
        recipe.style,
        recipe.notes,
        recipe.source,
        lambda: (kind_of(house, Sort.YEAST, one.kind) for one in recipe.yeast),
        _listed,
        recipe.souring.known,
        sours,
    )


def sours(kind: str) -> bool:
    """Whether a culture of this kind turns a wort sour, by the tables or by its words."""
    known = yeast(kind) if kind else None
    return known.sours if known is not None else speaks_of("souring", "ingredient", kind)


def _listed(text: str) -> str:
    known = style(text)
    return known.name if known is not None else ""
