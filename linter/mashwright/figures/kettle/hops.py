"""Figures of the hops: how much of them there is, and how bitter they make the beer."""

from collections.abc import Iterator
from math import sqrt

from msgspec import Struct
from msgspec.structs import replace

from mashwright.brew.board import gravity as sg
from mashwright.brew.board import lines, number
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import degrees, volume_unit
from mashwright.brewing.bitterness import dry_hops_read, ibu
from mashwright.brewing.gravity import points
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.kettle.alpha import Alpha, alpha_of
from mashwright.figures.kettle.hop_use import (
    HOTTEST_C,
    chilling_in_words,
    cooler_boil_c,
    used_before_boil,
    used_of,
)
from mashwright.figures.kettle.wort_in_boil import BoilingWort, boiling_wort
from mashwright.figures.mash import og
from mashwright.finding import Path
from mashwright.ingredients.kinds import Group, Souring
from mashwright.measures.quantity import Kind, said
from mashwright.measures.range import Range
from mashwright.recipe.model import GristLine, Hop
from mashwright.recipe.stated import Open, Unknown
from mashwright.words.vocabulary import mentions

# What an author's own figure for one addition is good for; judgement, from the models' spread.
# More than any beer has; from there on it is that of the extract before it is thinned; judgement.
OF_THE_EXTRACT_IBU = 150.0
# Makers print IBU × kg ÷ l of beer, from memory; low where they mean a litre of extract.
OF_A_TIN = Range(0.7, 1.0, 1.05)
CLAIMED = Range(0.75, 1.0, 1.1)
_WORTH_SAYING_C = 0.5  # by which a boil is cooler than at the sea; judgement


class HopAddition(Struct, frozen=True, gc=False):
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


@once
def hop_additions(brew: Brew) -> tuple[HopAddition, ...]:
    """The hops in the recipe's order, each with its bitterness.

    Raises:
        Unknown: there are none, or one of them cannot be counted.
    """
    kits = [line for line in brew.recipe.grist if line.bitterness.mentioned]
    if not brew.recipe.hops and not kits:
        raise Unknown("the hops", brew.recipe.hops.path)
    for line in brew.recipe.grist:
        if line.group == Group.EXTRACT and line not in kits and mentions("hopped", "ingredient", line.name):
            raise Unknown(f"the bitterness of {line.name}", line.path)
    wort = boiling_wort(brew)
    added = [_kit(line, wort) for line in kits]
    added += [_addition(brew, hop, wort) for hop in brew.recipe.hops]
    bitter = sum(one.ibu.typical for one in added)
    return tuple(_read_dry(one, wort, bitter) if one.hop.dry.known else one for one in added)


def _read_dry(one: HopAddition, wort: BoilingWort, bitter: float) -> HopAddition:
    """Dry hops with what a laboratory may read of them in a beer so bitter."""
    weight = one.hop.weight
    if not weight.known or wort.volume_l.typical <= 0:
        return one
    rate = 1000 * weight.range.typical / wort.volume_l.typical
    return replace(one, ibu=dry_hops_read(rate, bitter))


def _addition(brew: Brew, hop: Hop, wort: BoilingWort) -> HopAddition:
    for value in (hop.weight, hop.alpha_units, hop.alpha, hop.boil, hop.whirlpool, hop.at, hop.to, hop.dry, hop.age):
        if value.mentioned:
            value.readable(f"a readable {str(value.path[-1]).replace('-', ' ')} of {hop.name}")
    if hop.weight.known and 1000 * hop.weight.range.typical > brew.bounds.soaked_up_g_per_l * wort.volume_l.typical:
        raise Open(f"a plausible weight of {hop.name}", hop.weight.path)
    if hop.dry.known:
        return HopAddition(hop, f"dry, {hop.dry.text}", Range.exact(0.0), None, Range.exact(0.0))
    if not hop.weight.known and not hop.alpha_units.known:
        return _claimed(hop)
    try:
        when, used, assumed = used_of(brew, hop, wort)
        alpha = alpha_of(brew, hop)
    except Unknown:
        if not hop.bitterness.known:
            raise
        return _claimed(hop)
    bitter = [ibu(share, alpha.kg.typical, wort.volume_l.typical) for share in (used.low, used.typical, used.high)]
    return HopAddition(hop, when, used, alpha, Range(*bitter), (*assumed, *alpha.assumed))


def _kit(line: GristLine, wort: BoilingWort) -> HopAddition:
    """A hopped extract by what it states: what it brings to the beer, or so much that the extract itself is meant."""
    stated = line.bitterness.need(f"the bitterness of {line.name}")
    hop = Hop(line.path, line.name, bitterness=stated)
    if stated.range.typical <= OF_THE_EXTRACT_IBU:
        return HopAddition(hop, "as stated", None, None, stated.range.times(CLAIMED))
    weight = line.weight.need(f"the weight of {line.name}")
    value = Range.span(lambda ibus, kg, litres: ibus * kg / litres, stated.range, weight.range, wort.volume_l)
    of = f"{stated.text} × {weight.text} in {number(wort.volume_l.typical, 3)} l"
    return HopAddition(hop, of, None, None, value.times(OF_A_TIN))


def _claimed(hop: Hop) -> HopAddition:
    if not hop.bitterness.known:
        raise Unknown(f"the weight of {hop.name}", hop.weight.path)
    value = hop.bitterness.range.times(CLAIMED)
    return HopAddition(hop, "as claimed", None, None, value)


