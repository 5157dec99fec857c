"""Does this yeast ferment at this temperature?

Too warm, yeast makes fusel alcohols and esters that no time mends. Too cold, it
settles with the work half done. A lager yeast at 22 °C and an ale yeast at 10
°C make another beer than the recipe means, or none.

What is checked: the step in which the beer ferments first, against the range of
the yeast's kind. Later steps are checked only on the warm side: beer may rise
at the end, and is laid down cold afterwards. A misspelt kind counts as the one
that it is a slip of. Of several yeasts the widest range counts.

- warning: more than 6 °C above the range, or 4 °C below it
- note: more than 2 °C outside the range
- a later step may be 6 °C warmer than the first, at each level
- warning: above 35 °C for any yeast but kveik, known or not; up to 0.7 °C
  above that it is a note, since thermometers differ
- a step that rises (`at`, `to`) is cold only if the middle of its rise is
- wort at pitching (`at` of the yeast), warning: above 35 °C and above the
  yeast's range; up to 0.7 °C above these it is a note
- wort at pitching, note: more than 6 °C above the yeast's range
- skipped: a note on the cold side in old recipes (with a source, before 1940
  or called old without a year), since they tell the heat at pitching
- skipped: a souring culture of which no range is known; what no yeast lives
  in, and Fahrenheit read as Celsius (see unit-slip)

Nothing here is an error: the ranges are those of whole kinds, and a strain's
own packet knows better.

On the day: measure in the beer, not in the room; fermenting beer is 2 to 5 °C
warmer than the air around it. Cool the wort first: yeast that dies in hot wort
leaves it to whatever grows in it.

Sources: [yeast-supplier-pages] [ale-lager-temp] [kveik-mbaa] [common-practice]
[judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, sours
from mashwright.brew import kinds as yeast_kinds
from mashwright.knobs import one_change
from mashwright.measures import Kind, Range, from_canonical, said
from mashwright.measures.bounds import OLD_BEFORE
from mashwright.recipe.stated import NOWHERE, Said, Stated
from mashwright.rule import Edit, Evidence, Example, Finding, Level, Limit, Settings, say
from mashwright.words.plurals import with_noun


class Limits(Settings):
    """What is compared with."""

    slack_c = Limit(2.0, "°C", difference=True, low=0, high=10, source="judgement")
    warm_c = Limit(6.0, "°C", difference=True, low=1, high=15, source="judgement")
    cold_c = Limit(4.0, "°C", difference=True, low=1, high=15, source="judgement")
    later_c = Limit(6.0, "°C", difference=True, low=0, high=15, source="judgement")
    old_before = Limit.at(OLD_BEFORE)
    edge_c = Limit(0.7, "°C", difference=True, low=0, high=5, source="judgement")  # thermometer and beer
    hottest_c = Limit(35.0, "°C", low=25, high=45, source="common-practice")


SAYS = {
    "hotter-than-yeast": "{temperature} is hotter than the {most} that brewing yeast (except kveik) tolerates",
    "kills": "{temperature} may kill {yeast}, which tolerates at most {most}; cool the wort before the yeast goes in",
    "warm-to-pitch": "{temperature} could be too warm to pitch {yeast}, which ferments at most at {most}",
    "warm": "{temperature} is warm for {yeast}, which ferments at {usual}",
    "cold": "{temperature} is cold for {yeast}, which ferments at {usual}",
    "cold-and-rising": "{temperature} rising to {end} is cold for {yeast}, which ferments at {usual}",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from _pitched_hot(brew, limits)
    kinds = [(one.kind, known) for one, known in zip(brew.recipe.yeast, yeast_kinds(brew), strict=True)]
    ranges = [known.temperature_c for _, known in kinds if known is not None]
    sour = any(known is None and sours(kind) for kind, known in kinds)
    all_known = bool(kinds) and len(ranges) == len(kinds)
    names = " and ".join(kind for kind, _ in kinds if kind)
    for number, (stated, rises_to) in enumerate(_stated(brew)):
        at_c = stated.range.typical
        if not brew.bounds.frozen_c <= at_c <= brew.bounds.dead_yeast_c:
            continue  # a unit has slipped
        if all_known:
            low, high = min(one.low for one in ranges), max(one.high for one in ranges)
            found = _outside(stated, rises_to, Range(low, low, high), names, limits, later=number > 0)
            if found is not None:
                if not (found.level is Level.NOTE and at_c < low and brew.intent.old(limits.old_before)):
                    yield found
                return
        elif at_c > limits.hottest_c and not sour:
            most = said(limits.hottest_c, stated.unit, Kind.TEMPERATURE)
            message = say("hotter-than-yeast", temperature=stated, most=most)
            level = Level.WARNING if at_c > limits.hottest_c + limits.edge_c else Level.NOTE
            yield Finding(stated.path, level, message, gap=round((at_c - limits.hottest_c) / 10, 4))
            return


def _pitched_hot(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Wort that is too hot for the yeast when it is pitched."""
    for yeast, known in zip(brew.recipe.yeast, yeast_kinds(brew), strict=True):
        if not yeast.at.known or yeast.at.range.typical > brew.bounds.dead_yeast_c:
            continue
        at_c, most = yeast.at.range.typical, limits.hottest_c
        if known is not None:
            most = max(most, known.temperature_c.high)
        elif sours(yeast.kind):
            continue
        path = yeast.at.path
        who = with_noun(yeast.kind, "yeast") if yeast.kind else "the yeast"
        usual = known.temperature_c if known is not None else _USUAL_C
        text = said((usual.low + usual.high) / 2, yeast.at.unit, Kind.TEMPERATURE)
        knobs = (one_change((Edit(path, text),), f"pitch at {text} instead of {yeast.at.text}"),)
        if at_c > most:
            high = said(most, yeast.at.unit, Kind.TEMPERATURE)
            message = say("kills", temperature=yeast.at, yeast=who, most=high)
            level = Level.WARNING if at_c > most + limits.edge_c else Level.NOTE
            yield Finding(path, level, message, gap=round((at_c - most) / 10, 4), knobs=knobs)
        elif known is not None and at_c > known.temperature_c.high + limits.warm_c:
            high = said(known.temperature_c.high, yeast.at.unit, Kind.TEMPERATURE)
            message = say("warm-to-pitch", temperature=yeast.at, yeast=who, most=high)
            yield Finding(path, Level.NOTE, message, gap=round((at_c - known.temperature_c.high) / 10, 4), knobs=knobs)


