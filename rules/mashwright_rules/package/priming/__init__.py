"""Does the priming sugar give the stated carbonation, and can the bottles hold it?

A few grams decide between flat beer and burst glass. Sugar is weighed for the
whole batch, so a slip in its weight or in the volume reaches every bottle. Beer
that gets gas from fruit or a cylinder too gets it twice.

What is checked: the gas in the beer that is packaged. It is what fermentation
left, at the warmest temperature since it slowed, and what the sugar adds by its
stoichiometry. Each of several packages is judged by itself.

- dry malt extract: by the trade's ratio, 1.3 to 1.5 times table sugar
- sugar, syrup, juice and fruit among the additions count as priming, if their
  `when` speaks of packaging
- wort: what of it ferments, by its `attenuation` or as far as this beer.
  Krausen: some 67 % of that, unless its gravity is stated.
- beer closed before its end (`spund`) holds the gas that it made since
- bottles filled under pressure hold that gas too

The findings:

- error, warning or note: more than half a volume above the stated
  carbonation, or none stated, and above what the vessel tolerates (its
  rating, else the table of the rule carbonation). One level worse where less
  is stated and a sealed vessel has no stated rating.
- warning: else, more than half a volume from the stated carbonation even in
  the best case; a note if only in the usual case
- error: priming in glass that is not made for gas, such as growlers and jars
- warning: something brings sugar that cannot be counted; a note in a keg or
  cask
- warning: the priming sugar is one that yeast does not ferment
- warning: bottles primed and filled under pressure, no temperature stated
- note: fruit in the fermenter, or gas on the keg, beside the priming

On the day: weigh the sugar on a scale, boil it in a little water, and mix it
well. Measure the volume in the bottling vessel; do not take it from the recipe.
Take two equal gravities three days apart first. The vessel's rating and local
code come before any figure here.

Sources: [troester-priming] [priming-article] [co2-hibberd]
[keg-or-growler-answer] [home-brewery-hazards] [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, told
from mashwright.figures.package import (
    carbonation,
    gas_of_sugars,
    is_sort,
    residual_co2,
    stress,
    vessel_of,
)
from mashwright.ingredients.vessels import VesselSort
from mashwright.measures import Kind, Range, from_canonical
from mashwright.rule import (
    Evidence,
    Example,
    Finding,
    Level,
    Limit,
    Say,
    Settings,
    Unknown,
    differs,
    gap,
    of_each_package,
    row,
    say,
    strained,
)
from mashwright.words.sentences import Measure
from mashwright_rules.package.priming._sources import does_not_ferment, gas_twice, not_for_gas, uncounted_sugar
from mashwright_rules.package.priming._sugars import borne_volumes, enough_of_the_first, gives


class Limits(Settings):
    """What is compared with."""

    distance_volumes = Limit(0.5, "volumes", low=0.1, high=2, source="judgement")


# Where none is stated; common practice.
_USUAL_VOLUMES = {VesselSort.BOTTLE: 2.4, VesselSort.CAN: 2.4, VesselSort.KEG: 2.4, VesselSort.CASK: 1.3}


SAYS = {
    "gives": "{sugars} gives about {gas}",
    "give": "{sugars} give about {gas}",
    "gives-on-top": "{sugars} on top of what the beer holds under {pressure} at {heat} gives about {gas}",
    "give-on-top": "{sugars} on top of what the beer holds under {pressure} at {heat} give about {gas}",
    "not-the-stated": ", not the stated {carbonation}",
    "where-stated": ", where {carbonation} are stated",
    "can-burst": ", and can burst {vessel}",
    "may-burst": ", and may burst {vessel}",
    "is-too-much": ", and is too much for {vessel}",
    "may-be-too-much": ", and may be too much for {vessel}",
    "could-be-too-much": ", and could be too much for {vessel}",
    "keep-to": "keep to {rating}",
    "unknown-sugar": "{thing} brings sugar when the beer is packaged; how much is unknown, and it makes gas;"
    " let it ferment out first, and keep to the rating of the vessel",
    "unknown-sugar-in-bottles": "{thing} brings sugar when the beer is packaged; how much is unknown, and it makes"
    " gas; let it ferment out first, and keep to the {vessel}' rating",
    "does-not-ferment": "yeast does not ferment {sugar}, so it gives no gas; table sugar or dextrose does",
    "not-for-gas": "a {vessel} can burst with priming and is not made for beer that makes gas; use bottles that are"
    " made for pressure, or fill with finished beer and drink it within days",
    "several-not-for-gas": "{vessel} can burst with priming and are not made for beer that makes gas; use bottles"
    " that are made for pressure, or fill with finished beer and drink it within days",
    "primed-and-set": "the keg is primed and set to {pressure} as well; one of the two gives the gas",
    "fruit-adds": "the sugar of {fruit} in the fermenter adds to the priming if it has not all fermented; wait for"
    " two equal gravities three days apart",
    "bottled-under-pressure": "beer bottled under {pressure} holds gas already, to which the sugar adds; keep to"
    " the bottles' rating",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from of_each_package(brew, lambda one: _check(one, limits))


def _check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    package = brew.recipe.package
    if not package.known or (not package.priming.known and not brew.recipe.additions):
        return
    yield from uncounted_sugar(brew)
    if package.priming.known:
        yield from gas_twice(brew)
        if (vessel := vessel_of(package)) is not None and not vessel.refermented:
            yield not_for_gas(brew, vessel.words[0])
            return
        if (idle := does_not_ferment(brew, package.priming)) is not None:
            yield idle
            return
    try:
        gas, _ = gas_of_sugars(brew)
    except Unknown:
        return  # what is not said is no fault
    wanted = package.carbonation
    if not wanted.known or gas.typical > wanted.range.high + limits.distance_volumes:
        findings = list(_past_the_vessel(brew, gas))
        if findings:
            yield from findings
            return
    if not wanted.known or (is_sort(package, VesselSort.KEG) and package.pressure.known):
        return
    level = differs(gas, wanted.range, limits.distance_volumes)
    if level:
        volumes = _volumes(gas.typical, wanted.unit, wanted.range.typical)
        message = gives(brew, volumes).and_then(say("not-the-stated", carbonation=wanted))
        yield _finding(brew, Level(level - 1), message, wanted.range.typical, gap(gas, wanted.range.typical))


def _past_the_vessel(brew: Brew, gas: Range) -> Iterator[Finding]:
    package = brew.recipe.package
    held = stress(brew, gas)
    level = strained(held) if held is not None else None
    if held is None or level is None:
        return
    wanted, limit, vessel = package.carbonation, held.bearing.limit, held.bearing.vessel
    if wanted.known and vessel.sealed and not held.bearing.rating:
        level = Level(min(Level.ERROR, level + 1))
    message = gives(brew, held.held).and_then(
        say("where-stated", carbonation=wanted) if wanted.known else None,
        say(held.does(level), vessel=held.bearing.called),
        say("keep-to", rating=held.rating_of),
    )
    target = wanted.range.typical if wanted.known else _USUAL_VOLUMES.get(vessel.sort, 2.4)
    yield _finding(brew, level, message, min(target, borne_volumes(held, gas)), gap(held.value, limit.low))


def _volumes(value: float, unit: str, limit: float) -> Measure:
    """Carbonation in the recipe's unit, never printed like the limit that it misses."""
    written, past = (from_canonical(one, unit, Kind.CARBONATION) for one in (value, limit))
    return Measure(f"{told(written, past)} {unit}", written, unit)


