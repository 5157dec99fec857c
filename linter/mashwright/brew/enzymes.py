"""Enzymes that are added: to the mash, to the fermenter; under `enzymes` or among the additions."""

from collections.abc import Iterator

from mashwright.ingredients.enzymes import enzyme as known_enzyme
from mashwright.ingredients.names import words
from mashwright.recipe.model import Amount, Recipe

_IN_MASH = frozenset({"mash", "mashed", "mashing", "strike", "dough", "rest", "rests", "tun"})
_IN_BOIL = frozenset({"boil", "boiling", "kettle", "copper"})
_LATER = frozenset({"after", "fermenter", "fermentation", "primary", "secondary", "cooled", "yeast", "packaging"})


def mash_enzymes(recipe: Recipe) -> tuple[Amount, ...]:
    """What is added to the mash.

    Raises:
        Open: what stands under `enzymes` of the mash cannot be read.
    """
    recipe.mash.enzymes.readable("readable enzymes")
    stated = recipe.mash.enzymes if recipe.mash.known else ()
    return (*stated, *(one for one, where in _among_additions(recipe) if where == "mash"))


def late_enzymes(recipe: Recipe) -> tuple[Amount, ...]:
    """What is added to the fermenter, or at a time that nothing says.

    Raises:
        Open: what stands under `enzymes` of a step of the fermentation cannot be read.
    """
    stated = [one for step in recipe.ferment for one in step.enzymes.readable("readable enzymes")]
    return (*stated, *(one for one, where in _among_additions(recipe) if where == "fermenter"))


def _among_additions(recipe: Recipe) -> Iterator[tuple[Amount, str]]:
    """The enzymes of the tables that stand among the additions, each with where it goes: what is boiled is spent."""
    for one in recipe.additions:
        if known_enzyme(one.what) is None:
            continue
        when = words(one.when)
        if when.isdisjoint(_LATER) and not when.isdisjoint(_IN_MASH):
            where = "mash"
        elif when.isdisjoint(_LATER) and not when.isdisjoint(_IN_BOIL):
            where = "kettle"
        else:
            where = "fermenter"
        yield Amount(one.what.path, one.what, one.weight or one.volume), where
