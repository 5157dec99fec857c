"""How much wort a batch is where its extract is counted, wherever it is counted itself, and what is lost of it."""

from typing import NamedTuple

from mashwright.brewing.volumes import COOLED_SHARE, HOP_LOSS_L_PER_KG
from mashwright.measures.quantity import Kind, said
from mashwright.measures.range import Range
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.model import Batch, Recipe
from mashwright.recipe.stated import Open, Stated, Unknown

# Left in the kettle with hops and trub, where no brewhouse says it; share of the wort, common practice.
KETTLE_LOSS_SHARE = Range(0.025, 0.06, 0.10)
# Left in the fermenter with the yeast, where no brewhouse says it; share of the beer, common practice.
FERMENTER_LOSS_SHARE = Range(0.02, 0.05, 0.10)
# A batch so many times a vessel is not brewed in it: an old book's barrels, copied beside a small kit; judgement.
OF_ANOTHER_HOUSE = 3.0
_FEW_HOPS_KG_PER_L = 0.003  # what a loss holds already, stated or usual; judgement
_NOTHING = Range.exact(0.0)


class Loss(NamedTuple):
    """Wort or beer that stays behind.

    Attributes:
        usual: without what more hops keep than are usual, l at 20 °C.
        of_hops: that.
        stated: whether the brewhouse says the usual.
    """

    usual: Range
    of_hops: Range
    stated: bool

    @property
    def litres(self) -> Range:
        """All of it, l at 20 °C."""
        return self.usual + self.of_hops


def kit_of(recipe: Recipe, house: Brewhouse) -> Brewhouse:
    """The brewhouse whose vessels a recipe is brewed in; an empty one where they are far too small for it."""
    volume = stated_batch(recipe)
    if not volume.known:
        return house if not recipe.batch.known else Brewhouse()  # a batch that cannot be read may be of any size
    vessels = (house.kettle, house.fermenter, house.mash_tun)
    largest = max((one.volume.range.typical for one in vessels if one.known and one.volume), default=None)
    if largest is not None and volume.range.typical > OF_ANOTHER_HOUSE * largest:
        return Brewhouse()
    return house


def kettle_loss_of(recipe: Recipe, house: Brewhouse, wort: Range) -> Loss:
    """What stays in the kettle with hops and trub.

    Args:
        recipe: for its batch and hops.
        house: its brewhouse.
        wort: that it stays behind of, l at 20 °C.
    """
    hops = sum(hop.weight.range.typical for hop in recipe.hops if hop.weight.known and not hop.dry.known)
    many_kg = hops - _FEW_HOPS_KG_PER_L * wort.typical
    kept = HOP_LOSS_L_PER_KG * many_kg if many_kg > 0 else _NOTHING
    kettle = kit_of(recipe, house).kettle
    if kettle.loss.known:
        return Loss(kettle.loss.range, kept, stated=True)
    return Loss(wort.times(KETTLE_LOSS_SHARE), kept, stated=False)


def fermenter_loss_of(recipe: Recipe, house: Brewhouse, beer: Range) -> Loss:
    """What stays in the fermenter with the yeast; of so much beer, l."""
    fermenter = kit_of(recipe, house).fermenter
    if fermenter.loss.known:
        return Loss(fermenter.loss.range, _NOTHING, stated=True)
    return Loss(beer.times(FERMENTER_LOSS_SHARE), _NOTHING, stated=False)


def fermenter_volume_of(recipe: Recipe, house: Brewhouse) -> Range:
    """The wort that comes into the fermenter, without what is topped up there, l at 20 °C.

    Raises:
        Unknown: the recipe gives no batch that can be read, or one of which nothing is left.
    """
    volume, batch = counted_volume(recipe, house, in_kettle=False)[0], recipe.batch
    if not batch.kettle.known or batch.fermenter.known:
        return volume
    left = volume - kettle_loss_of(recipe, house, batch.kettle.range * COOLED_SHARE).of_hops
    if left.low <= 0:
        raise Open("a batch of more than nothing", recipe.batch.path)
    return left


