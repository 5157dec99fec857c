"""The sugars that give the gas: as a sentence names them, and how much of them is enough."""

from mashwright.brew import Brew
from mashwright.brewing.carbonation import volumes_from_sugar
from mashwright.figures.package import Stress, Sugar, gas_of_sugars, is_sealed
from mashwright.knobs import Knob, another_text
from mashwright.measures import Range, said
from mashwright.rule import Say, say

_WITHIN = 0.9  # of the rating, so that what a remedy names does not stand right at it; judgement


def gives(brew: Brew, gas: str) -> Say:
    """What gives the gas, each with its weight or rate, and how much gas that is."""
    _, sugars = gas_of_sugars(brew)
    package = brew.recipe.package
    amounts = " and ".join(
        f"{sugar.text} of {sugar.name}" if " to each " not in sugar.text else f"{sugar.name}, {sugar.text},"
        for sugar in sugars
    )
    if package.known and is_sealed(package) and package.pressure.known and package.at.known:
        sentence = "gives-on-top" if len(sugars) == 1 else "give-on-top"
        return say(sentence, sugars=amounts, pressure=package.pressure, heat=package.at, gas=gas)
    return say("gives" if len(sugars) == 1 else "give", sugars=amounts, gas=gas)


def borne_volumes(held: Stress, gas: Range) -> float:
    """Volumes, typically, that the vessel holds with room to spare."""
    limit = held.bearing.limit
    if held.bearing.in_bar:
        safe = gas.typical * limit.low / max(held.value.high, limit.low)
    else:
        safe = limit.low - (gas.high - gas.typical)
    return _WITHIN * safe if limit.known else safe


def enough_of_the_first(brew: Brew, target: float, gas: Range, sugars: tuple[Sugar, ...]) -> tuple[Knob, ...]:
    """As much of the first sugar as gives the target, in volumes, beside the others."""
    package = brew.recipe.package
    priming = package.priming
    first = sugars[0]
    assert first.grams_per_l is not None
    adds = Range.span(volumes_from_sugar, first.grams_per_l, first.co2_per_g).typical
    factor = (target - (gas.typical - adds)) / adds if adds > 0 else 0.0
    if not priming.known or factor <= 0:
        return ()
    stated = ("weight", priming.weight), ("volume", priming.volume), ("rate", priming.rate), ("each", priming.each)
    for key, quantity in stated:
        if quantity.known:
            text = said(quantity.range.typical * factor, quantity.unit, quantity.kind)
            name = priming.name or "priming sugar"
            return (another_text((*priming.path, key), text, f"use {text} of {name} instead of {quantity.text}"),)
    return ()
