"""Is there enough enzyme in the mash to turn its starch into sugar?

Only gently kilned malt keeps the enzymes that split starch. Caramel (crystal)
and roasted malt have none; raw and flaked grain never had any. The rest of the
grist must convert them. With too little enzyme, starch stays in the wort: the
gravity is low, and the beer is thin, hazy and keeps badly.

What is checked: diastatic power of the mash in °Lintner, averaged by weight. A
malt converts itself from about 30; a grist of 40 does so without waiting.

- error: below 20 even with the best lots
- warning: below 30
- note: below 40, where the rests convert less than 90 % of the starch
- one level milder: enzymes for starch are added; or the rests between 57 and
  75 °C last 90 min and the mash converts 90 %; or at least 85 % of a grist
  below 30 is malt that converts itself (a standard has Munich malt of 27)
- still a warning: an average below 20, however long the rests
- note only: opaque beer, a cooked porridge that malt of sorghum, millet or
  maize converts alone; its starch is to stay
- also asked: did the dark malt of an old recipe (one with a `source:`) have
  enzymes that could carry the mash? State its `diastatic-power` then. Today's
  has none; malt from old kilns often had.
- skipped: no enzymes at all (see no-base-malt)

On the day: mix a drop of mash and a drop of iodine on a white saucer. Black or
blue is starch: rest longer, and test every 10 min. Red-brown is not done: long
dextrins are left. The iodine's own yellow-brown is done.

Sources: [diastatic-power-article] 30 and 70, [tgl-17756] 27, [degree-lintner]
40, [oxford-lintner] 35, [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, Part, number, told
from mashwright.figures.grist import grist_diastatic_power
from mashwright.figures.mash import conversion
from mashwright.ingredients.kinds import IngredientKind
from mashwright.measures import Range
from mashwright.rule import Evidence, Example, Finding, Level, Say, below, gap, say
from mashwright_rules.grist.enzyme_sufficiency._changes import changes, converting_rests
from mashwright_rules.grist.enzyme_sufficiency._limits import Limits

SAYS = {
    "added-enzymes": "the mash averages {power} °Lintner; below {limit} °Lintner it depends on the added enzymes",
    "opaque": "the mash averages {power} °Lintner; below {limit} °Lintner the"
    " beer stays opaque with starch, as sorghum beer should",
    "hopeless": "the mash averages {power} °Lintner, {best} °Lintner at best; below"
    " {limit} °Lintner its starch does not convert",
    "slow": "the mash averages {power} °Lintner; below {limit} °Lintner it converts slowly and may not finish",
    "slow-at-best": "the mash averages {power} °Lintner, {best} °Lintner at best; below {limit} °Lintner it converts"
    " slowly and may not finish",
    "try-iodine": "the mash averages {power} °Lintner; below {limit} °Lintner"
    " conversion is slow, so test with iodine before run-off",
    "long-rest": "the mash averages {power} °Lintner; below {limit} °Lintner it needs a long rest; test with iodine",
    "old-malt": "if the {malt} had enzymes, state its diastatic-power",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    parts = brew.mashed()
    power = grist_diastatic_power(brew)
    if power.typical <= 0:
        return
    level, limit = _level(brew, limits)
    if level is None:
        return
    if brew.is_opaque_beer:
        level = Level.NOTE
    relief = _relief(brew, level, limits)
    level = Level(level - 1) if relief and level > Level.NOTE else None if relief else level
    if level is None:
        return
    yield Finding(
        brew.recipe.grist.path,
        level,
        _message(brew, limits, level, limit),
        gap=gap(power, limit),
        evidence=tuple(_row(brew, part) for part in parts),
        knobs=changes(brew, limits) if level > Level.NOTE else (),
    )


def _level(brew: Brew, limits: Limits) -> tuple[Level | None, float]:
    power = grist_diastatic_power(brew)
    if below(power, limits.hopeless_lintner) is Level.ERROR:
        return Level.ERROR, limits.hopeless_lintner
    if below(power, limits.floor_lintner):
        return Level.WARNING, limits.floor_lintner
    easy = not below(power, limits.comfortable_lintner) or not below(conversion(brew), limits.converted_percent)
    return (None if easy else Level.NOTE), limits.comfortable_lintner


def _relief(brew: Brew, level: Level, limits: Limits) -> bool:
    """Whether something in the recipe makes up for little enzyme."""
    long_enough = sum(rest.minutes.typical for rest in converting_rests(brew, limits)) >= limits.long_rest_min
    converts = long_enough and below(conversion(brew), limits.converted_percent) in (None, Level.NOTE)
    hopeless = bool(below(Range.exact(grist_diastatic_power(brew).typical), limits.hopeless_lintner))
    if hopeless and level is not Level.ERROR:
        converts = False  # no rest is long enough for less than that to go without a word
    return converts or brew.adds("starch") or _converts_itself(brew, limits)


def _converts_itself(brew: Brew, limits: Limits) -> bool:
    """A grist of weak base malts alone is slow and nothing worse; it was brewed at 27 °Lintner."""
    parts = brew.mashed()
    carrying = sum(part.amount for part in parts if brew.power_of(part).typical >= limits.malt_lintner)
    share = 100 * carrying / sum(part.amount for part in parts)
    short = bool(below(grist_diastatic_power(brew), limits.floor_lintner))
    return short and share >= limits.self_converting_percent


def _message(brew: Brew, limits: Limits, level: Level, limit: float) -> Say:
    power = grist_diastatic_power(brew)
    asked = None
    if brew.adds("starch"):
        sentence = "added-enzymes"
    elif brew.is_opaque_beer:
        sentence = "opaque"
    elif level is Level.ERROR:
        sentence, asked = "hopeless", _asked(brew, limits)
    elif level is Level.WARNING:
        sentence, asked = "slow-at-best" if limit == limits.hopeless_lintner else "slow", _asked(brew, limits)
    else:
        sentence = "try-iodine" if limit == limits.comfortable_lintner else "long-rest"
    here, best = told(power.typical, limit), told(power.high, limit)
    return say(sentence, power=here, best=best, limit=number(limit)).and_then(asked)


def _asked(brew: Brew, limits: Limits) -> Say | None:
    """A hint where an old recipe's dark malt, if it had enzymes enough for itself, would carry the mash."""
    if not brew.recipe.source:
        return None
    parts = brew.mashed()
    dark = [part for part in parts if part.kind == IngredientKind.KILNED_MALT and _without_enzymes(part)]
    largest = max(dark, key=lambda part: part.amount, default=None)
    if largest is None:
        return None
    share = largest.amount / sum(part.amount for part in parts)
    carried = Range.exact(grist_diastatic_power(brew).typical + share * limits.floor_lintner)
    if below(carried, limits.floor_lintner):
        return None
    return say("old-malt", malt=largest.name)


def _without_enzymes(part: Part) -> bool:
    """Whether the table gives a malt none, and the recipe says nothing else."""
    line = part.line
    return part.power().typical <= 0 and not line.diastatic_power.known and not line.lot and not line.cereal_mash


def _row(brew: Brew, part: Part) -> Evidence:
    return Evidence(f"{part.name}, {part.weight.text}", brew.power_of(part).typical, "°Lintner", part.path)


SOUND = """\
recipe: Reed Cutter's Pale Ale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
  - {grain: flaked barley, weight: 400 g}
mash:
  rests:
    - {at: 67 °C, for: 60 min}
"""

FAULTY = Example(
    """\
recipe: Rice Barge Lager
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: light Munich malt, weight: 2.5 kg}
  - {grain: flaked rice, weight: 2.5 kg}
mash:
  rests:
    - {at: 66 °C, for: 60 min}
""",
    "warning",
    4,
    1,
    "the mash averages 20 °Lintner; below 30 °Lintner it converts slowly and may not finish",
)
