"""Are the salts and acids known, in amounts that are meant and safe to drink?

Salts are weighed in grams, and a decimal point in the wrong place makes beer
that nobody should drink. Epsom salt is a laxative, and that much table salt
harms. Lime and soda are caustic; strong acids burn eyes and skin. Use food
grade, on a scale that shows 0.1 g. Keep salts and acids apart from each other
and from cleaners.

What is checked: each salt and acid by its name, and each amount against the
water that it ends in. That is mash and sparge water together, or the kettle
for salts of the boil. Magnesium of all salts and of the water counts
together. A salt with too much magnesium alone is reported for that only.

  amount                        warning            error
  a salt                        above 1.5 g/l      above 3 g/l
  calcium chloride              above 1 g/l        above 3 g/l
  magnesium (a laxative)        worst case above   above 125 mg/l
                                125 mg/l
  acid                                             above 150 mEq/l
    if most is mineral acid                        above 40 mEq/l
  acid in the mash              above 80 mEq to
                                a kg of grain
  acid in the sparge            5 mEq/l above the
                                water's alkalinity

- even the sourest beer has less than 150 mEq/l. Mineral acids: phosphoric,
  hydrochloric and sulfuric acid. Above these limits the acid in mash and
  sparge draws no other finding.
- error: an acid that is poisonous or caustic, such as oxalic or nitric acid
- error: acid sold for cleaning or batteries, such as muriatic acid
- warning: an unknown name, which is not counted
- warning: a salt under `acid`, or an acid under `salts`, which is not counted
- warning: a volume of something that is weighed: a salt; citric, tartaric or
  malic acid
- note, with a caution: slaked lime or washing soda; hydrochloric or sulfuric
  acid; phosphoric acid above 30 %, or of no stated strength
- skipped: more magnesium is in the water than in the salts: see water-ions

On the day: goggles and gloves; acid into water, never water into acid. Keep
chlorine cleaners away. Dissolve salts in a cup of water first, and lime in
cold water. Keep to the label and to local rules on storing.

Sources: [water-101] magnesium, [judgement] grams to the litre and acid,
[common-practice] cautions, [lactic-acid-strength] [iupac-atomic-weights]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number, told
from mashwright.figures.water import Liquor, liquor, tap_water
from mashwright.ingredients.lookup import most_guessed
from mashwright.ingredients.minerals import acid as known_acid
from mashwright.ingredients.minerals import salt as known_salt
from mashwright.knobs import less_of_amount
from mashwright.measures import Kind, Range, said
from mashwright.measures.bounds import LAXATIVE_MAGNESIUM_MG_PER_L
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Settings, Unknown, above, gap, say
from mashwright_rules.water.salts._acids import mash_acid, sparge_acid, too_much_acid
from mashwright_rules.water.salts._amounts import all_salts, less_of, mash_and_sparge, unit_of_water, usual_kg
from mashwright_rules.water.salts._names import named_acid, named_salt


class Limits(Settings):
    doubted_g_per_l = Limit(1.5, "g/l", low=0.2, high=5, source="judgement")
    doubted_chloride_g_per_l = Limit(1.0, "g/l", low=0.2, high=5, source="judgement")
    most_g_per_l = Limit(3, "g/l", low=0.5, high=3, source="judgement")
    laxative_magnesium_mg_per_l = Limit.at(LAXATIVE_MAGNESIUM_MG_PER_L)
    most_acid_meq_per_l = Limit(150, "mEq/l", low=20, high=150, source="judgement")
    most_mineral_acid_meq_per_l = Limit(40, "mEq/l", low=5, high=40, source="judgement")
    sparge_acid_meq_per_l = Limit(5, "mEq/l", low=1, high=50, source="judgement")
    mash_acid_meq_per_kg = Limit(80, "mEq/kg", low=20, high=200, source="judgement")
    strong_percent = Limit(30, "%", low=5, high=100, source="judgement")


SAYS = {
    "unknown": "nothing is known of {name}, so it is not counted",
    "unknown-salt": "nothing is known of {name} among the salts, so it is not counted",
    "unknown-acid": "nothing is known of {name} among the acids, so it is not counted",
    "did-you-mean": "did you mean {meant}?",
    "is-an-acid": "{name} is an acid and is not counted here; put it under acid",
    "is-a-salt": "{name} is a salt and is not counted here; put it under salts",
    "is-weighed": "{name} is weighed; {amount} of it cannot be counted",
    "is-weighed-or-dissolved": "{name} is weighed, and a solution by the salt that is"
    " in it; {amount} of it cannot be counted",
    "acid-is-weighed": "{name} is weighed; {amount} of a solution of it cannot be counted",
    "caustic": "{name} is caustic: goggles and gloves, and stir it into cold water, never near acid",
    "poison": "{name} is poisonous or caustic and has no place in a beer",
    "no-food": "{name} is sold for cleaning and batteries, not for food; only food-grade acid goes into beer",
    "which-strength": "{name} is sold at 10 % and at 85 %, which is far stronger; state which",
    "strong-acid": "{name} burns eyes and skin",
    "laxative": "{amount} of {name} brings the beer's water to {magnesium} mg/l of"
    " magnesium; above {most} mg/l it acts as a laxative",
    "too-much": "{amount} of {name} in {water} of water is {rate} g/l; no beer has more than {most} g/l",
    "much": "{amount} of {name} in {water} of water is {rate} g/l; beers are brewed with at most {most} g/l",
    "too-much-acid": "{amount} of {name} in {water} of water is {rate} mEq/l of acid, more than anyone should drink",
    "much-in-the-sparge": "{amount} of {name} in {water} is {rate} mEq/l of acid, but"
    " the water has only {alkalinity} mEq/l of alkalinity",
    "much-in-the-mash": "{amount} of {name} is {rate} mEq of acid to each kg of grain,"
    " which lowers mash pH by about {lower}",
    "with-care": "goggles and gloves, and acid into water, never water into acid",
    "care": ": goggles and gloves, and acid into water, never water into acid",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    recipe = brew.recipe
    mash, sparge, boil = recipe.mash, recipe.sparge, recipe.boil
    salts = (
        *(mash.salts if mash.known else ()),
        *(sparge.salts if sparge.known else ()),
        *(boil.salts if boil.known else ()),
    )
    acids = (*(mash.acid if mash.known else ()), *(sparge.acid if sparge.known else ()))
    if not salts and not acids:
        return
    unknown = [amount.path for amount in salts if not known_salt(amount.name)]
    unknown += [amount.path for amount in acids if not known_acid(amount.name)]
    guessed = frozenset(unknown[: most_guessed()])
    for amount in salts:
        yield from named_salt(amount, guess=amount.path in guessed)
    for amount in acids:
        yield from named_acid(amount, limits.strong_percent, guess=amount.path in guessed)
    put_in = liquor(brew)
    yield from _magnesium(brew, put_in, limits)
    yield from _doses(brew, put_in, limits)
    most = limits.most_acid_meq_per_l, limits.most_mineral_acid_meq_per_l
    if (too_much := too_much_acid(brew, put_in, *most)) is not None:
        yield too_much
        return
    yield from sparge_acid(brew, put_in, limits.sparge_acid_meq_per_l)
    yield from mash_acid(brew, put_in, limits.mash_acid_meq_per_kg)


def _magnesium(brew: Brew, put_in: Liquor, limits: Limits) -> Iterator[Finding]:
    doses = [dose for dose in all_salts(put_in) if "magnesium" in dose.gives]
    if not doses:
        return
    try:
        own = tap_water(brew).ions.get("magnesium", Range.exact(0.0))
    except Unknown:
        own = Range.exact(0.0)
    added = put_in.in_kettle("magnesium")
    total = Range.weighted_sum([(own, 1.0), (added, 1.0)])
    limit = limits.laxative_magnesium_mg_per_l
    level = above(total, limit, harm=True)
    if not level or own.typical > added.typical:
        return  # a water that is laxative by itself is another question
    largest = max(doses, key=lambda dose: dose.gives["magnesium"].typical)
    quantity = largest.quantity
    message = say(
        "laxative",
        amount=quantity,
        name=largest.amount.name,
        magnesium=told(total.typical, limit, 3),
        most=number(limit),
    )
    yield Finding(
        largest.amount.path,
        level,
        message,
        gap=gap(total, limit),
        evidence=(
            Evidence("magnesium of the water", own.typical, "mg/l", brew.recipe.water.path),
            Evidence("magnesium of the salts", added.typical, "mg/l", largest.amount.path),
        ),
        knobs=(less_of_amount(largest.amount, usual_kg(quantity.range.typical, mash_and_sparge(put_in))),),
    )


def _doses(brew: Brew, put_in: Liquor, limits: Limits) -> Iterator[Finding]:
    tun = mash_and_sparge(put_in)
    magnesium = limits.laxative_magnesium_mg_per_l
    for doses, volume in ((put_in.mash, tun), (put_in.sparge, tun), (put_in.kettle, put_in.kettle_l)):
        for dose in doses:
            quantity = dose.quantity
            if not quantity.known or volume is None or volume.low <= 0:
                continue
            grams = quantity.range * 1000
            rate = Range(grams.low / volume.high, grams.typical / volume.typical, grams.high / volume.low)
            most = bool(above(Range.exact(rate.typical), limits.most_g_per_l))
            doubted = limits.doubted_chloride_g_per_l if dose.known == "calcium chloride" else limits.doubted_g_per_l
            limit = limits.most_g_per_l if most else doubted
            if not above(Range.exact(rate.typical), limit):
                continue
            if "magnesium" in dose.gives and dose.gives["magnesium"].typical / volume.typical > magnesium:
                continue  # said of the magnesium
            water = said(volume.typical, unit_of_water(brew), Kind.VOLUME)
            usual = usual_kg(quantity.range.typical, volume)
            message = say(
                "too-much" if most else "much",
                amount=quantity,
                name=dose.amount.name,
                water=water,
                rate=told(rate.typical, limit),
                most=number(limit),
            )
            yield Finding(
                dose.amount.path,
                Level.ERROR if most else Level.WARNING,
                message,
                gap=gap(rate, limit),
                evidence=(Evidence("water", volume.typical, "l"),),
                knobs=less_of(dose.amount, quantity.range.typical, usual),
            )


SOUND = """\
recipe: Ropewalk IPA
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
mash:
  water: 15 l
  salts: {gypsum: 8 g, calcium chloride: 2 g, Epsom salt: 2 g}
  acid: {lactic acid 80 %: 4 ml}
sparge: {by: batch, water: 17 l}
"""
FAULTY = Example(
    """\
recipe: Ropewalk IPA
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
mash:
  water: 15 l
  salts: {gypsum: 80 g}
sparge: {by: batch, water: 17 l}
""",
    "warning",
    8,
    19,
    "80 g of gypsum in 32 l of water is 2.5 g/l; beers are brewed with at most 1.5 g/l",
)
