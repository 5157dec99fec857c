"""What lifts the pH of the mash, and what a brewer can change about it."""

from typing import NamedTuple

from mashwright.brew import Brew
from mashwright.brewing.acids import MASH_PH, meq_per_ml
from mashwright.brewing.mash_ph import slope_ph_per_meq_l
from mashwright.brewing.water import residual_alkalinity_meq_l
from mashwright.figures.water import acid_meq, liquor, mash_acid_needed, mash_ph
from mashwright.knobs import Knob, less_of_amount, one_change
from mashwright.measures import Kind, Quantity
from mashwright.recipe.model import Amount
from mashwright.rule import Edit


class Lift(NamedTuple):
    """A salt in the mash that raises its pH, and how far."""

    amount: Amount
    quantity: Quantity
    ph: float


def lifting_salts(brew: Brew, least_ph: float) -> tuple[Lift, ...]:
    """Soda, chalk and lime in the mash, the most lifting first; none where all of them lift it by less."""
    put_in = liquor(brew)
    if put_in.mash_l is None:
        return ()
    litres = put_in.mash_l.typical
    slope = slope_ph_per_meq_l(litres / sum(part.weight_kg for part in brew.mashed())).typical
    lifts = []
    for dose in put_in.mash:
        if "alkalinity" not in dose.gives:
            continue
        calcium = dose.gives["calcium"].typical if "calcium" in dose.gives else 0.0
        residual = residual_alkalinity_meq_l(dose.gives["alkalinity"].typical / litres, calcium / litres, 0.0)
        lifts.append(Lift(dose.amount, dose.quantity, slope * residual))
    lifts.sort(key=lambda one: -one.ph)
    return tuple(lifts) if sum(one.ph for one in lifts) >= least_ph else ()


def named(lifting: tuple[Lift, ...]) -> str:
    """The salts with their amounts, as a sentence has them."""
    return " and ".join(f"{one.quantity.text} of {one.amount.name}" for one in lifting)


def less_lift(brew: Brew, ph: float, lifting: tuple[Lift, ...], highest_ph: float) -> tuple[Knob, ...]:
    """Less of what lifts the pH, or none of it; acid beside that only where the rest is still too high without it.

    Args:
        brew: the recipe.
        ph: that its mash comes to.
        lifting: the salts, the most lifting first.
        highest_ph: that is not too high.
    """
    most = lifting[0]
    kept = 1 - (ph - MASH_PH) / most.ph
    edits = tuple(Edit(one.amount.path, "0 g") for one in lifting)
    none = f"leave out the {named(lifting)}"
    without = ph - sum(one.ph for one in lifting)
    knobs = (less_of_amount(most.amount, kept * most.quantity.range.typical),) if kept > 0 else ()
    knobs = (*knobs, one_change(edits, none))
    if without <= highest_ph:
        return knobs
    return (*knobs, *(_and_more(edits, none, knob) for knob in more_acid(brew, without)))


def _and_more(edits: tuple[Edit, ...], words: str, knob: Knob) -> Knob:
    """What a knob does, beside some fixed changes."""
    return Knob(knob.count, lambda step: (*edits, *knob.edits(step)), lambda step: f"{words}, and {knob.say(step)}")


def more_acid(brew: Brew, ph: float) -> tuple[Knob, ...]:
    """Lactic acid in the mash, from as much as the middle of the band asks for; never more of what is in it."""
    mash = brew.recipe.mash
    if not mash.known or mash.acid or brew.grist()[0].weight.kind is not Kind.MASS:
        return ()
    # what the whole way down to the wanted pH takes, for as much of the way as is left
    share = (ph - MASH_PH) / (mash_ph(brew).typical - MASH_PH)
    first = max(1, round(mash_acid_needed(brew).typical * share))

    def text(step: int) -> str:
        return f"{first + step} ml"

    return (
        Knob(
            first,
            lambda step: (Edit(mash.acid.path, f"{{lactic acid 88 %: {text(step)}}}"),),
            lambda step: f"add {text(step)} of lactic acid 88 % to the mash, with goggles and gloves",
        ),
    )


def less_acid(brew: Brew) -> tuple[Knob, ...]:
    """So much less of the acids that the middle of the band comes to what is wanted."""
    doses = liquor(brew).mash_acids
    acid = acid_meq(tuple(doses)).typical
    if not acid:
        return ()
    kept = min(1.0, mash_acid_needed(brew).typical * meq_per_ml("lactic acid", 88) / acid)
    return tuple(less_of_amount(dose.amount, kept * dose.quantity.range.typical) for dose in doses)
