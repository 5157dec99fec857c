"""Can this yeast tolerate the alcohol that it is to make?

Alcohol is a poison to yeast too. Near its limit yeast slows; past it, sugar is
left. The beer stays sweet and has another strength, and another yeast may
ferment it on in the bottle.

What is checked: the stated alcohol, if it is within 10 % of what the stated
gravities give; else what they give; else what grist, mash and yeast give. It is
compared with the tolerance that the recipe states; else with that of the
yeast's kind, which is wide and rests on weak sources. Of several yeasts, the
strongest counts.

  level    above a stated tolerance                  above that of a kind
  error    by more than 2 % vol, even at the lowest  never: it is from memory
  warning  by more than 0.5 % vol                    by more than 1 % vol
  note     by less                                   by less

- skipped: no tolerance is stated, and none is known of the kind

On the day: strong beer needs two to three times the yeast, air at the start,
and nutrient. A second, tolerant yeast can finish it. Do not bottle before two
equal gravities three days apart. Keep to the bottles' rating.

Sources: [alcohol-tolerance-article] [yeast-supplier-pages] [high-gravity-blog]
[from-memory] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number, told
from mashwright.brewing.alcohol import alcohol_by_volume
from mashwright.figures.beer import abv, fermenting
from mashwright.ingredients.lookup import yeast as known_yeast
from mashwright.knobs import Knob, one_change
from mashwright.measures import Range
from mashwright.rule import Edit, Evidence, Example, Finding, Level, Limit, Path, Settings, gap, say
from mashwright.words.plurals import with_noun


class Limits(Settings):
    """What is compared with."""

    beyond_stated_percent = Limit(0.5, "% vol", low=0, high=5, source="judgement")
    beyond_kind_percent = Limit(1.0, "% vol", low=0, high=5, source="judgement")
    impossible_percent = Limit(2.0, "% vol", low=0, high=8, source="judgement")


SAYS = {
    "beyond-stated": "the beer reaches {alcohol} % alcohol, more than the stated tolerance of {most} %; it may stay"
    " sweet",
    "beyond-kind": "the beer reaches {alcohol} % alcohol, more than the {most} % that {yeast} usually"
    " tolerates; the beer"
    " may stay sweet",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    yeast = fermenting(brew)
    if yeast.tolerance is None:
        return
    alcohol = _alcohol(brew)
    most = yeast.tolerance.high
    yeasts = brew.recipe.yeast
    stated = next((y for y in yeasts if y.tolerance.known and y.tolerance.range == yeast.tolerance), None)
    if alcohol.typical <= most:
        return
    if stated is not None:
        level = Level.WARNING if alcohol.typical > most + limits.beyond_stated_percent else Level.NOTE
        level = Level.ERROR if alcohol.low > most + limits.impossible_percent else level
        message = say("beyond-stated", alcohol=told(alcohol.typical, most, 3), most=number(most, 3))
    else:
        level = Level.WARNING if alcohol.typical > most + limits.beyond_kind_percent else Level.NOTE
        here = told(alcohol.typical, most, 3)
        message = say("beyond-kind", alcohol=here, most=number(most, 3), yeast=with_noun(_kinds(brew), "yeast"))
    path = stated.tolerance.path if stated is not None else (*yeast.path, "kind")
    yield Finding(
        path,
        level,
        message,
        gap=gap(alcohol, most),
        evidence=(
            Evidence("alcohol by volume", alcohol.typical, "%"),
            Evidence("tolerance of the yeast, at most", most, "%", path),
        ),
        knobs=_knobs(brew, alcohol, path),
    )


def _knobs(brew: Brew, alcohol: Range, path: Path) -> tuple[Knob, ...]:
    """A yeast for strong beer, where there is one yeast and the tables know one that stands so much."""
    strong = known_yeast("high-gravity ale")
    if strong is None or len(brew.recipe.yeast) != 1 or alcohol.typical > strong.tolerance.high:
        return ()
    yeast = brew.recipe.yeast[0]
    edits = [Edit(yeast.kind.path, strong.name)]
    stands = ""
    if path[-1] == "tolerance":
        most = f"{number(strong.tolerance.typical, 2)} %"
        edits.append(Edit(path, most))
        stands = f", which tolerates about {most},"
    return (one_change(tuple(edits), f"use {strong.name} yeast{stands} instead of {yeast.kind or 'this one'}"),)


def _alcohol(brew: Brew) -> Range:
    targets = brew.recipe.targets
    if targets.og.known and targets.fg.known and targets.fg.range.high < targets.og.range.low:
        start, end = targets.og.range, targets.fg.range
        reckoned = Range(
            alcohol_by_volume(start.low, end.high),
            alcohol_by_volume(start.typical, end.typical),
            alcohol_by_volume(start.high, end.low),
        )
        stated = targets.abv
        follows = stated.known and abs(stated.range.typical - reckoned.typical) <= 0.1 * reckoned.typical
        return stated.range if stated.known and follows else reckoned
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
    "the beer reaches 10.9 % alcohol, more than the stated tolerance of 9 %; it may stay sweet",
)
