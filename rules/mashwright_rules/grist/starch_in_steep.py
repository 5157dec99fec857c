"""Is something steeped that only a mash can use?

Steeping is a rinse. It takes out of caramel (crystal) and roasted malt what
their makers already turned into sugar or colour. Flakes, raw grain, torrefied
grain and pale kilned malts still contain starch. Without the enzymes of base
malt it stays starch: haze, hardly any extract, and food for what should not
grow in beer.

What is checked: each grain in the steep, the kettle or the fermenter. Does it
need a mash, and is base malt steeped with it? Base malt steeped with starchy
grain is a small mash, and counts as one.

- warning: grain that needs a mash, without base malt in the steep
- note, not a warning: at most 2 % of the grist; or amber, biscuit, brown or
  dextrin malt, which give some colour and taste
- warning: base malt is steeped below 60 °C, above 78 °C or for less than
  15 min, or in more than 15 l/kg of water, which thins its enzymes
- note, not a warning: the same where the recipe aims at 2 % ABV or less; a
  cold extract of malt is one way to that
- skipped: base malt in the steep that is at most 2 % of the grist

On the day: put as much pale malt into the same bag. Hold it at 66 to 68 °C (150
to 155 °F) for 45 min: that is a small mash.

Sources: [palmer-steeping] measured yields, [kunze-1998] 78 °C,
[palmer-adjuncts] [mash-or-steep-article] [common-practice]
"""

from collections.abc import Iterator

from mashwright.brew import MALT_EXTRACTS, MALTS, Brew, Part, grain_unit, number, thickness_unit
from mashwright.brewing.extract import steeped_share
from mashwright.ingredients.kinds import Group, IngredientKind, NeedsMash, Place
from mashwright.knobs import NOTHING, Knob, added_grain, another_text, one_change
from mashwright.measures import Kind, Range, said
from mashwright.measures.bounds import CONVERTS_FROM_C
from mashwright.rule import Edit, Evidence, Example, Finding, Level, Limit, Say, Settings, above, below, say


class Limits(Settings):
    trace_percent = Limit(2, "%", low=0, high=20, source="judgement")
    coolest_c = Limit.at(CONVERTS_FROM_C)
    hottest_c = Limit(78, "°C", low=70, high=95, source="kunze-1998")
    thinnest_l_per_kg = Limit(15, "l/kg", low=8, high=50, source="common-practice")
    shortest_min = Limit(15, "min", low=1, high=45, source="judgement")
    small_beer_percent = Limit(2, "% vol", low=0, high=5, source="judgement")


SOUND = """\
recipe: Oyster Bed Stout
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {extract: light dry malt extract, weight: 2.5 kg}
  - {grain: flaked oats, weight: 400 g, add: steep}
  - {grain: pale malt, weight: 500 g, add: steep}
  - {grain: roasted barley, weight: 200 g, add: steep}
steep: {water: 5 l, at: 67 °C, for: 45 min}
"""

FAULTY = Example(
    """\
recipe: Oyster Bed Stout
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {extract: light dry malt extract, weight: 2.5 kg}
  - {grain: flaked oats, weight: 400 g}
  - {grain: roasted barley, weight: 200 g}
steep: {water: 5 l, at: 67 °C, for: 30 min}
""",
    "warning",
    6,
    6,
    "steeped without malt, the starch of flaked oats is not converted; it gives haze, and about 12 % of its extract",
)


USUAL_SHARE = 0.72  # of the extract of a mash that arrives; common practice
PALE_MALT = 0.78  # kg of extract in a kg as it is weighed; common practice


