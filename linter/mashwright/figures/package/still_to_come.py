"""What can still make gas in the package: points that are left, dextrins that something splits, dry hops, fruit."""

from contextlib import suppress
from typing import NamedTuple

from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.yeasts import kinds
from mashwright.brewing.alcohol import apparent_attenuation as attenuation_between
from mashwright.brewing.alcohol import final_gravity
from mashwright.brewing.attenuation import DIASTATIC, going_on_to
from mashwright.brewing.carbonation import (
    CREEP_OVER_D,
    FROM_MONOSACCHARIDE,
    fermented_volumes,
    hop_creep_points,
    volumes_from_sugar,
)
from mashwright.figures.beer import UNBOILED_PERCENT, apparent_attenuation, fermenting, fg, still_splitting
from mashwright.figures.mash import og
from mashwright.figures.package.packaged import beer_volume, fermented_days, is_sealed, packaging
from mashwright.figures.package.priming import sugary_in_fermenter
from mashwright.finding import Path
from mashwright.measures.constants import MIN_PER_DAY
from mashwright.measures.quantity import Kind
from mashwright.measures.quantity import said as said_of
from mashwright.measures.range import Range
from mashwright.recipe.stated import NOWHERE, Open, Said, Stated, Unknown

# A hydrometer is read to a point; common practice.
READING = 0.001
# After half a year what works slowly is at its end, if the gravity is stated; judgement.
SLOW_WORK_D = 182.0
# Of the sugar of fruit that went into the fermenter so much may be left, at the most; judgement.
_FRUIT_LEFT = 0.2

UNFINISHED, SPLITTING, DRY_HOPS, FRUIT = "unfinished", "splitting", "dry hops", "fruit"
"""Causes of gas that is still to come."""


class Cause(NamedTuple):
    """One thing that can still make gas.

    Attributes:
        sort: ``unfinished``, ``splitting``, ``dry hops`` or ``fruit``.
        name: as the board says it.
        volumes: of gas.
        path: where it stands.
    """

    sort: str
    name: str
    volumes: Range
    path: Path


class Slow(NamedTuple):
    """What splits dextrins in the package, slowly: diastatic yeast, enzymes, Brettanomyces.

    Attributes:
        wild: it is Brettanomyces alone.
        usual_percent: apparent attenuation at which it usually ends.
    """

    name: str
    path: Path
    wild: bool
    usual_percent: float


class ToCome(NamedTuple):
    """What can still make gas, and from where.

    Attributes:
        stated: the gravity at packaging, else the final gravity that is stated; None where neither is.
        path: where it stands.
        start: gravity of the wort.
        end: where the beer ends, apart from what splits dextrins; None where nothing says it.
        end_is_said: by the recipe or a brew day, and not below all that grist, mash and yeast give.
        measured: a brew day measured that end.
        slow: what splits dextrins, None where nothing does.
        slow_is_over: it has had so long that nothing is left of it.
        causes: what is to come, without what is nothing.
        creep_points: that dry hops may add, at the most.
    """

    stated: Stated
    path: Path
    start: float
    end: Range | None
    end_is_said: bool
    measured: bool
    slow: Slow | None
    slow_is_over: bool
    causes: tuple[Cause, ...]
    creep_points: float

    @property
    def volumes(self) -> Range:
        """Gas of all causes together."""
        return sum([one.volumes for one in self.causes], Range.exact(0.0))

    def of(self, sort: str) -> Range:
        """Gas of one sort of cause; nothing where there is none."""
        return next((one.volumes for one in self.causes if one.sort == sort), Range.exact(0.0))


class _End(NamedTuple):
    value: Range
    said: bool
    measured: bool


def slow_splitter(brew: Brew) -> Slow | None:
    """What splits dextrins in the package: diastatic yeast or enzymes first, else Brettanomyces."""
    if (splitter := still_splitting(brew)) is not None:
        usual = UNBOILED_PERCENT if splitter.of_malt else DIASTATIC.typical
        return Slow(splitter.name, splitter.path, wild=False, usual_percent=usual)
    for yeast, known in zip(brew.recipe.yeast, kinds(brew), strict=True):
        if known is not None and known.goes_on:
            return Slow(yeast.kind, yeast.kind.path, wild=True, usual_percent=DIASTATIC.typical)
    return None


