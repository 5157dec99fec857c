"""Does the stated final gravity follow from OG, mash, sugars and yeast?

A hot or short mash makes a wort that ends high; a cool or long one, low. Sugar
makes it end lower, caramel malt and lactose higher, and yeast moves it a few
points either way. Wort ferments furthest from a mash near 62.5 °C (145 °F).
With few enzymes, a hotter mash leaves even more unfermented. An FG (American:
terminal gravity) that does not fit means another alcohol, another body, or beer
that was bottled before it had finished.

What is checked: the stated FG against the range that the apparent attenuation
of this grist, mash and yeast gives, from the stated OG or else the one worked
out. Allowed for reading: 2 points of gravity, or 5 % of the OG's points if that
is more.

- error: FG below the range by more than 4 further points of attenuation,
  where OG, rests and yeast are stated
- warning: FG below the range, or below what any wort reaches with ordinary
  yeast
- warning: FG above the range; it may be stopped on purpose, or the range is
  too low here
- note: FG above the range, with yeast or enzymes that split dextrins
- skipped: FG below the range, where something splits dextrins
- skipped: gravities that no beer can have, and an FG that no ordinary wort
  reaches where rests or yeast are not stated (see attenuation-limit)
- skipped: a mash that makes hardly anything to ferment
- skipped: FG below the range, where a rest above 75 °C turns 25 % of the
  starch before a cooler rest comes; then the rests are wrong

On the day: take two equal gravities three days apart before you package. If the
gravity is too high, the beer may ferment on in the bottle and burst it: keep to
the bottles' rating.

Sources: [chandrasekhar] [munsche-1894] [moritz-1891] [hamilton-lewis-1974]
[mash-or-steep-article] [sta1-guide] [judgement] [common-practice]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number
from mashwright.brewing.alcohol import apparent_attenuation as attenuation_between
from mashwright.brewing.alcohol import final_gravity, real_degree
from mashwright.figures.beer import apparent_attenuation, apparent_ceiling, fermenting, splits_dextrins
from mashwright.figures.mash import follow, og
from mashwright.knobs import stated_right
from mashwright.measures import Kind, Range, said
from mashwright.measures.bounds import ENZYMES_END_C, NO_WORT_PERCENT
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Settings, Unknown, row, say


class Limits(Settings):
    """What is compared with."""

    reading_points = Limit(2, "points", difference=True, low=0, high=10, source="judgement")
    reading_share_percent = Limit(5, "%", low=0, high=20, source="judgement")
    impossible_percent = Limit(4, "%", low=0, high=30, source="judgement")
    no_wort_percent = Limit.at(NO_WORT_PERCENT)
    hottest_c = Limit.at(ENZYMES_END_C)
    hot_share_percent = Limit(25, "%", low=5, high=90, source="judgement")


_FIT = "an attenuation of {stated} %; this grist, mash and yeast give {least} to {most} %, so FG {gives}"
SAYS = {
    "does-not-fit": f"FG {{fg}} from OG {{og}} is {_FIT}",
    "does-not-fit-the-grist": f"FG {{fg}} from about {{og}} is {_FIT}",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    targets = brew.recipe.targets
    stated = targets.fg
    if not stated.known:
        return
    start = targets.og.range if targets.og.known else og(brew).range
    if targets.og.known and _cannot_be(start, stated.range):
        return
    band = apparent_attenuation(brew)
    if band.typical < limits.no_wort_percent:
        return
    yeast = fermenting(brew)
    lowest = min(band.low, yeast.attenuation.low)
    expected = Range.span(final_gravity, start, Range(lowest, max(lowest, band.typical), band.high))
    reading = max(limits.reading_points / 1000, limits.reading_share_percent / 100 * (start.typical - 1))
    beyond = _beyond_ordinary(brew, start, stated.range)
    if (stated.range.high < expected.low - reading or beyond) and not splits_dextrins(brew):
        if beyond and band.assumed and targets.og.known:
            return  # with a mash or a yeast that is not stated, only what no ordinary wort reaches is sure
        if not beyond and _hot_rest_first(brew, limits):
            return
        least = attenuation_between(max(start.low, 1.0005), stated.range.high + reading)
        sure = targets.og.known and not band.assumed
        level = Level.ERROR if sure and least > band.high + limits.impossible_percent else Level.WARNING
    elif stated.range.low > expected.high + reading:
        level = Level.NOTE if splits_dextrins(brew) else Level.WARNING
    else:
        return
    implied = attenuation_between(start.typical, stated.range.typical)
    path = targets.fg.path
    gives = said(Range(expected.low, expected.typical, expected.high), stated.unit, Kind.GRAVITY)
    message = say(
        "does-not-fit" if targets.og.known else "does-not-fit-the-grist",
        fg=stated,
        og=targets.og if targets.og.known else said(start.typical, "SG", Kind.GRAVITY),
        stated=number(implied, 2),
        least=number(lowest, 2),
        most=number(band.high, 2),
        gives=gives,
    )
    yield Finding(
        path,
        level,
        message,
        gap=round(abs(implied - band.typical) / max(band.typical, 1), 4),
        evidence=(Evidence("apparent attenuation stated", implied, "%", path), row(band)),
        related=(targets.og.path,) if targets.og.known else (),
        knobs=(stated_right(path, stated, final_gravity(start.typical, band.typical), "FG"),),
    )


def _hot_rest_first(brew: Brew, limits: Limits) -> bool:
    """Whether a rest too hot for the enzymes turns much of the starch before a cooler one: that is said of the rests.

    Nothing of what is not mashed.
    """
    try:
        rests, turned = brew.plan.known(), follow(brew).typical.rests
    except Unknown:
        return False
    return any(
        rest.hottest_c > limits.hottest_c
        and result.converted >= limits.hot_share_percent
        and any(later.hottest_c <= limits.hottest_c for later in rests[index + 1 :])
        for index, (rest, result) in enumerate(zip(rests, turned, strict=True))
    )


_A_POINT = 0.001  # of gravity, for reading


def _cannot_be(start: Range, end: Range) -> bool:
    """Whether the gravities are none of a beer, whatever it was made of: that is said elsewhere."""
    return end.low >= start.high or real_degree(max(1.0005, start.low), end.high + _A_POINT) > 100


def _beyond_ordinary(brew: Brew, start: Range, end: Range) -> bool:
    """Whether the stated attenuation is beyond any wort that ordinary yeast ferments."""
    ceiling = apparent_ceiling(brew)
    return ceiling is not None and attenuation_between(start.typical, end.typical + _A_POINT) > ceiling


SOUND = """\
recipe: Boathouse Brown
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 3.8 kg}
  - {grain: caramel malt 60, weight: 300 g}
mash:
  rests: [{at: 67 °C, for: 60 min}]
yeast: {kind: English ale}
targets: {og: 1.047, fg: 1.012}
"""
FAULTY = Example(
    """\
recipe: Boathouse Brown
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 3.8 kg}
  - {grain: caramel malt 60, weight: 300 g}
mash:
  rests: [{at: 67 °C, for: 60 min}]
yeast: {kind: English ale}
targets:
  og: 1.047
  fg: 1.024
""",
    "warning",
    12,
    7,
    "FG 1.024 from OG 1.047 is an attenuation of 49 %; this grist, mash and yeast give 65 to 79 %, so FG 1.010-1.016",
)
