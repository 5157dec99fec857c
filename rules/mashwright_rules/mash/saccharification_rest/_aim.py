"""What else the brewer may be after."""

from mashwright.brew import Brew, mash_enzymes
from mashwright.rule import above
from mashwright_rules.mash.saccharification_rest._limits import Limits


def is_meant(brew: Brew, limits: Limits) -> bool:
    """Whether the recipe aims at very little alcohol, or adds enzymes that may stand more heat."""
    abv = brew.recipe.targets.abv
    small = abv.known and not above(abv.range, limits.small_beer_percent)
    return small or bool(mash_enzymes(brew.recipe, brew.brewhouse))
