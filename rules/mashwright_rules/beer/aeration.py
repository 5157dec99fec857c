"""Does the yeast get the oxygen that this wort needs?

Fresh yeast builds its cell walls with oxygen before it ferments. With too little it stops early and leaves the beer
sweet. Shaking, splashing or an air stone dissolve about 8 mg/l of oxygen at most, less in strong and in warm wort;
beyond that it takes pure oxygen. Dry yeast is grown with its reserves and hardly needs any.

What is checked: `aeration`, where the recipe states it; the strength is the stated OG, else that of the grist.

- note: no oxygen, or less than 6 mg/l, for yeast that is not dry; a warning
  from OG 1.075 on
- note: a wort from OG 1.075 on that gets less than 10 mg/l, or air once
- warning: more than 10 mg/l by air, which dissolves no more than 8 mg/l
- skipped: what is too little, for dry yeast or where it is given `times`
- note: more than 20 mg/l at once; a warning above 40 mg/l

On the day: cool the wort first, then aerate it, and never after the first day: later oxygen makes the beer stale. A
strong wort may get a second dose 12 to 18 h after pitching, and yeast nutrient. Pure oxygen feeds fire: no flame, no
spark, no grease on the valve; the cylinder's own rules and local code come before anything here.

Sources: [common-practice] [from-memory] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number
from mashwright.figures.beer import DRY_UP_TO_G_PER_L, dry_g_per_l, wort_strength
from mashwright.ingredients.kinds import Oxygen
from mashwright.knobs import another_text, stated_instead
from mashwright.measures import Kind, Range
from mashwright.recipe.model import Aeration
from mashwright.rule import Example, Finding, Level, Limit, Settings, Unknown, above, below, gap, say


class Limits(Settings):
    """What is compared with."""

    strong_wort_points = Limit(75, "points", low=50, high=120, source="common-practice")
    least_mg_per_l = Limit(6, "mg/l", low=2, high=10, source="common-practice")
    strong_mg_per_l = Limit(10, "mg/l", low=6, high=20, source="common-practice")
    of_air_mg_per_l = Limit(10, "mg/l", low=7, high=12, source="from-memory")
    much_mg_per_l = Limit(20, "mg/l", low=12, high=40, source="from-memory")
    too_much_mg_per_l = Limit(40, "mg/l", low=20, high=100, source="judgement")


SAYS = {
    "no-oxygen": "without oxygen the yeast could be slow to start; aerate the cooled wort before pitching",
    "no-oxygen-strong": "without oxygen the yeast may stop early in a wort of {strength}; give it at least"
    " {least} mg/l",
    "little": "{oxygen} of oxygen is little for fresh yeast; most worts need at least {least} mg/l",
    "little-strong": "{oxygen} of oxygen could be too little for a wort of {strength}; at least {least} mg/l is usual",
    "air-alone": "air gives at most about 8 mg/l of oxygen, which could be too little for a wort of {strength}; use"
    " pure oxygen, or aerate again within 18 h",
    "not-by-air": "air may not dissolve {oxygen} of oxygen; about 8 mg/l is the most",
    "much": "{oxygen} of oxygen is more than yeast needs; it could make the beer stale",
    "too-much": "{oxygen} of oxygen may harm the yeast; at most {most} mg/l is usual",
}


ASKS_ABOUT = ("aeration", "worts")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    aeration = brew.recipe.aeration
    if not aeration.known:
        return
    strength, text = _strength(brew)
    strong = strength is not None and strength >= limits.strong_wort_points
    if aeration.oxygen.known:
        yield from _stated(brew, aeration, limits, text if strong else "")
    elif aeration.by == Oxygen.NONE and not _dry(brew):
        message = say("no-oxygen")
        if strong:
            message = say("no-oxygen-strong", strength=text, least=number(limits.strong_mg_per_l, 3))
        yield Finding(aeration.by.path, Level.WARNING if strong else Level.NOTE, message, gap=1.0)
    elif aeration.by == Oxygen.AIR and strong and not _dry(brew) and not _again(aeration):
        yield Finding(aeration.by.path, Level.NOTE, say("air-alone", strength=text))


def _strength(brew: Brew) -> tuple[float | None, str]:
    """Points of the wort, and how they read; None where nothing says it."""
    try:
        strength, text = wort_strength(brew)
    except Unknown as why:
        brew.refused(why)
        return None, ""
    return 1000 * (strength.typical - 1), text


def _dry(brew: Brew) -> bool:
    """Whether all of the yeast is dry, by its weight."""
    pitches = [yeast.pitch for yeast in brew.recipe.yeast]
    if not pitches or any(not pitch.known or pitch.kind not in (Kind.MASS, Kind.DOSE) for pitch in pitches):
        return False
    try:
        return all(dry_g_per_l(brew, pitch).typical <= DRY_UP_TO_G_PER_L for pitch in pitches if pitch.known)
    except Unknown:
        return False


def _again(aeration: Aeration) -> bool:
    return aeration.times.known and aeration.times.range.typical > 1


def _stated(brew: Brew, aeration: Aeration, limits: Limits, strong: str) -> Iterator[Finding]:
    oxygen = aeration.oxygen.need("the oxygen")
    value, least = oxygen.range, limits.least_mg_per_l
    if aeration.by == Oxygen.AIR and above(Range.exact(value.typical), limits.of_air_mg_per_l):
        yield Finding(
            oxygen.path,
            Level.WARNING,
            say("not-by-air", oxygen=oxygen),
            gap=gap(value, limits.of_air_mg_per_l),
            knobs=(another_text(aeration.by.path, "oxygen", "use pure oxygen instead of air"),),
        )
    elif above(value, limits.too_much_mg_per_l):
        message = say("too-much", oxygen=oxygen, most=number(limits.much_mg_per_l, 3))
        knobs = (stated_instead(oxygen.path, oxygen, limits.strong_mg_per_l, "set"),)
        yield Finding(oxygen.path, Level.WARNING, message, gap=gap(value, limits.too_much_mg_per_l), knobs=knobs)
    elif above(value, limits.much_mg_per_l):
        yield Finding(oxygen.path, Level.NOTE, say("much", oxygen=oxygen), gap=gap(value, limits.much_mg_per_l))
    elif _dry(brew) or _again(aeration):
        return
    elif below(value, least):
        level = Level.WARNING if strong else Level.NOTE
        yield Finding(oxygen.path, level, say("little", oxygen=oxygen, least=number(least, 3)), gap=gap(value, least))
    elif strong and below(value, limits.strong_mg_per_l):
        least = limits.strong_mg_per_l
        message = say("little-strong", oxygen=oxygen, strength=strong, least=number(least, 3))
        yield Finding(oxygen.path, Level.NOTE, message, gap=gap(value, least))


SOUND = """\
recipe: Breakwater Barley Wine
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 9 kg}
yeast: {kind: English ale, pitch: 2 packs, starter: 3 l}
aeration: {by: oxygen, oxygen: 12 mg/l, times: 2}
targets: {og: 1.095}
"""
FAULTY = Example(
    """\
recipe: Breakwater Barley Wine
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 9 kg}
yeast: {kind: English ale, pitch: 4 packs, starter: 3 l}
aeration: {by: none}
targets: {og: 1.095}
""",
    "warning",
    7,
    16,
    "without oxygen the yeast may stop early in a wort of 1.095; give it at least 10 mg/l",
)
