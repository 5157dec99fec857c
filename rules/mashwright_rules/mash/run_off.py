"""Will a grist without husks, or a gummy one, run off without hulls?

The husks of barley are the filter through which the wort runs off. Wheat,
rye, huskless oats, flakes and most raw grain have no husks. Rye and oats also
thicken the wort. With too much of them the grain bed may set like porridge. A
few handfuls of rice or oat hulls keep it open.

What is checked: two shares of the mash, hulls left out. One is all grain
without husks, the other is the rye and oats among it.

                                  no husk      rye and oats
  note                            above 50 %   above 25 %
    most of it is malted wheat    above 65 %   above 25 %
  warning                         above 80 %   above 60 %
    most of it is not malted,     above 65 %   above 40 %
    and there is no gum rest

- a gum rest touches 37-48 °C (99-118 °F). Enzymes that open gum stand in for
  it. If no rests are stated, or one cannot be read, it is assumed.
- note: above 30 % without husks in a stiff mash, stated below 2.2 l/kg (about
  1 qt/lb)
- malted wheat runs off better than raw: two thirds of it are an everyday
  wheat beer. Malted spelt counts as malted wheat.
- skipped: the hulls weigh at least 5 % of the grain without husks
- skipped: the mash is in a bag, where the whole bag is the filter. No `mash`
  beside a steep or malt extract counts as a bag.
- skipped: nothing in the mash converts starch; or it is opaque sorghum beer,
  which is strained and not run off

On the day: rinse the hulls, stir them in with the grain and run off slowly.
If the bed sticks, cut it.

Sources: [rice-hulls-article] 8-16 %, [hulls-advice] 5 %, [allaboutbeer-rye]
rye, [kettunen-1996] 48 °C, [mashing-encyclopaedia] 37 °C, [common-practice]
[judgement]
"""

from collections.abc import Iterator

from mashwright.brew import MALT_EXTRACTS, Brew, Part, grain_unit, number, thickness_unit, told
from mashwright.figures.kettle import liquor_to_grist
from mashwright.ingredients.kinds import Cereal, Place
from mashwright.knobs import Knob, added_grain, more_of
from mashwright.measures import Kind, Range, said
from mashwright.measures.bounds import GUM_REST_COOLEST_C, GUM_REST_HOTTEST_C
from mashwright.rule import Example, Finding, Level, Limit, Settings, above, below, gap, rows_of, say


class Limits(Settings):
    huskless_percent = Limit(50, "%", low=10, high=100, source="common-practice")
    wheat_malt_percent = Limit(65, "%", low=10, high=100, source="common-practice")
    huskless_most_percent = Limit(80, "%", low=10, high=100, source="judgement")
    gummy_percent = Limit(25, "%", low=5, high=100, source="common-practice")
    gummy_most_percent = Limit(60, "%", low=5, high=100, source="judgement")
    raw_most_percent = Limit(65, "%", low=10, high=100, source="judgement")
    raw_gummy_most_percent = Limit(40, "%", low=5, high=100, source="judgement")
    gum_rest_coolest_c = Limit.at(GUM_REST_COOLEST_C)
    gum_rest_hottest_c = Limit.at(GUM_REST_HOTTEST_C)
    in_a_stiff_mash_percent = Limit(30, "%", low=10, high=100, source="judgement")
    stiff_l_per_kg = Limit(2.2, "l/kg", low=1, high=3, source="judgement")
    hulls_percent = Limit(5, "%", low=0, high=20, source="hulls-advice")


SOUND = """\
recipe: Beekeeper's Weizen
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: wheat malt, weight: 3 kg}
  - {grain: Pilsner malt, weight: 2 kg}
  - {grain: rice hulls, weight: 200 g}
mash:
  rests:
    - {at: 66 °C, for: 60 min}
"""

FAULTY = Example(
    """\
recipe: Beekeeper's Weizen
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: wheat malt, weight: 5 kg}
mash:
  rests:
    - {at: 66 °C, for: 60 min}
""",
    "warning",
    4,
    1,
    "100 % of the mash has no husk; without 0.25-0.5 kg of hulls the run-off may stick",
)


