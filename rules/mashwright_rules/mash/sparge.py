"""Does the sparge make the grain bed too hot, or rinse it with alkaline water?

Sparge water washes the sugar out of the grain bed. Above about 78 °C (172 °F)
in the bed, or above pH 6, the husks give tannin. Starch comes out that
nothing converts any more: the beer is harsh and hazy. Hotter water does no
harm while the bed stays below.

What is checked: the temperature of the bed, not of the water. In a batch
sparge all the water mixes with the drained grain and the wort that it keeps.
In a fly (continuous) sparge the bed is rinsed little by little, and in the
worst case gets as hot as the water. If the recipe does not say which, a batch
sparge is assumed; if it states no amount, as much water as in the mash.

- warning: the bed is above 80 °C (176 °F)
- note: the bed is above 78 °C, or is so in the worst case
- skipped: the water is not above 78 °C, or its temperature is not stated
- skipped: the water is hotter than boiling: see unit-slip
- skipped: the mash itself ends above 78 °C: see mash-out
- skipped: a turbid mash, as of lambic, which is sparged hot by custom

Alkalinity decides, and never pH alone: soft water of pH 8 turns as sour as
the grain. With a stated pH of the sparge above 6:

- warning: the water has more than 150 mg/l of alkalinity (as CaCO3)
- note: it has more than 50 mg/l
- skipped: the alkalinity is not known

On the day: keep a thermometer in the bed, not in the water. Stop when the
run-off tastes of tea or falls below 1.008. Sparge water scalds: closed shoes,
gloves, no lifting of full vessels.

Sources: [sparge-tips] [common-practice] [home-brewery-hazards] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number, said_apart, told
from mashwright.figures.mash import bed_temperature
from mashwright.figures.water import tap_water
from mashwright.ingredients.kinds import SpargeBy
from mashwright.knobs import Knob, another_text, stated_instead
from mashwright.measures import Kind, said
from mashwright.measures.bounds import BOIL_C
from mashwright.measures.constants import CACO3_MG_PER_MEQ
from mashwright.rule import Example, Finding, Level, Limit, Settings, Unknown, above, gap, row, say


class Limits(Settings):
    """What is compared with."""

    hottest_bed_c = Limit(78, "°C", low=70, high=90, source="common-practice")
    far_too_hot_bed_c = Limit(80, "°C", low=70, high=95, source="judgement")
    highest_ph = Limit(6.0, "pH", low=5.5, high=8, source="common-practice")
    soft_mg_per_l = Limit(50, "mg/l", kind=Kind.ALKALINITY, low=10, high=200, source="common-practice")
    hard_mg_per_l = Limit(150, "mg/l", kind=Kind.ALKALINITY, low=50, high=500, source="judgement")
    other_question_c = Limit.at(BOIL_C)


SAYS = {
    "too-hot": "sparge water of {water} brings the grain bed to about {bed}; above {most} it draws out tannin",
    "may-be-too-hot": "sparge water of {water} may bring the grain bed to about {bed}; above {most} it draws out"
    " tannin",
    "alkaline": "sparge water of pH {ph} with {alkalinity} mg/l of alkalinity draws tannin from the husks; bring it"
    " below pH {most} with acid",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yield from _bed(brew, limits)
    yield from _alkaline(brew, limits)


def _bed(brew: Brew, limits: Limits) -> Iterator[Finding]:
    sparge = brew.recipe.sparge
    if not sparge.at.known or sparge.by == SpargeBy.NONE or brew.intent.turbid:
        return
    if not limits.hottest_bed_c < sparge.at.range.typical <= limits.other_question_c:
        return
    try:
        bed = bed_temperature(brew)
    except Unknown:
        return
    if brew.plan.known()[-1].hottest_c > limits.hottest_bed_c:
        return
    if not above(bed, limits.hottest_bed_c, doubt=True):
        return
    surely = bool(above(bed, limits.hottest_bed_c))
    far = bool(above(bed, limits.far_too_hot_bed_c))
    unit, path = sparge.at.unit, sparge.at.path
    most = said(limits.hottest_bed_c, unit, Kind.TEMPERATURE)
    value = bed.typical if surely else bed.high
    got = said_apart(value, limits.hottest_bed_c, unit, Kind.TEMPERATURE)
    message = say("too-hot" if surely else "may-be-too-hot", water=sparge.at, bed=got, most=most)
    yield Finding(
        path,
        Level.WARNING if far else Level.NOTE,
        message,
        gap(bed, limits.hottest_bed_c),
        (row(bed, path),),
        (),
        (stated_instead(path, sparge.at, min(limits.hottest_bed_c, 76.0), "sparge at"),),
    )


def _alkaline(brew: Brew, limits: Limits) -> Iterator[Finding]:
    sparge = brew.recipe.sparge
    if not sparge.ph.known or not above(sparge.ph.range, limits.highest_ph):
        return
    try:
        alkalinity_meq_l = tap_water(brew).alkalinity_meq_l
    except Unknown:
        return
    if alkalinity_meq_l is None:
        return
    alkalinity = alkalinity_meq_l * CACO3_MG_PER_MEQ
    if not above(alkalinity, limits.soft_mg_per_l):
        return
    far = bool(above(alkalinity, limits.hard_mg_per_l))
    path = sparge.ph.path
    shown = told(sparge.ph.range.typical, limits.highest_ph)
    message = say("alkaline", ph=shown, alkalinity=number(alkalinity.typical, 2), most=number(limits.highest_ph))
    knobs: tuple[Knob, ...] = (another_text(path, "5.8", "bring the sparge water to pH 5.8 with acid"),)
    yield Finding(
        path,
        Level.WARNING if far else Level.NOTE,
        message,
        gap(sparge.ph.range, limits.highest_ph),
        knobs=knobs,
    )


SOUND = """\
recipe: Slipway Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
mash:
  water: 14 l
  rests:
    - {at: 66 °C, for: 60 min}
sparge: {by: batch, water: 16 l, at: 82 °C}
"""
FAULTY = Example(
    """\
recipe: Slipway Pale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
mash:
  water: 14 l
  rests:
    - {at: 66 °C, for: 60 min}
sparge: {by: batch, water: 16 l, at: 92 °C}
""",
    "warning",
    10,
    38,
    "sparge water of 92 °C brings the grain bed to about 84.4 °C; above 78 °C it draws out tannin",
)
