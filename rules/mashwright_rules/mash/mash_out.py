"""Is the mash-out too hot?

A rest of 10 min at about 76 °C (169 °F) ends the enzyme that makes maltose.
The beer gets hardly any drier, and the wort thins and runs off better.
Alpha-amylase is gone only near 80 °C (176 °F) and still converts the last
starch. Much hotter, the husks give tannin, and starch comes out with no
enzyme left: the beer is harsh and hazy.

What is checked: the temperature of a last rest that follows another one. If
the last rest rises, the temperature to which it rises.

- warning: from 79 °C (174 °F)
- note: above 78 °C (172 °F)
- at most a note: sahti, and the turbid mash of lambic, which end hotter by
  custom
- skipped: the mash is above 79 °C before that already, or has only one steady
  rest. Then nothing converts: see saccharification-rest.

On the day: stir while you heat, or the bottom gets hotter than the
thermometer shows. Keep clear: hot mash spits and scalds.

Sources: [kunze-1998] 78 and 80 °C, [mash-out-1994] 75.6 °C,
[common-practice] the tannin, [judgement] the degree between note and warning
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
