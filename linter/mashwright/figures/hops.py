"""Figures of the hops: how much of them there is, and how bitter they make the beer."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt

from mashwright.brewing.bitterness import (
    TABLE_MIN,
    TABLE_SG,
    boil_minutes,
    ibu,
    rager_utilisation,
    utilisation,
)
from mashwright.brewing.gravity import points
from mashwright.figures.alpha import Alpha, alpha_of
from mashwright.figures.board import gravity as sg
from mashwright.figures.board import lines, number
from mashwright.figures.brew import Brew
from mashwright.figures.figure import Figure, Open, Unknown
from mashwright.figures.function import figure, once
from mashwright.figures.gravity import deliveries, fermenter_volume, og
from mashwright.figures.own_units import volume_unit
from mashwright.figures.pours import boil_minutes as length_of_boil
from mashwright.finding import Path, Range
from mashwright.reading.quantity import Kind, Quantity, said
from mashwright.recipe.model import Hop

# Bounds of the published models about that of [tinseth-1997], as shares of it. Pellets give up to a tenth more than
# cones, common practice; how much more a beer may lose by yeast and foam, judgement.
PELLETS = 1.10
LOSSES = 0.80
# What equivalent boil minutes of hops beside the boil are good for, either way: there is no agreed standard
# [whirlpool-bitterness], and claims go from 5 to 15 % used (common practice); the half is judgement.
BESIDE_THE_BOIL = 0.5
# Hops in the first wort: so long in the run-off, then so long until it boils; °C and min, common practice.
RUN_OFF = (72.0, 72.0, 40.0)
TO_THE_BOIL = (72.0, 100.0, 25.0)
# A stand of which no temperature is stated: cooling of covered wort at home, °C a minute, slow to quick; judgement.
COOLING_C_PER_MIN = Range(0.0, 0.8, 2.0)
STAND_FROM_C = 99.0  # just off the boil; judgement
COOLEST_STAND_C = 20.0  # cooled; nothing isomerises there, judgement
# The part of a mash hop's alpha acids that may still come through to the boil, at the most; common practice.
FROM_MASH = 0.3
# What an author's own figure for one addition is good for; judgement, from the models' spread.
CLAIMED = Range(0.75, 1.0, 1.1)
HOTTEST_C = 100.0  # wort at the boil, common practice
THICKEST_SG = 1.2  # past it the models were never measured (1.030-1.130 [tinseth-1997]); judgement


@dataclass(frozen=True, slots=True)
class HopAddition:
    """One addition and the bitterness that it gives.

    Attributes:
        when: as a brewer says it, such as ``60 min``.
        used: share of the alpha acids; None where the recipe's own claim is counted.
        alpha: None where the recipe's own claim is counted, or none of it is used.
        ibu: with typical alpha acids; its ends are those of the models.
        assumed: what the recipe does not say.
    """

    hop: Hop
    when: str
    used: Range | None
    alpha: Alpha | None
    ibu: Range
    assumed: tuple[str, ...] = ()

    @property
    def path(self) -> Path:
        """Where it stands."""
        return self.hop.path


@dataclass(frozen=True, slots=True)
class BoilingWort:
    """What the hops are boiled in.

    Attributes:
        gravity_sg: at the end of the boil; its low end is that at the beginning, where that is known.
        volume_l: beer that the bitterness is counted in, at 20 °C.
        partial: boiled thicker, and topped up afterwards.
    """

    gravity_sg: Range
    volume_l: Range
    partial: bool
    assumed: tuple[str, ...]


def boiling_wort(brew: Brew) -> BoilingWort:
    """The gravity of the wort in which hops are boiled, and the beer that it becomes.

    Raises:
        Unknown: neither the grist nor the recipe's targets say how strong it is, or there is no batch.
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
    typical = min(THICKEST_SG, 1 + extract / kettle / 1000)
    # at the beginning of the boil the wort is thinner, though never by half
    thin = 1 + extract / max(kettle, min(boil.range.typical, 2 * kettle)) / 1000 if boil is not None else typical
    low = min(typical, thin)
    outside = not TABLE_SG[0] <= typical <= TABLE_SG[1]
    table = f"the formula was measured for worts of {TABLE_SG[0]:.3f} to {TABLE_SG[1]:.3f}"
    assumed = (f"{sg(typical)} wort, though {table}",) if outside else ()
    return BoilingWort(Range(low, typical, typical), volume, kettle < 0.95 * volume.typical, assumed)


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


@once
def hop_additions(brew: Brew) -> tuple[HopAddition, ...]:
    """The hops in the recipe's order, each with its bitterness.

    Raises:
        Unknown: there are none, or one of them cannot be counted.
    """
    if not brew.recipe.hops:
        raise Unknown("the hops", ("hops",))
    for line in brew.recipe.grist:
        if line.group == "extract" and "hopped" in line.name.casefold().split():
            raise Unknown(f"the bitterness of {line.name}", line.path)
    wort = boiling_wort(brew)
    return tuple(_addition(brew, hop, wort) for hop in brew.recipe.hops)


