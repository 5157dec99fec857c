"""Would a cool rest help with this much raw or flaked barley, oats or rye?

The cell walls of barley, oats and rye contain gum (beta-glucan and
pentosans). Malting breaks the gum down; unmalted grain keeps all of it and
makes a thick wort and a slow run-off. The malt enzyme that cuts the gum is
gone within a minute at 65 °C (149 °F). It needs a cool rest first.

What is checked: raw, flaked and torrefied barley, oats and rye together, as a
share of the mash.

- note: above 25 %, and no rest touches 37-48 °C (99-118 °F). Many brew
  without such a rest and only wait longer for the run-off.
- skipped: enzymes that open gum are added
- skipped: no `mash` is stated, but a steep or malt extract is: the grain then
  hangs in a bag
- skipped: nothing in the mash converts starch

On the day: lift a spoon of the runnings. If they pull threads, they are
gummy: thin them with a hotter sparge, within the limit of the rule sparge.

Sources: [lyons-1978] [kettunen-1996] 48 °C, [bg-glossary] 35-45 °C,
[mash-rest-40-abstract] [common-practice] a fifth to a quarter
"""

from collections.abc import Iterator

from mashwright.brew import MALT_EXTRACTS, Brew, told
from mashwright.brew import degrees as degrees_in
from mashwright.figures.grist import grist_diastatic_power
from mashwright.ingredients.kinds import Cereal
from mashwright.measures import Range
from mashwright.measures.bounds import GUM_REST_COOLEST_C, GUM_REST_HOTTEST_C
from mashwright.rule import Example, Finding, Level, Limit, Settings, above, gap, rows_of, say


class Limits(Settings):
    share_percent = Limit(25, "%", low=5, high=100, source="common-practice")
    coolest_c = Limit.at(GUM_REST_COOLEST_C)
    hottest_c = Limit.at(GUM_REST_HOTTEST_C)


SOUND = """\
recipe: Thatcher's Oat Stout
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 3.5 kg}
  - {grain: flaked oats, weight: 700 g}
  - {grain: flaked barley, weight: 800 g}
mash:
  rests:
    - {at: 45 °C, for: 20 min}
    - {at: 66 °C, for: 60 min}
"""

FAULTY = Example(
    """\
recipe: Thatcher's Oat Stout
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 3.5 kg}
  - {grain: flaked oats, weight: 700 g}
  - {grain: flaked barley, weight: 800 g}
mash:
  rests:
    - {at: 66 °C, for: 60 min}
""",
    "note",
    4,
    1,
    "30 % of the mash is unmalted barley, oats or rye; a first rest of 15 to 30 min at 37-48 °C thins the wort",
)


SAYS = {
    "gummy": "{share} % of the mash is unmalted barley, oats or rye; a first rest of 15 to 30 min at {band} thins"
    " the wort",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    parts = brew.mashed()
    gummy = [part for part in parts if part.unmalted and part.cereal in (Cereal.BARLEY, Cereal.OAT, Cereal.RYE)]
    if not gummy or _no_question(brew):
        return
    total_kg = sum(part.amount for part in parts)
    share = Range.exact(100 * sum(part.amount for part in gummy) / total_kg)
    if not above(share, limits.share_percent) or _rested(brew, limits):
        return
    band = degrees_in(brew, Range(limits.coolest_c, limits.coolest_c, limits.hottest_c))
    yield Finding(
        brew.recipe.grist.path,
        Level.NOTE,
        say("gummy", share=told(share.typical, limits.share_percent), band=band),
        gap=gap(share, limits.share_percent),
        evidence=rows_of(gummy, lambda part: 100 * part.amount / total_kg, "% of the mash"),
    )


def _no_question(brew: Brew) -> bool:
    """Where enzymes that open gums are added, the mash is a small one in a bag, or nothing in it converts anyhow."""
    mash = brew.recipe.mash
    if not mash.known and (brew.recipe.steep.known or any(part.kind in MALT_EXTRACTS for part in brew.grist())):
        return True
    return brew.adds("gums") or grist_diastatic_power(brew).typical <= 0


def _rested(brew: Brew, limits: Limits) -> bool:
    """Whether a rest, or a rise through it, touches the band."""
    for rest in brew.plan.known():
        ends = (rest.at_c, rest.to_c or rest.at_c)
        if min(one.low for one in ends) <= limits.hottest_c and max(one.high for one in ends) >= limits.coolest_c:
            return True
    return False
