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
from mashwright.brewing.mash_ph import ACID_BUFFER_MEQ
from mashwright.figures.water import Dose, Liquor, acid_meq, liquor, tap_water
from mashwright.ingredients.lookup import most_guessed
from mashwright.ingredients.minerals import acid as known_acid
from mashwright.ingredients.minerals import nearest as nearest_mineral
from mashwright.ingredients.minerals import salt as known_salt
from mashwright.knobs import Knob, less_of_amount
from mashwright.measures import Kind, Range, said
from mashwright.recipe.model import Amount
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Settings, Unknown, above, gap
from mashwright.words.vocabulary import mentions


class Limits(Settings):
    doubted_g_per_l = Limit(1.5, "g/l", low=0.2, high=5, source="judgement")
    doubted_chloride_g_per_l = Limit(1.0, "g/l", low=0.2, high=5, source="judgement")
    most_g_per_l = Limit(3, "g/l", low=0.5, high=3, source="judgement")
    laxative_magnesium_mg_per_l = Limit(125, "mg/l", low=50, high=125, source="water-101")
    most_acid_meq_per_l = Limit(150, "mEq/l", low=20, high=150, source="judgement")
    most_mineral_acid_meq_per_l = Limit(40, "mEq/l", low=5, high=40, source="judgement")
    sparge_acid_meq_per_l = Limit(5, "mEq/l", low=1, high=50, source="judgement")
    mash_acid_meq_per_kg = Limit(80, "mEq/kg", low=20, high=200, source="judgement")
    strong_percent = Limit(30, "%", low=5, high=100, source="judgement")


CAUTION = "goggles and gloves, and acid into water, never water into acid"
_WEIGHED = ("citric acid", "tartaric acid", "malic acid")
_CAUSTIC = ("slaked lime", "washing soda")


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
    unknown = [amount.path for amount in salts if known_salt(amount.name) is None]
    unknown += [amount.path for amount in acids if known_acid(amount.name) is None]
    guessed = frozenset(unknown[: most_guessed()])
    for amount in salts:
        yield from _named_salt(amount, guess=amount.path in guessed)
    for amount in acids:
        yield from _named_acid(amount, limits, guess=amount.path in guessed)
    put_in = liquor(brew)
    yield from _magnesium(brew, put_in, limits)
    yield from _doses(brew, put_in, limits)
    yield from _acid_doses(brew, put_in, limits)


def _named_salt(amount: Amount, *, guess: bool) -> Iterator[Finding]:
    name, known = amount.name, known_salt(amount.name)
    if known is None:
        yield _unknown(amount, "salts", "acids", guess=guess)
    elif amount.quantity.known and amount.quantity.kind is Kind.VOLUME and known != "uncounted":
        solution = ", and a solution by the salt that is in it" if known == "calcium chloride" else ""
        message = f"{name} is weighed{solution}; {amount.quantity.text} of it cannot be counted"
        yield Finding(amount.path, Level.WARNING, message, gap=1.0)
    elif known in _CAUSTIC and (not amount.quantity.known or amount.quantity.range.high > 0):
        yield Finding(
            amount.path,
            Level.NOTE,
            f"{name} is caustic: goggles and gloves, and stir it into cold water, never near acid",
        )


def _unknown(amount: Amount, table: str, other: str, *, guess: bool) -> Finding:
    name = amount.name
    if table == "salts" and known_acid(name) is not None:
        return Finding(amount.path, Level.WARNING, f"{name} is an acid and is not counted here; put it under acid")
    if table == "acids" and known_salt(name) is not None:
        return Finding(amount.path, Level.WARNING, f"{name} is a salt and is not counted here; put it under salts")
    near = (nearest_mineral(name, table) or nearest_mineral(name, other)) if guess else None
    meant = f"; did you mean {near}" if near is not None else ""
    what = "" if near is not None else f" among the {table}"
    return Finding(
        amount.path, Level.WARNING, f"nothing is known of {name}{what}, so it is not counted{meant}", gap=1.0
    )


