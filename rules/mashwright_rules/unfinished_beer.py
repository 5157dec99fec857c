"""Has the beer finished when it is packaged?

Each point of gravity that ferments in a bottle makes half a volume of gas: four points are two volumes on top of the
priming, and that is how bottles burst. Beer also starts again by itself: dry hops bring enzymes that open dextrins to
the yeast (hop creep).

Computed: the stated gravity at packaging against the final gravity that the recipe states or its brew days measured;
where neither is there, against the highest that this grist, mash and yeast give, never against the middle of that
band. What is left counts half a volume a point on top of the carbonation and is held against the bottles' rating:
past it an error, a warning where only the unfavourable end is; in bottles of unknown rating a warning above 3.5
volumes, an error above 4.5, and a warning in any case where the carbonation comes out half a volume above what is
stated. Bottled early on purpose, so that what is left makes the stated carbonation and no sugar is added, is a note.
From 4 g/l of dry hops 2 to 5 points more are counted at the unfavourable end. In a keg or a cask more than 4 points
are a note, and more than 4 bar at 20 °C in the keg, or 2.5 volumes in the cask, a warning. Yeast that splits dextrins
is another question. Where no gravity at packaging is stated, a stated final gravity above all that grist, mash and
yeast are likely to leave counts as gas to come, as above: an error only where even the favourable end is past the
glass, else a warning. And where the length of every step of the fermentation is stated, one that is too short is a
warning before bottles or a cask: two days for an ale at 18 °C or more (twice as long at 8 °C), seven for a lager, one
for kveik or an unknown yeast, a day more for each ten points above 1.050, and the three days between two equal
gravities; steps below 8 °C left out but for lager; not so in an old recipe (with a source, and a year before 1940
there or in the name) that does not fill bottles, since the beer worked on in the cask.

On the day: two equal gravities three days apart, and a warm sample with much yeast beside it (a forced ferment) to see
where the beer ends. Bottles that are too lively: goggles and gloves, chill them, vent them. The bottles' rating and
local code come before any figure here.

Sources: [balling-nielsen] [home-brewery-hazards] [common-practice] [judgement]
"""

from collections.abc import Iterator
from contextlib import suppress

from mashwright.brewing.carbonation import fermented_volumes
from mashwright.brewing.gravity import points
from mashwright.rule import (
    ON_PURPOSE,
    Brew,
    Evidence,
    Example,
    Finding,
    Kind,
    Knob,
    Level,
    Limit,
    Quantity,
    Range,
    Settings,
    Unknown,
    above,
    another_text,
    below,
    carbonation,
    fermenting,
    fg,
    gap,
    gas_in_bottle,
    in_bottles,
    known_yeast,
    number,
    residual_co2,
    said,
    same_number,
    stated_instead,
    stress,
    stress_unrated,
    unfinished,
    unfinished_co2,
    wort_strength,
    yeast_class,
)


class Limits(Settings):
    """What is compared with."""

    reading_points = Limit(1.0, "points", low=0, high=5, source="judgement")
    bottle_warning_volumes = Limit(3.5, "volumes", low=1, high=6, source="common-practice")
    bottle_error_volumes = Limit(4.5, "volumes", low=1, high=8, source="common-practice")
    distance_volumes = Limit(0.5, "volumes", low=0.1, high=2, source="judgement")
    keg_points = Limit(4.0, "points", low=1, high=20, source="judgement")
    keg_pressure_bar = Limit(4.0, "bar", low=1, high=10, source="from-memory")
    cask_volumes = Limit(2.5, "volumes", low=0.5, high=5, source="judgement")
    ale_days = Limit(2, "d", low=0, high=10, source="judgement")
    lager_days = Limit(7, "d", low=0, high=30, source="judgement")
    quick_days = Limit(1, "d", low=0, high=10, source="judgement")
    equal_days = Limit(3, "d", low=0, high=10, source="common-practice")
    strong_points = Limit(50, "points", low=30, high=100, source="judgement")
    points_a_day = Limit(10, "points", low=2, high=50, source="judgement")
    cool_c = Limit(18, "°C", low=10, high=25, source="judgement")
    ale_sleeps_c = Limit(8, "°C", low=0, high=15, source="judgement")
    old_before = Limit(1940, "", low=1800, high=2000, source="judgement")


