"""Is there a rest in which starch turns to sugar, before heat ends the enzymes?

Malt starch opens up from about 60 °C (140 °F), and the enzymes that turn it into sugar are spent within minutes
near 80 °C (176 °F). Between lies every mash: 62-65 °C makes a dry beer, 66-68 °C the middle, 69-72 °C a full one
(144-149, 151-154 and 156-162 °F). A mash that stays
cooler leaves its starch in the grain, one that begins hotter makes starch paste with little sugar in it. Very low
alcohol is sometimes made so on purpose.

Computed: the stated rests against 60-75 °C; a rest counts only if enough enzyme has come through the hotter rests
before it. A warning where there is none, a note where half a degree is missing, an error only if every rest is above
85 or below 57 °C. A rest above 75 °C that comes before a cooler one and turns a quarter of the starch itself is a
warning: what it makes hardly ferments, and the enzyme that would make it ferment is gone. So is a fall of more than 5
°C from one rest to the next, since a mash does not cool by itself; not where a rest falls `to` it, cold water is
added (an infusion), or one of the two lasts 4 h. One level lower where the recipe aims at very little alcohol or adds
enzymes; only a note where a mash below 30 °C, which is no more than an extract of malt, does so.

On the day: thermometer in the middle of the mash, stirred, and a drop of iodine on a saucer before the run-off
(lauter). Hot mash scalds: stir with a long paddle.

Sources: [rittenauer-2021] cool end, [chandrasekhar] 80 °C, [kjeldahl-1880] loss of enzymes, [kunze-1998]
[judgement]
"""

from collections.abc import Iterator
from itertools import pairwise
from math import exp

from mashwright.brew import Brew, PlannedRest, mash_enzymes, number
from mashwright.brew import degrees as degrees_in
from mashwright.brewing.mash_rates import enzyme_loss_per_min
from mashwright.figures.beer import apparent_attenuation
from mashwright.figures.grist import grist_diastatic_power
from mashwright.figures.mash import conversion, follow
from mashwright.ingredients.kinds import RestBy
from mashwright.knobs import NOTHING, Knob, one_change, rest_at
from mashwright.measures import Range
from mashwright.measures.bounds import CONVERTS_FROM_C, ENZYMES_END_C, STARCH_OPENS_C
from mashwright.rule import (
    Edit,
    Evidence,
    Example,
    Finding,
    Level,
    Limit,
    Say,
    Settings,
    Unknown,
    above,
    below,
    gap,
    row,
    say,
)


class Limits(Settings):
    coolest_c = Limit.at(CONVERTS_FROM_C)
    hottest_c = Limit.at(ENZYMES_END_C)
    edge_c = Limit(0.5, "°C", difference=True, low=0, high=3, source="judgement")  # as thermometers show it
    cold_c = Limit.at(STARCH_OPENS_C)
    extract_c = Limit(30, "°C", low=10, high=45, source="judgement")
    scalding_c = Limit(85, "°C", low=75, high=95, source="judgement")
    hot_share_percent = Limit(25, "%", low=5, high=90, source="judgement")
    fall_c = Limit(5, "°C", difference=True, low=2, high=20, source="judgement")
    cooled_min = Limit(240, "min", low=60, high=1440, source="judgement")
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


