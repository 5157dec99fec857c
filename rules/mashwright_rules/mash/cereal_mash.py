"""Is every grain cooked that needs cooking before the mash?

Enzymes only reach starch that has swollen in hot water. Barley, wheat, rye
and oats swell in the mash itself. Maize (corn), rice, sorghum, millet and
their like need more heat than malt enzymes tolerate. Their raw grain, grits
and meal are boiled first, with a little malt, in a cereal mash.

What is checked: how much starch of such a cereal the rests release, minute by
minute. The best case is a fine, thin mash, the worst case a coarse, thick
one. If the recipe or brewhouse states at what temperature the grain
gelatinises, the hottest rest is compared with that instead.

- error: raw grain, grits or meal, and no rest reaches 75 °C (167 °F). Within
  an hour water hardly gets into uncooked grits.
- error: raw grain, grits or meal, and the worst case releases less than 75 %
- flour, starch, raw potatoes and other roots: a warning below 75 %, an error
  if the best case is below too
- malt of these cereals: at most a warning, below 75 %. It gelatinises no
  earlier than the raw grain, so it needs a hotter rest or cooking.
- a stated temperature: a warning if the hottest rest is below its middle, an
  error if below all of it
- warning: the cereal mash itself is not boiled and stays below 75 °C
- at most a warning: part of the mash is boiled, in a decoction
- note: the grain is under 5 % of the mash
- note: the recipe has a cereal mash, but sends no raw grain to it
- note: malt that converts a cooked porridge alone, as in opaque beer. It is
  there for its enzymes.
- skipped: flaked and torrefied (puffed) grain, which its maker has cooked

On the day: add a tenth of the grain's weight of malt. Rest 15 min at about
70 °C (158 °F), then boil 20 to 30 min, stirring; thin porridge is right. Keep
clear of the splashes: thick porridge scalds and burns on.

Sources: [lintner-1890] [paccaud-1890] [mebak-r-100-07-283]
[goldammer-adjuncts] [iob-gel] [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, Part, PlannedRest, described_by, number, told
from mashwright.brew import degrees as degrees_in
from mashwright.brewing.mash_rates import LATE_CEREALS
from mashwright.figures.mash import released_of, starch_released
from mashwright.ingredients.kinds import Cereal, IngredientKind, Place, RestBy
from mashwright.knobs import Knob, another_text, rest_at
from mashwright.measures import Kind, Range, said
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Say, Settings, above, below, gap, row, say
from mashwright.words.vocabulary import mentions


class Limits(Settings):
    released_percent = Limit(75, "%", low=0, high=100, source="judgement")
    trace_percent = Limit(5, "%", low=0, high=50, source="judgement")
    hottest_c = Limit(78, "°C", low=65, high=85, source="common-practice")
    cooked_c = Limit(75, "°C", low=60, high=100, source="iob-gel")


SOUND = """\
recipe: Ferryman's Cream Ale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: six-row pale malt, weight: 3.2 kg}
  - {grain: maize grits, weight: 900 g, prepare: cereal mash}
cereal-mash: {water: 5 l, boil: 30 min}
mash:
  rests:
    - {at: 66 °C, for: 60 min}
"""

FAULTY = Example(
    """\
recipe: Ferryman's Cream Ale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: six-row pale malt, weight: 3.2 kg}
  - {grain: maize grits, weight: 900 g}
mash:
  rests:
    - {at: 67 °C, for: 60 min}
