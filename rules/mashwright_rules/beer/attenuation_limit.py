"""Is the attenuation that the recipe states possible at all?

Malt leaves dextrins that ordinary brewing yeast cannot split. An all-malt wort
reaches at most about 88 % apparent attenuation (real 72 %). Only sugar, enzymes
or yeast that splits dextrins go further. A beer that ferments on in the bottle
can burst it, so the difference matters.

What is checked: the attenuation from the stated OG to the stated FG, 1 point of
gravity allowed for reading; else the stated attenuation. The limit is 88 % for
malt. It rises with the share of sugar, which ferments fully: so the wort can go
further than its malt, and further than the figure that a yeast is sold with.

- error: FG is not below OG, or is below what is left when all extract
  ferments
- error: more than 9 points of attenuation above the limit even in the best
  case, with a yeast known to leave dextrins
- warning: above the limit, with such a yeast, or with no yeast stated
- note: above the limit, with a yeast of which nothing is known
- skipped: enzymes or yeast that are known or stated to go further; a stated
  FG where grist, rests and yeast tell how far the wort ferments (see
  final-gravity)

On the day: take two equal gravities three days apart. Ferment a warm jar of
wort with much yeast to see where the beer ends. If the beer really ends so low,
find out why before you bottle it. Keep to the ratings of bottles and kegs.

Sources: [munsche-1894] [cutaia-2009] [sta1-guide] [common-practice]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number, told
from mashwright.brewing.alcohol import apparent_attenuation as attenuation_between
from mashwright.brewing.alcohol import final_gravity, real_degree
from mashwright.figures.beer import apparent_attenuation, apparent_ceiling, fermenting, fg
from mashwright.knobs import stated_right
from mashwright.measures import Kind, Quantity, Range, said
from mashwright.measures.constants import REAL_PER_APPARENT
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Say, Settings, Unknown, above, gap, say


class Limits(Settings):
    """What is compared with."""

    malt_percent = Limit(88, "%", low=75, high=100, source="common-practice")
    impossible_percent = Limit(9, "%", low=0, high=30, source="judgement")
    reading_points = Limit(1, "points", difference=True, low=0, high=5, source="judgement")


_A_POINT = 0.001  # of gravity, for reading where nothing at all could be left to ferment


SAYS = {
    "too-much": "an attenuation of {attenuation} % is too much",
    "not-below": "FG {fg} is not below OG {og}: nothing would have fermented",
    "beyond-all": "FG {fg} from OG {og} is not possible; with all of its extract fermented it ends at {lowest}",
    "beyond-malt": "FG {fg} from OG {og} is an attenuation of {attenuation} %",
    "ends": "without enzymes or diastatic yeast this wort reaches at most {most} %",
    "with-sugar": ", since its sugar ferments fully and its malt to {malt} %",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    targets = brew.recipe.targets
    og, end = targets.og, targets.fg
    if og.known and end.known:
        yield from _from_gravities(brew, limits, og, end)
    elif targets.attenuation.known:
        stated = targets.attenuation
        ceiling = apparent_ceiling(brew, limits.malt_percent)
        if ceiling is not None and above(stated.range, ceiling):
            message = say("too-much", attenuation=told(stated.range.typical, ceiling))
            yield Finding(
                targets.attenuation.path,
                _level(brew, stated.range, ceiling, limits),
                message.and_then(_ends(ceiling, limits)),
                gap(stated.range, ceiling),
            )


def _from_gravities(brew: Brew, limits: Limits, og: Quantity, end: Quantity) -> Iterator[Finding]:
    path = brew.recipe.targets.fg.path
    start_path = brew.recipe.targets.og.path
    if end.range.low >= og.range.high:
        message = say("not-below", fg=end, og=og)
        yield Finding(path, Level.ERROR, message, related=(start_path,), knobs=_knobs(brew, end))
        return
    reading = limits.reading_points / 1000
    start = Range(*(max(1.0005, one) for one in (og.range.low, og.range.typical, og.range.high)))
    value = Range.span(lambda o, f: attenuation_between(o, f + reading), start, end.range)
    plain = attenuation_between(start.typical, end.range.typical)
    if real_degree(start.low, end.range.high + _A_POINT) > 100:
        lowest = said(final_gravity(start.typical, 100 / REAL_PER_APPARENT), end.unit, Kind.GRAVITY)
        message = say("beyond-all", fg=end, og=og, lowest=lowest)
        yield Finding(path, Level.ERROR, message, related=(start_path,), knobs=_knobs(brew, end))
        return
    ceiling = None if _band_is_known(brew) else apparent_ceiling(brew, limits.malt_percent)
    if ceiling is None or not above(value, ceiling):
        return
    yield Finding(
        path,
        _level(brew, value, ceiling, limits),
        say("beyond-malt", fg=end, og=og, attenuation=told(plain, ceiling)).and_then(_ends(ceiling, limits)),
        gap(value, ceiling),
        evidence=(
            Evidence("apparent attenuation stated", plain, "%", path),
            Evidence("real attenuation stated", real_degree(start.typical, end.range.typical), "%", path),
        ),
        related=(start_path,),
        knobs=_knobs(brew, end),
    )


def _ends(ceiling: float, limits: Limits) -> Say:
    most, malt = number(ceiling, 2), number(limits.malt_percent, 2)
    return say("ends", most=most).and_then(say("with-sugar", malt=malt) if most != malt else None)


def _level(brew: Brew, value: Range, ceiling: float, limits: Limits) -> Level:
    """A note for a yeast of which nothing is known: it may be one that splits dextrins."""
    if fermenting(brew).assumed:
        return Level.NOTE if brew.recipe.yeast else Level.WARNING
    return Level.ERROR if above(value, ceiling + limits.impossible_percent) is Level.ERROR else Level.WARNING


def _band_is_known(brew: Brew) -> bool:
    """Whether grist, rests and yeast tell how far this wort ferments: then the FG is held against that."""
    try:
        return not apparent_attenuation(brew).assumed
    except Unknown:
        return False


def _knobs(brew: Brew, end: Quantity) -> tuple[object, ...]:
    try:
        typical = fg(brew).typical
    except Unknown:
        return ()
    return (stated_right(brew.recipe.targets.fg.path, end, typical, "FG"),)


SOUND = """\
recipe: Reed Bed Bitter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: American ale}
targets: {og: 1.048, fg: 1.010}
"""
FAULTY = Example(
    """\
recipe: Reed Bed Bitter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4 kg}
yeast: {kind: American ale}
targets:
  og: 1.048
  fg: 1.003
""",
    "warning",
    9,
    7,
    "FG 1.003 from OG 1.048 is an attenuation of 94 %; without enzymes or diastatic yeast this wort reaches at"
    " most 88 %",
)
