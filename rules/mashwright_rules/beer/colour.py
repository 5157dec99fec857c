"""Does the grist give the stated colour?

A few hundred grams of black malt make a pale beer brown. A stated colour that
the grist cannot give is most often a dark grain left out, ten times too much of
one, or the other scale: 1 SRM is nearly 2 EBC. A beer is what it looks like in
the glass: this rule is about the sum, not about taste.

What is checked: the stated colour against each weight times its colour, in the
volume of the batch, by Morey's formula [morey-1995]. Late and steeped dark
grain, sugar and extract count like the rest. The formula is a fit: 20 % either
way is left for boil, kettle and the age of the malt. More is left for a boil
above 90 min, and for the spread of malts of one name. Published recipes that
were brewed give 0.7 to 1.15 times what they state.

  level    the grist gives, times the stated colour
  error    below 0.4 or above 2.5, and past the warning in the best case too
  warning  below 0.55 or above 1.6
  note     below 0.65 or above 1.35; or the two ranges do not meet

- a warning at most: the colours of the grist are from memory
- also asked: did you mean the same number in the other scale (SRM, EBC)?
- skipped: within 1.5 SRM of the stated colour; both at least 35 SRM, where
  beer is black; a grist that gives below 0.67 or above 1.5 times the points
  of the stated OG (see efficiency)
- left open: paler than stated, with a grain of which nothing is known; it may
  be black

Old colours in EBC, taken at 530 nm, cannot be converted and are not meant.

On the day: look at a finger of wort against daylight before the boil. 50 g of
black malt in 20 l, steeped cold or stirred in for the last minutes of the mash,
darken a pale beer by about 5 SRM.

Sources: [morey-1995] [srm-encyclopaedia] [common-practice] the spread,
[judgement] the limits
"""

from collections.abc import Iterator

from mashwright.brew import Brew, Part, number
from mashwright.brewing.gravity import points
from mashwright.figures.beer import colour
from mashwright.figures.mash import og
from mashwright.knobs import Knob, another_text, as_written, stated_right
from mashwright.measures import Kind, Quantity, Range, from_canonical, said
from mashwright.measures.constants import EBC_PER_SRM, SRM_PER_EBC
from mashwright.rule import (
    Example,
    Finding,
    Level,
    Limit,
    Open,
    Path,
    Say,
    Settings,
    Unknown,
    above,
    below,
    row,
    rows_of,
    say,
)
from mashwright.words.sentences import Measure


class Limits(Settings):
    paler_times = Limit(0.55, "times", low=0.2, high=0.9, source="judgement")
    darker_times = Limit(1.6, "times", low=1.1, high=4, source="judgement")
    usually_paler_times = Limit(0.65, "times", low=0.2, high=1, source="judgement")
    usually_darker_times = Limit(1.35, "times", low=1, high=4, source="judgement")
    surely_times = Limit(2.5, "times", low=1.5, high=10, source="judgement")
    black_srm = Limit(35, "SRM", low=20, high=60, source="judgement")
    reading_srm = Limit(1.5, "SRM", difference=True, low=0, high=10, source="judgement")


SAYS = {
    "another": "the grist gives about {colour} ({band}), not {stated}",
    "other-scale": "did you mean {meant}?",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    stated = brew.recipe.targets.colour
    if not stated.known or stated.range.low <= 0:
        return
    given = colour(brew)
    want, have = stated.range, given.range
    if min(want.typical, have.typical) >= limits.black_srm or have.typical <= 0 or _another_wort(brew):
        return
    if want.low - limits.reading_srm <= have.typical <= want.high + limits.reading_srm:
        return
    ratio = Range(have.low / want.high, have.typical / want.typical, have.high / want.low)
    level = below(ratio, limits.paler_times) or above(ratio, limits.darker_times)
    outside = want.high < have.low or want.low > have.high
    if level is None and (outside or not limits.usually_paler_times <= ratio.typical <= limits.usually_darker_times):
        level = Level.NOTE
    if level is None:
        return
    if (unknown := _may_be_dark(brew)) is not None and have.typical < want.typical:
        raise Open(f"what {unknown.name} is", (*unknown.path, unknown.line.group))
    if level is Level.ERROR and (given.memory or 1 / limits.surely_times <= ratio.typical <= limits.surely_times):
        level = Level.WARNING
    path = as_written(brew, brew.recipe.targets.colour.path)
    gives = said(have.typical, stated.unit, Kind.BEER_COLOUR)
    band = said(Range(have.low, have.typical, have.high), stated.unit, Kind.BEER_COLOUR)
    other, meant = _other_scale(path, stated, have)
    darkest = sorted(
        (part for part in brew.grist() if part.colour_lovibond is not None and not part.hulls),
        key=lambda part: -part.weight_kg * (part.colour_lovibond.typical if part.colour_lovibond is not None else 0.0),
    )[:3]
    yield Finding(
        path,
        level,
        say("another", colour=gives, band=band, stated=stated).and_then(meant),
        gap=round(abs(ratio.typical - 1), 4),
        evidence=(
            *rows_of(darkest, lambda part: part.colour_lovibond.typical if part.colour_lovibond else 0.0, "°Lovibond"),
            row(given),
        ),
        related=tuple(part.path for part in darkest[:1]),
        knobs=(*other, stated_right(path, stated, have.typical, "colour")),
    )


def _may_be_dark(brew: Brew) -> Part | None:
    """A grain of which nothing is known, however little of it: black malt colours a beer by a fiftieth of the grist."""
    return next((part for part in brew.grist() if part.guessed and not part.line.colour.known), None)


def _another_wort(brew: Brew) -> bool:
    """Whether the grist gives nothing like the stated OG, so that its weights or the batch are what is wrong."""
    stated = brew.recipe.targets.og
    if not stated.known:
        return False
    try:
        given = points(og(brew).typical)
    except Unknown:
        return False
    return not 0.67 * points(stated.range.low) <= given <= 1.5 * points(stated.range.high)


def _other_scale(path: Path, stated: Quantity, have: Range) -> tuple[tuple[Knob, ...], Say | None]:
    """The same number in the other scale, where that fits: SRM and EBC are taken for one another."""
    unit = {"SRM": "EBC", "EBC": "SRM"}.get(stated.unit)
    if unit is None:
        return (), None
    same = number(from_canonical(stated.range.typical, stated.unit, Kind.BEER_COLOUR), 3)
    factor = SRM_PER_EBC if unit == "EBC" else EBC_PER_SRM
    if not have.low <= stated.range.typical * factor <= have.high or not stated.range.known:
        return (), None
    text = Measure(f"{same} {unit}", same.value, unit)
    return (another_text(path, text, f"change the stated colour from {stated.text} to {text}"),), say(
        "other-scale", meant=text
    )


SOUND = """\
recipe: Boathook Brown
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 3.8 kg}
  - {grain: caramel malt 60, weight: 300 g}
  - {grain: chocolate malt, weight: 120 g}
targets: {colour: 19 SRM}
"""
FAULTY = Example(
    """\
recipe: Boathook Brown
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 3.8 kg}
  - {grain: caramel malt 60, weight: 300 g}
targets: {colour: 30 SRM}
""",
    "error",
    7,
    19,
    "the grist gives about 8 SRM (6.3-9.7 SRM), not 30 SRM",
)