def _addition(brew: Brew, hop: Hop, wort: BoilingWort) -> HopAddition:
    for key in ("weight", "alpha-units", "alpha", "boil", "whirlpool", "at", "dry", "age"):
        if (*hop.path, key) in brew.recipe.unreadable:
            raise Open(f"a readable {key.replace('-', ' ')} of {hop.name}", (*hop.path, key))
    if (
        hop.weight is not None
        and 1000 * hop.weight.range.typical > brew.bounds.soaked_up_g_per_l * wort.volume_l.typical
    ):
        raise Open(f"a weight of {hop.name} that can be meant", (*hop.path, "weight"))
    if hop.dry is not None:
        return HopAddition(hop, f"dry, {hop.dry.text}", Range.exact(0.0), None, Range.exact(0.0))
    if hop.weight is None and hop.alpha_units is None:
        return _claimed(hop)
    try:
        when, used, assumed = _used(brew, hop, wort)
        alpha = alpha_of(brew, hop)
    except Unknown:
        if hop.bitterness is None:
            raise
        return _claimed(hop)
    bitter = [ibu(share, alpha.kg.typical, wort.volume_l.typical) for share in (used.low, used.typical, used.high)]
    return HopAddition(hop, when, used, alpha, Range(*bitter), (*assumed, *alpha.assumed))


def _claimed(hop: Hop) -> HopAddition:
    if hop.bitterness is None:
        raise Unknown(f"the weight of {hop.name}", (*hop.path, "weight"))
    value = hop.bitterness.range.times(CLAIMED)
    return HopAddition(hop, "as claimed", None, None, value)


def _used(brew: Brew, hop: Hop, wort: BoilingWort) -> tuple[str, Range, tuple[str, ...]]:
    """When an addition goes in, the share of its alpha acids that is used, and what was assumed."""
    if hop.boil is not None:
        minutes = hop.boil.range
        over = minutes.typical > TABLE_MIN[1]
        doubt = f"{hop.boil.text} of boil, though the formula was measured to {TABLE_MIN[1]:g} min"
        return hop.boil.text, _boiled(hop, wort, minutes), (doubt,) if over else ()
    if hop.first_wort:
        minutes, text = length_of_boil(brew)
        before = boil_minutes(*RUN_OFF) + boil_minutes(*TO_THE_BOIL)
        band = Range(minutes.low, minutes.typical + before, minutes.high + (1 + BESIDE_THE_BOIL) * before)
        return "first wort", _boiled(hop, wort, band), (text,) if text else ()
    if hop.whirlpool is not None:
        return _stand(hop, hop.whirlpool, wort)
    if hop.mash:
        return _mash_hops(brew, wort)
    raise Unknown(f"when {hop.name} goes in", hop.path)


def _boiled(hop: Hop, wort: BoilingWort, minutes: Range) -> Range:
    typical = utilisation(wort.gravity_sg.typical, minutes.typical)
    # the older table is the more generous one at the ends only: from 10 to 25 min it gives less
    low = min(
        LOSSES * utilisation(wort.gravity_sg.typical, minutes.low), rager_utilisation(wort.gravity_sg.high, minutes.low)
    )
    form = 1.0 if hop.form == "cone" else PELLETS
    high = max(
        rager_utilisation(wort.gravity_sg.low, minutes.high), form * utilisation(wort.gravity_sg.low, minutes.high)
    )
    return Range(low, typical, high)


def _stand(hop: Hop, time: Quantity, wort: BoilingWort) -> tuple[str, Range, tuple[str, ...]]:
    """Hops in hot wort after the boil, by the minutes of boil that would form as much."""

    def used(minutes: float) -> float:
        return utilisation(wort.gravity_sg.typical, minutes)

    minutes, assumed = time.range, list[str]()
    if hop.at is not None:
        at = hop.at.range
        held = min(HOTTEST_C, at.typical)
        typical = used(boil_minutes(held, held, minutes.typical))
        warm = min(HOTTEST_C, at.high)
        low, high = used(boil_minutes(at.low, at.low, minutes.low)), used(boil_minutes(warm, warm, minutes.high))
        when = f"{time.text} at {hop.at.text}"
    else:
        low, typical, high = (
            used(boil_minutes(STAND_FROM_C, max(COOLEST_STAND_C, STAND_FROM_C - fall * length), length))
            for fall, length in (
                (COOLING_C_PER_MIN.high, minutes.low),
                (COOLING_C_PER_MIN.typical, minutes.typical),
                (COOLING_C_PER_MIN.low, minutes.high),
            )
        )
        when = f"{time.text} after the boil"
        rate = number(COOLING_C_PER_MIN.typical)
        assumed.append(f"a stand of {hop.name} that cools by {rate} °C a minute, since none is stated")
    band = Range(min(low, (1 - BESIDE_THE_BOIL) * typical), typical, max(high, (1 + BESIDE_THE_BOIL) * typical))
    return when, band, tuple(assumed)