@once
def to_come(brew: Brew) -> ToCome:
    """What can still make gas in the package.

    Raises:
        Unknown: as ``packaging``; or a gravity is stated, and neither the wort's nor the end can be had.
    """
    package, targets = packaging(brew), brew.recipe.targets
    targets.fg.readable("a readable final gravity")
    stated = package.gravity
    path: Path = brew.recipe.package.gravity.path
    if not stated.known:
        stated, path = stated_end(brew)
    slow, fruit = slow_splitter(brew), _of_fruit(brew)
    creep = 0.0 if slow is not None else hop_creep_points(dry_hops_g_per_l(brew))
    if not stated.known and not creep:
        return ToCome(NOWHERE, brew.recipe.package.path, 0.0, None, False, False, slow, False, fruit, 0.0)
    start = targets.og.range.typical if targets.og.known else og(brew).typical
    if stated.known and stated.range.typical >= start:
        raise Open("a gravity below that of the wort", path)
    at = stated.range.typical if stated.known else fg(brew).typical
    days = fermented_days(brew)
    slow_is_over = slow is not None and stated.known and days is not None and days >= SLOW_WORK_D
    end = _end(brew, start) if stated.known else _End(Range.exact(at), said=False, measured=False)
    causes = []
    if slow is not None and not slow_is_over:
        causes.append(Cause(SPLITTING, slow.name, _split(start, at, end, slow), slow.path))
    elif slow is None and not (package.spund.pressure.known and not is_sealed(package)):  # a valve lets it out
        causes.append(Cause(UNFINISHED, "points left to ferment", _left(start, at, end), path))
    if creep:
        low = min(at, end.value.low if end is not None and end.said else at)
        volumes = fermented_volumes(start, low, low - creep / 1000)
        causes.append(
            Cause(
                DRY_HOPS, "fermentation restarted by dry hops, at most", Range(0.0, 0.0, volumes), brew.recipe.hops.path
            )
        )
    causes = [one for one in causes if one.volumes.high > 0]
    return ToCome(
        stated,
        path,
        start,
        end.value if end is not None else None,
        end is not None and end.said,
        end is not None and end.measured,
        slow,
        slow_is_over,
        (*causes, *fruit),
        creep,
    )


def stated_end(brew: Brew) -> tuple[Stated, Path]:
    """The final gravity that is stated, by itself or as an attenuation of the stated OG; and where."""
    targets = brew.recipe.targets
    if targets.fg.known or not targets.attenuation.known or not targets.og.known:
        return targets.fg, targets.fg.path
    ends = Range.span(final_gravity, targets.og.range, targets.attenuation.range)
    unit = targets.og.unit
    path = targets.attenuation.path
    return Said(Kind.GRAVITY, ends, unit, said_of(ends.typical, unit, Kind.GRAVITY), path=path), path


def _end(brew: Brew, start: float) -> _End | None:
    """Where the beer ends: as stated or measured; by grist, mash and yeast where these end surely lower, or alone."""
    measured = [day.measured.fg.range.low for day in brew.recipe.measured if day.measured.fg.known]
    stated, _ = stated_end(brew)
    said = stated.range if stated.known else None
    if said is None and measured:
        said = Range(min(measured), sum(measured) / len(measured), max(measured))
    elif said is not None and measured:
        said = Range(min(said.low, *measured), min(said.typical, *measured), said.high)
    model: Range | None = None
    try:
        model = _by_model(brew, start)
    except Unknown:
        if said is None:
            raise
    if said is None or (model is not None and said.typical > model.high + READING):
        return _End(model, said=False, measured=bool(measured)) if model is not None else None
    return _End(said, said=True, measured=bool(measured))


def _by_model(brew: Brew, start: float) -> Range:
    """Where this grist, mash and yeast end; no lower attenuation is taken than the yeast's own."""
    band, yeast = apparent_attenuation(brew), fermenting(brew)
    lowest = min(band.low, yeast.attenuation.low)
    return Range(final_gravity(start, band.high), final_gravity(start, band.typical), final_gravity(start, lowest))


def _left(start: float, at: float, end: _End | None) -> Range:
    """Gas from the points that are left: to a said end; or surely to the highest that can be, and perhaps further."""
    if end is None:
        return Range.exact(0.0)
    low, typical, high = (fermented_volumes(start, at, sg) for sg in (end.value.high, end.value.typical, end.value.low))
    if not end.said:
        return Range(low, low, typical) if at > end.value.high + READING else Range.exact(0.0)
    return Range(low, typical, high) if at > end.value.typical + READING else Range(0.0, 0.0, high)


def _split(start: float, at: float, end: _End | None, slow: Slow) -> Range:
    """Gas from dextrins: down to where such beer usually ends, or as far as it may go."""
    usual, furthest = going_on_to(attenuation_between(start, at), slow.usual_percent)
    if end is not None and end.said:
        usual = max(usual, attenuation_between(start, end.value.typical))
    ends = (final_gravity(start, percent) for percent in (usual, max(usual, furthest)))
    return Range(0.0, *(fermented_volumes(start, at, sg) for sg in ends))


def dry_hops_g_per_l(brew: Brew) -> float:
    """Dry hops that may not be done yet, g to a litre of beer; those that state a weight."""
    kg = sum(
        hop.weight.range.typical
        for hop in brew.recipe.hops
        if hop.dry.known and hop.weight.known and hop.dry.range.low < CREEP_OVER_D * MIN_PER_DAY
    )
    return 1000 * kg / beer_volume(brew).typical if kg else 0.0


def _of_fruit(brew: Brew) -> tuple[Cause, ...]:
    """Gas from sugar in the fermenter that may be left; none where the gravity at packaging is stated."""
    package = brew.recipe.package
    if not package.known or package.gravity.known:
        return ()
    causes = []
    with suppress(Unknown):  # of what cannot be weighed, nothing is counted
        litres = beer_volume(brew).typical
        for name, path, grams in sugary_in_fermenter(brew):
            volumes = volumes_from_sugar(_FRUIT_LEFT * grams / litres, FROM_MONOSACCHARIDE)
            causes.append(Cause(FRUIT, f"sugar of {name}, at most", Range(0.0, 0.0, volumes), path))
    return tuple(one for one in causes if one.volumes.high > 0)