SAYS = {
    "ends-enzymes": "at {heat} heat ends the enzymes at once; beer is mashed at {band}",
    "too-hot": "at {heat} the enzymes last minutes and the wort ferments poorly; beer is mashed at {band}, or is"
    " very low alcohol meant?",
    "too-cold": "no rest reaches {least}: at {heat} only about {share} % of the starch turns to sugar",
    "far-too-cold": "no rest reaches {least}: at {heat} hardly any of the starch turns to sugar",
    "spent": "the rest at {hot} leaves {left} of the enzymes for the one at {heat}, and they do not come back",
    "hot-first": "the rest at {hot} leaves little of the enzyme that makes the wort ferment for the one at {heat};"
    " put it last or leave it out, or is a beer of little alcohol meant",
    "falls": "no mash cools from {hot} to {heat} by itself, and what heat has spent of the enzymes does not come"
    " back; rest from cool to hot, or say what cools it",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    rests = brew.plan.known()
    if not brew.plan.stated or not rests or grist_diastatic_power(brew).typical <= 0:
        return
    spans = [_span(rest) for rest in rests]
    if any(_converts(brew, index, span, limits) for index, span in enumerate(spans)):
        yield from _out_of_order(brew, limits)
        return
    too_hot = [bool(above(span, limits.hottest_c)) for span in spans]
    good = [not hot and not below(span, limits.coolest_c) for hot, span in zip(too_hot, spans, strict=True)]
    if any(good):
        yield _spent(brew, good.index(True), limits)
        return
    index = _nearest(spans, limits)
    rest = rests[index]
    level = _level(spans, limits)
    message = _message(brew, index, level, hot=too_hot[index], limits=limits)
    if _meant(brew, limits):
        # a cold extract of malt is one way to very little alcohol
        level = Level(max(Level.NOTE, level - 1)) if rest.hottest_c >= limits.extract_c else Level.NOTE
    yield Finding(
        (*rest.path, "at") if rest.path is not None else brew.recipe.mash.path,
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
    at_the_edge = any(
        -limits.edge_c <= span.high - limits.coolest_c < 0 or 0 < span.low - limits.hottest_c <= limits.edge_c
        for span in spans
    )
    return Level.ERROR if hopeless else Level.NOTE if at_the_edge else Level.WARNING


def _meant(brew: Brew, limits: Limits) -> bool:
    """Whether the recipe aims at very little alcohol, or adds enzymes that may stand more heat."""
    abv = brew.recipe.targets.abv
    small = abv.known and not above(abv.range, limits.small_beer_percent)
    return small or bool(mash_enzymes(brew.recipe))


def _message(brew: Brew, index: int, level: Level, *, hot: bool, limits: Limits) -> Say:
    rest = brew.plan.rests[index]
    at = degrees_in(brew, rest.hottest_c)
    percent = conversion(brew).typical
    if hot:
        band = degrees_in(brew, Range(62, 65, 70))  # common practice; [mashing-encyclopaedia] has 62-67 and 71-72
        return say("ends-enzymes" if level is Level.ERROR else "too-hot", heat=at, band=band)
    bound = degrees_in(brew, limits.coolest_c)
    return say("too-cold" if percent >= 0.5 else "far-too-cold", least=bound, heat=at, share=number(percent, 2))


def _enzymes_after(brew: Brew, rest: PlannedRest) -> Evidence:
    """What ten minutes of a rest leave."""
    left = 100 * exp(-enzyme_loss_per_min(rest.hottest_c) * 10)
    label = f"Enzymes left after 10 min at {degrees_in(brew, rest.hottest_c)}"
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
        (*path, "at") if path is not None else brew.recipe.mash.path,
        Level.NOTE if _meant(brew, limits) else Level.WARNING,
        say("spent", hot=before, left=share, heat=at),
        gap=1.0,
        evidence=(Evidence("Enzymes left before that rest, at best", left, "%", rests[index].path),),
    )


def _out_of_order(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """A hot rest before the ones that it takes the enzymes from, or a mash that is to cool by itself."""
    rests = brew.plan.rests
    if len(rests) < 2 or all(one.hottest_c <= two.at_c.typical for one, two in pairwise(rests)):
        return  # most mashes climb
    meant = _meant(brew, limits)
    hot = next((index for index in range(len(rests) - 1) if _hot_before_cooler(brew, index, limits)), None)
    if hot is not None:
        yield _hot_first(brew, hot, Level.NOTE if meant else Level.WARNING)
    elif (falls := [index for index in range(1, len(rests)) if _falls(brew, index, limits)]) != []:
        yield _falling(brew, falls[0], Level.NOTE if meant else Level.WARNING)


def _hot_before_cooler(brew: Brew, index: int, limits: Limits) -> bool:
    """Whether a rest above the enzymes' heat turns much of the starch, and a cooler one comes after it."""
    rests = brew.plan.rests
    if not above(Range.exact(rests[index].hottest_c), limits.hottest_c):
        return False
    cooler = any(rest.hottest_c <= limits.hottest_c for rest in rests[index + 1 :])
    before = sum(one.converted for one in follow(brew).typical.rests[:index])
    turned = follow(brew).typical.rests[index].converted
    return cooler and turned > before and bool(above(Range.exact(turned), limits.hot_share_percent))


def _hot_first(brew: Brew, index: int, level: Level) -> Finding:
    rests = brew.plan.rests
    rest, after = rests[index], min(rests[index + 1 :], key=lambda one: one.at_c.typical)
    at, later = degrees_in(brew, rest.hottest_c), degrees_in(brew, after.at_c.typical)
    left = 100 * follow(brew).typical.rests[index].enzyme_left
    turned = follow(brew).typical.rests[index].converted
    order = [one for one in range(len(rests)) if one != index]
    return Finding(
        (*rest.path, "at") if rest.path is not None else brew.recipe.mash.path,
        level,
        say("hot-first", hot=at, heat=later),
        gap=1.0,
        evidence=(
            Evidence(f"Starch that is turned to sugar at {at}", turned, "%", rest.path),
            Evidence("All enzymes left after it", left, "%", rest.path),
            *_attenuation(brew),
        ),
        knobs=(_in_order(brew, [*order, index], f"the rest at {at} last"),),
    )


def _attenuation(brew: Brew) -> tuple[Evidence, ...]:
    try:
        return (row(apparent_attenuation(brew)),)
    except Unknown:
        return ()


def _falls(brew: Brew, index: int, limits: Limits) -> bool:
    """Whether a rest is cooler than a mash gets by itself after the one before it, and nothing says what cools it."""
    before, rest = brew.plan.rests[index - 1 : index + 1]
    end = before.to_c if before.to_c is not None else before.at_c
    fall = Range.exact(end.low - rest.at_c.high)
    long = max(before.minutes.high, rest.minutes.high) >= limits.cooled_min
    return bool(above(fall, limits.fall_c)) and not long and not _watered(brew, rest)


def _watered(brew: Brew, rest: PlannedRest) -> bool:
    """Whether a rest is reached by water that is poured in."""
    mash = brew.recipe.mash
    written = next((one for one in (mash.rests if mash.known else ()) if one.path == rest.path), None)
    return written is not None and (written.by == RestBy.INFUSION or written.water.known)


def _falling(brew: Brew, index: int, level: Level) -> Finding:
    rests = brew.plan.rests
    before, rest = rests[index - 1], rests[index]
    end = before.to_c if before.to_c is not None else before.at_c
    unit = degrees_in(brew, rest.at_c.typical)
    order = sorted(range(len(rests)), key=lambda one: rests[one].at_c.typical)
    listed = ", ".join(degrees_in(brew, rests[one].at_c.typical) for one in order)
    return Finding(
        (*rest.path, "at") if rest.path is not None else brew.recipe.mash.path,
        level,
        say("falls", hot=degrees_in(brew, end.typical), heat=unit),
        gap=1.0,
        evidence=(
            Evidence(
                f"All enzymes left after the rest at {degrees_in(brew, before.hottest_c)}",
                100 * follow(brew).typical.rests[index - 1].enzyme_left,
                "%",
                before.path,
            ),
        ),
        related=(before.path,) if before.path is not None else (),
        knobs=(_in_order(brew, order, f"the rests from cool to hot: {listed}"),),
    )


def _in_order(brew: Brew, order: list[int], words: str) -> Knob:
    """The same rests in another order; only where each states no more than its heat and its length."""
    rests = brew.recipe.mash.rests if brew.recipe.mash.known else ()
    more = any(rest.by or rest.to or rest.water or rest.of or rest.pull or rest.boil for rest in rests)
    if len(rests) != len(order) or more or len({not rest.time.known for rest in rests}) > 1:
        return NOTHING
    edits: list[Edit] = []
    for place, moved in zip(rests, (rests[one] for one in order), strict=True):
        for key, was, now in (("at", place.at, moved.at), ("for", place.time, moved.time)):
            if was.known and now.known and was.text != now.text:
                edits.append(Edit((*place.path, key), now.text))
    return one_change(tuple(edits), words)
