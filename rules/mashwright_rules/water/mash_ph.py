"""Will the mash come to a pH that suits its enzymes and the taste of the beer?

Between 5.2 and 5.6, in a cooled sample, starch turns to sugar fastest, the wort runs clear and little harshness comes
out of the husks. Pale malt in alkaline water stays above it, much dark malt in soft water, or too much acid, falls
below. A reading in the hot mash is about 0.35 lower than in the same sample cooled.

Computed: what the grist gives in distilled water, by kind and colour of its grain and what each buffers; moved by the
residual alkalinity of the water with its salts, more in a thin mash than in a thick one; lowered by acidulated malt and
by acids, as far as they dissociate at the pH that they bring about, over what this grist buffers. Two malts of one name
differ by a tenth, so this is a band of 0.15 either way at best, and never an error: a note where its middle is more
than a tenth outside of 5.2 to 5.8, a warning where all of it is outside. A stated pH is held to be measured or meant:
it is asked about outside of 5.2 to 5.8, warned of outside of 5.0 to 6.0, and a note is made where water and grist lead
elsewhere. Where baking soda, washing soda, chalk or lime in the mash has its part in a pH that is too high, it is
named, and less of it or none is offered before any acid. Where only the brewhouse knows the water, no more than a note,
and only where all of the band is outside. Silent where nothing is known of the water, on low pH where a sour beer is
meant, and where so much acid or calcium goes in that its amount is the question.

On the day: cool a spoonful of mash to room temperature after ten minutes and measure it; add acid by the millilitre.
Strong acid burns: goggles and gloves, and acid into water, never water into acid.

Sources: [palmer-15] 5.2-5.6, [troester-ph-control] 5.0-6.0, [briggs-2004] hot and cooled, [troester-mash-ph]
[mash-ph-page] [delange-2015] [oxford-acidulated], [from-memory] and [judgement] the malts,
5.8 and the width of the band
"""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew import Brew, number, told
from mashwright.brewing.acids import MASH_PH, meq_per_ml
from mashwright.brewing.mash_ph import slope_ph_per_meq_l
from mashwright.brewing.water import CACO3_MG_MEQ, residual_alkalinity_meq_l
from mashwright.figures.grist import acidulated_share
from mashwright.figures.water import (
    acid_meq,
    liquor,
    mash_acid_needed,
    mash_ph,
    residual_alkalinity,
    tap_water,
)
from mashwright.knobs import Knob, less_of_amount, one_change
from mashwright.measures import Kind, Quantity, Range
from mashwright.recipe.model import Amount
from mashwright.rule import Edit, Example, Finding, Level, Limit, Path, Settings, Unknown, above, below, gap, row


class Limits(Settings):
    lowest_ph = Limit(5.2, "pH", low=4.5, high=5.5, source="palmer-15")
    highest_ph = Limit(5.8, "pH", low=5.5, high=6.5, source="judgement")
    stated_lowest_ph = Limit(5.0, "pH", low=4.0, high=5.4, source="troester-ph-control")
    stated_highest_ph = Limit(6.0, "pH", low=5.6, high=7.0, source="troester-ph-control")
    doubt_ph = Limit(0.1, "pH", low=0, high=1, source="judgement")
    apart_ph = Limit(0.15, "pH", low=0.05, high=1, source="judgement")
    acid_meq_per_kg = Limit(80, "mEq/kg", low=20, high=200, source="judgement")
    lifted_ph = Limit(0.1, "pH", low=0.01, high=1, source="judgement")
    residual_meq_per_l = Limit(-8, "mEq/l", kind=Kind.ALKALINITY, low=-20, high=0, source="judgement")
    acidulated_percent = Limit(10, "%", low=2, high=100, source="oxford-acidulated")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    mash = brew.recipe.mash
    stated = mash.ph
    if mash.known and stated.known:
        path = mash.ph.path
        if (finding := _stated(brew, path, stated, limits)) is not None:
            yield finding
        else:
            yield from _elsewhere(brew, path, stated, limits)
        return
    if not brew.has_enzymes:
        return  # it converts nothing at any pH
    band = mash_ph(brew)
    if _by_an_amount(brew, limits):
        return  # a weight or a volume is wrong, which is another question
    if level := above(band, limits.highest_ph):
        limit, words = limits.highest_ph, "the starch converts slowly and harshness comes out of the husks"
        lifting = _lifting(brew, limits)
        knobs = _less_lift(brew, band.typical, lifting, limits) if lifting else _acid(brew, band.typical)
    elif (level := below(band, limits.lowest_ph)) and not _sour(brew, limits):
        limit, words, lifting = limits.lowest_ph, "the enzymes tire and the beer may taste sharp", ()
        knobs = _less_acid(brew)
    else:
        return
    side = "above" if limit == limits.highest_ph else "below"
    # a band is no verdict, so each level is one lower than it would be; a water of which the recipe says nothing lowers
    # it once more
    surely = level is Level.ERROR
    by = f", {number(sum(one.ph for one in lifting), 2)} of it by {_named(lifting)}" if lifting else ""
    if not surely and not (_speaks_of_water(brew) and abs(band.typical - limit) > limits.doubt_ph):
        return
    yield Finding(
        brew.recipe.mash.path if mash.known else brew.recipe.grist.path,
        Level.WARNING if surely and _speaks_of_water(brew) else Level.NOTE,
        f"the mash comes to about pH {told(band.typical, limit)}, somewhere from {_told(band.low)} to"
        f" {_told(band.high)}{by}; {side} {number(limit)} {words}",
        gap=gap(band, limit),
        evidence=(row(band), row(residual_alkalinity(brew))),
        knobs=knobs,
    )


