"""The unit in which a recipe writes the temperatures of its mash, told from the recipe alone."""

from collections.abc import Iterator

from mashwright.recipe.model import Recipe
from mashwright.recipe.stated import Stated

METRIC = ("l", "ml", "hl")


def scale_of_recipe(recipe: Recipe) -> str:
    """The unit of the mash's temperatures, else of others; where none is stated, °F beside gallons."""
    for temperature in _temperatures(recipe):
        if unit := temperature.unit_or(""):
            return unit
    return "°C" if recipe.batch.unit in METRIC else "°F"


def _temperatures(recipe: Recipe) -> Iterator[Stated]:
    yield from (rest.at for rest in recipe.mash.rests)
    yield recipe.mash.strike
    yield recipe.steep.at
    yield recipe.sparge.at
    yield from (step.at for step in recipe.ferment)