SAYS = {
    "stiff": "{share} % of the mash has no husk, and {thickness} is a stiff mash; the run-off could stick",
    "huskless": "{share} % of the mash has no husk",
    "gummy": "{share} % of the mash is rye or oats",
    "may-stick": "without {hulls} of hulls the run-off may stick",
    "keeps-open": "{hulls} of hulls could keep the run-off open",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    if _hangs_in_a_bag(brew) or brew.is_opaque_beer or not any(brew.power_of(part).high > 0 for part in brew.mashed()):
        return
    parts = [part for part in brew.placed(Place.MASH, Place.LATE_MASH) if not part.hulls]
    hulls = [part for part in brew.placed(Place.MASH, Place.LATE_MASH) if part.hulls]
    total = sum(part.amount for part in parts)
    bare = [part for part in parts if not part.husk]
    bare_amount = sum(part.amount for part in bare)
    if bare_amount <= 0:
        return
    hulls_percent = Range.exact(100 * sum(part.amount for part in hulls) / bare_amount)
    if not below(hulls_percent, limits.hulls_percent):
        return
    huskless = Range.exact(100 * bare_amount / total)
    gummy = Range.exact(100 * sum(part.amount for part in bare if part.cereal in (Cereal.RYE, Cereal.OAT)) / total)
    # malted wheat is soft and loses its cell walls in the malting: two thirds of it is an everyday wheat beer
    malted = sum(part.amount for part in bare if part.malted and part.cereal in (Cereal.WHEAT, Cereal.SPELT))
    most_bare = limits.wheat_malt_percent if malted > bare_amount / 2 else limits.huskless_percent
    limit, share = most_bare, huskless
    most, most_gummy = _most(brew, bare, limits)
    if above(huskless, most) or above(gummy, most_gummy):
        level = Level.WARNING
    elif above(huskless, most_bare) or above(gummy, limits.gummy_percent):
        level = Level.NOTE
    else:
        yield from _in_a_stiff_mash(brew, huskless, limits)
        return
    sentence = "huskless"
    if not above(huskless, most_bare):
        limit, share, sentence = limits.gummy_percent, gummy, "gummy"
    remedy = say("may-stick" if level is Level.WARNING else "keeps-open", hulls=_handfuls(brew, bare, total))
    yield Finding(
        brew.recipe.grist.path,
        level,
        say(sentence, share=told(share.typical, limit)).and_then(remedy),
        gap=gap(share, limit),
        evidence=rows_of(bare, lambda part: 100 * part.amount / total, "% of the mash"),
        knobs=(_knob(brew, hulls, bare_amount, limits),),
    )


def _most(brew: Brew, bare: list[Part], limits: Limits) -> tuple[float, float]:
    """Shares of what has no husk, and of rye and oats, that are worth a warning, %; less where most of it is raw."""
    raw = sum(part.amount for part in bare if part.unmalted) > sum(part.amount for part in bare) / 2
    if raw and not _gum_rest(brew, limits):
        return limits.raw_most_percent, limits.raw_gummy_most_percent
    return limits.huskless_most_percent, limits.gummy_most_percent


def _in_a_stiff_mash(brew: Brew, huskless: Range, limits: Limits) -> Iterator[Finding]:
    """Less of it sticks where the mash is stiff."""
    limit = limits.in_a_stiff_mash_percent
    if above(huskless, limit) and (stiff := _stiff(brew, limits)):
        message = say("stiff", share=number(huskless.typical, 2), thickness=stiff)
        yield Finding(brew.recipe.grist.path, Level.NOTE, message, gap=gap(huskless, limit))


def _stiff(brew: Brew, limits: Limits) -> str:
    """The stated water to grain, where there is little of it; "" else."""
    mash = brew.recipe.mash
    if not mash.known or (not mash.water.known and not mash.thickness.known):
        return ""
    thickness = liquor_to_grist(brew)
    if not below(thickness, limits.stiff_l_per_kg):
        return ""
    return said(thickness.typical, thickness_unit(brew), Kind.THICKNESS)


def _gum_rest(brew: Brew, limits: Limits) -> bool:
    """Whether a rest, or a rise through it, touches the heat at which malt cuts the gum, or enzymes are added.

    Taken so where no rest is stated, or one cannot be read.
    """
    if not brew.plan.stated or brew.plan.missing is not None or brew.adds("gums"):
        return True
    for rest in brew.plan.rests:
        ends = (rest.at_c, rest.to_c or rest.at_c)
        low, high = min(one.low for one in ends), max(one.high for one in ends)
        if low <= limits.gum_rest_hottest_c and high >= limits.gum_rest_coolest_c:
            return True
    return False


def _handfuls(brew: Brew, bare: list[Part], total: float) -> str:
    """A twentieth to a tenth of what has no husk; as a share where the recipe has no weights."""
    amount = sum(part.amount for part in bare)
    if bare[0].weight.kind is not Kind.MASS:
        return said(Range(5 * amount / total, 7.5 * amount / total, 10 * amount / total), "%", Kind.SHARE)
    return said(Range(0.05 * amount, 0.075 * amount, 0.1 * amount), grain_unit(brew), Kind.MASS)


def _hangs_in_a_bag(brew: Brew) -> bool:
    """Whether a bag is stated, or it is a small mash beside malt extract."""
    mash = brew.recipe.mash
    if not mash.known:
        return brew.recipe.steep.known or any(part.kind in MALT_EXTRACTS for part in brew.grist())
    return mash.bag


def _knob(brew: Brew, hulls: list[Part], bare_amount: float, limits: Limits) -> Knob:
    if hulls:
        return more_of(hulls[0], most=max(3.0, 0.15 * bare_amount / hulls[0].weight_kg))
    least = bare_amount * limits.hulls_percent / 100
    return added_grain("rice hulls", grain_unit(brew), least, 3 * least)
