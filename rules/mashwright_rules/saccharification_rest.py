"""Is there a rest in which starch turns to sugar, before heat ends the enzymes?

Malt starch opens up from about 60 °C (140 °F), and the enzymes that turn it into sugar are spent within minutes
near 80 °C (176 °F). Between lies every mash: 62-65 °C makes a dry beer, 66-68 °C the middle, 69-72 °C a full one
(144-149, 151-154 and 156-162 °F). A mash that stays
cooler leaves its starch in the grain, one that begins hotter makes starch paste with little sugar in it. Very low
alcohol is sometimes made so on purpose.

Computed: the stated rests against 60-75 °C; a rest counts only if enough enzyme has come through the hotter rests
before it. A warning where there is none, an error only if every rest is above 85 or below 57 °C. One level lower
where the recipe aims at very little alcohol or adds enzymes.

On the day: thermometer in the middle of the mash, stirred, and a drop of iodine on a saucer before the run-off
(lauter). Hot mash scalds: stir with a long paddle.

Sources: [rittenauer-2021] cool end, [chandrasekhar] 80 °C, [kjeldahl-1880] loss of enzymes, [kunze-1998]
[judgement]
"""

from collections.abc import Iterator
from math import exp

from mashwright.brewing.mash_rates import enzyme_loss_per_min
from mashwright.rule import (
    Brew,
    Evidence,
    Example,
    Finding,
    Level,
    Limit,
    PlannedRest,
    Range,
    Settings,
    above,
    below,
    conversion,
    degrees_in,
    follow,
    gap,
    grist_diastatic_power,
    number,
    rest_at,
    row,
)


class Limits(Settings):
    coolest_c = Limit(60, "°C", low=50, high=65, source="rittenauer-2021")
    hottest_c = Limit(75, "°C", low=68, high=82, source="kunze-1998")
    cold_c = Limit(57, "°C", low=45, high=62, source="rittenauer-2021")
    scalding_c = Limit(85, "°C", low=75, high=95, source="judgement")
    usual_min = Limit(60, "min", low=10, high=240, source="common-practice")
    enzyme_percent = Limit(10, "%", low=0, high=100, source="judgement")
    small_beer_percent = Limit(2, "% vol", low=0, high=5, source="judgement")


SOUND = """\
recipe: Eel Catcher's Lager
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.2 kg}
mash:
  rests:
    - {at: 62 °C, for: 40 min}
    - {at: 72 °C, for: 30 min}
"""

FAULTY = Example(
    """\
recipe: Eel Catcher's Lager
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.2 kg}
mash:
  rests:
    - {at: 54 °C, for: 60 min}
""",
    "error",
    8,
    12,
    "no rest reaches 60 °C: at 54 °C only about 23 % of the starch turns to sugar",
)


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    rests = brew.plan.known()
    if not brew.plan.stated or not rests or grist_diastatic_power(brew).typical <= 0:
        return
    spans = [_span(rest) for rest in rests]
    if any(_converts(brew, index, span, limits) for index, span in enumerate(spans)):
        return
    too_hot = [above(span, limits.hottest_c) is not None for span in spans]
    good = [not hot and below(span, limits.coolest_c) is None for hot, span in zip(too_hot, spans, strict=True)]
    if any(good):
        yield _spent(brew, good.index(True), limits)
        return
    index = _nearest(spans, limits)
    rest = rests[index]
    level = _level(spans, limits)
    message = _message(brew, index, level, hot=too_hot[index], limits=limits)
    if _meant(brew, limits):
        level = Level(max(Level.NOTE, level - 1))
    yield Finding(
        (*rest.path, "at") if rest.path is not None else ("mash",),
        level,
        message,
        gap=gap(spans[index], limits.hottest_c if too_hot[index] else limits.coolest_c),
        evidence=(_enzymes_after(brew, rest) if too_hot[index] else row(conversion(brew), rest.path),),
        knobs=(rest_at(brew, rest, 66, 63 if too_hot[index] else 69, limits.usual_min),),
    )