def stated_batch(recipe: Recipe) -> Stated:
    """The batch as it is stated, wherever it is counted; None where that cannot be read."""
    return recipe.batch.stated


def batch_volume(recipe: Recipe) -> Range:
    """The batch as it is stated, wherever it is counted, l.

    Raises:
        Unknown: the recipe gives no batch that can be read.
    """
    quantity = stated_batch(recipe)
    if not quantity.known:
        raise Unknown("the size of the batch", recipe.batch.path)
    return quantity.range


def counted_volume(recipe: Recipe, house: Brewhouse, *, in_kettle: bool) -> tuple[Range, str]:
    """The volume in which extract is counted, l at 20 °C, and how it was found.

    An efficiency in the fermenter holds the usual losses; what more hops keep, they keep with the extract in it.

    Args:
        recipe: for its batch and hops.
        house: its brewhouse, for the losses.
        in_kettle: whether extract is counted in the kettle, and not in the fermenter.

    Raises:
        Unknown: the recipe gives no batch that can be read, or one of which nothing is left.
    """
    volume, working = _counted(recipe, house, in_kettle=in_kettle)
    if volume.low <= 0:
        raise Open("a batch of more than nothing", recipe.batch.path)
    return volume, working


def _counted(recipe: Recipe, house: Brewhouse, *, in_kettle: bool) -> tuple[Range, str]:
    batch = recipe.batch
    if not batch.stated.known:
        raise Unknown("the size of the batch", recipe.batch.path)
    if batch.fermenter.known:
        volume, working = batch.fermenter.range, f"{batch.fermenter.text} into the fermenter"
        if not in_kettle:
            return volume, working
        loss = kettle_loss_of(recipe, house, volume).litres
        return volume + loss, f"{working} and {_litres(batch, loss)} left in the kettle"
    if batch.kettle.known:
        cold = batch.kettle.range * COOLED_SHARE
        working = f"{batch.kettle.text} in the kettle × {COOLED_SHARE:g} for cooling"
        if in_kettle:
            return cold, working
        lost = kettle_loss_of(recipe, house, cold)
        more = f", beside the {_litres(batch, lost.of_hops)} that so many hops keep" if lost.of_hops.high > 0 else ""
        return cold - lost.usual, f"{working}, less {_litres(batch, lost.usual)} left in the kettle{more}"
    package = batch.package.need("the size of the batch")
    loss = fermenter_loss_of(recipe, house, package.range).litres
    volume = package.range + loss
    working = f"{package.text} packaged and {_litres(batch, loss)} left in the fermenter"
    if not in_kettle:
        return volume, working
    left_in_kettle = kettle_loss_of(recipe, house, volume).litres
    return volume + left_in_kettle, f"{working} and {_litres(batch, left_in_kettle)} in the kettle"


def assumed_losses(recipe: Recipe, house: Brewhouse, *, in_kettle: bool) -> tuple[str, ...]:
    """What was assumed of the losses that the counted volume holds, where no brewhouse says them."""
    batch = recipe.batch
    if not batch.stated.known:
        return ()
    assumed = []
    packaged = not batch.fermenter.known and not batch.kettle.known
    volume = batch.stated.range
    if packaged:
        lost = fermenter_loss_of(recipe, house, volume)
        volume = volume + lost.litres
        if not lost.stated:
            text = _litres(batch, lost.litres)
            assumed.append(f"{text} left in the fermenter with the yeast, since no brewhouse says it")
    if in_kettle == (batch.fermenter.known or packaged):
        counted = batch.fermenter.known or packaged  # all of the loss, and not only the usual
        lost = kettle_loss_of(recipe, house, volume if counted else volume * COOLED_SHARE)
        if not lost.stated:
            text = _litres(batch, lost.litres if counted else lost.usual)
            assumed.append(f"{text} left in the kettle with hops and trub, since no brewhouse says it")
        elif counted and lost.of_hops.high > 0:
            assumed.append(f"{_litres(batch, lost.of_hops)} more kept by this many hops")
    return tuple(assumed)


def _litres(batch: Batch, volume: Range) -> str:
    return said(volume.typical, batch.stated.unit if batch.stated.known else "l", Kind.VOLUME)