def _finding(brew: Brew, level: Level, message: Say, target_volumes: float, past: float) -> Finding:
    gas, sugars = gas_of_sugars(brew)
    held = residual_co2(brew)
    rows = []
    for sugar in sugars:
        assert sugar.grams_per_l is not None
        rows.append(Evidence(f"{sugar.name} to a litre", sugar.grams_per_l.typical, "g/l", sugar.path))
        rows.append(Evidence("gas from a gram of it", sugar.co2_per_g.typical, "g"))
    return Finding(
        sugars[0].path,
        level,
        message,
        gap=past,
        evidence=(row(held), *rows, row(carbonation(brew), sugars[0].path)),
        related=(brew.recipe.package.carbonation.path, *(sugar.path for sugar in sugars[1:])),
        knobs=enough_of_the_first(brew, target_volumes, gas, sugars),
    )


SOUND = """\
recipe: Two Piers Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.2 kg}
ferment: [{at: 19 °C, for: 10 d}]
package: {in: bottles, carbonation: 2.3 volumes, priming: {sugar: table sugar, weight: 110 g}}
"""
FAULTY = Example(
    """\
recipe: Two Piers Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.2 kg}
ferment: [{at: 19 °C, for: 10 d}]
package:
  in: bottles
  carbonation: 2.3 volumes
  priming: {sugar: table sugar, weight: 200 g}
""",
    "error",
    10,
    41,
    "200 g of table sugar gives about 3.6 volumes, where 2.3 volumes are stated, and can burst ordinary bottles, good"
    " for about 3 volumes; keep to the bottles' rating",
)