""",
    "error",
    6,
    6,
    "without cooking, about 48 % of the starch in maize grits is released at 67 °C; boil raw maize before the mash",
)


SAYS = {
    "no-line-goes-in": "a cereal mash is there, but no grain uses it; write prepare: cereal mash at {grain}",
    "stated": "{grain} gelatinises at {heat}, but the mash reaches {mash}; cook it first",
    "malt": "about {released} % of the starch in {grain} is released at {mash}; malted"
    " {cereal} needs a hotter rest or cooking",
    "malt-by-rests": "about {released} % of the starch in {grain} is released by rests up to {mash}; malted {cereal}"
    " needs a hotter rest or cooking",
    "raw": "without cooking, about {released} % of the starch in {grain} is released at {mash}",
    "raw-by-rests": "without cooking, about {released} % of the starch in {grain} is released by rests up to {mash}",
    "raw-little": "without cooking, as little as {released} % of the starch in {grain} is released at {mash}",
    "raw-little-by-rests": "without cooking, as little as {released} % of the starch"
    " in {grain} is released by rests up to {mash}",
    "boil-it": "boil raw {cereal} before the mash",
    "boil-them": "boil them first",
    "cool-cooker": "the cereal mash gets no hotter than {heat}; boil the {cereal} in it",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from _cool_cooker(brew, limits)
    uncooked = [part for part in brew.mashed() if _may_need_cooking(brew, part)]
    if not uncooked:
        return
    rests = brew.plan.known()
    # a cooker that no line of the grist is sent to was meant for these
    meant = _has_cooker(brew) and not any(part.line.cereal_mash for part in brew.grist() if not _malt(part))
    hottest = max(rests, key=lambda rest: rest.hottest_c)
    for part in uncooked:
        level, message, missed = _judged(brew, part, hottest, limits)
        if level is None:
            continue
        level = _softened(brew, part, level, limits)
        if meant:
            level = Level.NOTE
            message = say("no-line-goes-in", grain=part.name)
        yield Finding(
            part.path,
            level,
            message,
            gap=missed,
            evidence=(*_rows(brew, part), row(starch_released(brew))),
            knobs=_knobs(brew, part, limits),
        )


def _malt(part: Part) -> bool:
    return part.kind in (IngredientKind.BASE_MALT, IngredientKind.MALTED_ADJUNCT)


def _may_need_cooking(brew: Brew, part: Part) -> bool:
    """Whether it is raw, or malted, of a cereal that gelatinises late, or says itself when it gelatinises."""
    if part.root:
        return not part.cooked
    if part.line.cereal_mash or part.kind not in (
        IngredientKind.RAW_GRAIN,
        IngredientKind.GRITS,
        IngredientKind.BASE_MALT,
        IngredientKind.MALTED_ADJUNCT,
    ):
        return False
    return _stated(brew, part) is not None or part.cereal in LATE_CEREALS


def _stated(brew: Brew, part: Part) -> Range | None:
    """Where it gelatinises, by the recipe's line or the brewhouse."""
    if part.line.gelatinises.known:
        return part.line.gelatinises.range
    described = described_by(part.line, brew.brewhouse)
    return described.gelatinises.range if described is not None and described.gelatinises.known else None


def _has_cooker(brew: Brew) -> bool:
    mash = brew.recipe.mash
    return brew.recipe.cereal_mash.known or (mash.known and any(rest.by == RestBy.CEREAL_MASH for rest in mash.rests))


def _judged(brew: Brew, part: Part, hottest: PlannedRest, limits: Limits) -> tuple[Level | None, Say, float]:
    stated = _stated(brew, part)
    at = degrees_in(brew, hottest.hottest_c)
    if stated is not None:
        level = above(stated, hottest.hottest_c)
        unit = part.line.gelatinises.unit if part.line.gelatinises.known else "°C"
        message = say("stated", grain=part.name, heat=said(stated, unit, Kind.TEMPERATURE), mash=at)
        return level, message, gap(stated, hottest.hottest_c)
    released = released_of(brew, part)
    word, several = _word(part), len(brew.plan.rests) != 1
    raw = "raw-by-rests" if several else "raw"
    if part.stony:
        stays = hottest.hottest_c < limits.cooked_c
        surely = stays or bool(below(Range.exact(released.low), limits.released_percent))
        shown = released.typical if below(released, limits.released_percent) else released.low
        little = "raw-little-by-rests" if several else "raw-little"
        sentence = raw if shown == released.typical else little
        share = told(shown, limits.released_percent)
        message = say(sentence, released=share, grain=part.name, mash=at).and_then(say("boil-it", cereal=word))
        return (
            Level.ERROR if surely else None,
            message,
            gap(released, limits.released_percent),
        )
    percent = told(released.typical, limits.released_percent)
    if _malt(part):
        message = say("malt-by-rests" if several else "malt", released=percent, grain=part.name, mash=at, cereal=word)
    else:
        remedy = say("boil-them") if part.root else say("boil-it", cereal=word)
        message = say(raw, released=percent, grain=part.name, mash=at).and_then(remedy)
    return below(released, limits.released_percent), message, gap(released, limits.released_percent)


