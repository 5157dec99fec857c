"""Does the mash fit into the mash tun?

Each kg of grain takes up two thirds of a litre, beside all water poured on
it, infusions too. A tun that runs over in the middle of a brew costs wort and
burns feet.

What is checked: the mash at its fullest against the volume of the brewhouse's
mash tun. It is all water of the mash and 0.65-0.67 l for each kg of grain. If
the grain hangs in a bag, the kettle counts instead of the tun.

- error: it does not fit even in the best case
- warning: the usual case does not fit
- note: only the worst case does not fit, so there is no room to stir
- no mash water is stated: only a warning, if even a thick mash (2.5 l/kg)
  does not fit
- note: in a batch sparge, the drained grain with all the sparge water does
  not fit; sparge in two steps
- skipped: no `mash`, or the brewhouse states no volume of that vessel
- skipped: the batch is over 3 times the brewhouse's largest vessel, so it is
  brewed in another house

On the day: leave a hand's breadth for stirring. Hot mash scalds: do not lift
full vessels.

Sources: [common-practice] [home-brewery-hazards] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, kit, strike_water, told, weight_in
from mashwright.figures.grist import mash_weight
from mashwright.figures.kettle import drained_with_sparge, liquor_to_grist, mash_volume
from mashwright.knobs import Knob
from mashwright.measures import Kind, Quantity, Range, said, step_of
from mashwright.rule import Edit, Evidence, Example, Finding, Level, Limit, Settings, above, gap, row, say


class Limits(Settings):
    """What is compared with."""

    full_percent = Limit(100, "%", low=50, high=110, source="by-definition")
    thickest_l_per_kg = Limit(2, "l/kg", low=1, high=3, source="common-practice")


SAYS = {
    "too-full": "{grain} of grain with all the mash water fills {volume}; the mash tun holds {holds}",
    "too-full-bag": "{grain} of grain with all the mash water fills {volume}; the kettle holds {holds}",
    "no-room": ", and leaves no room to stir",
    "sparge-in-two": "the drained grain with all the sparge water fills {volume}; the mash tun holds {holds}, so"
    " sparge in two"
    " steps",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    house, mash = kit(brew), brew.recipe.mash
    bag = mash.known and mash.bag
    vessel = house.kettle if bag else house.mash_tun
    if not mash.known or not vessel.volume.known:
        return
    holds, water, volume = vessel.volume, strike_water(brew), mash_volume(brew)
    most = holds.range.typical * limits.full_percent / 100
    level = above(volume, most, doubt=True)
    if not water.stated and level:
        level = Level.WARNING if level is Level.ERROR else None
    if level:
        shown = _litres(volume.typical, most, holds)
        grain = weight_in(brew, mash_weight(brew).typical)
        message = say("too-full-bag" if bag else "too-full", grain=grain, volume=shown, holds=holds)
        if level is Level.NOTE:
            message = message.and_then(say("no-room"))
        path = water.path if water.stated else brew.recipe.grist.path
        yield Finding(path, level, message, gap(volume, most), (row(volume, path),), (), _knobs(brew, limits))
    elif not bag and (filled := drained_with_sparge(brew)) is not None and above(filled, most):
        yield _sparge(brew, filled, most, holds)


def _sparge(brew: Brew, filled: Range, most: float, holds: Quantity) -> Finding:
    sparge = brew.recipe.sparge
    shown = _litres(filled.typical, most, holds)
    message = say("sparge-in-two", volume=shown, holds=holds)
    evidence = (Evidence("at the sparge", filled.typical, "l", sparge.water.path),)
    return Finding(sparge.water.path, Level.NOTE, message, gap(filled, most), evidence)


def _litres(value: float, most: float, holds: Quantity) -> str:
    shown = said(value, holds.unit, Kind.VOLUME)
    return f"{told(value, most)} l" if shown in (said(most, holds.unit, Kind.VOLUME), holds.text) else shown


def _knobs(brew: Brew, limits: Limits) -> tuple[Knob, ...]:
    """Less strike water, in steps, down to the thickest mash that can be stirred; the rest of it sparges."""
    mash = brew.recipe.mash
    water = mash.water
    if not mash.known or not water.known:
        return ()
    step = max(step_of(water.unit, Kind.VOLUME), 0.25)
    start = water.range.typical
    least = start * limits.thickest_l_per_kg / liquor_to_grist(brew).typical
    path = mash.water.path
    count = max(0, int((start - least) / step))

    sparge = brew.recipe.sparge
    sparged = sparge.water

    def text(number: int) -> str:
        return said(start - (number + 1) * step, water.unit, Kind.VOLUME)

    def edits(number: int) -> tuple[Edit, ...]:
        first = Edit(path, text(number))
        if not sparge.known or not sparged.known:
            return (first,)
        more = said(sparged.range.typical + (number + 1) * step, sparged.unit, Kind.VOLUME)
        return first, Edit(sparge.water.path, more)

    return (
        Knob(
            count,
            edits,
            lambda number: f"use {text(number)} of mash water instead of {water.text}; sparge with the rest",
        ),
    )


SOUND = """\
recipe: Boathouse Brown
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
mash:
  water: 14 l
  rests:
    - {at: 66 °C, for: 60 min}
"""
FAULTY = Example(
    """\
recipe: Boathouse Strong Ale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 8.5 kg}
mash:
  water: 24.4 l
  rests:
    - {at: 66 °C, for: 60 min}
""",
    "error",
    7,
    10,
    "8.5 kg of grain with all the mash water fills 30 l; the mash tun holds 25 l",
    brewhouse="brewhouse: the boathouse\nmash-tun: {volume: 25 l}\n",
)
