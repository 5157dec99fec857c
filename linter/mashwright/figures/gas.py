"""What gas beer holds when it is packaged, what can still ferment in it, and what the vessel is asked to hold."""

from typing import NamedTuple

from mashwright.brewing.alcohol import apparent_attenuation
from mashwright.brewing.carbonation import (
    dissolved_volumes,
    fermented_volumes,
    hop_creep_points,
    pressure_bar,
    residual_volumes,
)
from mashwright.figures.batch import FERMENTER_LOSS_SHARE, fermenter_loss_of
from mashwright.figures.board import gravity, number, told
from mashwright.figures.brew import Brew
from mashwright.figures.figure import Open, Unknown
from mashwright.figures.function import once
from mashwright.figures.gravity import og
from mashwright.figures.own_units import degrees, on_scale
from mashwright.figures.pours import into_fermenter
from mashwright.figures.strength import fermenting, fg
from mashwright.finding import Path, Range
from mashwright.ingredients.lookup import yeast as look_up_yeast
from mashwright.reading.quantity import Kind
from mashwright.recipe.model import FermentStep, Package

# Fermentation slows after so many days; common practice.
ALE_SLOWS_D, LAGER_SLOWS_D = 4, 8
# Where the recipe states no temperature and no yeast, °C: common practice.
USUAL_FERMENT_C = Range(16, 20, 24)
# From here on a beer is as dry as yeast that splits dextrins usually leaves it, apparent attenuation in %; judgement.
DRY_PERCENT = 90.0
_DAY_MIN = 1440


class Warmest(NamedTuple):
    """The warmest that beer has been since fermentation slowed, °C; and where that stands."""

    at_c: Range
    path: Path
    assumed: str


class Unfinished(NamedTuple):
    """What can still ferment in the package.

    Attributes:
        at: gravity at packaging, or None where nothing says it.
        end: where it can end.
        creep_points: that dry hops may add, at the most.
        volumes: of gas from both.
    """

    at: float | None
    end: Range | None
    creep_points: float
    volumes: Range
    path: Path
    assumed: str


class Stress(NamedTuple):
    """What bottles are asked to hold against what they are rated for.

    Attributes:
        value: volumes, or where the rating is a pressure bar: at 20 °C, and at 30 °C as the unfavourable end.
        limit: in the same unit.
        held: in words, ``4.5 volumes``, or ``3.4 to 3.6 volumes`` where only the high end is past the limit.
        rating: as the recipe has it.
        in_bar: the rating is a pressure.
    """

    value: Range
    limit: float
    held: str
    rating: str
    in_bar: bool


def stress(gas: Range, package: Package) -> Stress | None:
    """So much gas, in volumes, against the bottles' rating; None where the recipe states none."""
    rating = package.bottle_rating
    if rating is None:
        return None
    limit = rating.range.low
    if rating.kind is not Kind.PRESSURE:
        words = f"{told(gas.typical, limit)} volumes"
        if gas.typical <= limit < gas.high:
            words = f"{number(gas.typical, 2)} to {told(gas.high, limit)} volumes"
        return Stress(gas, limit, words, rating.text, in_bar=False)
    bar = Range(pressure_bar(gas.low, 20), pressure_bar(gas.typical, 20), pressure_bar(gas.high, 30))
    words = f"{told(bar.typical, limit)} bar at 20 °C, {number(bar.high, 2)} at 30 °C"
    return Stress(bar, limit, words, rating.text, in_bar=True)


def stress_unrated(gas: Range, vessel: str, keg_bar: float, cask_volumes: float) -> Stress | None:
    """So much gas, in volumes, against what kegs and casks usually take; None in another vessel.

    Args:
        keg_bar: what many kegs and lines take.
        cask_volumes: what a cask takes.
    """
    words = f"{number(gas.typical, 2)} volumes"
    if vessel == "keg":
        bar = Range(pressure_bar(gas.low, 20), pressure_bar(gas.typical, 20), pressure_bar(gas.high, 30))
        held = f"{words}, {told(bar.typical, keg_bar)} bar at 20 °C"
        return Stress(bar, keg_bar, held, f"{number(keg_bar, 2)} bar", in_bar=True)
    if vessel == "cask":
        return Stress(gas, cask_volumes, words, f"{number(cask_volumes, 2)} volumes", in_bar=False)
    return None


def packaging(brew: Brew) -> Package:
    """The package, all of it readable.

    Raises:
        Unknown: the recipe states none, or part of it cannot be read.
    """
    package = brew.recipe.package
    for path in brew.recipe.unreadable:
        if path[:1] == ("package",):
            raise Open("a readable package", path)
    if package is None:
        raise Unknown("what the beer is packaged in", ("package",))
    return package


def in_bottles(package: Package) -> bool:
    """Whether it is bottled; taken so where no vessel is named and a bottle is spoken of."""
    spoken_of = package.bottle_rating is not None or (package.priming is not None and package.priming.each is not None)
    return package.vessel == "bottles" or (not package.vessel and spoken_of)


def packaged_volume(brew: Brew) -> Range:
    """Beer that is packaged, l: the batch less what stays with the yeast."""
    batch = brew.recipe.batch
    if batch is not None and batch.package is not None and batch.package.range.low > 0:
        return batch.package.range
    volume = into_fermenter(brew)
    value = volume - fermenter_loss_of(brew.recipe, brew.brewhouse, volume).usual
    if value.low <= 0:
        raise Open("a batch of which something is left to package", ("batch",))
    return value


