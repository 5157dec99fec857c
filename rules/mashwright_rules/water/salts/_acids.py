"""How much acid goes into the water, the sparge and the mash."""

from collections.abc import Iterator

from mashwright.brew import Brew, number, told
from mashwright.brewing.mash_ph import ACID_BUFFER_MEQ
from mashwright.figures.water import Liquor, acid_meq, tap_water
from mashwright.knobs import less_of_amount
from mashwright.measures import Kind, Range, said
from mashwright.rule import Finding, Level, Unknown, above, gap, say
from mashwright_rules.water.salts._amounts import mash_and_sparge, unit_of_water

_MINERAL = ("phosphoric acid", "hydrochloric acid", "sulfuric acid")


def too_much_acid(brew: Brew, put_in: Liquor, most_meq_per_l: float, most_mineral_meq_per_l: float) -> Finding | None:
    """More acid in all the water than anybody should drink; None where it is not.

    Args:
        brew: the recipe.
        put_in: its waters with what goes into them.
        most_meq_per_l: of acids that a fruit has as well.
        most_mineral_meq_per_l: of the others.
    """
    tun = mash_and_sparge(put_in)
    doses = (*put_in.mash_acids, *put_in.sparge_acids)
    if not doses or tun is None or tun.typical <= 0:
        return None
    meq = acid_meq(doses)
    largest = max(doses, key=lambda dose: dose.gives["acid"].typical)
    quantity = largest.quantity
    rate = Range(meq.low / tun.high, meq.typical / tun.typical, meq.high / tun.low if tun.low > 0 else meq.high)
    limit = most_mineral_meq_per_l if largest.known in _MINERAL else most_meq_per_l
    if not above(Range.exact(rate.typical), limit):
        return None
    message = say(
        "too-much-acid",
        amount=quantity,
        name=largest.amount.name,
        water=said(tun.typical, unit_of_water(brew), Kind.VOLUME),
        rate=told(rate.typical, limit),
    ).and_then(say("with-care"))
    knobs = (less_of_amount(largest.amount, 0.02 * quantity.range.typical),)
    return Finding(largest.amount.path, Level.ERROR, message, gap=gap(rate, limit), knobs=knobs)


def sparge_acid(brew: Brew, put_in: Liquor, more_meq_per_l: float) -> Iterator[Finding]:
    """So much more acid in the sparge than its alkalinity takes up."""
    sparge = brew.recipe.sparge
    if not put_in.sparge_acids or not sparge.water.known or sparge.water.range.low <= 0:
        return
    try:
        alkalinity = tap_water(brew).alkalinity_meq_l
    except Unknown:
        alkalinity = None
    if alkalinity is None:
        return
    litres = sparge.water.range.typical
    rate = acid_meq(put_in.sparge_acids).typical / litres
    limit = alkalinity.typical + more_meq_per_l
    if not above(Range.exact(rate), limit):
        return
    largest = max(put_in.sparge_acids, key=lambda dose: dose.gives["acid"].typical)
    quantity = largest.quantity
    message = say(
        "much-in-the-sparge",
        amount=quantity,
        name=largest.amount.name,
        water=sparge.water,
        rate=told(rate, alkalinity.typical),
        alkalinity=number(alkalinity.typical, 2),
    ).and_then(say("with-care"))
    yield Finding(
        largest.amount.path,
        Level.WARNING,
        message,
        gap=gap(Range.exact(rate), limit),
        knobs=(less_of_amount(largest.amount, alkalinity.typical / rate * quantity.range.typical),),
    )


def mash_acid(brew: Brew, put_in: Liquor, limit: float) -> Iterator[Finding]:
    """So much acid, in mEq to the kg of grain, that its amount is the question, and not the pH of the mash."""
    if not put_in.mash_acids:
        return
    grain_kg = sum(part.weight_kg for part in brew.mashed())
    rate = acid_meq(put_in.mash_acids).typical / grain_kg
    if not above(Range.exact(rate), limit):
        return
    largest = max(put_in.mash_acids, key=lambda dose: dose.gives["acid"].typical)
    quantity = largest.quantity
    message = say(
        "much-in-the-mash",
        amount=quantity,
        name=largest.amount.name,
        rate=told(rate, limit),
        lower=number(rate / ACID_BUFFER_MEQ.typical, 2),
    ).and_then(say("with-care"))
    yield Finding(
        largest.amount.path,
        Level.WARNING,
        message,
        gap=gap(Range.exact(rate), limit),
        knobs=(less_of_amount(largest.amount, 0.25 * limit / rate * quantity.range.typical),),
    )
