"""Weights of salts, and the water that they end in."""

from mashwright.brew import Brew
from mashwright.figures.water import Dose, Liquor
from mashwright.knobs import Knob, less_of_amount
from mashwright.measures import Range
from mashwright.recipe.model import Amount


def all_salts(put_in: Liquor) -> tuple[Dose, ...]:
    """Every salt of mash, sparge and boil."""
    return (*put_in.mash, *put_in.sparge, *put_in.kettle)


def mash_and_sparge(put_in: Liquor) -> Range | None:
    """All the water that mash and sparge are made with."""
    known = [volume for volume in (put_in.mash_l, put_in.sparge_l) if volume is not None]
    return Range.weighted_sum([(volume, 1.0) for volume in known]) if known else None


def usual_kg(kg: float, water_l: Range | None) -> float:
    """A weight that is usual in so much water, kg: a tenth where a point slipped, else 0.33 g/l; judgement."""
    litres = water_l.typical if water_l is not None else 0.0
    return 0.1 * kg if 0.1 * kg <= 0.0005 * litres else 0.00033 * litres


def less_of(amount: Amount, kg: float, usual: float) -> tuple[Knob, ...]:
    """A usual weight; where no point has slipped, a small one as well, since what else is there may leave no room."""
    slipped = abs(usual - 0.1 * kg) < 1e-9
    return tuple(less_of_amount(amount, usual * share) for share in ((1.0,) if slipped else (1.0, 0.3)))


def unit_of_water(brew: Brew) -> str:
    """The unit of the mash water, else that of the batch."""
    mash, batch = brew.recipe.mash, brew.recipe.batch
    for quantity in (mash.water, batch.stated):
        if quantity.known:
            return quantity.unit
    return "l"
