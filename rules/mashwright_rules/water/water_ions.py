"""Does the water, with its salts, suit beer and those who drink it?

Calcium settles the mash and the yeast; sulfate makes a beer dry and bitter, chloride full; too much of anything tastes
of itself: magnesium sour and bitter, sodium salty. Magnesium loosens the bowels besides. What the taste should be is
the brewer's business, so nearly all of this is a note.

Computed: the ions of the recipe's water (liquor), or of the brewhouse's where the recipe adds salts to it, diluted as
stated, and the salts by molar mass in the volume of the water that they go into; calcium in the mash, the others in
all the water that gets into the kettle (copper). What the water does not state counts as 0 beside the salts that bring
it. Notes outside of the recommended ranges, and a warning where sodium, chloride or sulfate is three times the most of
them. Magnesium above 125 mg/l is an error, since it is laxative; where salts bring it, that is said of the salts. An
analysis whose positive and negative ions do not balance has a slip in it: potassium and nitrate apart, they must.
Silent on a brewhouse's water that nothing is added to.

On the day: test kits tell hardness, alkalinity and pH; for the rest ask the waterworks for the mean of the year.

Sources: [water-report-article] [water-101] the ranges, 50 and 125 mg/l of magnesium, [palmer-15], [common-practice] and
[from-memory] sodium, chloride and sulfate, [judgement] what no water can hold
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number, told
from mashwright.brewing.water import imbalance_meq_l, milliequivalents
from mashwright.figures.water import Dose, ions_in_kettle, ions_in_mash, liquor, tap_water
from mashwright.knobs import Knob, as_written, less_of_amount
from mashwright.measures import Range
from mashwright.rule import (
    Edit,
    Evidence,
    Example,
    Finding,
    Level,
    Limit,
    Open,
    Path,
    Settings,
    Unknown,
    above,
    below,
    gap,
)


class Limits(Settings):
    least_calcium_mg_per_l = Limit(50, "mg/l", low=0, high=150, source="water-report-article water-101")
    most_calcium_mg_per_l = Limit(250, "mg/l", low=100, high=500, source="judgement")
    usual_magnesium_mg_per_l = Limit(30, "mg/l", low=5, high=100, source="water-report-article water-101")
    laxative_magnesium_mg_per_l = Limit(125, "mg/l", low=50, high=125, source="water-101")
    most_sodium_mg_per_l = Limit(150, "mg/l", low=50, high=500, source="common-practice")
    most_chloride_mg_per_l = Limit(250, "mg/l", low=50, high=500, source="common-practice")
    most_sulfate_mg_per_l = Limit(350, "mg/l", low=50, high=800, source="common-practice")
    far_more_times = Limit(3, "times", low=1.5, high=10, source="judgement")
    beyond_water_mg_per_l = Limit(1500, "mg/l", low=500, high=10_000, source="judgement")
    heaped_g_per_l = Limit(1.5, "g/l", low=0.2, high=5, source="judgement")
    balance_meq = Limit(1.0, "mEq/l", low=0.2, high=10, source="judgement")
    balance_share_percent = Limit(20, "%", low=5, high=100, source="judgement")


_COUNTED = ("calcium", "magnesium", "sodium", "chloride", "sulfate")
_TASTES = {"sodium": "it tastes salty", "chloride": "it tastes salty", "sulfate": "it tastes harsh and of sulfur"}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    put_in, of_recipe = liquor(brew), _of_recipe(brew)
    if not of_recipe and not _all(brew):
        return
    if of_recipe:
        yield from _beyond_water(brew, limits)
        if _a_slip(brew, limits):
            return
        yield from _balance(brew, limits)
    if put_in.uncounted or _heaped(brew, limits):
        return  # some salts cannot be counted, or meant, so less is known than is said
    yield from _calcium(brew, limits)
    yield from _magnesium(brew, limits)
    yield from _tastes(brew, limits)


def _told_of(brew: Brew) -> bool:
    """Whether recipe or brewhouse says anything of the water.

    Raises:
        Unknown: it stands there but cannot be read.
    """
    try:
        tap_water(brew)
    except Open:
        raise
    except Unknown:
        return False
    return True


def _of_recipe(brew: Brew) -> bool:
    return _told_of(brew) and tap_water(brew).of_recipe


def _own(brew: Brew, ion: str) -> Range | None:
    """What the water states of an ion, mg/l."""
    return tap_water(brew).ions.get(ion) if _told_of(brew) else None


def _in_beer(brew: Brew, ion: str) -> Range | None:
    """An ion in all the water, mg/l: where the water does not state it, what the salts bring; None without either."""
    if _own(brew, ion) is not None:
        return ions_in_kettle(brew).get(ion)
    added = liquor(brew).in_kettle(ion)
    return added if added.typical > 0 else None


def _place(brew: Brew, ion: str) -> Path:
    """The salt that brings most of an ion, or the water."""
    put_in = liquor(brew)
    doses = [dose for dose in (*put_in.mash, *put_in.sparge, *put_in.kettle) if ion in dose.gives]
    if doses and _by_salts(brew, ion):
        return max(doses, key=lambda dose: dose.gives[ion].typical).amount.path
    if _of_recipe(brew):
        return as_written(brew, ("water", ion))
    return max(_all(brew), key=lambda dose: sum(one.typical for one in dose.gives.values())).amount.path


def _heaped(brew: Brew, limits: Limits) -> bool:
    """Whether there is so much of one salt that its weight is what is asked about."""
    put_in = liquor(brew)
    known = [volume.typical for volume in (put_in.mash_l, put_in.sparge_l) if volume is not None]
    grams = [1000 * dose.quantity.range.typical for dose in _all(brew)]
    return bool(grams) and max(grams) > limits.heaped_g_per_l * sum(known)


def _all(brew: Brew) -> tuple[Dose, ...]:
    put_in = liquor(brew)
    return (*put_in.mash, *put_in.sparge, *put_in.kettle)


def _by_salts(brew: Brew, ion: str) -> bool:
    own = _own(brew, ion)
    return liquor(brew).in_kettle(ion).typical > (own.typical if own is not None else 0.0)


def _rows(brew: Brew, ion: str) -> tuple[Evidence, ...]:
    own = _own(brew, ion)
    water = (Evidence(f"{ion} of the water", own.typical, "mg/l"),) if own is not None else ()
    salts = (
        Evidence(
            f"{dose.amount.name}, {dose.quantity.text}",
            dose.gives[ion].typical,
            f"mg of {ion}",
            dose.amount.path,
        )
        for dose in _all(brew)
        if ion in dose.gives
    )
    return (*water, *salts)


def _calcium(brew: Brew, limits: Limits) -> Iterator[Finding]:
    stated = _own(brew, "calcium") is not None
    found = ions_in_mash(brew).get("calcium") if stated else liquor(brew).in_mash("calcium")
    if found is None:
        return
    if stated and below(found, limits.least_calcium_mg_per_l):
        limit = limits.least_calcium_mg_per_l
        words = "is usual at least, though pale lagers are brewed with less"
    elif above(found, limits.most_calcium_mg_per_l):
        limit, words = limits.most_calcium_mg_per_l, "is more than mash and yeast have any use for"
    else:
        return
    amount = told(found.typical, limit, 3)
    message = f"the mash water holds {amount} mg/l of calcium; {number(limit)} {words}"
    yield Finding(_place(brew, "calcium"), Level.NOTE, message, gap=gap(found, limit), evidence=_rows(brew, "calcium"))


def _magnesium(brew: Brew, limits: Limits) -> Iterator[Finding]:
    found = _in_beer(brew, "magnesium")
    if found is None:
        return
    laxative = limits.laxative_magnesium_mg_per_l
    if level := above(found, laxative, harm=True):
        if _by_salts(brew, "magnesium"):
            return  # said of the salts
        limit, words = laxative, "it loosens the bowels: thin it with distilled water"
    elif above(found, limits.usual_magnesium_mg_per_l):
        limit, words, level = limits.usual_magnesium_mg_per_l, "it begins to taste sour and bitter", Level.NOTE
    else:
        return
    message = f"the beer's water holds {told(found.typical, limit, 3)} mg/l of magnesium; above {number(limit)} {words}"
    yield Finding(
        _place(brew, "magnesium"),
        level,
        message,
        gap=gap(found, limit),
        evidence=_rows(brew, "magnesium"),
        knobs=(_thinned(brew),) if level > Level.NOTE else (),
    )


def _thinned(brew: Brew) -> Knob:
    """Distilled water in the recipe's own, in twentieths."""
    water = brew.recipe.water
    stated = water.dilution
    first = int(stated.range.typical / 5) + 1 if stated.known else 1

    def text(step: int) -> str:
        return f"{5 * (first + step)} %"

    return Knob(
        max(0, 20 - first),
        lambda step: (Edit(brew.recipe.water.dilution.path, text(step)),),
        lambda step: f"{text(step)} of the water distilled",
    )


