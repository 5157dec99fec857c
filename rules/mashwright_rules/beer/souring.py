"""Can the bacteria sour this wort?

Lactic acid bacteria need sugar, warmth, time and few hops. Bitter acids hold most of them back: from about 10 IBU on
they hardly work, and hops in the mash or the first wort count as well. In sweet warm wort other germs grow too; some of
them make people ill.

What is checked: `souring`: the bitterness where it sours, the temperature, the time and the pH. Before the boil (`in:
mash` or `kettle`) only hops in the mash and the first wort count, in the fermenter all of them.

- warning: more than 10 IBU even at the low end of the sum
- note: more than 5 IBU; with pediococci or a mixed culture, which bear more
  hops, more than 10 IBU
- warning: above 49 °C; above 42 °C with Lactobacillus plantarum
- note: below 25 °C; and less than 12 h at any heat
- warning: a pH below 2.9, or a start that is below the end
- note: a pH above 3.8, which ordinary beer has too
- note: wort that starts above pH 4.6 before its boil
- note: a pH below 3.2, in which much ale yeast stops early
- note: wort that is soured before a boil that is stated as none

On the day: boil the wort for a few minutes first and cool it. Bring it to pH 4.5 or below with lactic acid, fill the
kettle to the lid, keep air out, and hold it warm. Smell it: sour and clean is right; vomit, rot or solvent means throw
it away untasted. Boil it afterwards unless live bacteria are the aim, and keep their hoses and seals apart. Where in
doubt, ask an expert and keep to your local food rules.

Sources: [souring-wiki] [methner-1987] [hops-and-bacteria-trial] [common-practice] [from-memory] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, kind_of, number, said_apart
from mashwright.figures.kettle import souring_bitterness
from mashwright.ingredients.kinds import Sort
from mashwright.ingredients.kinds import Souring as Where
from mashwright.knobs import Knob, another_text, stated_instead
from mashwright.measures import Kind, Range, said
from mashwright.recipe.model import Souring
from mashwright.rule import (
    Example,
    Finding,
    Level,
    Limit,
    Settings,
    Unknown,
    above,
    below,
    gap,
    row,
    say,
)
from mashwright.words.vocabulary import mentions


class Limits(Settings):
    """What is compared with."""

    few_ibu = Limit(5, "IBU", low=0, high=20, source="judgement")
    most_ibu = Limit(10, "IBU", low=3, high=50, source="souring-wiki")
    hottest_c = Limit(49, "°C", low=40, high=60, source="from-memory")
    plantarum_c = Limit(42, "°C", low=35, high=50, source="from-memory")
    coldest_c = Limit(25, "°C", low=10, high=35, source="common-practice")
    shortest_h = Limit(12, "h", low=1, high=48, source="common-practice")
    lowest_ph = Limit(2.9, "pH", low=2.5, high=3.2, source="judgement")
    sour_ph = Limit(3.8, "pH", low=3.4, high=4.4, source="souring-wiki")
    start_ph = Limit(4.6, "pH", low=4.0, high=5.2, source="common-practice")
    hard_on_yeast_ph = Limit(3.2, "pH", low=2.9, high=3.6, source="from-memory")


_BOIL_C = 100.0  # by definition

SAYS = {
    "hops-stop": "{bitterness} where it sours may stop {bacteria}; sour the wort before the hops go in",
    "hops-slow": "{bitterness} where it sours could slow {bacteria}; sour the wort before the hops go in",
    "too-hot": "{temperature} may be too hot for {bacteria}; keep to at most {most}",
    "cool": "{temperature} could be too cool for {bacteria}; souring works best from 30 to 45 °C",
    "short": "{time} could be too short to sour the wort; it usually takes 1 to 3 days",
    "too-sour": "pH {end} is lower than these bacteria usually reach; did you mean a pH from 3.1 to 3.7?",
    "not-sour": "pH {end} could taste hardly sour; ordinary beer has 3.8 to 4.6",
    "backwards": "the souring may not go from pH {start} up to {end}; are the two exchanged?",
    "starts-high": "wort that starts at pH {start} could let other germs grow first; bring it to 4.5 with lactic acid",
    "hard-on-yeast": "pH {end} could stop the yeast early; pitch more of it, or one that tolerates acid",
    "not-boiled": "the bacteria live on, since the wort is not boiled after the souring; is this on purpose?",
}


ASKS_ABOUT = ("souring", "worts")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    souring = brew.recipe.souring
    if not souring.known:
        return
    yield from _hops(brew, souring, limits)
    yield from _heat(brew, souring, limits)
    yield from _time(souring, limits)
    yield from _acid(souring, limits)
    boil = brew.recipe.boil.time
    if souring.place in (Where.MASH, Where.KETTLE) and boil.known and boil.range.high <= 0:
        yield Finding(souring.place.path, Level.NOTE, say("not-boiled"), related=(boil.path,))


def _bacteria(souring: Souring) -> str:
    return str(souring.culture) or "the bacteria"


def _culture(brew: Brew, souring: Souring) -> str:
    """What the culture is: by the brewhouse, where it is one of its own, else by its name."""
    return kind_of(brew.brewhouse, Sort.YEAST, souring.culture)


def _hops(brew: Brew, souring: Souring, limits: Limits) -> Iterator[Finding]:
    try:
        bitter = souring_bitterness(brew)
    except Unknown as why:
        brew.refused(why)  # told where it is open; the rest can be judged all the same
        return
    hardy = mentions("hop-hardy", "ingredient", _culture(brew, souring))
    level = Level.WARNING if above(bitter, limits.most_ibu) is Level.ERROR and not hardy else Level.NOTE
    if not above(bitter, limits.few_ibu if not hardy else limits.most_ibu):
        return
    shown = f"{number(bitter.typical, 2)} IBU"
    sentence = "hops-stop" if level is Level.WARNING else "hops-slow"
    yield Finding(
        souring.place.path,
        level,
        say(sentence, bitterness=shown, bacteria=_bacteria(souring)),
        gap=gap(bitter, limits.few_ibu),
        evidence=(row(bitter),),
        related=bitter.paths[1:],
        knobs=_before_the_hops(brew, souring),
    )


def _before_the_hops(brew: Brew, souring: Souring) -> tuple[Knob, ...]:
    """Souring in the kettle, where only hops of the boil bitter the beer."""
    if souring.place != Where.FERMENTER or any(hop.mash or hop.first_wort for hop in brew.recipe.hops):
        return ()
    return (another_text(souring.place.path, "kettle", "put the souring before the boil (in: kettle)"),)


def _heat(brew: Brew, souring: Souring, limits: Limits) -> Iterator[Finding]:
    at = souring.at
    if not at.known or at.range.typical >= _BOIL_C:  # a unit has slipped
        return
    most = limits.plantarum_c if mentions("plantarum", "ingredient", _culture(brew, souring)) else limits.hottest_c
    if above(Range.exact(at.range.typical), most):
        shown = said_apart(most, at.range.typical, at.unit, Kind.TEMPERATURE)
        message = say("too-hot", temperature=at, bacteria=_bacteria(souring), most=shown)
        knobs = (stated_instead(at.path, at, min(37.0, most), "bring it to"),)
        yield Finding(at.path, Level.WARNING, message, gap=gap(at.range, most), knobs=knobs)
    elif below(at.range, limits.coldest_c) and souring.place != Where.FERMENTER:
        message = say("cool", temperature=at, bacteria=_bacteria(souring))
        yield Finding(at.path, Level.NOTE, message, gap=gap(at.range, limits.coldest_c))


def _time(souring: Souring, limits: Limits) -> Iterator[Finding]:
    time = souring.time
    if time.known and below(time.range * (1 / 60), limits.shortest_h):
        yield Finding(time.path, Level.NOTE, say("short", time=time), gap=gap(time.range, limits.shortest_h * 60))


def _acid(souring: Souring, limits: Limits) -> Iterator[Finding]:
    start, end = souring.start_ph, souring.ph
    if start.known and end.known and start.range.high < end.range.low:
        message = say("backwards", start=said(start.range, "pH", Kind.PH), end=said(end.range, "pH", Kind.PH))
        yield Finding(end.path, Level.WARNING, message, gap=1.0, related=(start.path,))
        return
    if end.known:
        yield from _end(souring, limits)
    early = souring.place in (Where.MASH, Where.KETTLE)
    if start.known and early and above(start.range, limits.start_ph):
        message = say("starts-high", start=number(start.range.typical, 3))
        yield Finding(start.path, Level.NOTE, message, gap=gap(start.range, limits.start_ph))


def _end(souring: Souring, limits: Limits) -> Iterator[Finding]:
    end = souring.ph.need("the pH at the end")
    shown = number(end.range.typical, 3)
    if below(end.range, limits.lowest_ph):
        yield Finding(end.path, Level.WARNING, say("too-sour", end=shown), gap=gap(end.range, limits.lowest_ph))
    elif below(end.range, limits.hard_on_yeast_ph) and souring.place != Where.FERMENTER:
        yield Finding(
            end.path, Level.NOTE, say("hard-on-yeast", end=shown), gap=gap(end.range, limits.hard_on_yeast_ph)
        )
    elif above(end.range, limits.sour_ph):
        yield Finding(end.path, Level.NOTE, say("not-sour", end=shown), gap=gap(end.range, limits.sour_ph))


SOUND = """\
recipe: Tidewater Weisse
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 2 kg}
  - {grain: wheat malt, weight: 1.5 kg}
souring: {with: Lactobacillus plantarum, in: kettle, at: 37 °C, for: 36 h, start-ph: 4.4, ph: 3.4}
boil: {for: 15 min}
hops: [{hop: Saaz, weight: 10 g, alpha: 3.5 %, boil: 15 min}]
"""
FAULTY = Example(
    """\
recipe: Tidewater Weisse
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 2 kg}
  - {grain: wheat malt, weight: 1.5 kg}
souring: {with: Lactobacillus plantarum, in: fermenter, at: 30 °C, for: 3 d, ph: 3.4}
boil: {for: 60 min}
hops: [{hop: Saaz, weight: 60 g, alpha: 3.5 %, boil: 60 min}]
""",
    "warning",
    7,
    46,
    "27 IBU where it sours may stop Lactobacillus plantarum; sour the wort before the hops go in",
)
