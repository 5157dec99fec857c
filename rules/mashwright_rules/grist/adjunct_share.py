"""Is the share of unmalted grain within what this base malt can carry?

Raw, flaked and torrefied grain has starch, but no enzymes and little of the
nitrogen that yeast lives on. Up to 40 % of the grist is everyday brewing in
many countries. At 60 % the beer is a different one, and the yeast goes hungry.
Strong malt (two-row, six-row) carries more unmalted grain than pale ale or
Munich malt does.

What is checked: unmalted grain as a share of all grain and malt extract,
without hulls and sugars.

- warning: above 60 %, whatever the malt; no malt feeds the yeast for so much
  grain beside it
- note: above 40 %
- note, earlier: where the malts of the mash average less than 70 °Lintner.
  The 40 % shrinks in proportion: at 35 °Lintner it is 20 %.
- one level milder: enzymes for starch are added; or the beer is opaque
  sorghum beer, which is mostly porridge
- skipped: no malt in the mash has enzymes

Whether the enzymes are enough is checked by enzyme-sufficiency as well.

On the day: test the mash with iodine. Give the yeast nutrient. Leave time for a
slow run-off.

Sources: [schnitzenbaumer-2014] 40 %, [yorke-2021] 60 %,
[diastatic-power-article] 70 °Lintner, [bogdan-2017] what is everyday,
[judgement] the proportion
"""

from collections.abc import Iterator

from mashwright.brew import Brew, Part, number, told
from mashwright.figures.grist import adjunct_share
from mashwright.ingredients.kinds import Group, IngredientKind, Place
from mashwright.knobs import Knob, in_its_place, less_of
from mashwright.measures.bounds import STRONG_LINTNER
from mashwright.rule import Example, Finding, Level, Limit, Settings, above, gap, rows_of, say


class Limits(Settings):
    much_percent = Limit(40, "% of grist", low=0, high=100, source="schnitzenbaumer-2014")
    most_percent = Limit(60, "% of grist", low=0, high=100, source="yorke-2021")
    strong_lintner = Limit.at(STRONG_LINTNER)


SOUND = """\
recipe: Levee Lager
by: Saltmarsh Lane Mash Circle
batch: 5 gal
grist:
  - {grain: six-row pale malt, weight: 7 lb}
  - {grain: flaked maize, weight: 3 lb}
mash:
  rests:
    - {at: 150 °F, for: 60 min}
"""

FAULTY = Example(
    """\
recipe: Winter Store Wheat
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: six-row pale malt, weight: 1.75 kg}
  - {grain: flaked wheat, weight: 3.25 kg}
  - {grain: rice hulls, weight: 300 g}
mash:
  rests:
    - {at: 66 °C, for: 60 min}
""",
    "warning",
    4,
    1,
    "65 % of the grist is unmalted; above 60 % the yeast runs short of nitrogen and the beer turns thin",
)


SAYS = {
    "yeast-starves": "{share} % of the grist is unmalted; above {most} % the yeast runs short of nitrogen and the"
    " beer turns thin",
    "more-than-malts-carry": "{share} % of the grist is unmalted; malts of {power} °Lintner easily carry about"
    " {most} %",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    share = adjunct_share(brew)
    unmalted = [part for part in brew.grist() if part.unmalted and part.group == Group.GRAIN]
    malts = [
        part for part in brew.placed(Place.MASH) if not part.unmalted and not part.hulls and part.group == Group.GRAIN
    ]
    whole = 100 * sum(part.amount for part in unmalted) / share.typical if share.typical > 0 else 0.0
    own_lintner = _own_power(brew, malts)
    if own_lintner <= 0:
        return
    carried = limits.much_percent * min(1.0, own_lintner / limits.strong_lintner)
    level, limit = Level.NOTE, carried
    if above(share, limits.most_percent):
        limit = limits.most_percent
        level = Level.WARNING
        message = say("yeast-starves", share=told(share.typical, limit), most=number(limit))
    elif not above(share, carried):
        return
    else:
        message = say(
            "more-than-malts-carry",
            share=told(share.typical, limit),
            power=number(own_lintner, 2),
            most=number(limit, 2),
        )
    if brew.adds("starch") or brew.is_opaque_beer:
        if level is Level.NOTE:
            return
        level = Level.NOTE
    yield Finding(
        brew.recipe.grist.path,
        level,
        message,
        gap=gap(share, limit),
        evidence=rows_of(unmalted, lambda part: 100 * part.amount / whole, "% of grist"),
        knobs=_knobs(brew, unmalted, whole, limits) if level > Level.NOTE else (),
    )


def _knobs(brew: Brew, unmalted: list[Part], whole: float, limits: Limits) -> tuple[Knob, ...]:
    """Malt in place of as much of the largest line as brings the share to the usual one; or that much less of it."""
    largest = max(unmalted, key=lambda part: part.amount)
    all_of_it = sum(part.amount for part in unmalted)
    usual = limits.much_percent / 100
    malted = [part for part in brew.placed(Place.MASH) if part.kind == IngredientKind.BASE_MALT]
    malt = max(malted, key=lambda part: part.amount, default=None)
    kept = max(0.0, usual / (1 - usual) * (whole - all_of_it) - (all_of_it - largest.amount))
    knobs = [less_of(largest, first_kg=kept)]
    if malt is not None:
        moved = (all_of_it - usual * whole) / largest.amount
        knobs.insert(0, in_its_place(brew, largest, malt.name, least=moved))
    return tuple(knobs)


def _own_power(brew: Brew, malts: list[Part]) -> float:
    """What the malts of the mash average by themselves, °Lintner; 0 where there are none."""
    weight = sum(part.amount for part in malts)
    if weight <= 0:
        return 0.0
    return sum(brew.power_of(part).typical * part.amount for part in malts) / weight
