"""Is there room in the kettle for the foam of the boil?

Wort foams when it comes to the boil, and again with each hop addition. A kettle
that is too full boils over: boiling, sticky wort on feet, floor and flame.

What is checked: the volume before the boil against 90 % of the kettle's volume.
The volume is the stated one; if none is, what the batch needs. That is the wort
into the fermenter, what stays with hops and trub, 4 % for cooling, and the
boil-off.

- error: the stated volume is above 90 %, since people can be hurt
- warning: a stated range that only reaches above 90 %
- error: what the batch needs is above 90 % in the best case
- warning: what the batch needs is above 90 % in the usual case
- offered instead: what the stated water gives, or else what the batch needs,
  if both fit and are at least 10 % below the stated volume
- also said: the batch itself needs more than fits; brew less, or top up the
  fermenter
- skipped: the brewhouse states no kettle volume, or is far too small for this
  batch

On the day: the maker's own filling mark comes first. Leave the lid off, and
stay with the kettle until it rolls. Turn the flame down and add hops little by
little. Keep a spray of cold water at hand. Use gas burners outdoors, or in good
ventilation only, as local codes and the burner's maker say.

Sources: [home-brewery-hazards] [iapws-95] [oxford-evaporation]
[common-practice] [judgement]
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from mashwright.brew import Brew, kit, number, said_apart
from mashwright.figures.kettle import from_waters, pre_boil_volume
from mashwright.knobs import Knob, stated_instead
from mashwright.measures import Kind, Quantity, Range, said
from mashwright.rule import Evidence, Example, Finding, Limit, Say, Settings, Unknown, above, gap, row, say

if TYPE_CHECKING:
    from mashwright.figures.figure import Figure


class Limits(Settings):
    """What is compared with."""

    full_percent = Limit(90, "%", low=50, high=100, source="common-practice")
    slip_percent = Limit(10, "%", low=3, high=40, source="judgement")


SAYS = {
    "does-not-fit": "{volume} before the boil does not fit in a kettle of {kettle}, which boils at most {most}"
    " without boiling"
    " over",
    "batch-does-not-fit": "{volume} that the batch needs before the boil does not fit in a kettle of {kettle}, which"
    " boils at most"
    " {most} without boiling over",
    "boils-over": "{volume} before the boil in a kettle of {kettle} may boil over and scald; fill it to at most"
    " {most}, {share}"
    " %",
    "batch-boils-over": "{volume} that the batch needs before the boil in a kettle of {kettle} may boil over and"
    " scald; fill it to at"
    " most {most}, {share} %",
    "brew-less": "this batch needs about {needed}, so brew less of it or top up the fermenter",
    "batch-takes": "this batch needs about {needed}",
    "waters-bring": "the stated water gives about {brings}",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    kettle, boil = kit(brew).kettle, brew.recipe.boil
    if not kettle.volume.known:
        return
    stated = boil.volume
    most = kettle.volume.range.typical * limits.full_percent / 100
    value: Figure | Range
    knobs: tuple[Knob, ...] = ()
    evidence: tuple[Evidence, ...] = ()
    more: Say | None = None
    if boil.known and stated.known:
        value, path = stated.range, boil.volume.path
        level = above(value, most, harm=True)
        amount, of_batch = stated.text, ""
        better, more = _meant(brew, stated, most, limits) if level else (most, None)
        knobs = (stated_instead(path, stated, better, "boil"),) if better is not None else ()
    else:
        value, path = pre_boil_volume(brew), brew.recipe.batch.path
        level = above(value, most)
        amount, of_batch = said(value.typical, kettle.volume.unit, Kind.VOLUME), "batch-"
        evidence = (row(value),)
    if not level:
        return
    unit = kettle.volume.unit
    limit = said(most, unit, Kind.VOLUME)
    if amount == limit:
        amount = said_apart(value.typical, most, unit, Kind.VOLUME)
    sentence = "does-not-fit" if value.typical > kettle.volume.range.typical else "boils-over"
    share = number(limits.full_percent)
    message = say(f"{of_batch}{sentence}", volume=amount, kettle=kettle.volume, most=limit, share=share)
    yield Finding(path, level, message.and_then(more), gap(value, most), evidence, (), knobs)


def _meant(brew: Brew, stated: Quantity, most: float, limits: Limits) -> tuple[float | None, Say | None]:
    """The volume to be stated instead, l, or None where none would do; and what there is to say of it."""
    try:
        needed, given = pre_boil_volume(brew).typical, from_waters(brew)
    except Unknown:
        return most, None
    slip = limits.slip_percent / 100
    takes = said(needed, stated.unit, Kind.VOLUME)
    if needed > most and needed * (1 - slip) < stated.range.typical:
        return None, say("brew-less", needed=takes)
    comes = needed if given is None else given[0].typical
    if max(needed, comes) > min(most, stated.range.typical * (1 - slip)):
        return most, None
    if given is None:
        return needed, say("batch-takes", needed=takes)
    return comes, say("waters-bring", brings=said(comes, stated.unit, Kind.VOLUME))


SOUND = """\
recipe: Copper Street Ale
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
boil: {volume: 25 l, for: 60 min}
"""
FAULTY = Example(
    """\
recipe: Copper Street Ale
by: Saltmarsh Lane Mash Circle
batch: 19 l
grist:
  - {grain: pale ale malt, weight: 4.5 kg}
boil: {volume: 26 l, for: 60 min}
""",
    "error",
    6,
    16,
    "26 l before the boil in a kettle of 28 l may boil over and scald; fill it to at most 25.2 l, 90 %",
    brewhouse="brewhouse: the copper shed\nkettle: {volume: 28 l, loss: 1 l, boil-off: 4 l/h}\n",
)