def _mash_hops(brew: Brew, wort: BoilingWort) -> tuple[str, Range, tuple[str, ...]]:
    rests = brew.plan.known()
    minutes = sum(
        boil_minutes(rest.at_c.typical, (rest.to_c or rest.at_c).typical, rest.minutes.typical) for rest in rests
    )
    typical = utilisation(wort.gravity_sg.typical, minutes)
    boiled = utilisation(wort.gravity_sg.typical, length_of_boil(brew)[0].typical)
    high = max((1 + BESIDE_THE_BOIL) * typical, FROM_MASH * boiled)
    return "in the mash", Range((1 - BESIDE_THE_BOIL) * typical, typical, high), brew.plan.assumed


_SOURCES = ("tinseth-1997", "rager-1990", "palmer-5")


@figure("bitterness", unit="IBU", sources=_SOURCES)
def bitterness(brew: Brew) -> Figure:
    """Bitterness."""
    added = hop_additions(brew)
    wort = boiling_wort(brew)
    typical = sum(one.ibu.typical for one in added)
    models = (typical - sum(one.ibu.low for one in added), sum(one.ibu.high for one in added) - typical)
    volume = wort.volume_l
    downs = [models[0], typical * (1 - volume.typical / volume.high)]
    ups = [models[1], typical * (volume.typical / volume.low - 1)]
    for one in added:
        if one.alpha is not None and not one.alpha.kg.known and one.alpha.kg.typical > 0:
            downs.append(one.ibu.typical * (1 - one.alpha.kg.low / one.alpha.kg.typical))
            ups.append(one.ibu.typical * (one.alpha.kg.high / one.alpha.kg.typical - 1))
    low, high = (sqrt(sum(end * end for end in ends)) for ends in (downs, ups))
    value = Range(max(0.0, typical - low), typical, typical + high)
    alphas = [one.alpha for one in added if one.alpha is not None]
    return Figure(
        value,
        lambda: lines(_working(brew, added, wort, value)),
        paths=tuple(one.path for one in added),
        assumed=tuple(dict.fromkeys((*wort.assumed, *(text for one in added for text in one.assumed)))),
        sources=tuple(dict.fromkeys((*_more_sources(added), *(key for alpha in alphas for key in alpha.sources)))),
        parts=tuple((f"{one.hop.name}, {one.when}", one.ibu) for one in added) if len(added) > 1 else (),
        memory=bool(alphas) and all(alpha.memory for alpha in alphas),
    )


def _more_sources(added: tuple[HopAddition, ...]) -> Iterator[str]:
    if any(one.hop.whirlpool is not None or one.hop.mash or one.hop.first_wort for one in added):
        yield from ("malowicki-2005", "whirlpool-bitterness")
    if any(one.hop.age is not None or one.hop.harvest for one in added):
        yield "from-memory"


def _working(brew: Brew, added: tuple[HopAddition, ...], wort: BoilingWort, total: Range) -> Iterator[str]:
    beer = said(wort.volume_l.typical, volume_unit(brew), Kind.VOLUME)
    how = "boiled at" if wort.partial else "in wort of"
    yield f"weight × alpha acid × the share that is used, {how} {sg(wort.gravity_sg.typical)}, for {beer} of beer:"
    for one in added:
        yield f"  {_amount(one)} = {number(one.ibu.typical, 3)} IBU, {one.when}"
    if len(added) > 1:
        yield f"  added up = {number(total.typical, 3)} IBU"
    yield f"  by other published models {number(total.low, 2)} to {number(total.high, 2)} IBU"


def _amount(one: HopAddition) -> str:
    hop = one.hop
    if one.used is None:
        return f"{hop.name}, counted as the recipe claims"
    if hop.weight is not None and one.alpha is not None and one.alpha.percent is not None:
        left = one.alpha.kg.typical / (hop.weight.range.typical * one.alpha.percent.typical / 100 or 1.0)
        amount = f"{hop.weight.text} of {hop.name} × {number(one.alpha.percent.typical, 3)} %"
        amount += f" × {number(left, 2)} left" if left < 0.995 else ""
    elif hop.alpha_units is not None:
        amount = f"{hop.alpha_units.text} of {hop.name}"
    else:
        amount = f"{hop.weight.text} of {hop.name}" if hop.weight is not None else hop.name
    return f"{amount} × {number(one.used.typical, 3)}"


@figure("bitterness-ratio", unit="", sources=_SOURCES)
def bitterness_ratio(brew: Brew) -> Figure:
    """Bitterness for each point of original gravity."""
    bitter = bitterness(brew)
    stated = brew.recipe.targets.og
    start = stated.range if stated is not None else og(brew).range
    if points(start.low) <= 0:
        raise Open("an original gravity above that of water", ("targets", "og"))
    value = Range.span(lambda bu, wort: bu / points(wort), bitter.range, start)
    return Figure(
        value,
        lambda: (
            f"{number(bitter.typical, 3)} IBU ÷ {number(points(start.typical), 3)} points of gravity"
            f" = {number(value.typical, 2)}"
        ),
        paths=bitter.paths,
        assumed=bitter.assumed,
        sources=bitter.sources,
        memory=bitter.memory,
    )