def _named_acid(amount: Amount, limits: Limits, *, guess: bool) -> Iterator[Finding]:
    name = amount.name
    found = known_acid(name)
    if mentions("poison-acid", "ingredient", name):
        yield Finding(amount.path, Level.ERROR, f"{name} is poisonous or caustic and has no place in a beer", gap=1.0)
        return
    if found is None:
        yield _unknown(amount, "acids", "salts", guess=guess)
        return
    known, percent = found
    if known == "acidulated malt":
        return
    if amount.quantity.known and amount.quantity.kind is Kind.VOLUME and known in _WEIGHED:
        message = f"{name} is weighed; {amount.quantity.text} of a solution of it cannot be counted"
        yield Finding(amount.path, Level.WARNING, message, gap=1.0)
    if mentions("no-food-acid", "ingredient", name):
        message = f"{name} is sold for cleaning and batteries, not for food; only food-grade acid goes into beer"
        yield Finding(amount.path, Level.ERROR, message, gap=1.0)
    elif known == "phosphoric acid" and percent is None:
        message = f"{name} is sold at 10 % and at 85 %, ten times as strong: say which; {CAUTION}"
        yield Finding(amount.path, Level.NOTE, message)
    elif known in ("hydrochloric acid", "sulfuric acid") or (
        known == "phosphoric acid" and (percent or 0) > limits.strong_percent
    ):
        message = f"{name} burns eyes and skin: {CAUTION}"
        yield Finding(amount.path, Level.NOTE, message)


def _magnesium(brew: Brew, put_in: Liquor, limits: Limits) -> Iterator[Finding]:
    doses = [dose for dose in _all(put_in) if "magnesium" in dose.gives]
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
    message = (
        f"{quantity.text} of {largest.amount.name} brings the beer's water to {told(total.typical, limit, 3)} mg/l of"
        f" magnesium; above {number(limit)} it loosens the bowels"
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
        knobs=(less_of_amount(largest.amount, _usual(quantity.range.typical, _together(put_in))),),
    )


def _all(put_in: Liquor) -> tuple[Dose, ...]:
    return (*put_in.mash, *put_in.sparge, *put_in.kettle)


def _together(put_in: Liquor) -> Range | None:
    """All the water that mash and sparge are made with."""
    known = [volume for volume in (put_in.mash_l, put_in.sparge_l) if volume is not None]
    return Range.weighted_sum([(volume, 1.0) for volume in known]) if known else None


def _doses(brew: Brew, put_in: Liquor, limits: Limits) -> Iterator[Finding]:
    tun = _together(put_in)
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
            water = said(volume.typical, _unit(brew), Kind.VOLUME)
            usual_kg = _usual(quantity.range.typical, volume)
            message = (
                f"{quantity.text} of {dose.amount.name} in {water} of water is"
                f" {told(rate.typical, limit)} g/l; {number(limit)} g/l is more than any beer carries"
            )
            if not most:
                message = message.replace("is more than any beer carries", "is the most that beers are brewed with")
            yield Finding(
                dose.amount.path,
                Level.ERROR if most else Level.WARNING,
                message,
                gap=gap(rate, limit),
                evidence=(Evidence("water", volume.typical, "l"),),
                knobs=_less(dose.amount, quantity.range.typical, usual_kg),
            )


def _usual(kg: float, water_l: Range | None) -> float:
    """A weight that is usual in so much water, kg: a tenth where a point slipped, else 0.33 g/l; judgement."""
    litres = water_l.typical if water_l is not None else 0.0
    return 0.1 * kg if 0.1 * kg <= 0.0005 * litres else 0.00033 * litres


def _less(amount: Amount, kg: float, usual_kg: float) -> tuple[Knob, ...]:
    """A usual weight; where no point has slipped, a small one as well, since what else is there may leave no room."""
    slipped = abs(usual_kg - 0.1 * kg) < 1e-9
    return tuple(less_of_amount(amount, usual_kg * share) for share in ((1.0,) if slipped else (1.0, 0.3)))


def _unit(brew: Brew) -> str:
    mash, batch = brew.recipe.mash, brew.recipe.batch
    for quantity in (mash.water, batch.stated):
        if quantity.known:
            return quantity.unit
    return "l"


