"""Has the beer finished when it is packaged?

Each point of gravity that ferments in a bottle makes half a volume of gas. Four
points add two volumes to the priming, and bottles burst. Dry hops can restart
beer: their enzymes open dextrins to the yeast (hop creep).

What is checked: the gas of all causes together (what fermentation left,
priming, points that are left, dry hops, sugar of fruit), against the vessel's
rating, else the table of the rule carbonation. Points are left where the
gravity at packaging is above the final gravity. That is the stated one (by
itself or as an attenuation) or the one measured on a brew day. If it is itself
above all that grist, mash and yeast give, it is not believed: the beer may go
on below it. Each of several packages is judged by itself.

- error, warning or note: by the vessel's rating or kind; a warning at most
  where a brew day measured an FG that is too high
- warning: half a volume above the gas of all else, in bottles that tolerate
  it; a note where the FG, and no gravity at packaging, is what is stated
- warning: a sealed vessel could be past what it tolerates with 3 to 7 points
  more from dry hops (from 4 g/l on, under 20 days), or 20 % of the fruit's
  sugar
- note: packaged early on purpose (no sugar; the points left give the fizz)
- note: more than 4 points left in a keg or cask; and up to 8 points in a keg
  whose notes speak of spunding, where a valve lets the rest out

Time is checked before bottles, cans or a cask, where no gravity at packaging is
stated, but the length of every step is:

- note: all steps together are shorter than usual (not before a cask)
- warning: they are shorter than half of that, or leave no time for two equal
  gravities three days apart. Before a cask: no day is left after the shortest
  fermentation.

  days from pitching, usual     OG 1.050  1.065  1.090  above 1.100
  ale                                  7     10     14           28
  lager, pitched cold                 14     18     24           35
  kveik, or an unknown yeast           4      5      7           10
  diastatic yeast                     14     17     21           28

- colder than 1.5 °C below the middle of the yeast's range: 30 % longer for
  each 3 °C, at most 3 times as long
- steps below 8 °C count for lager alone
- skipped: time in an old recipe (with a source, before 1940 or called old
  without a year) that is not bottled; yeast that splits dextrins (see
  diastatic-yeast)

On the day: take two equal gravities three days apart; a silent airlock proves
nothing. Ferment a warm sample with much yeast to see where the beer ends.
Bottles too lively: goggles and gloves on, chill them, vent them. The vessel's
rating and local code come before any figure here.

Sources: [balling-nielsen] [hop-creep-article] [equal-gravities-forum]
[ferment-times-forum] [ready-to-bottle-blog] [lager-time-page]
[home-brewery-hazards] [common-practice] [from-memory] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number
from mashwright.figures.package import (
    UNFINISHED,
    fermented_days,
    gas_of,
    is_sealed,
    is_sort,
    stress,
    to_come,
    vessel_of,
)
from mashwright.ingredients.vessels import VesselSort
from mashwright.knobs import Knob, another_text, same_number, stated_instead
from mashwright.measures import Kind, Quantity, Range, said
from mashwright.measures.bounds import OLD_BEFORE
from mashwright.rule import (
    Evidence,
    Example,
    Finding,
    Level,
    Limit,
    Say,
    Settings,
    below,
    gap,
    of_each_package,
    say,
    strained,
)
from mashwright_rules.package.unfinished_beer._at_worst import at_worst
from mashwright_rules.package.unfinished_beer._days import awake_days, sort_of_yeast, usual_days


class Limits(Settings):
    """What is compared with."""

    distance_volumes = Limit(0.5, "volumes", low=0.1, high=2, source="judgement")
    spunded_points = Limit(8.0, "points", difference=True, low=1, high=20, source="judgement")
    keg_points = Limit(4.0, "points", difference=True, low=1, high=20, source="judgement")
    equal_days = Limit(3, "d", low=1, high=14, source="equal-gravities-forum")
    ale_days = Limit(2, "d", low=0, high=10, source="judgement")
    lager_days = Limit(4, "d", low=0, high=30, source="judgement")
    quick_days = Limit(1, "d", low=0, high=10, source="from-memory")
    short_percent = Limit(50, "%", low=10, high=100, source="judgement")
    ale_sleeps_c = Limit(8, "°C", low=0, high=15, source="judgement")
    old_before = Limit.at(OLD_BEFORE)


SAYS = {
    "too-soon": "{time} is too short; {wort} needs at least {least} d before {vessel}",
    "wait-and-rating": "wait for two equal gravities three days apart, and keep to the vessel's rating",
    "did-you-mean": "did you mean {meant}?",
    "maybe-too-soon": "{time} could be too short: {wort} usually needs {usual} d",
    "was-it-over": "did two equal gravities three days apart show that it had ended?",
    "points-left": "{gravity} at packaging is {points} points above the final gravity of {end}",
    "fg-points-left": "a final gravity of {gravity} is {points} points above the final gravity of {end}",
    "above-its-end": "{gravity} at packaging is above the {end} at which this grist, mash and yeast end",
    "fg-above-its-end": "a final gravity of {gravity} is above the {end} at which this grist, mash and yeast end",
    "can-burst": ": about {gas}, which can burst {vessel}",
    "may-burst": ": about {gas}, which may burst {vessel}",
    "is-too-much": ": about {gas}, which is too much for {vessel}",
    "may-be-too-much": ": about {gas}, which may be too much for {vessel}",
    "wait-and-keep": "wait for two equal gravities three days apart, and keep to {rating}",
    "wait": "wait for two equal gravities three days apart",
    "vent": "vent the {vessel}, or let the beer finish",
    "on-purpose": "is the beer to make its own gas, about {gas} volumes?",
    "more-gas": ": about {gas} volumes instead of {given} volumes",
    "dry-hops": "{hops} can restart the beer by up to {points} points",
    "dry-hops-and-fruit": "{hops} can restart the beer by up to {points} points,"
    " and the fruit may not all have fermented",
    "ferments-on": "the {thing} may not all have fermented",
    "ferments-on-with-hops": "the {thing} may not all have fermented, and the dry hops can restart the beer",
    "may-burst-at-worst": ": up to {gas}, which may burst {vessel}",
    "wait-after": "then wait for two equal gravities three days apart, and keep to {rating}",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from of_each_package(brew, lambda one: _check(one, limits))


def _check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    package = brew.recipe.package
    if not package.known:
        return
    if not package.gravity.known:
        yield from _too_soon(brew, limits)
    coming = to_come(brew)
    if coming.slow is not None:
        return
    if coming.of(UNFINISHED).high > 0 and coming.stated.known:
        yield from _early(brew, limits, coming.stated)
    elif coming.causes and is_sealed(package):
        yield from at_worst(brew)


def _too_soon(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Fermentation whose stated length is too short for beer that goes into bottles or a cask."""
    recipe, package = brew.recipe, brew.recipe.package
    if not package.known or is_sort(package, VesselSort.KEG) or fermented_days(brew) is None:
        return
    cask = not is_sealed(package)
    if cask and brew.intent.old(limits.old_before):
        return
    sort = sort_of_yeast(brew)
    days = Range.exact(awake_days(brew, limits.ale_sleeps_c if sort != "lager" else float("-inf")))
    shortest = {"kveik": limits.quick_days, "lager": limits.lager_days}.get(sort, limits.ale_days)
    usual, wort = usual_days(brew, sort)
    whole_days = round(max(shortest + limits.equal_days, limits.short_percent / 100 * usual))
    least, usual = (
        float(shortest + 1 if cask else whole_days),
        float(round(usual)),
    )  # nobody knows it to a part of a day
    level = Level.WARNING if below(days, least) else Level.NOTE
    if level is Level.NOTE and (cask or not below(days, usual)):
        return
    times = [step.time for step in recipe.ferment if step.time.known]
    longest = max(times, key=lambda time: time.range.high)
    path = (*next(step.path for step in recipe.ferment if step.time is longest), "for")
    whole = longest.text if len(times) == 1 else f"{number(days.typical, 2)} d in all"
    asked, knobs = None, tuple[Knob, ...]()
    meant = same_number(longest, "d") if longest.unit == "h" and longest.range.typical / 60 >= least else None
    if meant is not None:
        asked = say("did-you-mean", meant=meant)
        knobs = (another_text(path, meant, f"use {meant} instead of {longest.text}"),)
    if level is Level.WARNING:
        known = vessel_of(package)
        vessel = "a cask" if cask else known.words[0] if known is not None else "bottles"
        message = say("too-soon", time=whole, wort=wort, least=number(least, 2), vessel=vessel)
        message = message.and_then(say("wait-and-rating"), asked)
    else:
        message = say("maybe-too-soon", time=whole, wort=wort, usual=number(usual, 2)).and_then(say("was-it-over"))
    yield Finding(path, level, message, gap(days, least), related=(brew.recipe.package.path,), knobs=knobs)


