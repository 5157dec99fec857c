"""Are the rests long enough for this much enzyme?

Starch has to swell and come free before enzymes reach it. Then the enzymes
need time: few of them take long, and a cool rest slows both. If the mash is
run off or heated to mash-out too early, starch stays in the wort.

What is checked: the time until 95 % of the starch that the rests can release
is sugar, worked out minute by minute. It is compared with the stated rests up
to the one that converts. If no mash-out stops the enzymes, 15 min of run-off
count too.

- error: even the best lots, crush and thickness leave more than 10 % of that
  starch
- warning: the usual mash is not done in the time
- note: the recipe does not state how long it rests
- note: 90 % is converted all the same. If the mash has less than half of the
  time that it needs, it stays a warning.
- skipped: a mash of 30 °Lintner would be done in the time. Then enzymes are
  short, not time: see enzyme-sufficiency.
- skipped: the converting rest is not between 57 and 75 °C (135 and 167 °F):
  see saccharification-rest
- skipped: enzymes for starch are added; or nothing in the mash has enzymes;
  or it is opaque sorghum beer, which keeps starch

On the day: mix a drop of mash and a drop of iodine on a white saucer. Black
or blue is starch: rest longer. Red-brown is not done. The iodine's own
yellow-brown is done.

Sources: [tgl-17756] times, [kjeldahl-1880] enzymes and heat, [lintner-1890]
release, [common-practice] run-off, [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, PlannedRest, number, told
from mashwright.brew import degrees as degrees_in
from mashwright.brewing.mash import TYPICAL, minutes_on_the_board
from mashwright.brewing.mash_rates import converting_power
from mashwright.figures.grist import grist_diastatic_power
from mashwright.figures.mash import conversion, conversion_time, follow
from mashwright.knobs import Knob, longer
from mashwright.measures import Range
from mashwright.measures.bounds import ENZYMES_END_C, STARCH_OPENS_C
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Say, Settings, above, below, gap, row, say


class Limits(Settings):
    run_off_min = Limit(15, "min", low=0, high=120, source="common-practice")
    hurried_percent = Limit(50, "%", low=0, high=100, source="judgement")
    nearly_percent = Limit(90, "%", low=50, high=100, source="judgement")
    ordinary_lintner = Limit(30, "°Lintner", low=10, high=100, source="diastatic-power-article")
    coldest_c = Limit.at(STARCH_OPENS_C)
    hottest_c = Limit.at(ENZYMES_END_C)


SOUND = """\
recipe: Sluice Keeper's Dunkel
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: light Munich malt, weight: 5 kg}
mash:
  rests:
    - {at: 68 °C, for: 75 min}
"""

FAULTY = Example(
    """\
recipe: Sluice Keeper's Dunkel
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: light Munich malt, weight: 5 kg}
mash:
  rests:
    - {at: 67 °C, for: 15 min}
    - {at: 76 °C, for: 10 min}
""",
    "warning",
    8,
    24,
    "this mash needs about 36 min at 67 °C to convert, but its rests give 15 min before the mash-out",
)


SAYS = {
    "not-in-hours": "this mash would not convert in 5 h at {heat}",
    "needs": "this mash needs about {time} min at {heat} to convert",
    "gives-to-mash-out": ", but its rests give {given} min before the mash-out",
    "gives-with-run-off": ", but its rests give {given} min and the run-off about {run_off} min",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    if grist_diastatic_power(brew).typical <= 0 or brew.adds("starch") or brew.is_opaque_beer:
        return
    rests = brew.plan.known()
    followed = follow(brew)
    mashed = followed.typical
    if mashed.converting_rest is None:
        return
    rest = rests[mashed.converting_rest]
    if below(rest.at_c, limits.coldest_c) or above(rest.at_c, limits.hottest_c):
        return
    mash_out = brew.plan.mash_out
    given_min = mashed.minutes_given + (0.0 if mash_out else limits.run_off_min)
    if mashed.minutes_needed is not None and mashed.minutes_needed <= given_min:
        return  # most mashes; the worst and the best of them need not be followed for that
    needed = conversion_time(brew)
    level = above(needed, given_min)
    if not level or _enzymes_are_at_fault(rest, given_min, limits):
        return
    converted_all_the_same = mashed.converted_of_releasable >= limits.nearly_percent
    hurried = bool(below(Range.exact(given_min), needed.typical * limits.hurried_percent / 100))
    if rest.minutes_path is None or (converted_all_the_same and not hurried):
        level = Level.NOTE
    elif followed.best.converted_of_releasable >= limits.nearly_percent:
        level = Level.WARNING
    yield Finding(
        rest.minutes_path or rest.path or brew.recipe.mash.path,
        level,
        _message(brew, rest, given_min, mashed.minutes_given, mash_out),
        gap=gap(needed, given_min) if given_min > 0 else 1.0,
        evidence=_rows(brew, rest),
        # with little enzyme a longer rest would only leave the question to others, and not mend it
        knobs=(_longer(brew, rest, mashed.minutes_given),)
        if level > Level.NOTE and not _few_enzymes(brew, limits)
        else (),
    )


def _rows(brew: Brew, rest: PlannedRest) -> tuple[Evidence, ...]:
    needed = conversion_time(brew)
    times = f"{number(needed.typical, 2)} min, {number(needed.low, 2)} min"
    return (
        row(grist_diastatic_power(brew)),
        row(conversion(brew)),
        Evidence("time to convert (usual, best case)", times, "", rest.path),
    )


def _longer(brew: Brew, rest: PlannedRest, rests_min: float) -> Knob:
    """The rest drawn out until the rests alone are as long as the mash needs."""
    needed_min = conversion_time(brew).typical
    return longer(rest, most_min=180, least_min=rest.minutes.typical + needed_min - rests_min)


def _few_enzymes(brew: Brew, limits: Limits) -> bool:
    return bool(below(grist_diastatic_power(brew), limits.ordinary_lintner))


def _enzymes_are_at_fault(rest: PlannedRest, given_min: float, limits: Limits) -> bool:
    """Whether the time would do for a mash with an ordinary amount of enzyme."""
    ordinary = minutes_on_the_board(rest.at_c.typical, converting_power(limits.ordinary_lintner), TYPICAL)
    return ordinary is not None and ordinary <= given_min


def _message(brew: Brew, rest: PlannedRest, given_min: float, rests_min: float, mash_out: bool) -> Say:
    needed = conversion_time(brew)
    at = degrees_in(brew, rest.at_c.typical)
    if needed.typical >= 300:
        wants = say("not-in-hours", heat=at)
    else:
        wants = say("needs", time=told(needed.typical, given_min), heat=at)
    given, run_off = number(rests_min, 3), number(given_min - rests_min, 3)
    if mash_out:
        return wants.and_then(say("gives-to-mash-out", given=given))
    return wants.and_then(say("gives-with-run-off", given=given, run_off=run_off))