def _speaks_of_water(brew: Brew) -> bool:
    """Whether the recipe itself says anything of its water, salts or acid."""
    mash = brew.recipe.mash
    return tap_water(brew).of_recipe or (mash.known and bool(mash.salts or mash.acid))


def _told(ph: float) -> str:
    return f"{ph:.1f}"


def _by_an_amount(brew: Brew, limits: Limits) -> bool:
    """Whether so much acid or calcium is in the mash that its weight can hardly be meant."""
    acid = acid_meq(liquor(brew).mash_acids).typical
    if acid and acid > limits.acid_meq_per_kg * sum(part.weight_kg for part in brew.mashed()):
        return True
    return residual_alkalinity(brew).typical / CACO3_MG_MEQ < limits.residual_meq_per_l


class _Lift(NamedTuple):
    """A salt in the mash that raises its pH, and how far."""

    amount: Amount
    quantity: Quantity
    ph: float


def _lifting(brew: Brew, limits: Limits) -> tuple[_Lift, ...]:
    """Soda, chalk and lime in the mash, the most lifting first; none where they hardly matter."""
    put_in = liquor(brew)
    if put_in.mash_l is None:
        return ()
    litres = put_in.mash_l.typical
    slope = slope_ph_per_meq_l(litres / sum(part.weight_kg for part in brew.mashed())).typical
    lifts = []
    for dose in put_in.mash:
        if "alkalinity" not in dose.gives:
            continue
        calcium = dose.gives["calcium"].typical if "calcium" in dose.gives else 0.0
        residual = residual_alkalinity_meq_l(dose.gives["alkalinity"].typical / litres, calcium / litres, 0.0)
        lifts.append(_Lift(dose.amount, dose.quantity, slope * residual))
    lifts.sort(key=lambda one: -one.ph)
    return tuple(lifts) if sum(one.ph for one in lifts) >= limits.lifted_ph else ()


def _named(lifting: tuple[_Lift, ...]) -> str:
    return " and ".join(f"{one.quantity.text} of {one.amount.name}" for one in lifting)


def _less_lift(brew: Brew, ph: float, lifting: tuple[_Lift, ...], limits: Limits) -> tuple[Knob, ...]:
    """Less of what lifts the pH, or none of it; acid beside that only where the rest is still too high without it."""
    most = lifting[0]
    kept = 1 - (ph - MASH_PH) / most.ph
    edits = tuple(Edit(one.amount.path, "0 g") for one in lifting)
    none = f"leave out the {_named(lifting)}"
    without = ph - sum(one.ph for one in lifting)
    knobs = (less_of_amount(most.amount, kept * most.quantity.range.typical),) if kept > 0 else ()
    knobs = (*knobs, one_change(edits, none))
    if without <= limits.highest_ph:
        return knobs
    return (*knobs, *(_and_more(edits, none, knob) for knob in _acid(brew, without)))


def _and_more(edits: tuple[Edit, ...], say: str, knob: Knob) -> Knob:
    """What a knob does, beside some fixed changes."""
    return Knob(knob.count, lambda step: (*edits, *knob.edits(step)), lambda step: f"{say}, and {knob.say(step)}")


