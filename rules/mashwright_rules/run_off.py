"""Will a grist without husks, or a gummy one, run off without hulls?

The husks of barley are the filter through which the wort runs off (lauters). Wheat, rye, huskless oats, flakes and
most raw grain bring none, and rye and oats thicken the wort besides. Above half of the grist, or a quarter of rye
and oats, the bed may set like porridge; a few handfuls of rice or oat hulls (husks) keep it open. In a bag the
whole bag is the filter.

Computed: the huskless share of what is mashed, and the share of rye and oats in it, hulls left out. Notes, and
warnings where nearly everything is huskless. Nothing where a twentieth of the huskless weight is there in hulls,
the mash is in a bag, or nothing in it converts anyhow.

On the day: rinse the hulls, stir them in with the grain, run off slowly; cut the bed if it sticks.

Sources: [rice-hulls-article] 8-16 %, [hulls-advice] 5 %, [allaboutbeer-rye] rye, [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.rule import (
    MALT_EXTRACTS,
    Brew,
    Example,
    Finding,
    Kind,
    Knob,
    Level,
    Limit,
    Part,
    Range,
    Settings,
    above,
    added_grain,
    below,
    gap,
    grain_unit,
    more_of,
    rows_of,
    said,
    told,
)


class Limits(Settings):
    huskless_percent = Limit(50, "%", low=10, high=100, source="common-practice")
    huskless_most_percent = Limit(80, "%", low=10, high=100, source="judgement")
    gummy_percent = Limit(25, "%", low=5, high=100, source="common-practice")
    gummy_most_percent = Limit(60, "%", low=5, high=100, source="judgement")
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
    "100 % of the mash has no husk; without 0.25-0.5 kg of hulls it may not run off",
)


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    if _hangs_in_a_bag(brew) or not any(brew.power_of(part).high > 0 for part in brew.mashed()):
        return
    parts = [part for part in brew.placed("mash", "late mash") if not part.hulls]
    hulls = [part for part in brew.placed("mash", "late mash") if part.hulls]
    total_kg = sum(part.weight_kg for part in parts)
    bare = [part for part in parts if not part.husk]
    bare_kg = sum(part.weight_kg for part in bare)
    if bare_kg <= 0:
        return
    hulls_percent = Range.exact(100 * sum(part.weight_kg for part in hulls) / bare_kg)
    if below(hulls_percent, limits.hulls_percent) is None:
        return
    huskless = Range.exact(100 * bare_kg / total_kg)
    gummy = Range.exact(100 * sum(part.weight_kg for part in bare if part.cereal in ("rye", "oat")) / total_kg)
    limit, share = limits.huskless_percent, huskless
    if above(huskless, limits.huskless_most_percent) or above(gummy, limits.gummy_most_percent):
        level = Level.WARNING
    elif above(huskless, limits.huskless_percent) or above(gummy, limits.gummy_percent):
        level = Level.NOTE
    else:
        return
    what = "of the mash has no husk"
    if above(huskless, limits.huskless_percent) is None:
        limit, share, what = limits.gummy_percent, gummy, "of the mash is rye or oats"
    handfuls = said(Range(0.05 * bare_kg, 0.075 * bare_kg, 0.1 * bare_kg), grain_unit(brew), Kind.MASS)
    some = f"{handfuls} of hulls"
    amount = f"{told(share.typical, limit)} % {what}"
    yield Finding(
        ("grist",),
        level,
        f"{amount}; without {some} it may not run off"
        if level is Level.WARNING
        else f"{amount}; {some} would keep the run-off open",
        gap=gap(share, limit),
        evidence=rows_of(bare, lambda part: 100 * part.weight_kg / total_kg, "% of the mash"),
        knobs=(_knob(brew, hulls, bare_kg, limits),),
    )


def _hangs_in_a_bag(brew: Brew) -> bool:
    """Whether a bag is stated, or it is a small mash beside malt extract."""
    mash = brew.recipe.mash
    if mash is None:
        return brew.recipe.steep is not None or any(part.kind in MALT_EXTRACTS for part in brew.grist())
    return mash.bag


def _knob(brew: Brew, hulls: list[Part], bare_kg: float, limits: Limits) -> Knob:
    if hulls:
        return more_of(hulls[0], most=max(3.0, 0.15 * bare_kg / hulls[0].weight_kg))
    least = bare_kg * limits.hulls_percent / 100
    return added_grain("rice hulls", grain_unit(brew), least, 3 * least)