def _acid_doses(brew: Brew, put_in: Liquor, limits: Limits) -> Iterator[Finding]:
    tun = _together(put_in)
    doses = (*put_in.mash_acids, *put_in.sparge_acids)
    if not doses:
        return
    meq = acid_meq(doses)
    largest = max(doses, key=lambda dose: dose.gives["acid"].typical)
    knobs = (less_of_amount(largest.amount, 0.02 * largest.quantity.range.typical),) if largest.quantity else ()
    text = largest.quantity.text
    if tun is not None and tun.typical > 0:
        rate = Range(meq.low / tun.high, meq.typical / tun.typical, meq.high / tun.low if tun.low > 0 else meq.high)
        mineral = largest.known in ("phosphoric acid", "hydrochloric acid", "sulfuric acid")
        limit = limits.most_mineral_acid_meq_per_l if mineral else limits.most_acid_meq_per_l
        if above(Range.exact(rate.typical), limit):
            water = said(tun.typical, _unit(brew), Kind.VOLUME)
            message = (
                f"{text} of {largest.amount.name} in {water} of water is {told(rate.typical, limit)} mEq/l of acid,"
                f" more than anybody should drink; {CAUTION}"
            )
            yield Finding(largest.amount.path, Level.ERROR, message, gap=gap(rate, limit), knobs=knobs)
            return
    yield from _sparge_acid(brew, put_in, limits)
    yield from _mash_acid(brew, put_in, limits)


def _sparge_acid(brew: Brew, put_in: Liquor, limits: Limits) -> Iterator[Finding]:
    sparge = brew.recipe.sparge
    if not put_in.sparge_acids or not sparge.water.known or sparge.water.range.low <= 0:
        return
    try:
        alkalinity = tap_water(brew).alkalinity_meq_l
    except Unknown:
        alkalinity = None
    if alkalinity is None:
        return
    litres = sparge.water.range.typical
    rate = acid_meq(put_in.sparge_acids).typical / litres
    limit = alkalinity.typical + limits.sparge_acid_meq_per_l
    if not above(Range.exact(rate), limit):
        return
    largest = max(put_in.sparge_acids, key=lambda dose: dose.gives["acid"].typical)
    quantity = largest.quantity
    message = (
        f"{quantity.text} of {largest.amount.name} in {sparge.water.text} is {told(rate, alkalinity.typical)} mEq/l of"
        f" acid, but the water has only {number(alkalinity.typical, 2)} mEq/l of alkalinity to meet; {CAUTION}"
    )
    yield Finding(
        largest.amount.path,
        Level.WARNING,
        message,
        gap=gap(Range.exact(rate), limit),
        knobs=(less_of_amount(largest.amount, alkalinity.typical / rate * quantity.range.typical),),
    )


def _mash_acid(brew: Brew, put_in: Liquor, limits: Limits) -> Iterator[Finding]:
    """So much acid that its amount is the question, and not the pH of the mash."""
    if not put_in.mash_acids:
        return
    grain_kg = sum(part.weight_kg for part in brew.mashed())
    rate = acid_meq(put_in.mash_acids).typical / grain_kg
    limit = limits.mash_acid_meq_per_kg
    if not above(Range.exact(rate), limit):
        return
    largest = max(put_in.mash_acids, key=lambda dose: dose.gives["acid"].typical)
    quantity = largest.quantity
    message = (
        f"{quantity.text} of {largest.amount.name} is {told(rate, limit)} mEq of acid to each kg of grain, which lowers"
        f" the mash by about {number(rate / ACID_BUFFER_MEQ.typical, 2)} pH; {CAUTION}"
    )
    yield Finding(
        largest.amount.path,
        Level.WARNING,
        message,
        gap=gap(Range.exact(rate), limit),
        knobs=(less_of_amount(largest.amount, 0.25 * limit / rate * quantity.range.typical),),
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
    "80 g of gypsum in 32 l of water is 2.5 g/l; 1.5 g/l is the most that beers are brewed with",
)