_USUAL_C = Range(16.0, 20.0, 24.0)  # for a yeast of which nothing is known; common practice


def _stated(brew: Brew) -> Iterator[tuple[Said, Stated]]:
    """Temperatures in the order in which the beer comes to them, each with the warmer one that it rises to."""
    for step in brew.recipe.ferment:
        rises = step.at.known and step.to.known and step.to.range.typical > step.at.range.typical
        for stated, rises_to in ((step.at, step.to if rises else NOWHERE), (step.to, NOWHERE)):
            if stated.known:
                yield stated, rises_to


def _outside(
    stated: Said, rises_to: Stated, usual_c: Range, names: str, limits: Limits, *, later: bool
) -> Finding | None:
    at_c, low, high = stated.range.typical, usual_c.low, usual_c.high
    middle_c = (at_c + rises_to.range.typical) / 2 if rises_to.known else at_c
    above, below = at_c - high - (limits.later_c if later else 0.0), 0.0 if later else low - middle_c
    if above <= limits.slack_c and below <= limits.slack_c and (at_c <= limits.hottest_c or high > limits.hottest_c):
        return None
    warm = above > 0 or at_c > limits.hottest_c
    sure = above > limits.warm_c or below > limits.cold_c or (at_c - limits.edge_c > limits.hottest_c >= high)
    usual = f"{said(low, stated.unit, Kind.TEMPERATURE).split(' ')[0]} to {said(high, stated.unit, Kind.TEMPERATURE)}"
    middle = round(from_canonical((low + high) / 2, stated.unit, Kind.TEMPERATURE))  # the edge suits no beer
    near = f"{middle} {stated.unit}"
    sentence = "warm" if warm else "cold-and-rising" if rises_to.known else "cold"
    return Finding(
        stated.path,
        Level.WARNING if sure else Level.NOTE,
        say(sentence, temperature=stated, end=rises_to, yeast=with_noun(names, "yeast"), usual=usual),
        gap=round(max(above, below, 0.1) / 10, 4),
        evidence=tuple(
            Evidence(label, round(from_canonical(end_c, stated.unit, Kind.TEMPERATURE)), stated.unit)
            for label, end_c in (("usual from", low), ("usual to", high))
        ),
        related=((*stated.path[:-3], "yeast"),),
        knobs=(one_change((Edit(stated.path, near),), f"use {near} instead of {stated.text}"),),
    )


SOUND = """\
recipe: Lock House Lager
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.4 kg}
yeast: {kind: Bavarian lager}
ferment: [{at: 10 °C, for: 12 d}, {at: 16 °C, for: 2 d}, {at: 1 °C, for: 5 weeks}]
"""
FAULTY = Example(
    """\
recipe: Lock House Lager
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.4 kg}
yeast: {kind: Bavarian lager}
ferment: [{at: 24 °C, for: 12 d}]
""",
    "warning",
    7,
    16,
    "24 °C is warm for Bavarian lager yeast, which ferments at 7 to 15 °C",
)
