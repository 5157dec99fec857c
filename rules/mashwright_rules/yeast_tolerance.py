"""Can this yeast stand the alcohol that it is to make?

Alcohol is a poison to yeast too. Near the limit it slows, and past it leaves sugar behind: a sweet beer of another
strength, and one that another yeast may go on with in the bottle.

Computed: the alcohol from the stated gravities, else from what this grist, mash and yeast give, against the tolerance
that the recipe states or, wide and weakly sourced, that of the yeast's kind. Past a stated tolerance is a warning, an
error if it is 2 points past even with the least alcohol; past a kind's a note, and a warning from one point past. Of
several yeasts the strongest counts. A kind's tolerance never makes an error, since it rests on memory.

On the day: strong beer wants two to three times the yeast, air at the start and nutrient; a second, tolerant yeast
can finish it. Do not bottle before two equal gravities three days apart, and keep to the bottles' rating.

Sources: [alcohol-tolerance-article] [yeast-supplier-pages] [high-gravity-blog] [from-memory] [judgement]
"""

from collections.abc import Iterator

from mashwright.brewing.alcohol import alcohol_by_volume
from mashwright.rule import (
    Brew,
    Evidence,
    Example,
    Finding,
    Level,
    Limit,
    Range,
    Settings,
    abv,
    fermenting,
    gap,
    number,
    told,
)


class Limits(Settings):
    """What is compared with."""

    beyond_kind_percent = Limit(1.0, "% vol", low=0, high=5, source="judgement")
    impossible_percent = Limit(2.0, "% vol", low=0, high=8, source="judgement")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yeast = fermenting(brew)
    if yeast.tolerance is None:
        return
    alcohol = _alcohol(brew)
    most = yeast.tolerance.high
    yeasts = brew.recipe.yeast
    stated = next((y for y in yeasts if y.tolerance is not None and y.tolerance.range == yeast.tolerance), None)
    if alcohol.typical <= most:
        return
    if stated is not None:
        level = Level.ERROR if alcohol.low > most + limits.impossible_percent else Level.WARNING
        words = f"the stated tolerance of {number(most, 3)} %"
    else:
        level = Level.WARNING if alcohol.typical > most + limits.beyond_kind_percent else Level.NOTE
        words = f"the {number(most, 3)} % that {_kinds(brew)} yeast usually stands"
    path = (*stated.path, "tolerance") if stated is not None else (*yeast.path, "kind")
    yield Finding(
        path,
        level,
        f"the beer comes to {told(alcohol.typical, most, 3)} % alcohol, more than {words}; it may stop sweet",
        gap=gap(alcohol, most),
        evidence=(
            Evidence("alcohol by volume", alcohol.typical, "%"),
            Evidence("tolerance of the yeast, at most", most, "%", path),
        ),
    )


def _alcohol(brew: Brew) -> Range:
    targets = brew.recipe.targets
    if targets.og is not None and targets.fg is not None and targets.fg.range.high < targets.og.range.low:
        start, end = targets.og.range, targets.fg.range
        return Range(
            alcohol_by_volume(start.low, end.high),
            alcohol_by_volume(start.typical, end.typical),
            alcohol_by_volume(start.high, end.low),
        )
    return abv(brew).range


def _kinds(brew: Brew) -> str:
    return " and ".join(one.kind for one in brew.recipe.yeast if one.kind) or "this"


SOUND = """\
recipe: Old Lamp Barley Wine
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 9 kg}
yeast: {kind: high-gravity ale}
targets: {og: 1.100, fg: 1.020}
"""
FAULTY = Example(
    """\
recipe: Old Lamp Barley Wine
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 9 kg}
yeast: {kind: house ale, attenuation: 80 %, tolerance: 9 %}
targets: {og: 1.100, fg: 1.020}
""",
    "warning",
    6,
    56,
    "the beer comes to 10.9 % alcohol, more than the stated tolerance of 9 %; it may stop sweet",
)
