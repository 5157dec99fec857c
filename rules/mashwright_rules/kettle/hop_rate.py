"""Is this weight of hops usual for this much beer?

Most beers need 1 to 6 g/l of hops (0.1 to 0.8 oz to a US gallon). Hoppy beers
have 10 to 20 g/l, a few have more. Far more than that is a slip of a unit, and
so is almost nothing. Hops soak up 6 l of wort to the kilogram: at 150 g/l no
wort is left.

What is checked: the weight of each addition above 40 g/l. If none is, the
weights are added up: those in kettle and mash, then the dry hops.

- error: above 150 g/l
- warning: above 40 g/l
- note: above 20 g/l
- warning: below 0.1 g/l in all, where another unit makes it a usual weight
- note: below 0.1 g/l in all, where no other unit does
- also asked: did you mean the other unit, where it gives a usual weight?
- skipped: hop extract, and hops in alpha acid units; 0.1 g/l where any of
  these is used; the note above 20 g/l in an old recipe

A recipe is old if its source or name has a year before 1940, or its source says
"old" without a year. It must have a `source`. Such recipes took two or three
times as many hops as ours. Those hops were weak and old, and the beer was to
keep.

On the day: weigh the hops, never count handfuls. Make room for the wort that
they soak up: a full kettle boils over and scalds. Add hops little by little.

Sources: [catalogue-conversions] 6 l/kg, [common-practice] [judgement]
"""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew import Brew, number, told
from mashwright.ingredients.kinds import HopForm
from mashwright.knobs import Knob, another_text
from mashwright.measures import Kind, Quantity, Range, bounds, from_canonical
from mashwright.measures.bounds import OLD_BEFORE
from mashwright.measures.constants import KG_PER_LB, KG_PER_OZ
from mashwright.recipe.stated import NOWHERE, Stated
from mashwright.rule import Example, Finding, Level, Limit, Path, Say, Settings, above, below, gap, say
from mashwright.words.sentences import Measure


class Limits(Settings):
    """What is compared with."""

    much_g_per_l = Limit(20, "g/l", low=5, high=100, source="common-practice")
    too_much_g_per_l = Limit(40, "g/l", low=10, high=150, source="judgement")
    soaked_up_g_per_l = Limit.of(bounds.SOAKED_UP_G_PER_L)
    old_before = Limit.at(OLD_BEFORE)
    little_g_per_l = Limit(0.1, "g/l", low=0.01, high=1, source="judgement")


SAYS = {
    "soaked-up": "{hops} is {rate} of beer; that many hops would soak up all of the wort",
    "soaked-up-in-all": "{rate} of beer {where}; that many hops would soak up all of the wort",
    "too-much": "{hops} is {rate} of beer, more than any beer is hopped with",
    "too-much-in-all": "{rate} of beer {where} is more than any beer is hopped with",
    "much": "{hops} is {rate} of beer, more than most hoppy beers have",
    "much-in-all": "{rate} of beer {where} is more than most hoppy beers have",
    "little": "{hops} does almost nothing in {batch} of beer",
    "little-in-all": "{hops} and the other hops do almost nothing in {batch} of beer",
    "another-unit": "did you mean {amount}?",
}


class _Lot(NamedTuple):
    """Hops that are weighed together: one addition, or all of a sort.

    Attributes:
        words: ``30 g of Fuggle``, or where they go together.
    """

    path: Path
    weight: Stated
    grams: float
    words: str


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    hops = [hop for hop in brew.recipe.hops if hop.weight.known and hop.form != HopForm.EXTRACT]
    batch = brew.recipe.batch
    volume = batch.stated
    if not hops or not volume.known or volume.range.low <= 0:
        return
    litres = volume.range.typical
    single = [
        _Lot(hop.weight.path, hop.weight, hop.weight.range.typical * 1000, f"{hop.weight.text} of {hop.name or 'hops'}")
        for hop in hops
        if hop.weight.known
    ]
    alone = [lot for lot in single if lot.grams > limits.too_much_g_per_l * litres]
    for lot in alone:
        yield from _much(brew, lot, limits)
    if not alone:
        for dry, what in ((False, "in kettle and mash"), (True, "of dry hops")):
            grams = sum(lot.grams for lot, hop in zip(single, hops, strict=True) if hop.dry.known is dry)
            yield from _much(brew, _Lot(brew.recipe.hops.path, NOWHERE, grams, what), limits)
    if len(hops) == len(brew.recipe.hops):
        yield from _little(brew, single, limits)