def _word(part: Part) -> str:
    """The cereal in the recipe's own English."""
    return "corn" if part.cereal == Cereal.MAIZE and mentions("corn", "ingredient", part.name) else part.cereal


def _softened(brew: Brew, part: Part, level: Level, limits: Limits) -> Level:
    mash = brew.recipe.mash
    if 100 * part.amount / sum(one.amount for one in brew.mashed()) < limits.trace_percent:
        return Level.NOTE
    if _malt(part) and brew.is_opaque_beer:
        return Level.NOTE
    boiled_in_part = mash.known and any(rest.by == RestBy.DECOCTION for rest in mash.rests)
    return min(level, Level.WARNING) if _malt(part) or boiled_in_part else level


def _rows(brew: Brew, part: Part) -> tuple[Evidence, ...]:
    if part.gelatinises_c is None:
        return ()
    span = degrees_in(brew, part.gelatinises_c)
    return (Evidence(f"{part.name}, {part.weight.text}, gelatinises", span, "", part.path),)


def _knobs(brew: Brew, part: Part, limits: Limits) -> tuple[Knob, ...]:
    if _malt(part):
        warmest = max((one.hottest_c for one in brew.plan.rests if one.hottest_c <= limits.hottest_c), default=None)
        if warmest is None or warmest >= limits.cooked_c:
            return ()
        rest = next(one for one in brew.plan.rests if one.hottest_c == warmest)
        return (rest_at(brew, rest, warmest + 0.5, limits.cooked_c),)
    cook = another_text((*part.path, "prepare"), "cereal mash", f"cook the {part.name} first (prepare: cereal mash)")
    word = _word(part)
    if (
        part.cereal not in (Cereal.MAIZE, Cereal.RICE, Cereal.MILLET, Cereal.BUCKWHEAT)
        or _stated(brew, part) is not None
    ):
        return (cook,)
    flaked = f"flaked {word}"
    return (cook, another_text((*part.path, "grain"), flaked, f"use {flaked} instead of {part.name}"))


def _cool_cooker(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """A cereal mash whose own rests never get hot enough."""
    cooker = brew.recipe.cereal_mash
    cooked = [part for part in brew.placed(Place.MASH) if part.line.cereal_mash and part.cereal in LATE_CEREALS]
    if not cooker.known or brew.cooker_boils or not cooked:
        return
    hottest = brew.cooker_hottest
    if hottest is None or not below(Range.exact(hottest.range.high), limits.cooked_c):
        return
    shown = f"{told(hottest.range.high, limits.cooked_c)} °C" if hottest.unit == "°C" else hottest.text
    rest = next(one for one in cooker.rests if hottest in (one.at, one.to))
    yield Finding(
        rest.path,
        Level.WARNING,
        say("cool-cooker", heat=shown, cereal=_word(cooked[0])),
        gap=gap(hottest.range, limits.cooked_c),
        evidence=(Evidence("hottest rest of the cooker", number(hottest.range.high), "°C", rest.path),),
        knobs=(another_text(cooker.boil.path, "30 min", "boil the cereal mash for 30 min"),),
    )
