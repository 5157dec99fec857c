"""Beer that is closed before its end: the gas that it makes by itself, against the vessel and what is wanted."""

from collections.abc import Iterator

from mashwright.brew import Brew, number
from mashwright.brewing.carbonation import dissolved_volumes, fermented_volumes, pressure_bar
from mashwright.figures.package import (
    is_sealed,
    is_spunded,
    open_residual,
    packaged_at,
    residual_co2,
    spunded,
    stress,
    warmest,
)
from mashwright.knobs import Knob, stated_instead
from mashwright.measures import Kind, Quantity, Range, said
from mashwright.recipe.stated import Said
from mashwright.rule import Evidence, Finding, Level, Path, Say, differs, gap, row, say, strained


def closed_early(brew: Brew, distance_volumes: float) -> Iterator[Finding]:
    """What the beer holds by being closed early."""
    package = brew.recipe.package
    if not is_spunded(package):
        return
    gas, stated, path = spunded(brew), package.carbonation, _path(brew)
    held = stress(brew, gas)
    level = strained(held) if held is not None else None
    past = not stated.known or gas.typical > stated.range.high + distance_volumes
    if held is not None and level is not None and past:
        yield Finding(
            path,
            level,
            _closed(brew).and_then(
                say(held.does(level), gas=held.held, vessel=held.bearing.called), say("keep-to", rating=held.rating_of)
            ),
            gap=gap(held.value, held.bearing.limit.low),
            evidence=(row(residual_co2(brew)),),
            related=(package.vessel.path,),
            knobs=_knobs(brew, stated) if stated.known else (),
        )
    elif stated.known and not package.priming.known and (away := differs(gas, stated.range, distance_volumes)):
        yield _not_the_stated(brew, gas, stated, min(away, Level.WARNING))
    if is_sealed(package):
        yield Finding(package.spund.path, Level.NOTE, say("closed-early"))


def _by_gravity(brew: Brew) -> bool:
    """Whether the gravity at which it is closed decides, and not the valve."""
    spund = brew.recipe.package.spund
    if not spund.pressure.known or not spund.gravity.known:
        return spund.gravity.known
    at_c = spund.at.range if spund.at.known else warmest(brew).at_c
    left_by_valve = dissolved_volumes(spund.pressure.range.typical, at_c.typical)
    return spunded(brew).typical < left_by_valve


def _path(brew: Brew) -> Path:
    spund = brew.recipe.package.spund
    return spund.gravity.path if _by_gravity(brew) else spund.pressure.path


def _closed(brew: Brew) -> Say:
    spund = brew.recipe.package.spund
    if _by_gravity(brew):
        at = spund.gravity.need("the gravity at which it is closed")
        points = 1000 * max(0.0, at.range.typical - packaged_at(brew).typical)
        return say("closed-at", gravity=at, points=number(points, 2))
    return say("valve-at", pressure=spund.pressure.need("the pressure of the valve"))


def _not_the_stated(brew: Brew, gas: Range, stated: Said, level: Level) -> Finding:
    shown = said(gas.typical, stated.unit, Kind.CARBONATION)
    at, target = _instead(brew, stated)
    message = say("holds-less", holds=shown, carbonation=stated)
    if target is not None:
        message = say("holds", holds=shown, carbonation=stated, needs=said(target, at.unit, at.kind))
    return Finding(
        _path(brew),
        level,
        _closed(brew).and_then(message),
        gap=round(abs(gas.typical - stated.range.typical) / max(stated.range.typical, 0.1), 4),
        evidence=(Evidence("carbon dioxide closed in", gas.typical, "volumes", _path(brew)),),
        related=(stated.path,),
        knobs=_knobs(brew, stated),
    )


def _knobs(brew: Brew, stated: Quantity) -> tuple[Knob, ...]:
    at, target = _instead(brew, stated)
    if target is None:
        return ()
    return (stated_instead(_path(brew), at, target, "close at" if at.kind is Kind.GRAVITY else "set"),)


def _instead(brew: Brew, stated: Quantity) -> tuple[Quantity, float | None]:
    """The gravity or the pressure that gives what is stated; None where none does."""
    spund, wanted = brew.recipe.package.spund, stated.range.typical
    if not _by_gravity(brew):
        bar = spund.pressure.need("the pressure of the valve")
        at_c = spund.at.range if spund.at.known else warmest(brew).at_c
        target = pressure_bar(wanted, at_c.typical)
        return bar, target if target > 0 else None
    at = spund.gravity.need("the gravity at which it is closed")
    end, missing = packaged_at(brew).typical, wanted - open_residual(brew).typical
    start = max(at.range.typical, end + 0.001)
    each = fermented_volumes(start, end + 0.001, end)  # of a point
    return at, end + missing / each / 1000 if missing > 0 else None
