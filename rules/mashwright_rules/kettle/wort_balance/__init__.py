"""Do the worts of one mash share out what it gives, and no more?

One mash can make several beers: a strong one of the first runnings, a small one of the second, or blends of the two.
The first runnings are the strongest; each later water thins what the grain keeps. Whatever one beer gets, the others
lack.

What is checked: a balance of extract. In the mash all extract is in all of the wort. What runs off takes its part, what
the grain keeps is thinned by the next water, mixed and drained, or rinsed bit by bit by a fly sparge. The parts of all
worts and what stays in the grain add up to the mash.

- error: the stated original gravities (OG) together hold more than all of the extract
- warning: probably so
- error: a wort takes runnings that the recipe does not have
- error: more of some runnings is taken than there is, whatever the grain keeps; a warning where that is only likely
- error: something of the common grist goes into a kettle or fermenter, and no wort says whose
- error: the stated efficiency is more than the worts can hold, since too little is sparged; a warning where only likely
- note: more than a tenth of the extract runs off into no wort
- skipped: what needs a weight, a water or an amount that the recipe does not state

Each wort alone is judged as a beer of its own: its OG by original-gravity, its volume by volume-balance, its strength
before the boil by wort-strength, its hops, yeast and package by their rules.

On the day: measure gravity and volume of each runnings before you divide them; points times volume is what there is to
share out. In a run-off without a break the first half holds about two thirds of the extract.

Sources: [brix-tables] [grain-absorption-page] [troester-efficiency] [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew
from mashwright.rule import Example, Finding
from mashwright_rules.kettle.wort_balance._limits import Limits

SAYS = {
    "more-than-all": "the worts together need {claimed} of extract; all of the grist contains only {whole}",
    "probably-more-than-all": "the worts together need {claimed} of extract; the grist is unlikely to contain more than"
    " {whole}",
    "no-such-runnings": "this recipe has no {name} runnings; the mash and its sparge give {count}",
    "no-sparge": "this recipe has no {name} runnings, since nothing is sparged; add sparge water",
    "overdrawn": "the {name} runnings are at most {most}, and the worts take {taken}",
    "probably-overdrawn": "the {name} runnings are about {litres}, and the worts take {taken}",
    "whose": "{name} does not go into the mash, and no wort has it; write it in the `grist` of that wort",
    "too-efficient": "an efficiency of {efficiency} cannot be reached; these worts contain at most {most} % of the"
    " extract",
    "probably-too-efficient": "an efficiency of {efficiency} is unlikely; these worts contain about {held} % of the"
    " extract",
    "too-many": "at most {most} worts of one mash are judged; give the others a recipe of their own",
    "unused": "{share} % of the extract runs off into no wort",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    if brew.recipe.worts:
        from mashwright_rules.kettle.wort_balance._balance import found  # most recipes give one beer

        yield from found(brew, limits)


SOUND = """\
recipe: Ebb Ale and Neap Mild
by: Saltmarsh Lane Mash Circle
grist:
  - {grain: pale ale malt, weight: 7 kg}
mash: {water: 20 l}
sparge: {by: batch, water: 14 l}
worts:
  - {wort: Ebb Ale, runnings: first, batch: 10 l, targets: {og: 1.080}}
  - {wort: Neap Mild, runnings: second, batch: 12 l, targets: {og: 1.036}}
"""
FAULTY = Example(
    """\
recipe: Ebb Ale and Neap Mild
by: Saltmarsh Lane Mash Circle
grist:
  - {grain: pale ale malt, weight: 7 kg}
mash: {water: 20 l}
sparge: {by: batch, water: 14 l}
worts:
  - {wort: Ebb Ale, runnings: first, batch: 10 l, targets: {og: 1.080}}
  - {wort: Neap Mild, runnings: third, batch: 12 l, targets: {og: 1.036}}
""",
    "error",
    9,
    33,
    "this recipe has no third runnings; the mash and its sparge give 2",
)
