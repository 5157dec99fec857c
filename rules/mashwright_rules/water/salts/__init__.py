"""Are the salts and acids known, and are their amounts ones that a brewer can mean and a drinker can bear?

Salts are weighed in grams, and a slip of the decimal point makes a beer that nobody should drink: Epsom salt is a
laxative, table salt in such amounts harms, lime and soda are caustic, strong acids burn eyes and skin. They are
food-grade, weighed on a scale that shows tenths of a gram, and kept away from one another and from cleaners.

Computed: each salt against all the water that it ends in, mash and sparge together (or the kettle, also called
copper, for salts of the boil): above 1.5 grams to the litre it is doubted (1 g/l of calcium chloride), above 3 an
error. Magnesium by all salts and the water together is an error above 125 mg/l, where it loosens the bowels, and a
warning where only the unfavourable end is above. Acid against the same water: above 150 mEq to the litre, more than
the sourest beer carries, or 40 of a mineral acid, an error; in the sparge it is warned of where it is 5 mEq to the
litre more than the water's alkalinity; in the mash from 80 mEq to the kilogram of grain. A name that is not known is
not counted, and is a warning; a salt among the acids is told where it belongs. Strong acids, lime and washing soda
get a note of caution.

On the day: goggles and gloves, acid into water and never water into acid, nothing beside chlorine cleaners; dissolve
salts in a cup of the liquor (water) first, and lime in cold water. Keep to the label, and to local rules on storing.

Sources: [water-101] magnesium, [judgement] grams to the litre and acid, [common-practice] cautions,
[lactic-acid-strength] [iupac-atomic-weights]
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
    "is-weighed-or-dissolved": "{name} is weighed, and a solution by the salt that is in it; {amount} of it cannot be"
    " counted",
    "acid-is-weighed": "{name} is weighed; {amount} of a solution of it cannot be counted",
    "caustic": "{name} is caustic: goggles and gloves, and stir it into cold water, never near acid",
    "poison": "{name} is poisonous or caustic and has no place in a beer",
    "no-food": "{name} is sold for cleaning and batteries, not for food; only food-grade acid goes into beer",
    "which-strength": "{name} is sold at 10 % and at 85 %, which is far stronger; state which",
    "strong-acid": "{name} burns eyes and skin",
    "laxative": "{amount} of {name} brings the beer's water to {magnesium} mg/l of magnesium; above {most} it acts as a"
    " laxative",
    "too-much": "{amount} of {name} in {water} of water is {rate} g/l; no beer has more than {most} g/l",
    "much": "{amount} of {name} in {water} of water is {rate} g/l; beers are brewed with at most {most} g/l",
    "too-much-acid": "{amount} of {name} in {water} of water is {rate} mEq/l of acid, more than anybody should drink",
    "much-in-the-sparge": "{amount} of {name} in {water} is {rate} mEq/l of acid, but the water has only {alkalinity}"
    " mEq/l of"
    " alkalinity",
    "much-in-the-mash": "{amount} of {name} is {rate} mEq of acid to each kg of grain, which lowers the mash by about"
    " {lower} pH",
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
