"""All the gas that a closed package comes to hold, from every cause: one sum, read by every rule about gas."""

from typing import NamedTuple

from mashwright.brew.board import lines, spread
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.package.carbonating import (
    carbonation,
    gas_of_sugars,
    is_primed,
    residual_co2,
    volumes_of,
)
from mashwright.figures.package.held import is_spunded
from mashwright.figures.package.packaged import packaging
from mashwright.figures.package.still_to_come import UNFINISHED, Cause, to_come
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown

# Packaged before the end on purpose: what is left gives the stated gas within so much, volumes; judgement.
ON_PURPOSE = 0.3


class Gas(NamedTuple):
    """The sum.

    Attributes:
        given: what the beer holds and is given on purpose, volumes.
        causes: what can still make gas beside it.
        total: all of it.
        rows: its parts by name, for the board.
        on_purpose: points that are left make the stated carbonation, and no sugar is added.
    """

    given: Range
    causes: tuple[Cause, ...]
    total: Range
    rows: tuple[tuple[str, Range], ...]
    on_purpose: bool


@once
def gas_of(brew: Brew) -> Gas:
    """The sum of all gas; where no carbonation and no sugar are stated, on top of what fermentation leaves.

    Raises:
        Unknown: as ``packaging`` and ``to_come``; or not how much sugar is added.
    """
    package, coming = packaging(brew), to_come(brew)
    left = residual_co2(brew).range
    given, rows = _given(brew, left)
    extra = coming.volumes
    total = given + extra
    early = coming.of(UNFINISHED)
    on_purpose = False
    if early.typical > 0 and package.gravity.known and not package.priming.known and package.carbonation.known:
        alone = left + early
        on_purpose = alone.typical <= given.high + ON_PURPOSE
        if on_purpose:
            rows = [("left by fermentation", left)]
            most = Range(given.low, max(given.typical, alone.typical), max(given.high, alone.high))
            total = most + sum([one.volumes for one in coming.causes if one.sort != UNFINISHED], Range.exact(0.0))
    rows = [*rows, *((one.name, one.volumes) for one in coming.causes)]
    return Gas(given, coming.causes, total, tuple(rows), on_purpose)


def _given(brew: Brew, left: Range) -> tuple[Range, list[tuple[str, Range]]]:
    """What the beer holds and is given, with its parts."""
    if is_primed(brew):
        value, sugars = gas_of_sugars(brew)
        return value, [("left by fermentation", left), *((sugar.name, volumes_of(sugar)) for sugar in sugars)]
    try:
        value = carbonation(brew).range
    except Unknown:
        return left, [("left by fermentation", left)]
    return value, [("closed in" if is_spunded(packaging(brew)) else "carbonation", value)]


@figure("gas", unit="volumes", sources=("balling-nielsen", "troester-carbonation"))
def all_gas(brew: Brew) -> Figure:
    """Carbon dioxide from all causes."""
    gas = gas_of(brew)
    coming = to_come(brew)
    try:
        assumed = carbonation(brew).assumed
    except Unknown:
        assumed = residual_co2(brew).assumed
    if not coming.stated.known or "package" not in coming.path:
        assumed = (*assumed, "that fermentation has ended, since no gravity at packaging is stated")
    return Figure(
        gas.total,
        lambda: lines([*(f"{name}: {spread(value)}" for name, value in gas.rows), f"  = {spread(gas.total)}"]),
        paths=(brew.recipe.package.path, *(one.path for one in gas.causes)),
        assumed=assumed,
        sources=("common-practice", "judgement"),
        parts=gas.rows,
    )


@figure("unfinished-co2", unit="volumes", sources=("balling-nielsen",))
def unfinished_co2(brew: Brew) -> Figure:
    """Carbon dioxide from what can still ferment."""
    coming = to_come(brew)
    named = ", ".join(one.name for one in coming.causes)
    value = coming.volumes
    assumed = ""
    if not coming.stated.known or "package" not in coming.path:
        assumed = "that fermentation has ended, since no gravity at packaging is stated"
    return Figure(
        value,
        lambda: f"{named}: about 0.52 volumes a point = {spread(value)}" if named else "nothing is left to ferment = 0",
        paths=(coming.path,),
        assumed=(assumed,) if assumed else (),
        sources=("common-practice", "judgement") if coming.creep_points else (),
    )