def left_behind(brew: Brew) -> tuple[str, ...]:
    """What is assumed of the beer that stays with the yeast; nothing where the recipe or the brewhouse says it."""
    batch, volume = brew.recipe.batch, Range.exact(1.0)
    packaged = batch is not None and batch.package is not None
    if packaged or fermenter_loss_of(brew.recipe, brew.brewhouse, volume).stated:
        return ()
    return (f"{number(100 * FERMENTER_LOSS_SHARE.typical, 2)} % of the batch stays with the yeast",)


def warmest(brew: Brew) -> Warmest:
    """The warmest that the beer has been since fermentation slowed.

    Raises:
        Unknown: the fermentation cannot be read, or is in a unit that has slipped.
    """
    recipe = brew.recipe
    for path in recipe.unreadable:
        if path[:1] == ("ferment",):
            raise Open("a readable fermentation", path)
    known = [look_up_yeast(one.kind) for one in recipe.yeast if one.kind]
    lager = any(one is not None and one.species == "Saccharomyces pastorianus" for one in known)
    late = _late(recipe.ferment, LAGER_SLOWS_D if lager else ALE_SLOWS_D)
    held = [(quantity.range, step.path) for step in late for quantity in (step.at, step.to) if quantity is not None]
    if held:
        at_c, path = max(held, key=lambda one: one[0].typical)
        if not brew.bounds.frozen_c <= at_c.typical <= brew.bounds.dead_yeast_c:
            raise Open("a temperature at which beer ferments", path)
        return Warmest(at_c, path, "")
    usual = next((one.temperature_c for one in known if one is not None), USUAL_FERMENT_C)
    usual = Range(usual.low, (usual.low + usual.high) / 2, usual.high)
    ends = f"{on_scale(brew, usual.low)} to {on_scale(brew, usual.high)}"
    said = f"{degrees(brew, usual.typical)} ({ends}) at the end of fermentation, since no temperature is stated"
    return Warmest(usual, ("ferment",), said)


def _late(steps: tuple[FermentStep, ...], slows_d: float) -> list[FermentStep]:
    """The steps that last beyond the day on which fermentation slows; one without a length may."""
    late, end_d = [], 0.0
    for step in steps:
        end_d = end_d + step.time.range.typical / _DAY_MIN if step.time is not None else float("inf")
        if end_d > slows_d:
            late.append(step)
    return late or list(steps[-1:])


def held_before(brew: Brew, package: Package) -> Range:
    """What beer holds before priming, volumes: more in bottles filled under pressure than fermentation left."""
    at_c = warmest(brew).at_c
    typical = residual_volumes(at_c.typical).typical
    residual = Range(residual_volumes(at_c.high).low, typical, residual_volumes(at_c.low).high)
    if not in_bottles(package) or package.pressure is None or package.at is None:
        return residual
    return Range.span(
        lambda bar, c: max(residual.low, dissolved_volumes(bar, c)), package.pressure.range, package.at.range
    )


def dry_hops_g_per_l(brew: Brew) -> float:
    """Dry hops, g to a litre of beer; those that state a weight."""
    kg = sum(hop.weight.range.typical for hop in brew.recipe.hops if hop.dry is not None and hop.weight is not None)
    return 1000 * kg / packaged_volume(brew).typical if kg else 0.0


@once
def unfinished(brew: Brew) -> Unfinished:
    """What can still ferment in the package.

    Raises:
        Unknown: as ``packaging``; or a gravity is stated, but neither the wort's nor the end can be had.
    """
    package = packaging(brew)
    targets = brew.recipe.targets
    creep = hop_creep_points(dry_hops_g_per_l(brew))
    stated, assumed = package.gravity, ""
    path: Path = ("package", "gravity")
    if stated is None:
        assumed = "that fermentation has ended, since no gravity at packaging is stated"
        stated, path = targets.fg, ("targets", "fg")
    if stated is None and not creep:
        return Unfinished(None, None, 0.0, Range.exact(0.0), ("package",), assumed)
    start = targets.og.range.typical if targets.og is not None else og(brew).typical
    at = stated.range.typical if stated is not None else fg(brew).typical
    end = _end(brew, start) if stated is not None else Range.exact(at)
    if stated is None:
        path = ("package",)
    volumes = Range(
        fermented_volumes(start, at, end.high),
        fermented_volumes(start, at, end.typical),
        fermented_volumes(start, at, end.low - creep / 1000),
    )
    return Unfinished(at, end, creep, volumes, path, assumed)


def _end(brew: Brew, start: float) -> Range:
    """Where the beer can end: as stated and measured, unless nothing ordinary ends so high; else as reckoned."""
    targets = brew.recipe.targets
    measured = [day.measured.fg.range.low for day in brew.recipe.measured if day.measured.fg is not None]
    if targets.fg is None:
        if measured:
            return Range(min(measured), sum(measured) / len(measured), max(measured))
        return fg(brew).range
    stated = targets.fg.range
    low = min(stated.low, *measured) if measured else stated.low
    typical = stated.typical
    try:
        model, splits = fg(brew).range, fermenting(brew).dextrins
    except Unknown:
        return Range(low, typical, stated.high)
    if splits and apparent_attenuation(start, typical) < DRY_PERCENT:
        return Range(min(low, model.low), min(typical, model.typical), stated.high)
    return Range(min(low, model.high), typical, stated.high)


def where(value: Unfinished) -> str:
    """The gravities of a beer that is not finished, on the board."""
    if value.at is None or value.end is None:
        return "nothing is left to ferment"
    creep = f", {number(value.creep_points, 2)} points lower by dry hops at the most" if value.creep_points else ""
    return f"{gravity(value.at)} at packaging, {gravity(value.end.typical)} at the end{creep}"