_PATH = ("package", "gravity")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    package = brew.recipe.package
    if package is None:
        return
    if package.gravity is None:
        yield from _hardly_begun(brew, limits)
        yield from _stated_too_high(brew, limits)
        if not any(hop.dry is not None for hop in brew.recipe.hops):
            return
    if fermenting(brew).dextrins:
        return
    left = unfinished(brew)
    early = _points_early(brew, limits, left.at, left.end)
    if package.gravity is not None and early:
        yield from _early(brew, limits, package.gravity, early)
    elif left.creep_points and in_bottles(package):
        yield from _creep(brew, limits, left.creep_points)


def _stated_too_high(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """A stated final gravity above what the beer is likely to end at: bottled there, it makes gas all the same."""
    package, stated = brew.recipe.package, brew.recipe.targets.fg
    measured = any(day.measured.fg is not None for day in brew.recipe.measured)
    if package is None or stated is None or measured or not (in_bottles(package) or package.vessel in ("keg", "cask")):
        return
    start, model = wort_strength(brew)[0].typical, fg(brew)
    if 1000 * (stated.range.low - model.high) <= limits.reading_points or fermenting(brew).dextrins:
        return
    held = residual_co2(brew).range
    with suppress(Unknown):
        held = carbonation(brew).range
    at = stated.range.typical
    made = Range(*(fermented_volumes(start, at, end) for end in (model.high, model.typical, model.low)))
    gas = Range(held.low + made.low, held.typical + made.typical, held.high + made.high)
    end = said(model.range, stated.unit, Kind.GRAVITY)
    words = f"this beer is likely to end at {end}, below the stated FG of {stated.text}"
    path = (*brew.recipe.targets.path, "fg")
    if in_bottles(package):
        level, asked = _against_the_glass(brew, limits, gas)
        surely, _ = _against_the_glass(brew, limits, Range.exact(gas.low))
        if level is None:
            return
        level = Level.ERROR if surely is Level.ERROR else Level.WARNING
        message = f"{words}; bottled at that it may make about {asked}; wait for two equal gravities three days apart"
    else:
        vented = stress_unrated(gas, package.vessel, limits.keg_pressure_bar, limits.cask_volumes)
        if vented is None or above(vented.value, vented.limit) is None:
            return
        level, message = Level.WARNING, f"{words}; the {package.vessel} may come to {vented.held}; vent it"
    message += f", and keep to the {'bottles' if in_bottles(package) else package.vessel}{_own(package.vessel)} rating"
    yield Finding(path, level, message, round(1000 * (at - model.typical) / 10, 4), related=(("package",),))


def _own(vessel: str) -> str:
    return "'s" if vessel in ("keg", "cask") else "'"


def _hardly_begun(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Fermentation whose stated length is too short for any beer that goes into bottles or a cask."""
    recipe, package = brew.recipe, brew.recipe.package
    times = [step.time for step in recipe.ferment if step.time is not None]
    if package is None or package.vessel == "keg" or not times or len(times) < len(recipe.ferment):
        return
    if not in_bottles(package) and min(recipe.years, default=limits.old_before) < limits.old_before:
        return
    sort, least = _least_days(brew, limits)
    days = Range.exact(_awake_days(brew, limits.ale_sleeps_c if sort != "lager" else float("-inf")))
    if below(days, least) is None:
        return
    longest = max(times, key=lambda time: time.range.high)
    path = (*next(step.path for step in recipe.ferment if step.time is longest), "for")
    asked, knobs = "", tuple[Knob, ...]()
    meant = same_number(longest, "d") if longest.unit == "h" and longest.range.typical / 60 >= least else None
    if meant is not None:
        asked, knobs = f"; is it {meant}", (another_text(path, meant, f"{meant} instead of {longest.text}"),)
    whole = longest.text if len(times) == 1 else f"{number(days.typical, 2)} d in all"
    wait = "wait for two equal gravities three days apart, and keep to the vessel's rating"
    yield Finding(
        path,
        Level.WARNING,
        f"{whole} is hardly a fermentation, which takes {number(least)} d at the least before bottles or a cask;"
        f" {wait}{asked}",
        gap(days, least),
        related=(("package",),),
        knobs=knobs,
    )


def _least_days(brew: Brew, limits: Limits) -> tuple[str, float]:
    """The sort of yeast, and the days that it needs at the least; an unknown one may be as quick as kveik."""
    known = [known_yeast(one.kind) for one in brew.recipe.yeast]
    strong = (points(wort_strength(brew)[0].typical) - limits.strong_points) / limits.points_a_day
    more = limits.equal_days + max(0.0, strong)
    if any(one is None or one.name == "kveik" for one in known):
        return "", limits.quick_days + more
    sort = yeast_class(brew)
    if sort == "lager":
        return sort, limits.lager_days + more
    return sort, limits.ale_days * _slower(brew, limits) + more


def _slower(brew: Brew, limits: Limits) -> float:
    """How many times as long a cool ale takes: about twice as long at 10 °C less; common practice."""
    warmest = max((step.at.range.high for step in brew.recipe.ferment if step.at is not None), default=limits.cool_c)
    return float(2 ** (max(0.0, limits.cool_c - warmest) / 10))


def _awake_days(brew: Brew, coldest_c: float) -> float:
    """Days of the steps that are not all below a temperature; one without a temperature counts."""
    minutes = 0.0
    for step in brew.recipe.ferment:
        ends = [end.range.high for end in (step.at, step.to) if end is not None]
        if step.time is not None and (not ends or max(ends) >= coldest_c):
            minutes += step.time.range.high
    return minutes / _DAY_MIN


_DAY_MIN = 1440.0  # by definition


def _points_early(brew: Brew, limits: Limits, at: float | None, end: Range | None) -> float:
    """Points that the beer is surely above its end; 0 within a reading of it."""
    if at is None or end is None:
        return 0.0
    surely = 1000 * (at - (end.typical if _end_is_said(brew) else end.high))
    return 1000 * (at - end.typical) if surely > limits.reading_points + 1e-6 else 0.0


def _end_is_said(brew: Brew) -> bool:
    """Whether the recipe or a brew day says where the beer ends."""
    days = brew.recipe.measured
    return brew.recipe.targets.fg is not None or any(day.measured.fg is not None for day in days)


def _early(brew: Brew, limits: Limits, at: Quantity, points: float) -> Iterator[Finding]:
    package = brew.recipe.package
    assert package is not None
    left = unfinished(brew)
    assert left.end is not None
    if _end_is_said(brew):
        end = said(left.end.typical, at.unit, Kind.GRAVITY)
        words = f"{at.text} at packaging is {number(points, 2)} points above the {end} at which this beer ends"
    else:
        end = said(left.end, at.unit, Kind.GRAVITY)
        words = f"{at.text} at packaging is above the {end} at which this grist, mash and yeast end"
    if not in_bottles(package):
        yield from _vented(brew, limits, at, words, points)
        return
    gas, given = _gas(brew)
    wanted = package.carbonation
    on_purpose = package.priming is None and wanted is not None and gas.typical <= wanted.range.high + ON_PURPOSE
    if on_purpose:
        message = f"{words}; is it meant to make its own gas, about {number(gas.typical, 2)} volumes"
        yield _finding(brew, Level.NOTE, message, at, left.end.typical, points / 10)
        return
    level, asked = _against_the_glass(brew, limits, gas)
    if level is None and gas.typical <= given.high + limits.distance_volumes:
        return
    if level is None:
        asked = f"{number(gas.typical, 2)} volumes in place of {number(given.typical, 2)}"
    message = f"{words}: about {asked}; wait for two equal gravities three days apart, and keep to the bottles' rating"
    yield _finding(brew, level or Level.WARNING, message, at, left.end.typical, points / 10)


def _vented(brew: Brew, limits: Limits, at: Quantity, words: str, points: float) -> Iterator[Finding]:
    """A keg or a cask, which can be vented, but holds no more than it was made for."""
    package = brew.recipe.package
    assert package is not None
    end = unfinished(brew).end
    assert end is not None
    held = stress_unrated(_gas(brew)[0], package.vessel, limits.keg_pressure_bar, limits.cask_volumes)
    if held is not None and above(held.value, held.limit) is not None:
        takes = f"many kegs and lines take {held.rating}" if held.in_bar else f"a cask seldom holds {held.rating}"
        message = f"{words}: about {held.held}, where {takes}; vent it and let it finish, and keep to the lowest rating"
        yield _finding(brew, Level.WARNING, message, at, end.typical, points / 10)
    elif points > limits.keg_points:
        message = f"{words}; a {package.vessel or 'package'} has to be vented, or the beer left to finish"
        yield _finding(brew, Level.NOTE, message, at, end.typical, points / 10)


def _gas(brew: Brew) -> tuple[Range, Range]:
    """All the gas that a bottle will hold, and what it is meant to hold, volumes."""
    try:
        return gas_in_bottle(brew), carbonation(brew).range
    except Unknown:
        held, left = residual_co2(brew), unfinished_co2(brew)
        return held.range + left.range, held.range


def _against_the_glass(brew: Brew, limits: Limits, gas: Range) -> tuple[Level | None, str]:
    """How bad so much gas is, and how it reads beside what the bottles take."""
    package = brew.recipe.package
    assert package is not None
    held = stress(gas, package)
    if held is not None:
        return above(held.value, held.limit, harm=True), f"{held.held} in bottles rated {held.rating}"
    if above(gas, limits.bottle_error_volumes, harm=True) is Level.ERROR:
        return Level.ERROR, f"{number(gas.typical, 2)} volumes, and ordinary bottles hold 3"
    most = limits.bottle_warning_volumes
    if above(gas, most, harm=True) is Level.ERROR:
        return Level.WARNING, f"{number(gas.typical, 2)} volumes, and ordinary bottles hold 3"
    return None, f"{number(gas.typical, 2)} volumes in the bottle"


def _creep(brew: Brew, limits: Limits, points: float) -> Iterator[Finding]:
    """Dry hops, at the unfavourable end only: never more than a warning."""
    package = brew.recipe.package
    assert package is not None
    gas, _ = _gas(brew)
    worst = Range.exact(gas.high)
    level, _ = _against_the_glass(brew, limits, worst)
    if level is None:
        return
    held = stress(worst, package)
    asked = f"{held.held} in bottles rated {held.rating}" if held else f"{number(gas.high, 2)} volumes"
    dry = [one for one in brew.recipe.hops if one.dry is not None and one.weight is not None]
    hop, first = dry[0], dry[0].weight
    assert first is not None
    kg = sum(one.weight.range.typical for one in dry if one.weight is not None)
    yield Finding(
        hop.path,
        Level.WARNING,
        f"{said(kg, first.unit, Kind.MASS)} of dry hops can restart the beer by up to {number(points, 2)} points in the"
        f" bottle, {asked};"
        " wait for two equal gravities three days apart after them, and keep to the bottles' rating",
        gap=round(points / 10, 4),
        evidence=(Evidence("carbonation at the worst", gas.high, "volumes"),),
        related=(("package",),),
    )


def _finding(brew: Brew, level: Level, message: str, at: Quantity, end: float, past: float) -> Finding:
    left = unfinished_co2(brew)
    return Finding(
        _PATH,
        level,
        message,
        gap=round(past, 4),
        evidence=(Evidence("gas from what is left", left.typical, "volumes", _PATH),),
        related=(("targets", "fg"),) if brew.recipe.targets.fg is not None else (),
        knobs=(stated_instead(_PATH, at, end, "package at"),),
    )


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
    "1.020 at packaging is 10 points above the 1.010 at which this beer ends: about 7.5 volumes in bottles rated 3.5"
    " volumes; wait for two equal gravities three days apart, and keep to the bottles' rating",
)
