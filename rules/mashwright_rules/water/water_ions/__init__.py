"""Does the water, with its salts, suit beer and those who drink it?

Calcium settles the mash and the yeast. Sulfate makes a beer dry and bitter,
chloride makes it full. Too much of any has a taste of its own: magnesium sour
and bitter, sodium salty. Magnesium is a laxative too. The taste is the
brewer's business, so nearly all of this is a note.

What is checked: the ions of the recipe's water, diluted as stated. Salts are
added by molar mass in the water that they go into. If the recipe adds salts
but states no water, the brewhouse's water counts. Calcium is checked in the
mash, the others in all the water that gets into the kettle. An ion that the
water does not state counts as 0 if salts bring it.

  mg/l        note                     warning           error
  calcium     below 50, above 250
  magnesium   above 30                 worst case        above 125
                                       above 125
  sodium      above 150                above 450
  chloride    above 250                above 750
  sulfate     above 350                above 1050

- calcium below 50 mg/l is asked only if the water states calcium
- the warnings are at 3 times the notes; one warning a salt, since table salt
  brings both sodium and chloride
- skipped: sodium and chloride, if name, style or notes speak of a salty beer
- skipped: magnesium above 125 mg/l (a laxative) that salts bring: see salts
- skipped: a salt cannot be counted, or one is above 1.5 g/l: see salts

The recipe's own water is checked as well:

- warning: over 1500 mg/l of an ion or of alkalinity, which no brewing water
  contains; no other check is made
- note: in a whole analysis, positive and negative ions differ by more than
  1 mEq/l and more than 20 % of the positive ones. They must balance,
  potassium and nitrate apart, so the analysis has a slip.
- skipped: the brewhouse's water with nothing added to it

On the day: test kits tell hardness, alkalinity and pH. For the rest ask the
waterworks for the mean of the year.

Sources: [water-report-article] [water-101] the ranges, 50 and 125 mg/l of
magnesium, [palmer-15], [common-practice] and [from-memory] sodium, chloride
and sulfate, [judgement] what no water can hold
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number, told
from mashwright.brewing.water import imbalance_meq_l, milliequivalents
from mashwright.figures.water import ions_in_mash, liquor, tap_water
from mashwright.knobs import as_written
from mashwright.measures import Quantity, Range
from mashwright.measures.bounds import LAXATIVE_MAGNESIUM_MG_PER_L
from mashwright.rule import Example, Finding, Level, Limit, Path, Settings, above, below, gap, say
from mashwright_rules.water.water_ions._brought import (
    all_salts,
    by_salts,
    in_beer,
    of_recipe,
    place,
    rows,
    stated_ion,
)
from mashwright_rules.water.water_ions._changes import less_of_salt, thinned


class Limits(Settings):
    least_calcium_mg_per_l = Limit(50, "mg/l", low=0, high=150, source="water-report-article water-101")
    most_calcium_mg_per_l = Limit(250, "mg/l", low=100, high=500, source="judgement")
    usual_magnesium_mg_per_l = Limit(30, "mg/l", low=5, high=100, source="water-report-article water-101")
    laxative_magnesium_mg_per_l = Limit.at(LAXATIVE_MAGNESIUM_MG_PER_L)
    most_sodium_mg_per_l = Limit(150, "mg/l", low=50, high=500, source="common-practice")
    most_chloride_mg_per_l = Limit(250, "mg/l", low=50, high=500, source="common-practice")
    most_sulfate_mg_per_l = Limit(350, "mg/l", low=50, high=800, source="common-practice")
    far_more_times = Limit(3, "times", low=1.5, high=10, source="judgement")
    beyond_water_mg_per_l = Limit(1500, "mg/l", low=500, high=10_000, source="judgement")
    heaped_g_per_l = Limit(1.5, "g/l", low=0.2, high=5, source="judgement")
    balance_meq_per_l = Limit(1.0, "mEq/l", low=0.2, high=10, source="judgement")
    balance_share_percent = Limit(20, "%", low=5, high=100, source="judgement")


SAYS = {
    "little-calcium": "the mash water contains {amount} mg/l of calcium; at least {least} mg/l is usual, though pale"
    " lagers are brewed with less",
    "much-calcium": "the mash water contains {amount} mg/l of calcium; {most} mg/l is more than mash and yeast can use",
    "laxative": "the beer's water contains {amount} mg/l of magnesium; above {most} mg/l it acts as a laxative; dilute"
    " it with distilled water",
    "sour": "the beer's water contains {amount} mg/l of magnesium; above {most}"
    " mg/l it begins to taste sour and bitter",
    "salty": "the beer's water contains {amount} mg/l of {ion}; above {most} mg/l it tastes salty",
    "harsh": "the beer's water contains {amount} mg/l of {ion}; above {most} mg/l it tastes harsh and of sulfur",
    "nobody-brews-with": ", and nobody brews with that much",
    "no-such-water": "no brewing water contains {amount} of {ion}; is its unit right?",
    "more-positive": "the water's positive ions are {more} mEq/l more than the others, so its analysis has a slip",
    "more-negative": "the water's negative ions are {more} mEq/l more than the others, so its analysis has a slip",
    "as-sulfur": "is its sulfate given as sulfur, a third of it?",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    salts, own = all_salts(brew), of_recipe(brew)
    if not own and not salts:
        return
    if own:
        yield from _beyond_water(brew, limits)
        if _a_slip(brew, limits):
            return
        yield from _balance(brew, limits)
    if liquor(brew).uncounted or _heaped(brew, limits):
        return  # some salts cannot be counted, or meant, so less is known than is said
    yield from _calcium(brew, limits)
    yield from _magnesium(brew, limits)
    yield from _tastes(brew, limits)


def _heaped(brew: Brew, limits: Limits) -> bool:
    """Whether there is so much of one salt that its weight is what is asked about."""
    put_in = liquor(brew)
    known = [volume.typical for volume in (put_in.mash_l, put_in.sparge_l) if volume is not None]
    grams = [1000 * dose.quantity.range.typical for dose in all_salts(brew)]
    return bool(grams) and max(grams) > limits.heaped_g_per_l * sum(known)


def _calcium(brew: Brew, limits: Limits) -> Iterator[Finding]:
    stated = stated_ion(brew, "calcium") is not None
    found = ions_in_mash(brew).get("calcium") if stated else liquor(brew).in_mash("calcium")
    if found is None:
        return
    if stated and below(found, limits.least_calcium_mg_per_l):
        limit = limits.least_calcium_mg_per_l
        message = say("little-calcium", amount=told(found.typical, limit, 3), least=number(limit))
    elif above(found, limits.most_calcium_mg_per_l):
        limit = limits.most_calcium_mg_per_l
        message = say("much-calcium", amount=told(found.typical, limit, 3), most=number(limit))
    else:
        return
    yield Finding(place(brew, "calcium"), Level.NOTE, message, gap=gap(found, limit), evidence=rows(brew, "calcium"))


def _magnesium(brew: Brew, limits: Limits) -> Iterator[Finding]:
    found = in_beer(brew, "magnesium")
    if found is None:
        return
    laxative = limits.laxative_magnesium_mg_per_l
    if level := above(found, laxative, harm=True):
        if by_salts(brew, "magnesium"):
            return  # said of the salts
        limit, sentence = laxative, "laxative"
    elif above(found, limits.usual_magnesium_mg_per_l):
        limit, sentence, level = limits.usual_magnesium_mg_per_l, "sour", Level.NOTE
    else:
        return
    yield Finding(
        place(brew, "magnesium"),
        level,
        say(sentence, amount=told(found.typical, limit, 3), most=number(limit)),
        gap=gap(found, limit),
        evidence=rows(brew, "magnesium"),
        knobs=(thinned(brew),) if level > Level.NOTE else (),
    )


def _tastes(brew: Brew, limits: Limits) -> Iterator[Finding]:
    warned: set[Path] = set()  # table salt brings two ions, and is one slip
    for ion, limit, sentence in (
        ("sodium", limits.most_sodium_mg_per_l, "salty"),
        ("chloride", limits.most_chloride_mg_per_l, "salty"),
        ("sulfate", limits.most_sulfate_mg_per_l, "harsh"),
    ):
        found = in_beer(brew, ion)
        if found is None or not above(found, limit) or (brew.intent.salty and ion != "sulfate"):
            continue
        path = place(brew, ion)
        far = path not in warned and bool(above(Range.exact(found.typical), limits.far_more_times * limit))
        if far:
            warned.add(path)
        message = say(sentence, amount=told(found.typical, limit, 3), ion=ion, most=number(limit))
        yield Finding(
            path,
            Level.WARNING if far else Level.NOTE,
            message.and_then(say("nobody-brews-with") if far else None),
            gap=gap(found, limit),
            evidence=rows(brew, ion),
            knobs=less_of_salt(brew, ion, found, limit) if far else (),
        )


def _beyond(brew: Brew, limits: Limits) -> Iterator[tuple[str, Quantity]]:
    water = brew.recipe.water
    for name in ("calcium", "magnesium", "sodium", "chloride", "sulfate", "bicarbonate", "alkalinity"):
        quantity = getattr(water, name)
        if quantity.known and quantity.range.typical > limits.beyond_water_mg_per_l:
            yield name, quantity


def _a_slip(brew: Brew, limits: Limits) -> bool:
    return next(_beyond(brew, limits), None) is not None


def _beyond_water(brew: Brew, limits: Limits) -> Iterator[Finding]:
    for name, stated in _beyond(brew, limits):
        yield Finding(
            as_written(brew, ("water", name)),
            Level.WARNING,
            say("no-such-water", amount=stated, ion=name),
            gap=gap(stated.range, limits.beyond_water_mg_per_l),
        )


_COUNTED = ("calcium", "magnesium", "sodium", "chloride", "sulfate")


def _balance(brew: Brew, limits: Limits) -> Iterator[Finding]:
    water, tap = brew.recipe.water, tap_water(brew)
    if tap.alkalinity_meq_l is None or len(tap.ions) < len(_COUNTED):
        return  # not a whole analysis
    ions = {ion: one.typical for ion, one in tap.ions.items()}
    off = imbalance_meq_l(ions, tap.alkalinity_meq_l.typical)
    sulfate = milliequivalents("sulfate", ions["sulfate"])
    positive = sum(milliequivalents(ion, ions[ion]) for ion in ("calcium", "magnesium", "sodium"))
    if abs(off) <= max(limits.balance_meq_per_l, limits.balance_share_percent / 100 * positive):
        return
    message = say("more-positive" if off > 0 else "more-negative", more=number(abs(off), 2))
    if abs(off - 2 * sulfate) < 0.05 * positive:
        message = message.and_then(say("as-sulfur"))
    yield Finding(water.path, Level.NOTE, message, gap=round(abs(off) / positive, 4) if positive else 1.0)


SOUND = """\
recipe: Spring Head Bitter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash:
  water: 12 l
  salts: {gypsum: 3 g}
sparge: {by: batch, water: 18 l}
water: {calcium: 60 mg/l, magnesium: 8 mg/l, sodium: 20 mg/l, chloride: 40 mg/l, sulfate: 55 mg/l, alkalinity: 110 mg/l}
"""
FAULTY = Example(
    """\
recipe: Spring Head Bitter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
mash: {water: 12 l}
water: {calcium: 60 mg/l, magnesium: 160 mg/l, alkalinity: 110 mg/l}
""",
    "error",
    7,
    38,
    "the beer's water contains 160 mg/l of magnesium; above 125 mg/l it acts as a laxative; dilute it with"
    " distilled water",
)
