"""The worts of a whole recipe as brews, before it is known what each has of the mash: for what hangs on their own."""

from msgspec.structs import replace

from mashwright.brew.brew import Brew, OfMash
from mashwright.budgets import WORTS
from mashwright.recipe.stated import Unknown


def number_of_worts(brew: Brew) -> int:
    """How many worts of its mash are judged; 0 where it gives one beer."""
    return min(WORTS, len(brew.recipe.worts))


def own_brew(brew: Brew, of_mash: OfMash) -> Brew:
    """One wort of a whole recipe as a brew of its own."""
    return replace(brew, recipe=of_mash.recipe.of_wort(of_mash.number), computed={}, of_mash=of_mash)


def bare_worts(brew: Brew) -> tuple[Brew, ...]:
    """Each wort with nothing known of its part of the mash: its batch, its boil and its hops are there."""
    recipe = brew.recipe
    missing = Unknown("what the wort has of the mash", recipe.worts.path)
    return tuple(
        own_brew(brew, OfMash(recipe, number, missing, None, missing, missing))
        for number in range(number_of_worts(brew))
    )