@figure("souring-bitterness", unit="IBU", sources=("tinseth-1997", "malowicki-2005"))
def souring_bitterness(brew: Brew) -> Figure:
    """Bitterness while the wort or beer sours.

    Of wort that sours before its boil, what hops in the mash and in the run-off gave till then.
    """
    souring = brew.recipe.souring
    if not souring.known:
        raise Unknown("a souring", souring.path)
    if not souring.place:
        raise Unknown("where it sours", souring.place.path)
    if souring.place == Souring.FERMENTER:
        whole = bitterness(brew) if brew.recipe.hops else None
        value = whole.range if whole is not None else Range.exact(0.0)
        return Figure(
            value,
            lambda: f"the bitterness of the beer = {number(value.typical, 3)} IBU",
            paths=(souring.place.path, *(whole.paths if whole is not None else ())),
            assumed=whole.assumed if whole is not None else (),
            sources=whole.sources if whole is not None else (),
            memory=whole.memory if whole is not None else False,
        )
    before = [one for one in brew.recipe.hops if one.mash or (one.first_wort and souring.place == Souring.KETTLE)]
    wort = boiling_wort(brew) if before else None
    value, paths = Range.exact(0.0), tuple(hop.path for hop in before)
    for hop in before:
        assert wort is not None
        used, alpha = used_before_boil(brew, hop, wort), alpha_of(brew, hop)
        given = [ibu(share, alpha.kg.typical, wort.volume_l.typical) for share in (used.low, used.typical, used.high)]
        value = value + Range(*given)
    names = " and ".join(hop.name for hop in before)
    return Figure(
        value,
        lambda: (
            f"what {names} gave before the boil = {number(value.typical, 3)} IBU"
            if before
            else "no hops go in before the souring = 0 IBU"
        ),
        paths=(souring.place.path, *paths),
        assumed=wort.assumed if wort is not None else (),
    )


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
        sources=tuple(
            dict.fromkeys(
                (
                    *_more_sources(added, cooler=cooler_boil_c(brew) != 0 or bool(chilling_in_words(brew))),
                    *(key for alpha in alphas for key in alpha.sources),
                )
            )
        ),
        parts=tuple((f"{one.hop.name}, {one.when}", one.ibu) for one in added) if len(added) > 1 else (),
        memory=bool(alphas) and all(alpha.memory for alpha in alphas),
    )


def _more_sources(added: tuple[HopAddition, ...], *, cooler: bool) -> Iterator[str]:
    if any(one.hop.whirlpool.known or one.hop.mash or one.hop.first_wort for one in added):
        yield from ("malowicki-2005", "whirlpool-bitterness", "stand-estimate", "sub-boiling-hops")
    elif cooler:
        yield from ("malowicki-2005", "sub-boiling-hops")
    if any(one.hop.dry.known for one in added):
        yield from ("maye-2016", "parkin-2017")
    if any(one.hop.age.known or one.hop.harvest for one in added):
        yield "from-memory"


def _working(brew: Brew, added: tuple[HopAddition, ...], wort: BoilingWort, total: Range) -> Iterator[str]:
    beer = said(wort.volume_l.typical, volume_unit(brew), Kind.VOLUME)
    how = "boiled at" if wort.partial else "in wort of"
    cooler = cooler_boil_c(brew)
    yield f"weight × alpha acid × the share that is used, {how} {sg(wort.gravity_sg.typical)}, for {beer} of beer:"
    for one in added:
        yield f"  {_amount(one)} = {number(one.ibu.typical, 3)} IBU, {one.when}"
        if one.hop.dry.known and not one.ibu.known:
            yield f"    a laboratory may read {one.ibu.low:+.0f} to {one.ibu.high:+.0f} IBU of it".replace("-", "−")
    if abs(cooler) >= _WORTH_SAYING_C:
        less = "less" if cooler > 0 else "more"
        boils = degrees(brew, HOTTEST_C - cooler)
        yield f"  this wort boils at about {boils}, which forms {less} in the same time than at the sea"
    if chilling := chilling_in_words(brew):
        yield f"  {chilling}"
    if len(added) > 1:
        yield f"  added up = {number(total.typical, 3)} IBU"
    yield f"  by other published models {number(total.low, 2)} to {number(total.high, 2)} IBU"


def _amount(one: HopAddition) -> str:
    hop = one.hop
    if one.used is None:
        return f"{hop.name}, counted as the recipe claims"
    if hop.weight.known and one.alpha is not None and one.alpha.percent is not None:
        left = one.alpha.kg.typical / (hop.weight.range.typical * one.alpha.percent.typical / 100 or 1.0)
        amount = f"{hop.weight.text} of {hop.name} × {number(one.alpha.percent.typical, 3)} %"
        amount += f" × {number(left, 2)} left" if left < 0.995 else ""
    elif hop.alpha_units.known:
        amount = f"{hop.alpha_units.text} of {hop.name}"
    else:
        amount = f"{hop.weight.text} of {hop.name}" if hop.weight.known else hop.name
    return f"{amount} × {number(one.used.typical, 3)}"


@figure("bitterness-ratio", unit="", sources=_SOURCES)
def bitterness_ratio(brew: Brew) -> Figure:
    """Bitterness per point of original gravity."""
    bitter = bitterness(brew)
    stated = brew.recipe.targets.og
    start = stated.range if stated.known else og(brew).range
    if points(start.low) <= 0:
        raise Open("an original gravity above that of water", brew.recipe.targets.og.path)
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
