"""The gas on a keg: what its pressure keeps in the beer, and whether any pressure keeps what is wanted."""

from collections.abc import Iterator
from math import ceil

from mashwright.brew import Brew, degrees
from mashwright.brewing.carbonation import co2_share_needed, dissolved_volumes, pressure_bar
from mashwright.figures.package import KEG_C, bearing, co2_share
from mashwright.knobs import Knob, another_text, stated_instead
from mashwright.measures import Kind, Quantity, Range, said
from mashwright.recipe.stated import Said
from mashwright.rule import Evidence, Finding, Level, differs, gap, say

_IN_STEPS_OF = 5  # % of CO2, as gas is mixed; common practice


def held_by_the_pressure(brew: Brew, distance_volumes: float) -> Iterator[Finding]:
    """The pressure on a keg, and the gas, against the carbonation that it is to keep."""
    package = brew.recipe.package
    bar, at, stated, gas = package.pressure, package.at, package.carbonation, package.gas
    if not stated.known or package.priming.known:
        return
    at_c = at.range if at.known else KEG_C
    if gas.known and (none := _none_does(brew, gas, stated, at_c)) is not None:
        yield none
        return
    if not bar.known or not at.known:
        return
    holds = Range.span(dissolved_volumes, bar.range, at.range, co2_share(package))
    if not (level := differs(holds, stated.range, distance_volumes)):
        return
    shown = said(holds.typical, stated.unit, Kind.CARBONATION)
    target = Range.span(pressure_bar, stated.range, at.range, co2_share(package))
    needs = said(max(target.typical, 0.0), bar.unit, Kind.PRESSURE)
    message = say("held", pressure=bar, heat=at, holds=shown, carbonation=stated, needs=needs)
    if gas.known:
        message = say("held-of-gas", pressure=bar, gas=gas, heat=at, holds=shown, carbonation=stated, needs=needs)
    yield Finding(
        bar.path,
        min(level, Level.WARNING),
        message,
        gap=round(abs(holds.typical - stated.range.typical) / max(stated.range.typical, 0.1), 4),
        evidence=(Evidence("carbonation at that pressure", holds.typical, "volumes", bar.path),),
        related=(stated.path, at.path, *((gas.path,) if gas.known else ())),
        knobs=(stated_instead(bar.path, bar, target.typical, "set"),) if target.typical > 0 else (),
    )


def _none_does(brew: Brew, gas: Said, stated: Quantity, at_c: Range) -> Finding | None:
    """A gas with so little carbon dioxide that no pressure which the keg bears keeps the carbonation."""
    related = (brew.recipe.package.carbonation.path,)
    if gas.range.high <= 0:
        return Finding(gas.path, Level.WARNING, say("held-by-no-gas", gas=gas), gap=1.0, related=related)
    bears = bearing(brew)
    if bears is None or not bears.in_bar or gas.range.low <= 0:
        return None
    most = bears.limit.typical
    needed = Range.span(pressure_bar, stated.range, at_c, gas.range * 0.01)
    if needed.low <= most:
        return None
    message = say(
        "held-by-none",
        gas=gas,
        carbonation=stated,
        heat=degrees(brew, at_c.typical),
        needs=said(needed.typical, bears.unit, Kind.PRESSURE),
        vessel=bears.called,
    )
    return Finding(
        gas.path,
        Level.WARNING,
        message,
        gap=gap(needed, most),
        evidence=(Evidence("pressure needed", needed.typical, "bar", gas.path),),
        related=related,
        knobs=_more_co2(brew, gas, stated, at_c, most),
    )


def _more_co2(brew: Brew, gas: Said, stated: Quantity, at_c: Range, most_bar: float) -> tuple[Knob, ...]:
    """A gas that keeps the carbonation under the pressure that is set, or under what the keg bears."""
    bar = brew.recipe.package.pressure
    under = bar.range.typical if bar.known else most_bar / 2
    percent = ceil(100 * co2_share_needed(stated.range.typical, under, at_c.typical) / _IN_STEPS_OF) * _IN_STEPS_OF
    if not gas.range.high < percent <= 100:
        return ()
    text = f"{percent} % CO2"
    return (another_text(gas.path, text, f"use gas with {text} instead of {gas.text}"),)