def _early(brew: Brew, limits: Limits, at: Quantity) -> Iterator[Finding]:
    """Points that are left: surely, or by an FG that grist, mash and yeast do not believe."""
    package, coming, gas = brew.recipe.package, to_come(brew), gas_of(brew)
    assert coming.end is not None
    points = 1000 * (at.range.typical - coming.end.typical)
    words, at_packaging = _words(brew, at, points), package.gravity.known
    held = stress(brew, gas.total)
    level = strained(held) if held is not None else None
    if level is not None and coming.measured and not coming.end_is_said:
        level = min(level, Level.WARNING)
    spunded = is_sort(package, VesselSort.KEG) and points <= limits.spunded_points and brew.intent.spunded
    if held is not None and level is not None and level > Level.NOTE and not spunded:
        message = words.and_then(
            say(held.does(level), gas=held.held, vessel=held.bearing.called),
            say("wait-and-keep", rating=held.rating_of),
        )
    elif coming.of(UNFINISHED).typical <= 0:
        return
    elif not is_sealed(package):
        if points <= limits.keg_points:
            return
        level = Level.NOTE
        message = words.and_then(say("vent", vessel=package.vessel or "package"))
    elif gas.on_purpose:
        level, message = Level.NOTE, words.and_then(say("on-purpose", gas=number(gas.total.typical, 2)))
    elif gas.total.typical > gas.given.high + limits.distance_volumes:
        level = Level.WARNING if at_packaging else Level.NOTE
        message = words.and_then(
            say("more-gas", gas=number(gas.total.typical, 2), given=number(gas.given.typical, 2)),
            say("wait-and-keep", rating=held.rating_of) if held is not None else say("wait"),
        )
    else:
        return
    end = coming.end.typical
    yield Finding(
        coming.path,
        level,
        message,
        gap=round(points / 10, 4),
        evidence=tuple(Evidence(name, value.typical, "volumes") for name, value in gas.rows),
        related=(brew.recipe.targets.fg.path,)
        if at_packaging and brew.recipe.targets.fg.known
        else (brew.recipe.package.path,),
        knobs=(stated_instead(coming.path, at, end, "package at"),) if at_packaging else (),
    )


