"""Does starch turn to sugar in some rest before heat destroys the enzymes?

Malt starch opens from about 60 °C (140 °F). The enzymes that turn it into
sugar are gone within minutes near 80 °C (176 °F). A mash that stays cooler
leaves its starch in the grain. One that begins hotter makes starch paste with
little sugar in it.

  62-65 °C   144-149 °F   a dry beer
  66-68 °C   151-154 °F   the middle
  69-72 °C   156-162 °F   a full beer

What is checked: whether a stated rest touches 60-75 °C (140-167 °F) with
enzyme left. After other rests, at least 10 % must be left in the best case.

- error: every rest is above 85 °C (185 °F) or below 57 °C (135 °F)
- warning: no rest touches the band
- note: no rest touches it, but one misses it by at most 0.5 °C
- warning: a hotter rest before the good one leaves too little enzyme for it

If a rest does convert, the order of the rests is checked:

- warning: a rest above 75 °C (167 °F) comes before a cooler one. It turns
  over 25 % of the starch to sugar, more than all rests before it do. That
  sugar hardly ferments: the enzyme for sugar that ferments is gone.
- warning: the next rest is over 5 °C (9 °F) cooler: no mash cools by itself
- skipped: the rest before falls `to` that temperature; cold water is added
  (an infusion); or one of the two lasts at least 4 h
- one level milder, but still a note: the recipe adds enzymes; or it states at
  most 2 % vol of alcohol, and this is one way to make so little
- then only a note: a mash below 30 °C (86 °F), which only extracts the malt
- skipped: no rest is stated; or nothing in the mash converts starch: see
  enzyme-sufficiency

On the day: keep the thermometer in the middle of the mash, and stir. Before
run-off test a drop with iodine on a saucer. Hot mash scalds: use a long
paddle.

Sources: [rittenauer-2021] cool end, [chandrasekhar] 80 °C, [kjeldahl-1880]
loss of enzymes, [kunze-1998] [judgement]
"""

from collections.abc import Iterator
from math import exp

from mashwright.brew import Brew, PlannedRest, number
from mashwright.brew import degrees as degrees_in
from mashwright.brewing.mash_rates import enzyme_loss_per_min
from mashwright.figures.grist import grist_diastatic_power
from mashwright.figures.mash import conversion, follow
from mashwright.knobs import rest_at
from mashwright.measures import Range
from mashwright.rule import Evidence, Example, Finding, Level, Say, above, below, gap, row, say
from mashwright_rules.mash.saccharification_rest._aim import is_meant
from mashwright_rules.mash.saccharification_rest._limits import Limits
from mashwright_rules.mash.saccharification_rest._order import out_of_order, place_of, spent

SAYS = {
    "ends-enzymes": "at {heat} the heat destroys the enzymes at once; beer is mashed at {band}",
    "too-hot": "at {heat} the enzymes last minutes and the wort ferments poorly; beer is mashed at {band}; or is very"
    " low"
    " alcohol the aim?",
    "too-cold": "no rest reaches {least}: at {heat} only about {share} % of the starch turns to sugar",
    "far-too-cold": "no rest reaches {least}: at {heat} hardly any of the starch turns to sugar",
    "spent": "the rest at {hot} leaves {left} of the enzymes for the rest at {heat}; enzymes lost to heat do not come"
    " back",
    "spent-nearly-all": "the rest at {hot} leaves less than 1 % of the enzymes for the rest at {heat}; enzymes lost to"
    " heat do not come back",
    "hot-first": "the rest at {hot} leaves little of the enzyme that makes the wort ferment for the rest at {heat};"
    " put the"
    " hot rest last or leave it out; or is very low alcohol the aim?",
    "falls": "no mash cools from {hot} to {heat} by itself, and enzymes lost to heat do not come back; rest from cool"
    " to"
    " hot, or state what cools it",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    rests = brew.plan.known()
    if not brew.plan.stated or not rests or grist_diastatic_power(brew).typical <= 0:
        return
    spans = [_span(rest) for rest in rests]
    if any(_converts(brew, index, span, limits) for index, span in enumerate(spans)):
        yield from out_of_order(brew, limits)
        return
    too_hot = [bool(above(span, limits.hottest_c)) for span in spans]
    good = [not hot and not below(span, limits.coolest_c) for hot, span in zip(too_hot, spans, strict=True)]
    if any(good):
        yield spent(brew, good.index(True), limits)
        return
    index = _nearest(spans, limits)
    rest = rests[index]
    level = _level(spans, limits)
    message = _message(brew, index, level, hot=too_hot[index], limits=limits)
    if is_meant(brew, limits):
        # a cold extract of malt is one way to very little alcohol
        level = Level(max(Level.NOTE, level - 1)) if rest.hottest_c >= limits.extract_c else Level.NOTE
    yield Finding(
        place_of(brew, rest.path),
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
    label = f"enzymes left after 10 min at {degrees_in(brew, rest.hottest_c)}"
    return Evidence(label, left, "%", rest.path)


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
