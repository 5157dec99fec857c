"""How much wort a batch is where its extract is counted, wherever the recipe counts the batch."""

from mashwright.figures.figure import Unknown
from mashwright.finding import Range
from mashwright.reading.quantity import Kind, said
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.model import Batch

# Hot wort at the end of the boil shrinks by this much when it is cooled to 20 °C; water by CoolProp, [iapws-95].
COOLING = 0.96
# Left in the kettle with hops and trub, where no brewhouse says it; l for 20 l of beer, common practice.
KETTLE_LOSS_SHARE = Range(0.025, 0.06, 0.10)
# Left in the fermenter with the yeast, where no brewhouse says it; share of the beer, common practice.
FERMENTER_LOSS_SHARE = Range(0.02, 0.05, 0.10)


def batch_volume(batch: Batch | None) -> Range:
    """The batch as it is stated, wherever it is counted, l.

    Raises:
        Unknown: the recipe gives no batch that can be read.
    """
    quantity = batch.stated if batch is not None else None
    if quantity is None:
        raise Unknown("the size of the batch", ("batch",))
    return quantity.range


def counted_volume(batch: Batch | None, house: Brewhouse, *, in_kettle: bool) -> tuple[Range, str]:
    """The volume in which extract is counted, l at 20 °C, and how it was found.

    Args:
        batch: the recipe's.
        house: its brewhouse, for the losses.
        in_kettle: whether extract is counted in the kettle, and not in the fermenter.

    Raises:
        Unknown: the recipe gives no batch that can be read, or one of which nothing is left.
    """
    volume, working = _counted(batch, house, in_kettle=in_kettle)
    if volume.low <= 0:
        raise Unknown("a batch of more than nothing", ("batch",))
    return volume, working


def _counted(batch: Batch | None, house: Brewhouse, *, in_kettle: bool) -> tuple[Range, str]:
    if batch is None or batch.stated is None:
        raise Unknown("the size of the batch", ("batch",))
    if batch.fermenter is not None:
        volume, working = batch.fermenter.range, f"{batch.fermenter.text} into the fermenter"
        if not in_kettle:
            return volume, working
        loss = _kettle_loss(house, volume)
        return volume + loss, f"{working} and {_litres(batch, loss)} left in the kettle"
    if batch.kettle is not None:
        cold = batch.kettle.range * COOLING
        working = f"{batch.kettle.text} in the kettle × {COOLING:g} for cooling"
        if in_kettle:
            return cold, working
        loss = _kettle_loss(house, cold)
        left = Range(cold.low - loss.high, cold.typical - loss.typical, cold.high - loss.low)
        return left, f"{working}, less {_litres(batch, loss)} left in the kettle"
    package = batch.package
    assert package is not None
    loss = _fermenter_loss(house, package.range)
    volume = package.range + loss
    working = f"{package.text} packaged and {_litres(batch, loss)} left in the fermenter"
    if not in_kettle:
        return volume, working
    left_in_kettle = _kettle_loss(house, volume)
    return volume + left_in_kettle, f"{working} and {_litres(batch, left_in_kettle)} in the kettle"


def assumed_losses(batch: Batch | None, house: Brewhouse, *, in_kettle: bool) -> tuple[str, ...]:
    """What was assumed of the losses that the counted volume holds, where no brewhouse says them."""
    if batch is None or batch.stated is None:
        return ()
    assumed = []
    packaged = batch.fermenter is None and batch.kettle is None
    volume = batch.stated.range
    if packaged and not (house.fermenter and house.fermenter.loss):
        loss = _fermenter_loss(house, volume)
        assumed.append(f"{_litres(batch, loss)} left in the fermenter with the yeast, since no brewhouse says it")
        volume = volume + loss
    counts_kettle = in_kettle == (batch.fermenter is not None or packaged)
    if counts_kettle and not (house.kettle and house.kettle.loss):
        loss = _kettle_loss(house, volume if batch.kettle is None or batch.fermenter else volume * COOLING)
        assumed.append(f"{_litres(batch, loss)} left in the kettle with hops and trub, since no brewhouse says it")
    return tuple(assumed)


def _litres(batch: Batch, volume: Range) -> str:
    return said(volume.typical, batch.stated.unit if batch.stated is not None else "l", Kind.VOLUME)


def _fermenter_loss(house: Brewhouse, volume: Range) -> Range:
    fermenter = house.fermenter
    if fermenter is not None and fermenter.loss is not None:
        return fermenter.loss.range
    return Range.span(lambda v, share: v * share, volume, FERMENTER_LOSS_SHARE)


def _kettle_loss(house: Brewhouse, volume: Range) -> Range:
    kettle = house.kettle
    if kettle is not None and kettle.loss is not None:
        return kettle.loss.range
    return Range.span(lambda v, share: v * share, volume, KETTLE_LOSS_SHARE)
