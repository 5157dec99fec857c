"""Does more of the strength come from sugar than a sound beer carries?

Sugar (brewing sugar, dextrose, candy, honey, syrups) ferments away and leaves
alcohol without body. Monastery ales and strong golden ones draw 15 to 20 % of
what ferments from it. Old British strong ales draw up to 25 %, most beers 10 %
or less. Much more makes a thin, sharp beer. Yeast finds little food in such a
wort and may stop early.

What is checked: the extract of fermentable sugars and syrups as a share of all
extract that reaches the wort. Lactose and maltodextrin are not counted as
sugar; nor is sorghum syrup, which stands in for malt.

- warning: above 45 % by more than 2 points (no share is known closer). Never
  an error, since it may be on purpose. A kit and a kilo of sugar stay below.
- note: above 25 %; above 33 % for a wort above 1.065 (stated or worked out),
  which carries more
- skipped: by name or style a braggot or mead, made of honey, or a kvass or
  ginger beer, made of sugar

On the day: add big doses late, when the malt sugar is going down. Give the
yeast nutrient. Two equal gravities three days apart show that it has finished.

Sources: [belgian-sugar-quote] 15 to 20 %, [sugar-retail] two thirds of the
extract from malt, [brewing-sugar-article] how yeast takes it up,
[common-practice] a tenth or less, [judgement] the limits
"""

from collections.abc import Iterator

from mashwright.brew import MALT_EXTRACTS, MALTS, Brew, Part, number, told, weight_in
from mashwright.figures.mash import Delivery, deliveries, is_fermentable_sugar, og, sugar_share
from mashwright.knobs import Knob, less_of, one_change
from mashwright.measures import Kind, said
from mashwright.rule import Edit, Evidence, Example, Finding, Level, Limit, Settings, above, gap, row, say


class Limits(Settings):
    """What is compared with."""

    # published: a tenth in most beers, 15-20 % in monastery ales, 34 % at most by a retailer; ours are wider, so that
    # neither old strong ales nor a kit with its kilo of sugar are warned of
    usual_percent = Limit(25, "%", low=5, high=60, source="judgement")
    usual_strong_percent = Limit(33, "%", low=5, high=60, source="judgement")
    strong_points = Limit(65, "points", low=40, high=100, source="common-practice")
    most_percent = Limit(45, "%", low=15, high=100, source="judgement")
    edge_percent = Limit(2, "%", low=0, high=10, source="judgement")  # no share of extract is known closer


SAYS = {
    "thin": "sugar gives {share} % of the extract, more than {most} %; the beer turns thin and the yeast may lack food;"
    " is this on purpose?",
    "much": "sugar gives {share} % of the extract, more than {most} %; strong ales carry that, others may turn thin",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    if brew.intent.of_sugar:
        return
    share = sugar_share(brew)
    given = deliveries(brew)
    malt_like = sum(one.typical_kg for one in given if one.part.table_name == "sorghum syrup")
    total = sum(one.typical_kg for one in given)
    value = share.range * max(0.0, 1 - malt_like / (share.typical / 100 * total)) if share.typical > 0 else share.range
    usual = limits.usual_strong_percent if _strong(brew, limits) else limits.usual_percent
    if above(value, limits.most_percent):
        level, limit, sentence = (
            Level.WARNING if value.typical > limits.most_percent + limits.edge_percent else Level.NOTE,
            limits.most_percent,
            "thin",
        )
    elif above(value, usual):
        level, limit, sentence = Level.NOTE, usual, "much"
    else:
        return
    sugars = [one for one in given if is_fermentable_sugar(one.part) and one.part.table_name != "sorghum syrup"]
    largest = max(sugars, key=lambda one: one.typical_kg).part
    yield Finding(
        largest.path,
        level,
        say(sentence, share=told(value.typical, limit), most=number(limit)),
        gap(value, limit),
        evidence=(
            *(
                Evidence(f"extract of {one.part.name}", weight_in(brew, one.typical_kg), "", one.part.path)
                for one in sugars
            ),
            row(share),
        ),
        knobs=_knobs(brew, largest, sugars, usual) if level > Level.NOTE else (),
    )


def _strong(brew: Brew, limits: Limits) -> bool:
    stated = brew.recipe.targets.og
    gravity = stated.range if stated.known else og(brew).range
    return bool(above(gravity, 1 + limits.strong_points / 1000))


def _knobs(brew: Brew, largest: Part, sugars: list[Delivery], usual_percent: float) -> tuple[Knob, ...]:
    """Less of the largest, to the usual share; with as much more malt as keeps the wort as strong, or without."""
    given = deliveries(brew)
    total_kg = sum(one.typical_kg for one in given)
    sugar_kg = sum(one.typical_kg for one in sugars)
    its_kg = next(one.typical_kg for one in sugars if one.part is largest)
    usual = usual_percent / 100
    fewer_kg = its_kg - sugar_kg + usual / (1 - usual) * (total_kg - sugar_kg)
    less = less_of(largest, first_kg=max(0.0, fewer_kg / its_kg * largest.weight_kg))
    malts = [one for one in given if one.part.kind in (*MALTS, *MALT_EXTRACTS) and one.part.line.weight.known]
    malt = max(malts, key=lambda one: one.typical_kg, default=None)
    kept_kg = its_kg - sugar_kg + usual * total_kg
    if malt is None or malt.typical_kg <= 0 or kept_kg <= 0 or not largest.line.weight.known:
        return (less,)
    more = said(malt.part.weight_kg * (1 + (its_kg - kept_kg) / malt.typical_kg), malt.part.weight.unit, Kind.MASS)
    kept = said(0.995 * kept_kg / its_kg * largest.weight_kg, largest.weight.unit, Kind.MASS)
    edits = (Edit(malt.part.line.weight.path, more), Edit(largest.line.weight.path, kept))
    words = (
        f"use {kept} of {largest.name} instead of {largest.weight.text}, and {more} of {malt.part.name} in its place"
    )
    return less, one_change(edits, words)


SOUND = """\
recipe: Saltmarsh Tripel
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 6 kg}
  - {sugar: table sugar, weight: 900 g}
"""
FAULTY = Example(
    """\
recipe: Storm Surge
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 2.5 kg}
  - {sugar: table sugar, weight: 1.6 kg}
""",
    "warning",
    6,
    6,
    "sugar gives 53 % of the extract, more than 45 %; the beer turns thin and the yeast may lack food; is this on"
    " purpose?",
)
