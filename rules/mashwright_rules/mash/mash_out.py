"""Is the mash-out too hot?

A last rest at about 76 °C (169 °F) ends within minutes the enzyme that makes maltose, and lets the wort run off
thinner. It does not end all of them: alpha-amylase works on for a good while, and only near 80 °C is it gone. So 10 min
of it fix how dry the beer will be, more or less, and still convert the last of the starch. Much hotter, the husks give
tannin, and starch that was still locked up comes out when no enzyme is left to convert it: harsh, hazy beer.

Computed: the temperature of a last rest that follows another one, or to which a last rest rises. Above 78 °C (172 °F)
is a note, from 79 °C (174 °F) on a warning. A single steady rest at such heat is no mash-out but a mash without
conversion, another question. No more than a note for sahti and for the turbid mash of lambic, which end hotter by
custom.

On the day: stir while you heat, so that the bottom does not run ahead of the thermometer; hot mash spits and scalds.

Sources: [kunze-1998] 78 and 80 °C, [mash-out-1994] 75.6 °C, [common-practice] the tannin, [judgement] the degree
between note and warning
"""

from collections.abc import Iterator

from mashwright.brew import Brew, PlannedRest, said_apart
from mashwright.knobs import Knob, rest_at, stated_instead, stated_temperature
from mashwright.measures import Kind, Range, said, step_of
from mashwright.recipe.stated import NOWHERE, Stated
from mashwright.rule import Example, Finding, Level, Limit, Settings, above, gap, say
from mashwright.words.vocabulary import speaks_of


class Limits(Settings):
    """What is compared with."""

    hot_c = Limit(78, "°C", low=72, high=85, source="kunze-1998")
    hottest_c = Limit(79, "°C", low=72, high=90, source="judgement")
    usual_c = Limit(76, "°C", low=70, high=80, source="mash-out-1994")


_HALF_A_FAHRENHEIT = 0.28  # what rounding to whole °F may hide, °C: 174 °F is 79 °C


SAYS = {
    "too-hot": "a mash-out at {heat} is above {most} and draws out tannin and starch; {usual} is enough",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    plan = brew.plan
    if not plan.stated or not plan.known():
        return
    rest = plan.rests[-1]
    rises = rest.to_c is not None and rest.to_c.typical > rest.at_c.typical
    if not plan.mash_out and not rises:
        return
    before = max((one.hottest_c for one in plan.rests[:-1]), default=rest.at_c.typical)
    stated = _end(brew, rest) if rises else stated_temperature(brew, rest)
    # two rests as hot as that are no mash-out: nothing converts at all, another question
    if not stated.known or rest.path is None or before > limits.hottest_c:
        return
    heat = Range.exact(rest.hottest_c)
    if not above(heat, limits.hot_c):
        return
    far = rest.hottest_c >= limits.hottest_c - _HALF_A_FAHRENHEIT
    limit = limits.hottest_c if above(heat, limits.hottest_c) else limits.hot_c
    most = said(limit, stated.unit, Kind.TEMPERATURE)
    got = said_apart(rest.hottest_c, limit, stated.unit, Kind.TEMPERATURE)
    usual = said(limits.usual_c, stated.unit, Kind.TEMPERATURE)
    message = say("too-hot", heat=got, most=most, usual=usual)
    path = (*rest.path, "to" if rises else "at")
    meant = brew.intent.turbid or speaks_of("hot-mash-out", "style", brew.recipe.style)
    knobs: tuple[Knob, ...] = (stated_instead(path, stated, limits.usual_c, "mash out at"),)
    if step_of(stated.unit, Kind.TEMPERATURE) > 1 and not rises:
        knobs = (rest_at(brew, rest, limits.usual_c, limits.usual_c),)
    yield Finding(path, Level.WARNING if far and not meant else Level.NOTE, message, gap(heat, limit), knobs=knobs)


def _end(brew: Brew, rest: PlannedRest) -> Stated:
    """What a rising rest is stated to end at."""
    return next((one.to for one in brew.recipe.mash.rests if one.path == rest.path), NOWHERE)


SOUND = """\
recipe: Marsh Lager
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.5 kg}
mash:
  rests:
    - {at: 65 °C, for: 60 min}
    - {at: 76 °C, for: 10 min, by: heat}
"""
FAULTY = Example(
    """\
recipe: Marsh Lager
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.5 kg}
mash:
  rests:
    - {at: 65 °C, for: 60 min}
    - {at: 83 °C, for: 10 min, by: heat}
""",
    "warning",
    9,
    12,
    "a mash-out at 83 °C is above 79 °C and draws out tannin and starch; 76 °C is enough",
)