def _less_acid(brew: Brew) -> tuple[Knob, ...]:
    """So much less of the acids that the middle of the band comes to what is wanted."""
    doses = liquor(brew).mash_acids
    acid = acid_meq(tuple(doses)).typical
    if not acid:
        return ()
    kept = min(1.0, mash_acid_needed(brew).typical * meq_per_ml("lactic acid", 88) / acid)
    return tuple(less_of_amount(dose.amount, kept * dose.quantity.range.typical) for dose in doses)


def _stated(brew: Brew, path: Path, stated: Quantity, limits: Limits) -> Finding | None:
    ph = stated.range
    wide = Range(ph.typical, ph.typical, ph.typical)
    for missed, far, limit, words in (
        (
            below(wide, limits.lowest_ph),
            below(wide, limits.stated_lowest_ph),
            limits.lowest_ph,
            "is it a reading in the hot mash, which is about 0.35 below that of a cooled sample",
        ),
        (
            above(wide, limits.highest_ph),
            above(wide, limits.stated_highest_ph),
            limits.highest_ph,
            "the starch converts slowly and harshness comes out of the husks",
        ),
    ):
        if missed is None:
            continue
        low = limit == limits.lowest_ph
        if low and _sour(brew, limits):
            return None
        level = Level.WARNING if far is not None else Level.NOTE
        side = "below" if low else "above"
        message = f"a mash at pH {_plain(stated)} lies {side} {number(limit)}; {words}"
        return Finding(path, level, message, gap=gap(wide, limit))
    return None


def _plain(stated: Quantity) -> str:
    return stated.text.replace("pH", "").strip()


def _elsewhere(brew: Brew, path: Path, stated: Quantity, limits: Limits) -> Iterator[Finding]:
    """The grist and the water lead to another pH than the recipe states."""
    band = mash_ph(brew)
    off = max(stated.range.low - band.high, band.low - stated.range.high)
    if off <= limits.apart_ph:
        return
    if band.typical <= stated.range.typical:
        takes = "less acid, or chalk or baking soda, that the recipe does not state"
    elif lifting := _lifting(brew, limits):
        takes = f"less than {_named(lifting)}"
    else:
        takes = "acid or acidulated malt that the recipe does not state"
    yield Finding(
        path,
        Level.NOTE,
        f"grist and water lead to about pH {_told(band.typical)}, somewhere from {_told(band.low)} to"
        f" {_told(band.high)}; for {_plain(stated)} it would take {takes}",
        gap=round(off, 4),
        evidence=(row(band), row(residual_alkalinity(brew))),
    )


def _acid(brew: Brew, ph: float) -> tuple[Knob, ...]:
    """Lactic acid in the mash, from as much as the middle of the band asks for; never more of what is in it."""
    mash = brew.recipe.mash
    if not mash.known or mash.acid or brew.grist()[0].weight.kind is not Kind.MASS:
        return ()
    # what the whole way down to the wanted pH takes, for as much of the way as is left
    share = (ph - MASH_PH) / (mash_ph(brew).typical - MASH_PH)
    first = max(1, round(mash_acid_needed(brew).typical * share))

    def text(step: int) -> str:
        return f"{first + step} ml"

    return (
        Knob(
            first,
            lambda step: (Edit(mash.acid.path, f"{{lactic acid 88 %: {text(step)}}}"),),
            lambda step: f"add {text(step)} of lactic acid 88 % to the mash, with goggles and gloves",
        ),
    )


def _sour(brew: Brew, limits: Limits) -> bool:
    """Whether a sour beer is meant, or the share of acidulated malt is asked about anyhow."""
    if brew.intent.sour:
        return True
    try:
        return acidulated_share(brew).typical > limits.acidulated_percent
    except Unknown:
        return False


SOUND = """\
recipe: Chalk Path Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4 kg}
mash:
  water: 13 l
  acid: {lactic acid 88 %: 6 ml}
water: {calcium: 140 mg/l, magnesium: 10 mg/l, alkalinity: 300 mg/l}
"""
FAULTY = Example(
    """\
recipe: Chalk Path Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4 kg}
mash:
  water: 13 l
water: {calcium: 40 mg/l, magnesium: 10 mg/l, alkalinity: 400 mg/l}
""",
    "warning",
    6,
    1,
    "the mash comes to about pH 6.2, somewhere from 6.0 to 6.5; above 5.8 the starch converts slowly and harshness"
    " comes out of the husks",
)