def _tastes(brew: Brew, limits: Limits) -> Iterator[Finding]:
    warned: set[Path] = set()  # table salt brings two ions, and is one slip
    for ion, limit in (
        ("sodium", limits.most_sodium_mg_per_l),
        ("chloride", limits.most_chloride_mg_per_l),
        ("sulfate", limits.most_sulfate_mg_per_l),
    ):
        found = _in_beer(brew, ion)
        if found is None or not above(found, limit) or (brew.intent.salty and ion != "sulfate"):
            continue
        path = _place(brew, ion)
        far = path not in warned and bool(above(Range.exact(found.typical), limits.far_more_times * limit))
        if far:
            warned.add(path)
        amount = told(found.typical, limit, 3)
        message = f"the beer's water holds {amount} mg/l of {ion}; above {number(limit)} {_TASTES[ion]}"
        yield Finding(
            path,
            Level.WARNING if far else Level.NOTE,
            f"{message}, and so much nobody brews with" if far else message,
            gap=gap(found, limit),
            evidence=_rows(brew, ion),
            knobs=_less(brew, ion, found, limit) if far else (),
        )


def _less(brew: Brew, ion: str, found: Range, limit: float) -> tuple[Knob, ...]:
    """Less of the salt that brings most of an ion, where that alone brings it back to the usual."""
    doses = [dose for dose in _all(brew) if ion in dose.gives]
    most = max(doses, key=lambda dose: dose.gives[ion].typical, default=None)
    if most is None:
        return ()
    by_salts = liquor(brew).in_kettle(ion).typical
    brings = by_salts * most.gives[ion].typical / sum(dose.gives[ion].typical for dose in doses)
    share = (brings - (found.typical - limit)) / brings if brings > 0 else 0.0
    return (less_of_amount(most.amount, share * most.quantity.range.typical),) if share > 0 else ()


