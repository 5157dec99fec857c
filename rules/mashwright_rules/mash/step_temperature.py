"""Does each step of the mash bring it to the temperature of its rest?

A step mash gets hotter by hot water (an infusion), by a part that is drawn
off, boiled and returned (a decoction), or by boiled cereal. Each brings only
the heat that it contains. Too little leaves the mash a rest behind, too much
rushes past the rest.

What is checked: the heat balance from the rest before.

  infusion     grain, water and tun at that rest, and hot water at its own
               temperature (just below the boil if that is not stated)
  decoction    its share of the mash, boiling, with 13 % lost on the way (none
               in the warmest case; 17 % in the coldest, and a thick
               decoction, which brings less heat)
  cereal mash  its grain and water, a few degrees below the boil

- error: more than 8 °C off the rest, and more than 4 °C in the best case
- warning: more than 4 °C off
- note: more than 2 °C off
- error: infusion water is over 1 °C hotter than water boils at the
  brewhouse's altitude. Above 100.5 °C see unit-slip.
- skipped: a step by heat (fire or steam); an infusion for the first rest,
  which is the strike water: see strike-water
- skipped: the step's water or pull is not stated, or the water of the cereal
  mash is not
- skipped: the mash water is not stated, unless a decoction states its pull as
  a share of the mash
- skipped: the mash water is below 1 or above 15 l/kg: see unit-slip

On the day: pour three quarters of the water, stir, measure, then pour the
rest. Boiling water and boiling mash scald and spit: long gloves, closed
shoes, a small ladle.

Sources: [palmer-16] [decoction-forum] heat, [us-standard-atmosphere-1976]
[iapws-if97] altitude, [home-brewery-hazards] [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, strike_water
from mashwright.brew import degrees as degrees_in
from mashwright.figures.kettle import liquor_to_grist, mash_volume
from mashwright.figures.mash import Step, boiling_point, steps
from mashwright.ingredients.kinds import RestBy
from mashwright.knobs import Knob, stated_instead
from mashwright.measures import Kind, from_canonical, said
from mashwright.measures.bounds import BOIL_C, LEAST_WATER_L_PER_KG, MOST_WATER_L_PER_KG
from mashwright.recipe.stated import NOWHERE, Stated
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Path, Settings, above, differs, gap, row, say


class Limits(Settings):
    """What is compared with."""

    worth_a_note_c = Limit(2, "°C", difference=True, low=0.5, high=5, source="common-practice")
    off_c = Limit(4, "°C", difference=True, low=1, high=10, source="common-practice")
    far_off_c = Limit(8, "°C", difference=True, low=2, high=20, source="common-practice")
    slack_c = Limit(1, "°C", difference=True, low=0, high=5, source="judgement")
    other_question_c = Limit.at(BOIL_C)
    least_meant_l_per_kg = Limit.at(LEAST_WATER_L_PER_KG)
    most_meant_l_per_kg = Limit.at(MOST_WATER_L_PER_KG)


SAYS = {
    "hotter-than-boiling": "infusion water of {water} is not possible: water boils at {boils}",
    "hotter-than-boiling-here": "infusion water of {water} is not possible: water boils at {boils} at {altitude}",
    "off": "{what} brings the mash from {before} to about {comes}, not {rest}",
    "needs": "it needs about {amount}",
    "no-amount": "no amount of it is enough",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    mash = brew.recipe.mash
    if not mash.known or not any(rest.by in _JUDGED or rest.water or rest.pull for rest in mash.rests):
        return
    stated = strike_water(brew).stated
    if stated and not limits.least_meant_l_per_kg <= liquor_to_grist(brew).typical <= limits.most_meant_l_per_kg:
        return  # a slip of a unit
    for step in steps(brew):
        if (finding := _hotter_than_boiling(brew, step, limits)) is not None:
            yield finding
        elif step.reckoned and (stated or _is_share(step)) and (level := _level(step, limits)):
            yield _off(brew, step, level, limits)


_JUDGED = (RestBy.INFUSION, RestBy.DECOCTION, RestBy.CEREAL_MASH)


def _is_share(step: Step) -> bool:
    """A decoction by its share of the mash does not ask how much of it there is."""
    return step.rest.pull.known and step.rest.pull.kind is Kind.SHARE


def _level(step: Step, limits: Limits) -> Level | None:
    sure = differs(step.value, step.target_c, limits.off_c)
    if sure is Level.ERROR and differs(step.value, step.target_c, limits.far_off_c):
        return Level.ERROR
    if sure:
        return Level.WARNING
    return Level.NOTE if differs(step.value, step.target_c, limits.worth_a_note_c) else None


def _hotter_than_boiling(brew: Brew, step: Step, limits: Limits) -> Finding | None:
    of = step.rest.of
    if not of.known or of.range.typical > limits.other_question_c:
        return None
    boils = boiling_point(brew)
    if not (level := above(of.range, boils.typical + limits.slack_c)):
        return None
    place = brew.brewhouse.altitude
    most = said(boils.typical, of.unit, Kind.TEMPERATURE)
    sentence = "hotter-than-boiling-here" if place.known else "hotter-than-boiling"
    message = say(sentence, water=of, boils=most, altitude=place)
    return Finding(step.rest.of.path, level, message, gap(of.range, boils.typical), (row(boils),))


def _off(brew: Brew, step: Step, level: Level, limits: Limits) -> Finding:
    at = step.rest.at.need("the temperature of the rest")
    stated, path = _poured(step)
    got = said(step.value.typical, at.unit, Kind.TEMPERATURE)
    before = degrees_in(brew, step.from_c)
    message = say("off", what=_what(step), before=before, comes=got, rest=at)
    knobs: tuple[Knob, ...] = ()
    if stated.known and step.needed_l is not None:
        amount = step.needed_l
        if stated.kind is Kind.SHARE:
            amount = 100 * step.needed_l / _mash_l(brew, step)
        message = message.and_then(say("needs", amount=said(amount, stated.unit, stated.kind)))
        knobs = (stated_instead(path, stated, amount, _KNOB[step.how]),)
    elif stated.known and step.target_c.typical > step.from_c.typical:
        message = message.and_then(say("no-amount") if step.how == RestBy.INFUSION else None)
    off = abs(step.value.typical - step.target_c.typical)
    comes = from_canonical(step.value.typical, at.unit, Kind.TEMPERATURE)
    evidence = (Evidence(f"rest {step.number} by {step.how}", comes, at.unit, step.rest.path),)
    return Finding(path, level, message, round(off / limits.worth_a_note_c - 1, 4), evidence, (), knobs)


_KNOB: dict[str, str] = {RestBy.INFUSION: "use an infusion of", RestBy.DECOCTION: "use a decoction of"}


def _mash_l(brew: Brew, step: Step) -> float:
    """Volume of the mash that a needed share was reckoned from; l."""
    share = step.needed_share
    return step.needed_l / share if share and step.needed_l else mash_volume(brew).typical


def _poured(step: Step) -> tuple[Stated, Path]:
    rest = step.rest
    if step.how == RestBy.INFUSION:
        return rest.water, rest.water.path
    if step.how == RestBy.DECOCTION:
        return rest.pull, rest.pull.path
    return NOWHERE, rest.at.path


def _what(step: Step) -> str:
    rest = step.rest
    if step.how == RestBy.INFUSION and rest.water.known:
        return f"{rest.water.text} of water at {rest.of.text}" if rest.of.known else f"{rest.water.text} of water"
    if step.how == RestBy.DECOCTION and rest.pull.known:
        return f"a decoction of {rest.pull.text}"
    return "the cereal mash"


SOUND = """\
recipe: Two Tides
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.5 kg}
mash:
  water: 11 l
  rests:
    - {at: 62 °C, for: 40 min}
    - {at: 72 °C, for: 30 min, by: infusion, water: 5 l, of: 98 °C}
"""
FAULTY = Example(
    """\
recipe: Two Tides
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.5 kg}
mash:
  water: 11 l
  rests:
    - {at: 62 °C, for: 40 min}
    - {at: 72 °C, for: 30 min, by: infusion, water: 2 l, of: 98 °C}
""",
    "warning",
    10,
    53,
    "2 l of water at 98 °C brings the mash from 62 °C to about 66.9 °C, not 72 °C; it needs about 4.9 l",
)
