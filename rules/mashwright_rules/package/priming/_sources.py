"""Where the gas comes from: what is to be said of it whatever the sugar weighs."""

from collections.abc import Iterator

from mashwright.brew import Brew, fermentable_of
from mashwright.figures.package import is_sealed, is_sort, sugary_in_fermenter, unknown_sugars, vessel_of
from mashwright.ingredients.vessels import VesselSort
from mashwright.recipe.model import Priming
from mashwright.rule import Finding, Level, say
from mashwright.words.plurals import is_plural

_IDLE_PERCENT = 10.0  # of what dissolves; below it a sugar gives no gas to speak of, judgement


def uncounted_sugar(brew: Brew) -> Iterator[Finding]:
    """What surely brings sugar when the beer is packaged, though nobody can say how much."""
    package = brew.recipe.package
    for one in unknown_sugars(brew):
        amount = one.weight or one.volume
        name = f"{amount.text} of {one.what}" if amount.known else one.what
        known = vessel_of(package)
        message = say("unknown-sugar", thing=name)
        if known is not None and known.sealed:
            message = say("unknown-sugar-in-bottles", thing=name, vessel=known.words[0])
        yield Finding(
            one.what.path,
            Level.WARNING if is_sealed(package) else Level.NOTE,
            message,
            gap=1.0,
        )


def does_not_ferment(brew: Brew, priming: Priming) -> Finding | None:
    """A sugar that yeast leaves alone; None where it eats it."""
    entry = fermentable_of(brew.brewhouse, priming.name) if priming.name else None
    if entry is None or entry.fermentable is None or entry.fermentable.high >= _IDLE_PERCENT:
        return None
    message = say("does-not-ferment", sugar=priming.name)
    return Finding((*priming.path, priming.group), Level.WARNING, message, gap=1.0)


def not_for_gas(brew: Brew, word: str) -> Finding:
    """Priming in a vessel that was never made to hold gas."""
    priming = brew.recipe.package.priming
    return Finding(
        priming.path,
        Level.ERROR,
        say("several-not-for-gas" if is_plural(word) else "not-for-gas", vessel=word),
        gap=1.0,
        related=(brew.recipe.package.vessel.path,),
    )


def gas_twice(brew: Brew) -> Iterator[Finding]:
    """Gas from two sources."""
    package = brew.recipe.package
    if is_sort(package, VesselSort.KEG) and package.pressure.known:
        yield Finding(
            brew.recipe.package.priming.path,
            Level.NOTE,
            say("primed-and-set", pressure=package.pressure),
            related=(brew.recipe.package.pressure.path,),
        )
    fruit = next(sugary_in_fermenter(brew), None)
    if fruit is not None and is_sealed(package) and not package.gravity.known:
        name, path, _ = fruit
        yield Finding(
            brew.recipe.package.priming.path,
            Level.NOTE,
            say("fruit-adds", fruit=name),
            related=(path,),
        )
    if is_sealed(package) and package.pressure.known and not package.at.known:
        yield Finding(
            brew.recipe.package.priming.path,
            Level.WARNING,
            say("bottled-under-pressure", pressure=package.pressure),
            related=(brew.recipe.package.pressure.path,),
        )
