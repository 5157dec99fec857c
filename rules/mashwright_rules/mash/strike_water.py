"""Does the stated strike water give the stated first rest?

The heat of grain and hot water settles the mash temperature when you mash in.
A mash 2 °C off makes another beer. One 5 °C off converts badly or destroys
its enzymes. There is no time for sums while the tun is full.

What is checked: the heat balance of grain, water and tun.

  grain   takes about 0.40 of the heat of its weight in water, by its
          moisture; 20 °C, give or take 5 °C, if not stated
  tun     takes what the brewhouse states as `heat` (the water that would
          take as much); nothing in the warmest case, a preheated tun. If
          nothing is stated, it takes nothing, and 5 % of the strike water's
          heat in the coldest case. With a bag it takes nothing.
  mixing  in the warmest case the heat of slaking counts, which small tuns
          lose

If the stated tun causes at least half of the missing degrees, the message
also says what the mash comes to in a preheated one.

- error: more than 8 °C off the rest, and more than 4 °C in the best case
- warning: more than 4 °C off, and more than 1 °C in the best case
- note: more than 2 °C off
- no mash water is stated: only a warning, if no usual thickness brings the
  mash within 4 °C
- error: strike water is over 1 °C hotter than water boils at the brewhouse's
  altitude. Above 100.5 °C see unit-slip.
- warning: no strike temperature is stated, the mash water is below 2 l/kg,
  and the first rest needs water over 1 °C hotter than boiling; an error if it
  does in the best case too
- skipped: below 1 or above 15 l/kg: see unit-slip
- skipped: the first rest is reached `by: heat` or by a cereal mash, so the
  strike water need not bring the mash there

On the day: warm the tun with hot water first. Stir, wait 5 min and measure in
three places. Keep a litre of boiling and a litre of cold water ready. Water
and mash at these temperatures scald in seconds: closed shoes, gloves, no
lifting of full vessels.

Sources: [brewing-room-book-1984] [catalogue-conversions] heat,
[us-standard-atmosphere-1976] [iapws-if97] altitude, [home-brewery-hazards]
[common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, said_apart, strike_water
from mashwright.figures.figure import Figure
from mashwright.figures.kettle import liquor_to_grist
from mashwright.figures.mash import boiling_point, mash_temperature, strike_temperature
from mashwright.ingredients.kinds import RestBy
from mashwright.knobs import Knob, stated_instead
from mashwright.measures import Kind, Quantity, Range, said
from mashwright.measures.bounds import BOIL_C, LEAST_WATER_L_PER_KG, MOST_WATER_L_PER_KG
from mashwright.recipe.stated import NOWHERE
from mashwright.rule import Example, Finding, Level, Limit, Say, Settings, above, differs, gap, replace, row, say


class Limits(Settings):
    """What is compared with."""

    worth_a_note_c = Limit(2, "°C", difference=True, low=0.5, high=5, source="common-practice")
    off_c = Limit(4, "°C", difference=True, low=1, high=10, source="common-practice")
    far_off_c = Limit(8, "°C", difference=True, low=2, high=20, source="common-practice")
    slack_c = Limit(1, "°C", difference=True, low=0, high=5, source="judgement")
    other_question_c = Limit.at(BOIL_C)
    least_meant_l_per_kg = Limit.at(LEAST_WATER_L_PER_KG)
    ample_l_per_kg = Limit(2, "l/kg", low=1, high=4, source="common-practice")
    most_meant_l_per_kg = Limit.at(MOST_WATER_L_PER_KG)
    tun_takes_percent = Limit(50, "%", low=10, high=100, source="judgement")


_REACHED_OTHERWISE = (RestBy.CEREAL_MASH, RestBy.HEAT)


SAYS = {
    "hotter-than-boiling": "strike water of {strike} is not possible: water boils at {boils}",
    "hotter-than-boiling-here": "strike water of {strike} is not possible: water boils at {boils} at {altitude}",
    "too-little-water": "with so little water a first rest of {rest} needs strike"
    " water of {strike}; water boils at {boils}",
    "off": "strike water of {strike} makes a mash of about {comes}, not {rest}",
    "needs": "the first rest needs about {strike}",
    "preheated": "a preheated tun gives about {comes}",
    "not-even-boiling": "not even boiling water brings it there with so little of it (it would take {strike})",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    impossible = list(_hotter_than_boiling(brew, limits))
    yield from impossible or _another_rest(brew, limits)


def _hotter_than_boiling(brew: Brew, limits: Limits) -> Iterator[Finding]:
    mash = brew.recipe.mash
    if not mash.strike.known or mash.strike.range.typical > limits.other_question_c:
        return
    boils, strike = boiling_point(brew), mash.strike
    if not (level := above(strike.range, boils.typical + limits.slack_c)):
        return
    place = brew.brewhouse.altitude
    at = said(boils.typical, strike.unit, Kind.TEMPERATURE)
    sentence = "hotter-than-boiling-here" if place.known else "hotter-than-boiling"
    message = say(sentence, strike=strike, boils=at, altitude=place)
    yield Finding(mash.strike.path, level, message, gap(strike.range, boils.typical), (row(boils),))


def _another_rest(brew: Brew, limits: Limits) -> Iterator[Finding]:
    mash = brew.recipe.mash
    if not mash.known or not mash.rests or not mash.rests[0].at.known or mash.rests[0].by in _REACHED_OTHERWISE:
        return
    first, at, water = mash.rests[0], mash.rests[0].at, strike_water(brew)
    if water.stated:
        thickness = liquor_to_grist(brew).typical
        if not limits.least_meant_l_per_kg <= thickness <= limits.most_meant_l_per_kg:
            return  # a slip of a unit
        if not mash.strike.known and thickness >= limits.ample_l_per_kg:
            return  # with so much water no rest of a mash asks for boiling liquor
    boils, needed = boiling_point(brew).typical, strike_temperature(brew)
    path = mash.strike.path
    if not mash.strike.known:
        if water.stated and (level := above(needed, boils + limits.slack_c)):
            asks = said(needed.typical, at.unit, Kind.TEMPERATURE)
            most = said(boils, at.unit, Kind.TEMPERATURE)
            message = say("too-little-water", rest=at, strike=asks, boils=most)
            yield Finding(water.path, level, message, gap(needed, boils), (row(needed),))
        return
    if not 0 < mash.strike.range.typical <= limits.other_question_c:
        return  # a slip of a unit
    comes = mash_temperature(brew)
    level = _level(comes, at.range, limits, stated=water.stated)
    if not level:
        return
    strike, got = mash.strike, said_apart(comes.typical, at.range.typical, at.unit, Kind.TEMPERATURE)
    message = say("off", strike=strike, comes=got, rest=at)
    knobs: list[Knob] = []
    if needed.typical <= boils:
        asks = said(needed.typical, strike.unit, Kind.TEMPERATURE)
        message = message.and_then(say("needs", strike=asks), _preheated(brew, comes, at, limits))
        knobs.append(stated_instead(path, strike, needed.typical, "strike at"))
    else:
        message = message.and_then(say("not-even-boiling", strike=_hot(needed, strike)))
    off = abs(comes.typical - at.range.typical)
    evidence = (row(comes, path), row(needed, first.at.path))
    yield Finding(
        path, level, message, round(off / limits.worth_a_note_c - 1, 4), evidence, (first.at.path,), tuple(knobs)
    )


def _preheated(brew: Brew, comes: Figure, rest: Quantity, limits: Limits) -> Say | None:
    """What the mash comes to in a preheated tun, where the heat of the tun is most of what is missing."""
    tun, missing = brew.brewhouse.mash_tun, rest.range.typical - comes.typical
    if missing <= 0 or not tun.heat.known:
        return None
    warm = replace(
        brew.brewhouse, mash_tun=replace(tun, heat=NOWHERE)
    )  # as the figure takes it where nothing is stated
    preheated = mash_temperature(replace(brew, brewhouse=warm, computed={})).typical
    if preheated - comes.typical < limits.tun_takes_percent / 100 * missing:
        return None
    return say("preheated", comes=said(preheated, rest.unit, Kind.TEMPERATURE))


def _hot(needed: Figure, strike: Quantity) -> str:
    return said(needed.typical, strike.unit, Kind.TEMPERATURE)


def _level(comes: Figure, rest: Range, limits: Limits, *, stated: bool) -> Level | None:
    """Error far off unless another grain or tun could make up for it; where no water is stated, only what is sure."""
    sure = differs(comes, rest, limits.off_c) is Level.ERROR
    if sure and differs(comes, rest, limits.far_off_c):
        return Level.ERROR if stated else Level.WARNING
    may_come = rest.low - limits.slack_c <= comes.high and comes.low <= rest.high + limits.slack_c
    if sure or (stated and not may_come and differs(comes, rest, limits.off_c)):
        return Level.WARNING
    return Level.NOTE if stated and differs(comes, rest, limits.worth_a_note_c) else None


SOUND = """\
recipe: Causeway Bitter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
mash:
  water: 14 l
  strike: 73 °C
  grain-temperature: 18 °C
  rests:
    - {at: 66 °C, for: 60 min}
"""
FAULTY = Example(
    """\
recipe: Causeway Bitter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
mash:
  water: 14 l
  strike: 80 °C
  grain-temperature: 18 °C
  rests:
    - {at: 66 °C, for: 60 min}
""",
    "warning",
    8,
    11,
    "strike water of 80 °C makes a mash of about 72.9 °C, not 66 °C; the first rest needs about 72.2 °C",
)
