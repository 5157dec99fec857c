"""Is the mash neither too thick to stir nor too thin to sparge?

The usual mash has 2 to 4 l of water to a kg of grain (1 to 2 qt/lb). It can
be stirred, keeps its heat and leaves water for the sparge. In a thicker mash
lumps stay dry, and the wort runs off slowly. In a thinner one the enzymes are
thin, and little water is left for the sparge.

What is checked: the strike water, or the stated thickness, against the grain
that is mashed in with it. A mash in a bag, or one that is not sparged, has
all of its water at once, so it may be thinner. The upper warnings are at 1.5
times the notes.

  mash                    note           warning
  too thick               below 2 l/kg   below 1.6 l/kg
  too thin, sparged       above 4 l/kg   above 6 l/kg
  too thin in a bag,
    or not sparged        above 8 l/kg   above 12 l/kg

- several mashes of one grist: each by itself. A reiterated mash is judged as
  one that is not sparged, since its wort is the water of the next.
- skipped: no `mash`, as in a steep; or neither water nor thickness is stated
- skipped: below 1 or above 15 l/kg. A unit has slipped: see unit-slip.

On the day: a thick mash takes two people and a strong paddle. Add hot water,
a litre at a time, until the mash falls off the paddle. A full tun is heavy
and scalds: do not lift it.

Sources: [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, said_apart, strike_water, thickness_unit
from mashwright.figures.kettle import liquor_to_grist
from mashwright.ingredients.kinds import SpargeBy
from mashwright.knobs import Knob
from mashwright.measures import Kind, said
from mashwright.measures.bounds import LEAST_WATER_L_PER_KG, MOST_WATER_L_PER_KG
from mashwright.rule import Edit, Example, Finding, Level, Limit, Settings, above, below, gap, row, say


class Limits(Settings):
    """What is compared with."""

    thick_l_per_kg = Limit(2, "l/kg", low=1, high=3, source="common-practice")
    thickest_l_per_kg = Limit(1.6, "l/kg", low=0.8, high=2.5, source="judgement")
    thin_l_per_kg = Limit(4, "l/kg", low=3, high=8, source="common-practice")
    thin_unsparged_l_per_kg = Limit(8, "l/kg", low=4, high=12, source="common-practice")
    far_times = Limit(1.5, "times", low=1, high=3, source="judgement")
    least_meant_l_per_kg = Limit.at(LEAST_WATER_L_PER_KG)
    most_meant_l_per_kg = Limit.at(MOST_WATER_L_PER_KG)


SAYS = {
    "too-stiff": "{thickness} of water to grain is a mash too stiff to stir; {least} to {most} is usual",
    "stiff": "{thickness} of water to grain is a stiff mash; {least} to {most} is usual",
    "thin-and-sparged": "{thickness} of water to grain is thin for a mash that is sparged, and leaves little sparge"
    " water; {least} to"
    " {most} is usual",
    "thin": "{thickness} of water to grain is a very thin mash; {least} to {most} is usual",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    mash = brew.recipe.mash
    if not mash.known or (not mash.water.known and not mash.thickness.known):
        return
    thickness = liquor_to_grist(brew)
    if not limits.least_meant_l_per_kg <= thickness.typical <= limits.most_meant_l_per_kg:
        return
    sparge = brew.recipe.sparge
    sparged = sparge.known and sparge.by != SpargeBy.NONE and not mash.bag and not mash.reiterated
    thin = limits.thin_l_per_kg if sparged else limits.thin_unsparged_l_per_kg
    if below(thickness, limits.thick_l_per_kg):
        far = bool(below(thickness, limits.thickest_l_per_kg))
        limit, sentence = limits.thick_l_per_kg, "too-stiff" if far else "stiff"
    elif above(thickness, thin):
        far = bool(above(thickness, thin * limits.far_times))
        limit = thin
        sentence = "thin-and-sparged" if sparged else "thin"
    else:
        return
    usual = _said(brew, limits.thick_l_per_kg), _said(brew, thin)
    amount = _said(brew, thickness.typical)
    if amount in usual:
        amount = said_apart(thickness.typical, limit, thickness_unit(brew), Kind.THICKNESS)
    message = say(sentence, thickness=amount, least=usual[0].split(" ")[0], most=usual[1])
    level = Level.WARNING if far else Level.NOTE
    path = strike_water(brew).path
    yield Finding(path, level, message, gap(thickness, limit), (row(thickness),), (), (_knob(brew, limit),))


def _said(brew: Brew, litres_per_kg: float) -> str:
    return said(litres_per_kg, thickness_unit(brew), Kind.THICKNESS)


def _knob(brew: Brew, litres_per_kg: float) -> Knob:
    """As much water as the nearer end of the usual takes."""
    mash = brew.recipe.mash
    if not mash.water.known:
        stated, value = mash.thickness.need("the thickness of the mash"), litres_per_kg
    else:
        stated, value = mash.water, mash.water.range.typical * litres_per_kg / liquor_to_grist(brew).typical
    text = said(value, stated.unit, stated.kind)
    edits = [Edit(strike_water(brew).path, text)]
    if not mash.water.known:
        return Knob(1, lambda _: tuple(edits), lambda _: f"mash at {text} instead of {stated.text}")
    words = f"use {text} of mash water instead of {stated.text}"
    sparge = brew.recipe.sparge
    sparged = sparge.water
    if sparge.known and sparged.known:
        litres = sparged.range.typical + mash.water.range.typical - value
        edits.append(Edit(sparge.water.path, said(litres, sparged.unit, Kind.VOLUME)))
        words += f", and {edits[-1].text} of sparge water instead of {sparged.text}"
    return Knob(1 if all(edit.text[0] != "-" for edit in edits) else 0, lambda _: tuple(edits), lambda _: words)


SOUND = """\
recipe: Net Mender's Ale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
mash:
  thickness: 2.8 l/kg
  rests:
    - {at: 66 °C, for: 60 min}
sparge: {by: fly, at: 76 °C}
"""
FAULTY = Example(
    """\
recipe: Net Mender's Ale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
mash:
  thickness: 1.4 l/kg
  rests:
    - {at: 66 °C, for: 60 min}
sparge: {by: fly, at: 76 °C}
""",
    "warning",
    7,
    14,
    "1.4 l/kg of water to grain is a mash too stiff to stir; 2 to 4 l/kg is usual",
)