SAYS = {
    "too-cold": "steeped at {heat}, the starch of {malt} is not converted; base malt turns it to sugar only from"
    " about {least}",
    "too-hot": "steeped at {heat}, the starch of {malt} is not converted; its enzymes last only minutes in that heat",
    "too-thin": "steeped in {water}, the starch of {malt} is not converted; in more than {most} its enzymes are too"
    " thin",
    "too-short": "steeped for {time}, the starch of {malt} is not converted; base malt needs about 45 min to turn"
    " it to sugar",
    "put-in": "put into the {place}, the starch of {malt} is not converted; only a mash turns it to sugar",
    "without-base-malt": "steeped without base malt, the starch of {malt} is not converted; it gives haze, and about"
    " {share} % of"
    " its extract",
    "without-malt": "steeped without malt, the starch of {malt} is not converted; it gives haze, and about {share}"
    " % of its extract",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    steeped: tuple[Part, ...] = brew.placed(Place.STEEP)
    malts = [part for part in steeped if part.power().typical > 0]
    if malts:
        yield from _no_mash(brew, malts, steeped, limits)
        steeped = ()  # with base malt beside it, it is as good as mashed
    for part in (*steeped, *brew.placed(Place.KETTLE, Place.FERMENTER)):
        if part.group != Group.GRAIN or part.needs_mash != NeedsMash.YES:
            continue
        share = Range.exact(100 * part.amount / sum(one.amount for one in brew.grist()))
        little = not above(share, limits.trace_percent)
        gives = steeped_share(_kind(part), part.colour_lovibond.typical if part.colour_lovibond else None)
        yield Finding(
            part.line.add.path if part.line.add else part.path,
            Level.NOTE
            if little or part.kind in (IngredientKind.KILNED_MALT, IngredientKind.CARAMEL_MALT)
            else Level.WARNING,
            _message(part, gives),
            gap=1.0,
            evidence=(_gives(part, gives),),
            knobs=_knobs(brew, part),
        )


def _no_mash(brew: Brew, malts: list[Part], steeped: tuple[Part, ...], limits: Limits) -> Iterator[Finding]:
    """Base malt in a steep that is too cold, too hot or too short to be a mash."""
    steep = brew.recipe.steep
    if not steep.known:
        return
    at, time = steep.at, steep.time
    cold = at.known and bool(below(Range.exact(at.range.high), limits.coolest_c))
    hot = at.known and bool(above(Range.exact(at.range.low), limits.hottest_c))
    per_kg = steep.water.range.low / sum(part.weight_kg for part in steeped) if steep.water.known else 0.0
    thin = per_kg > limits.thinnest_l_per_kg
    short = time.known and bool(below(Range.exact(time.range.high), limits.shortest_min))
    most = max(malts, key=lambda part: part.amount)
    share = 100 * sum(part.amount for part in malts) / sum(one.amount for one in brew.grist())
    if not (cold or hot or short or thin) or not above(Range.exact(share), limits.trace_percent):
        return
    abv = brew.recipe.targets.abv
    meant = abv.known and not above(abv.range, limits.small_beer_percent)
    if at.known and cold:
        least = said(limits.coolest_c, at.unit, Kind.TEMPERATURE)
        message = say("too-cold", heat=at, malt=most.name, least=least)
    elif at.known and hot:
        message = say("too-hot", heat=at, malt=most.name)
    elif steep.water.known and thin and not short:
        most_l = said(limits.thinnest_l_per_kg, thickness_unit(brew), Kind.THICKNESS)
        message = say("too-thin", water=steep.water, malt=most.name, most=most_l)
    else:
        message = say("too-short", time=time if time.known else "", malt=most.name)
    key = "at" if cold or hot else "for" if short else "water"
    yield Finding(
        (*steep.path, key),
        Level.NOTE if meant else Level.WARNING,
        message,
        gap=1.0,
        evidence=(_gives(most, steeped_share("", None)),),
        related=tuple(part.path for part in malts),
        knobs=(_small_mash(brew, limits),),
    )


def _gives(part: Part, share: Range) -> Evidence:
    label = f"{part.name}, {part.weight.text}: extract that a steep gives"
    return Evidence(label, f"{number(100 * share.low, 2)} to {number(100 * share.high, 2)}", "%", part.path)


_MASH_C, _MASH_MIN, _LONG_MIN = 66.0, 45.0, 120.0  # a small mash, and a steep longer than one; common practice
_MASH_L_PER_KG = 4.0  # a thin mash; common practice


def _small_mash(brew: Brew, limits: Limits) -> Knob:
    """The steep at the heat of a mash, as long as one."""
    steep = brew.recipe.steep
    at, time = steep.at, steep.time
    unit = at.unit if at.known else "°F" if grain_unit(brew).startswith(("lb", "oz")) else "°C"
    edits, words = [], list[str]()
    if not at.known or not limits.coolest_c <= at.range.typical <= limits.hottest_c:
        words.append(f"at {said(_MASH_C, unit, Kind.TEMPERATURE)}")
        edits.append(Edit(steep.at.path, said(_MASH_C, unit, Kind.TEMPERATURE)))
    if not time.known or not _MASH_MIN <= time.range.typical <= _LONG_MIN:
        words.append(f"for {number(_MASH_MIN)} min")
        edits.append(Edit(steep.time.path, f"{number(_MASH_MIN)} min"))
    if steep.water.known:
        grain_kg = sum(part.weight_kg for part in brew.placed(Place.STEEP))
        if steep.water.range.low > limits.thinnest_l_per_kg * grain_kg:
            water = said(_MASH_L_PER_KG * grain_kg, steep.water.unit, Kind.VOLUME)
            words.append(f"in {water} of water")
            edits.append(Edit(steep.water.path, water))
    return one_change(tuple(edits), f"steep {' '.join(words)}")


def _kind(part: Part) -> str:
    names: dict[str, str] = {IngredientKind.CARAMEL_MALT: "caramel", IngredientKind.KILNED_MALT: "kilned"}
    return names.get(part.kind, "")


def _message(part: Part, gives: Range) -> Say:
    if part.place != Place.STEEP:
        return say("put-in", place=part.place, malt=part.name)
    without = "without-base-malt" if part.kind in MALTS else "without-malt"
    return say(without, malt=part.name, share=number(100 * gives.typical, 2))


def _knobs(brew: Brew, part: Part) -> tuple[Knob, ...]:
    """Into the mash where there is one; else base malt beside it."""
    if brew.placed(Place.MASH):
        return (another_text(part.line.add.path, "mash", f"put the {part.name} into the mash"),)
    if part.place == Place.KETTLE and part.kind == IngredientKind.BASE_MALT:
        return (another_text(part.line.add.path, "mash", f"mash the {part.name}"),)
    if part.place != Place.STEEP or not part.line.weight.known:
        return ()
    starchy = [one for one in brew.placed(Place.STEEP) if one.needs_mash == NeedsMash.YES]
    starchy_kg = sum(one.weight_kg for one in starchy)
    beside = added_grain("pale malt", grain_unit(brew), starchy_kg, 4 * starchy_kg, "add: steep")
    return beside, _for_extract(brew, starchy)


def _for_extract(brew: Brew, starchy: list[Part]) -> Knob:
    """As much base malt as there is starch, and malt extract taken out for what the small mash gives."""
    extracts = [part for part in brew.grist() if part.kind in MALT_EXTRACTS and part.line.weight.known]
    if not extracts:
        return NOTHING
    largest = max(extracts, key=lambda part: part.weight_kg)
    malt_kg = sum(part.weight_kg for part in starchy)
    gives_kg = malt_kg * USUAL_SHARE * PALE_MALT
    for part in starchy:
        better = USUAL_SHARE - steeped_share(_kind(part), None).typical
        gives_kg += part.weight_kg * part.extract_share().typical * better
    left_kg = largest.weight_kg - gives_kg / largest.extract_share().typical
    if left_kg <= 0:
        return NOTHING
    malt, left = (
        said(kg, unit, Kind.MASS) for kg, unit in ((malt_kg, grain_unit(brew)), (left_kg, largest.weight.unit))
    )
    line = Edit((*brew.recipe.grist.path, "-"), f"{{grain: pale malt, weight: {malt}, add: steep}}")
    words = f"add {malt} of pale malt (add: steep), and use {left} of {largest.name} instead of {largest.weight.text}"
    return one_change((line, Edit(largest.line.weight.path, left)), words)
