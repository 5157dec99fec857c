"""The wort in which hops are boiled: how strong it is, and how much beer it becomes."""

from dataclasses import dataclass

from mashwright.brewing.bitterness import TABLE_SG
from mashwright.brewing.gravity import points
from mashwright.figures.board import gravity as sg
from mashwright.figures.brew import Brew
from mashwright.figures.figure import Open, Unknown
from mashwright.figures.function import once
from mashwright.figures.gravity import deliveries, fermenter_volume, og
from mashwright.finding import Range

THICKEST_SG = 1.2  # past it the models were never measured (1.030-1.130 [tinseth-1997]); judgement


@dataclass(frozen=True, slots=True)
class BoilingWort:
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
    start = stated.range if stated is not None and 1 < stated.range.typical < THICKEST_SG else og(brew).range
    extract = points(start.typical) * volume.typical * (1 - _late_share(brew))
    added = recipe.top_up.fermenter if recipe.top_up is not None else None
    end = volume.typical - (added.range.typical if added is not None else 0.0)
    boil = recipe.boil.volume if recipe.boil is not None else None
    kettle = min(end, boil.range.typical) if boil is not None and boil.range.typical > 0 else end
    if kettle <= 0:
        raise Unknown("wort that is boiled", ("top-up", "fermenter"))
    high = min(THICKEST_SG, 1 + extract / kettle / 1000)
    # at the beginning of the boil the wort is thinner, though never by half
    thin = 1 + extract / max(kettle, min(boil.range.typical, 2 * kettle)) / 1000 if boil is not None else high
    low = min(high, thin)
    typical = (low + high) / 2
    outside = not TABLE_SG[0] <= typical <= TABLE_SG[1]
    table = f"the formula was measured for worts of {TABLE_SG[0]:.3f} to {TABLE_SG[1]:.3f}"
    assumed = (f"{sg(typical)} wort, though {table}",) if outside else ()
    return BoilingWort(Range(low, typical, high), volume, kettle < 0.95 * volume.typical, assumed)


def _beer(brew: Brew) -> Range:
    """The batch into the fermenter, wherever it was counted."""
    batch = brew.recipe.batch
    stated = batch.fermenter if batch is not None else None
    volume = stated.range if stated is not None else fermenter_volume(brew)[0]
    if volume.low <= 0:
        raise Open("a batch of more than nothing", ("batch",))
    return volume


def _late_share(brew: Brew) -> float:
    """Share of the extract that is not in the kettle, since it goes into the fermenter."""
    if not any(line.add == "fermenter" or line.group == "fruit" for line in brew.recipe.grist):
        return 0.0
    try:
        given = deliveries(brew)
    except Unknown:
        return 0.0
    total = sum(one.typical_kg for one in given)
    return sum(one.typical_kg for one in given if one.part.place == "fermenter") / total if total > 0 else 0.0