def _beyond(brew: Brew, limits: Limits) -> Iterator[tuple[str, Range, str]]:
    water = brew.recipe.water
    for name in ("calcium", "magnesium", "sodium", "chloride", "sulfate", "bicarbonate", "alkalinity"):
        quantity = getattr(water, name)
        if quantity.known and quantity.range.typical > limits.beyond_water_mg_per_l:
            yield name, quantity.range, quantity.text


def _a_slip(brew: Brew, limits: Limits) -> bool:
    return next(_beyond(brew, limits), None) is not None


def _beyond_water(brew: Brew, limits: Limits) -> Iterator[Finding]:
    for name, value, text in _beyond(brew, limits):
        message = f"no water to brew with holds {text} of {name}: is its unit right"
        yield Finding(
            as_written(brew, ("water", name)), Level.WARNING, message, gap=gap(value, limits.beyond_water_mg_per_l)
        )


def _balance(brew: Brew, limits: Limits) -> Iterator[Finding]:
    water, tap = brew.recipe.water, tap_water(brew)
    if tap.alkalinity_meq_l is None or len(tap.ions) < len(_COUNTED):
        return  # not a whole analysis
    ions = {ion: one.typical for ion, one in tap.ions.items()}
    off = imbalance_meq_l(ions, tap.alkalinity_meq_l.typical)
    sulfate = milliequivalents("sulfate", ions["sulfate"])
    positive = sum(milliequivalents(ion, ions[ion]) for ion in ("calcium", "magnesium", "sodium"))
    if abs(off) <= max(limits.balance_meq, limits.balance_share_percent / 100 * positive):
        return
    as_sulfur = "; is its sulfate given as sulfur, a third of it" if abs(off - 2 * sulfate) < 0.05 * positive else ""
    more = "positive" if off > 0 else "negative"
    message = (
        f"the water's {more} ions are {number(abs(off), 2)} mEq/l more than the others, so its analysis has a slip"
    )
    yield Finding(
        water.path, Level.NOTE, f"{message}{as_sulfur}", gap=round(abs(off) / positive, 4) if positive else 1.0
    )


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
    "the beer's water holds 160 mg/l of magnesium; above 125 it loosens the bowels: thin it with distilled water",
)
