"""The wort in which hops are boiled: how strong it is, and how much beer it becomes."""

from msgspec import Struct

from mashwright.brew.board import gravity as sg
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import litres_in
from mashwright.brew.pours import boil_minutes, boil_off, kettle_loss
from mashwright.brewing.bitterness import TABLE_SG
from mashwright.brewing.gravity import points
from mashwright.brewing.volumes import COOLED_SHARE, into_fermenter_l
from mashwright.figures.mash import deliveries, fermenter_volume, og
from mashwright.ingredients.kinds import Group, Place
from mashwright.measures.range import Range
from mashwright.recipe.stated import Open, Unknown

_PARTIAL = 0.95  # share of the batch below which a boil is a partial one; judgement
THICKEST_SG = 1.2  # past it the models were never measured (1.030-1.130 [tinseth-1997]); judgement


class BoilingWort(Struct, frozen=True, gc=False):
    """What the hops are boiled in.

    Attributes:
        gravity_sg: from the beginning of the boil to its end, where that is known; in the middle the mean of both.
        volume_l: beer that the bitterness is counted in, at 20 °C.
        partial: boiled thicker, and topped up afterwards.
    """

    gravity_sg: Range
    volume_l: Range
    partial: bool
    assumed: tuple[str, ...]


@once
def boiling_wort(brew: Brew) -> BoilingWort:
    """The gravity of the wort in which hops are boiled, and the beer that it becomes.

    Raises:
        Unknown: neither the grist nor the recipe's targets say how strong it is, or there is no batch.

    Source: the gravity of the boil for a partial boil [palmer-5], as the mean of its beginning and its end.
    """
    recipe = brew.recipe
    volume = _beer(brew)
    stated = recipe.targets.og
    start = stated.range if stated.known and 1 < stated.range.typical < THICKEST_SG else og(brew).range
    extract = points(start.typical) * volume.typical * (1 - _late_share(brew))
    added = recipe.top_up.fermenter
    end = volume.typical - (added.range.typical if added.known else 0.0)
    boil = recipe.boil.volume
    kettle = min(end, boil.range.typical) if boil.known and boil.range.typical > 0 else end
    if kettle <= 0:
        raise Unknown("wort that is boiled", recipe.top_up.fermenter.path)
    topped = ""
    if not added.known and boil.known and kettle < _PARTIAL * end:
        # what is boiled away thickens it further, and the rest of the batch is water that nobody wrote down
        kettle = max(kettle / 2, min(kettle, _left_of(brew, boil.range)))
        topped = f"{litres_in(brew, end - kettle)} of water added after the boil, since the kettle holds {boil.text}"
    high = min(THICKEST_SG, 1 + extract / kettle / 1000)
    # at the beginning of the boil the wort is thinner, though never by half
    thin = 1 + extract / max(kettle, min(boil.range.typical, 2 * kettle)) / 1000 if boil.known else high
    low = min(high, thin)
    typical = (low + high) / 2
    outside = not TABLE_SG[0] <= typical <= TABLE_SG[1]
    table = f"the formula was measured for worts of {TABLE_SG[0]:.3f} to {TABLE_SG[1]:.3f}"
    assumed = tuple(filter(None, (topped, f"{sg(typical)} wort, though {table}" if outside else "")))
    return BoilingWort(Range(low, typical, high), volume, kettle < _PARTIAL * volume.typical, assumed)


def _left_of(brew: Brew, boiled: Range) -> float:
    """Wort that a kettle so full gives to the fermenter, l at 20 °C; all of it where that cannot be said.

    Boil-off and loss are those of a kettle of that size, and not of the whole batch.
    """
    full = boiled.typical
    try:
        after = full - boil_off(brew, full)[0].typical * boil_minutes(brew)[0].typical / 60
        loss = kettle_loss(brew, Range.exact(max(0.0, after) * COOLED_SHARE))[0].typical
    except Unknown:
        return full
    return into_fermenter_l(after, loss)


def _beer(brew: Brew) -> Range:
    """The batch into the fermenter, wherever it was counted."""
    batch = brew.recipe.batch
    stated = batch.fermenter
    volume = stated.range if stated.known else fermenter_volume(brew)[0]
    if volume.low <= 0:
        raise Open("a batch of more than nothing", brew.recipe.batch.path)
    return volume


def _late_share(brew: Brew) -> float:
    """Share of the extract that is not in the kettle, since it goes into the fermenter."""
    if not any(line.add == Place.FERMENTER or line.group == Group.FRUIT for line in brew.recipe.grist):
        return 0.0
    try:
        given = deliveries(brew)
    except Unknown:
        return 0.0
    total = sum(one.typical_kg for one in given)
    return sum(one.typical_kg for one in given if one.part.place == Place.FERMENTER) / total if total > 0 else 0.0