def _words(brew: Brew, at: Quantity, points: float) -> Say:
    coming = to_come(brew)
    assert coming.end is not None
    at_packaging = "package" in coming.path
    if coming.end_is_said:
        end = said(coming.end.typical, at.unit, Kind.GRAVITY)
        return say("points-left" if at_packaging else "fg-points-left", gravity=at, points=number(points, 2), end=end)
    end = said(coming.end, at.unit, Kind.GRAVITY)
    return say("above-its-end" if at_packaging else "fg-above-its-end", gravity=at, end=end)


SOUND = """\
recipe: Netmenders Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
mash:
  rests: [{at: 66 °C, for: 60 min}]
yeast: {kind: American ale}
package: {in: bottles, carbonation: 2.3 volumes, bottle-rating: 3.5 volumes, gravity: 1.011}
targets: {og: 1.050, fg: 1.010}
"""
FAULTY = Example(
    """\
recipe: Netmenders Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
mash:
  rests: [{at: 66 °C, for: 60 min}]
yeast: {kind: American ale}
package: {in: bottles, carbonation: 2.3 volumes, bottle-rating: 3.5 volumes, gravity: 1.020}
targets: {og: 1.050, fg: 1.010}
""",
    "error",
    9,
    87,
    "1.020 at packaging is 10 points above the final gravity of 1.010: about 7.5 volumes, which can burst bottles rated"
    " 3.5 volumes; wait for two equal gravities three days apart, and keep to the bottles' rating",
)
