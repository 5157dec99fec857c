"""Does more of the strength come from sugar than a sound beer carries?

Sugar (brewing sugar, dextrose, candy, honey, syrups) ferments away and leaves alcohol without body. Monastery ales
and strong golden ones take 15 to 20 % of it by weight, old British strong ales up to a quarter; most beers a tenth or
less. Much more than that makes a thin, sharp beer, and a wort that is poor in what yeast feeds on, so that it may
stop early.

Computed: the extract of fermentable sugars and syrups as a share of all extract that arrives; lactose and
maltodextrin are left out, and so is sorghum syrup, which stands in for malt. Above 25 % is a note, above 40 % a
warning; never more, since it may be meant (mead with grain, ginger beer).

On the day: add big doses late, when the malt sugar is going down, and give the yeast a nutrient; two equal gravities
three days apart show that it has finished.

Sources: [brewing-sugar-article] [sugar-retail] [common-practice]
"""

from collections.abc import Iterator

from mashwright.rule import (
    Brew,
    Evidence,
    Example,
    Finding,
    Level,
    Limit,
    Settings,
    above,
    deliveries,
    gap,
    is_fermentable_sugar,
    less_of,
    number,
    row,
    sugar_share,
    told,
    weight_in,
)


class Limits(Settings):
    """What is compared with."""

    usual_percent = Limit(25, "%", low=5, high=60, source="common-practice")
    most_percent = Limit(40, "%", low=15, high=100, source="common-practice")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    share = sugar_share(brew)
    given = deliveries(brew)
    malt_like = sum(one.typical_kg for one in given if one.part.table_name == "sorghum syrup")
    total = sum(one.typical_kg for one in given)
    value = share.range * max(0.0, 1 - malt_like / (share.typical / 100 * total)) if share.typical > 0 else share.range
    if above(value, limits.most_percent) is not None:
        level, limit, words = (
            Level.WARNING,
            limits.most_percent,
            "the beer turns thin and the yeast may lack food: is it meant",
        )
    elif above(value, limits.usual_percent) is not None:
        level, limit, words = Level.NOTE, limits.usual_percent, "strong ales carry that, others turn thin"
    else:
        return
    sugars = [one for one in given if is_fermentable_sugar(one.part) and one.part.table_name != "sorghum syrup"]
    largest = max(sugars, key=lambda one: one.typical_kg).part
    yield Finding(
        largest.path,
        level,
        f"sugar gives {told(value.typical, limit)} % of the extract, more than {number(limit)} %; {words}",
        gap(value, limit),
        evidence=(
            *(
                Evidence(f"extract of {one.part.name}", weight_in(brew, one.typical_kg), "", one.part.path)
                for one in sugars
            ),
            row(share),
        ),
        knobs=(less_of(largest),),
    )


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
    "sugar gives 53 % of the extract, more than 40 %; the beer turns thin and the yeast may lack food: is it meant",
)
