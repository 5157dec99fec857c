"""Enzymes that are added: to the mash, to the fermenter; under `enzymes` or among the additions."""

from collections.abc import Iterator

from mashwright.ingredients.enzymes import enzyme as known_enzyme
from mashwright.ingredients.kinds import Place
from mashwright.recipe.model import Amount, Recipe
from mashwright.words.when import when


def mash_enzymes(recipe: Recipe) -> tuple[Amount, ...]:
    """What is added to the mash.

    Raises:
        Open: what stands under `enzymes` of the mash cannot be read.
    """
    recipe.mash.enzymes.readable("readable enzymes")
    stated = recipe.mash.enzymes if recipe.mash.known else ()
    return (*stated, *(one for one, where in _among_additions(recipe) if where == Place.MASH))


def late_enzymes(recipe: Recipe) -> tuple[Amount, ...]:
    """What is added to the fermenter, or at a time that nothing says.

    Raises:
        Open: what stands under `enzymes` of a step of the fermentation cannot be read.
    """
    stated = [one for step in recipe.ferment for one in step.enzymes.readable("readable enzymes")]
    return (*stated, *(one for one, where in _among_additions(recipe) if where == Place.FERMENTER))


def _among_additions(recipe: Recipe) -> Iterator[tuple[Amount, str]]:
    """The enzymes of the tables that stand among the additions, each with where it goes: what is boiled is spent."""
    for one in recipe.additions:
        if not known_enzyme(one.what):
            continue
        goes_in = when(one.when)
        where = Place.MASH if goes_in.in_mash else Place.KETTLE if goes_in.in_kettle else Place.FERMENTER
        yield Amount(one.what.path, one.what, one.weight or one.volume), where
