"""What a brewer can change about the ions."""

from mashwright.brew import Brew
from mashwright.figures.water import liquor
from mashwright.knobs import Knob, less_of_amount
from mashwright.measures import Range
from mashwright.rule import Edit
from mashwright_rules.water.water_ions._brought import all_salts


def thinned(brew: Brew) -> Knob:
    """Distilled water in the recipe's own, in twentieths."""
    water = brew.recipe.water
    stated = water.dilution
    first = int(stated.range.typical / 5) + 1 if stated.known else 1

    def text(step: int) -> str:
        return f"{5 * (first + step)} %"

    return Knob(
        max(0, 20 - first),
        lambda step: (Edit(brew.recipe.water.dilution.path, text(step)),),
        lambda step: f"use distilled water for {text(step)} of the water",
    )


def less_of_salt(brew: Brew, ion: str, found: Range, limit: float) -> tuple[Knob, ...]:
    """Less of the salt that brings most of an ion, where that alone brings it back to the usual."""
    doses = [dose for dose in all_salts(brew) if ion in dose.gives]
    most = max(doses, key=lambda dose: dose.gives[ion].typical, default=None)
    if most is None:
        return ()
    by_salts = liquor(brew).in_kettle(ion).typical
    brings = by_salts * most.gives[ion].typical / sum(dose.gives[ion].typical for dose in doses)
    share = (brings - (found.typical - limit)) / brings if brings > 0 else 0.0
    return (less_of_amount(most.amount, share * most.quantity.range.typical),) if share > 0 else ()
