"""Does the stated alcohol follow from the gravities?

Alcohol by volume (ABV) is worked out from the original and the final gravity. A
stated ABV that no formula gives is a slip in one of the three. Then the label,
the duty and the guest's evening are wrong.

What is checked: the stated ABV against Balling's balance and two quick formulas
of the trade: 131.25 × (OG - FG), and the steeper one for strong beer. Without a
stated FG or OG, against what this grist, mash and yeast give. The stated OG may
or may not count sugar and fruit that go into the fermenter.

- error: above 25 % vol, which no yeast makes
- error: outside all formulas by more than 1 % vol, and by more than 25 % of
  the ABV from Balling's balance; both gravities must be stated
- warning: outside all formulas by more than 0.4 % vol, and by more than 10 %
- skipped: FG is not below OG (see attenuation-limit); no FG is stated, and
  the mash makes hardly anything to ferment

On the day: read both gravities at the hydrometer's own temperature and free of
gas. Work out the ABV from what you read.

Sources: [balling-nielsen] [cutaia-2009] [oiml-r22] [uchima-gravity] [hall-1995]
[common-practice]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number, told
from mashwright.brewing.alcohol import alcohol_by_volume, final_gravity
from mashwright.figures.beer import apparent_attenuation
from mashwright.figures.mash import fermenter_share, og
from mashwright.knobs import stated_right
from mashwright.measures import Kind, Range, said
from mashwright.measures.bounds import NO_WORT_PERCENT
from mashwright.measures.constants import ABV_PER_GRAVITY
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Settings, Unknown, above, differs, say


class Limits(Settings):
    """What is compared with."""

    allowed_abv_percent = Limit(0.4, "% vol", low=0.1, high=2, source="common-practice")
    allowed_percent = Limit(10, "%", low=2, high=50, source="common-practice")
    impossible_abv_percent = Limit(1.0, "% vol", low=0.4, high=5, source="judgement")
    impossible_percent = Limit(25, "%", low=5, high=100, source="judgement")
    no_wort_percent = Limit.at(NO_WORT_PERCENT)
    strongest_percent = Limit(25, "% vol", low=15, high=30, source="common-practice")


SAYS = {
    "more-than-yeast-makes": "{alcohol} % alcohol is more than any yeast makes, at most {most} %",
    "not-of-these-gravities": "an ABV of {stated} does not fit: OG {og} and FG {fg} give {gives}",
    "not-of-this-grist": "an ABV of {stated} does not fit: this grist, mash and yeast give {gives}",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    targets = brew.recipe.targets
    stated = targets.abv
    if not stated.known:
        return
    path = targets.abv.path
    if above(stated.range, limits.strongest_percent):
        most = limits.strongest_percent
        message = say("more-than-yeast-makes", alcohol=told(stated.range.typical, most), most=number(most))
        yield Finding(path, Level.ERROR, message)
        return
    start = targets.og.range if targets.og.known else og(brew).range
    if targets.fg.known:
        end = targets.fg.range
        if end.low >= start.high:
            return  # no alcohol to reckon; asked elsewhere
        low_end, high_end = end.high, end.low
        typical_end = end.typical
    else:
        band = apparent_attenuation(brew)
        if band.typical < limits.no_wort_percent:
            return  # the mash makes hardly anything to ferment; asked elsewhere
        low_end, high_end = final_gravity(start.low, band.low), final_gravity(start.high, band.high)
        typical_end = final_gravity(start.typical, band.typical)
    late = 1 / (1 - _late_share(brew))
    balling = alcohol_by_volume(start.typical, typical_end)
    value = Range(
        min(_formulas(start.low, low_end)),
        balling,
        max(_formulas(1 + (start.high - 1) * late, high_end)),
    )
    both = targets.og.known and targets.fg.known
    allowed = max(limits.allowed_abv_percent, balling * limits.allowed_percent / 100)
    impossible = max(limits.impossible_abv_percent, balling * limits.impossible_percent / 100)
    if differs(value, stated.range, allowed) is not Level.ERROR:
        return
    level = Level.ERROR if both and differs(value, stated.range, impossible) is Level.ERROR else Level.WARNING
    if both:
        first, last = targets.og.need("a stated OG"), targets.fg.need("a stated FG")
        gives = said(balling, "%", Kind.SHARE)
        message = say("not-of-these-gravities", stated=stated, og=first, fg=last, gives=gives)
    else:
        gives = said(Range(value.low, balling, value.high), "%", Kind.SHARE)
        message = say("not-of-this-grist", stated=stated, gives=gives)
    yield Finding(
        path,
        level,
        message,
        gap=round(abs(stated.range.typical - balling) / max(balling, 0.1), 4),
        evidence=(
            Evidence("original gravity", said(start.typical, "SG", Kind.GRAVITY), "", targets.og.path),
            Evidence("final gravity", said(typical_end, "SG", Kind.GRAVITY), "", targets.fg.path),
            Evidence("alcohol by Balling's balance", balling, "% vol"),
        ),
        related=(targets.og.path, targets.fg.path) if both else (),
        knobs=(stated_right(path, stated, balling, "ABV"),),
    )


def _formulas(start_sg: float, end_sg: float) -> tuple[float, float, float]:
    """Alcohol by volume, %: Balling's, the straight line [uchima-gravity], the steep formula [hall-1995].

    The constants of the steep formula are from memory.
    """
    steep = 76.08 * (start_sg - end_sg) / (1.775 - start_sg) * end_sg / 0.794
    return alcohol_by_volume(start_sg, end_sg), ABV_PER_GRAVITY * (start_sg - end_sg), steep


def _late_share(brew: Brew) -> float:
    """Share of the extract that only goes into the fermenter; 0 where it is not known."""
    try:
        return fermenter_share(brew)
    except Unknown:
        return 0.0


SOUND = """\
recipe: Rope Walk Porter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
  - {grain: brown malt, weight: 400 g}
targets: {og: 1.056, fg: 1.014, abv: 5.5 %}
"""
FAULTY = Example(
    """\
recipe: Rope Walk Porter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
  - {grain: brown malt, weight: 400 g}
targets:
  og: 1.056
  fg: 1.014
  abv: 6.5 %
""",
    "warning",
    10,
    8,
    "an ABV of 6.5 % does not fit: OG 1.056 and FG 1.014 give 5.6 %",
)
