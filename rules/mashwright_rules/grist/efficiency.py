"""Is the stated efficiency believable?

Efficiency is the part of the grain's laboratory extract that arrives: in the
fermenter (brewhouse efficiency) or in the kettle (mash or kettle efficiency).
In the kettle it is several points more for the same brew. Whoever states one
and means the other gets the wrong gravity in every recipe. Nobody gets more
than the grain contains.

What is checked: the stated number against what brewers get. Into the fermenter
60 to 81 % is usual.

- error: above 100 %, which nobody can get; or 0 %
- warning: above 88 % into the fermenter, above 90 % in the kettle
- warning: below 40 %, or at most 1 % (a share without its percent?)
- note, not a warning: within 2 points of 88, 90 or 40 %, since so much
  differs from brew to brew
- note: below 60 %. A strong wort may lose 0.25 points more for each gravity
  point of the stated OG above 60.
- note only: below 40 %, where nothing is sparged or the wort is above 1.075
  (stated, or else worked out); the extract that stays in the grain bed
  explains anything from 40 % on
- skipped: too low an efficiency of a parti-gyle (a small beer, first or
  second runnings); its grist gives more than one beer

On the day: measure gravity and volume in the fermenter, cooled to 20 °C. Their
product against what the grain contains is the efficiency to write down. Three
brews give a better number than one.

Sources: [palmer-12] [troester-efficiency] [troester-brewhouse-efficiency]
[common-practice]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number, told
from mashwright.brewing.extract import usual_efficiency
from mashwright.brewing.gravity import points
from mashwright.figures.mash import efficiency_needed, og
from mashwright.ingredients.kinds import SpargeBy
from mashwright.knobs import Knob, another_text, stated_right
from mashwright.measures import Quantity
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Say, Settings, Unknown, above, below, gap, say
from mashwright.words.sentences import Measure


class Limits(Settings):
    """What is compared with."""

    highest_percent = Limit(88, "%", low=75, high=100, source="common-practice")
    highest_in_kettle_percent = Limit(90, "%", low=80, high=100, source="palmer-12")
    low_percent = Limit(60, "%", low=30, high=75, source="common-practice")
    strong_points = Limit(75, "points", low=50, high=150, source="judgement")
    lowest_percent = Limit(40, "%", low=10, high=60, source="common-practice")
    edge_percent = Limit(2, "%", low=0, high=10, source="judgement")  # from brew to brew


SAYS = {
    "more-than-all": "an efficiency of {efficiency} % is more than the grain contains; most brewers get 60 to 81 % of"
    " it into the"
    " fermenter",
    "too-high": "an efficiency of {efficiency} % into the fermenter is more than brewers get, at most {most} %; was it"
    " measured elsewhere?",
    "too-high-in-kettle": "an efficiency of {efficiency} % in the kettle is more than brewers get, at most {most} %;"
    " was it measured"
    " elsewhere?",
    "nothing": "with an efficiency of {efficiency} no extract reaches the wort",
    "a-share": "an efficiency of {efficiency} looks wrong; did you mean {meant}?",
    "low-unsparged": "an efficiency of {efficiency} % is below {least} %, even without a sparge",
    "low-and-strong": "an efficiency of {efficiency} % is below {least} %, even in a wort this strong",
    "thrown-away": "an efficiency of {efficiency} % is below {least} %; more than half of the extract stays in the"
    " grain",
    "low": "an efficiency of {efficiency} % is low; most brewers get at least {least} %",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    recipe = brew.recipe
    for key, stated, highest, too_high in (
        ("efficiency", recipe.efficiency, limits.highest_percent, "too-high"),
        ("mash-efficiency", recipe.mash_efficiency, limits.highest_in_kettle_percent, "too-high-in-kettle"),
    ):
        if not stated.known:
            continue
        judged = _judged(brew, limits, stated, highest, too_high)
        if judged is not None:
            level, limit, message = judged
            evidence = (Evidence("what brewers get into the fermenter", "60 to 81", "%"),)
            yield Finding((key,), level, message, gap(stated.range, limit), evidence, knobs=_knobs(brew, key, stated))


def _judged(
    brew: Brew, limits: Limits, stated: Quantity, highest: float, too_high: str
) -> tuple[Level, float, Say] | None:
    """How bad, past which limit, and what to say; None where it is believable."""
    value, lowest = stated.range, limits.lowest_percent
    if level := above(value, 100):
        return level, 100, say("more-than-all", efficiency=told(value.typical, 100))
    if above(value, highest):
        level = Level.WARNING if above(value, highest + limits.edge_percent) else Level.NOTE
        return level, highest, say(too_high, efficiency=told(value.typical, highest), most=number(highest))
    if value.typical <= 1:
        if value.typical <= 0:
            return Level.ERROR, 1, say("nothing", efficiency=stated)
        meant = Measure(f"{number(100 * value.typical, 3)} %", 100 * value.typical, "%")
        return Level.WARNING, 1, say("a-share", efficiency=stated, meant=meant)
    if brew.intent.parti_gyle:
        return None
    if (why := _stays_in_the_goods(brew, limits)) != "":
        if not below(value, lowest):
            return None
        return Level.NOTE, lowest, say(why, efficiency=told(value.typical, lowest), least=number(lowest))
    if below(value, lowest):
        little = say("thrown-away", efficiency=told(value.typical, lowest), least=number(lowest))
        level = Level.WARNING if below(value, lowest - limits.edge_percent) else Level.NOTE
        return level, lowest, little
    start = brew.recipe.targets.og
    low = limits.low_percent - (60 - usual_efficiency(points(start.range.typical)).low if start.known else 0)
    if below(value, low):
        return Level.NOTE, low, say("low", efficiency=told(value.typical, low), least=number(low, 2))
    return None


def _stays_in_the_goods(brew: Brew, limits: Limits) -> str:
    """What to say where much of the extract is left in the grain and meant to be: no sparge, or a strong wort."""
    sparge, stated = brew.recipe.sparge, brew.recipe.targets.og
    if sparge.known and sparge.by == SpargeBy.NONE:
        return "low-unsparged"
    try:
        strength = stated.range if stated.known else og(brew).range
    except Unknown:
        return ""
    return "low-and-strong" if points(strength.typical) > limits.strong_points else ""


def _knobs(brew: Brew, key: str, stated: Quantity) -> tuple[Knob, ...]:
    typical = stated.range.typical
    if 0.3 <= typical <= 1:
        text = f"{number(100 * typical, 3)} %"
        return (another_text((key,), text, f"use {text} instead of {stated.text}"),)
    try:
        needed = efficiency_needed(brew).typical
    except Unknown:
        return ()
    return (stated_right((key,), stated, float(round(needed)), "efficiency"),) if 60 <= needed <= 81 else ()


SOUND = """\
recipe: Harbour Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
efficiency: 72 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
"""
FAULTY = Example(
    """\
recipe: Harbour Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
efficiency: 94 %
grist:
  - {grain: two-row pale malt, weight: 4.3 kg}
""",
    "warning",
    4,
    13,
    "an efficiency of 94 % into the fermenter is more than brewers get, at most 88 %; was it measured elsewhere?",
)
