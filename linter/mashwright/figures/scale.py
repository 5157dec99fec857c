"""The unit in which a recipe writes the temperatures of its mash, told from the recipe alone."""

from collections.abc import Iterator

from mashwright.reading.quantity import Quantity
from mashwright.recipe.model import Recipe
from mashwright.recipe.noticing import unnoticed

METRIC = ("l", "ml", "hl")


def scale_of_recipe(recipe: Recipe) -> str:
    """The unit of the mash's temperatures, else of others; where none is stated, °F beside gallons."""
    recipe = unnoticed(recipe)  # hangs on no number
    for quantity in _temperatures(recipe):
        if quantity is not None:
            return quantity.unit
    batch = recipe.batch.stated if recipe.batch is not None else None
    return "°C" if batch is None or batch.unit in METRIC else "°F"


def _temperatures(recipe: Recipe) -> Iterator[Quantity | None]:
    mash, steep, sparge = recipe.mash, recipe.steep, recipe.sparge
    if mash is not None:
        yield from (rest.at for rest in mash.rests)
        yield mash.strike
    yield steep.at if steep is not None else None
    yield sparge.at if sparge is not None else None
    yield from (step.at for step in recipe.ferment)
