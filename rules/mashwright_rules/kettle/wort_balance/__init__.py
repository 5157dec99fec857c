"""Do the worts of one mash share out what it gives, and no more?

One mash can make several beers: a strong one of the first runnings, a small one
of the second, or blends of the two. The first runnings are the strongest; each
later water thins what the grain keeps. What one beer gets, the others lack.

What is checked: a balance of extract over all worts. In the mash all extract is
in all of the wort. What runs off takes its part. What the grain keeps is mixed
with the next water and drained, or rinsed bit by bit by a fly sparge. The worts
and what stays in the grain add up to the mash.

- error: the stated original gravities (OG) need more than all of the extract
- warning: they probably do
- error: a wort takes runnings that the recipe does not have
- error: the worts take more of some runnings than there is, however little the
  grain keeps; a warning if only by what it usually keeps
- error: sugar or extract of the common grist has no wort to go into
- error: the stated efficiency is more than the worts can contain, since too
  little is sparged; a warning if only by what the grain usually keeps
- note: over 10 % of the extract runs off into no wort
- warning: more worts than are judged
- skipped: a weight, a water or an amount that the sums need cannot be read

Each wort is also judged as a beer of its own: its OG by original-gravity, its
volumes by volume-balance, its runnings by wort-strength, its hops, yeast and
package by their rules.

On the day: measure gravity and volume of each runnings before you divide them.
Points times volume is what there is to share out. In one run-off without a
break, the first half has about two thirds of the extract.

Sources: [brix-tables] [grain-absorption-page] [troester-efficiency]
[common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew
from mashwright.rule import Example, Finding
from mashwright_rules.kettle.wort_balance._limits import Limits

SAYS = {
    "more-than-all": "the worts together need {claimed} of extract; all of the grist contains only {whole}",
    "probably-more-than-all": "the worts together need {claimed} of extract; the grist is unlikely to contain more than"
    " {whole}",
    "no-such-runnings": "this recipe has no {name} runnings; the mash and its sparge give only {there}",
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


ASKS_ABOUT = ("worts",)


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
    "this recipe has no third runnings; the mash and its sparge give only first and second",
)
