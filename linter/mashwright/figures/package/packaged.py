"""Beer as it is packaged: how much of it, in what, and what gas it holds by itself."""

from collections.abc import Sequence
from typing import NamedTuple

from mashwright.brew.batch import FERMENTER_LOSS_SHARE, fermenter_loss_of
from mashwright.brew.board import number
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import degrees, on_scale
from mashwright.brew.pours import into_fermenter
from mashwright.brew.yeasts import kinds
from mashwright.finding import Path
from mashwright.ingredients import vessels
from mashwright.ingredients.kinds import YeastSort
from mashwright.ingredients.vessels import Vessel
from mashwright.measures.constants import MIN_PER_DAY
from mashwright.measures.range import Range
from mashwright.recipe.model import FermentStep, Package
from mashwright.recipe.stated import Open, Unknown

# Fermentation slows after so many days; common practice.
ALE_SLOWS_D, LAGER_SLOWS_D = 4, 8
# Of what is typically left beside the other packages, so much is at the least; judgement.
_LEAST_LEFT = 0.1
# Where the recipe states no temperature and no yeast, °C: common practice.
USUAL_FERMENT_C = Range(16, 20, 24)
"""Minutes of a day; by definition."""


class Warmest(NamedTuple):
    """The warmest that beer has been since fermentation slowed, °C; and where that stands."""

    at_c: Range
    path: Path
    assumed: str


def packaging(brew: Brew) -> Package:
    """The package, all of it readable.

    Raises:
        Unknown: the recipe states none, or part of it cannot be read.
    """
    package = brew.recipe.package
    try:
        package.readable("a readable package")
    except Open as why:
        raise brew.refused(why) from None  # told, though a rule may go on without
    if not package.known:
        raise Unknown("what the beer is packaged in", package.path)
    return package


def vessel_of(package: Package) -> Vessel | None:
    """What the beer is packaged in; bottles where no vessel is named and a bottle is spoken of, else None."""
    if package.vessel:
        return vessels.vessel(package.vessel)
    spoken_of = package.bottle_rating.known or (package.priming.each.known)
    return vessels.vessel("bottles") if spoken_of else None


def is_sealed(package: Package) -> bool:
    """Whether nothing lets gas out of the vessel before it bursts: bottles, cans and the like."""
    vessel = vessel_of(package)
    return vessel is not None and vessel.sealed


def is_sort(package: Package, sort: str) -> bool:
    """Whether the vessel is of a sort, such as ``keg`` or ``cask``."""
    vessel = vessel_of(package)
    return vessel is not None and vessel.sort == sort


def co2_share(package: Package) -> Range:
    """Share of carbon dioxide in the gas on the beer, 0-1; all of it where no gas is stated."""
    return package.gas.range * 0.01 if package.gas.known else Range.exact(1.0)


def stated_volume(package: Package) -> Range | None:
    """What a package takes by its own words, l: its volume, or how many of them there are; None where they are none."""
    if package.volume.known:
        return package.volume.range
    size = size_of(package)
    return package.count.range.times(size) if package.count.known and size is not None else None


def size_of(package: Package) -> Range | None:
    """What one vessel holds, l: as stated, or by its name; None where neither says it."""
    if package.size.known:
        return package.size.range
    named = vessels.size_l(package.vessel) if package.vessel else None
    return Range.exact(named) if named is not None else None


def packaged_volume(brew: Brew) -> Range:
    """Beer in the package, l: of all that is packaged, what goes into this one.

    Raises:
        Unknown: the batch is not stated, or nothing of it is left for this package.
    """
    package, others = brew.recipe.package, brew.recipe.beside
    own = stated_volume(package)
    if package.share.known:
        own = beer_volume(brew).times(package.share.range * 0.01)
    elif own is None and not others:
        return beer_volume(brew)
    elif own is None:
        left = beer_volume(brew) - taken_by(brew, others)
        without = [one for one in others if not one.share.known and stated_volume(one) is None]
        least = _LEAST_LEFT * left.typical
        own = Range(max(left.low, least), left.typical, left.high) * (1 / (1 + len(without)))
    if own.low <= 0:
        raise Open("beer that is left for this package", package.path)
    return own


def taken_by(brew: Brew, packages: Sequence[Package]) -> Range:
    """Beer that some packages take by their own words, l; of one that takes the rest, nothing."""
    taken = Range.exact(0.0)
    for one in packages:
        own = stated_volume(one)
        if one.share.known:
            taken = taken + beer_volume(brew).times(one.share.range * 0.01)
        elif own is not None:
            taken = taken + own
    return taken


def beer_volume(brew: Brew) -> Range:
    """Beer that is packaged in all, l: the batch less what stays with the yeast."""
    batch = brew.recipe.batch
    if batch.package.known and batch.package.range.low > 0:
        return batch.package.range
    volume = into_fermenter(brew)
    value = volume - fermenter_loss_of(brew.recipe, brew.brewhouse, volume).usual
    if value.low <= 0:
        raise Open("a batch of which something is left to package", brew.recipe.batch.path)
    return value


def left_behind(brew: Brew) -> tuple[str, ...]:
    """What is assumed of the beer that stays with the yeast; nothing where the recipe or the brewhouse says it."""
    batch, volume = brew.recipe.batch, Range.exact(1.0)
    package = brew.recipe.package
    packaged = batch.package.known or (not package.share.known and stated_volume(package) is not None)
    if packaged or fermenter_loss_of(brew.recipe, brew.brewhouse, volume).stated:
        return ()
    return (f"{number(100 * FERMENTER_LOSS_SHARE.typical, 2)} % of the batch stays with the yeast",)


def fermented_days(brew: Brew) -> float | None:
    """Days of all steps of the fermentation together, at the most; None where one has no length, or none is stated."""
    times = [step.time for step in brew.recipe.ferment]
    known = [time.range.high for time in times if time.known]
    return sum(known) / MIN_PER_DAY if known and len(known) == len(times) else None


def warmest(brew: Brew) -> Warmest:
    """The warmest that the beer has been since fermentation slowed.

    Raises:
        Unknown: the fermentation cannot be read, or is in a unit that has slipped.
    """
    recipe = brew.recipe
    recipe.ferment.readable("a readable fermentation")
    known = kinds(brew)
    lager = any(one is not None and one.sort is YeastSort.LAGER for one in known)
    late = _late(recipe.ferment, LAGER_SLOWS_D if lager else ALE_SLOWS_D)
    held = [(quantity.range, step.path) for step in late for quantity in (step.at, step.to) if quantity.known]
    if held:
        at_c, path = max(held, key=lambda one: one[0].typical)
        if not brew.bounds.frozen_c <= at_c.typical <= brew.bounds.dead_yeast_c:
            raise Open("a temperature at which beer ferments", path)
        return Warmest(at_c, path, "")
    usual = next((one.temperature_c for one in known if one is not None), USUAL_FERMENT_C)
    usual = Range(usual.low, (usual.low + usual.high) / 2, usual.high)
    ends = f"{on_scale(brew, usual.low)} to {on_scale(brew, usual.high)}"
    said = f"{degrees(brew, usual.typical)} ({ends}) at the end of fermentation, since no temperature is stated"
    return Warmest(usual, recipe.ferment.path, said)


def _late(steps: tuple[FermentStep, ...], slows_d: float) -> list[FermentStep]:
    """The steps that last beyond the day on which fermentation slows; one without a length may."""
    late, end_d = [], 0.0
    for step in steps:
        end_d = end_d + step.time.range.typical / MIN_PER_DAY if step.time.known else float("inf")
        if end_d > slows_d:
            late.append(step)
    return late or list(steps[-1:])
