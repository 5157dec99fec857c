"""Enzymes that are added: to the mash, to the fermenter; under `enzymes` or among the additions."""

from collections.abc import Iterator

from mashwright.brew.own import NO_HOUSE, enzyme_of
from mashwright.ingredients.kinds import Place
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.model import Amount, Recipe
from mashwright.words.when import when


def mash_enzymes(recipe: Recipe, house: Brewhouse = NO_HOUSE) -> tuple[Amount, ...]:
    """What is added to the mash.

    Args:
        house: its brewhouse, for enzymes of its own.

    Raises:
        Open: what stands under `enzymes` of the mash cannot be read.
    """
    recipe.mash.enzymes.readable("readable enzymes")
    stated = recipe.mash.enzymes if recipe.mash.known else ()
    return (*stated, *(one for one, where in _among_additions(recipe, house) if where == Place.MASH))


def late_enzymes(recipe: Recipe, house: Brewhouse) -> tuple[Amount, ...]:
    """What is added to the fermenter, or at a time that nothing says.

    Raises:
        Open: what stands under `enzymes` of a step of the fermentation cannot be read.
    """
    stated = [one for step in recipe.ferment for one in step.enzymes.readable("readable enzymes")]
    return (*stated, *(one for one, where in _among_additions(recipe, house) if where == Place.FERMENTER))


def _among_additions(recipe: Recipe, house: Brewhouse) -> Iterator[tuple[Amount, str]]:
    """The enzymes that stand among the additions, each with where it goes: what is boiled is spent."""
    for one in recipe.additions:
        if not enzyme_of(house, one.what):
            continue
        goes_in = when(one.when)
        where = Place.MASH if goes_in.in_mash else Place.KETTLE if goes_in.in_kettle else Place.FERMENTER
        yield Amount(one.what.path, one.what, one.weight or one.volume), where