def _rate(brew: Brew, grams_per_l: float, limit: float) -> str:
    """Grams to a litre, or ounces to a gallon where the batch is in gallons."""
    unit = _volume(brew).unit
    if not unit.endswith("gal"):
        return f"{told(grams_per_l, limit)} g to each litre"
    ounces, most = (from_canonical(value, f"oz/{unit}", Kind.DOSE) for value in (grams_per_l, limit))
    return f"{told(ounces, most)} oz to each gallon"


def _volume(brew: Brew) -> Quantity:
    return brew.recipe.batch.stated.need("the size of the batch")


def _much(brew: Brew, lot: _Lot, limits: Limits) -> Iterator[Finding]:
    litres = _volume(brew).range.typical
    each = Range.exact(lot.grams / litres)
    for level, limit, sentence in (
        (Level.ERROR, limits.soaked_up_g_per_l, "soaked-up"),
        (Level.WARNING, limits.too_much_g_per_l, "too-much"),
        (Level.NOTE, limits.much_g_per_l, "much"),
    ):
        if not above(each, limit):
            continue
        if level is Level.NOTE and brew.intent.old(limits.old_before):
            return
        asked, knobs = _swapped(lot, 0.3 * litres / 1000, 15 * litres / 1000) if level > Level.NOTE else (None, ())
        rate = _rate(brew, each.typical, limit)
        if lot.weight.known:
            message = say(sentence, hops=lot.words, rate=rate)
        else:
            message = say(f"{sentence}-in-all", where=lot.words, rate=rate)
        yield Finding(lot.path, level, message.and_then(asked), gap=gap(each, limit), knobs=knobs)
        return


def _little(brew: Brew, single: list[_Lot], limits: Limits) -> Iterator[Finding]:
    volume = _volume(brew)
    litres = volume.range.typical
    each = Range.exact(sum(lot.grams for lot in single) / litres)
    if each.typical <= 0 or not below(each, limits.little_g_per_l):
        return
    most = max(single, key=lambda lot: lot.grams)
    asked, knobs = _swapped(most, 0.3 * litres / 1000, 15 * litres / 1000)
    message = say("little" if len(single) == 1 else "little-in-all", hops=most.words, batch=volume).and_then(asked)
    yield Finding(most.path, Level.WARNING if knobs else Level.NOTE, message, gap=1.0, knobs=knobs)


def _swapped(lot: _Lot, low_kg: float, high_kg: float) -> tuple[Say | None, tuple[Knob, ...]]:
    """What to ask, and the change, where another unit makes it an ordinary weight."""
    if not lot.weight.known or not lot.weight.range.known or lot.grams <= 0:
        return None, ()
    value = from_canonical(lot.weight.range.typical, lot.weight.unit, Kind.MASS)
    for unit, kg in (("g", 0.001), ("oz", KG_PER_OZ), ("kg", 1.0), ("lb", KG_PER_LB)):
        metric = lot.weight.unit in ("g", "kg", "mg", "t")
        if unit == lot.weight.unit or metric is not (unit in ("g", "kg")) or not low_kg <= value * kg <= high_kg:
            continue
        text = Measure(f"{number(value, 6)} {unit}", value, unit)
        asked = say("another-unit", amount=text)
        return asked, (another_text(lot.path, text, f"use {text} instead of {lot.weight.text}"),)
    return None, ()


SOUND = """\
recipe: Sluice House Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
hops:
  - {hop: Cascade, weight: 30 g, alpha: 6 %, boil: 60 min}
  - {hop: Cascade, weight: 60 g, alpha: 6 %, dry: 3 d}
"""
FAULTY = Example(
    """\
recipe: Sluice House Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
hops:
  - {hop: Cascade, weight: 30 kg, alpha: 6 %, boil: 60 min}
""",
    "error",
    7,
    28,
    "30 kg of Cascade is 1500 g to each litre of beer; that many hops would soak up all of the wort; did you mean"
    " 30 g?",
)
