"""Can the bottles, the keg or the cask hold the stated carbonation?

Glass with more gas than it was made for bursts, and it bursts in someone's
hand. In a warm room the pressure is twice that of the cellar. Ordinary one-way
bottles hold about 3 volumes (6 g/l) of carbon dioxide; wheat beer and fruit
lambic need heavy glass. Kegs vent before they burst. Never set a regulator
above what the keg tolerates.

What is checked: the stated carbonation, and the pressure that is set on a keg.
The limit is the rating that the recipe (`bottle-rating`) or the brewhouse
(`vessels`) states; else that of the kind of vessel. Each of several packages is
judged by itself.

  vessel                 note above  warning above  error above
  bottles                3.0         3.3            4.0 volumes
  light bottles          2.7         3.0            3.5
  heavy, Belgian bottles 3.5         4.0            4.5
  champagne bottles      5.0         6.0            6.6
  swing-top bottles      3.0         3.5            4.0
  PET bottles            4.0         4.0            5.0
  cans                   2.8         2.8            3.4
  crowlers               2.6         2.7            2.8
  growlers, jars         2.6         2.8            3.0
  cask                   2.0         2.4            3.5
  pressure barrel        1.8         2.0            2.5
  polypin, bag in box    1.3         1.5            1.8
  keg of unknown make    4.0         4.0            9.0 bar at 20 °C
  soda keg               4.3         6.9            9.0
  steel keg              4.0         4.0            4.5
  plastic keg            2.0         2.0            4.1
  mini keg               1.9         2.5            3.0

- error: above a stated rating; one in bar is compared at 20 °C
- warning: a range, or the pressure at 30 °C, that reaches above it
- also asked: did you mean psi, where so many bar are too much?
- warning: the pressure and temperature of a keg without priming keep half a
  volume more or less in the beer than is stated
- warning: with a gas that is mostly nitrogen, no pressure that the keg
  tolerates keeps the stated volumes
- beer closed before its end (`spund`): the gas that it makes since, or that
  the valve leaves, against the vessel as in the table; a warning if it is
  half a volume from the stated carbonation
- note: beer for bottles is closed before its end; in which vessel?

Of mixed gas only the carbon dioxide dissolves: its share of the whole pressure
counts, the air's included.

On the day: weigh the sugar. Use sound bottles that were made for pressure, and
keep them boxed and cool. If a bottle gushes, chill and vent them all, goggles
and gloves on. Never open, clean or take apart a keg under pressure. The
vessel's rating and local code come before any figure here.

Sources: [troester-carbonation] [mixed-gas-manual] [bottle-pressure-forum]
[bottle-levels-page] [bottle-weights-forum] [bottle-carbonation-blog]
[sparkling-bottle-group] [keg-or-growler-answer] [keg-pressure-page]
[plastic-keg-comments] [home-brewery-hazards] [common-practice] [from-memory]
[judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew
from mashwright.brewing.carbonation import pressure_bar
from mashwright.figures.package import bearing, bottle_pressure, is_sealed, is_sort, stress
from mashwright.ingredients.vessels import VesselSort
from mashwright.knobs import Knob, another_text, same_number
from mashwright.measures import Kind, Range, from_canonical, to_canonical
from mashwright.recipe.stated import Stated
from mashwright.rule import (
    Evidence,
    Example,
    Finding,
    Level,
    Limit,
    Settings,
    Unknown,
    above,
    gap,
    of_each_package,
    say,
    strained,
)
from mashwright.words.sentences import Measure
from mashwright_rules.package.carbonation._closed import closed_early
from mashwright_rules.package.carbonation._gas import held_by_the_pressure
from mashwright_rules.package.carbonation._less_gas import borne_volumes, less_gas


class Limits(Settings):
    """What is compared with."""

    keg_distance_volumes = Limit(0.5, "volumes", low=0.1, high=3, source="judgement")


_LEAST_SET_BAR = 0.3  # less is hardly set on a keg, so that nobody means so few psi; judgement


SAYS = {
    "can-burst": "{gas} can burst {vessel}",
    "may-burst": "{gas} may burst {vessel}",
    "is-too-much": "{gas} is too much for {vessel}",
    "may-be-too-much": "{gas} may be too much for {vessel}",
    "could-be-too-much": "{gas} could be too much for {vessel}",
    "keep-to": "keep to {rating}",
    "keep-to-unstated": "keep to {rating}, which is not stated",
    "pressure-too-high": "{pressure} is too much for {vessel}; keep to {rating}",
    "pressure-may-be-too-high": "{pressure} may be too much for {vessel}; keep to {rating}",
    "did-you-mean": "did you mean {meant}?",
    "held-of-gas": "{pressure} of {gas} at {heat} keeps {holds} in the beer, not {carbonation}; that needs {needs}",
    "held-by-none": "with {gas}, {carbonation} at {heat} needs {needs}, too much for {vessel}; use a gas with more CO2",
    "held-by-no-gas": "{gas} keeps no carbonation in the beer; use a gas with CO2 in it",
    "closed-at": "the beer is closed at {gravity}, with {points} points to go",
    "valve-at": "the valve is set to {pressure}",
    "holds": "the beer then holds about {holds}, not {carbonation}; that needs {needs}",
    "holds-less": "the beer then holds at least {holds}, not {carbonation}",
    "closed-early": "beer that is closed before its end needs a vessel made for pressure, with a relief valve; does"
    " yours have one?",
    "held": "{pressure} at {heat} keeps {holds} in the beer, not {carbonation}; that needs {needs}",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from of_each_package(brew, lambda one: _check(one, limits))


def _check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    package = brew.recipe.package
    if not package.known:
        return
    set_too_high = list(_set_pressure(brew, package.pressure))
    yield from set_too_high
    valve_too_high = list(_set_pressure(brew, package.spund.pressure)) if is_sort(package, VesselSort.KEG) else []
    yield from valve_too_high or closed_early(brew, limits.keg_distance_volumes)
    if is_sort(package, VesselSort.KEG) and not set_too_high:
        yield from held_by_the_pressure(brew, limits.keg_distance_volumes)
    stated = package.carbonation
    held = stress(brew, stated.range) if stated.known else None
    level = strained(held) if held is not None else None
    if not stated.known or held is None or level is None:
        return
    gas = Measure(f"{stated.text} ({held.pressure})", stated.range.typical, "volumes") if held.pressure else stated
    message = say(held.does(level), gas=gas, vessel=held.bearing.called).and_then(
        say("keep-to" if held.bearing.rating else "keep-to-unstated", rating=held.rating_of)
    )
    path = brew.recipe.package.carbonation.path
    yield Finding(
        path,
        level,
        message,
        gap=gap(held.value, held.bearing.limit.low),
        evidence=(Evidence("stated carbonation", stated.range.typical, "volumes", path), *_pressures(brew)),
        related=(brew.recipe.package.bottle_rating.path,) if is_sealed(package) else (brew.recipe.package.vessel.path,),
        knobs=less_gas(brew, stated, borne_volumes(held, stated)),
    )


def _pressures(brew: Brew) -> tuple[Evidence, ...]:
    """The pressures at each temperature, where they can be had."""
    try:
        figure = bottle_pressure(brew)
    except Unknown:
        return ()
    return tuple(Evidence(f"pressure {name}", value.typical, "bar") for name, value in figure.parts)


def _set_pressure(brew: Brew, bar: Stated) -> Iterator[Finding]:
    """A pressure set on a vessel that bears less."""
    package, bears = brew.recipe.package, bearing(brew)
    if not bar.known or bears is None:
        return
    limit = bears.limit
    if not bears.in_bar:  # it is filled cold and stands in a warm room
        at_c = package.at.range.typical if package.at.known else 5.0
        limit = Range(*(max(0.0, pressure_bar(volumes, at_c)) for volumes in (limit.low, limit.typical, limit.high)))
    level = above(bar.range, limit.high, harm=True)
    most = limit.high
    if not level and above(Range.exact(bar.range.typical), limit.typical):
        level, most = Level.WARNING, limit.typical
    if not level:
        return
    meant = same_number(bar, "psi") if bar.unit != "psi" else None
    psi = to_canonical(from_canonical(bar.range.typical, bar.unit, Kind.PRESSURE), "psi", Kind.PRESSURE)
    asked, knobs = None, tuple[Knob, ...]()
    if meant is not None and _LEAST_SET_BAR <= psi <= limit.low:
        asked = say("did-you-mean", meant=meant)
        knobs = (another_text(bar.path, meant, f"set {meant} instead of {bar.text}"),)
    sentence = "pressure-too-high" if level is Level.ERROR else "pressure-may-be-too-high"
    keep = (
        "the lowest rating of keg, lines and taps"
        if bears.vessel.sort == VesselSort.KEG
        else f"the rating of {bears.plain}"
    )
    yield Finding(
        bar.path,
        level,
        say(sentence, pressure=bar, vessel=bears.called, rating=keep).and_then(asked),
        gap=gap(bar.range, most),
        knobs=knobs,
    )


SOUND = """\
recipe: Weir Wheat
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: wheat malt, weight: 2.5 kg}
  - {grain: Pilsner malt, weight: 2 kg}
package: {in: bottles, carbonation: 3.3 volumes, bottle-rating: 4.5 volumes}
"""
FAULTY = Example(
    """\
recipe: Weir Wheat
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: wheat malt, weight: 2.5 kg}
  - {grain: Pilsner malt, weight: 2 kg}
package: {in: bottles, carbonation: 4.5 volumes, bottle-rating: 3.5 volumes}
""",
    "error",
    7,
    37,
    "4.5 volumes can burst bottles rated 3.5 volumes; keep to the bottles' rating",
)
