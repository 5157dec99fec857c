"""Can the wort be this strong before the boil with this much water?

All that the mash dissolves is shared out over all of its water. So the first
runnings are the strongest wort, and sparging only weakens it. For a stronger
wort, boil water away, or add sugar or malt extract.

What is checked: the strongest wort that this grist can give, all of its extract
dissolved in the stated mash water and the malt's own moisture. It must reach
the stated gravity of the first wort, or the one before the boil. If none is
stated before the boil, but the volume is, it must reach what the OG needs in
that volume, without what is not mashed. 0.5 °P is allowed for reading.

- error: even the best lots of malt give too little
- warning: the usual lots give too little
- of several worts of one mash, each is held against the runnings that it gets
- skipped: no mash water is stated; or the OG needs more extract than the
  grist has

On the day: measure the first runnings, cooled; hot wort scalds. If they are
weaker than worked out, stop the sparge early and boil longer.

Sources: [troester-efficiency] [conversion-efficiency-article] [nbs-c440]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, number
from mashwright.brewing.gravity import extract_kg, gravity_of, plato, specific_gravity
from mashwright.figures.grist import mash_weight
from mashwright.figures.mash import deliveries, fermenter_volume, mash_water, wort_limit
from mashwright.knobs import Knob, stated_right
from mashwright.measures import Kind, Quantity, Range, said, step_of
from mashwright.recipe.stated import NOWHERE, Stated
from mashwright.rule import Edit, Example, Finding, Limit, Path, Say, Settings, below, gap, row, say


class Limits(Settings):
    """What is compared with."""

    allowed_plato = Limit(0.5, "°P", difference=True, low=0, high=5, source="judgement")
    thickest_l_per_kg = Limit(1.8, "l/kg", low=1, high=3, source="common-practice")


SAYS = {
    "first-wort": "a first wort of {gravity} is stated",
    "pre-boil": "a gravity before the boil of {gravity} is stated",
    "og-asks-for": "OG {og} needs {gravity} in the {volume} before the boil",
    "too-much-water": ", but with {water} of mash water this grist gives at most {strongest}, and a sparge only"
    " weakens it",
    "too-weak-runnings": ", but the runnings of this wort are at most {strongest}, if the mash dissolves all of its"
    " extract",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    asked = list(_needed(brew))
    if not asked:
        return
    limit = wort_limit(brew)
    for path, stated, needed_p, wanted in asked:
        allowed = limit.range.map(lambda degrees: degrees + limits.allowed_plato)
        if not (level := below(allowed, needed_p)):
            continue
        strongest = said(specific_gravity(limit.typical), stated.unit, Kind.GRAVITY)
        litres, water_path = mash_water(brew) or (Range.exact(0), path)
        water = _water(brew)
        told_water = water if water.known else f"{number(litres.typical, 3)} l"
        knobs = [_less_water(brew, water, water_path, limits.thickest_l_per_kg)] if water.known else []
        if path[-1] != "og":
            knobs.append(stated_right(path, stated, specific_gravity(limit.typical), "gravity"))
        if brew.of_mash is not None:
            message = wanted.and_then(say("too-weak-runnings", strongest=strongest))
        else:
            message = wanted.and_then(say("too-much-water", water=told_water, strongest=strongest))
        yield Finding(path, level, message, gap(limit, needed_p), (row(limit),), (water_path,), tuple(knobs))
        return


def _needed(brew: Brew) -> Iterator[tuple[Path, Quantity, float, Say]]:
    """Where a strength before the boil is stated or implied: place, unit, °P at the least, and how to say it."""
    targets = brew.recipe.targets
    for stated, sentence in (
        (targets.first_wort_gravity, "first-wort"),
        (targets.pre_boil_gravity, "pre-boil"),
    ):
        if stated.known:
            yield stated.path, stated, plato(stated.range.low), say(sentence, gravity=stated)
    og, boil = targets.og, brew.recipe.boil
    if (
        not og.known
        or targets.pre_boil_gravity.known
        or not boil.known
        or not boil.volume.known
        or boil.volume.range.low <= 0
    ):
        return
    given = deliveries(brew)
    later_kg = sum(one.typical_kg for one in given if not one.part.mashed)
    kg = extract_kg(fermenter_volume(brew)[0].typical, og.range.typical) - later_kg
    mashed_kg = sum(one.laboratory_kg.typical for one in given if one.part.mashed)
    if not 0 < kg <= mashed_kg:
        return
    sg = gravity_of(kg, boil.volume.range.high)
    asks = said(sg, og.unit, Kind.GRAVITY)
    yield (
        targets.og.path,
        og,
        plato(sg),
        say("og-asks-for", og=og, gravity=asks, volume=boil.volume),
    )


def _water(brew: Brew) -> Stated:
    """The strike water, where it is the only water of the mash and stated as a volume."""
    mash = brew.recipe.mash
    if not mash.known or brew.recipe.cereal_mash.known or any(rest.water.known for rest in mash.rests):
        return NOWHERE
    return mash.water


def _less_water(brew: Brew, water: Quantity, path: Path, thickest: float) -> Knob:
    """Less mash water, the rest of it to go into the sparge, down to the thickest mash that can be stirred."""
    step = max(step_of(water.unit, Kind.VOLUME), 0.25)
    start, end = water.range.typical, mash_weight(brew).typical * thickest
    count = max(0, int((start - end) / step))

    def text(step_number: int) -> str:
        return said(start - (step_number + 1) * step, water.unit, Kind.VOLUME)

    return Knob(
        count,
        lambda step_number: (Edit(path, text(step_number)),),
        lambda step_number: f"use {text(step_number)} of mash water instead of {water.text}; sparge with the rest",
    )


SOUND = """\
recipe: Winter Ale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 7 kg}
mash: {water: 18 l}
boil: {volume: 25 l}
targets: {og: 1.075}
"""
FAULTY = Example(
    """\
recipe: Winter Ale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 5 kg}
mash: {water: 22 l}
boil: {volume: 25 l}
targets:
  og: 1.056
  pre-boil-gravity: 1.072
""",
    "error",
    10,
    21,
    "a gravity before the boil of 1.072 is stated, but with 22 l of mash water this grist gives at most 1.062,"
    " and a sparge only weakens it",
)