def _span(rest: PlannedRest) -> Range:
    """From the coolest to the hottest that a rest may be, through all of its rise or fall."""
    ends = [rest.at_c, rest.to_c if rest.to_c is not None else rest.at_c]
    low, high = min(one.low for one in ends), max(one.high for one in ends)
    return Range(low, (low + high) / 2 if rest.to_c is not None else rest.at_c.typical, high)


def _converts(brew: Brew, index: int, span: Range, limits: Limits) -> bool:
    """Whether a rest lies where starch turns to sugar, with enzyme left to do it."""
    if below(Range.exact(span.high), limits.coolest_c) or above(Range.exact(span.low), limits.hottest_c):
        return False
    if index == 0:
        return True
    left = 100 * follow(brew).best.rests[index - 1].enzyme_left
    return left >= limits.enzyme_percent


def _nearest(spans: list[Range], limits: Limits) -> int:
    middle = (limits.coolest_c + limits.hottest_c) / 2
    return min(range(len(spans)), key=lambda index: abs(spans[index].typical - middle))


def _level(spans: list[Range], limits: Limits) -> Level:
    hopeless = all(
        above(Range.exact(span.low), limits.scalding_c) or below(Range.exact(span.high), limits.cold_c)
        for span in spans
    )
    return Level.ERROR if hopeless else Level.WARNING


def _meant(brew: Brew, limits: Limits) -> bool:
    """Whether the recipe aims at very little alcohol, or adds enzymes that may stand more heat."""
    abv, mash = brew.recipe.targets.abv, brew.recipe.mash
    small = abv is not None and above(abv.range, limits.small_beer_percent) is None
    return small or (mash is not None and bool(mash.enzymes))


def _message(brew: Brew, index: int, level: Level, *, hot: bool, limits: Limits) -> str:
    rest = brew.plan.rests[index]
    at = degrees_in(brew, rest.hottest_c)
    converted = number(conversion(brew).typical, 2)
    if hot:
        band = degrees_in(brew, Range(62, 65, 70))  # common practice; [mashing-encyclopaedia] has 62-67 and 71-72
        if level is Level.ERROR:
            return f"at {at} heat ends the enzymes at once; beer is mashed at {band}"
        return (
            f"at {at} the enzymes last minutes and the wort ferments poorly; beer is mashed at {band},"
            " or is very low alcohol meant?"
        )
    bound = degrees_in(brew, limits.coolest_c)
    return f"no rest reaches {bound}: at {at} only about {converted} % of the starch turns to sugar"


def _enzymes_after(brew: Brew, rest: PlannedRest, minutes: float = 10) -> Evidence:
    left = 100 * exp(-enzyme_loss_per_min(rest.hottest_c) * minutes)
    label = f"Enzymes left after {minutes:g} min at {degrees_in(brew, rest.hottest_c)}"
    return Evidence(label, left, "%", rest.path)


def _spent(brew: Brew, index: int, limits: Limits) -> Finding:
    """A good rest that comes when a hotter one has used up the enzymes."""
    rests = brew.plan.rests
    hot = max(range(index), key=lambda one: rests[one].hottest_c)
    left = 100 * follow(brew).best.rests[index - 1].enzyme_left
    share = f"{number(left, 1)} %" if left >= 1 else "less than 1 %"
    before, at = degrees_in(brew, rests[hot].hottest_c), degrees_in(brew, rests[index].hottest_c)
    path = rests[hot].path
    return Finding(
        (*path, "at") if path is not None else ("mash",),
        Level.NOTE if _meant(brew, limits) else Level.WARNING,
        f"the rest at {before} leaves {share} of the enzymes for the one at {at}, and they do not come back",
        gap=1.0,
        evidence=(Evidence("Enzymes left before that rest, at best", left, "%", rests[index].path),),
    )
