"""Is there enough enzyme in the mash to turn its starch into sugar?

Only malt that was kilned gently keeps the enzymes that split starch. Caramel (crystal) and roasted malt have none,
raw and flaked grain never had any: what they bring has to be converted by the rest of the grist. Where there is
too little enzyme the wort stays starchy, the gravity comes out low, and the beer is thin, hazy and keeps badly.

Computed: the diastatic power of all that enters the mash, averaged by weight, in °Lintner. A malt converts itself
from about 30, and a grist of 40 does so without waiting. Below 30 is a warning, an error if even the best lots stay
below 20; between 30 and 40 a note, if the rests are too short for nine tenths of the starch. Rests that convert for
an hour and a half in all, if nine tenths of the starch is converted in them, or added enzymes, lower it by one level,
a long rest never below a warning where the average is below 20; so does a grist made almost wholly of malts that
convert themselves (a standard asks 27 of Munich malt), since those only need longer. Opaque beer, a cooked porridge
that malt of sorghum or millet converts alone, is to keep starch: a note. A recipe from an old `source:` with malt
kilned dark, such as brown malt, is asked for its `diastatic-power` if that could carry the mash: today's has no
enzymes, that of old kilns often had.

On the day: a drop of iodine on a white saucer with a drop of the mash: black or blue is starch, so rest longer.
Red-brown is not done either: long dextrins are left. The iodine's own yellow-brown is done. Test every 10 min.

Sources: [diastatic-power-article] 30 and 70, [tgl-17756] 27, [degree-lintner] 40, [oxford-lintner] 35,
[common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, Part, PlannedRest, number, told
from mashwright.figures.grist import grist_diastatic_power
from mashwright.figures.mash import conversion
from mashwright.ingredients.kinds import Cereal, IngredientKind
from mashwright.knobs import NOTHING, Knob, in_its_place, less_of, longer, more_of
from mashwright.measures import Kind, Range, said
from mashwright.measures.bounds import ENZYMES_END_C, HOPELESS_LINTNER, STARCH_OPENS_C, STRONG_LINTNER
from mashwright.rule import Edit, Evidence, Example, Finding, Level, Limit, Say, Settings, above, below, gap, say


class Limits(Settings):
    floor_lintner = Limit(30, "°Lintner", low=10, high=100, source="diastatic-power-article")
    hopeless_lintner = Limit.at(HOPELESS_LINTNER)
    comfortable_lintner = Limit(40, "°Lintner", low=10, high=120, source="degree-lintner")
    converted_percent = Limit(90, "%", low=50, high=99, source="judgement")
    long_rest_min = Limit(90, "min", low=30, high=600, source="common-practice")
    strong_lintner = Limit.at(STRONG_LINTNER)
    malt_lintner = Limit(27, "°Lintner", low=10, high=60, source="tgl-17756")
    too_little_lintner = Limit(25, "°Lintner", low=5, high=100, source="judgement")
    self_converting_percent = Limit(85, "%", low=50, high=100, source="judgement")
    coldest_c = Limit.at(STARCH_OPENS_C)
    hottest_c = Limit.at(ENZYMES_END_C)


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
    "the mash averages 20 °Lintner; below 30 it converts slowly and hardly to the end",
)


SAYS = {
    "added-enzymes": "the mash averages {power} °Lintner; below {limit} it rests on the added enzymes",
    "opaque": "the mash averages {power} °Lintner; below {limit} the beer stays opaque with starch, as sorghum beer"
    " is meant to",
    "hopeless": "the mash averages {power} °Lintner, {best} at best; below {limit} its starch does not convert",
    "slow": "the mash averages {power} °Lintner; below {limit} it converts slowly and hardly to the end",
    "slow-at-best": "the mash averages {power} °Lintner, {best} at best; below {limit} it converts slowly and"
    " hardly to the end",
    "try-iodine": "the mash averages {power} °Lintner; below {limit} conversion is slow, so try it with iodine"
    " before the run-off",
    "long-rest": "the mash averages {power} °Lintner; below {limit} it converts only in a long rest, to be tried"
    " with iodine",
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
        knobs=_knobs(brew, limits) if level > Level.NOTE else (),
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
    long_enough = sum(rest.minutes.typical for rest in _converting(brew, limits)) >= limits.long_rest_min
    converts = long_enough and below(conversion(brew), limits.converted_percent) in (None, Level.NOTE)
    hopeless = bool(below(Range.exact(grist_diastatic_power(brew).typical), limits.hopeless_lintner))
    if hopeless and level is not Level.ERROR:
        converts = False  # no rest is long enough for less than that to go without a word
    return converts or brew.adds("starch") or _converts_itself(brew, limits)


def _converting(brew: Brew, limits: Limits) -> list[PlannedRest]:
    """Rests with a stated length at which malt converts."""
    return [
        rest
        for rest in brew.plan.rests
        if rest.minutes_path is not None
        and not below(rest.at_c, limits.coldest_c)
        and not above(rest.at_c, limits.hottest_c)
    ]


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


def _knobs(brew: Brew, limits: Limits) -> tuple[Knob, ...]:
    """Stronger malt in place of weak, or of some of what has no enzymes; a longer rest where it would do; else less."""
    parts = brew.mashed()
    strongest = max(parts, key=lambda part: brew.power_of(part).typical)
    idle = max((part for part in parts if brew.power_of(part).high <= 0), key=lambda part: part.amount, default=None)
    knobs: list[Knob] = []
    if brew.power_of(strongest).typical < limits.strong_lintner:
        weak = max(
            (part for part in parts if part.kind == IngredientKind.BASE_MALT),
            key=lambda part: part.amount,
            default=None,
        )
        knobs += [_stronger(brew, part, limits) for part in (weak, idle) if part is not None]
    knobs.append(more_of(strongest, most=2))
    if idle is not None:
        knobs.append(_in_place_of(strongest, idle))
    rests = _converting(brew, limits)
    if rests and not below(grist_diastatic_power(brew), limits.too_little_lintner):
        knobs.append(longer(rests[-1], least_min=rests[-1].minutes.typical + _short_by(brew, limits)))
    return tuple(knobs) if idle is None else (*knobs, less_of(idle, least=0.5))


def _short_by(brew: Brew, limits: Limits) -> float:
    """How much longer the rests must be to count as long, min."""
    return limits.long_rest_min - sum(rest.minutes.typical for rest in _converting(brew, limits))


def _stronger(brew: Brew, part: Part, limits: Limits) -> Knob:
    """Two-row malt in place of some of a part, enough for an easy conversion; none where barley is kept out."""
    barley = Range.exact(
        100 * sum(one.amount for one in brew.mashed() if one.cereal in (Cereal.BARLEY, Cereal.WHEAT, Cereal.RYE))
    )
    if not above(barley, 0):
        return NOTHING
    total = sum(one.amount for one in brew.mashed())
    missing = (limits.comfortable_lintner - grist_diastatic_power(brew).typical) * total
    name, power_lintner = "two-row pale malt", 125.0  # its usual power; what is offered is reckoned again
    share = missing / (part.amount * (power_lintner - brew.power_of(part).typical))
    most = 0.5 if brew.power_of(part).high <= 0 else 0.9
    return in_its_place(brew, part, name, least=min(share, most), most=most)


def _in_place_of(strongest: Part, idle: Part) -> Knob:
    """The same weight in all, with more of one part and less of the other, down to half of it."""
    if not strongest.line.weight.known or not idle.line.weight.known:
        return NOTHING
    step_kg = 0.05 if strongest.weight.unit in ("kg", "g") else 0.0566990463  # 2 oz

    def texts(step: int) -> tuple[str, str]:
        moved_kg = (step + 1) * step_kg
        more = said(strongest.weight_kg + moved_kg, strongest.weight.unit, Kind.MASS)
        return more, said(idle.weight_kg - moved_kg, idle.weight.unit, Kind.MASS)

    def edits(step: int) -> tuple[Edit, ...]:
        more, less = texts(step)
        return Edit((*strongest.path, "weight"), more), Edit((*idle.path, "weight"), less)

    def words(step: int) -> str:
        more, less = (text.removesuffix(" of malt") for text in texts(step))  # quarters of malt of pale malt
        return (
            f"{more} of {strongest.name} instead of {strongest.weight.text},"
            f" {less} of {idle.name} instead of {idle.weight.text}"
        )

    return Knob(int(idle.weight_kg / 2 / step_kg + 1e-9), edits, words)
