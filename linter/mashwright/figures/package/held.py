"""The gas that beer holds by itself when it is packaged: left by fermentation, closed in, or filled under pressure."""

from mashwright.brew.board import gravity, number
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import degrees
from mashwright.brewing.carbonation import dissolved_volumes, fermented_volumes, residual_volumes
from mashwright.figures.beer import fg
from mashwright.figures.mash import og
from mashwright.figures.package.packaged import co2_share, is_sealed, packaging, warmest
from mashwright.measures.range import Range
from mashwright.recipe.model import Package
from mashwright.recipe.stated import Open


def is_spunded(package: Package) -> bool:
    """Whether the beer is closed before it has finished, at a gravity or under a pressure that is stated."""
    return package.spund.gravity.known or package.spund.pressure.known


@once
def open_residual(brew: Brew) -> Range:
    """Carbon dioxide that open fermentation leaves in the beer, volumes."""
    at_c = warmest(brew).at_c
    typical = residual_volumes(at_c.typical).typical
    return Range(residual_volumes(at_c.high).low, typical, residual_volumes(at_c.low).high)


@once
def held_before(brew: Brew) -> Range:
    """What beer holds before priming, volumes: more in what is closed early or filled under pressure.

    Raises:
        Unknown: as ``packaging`` and ``warmest``; or where beer that is closed at a gravity ends.
    """
    package, left = packaging(brew), open_residual(brew)
    if is_spunded(package):
        return spunded(brew)
    if not is_sealed(package) or not package.pressure.known or not package.at.known:
        return left
    return Range.span(
        lambda bar, c, share: max(left.low, dissolved_volumes(bar, c, share)),
        package.pressure.range,
        package.at.range,
        co2_share(package),
    )


@once
def spunded(brew: Brew) -> Range:
    """What beer holds that was closed before its end, volumes: all that it made since, or what the valve leaves.

    Raises:
        Unknown: where the beer ends cannot be had; or it was closed before it began.
    """
    spund, left = packaging(brew).spund, open_residual(brew)
    most: Range | None = None
    if spund.pressure.known:
        at_c = spund.at.range if spund.at.known else warmest(brew).at_c
        most = Range.span(dissolved_volumes, spund.pressure.range, at_c)
    if not spund.gravity.known:
        return most if most is not None else left
    whole, end, closed = _whole(brew), packaged_at(brew), spund.gravity.range
    if closed.typical > whole.typical:
        raise Open("a gravity below that of the wort", spund.gravity.path)
    made = Range.along(fermented_volumes, (whole, closed), (end,))
    value = left + made
    if most is None:
        return value
    return Range(min(value.low, most.low), min(value.typical, most.typical), min(value.high, most.high))


def _whole(brew: Brew) -> Range:
    stated = brew.recipe.targets.og
    return stated.range if stated.known else og(brew).range


def packaged_at(brew: Brew) -> Range:
    """Where the beer stands when it is packaged, or ends."""
    at, stated = brew.recipe.package.gravity, brew.recipe.targets.fg
    if at.known:
        return at.range
    return stated.range if stated.known else fg(brew).range


def working_of_spunding(brew: Brew) -> str:
    """How the gas of beer that was closed early was found."""
    spund, value = packaging(brew).spund, spunded(brew)
    parts = []
    if spund.gravity.known:
        made = spund.gravity.range.typical - packaged_at(brew).typical
        parts.append(
            f"closed at {spund.gravity.text}: {number(open_residual(brew).typical, 3)} left by fermentation, and"
            f" {number(1000 * max(made, 0.0), 2)} points down to {gravity(packaged_at(brew).typical)},"
            " 0.52 volumes each"
        )
    if spund.pressure.known:
        at_c = spund.at.range if spund.at.known else warmest(brew).at_c
        parts.append(
            f"beer at {degrees(brew, at_c.typical)} under {spund.pressure.text} holds no more than the valve leaves"
        )
    return f"{'; '.join(parts)} = {number(value.typical, 3)}"
