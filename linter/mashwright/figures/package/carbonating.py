"""Figures of the package: the gas that is left by fermentation and added, and the sugar for it."""

from mashwright.brew.board import number
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import degrees
from mashwright.brewing.carbonation import dissolved_volumes, priming_sugar_g, volumes_from_sugar
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.package.held import held_before, is_spunded, working_of_spunding
from mashwright.figures.package.packaged import (
    co2_share,
    is_sealed,
    is_sort,
    left_behind,
    packaged_volume,
    packaging,
    warmest,
)
from mashwright.figures.package.priming import Sugar, added_sugars, bottle_of, priming_sugar_of
from mashwright.ingredients.vessels import VesselSort
from mashwright.measures.constants import CO2_G_PER_VOLUME
from mashwright.measures.quantity import Quantity
from mashwright.measures.range import Range
from mashwright.recipe.model import Package
from mashwright.recipe.stated import Unknown


@figure("residual-co2", unit="volumes", sources=("troester-carbonation", "co2-hibberd"))
def residual_co2(brew: Brew) -> Figure:
    """Carbon dioxide left by fermentation."""
    package, at = packaging(brew), warmest(brew)
    value = held_before(brew)
    if is_spunded(package):
        spund = package.spund
        return Figure(
            value,
            lambda: working_of_spunding(brew),
            paths=tuple(one.path for one in (spund.gravity, spund.pressure, spund.at) if one.known),
            assumed=(at.assumed,) if at.assumed and not spund.at.known else (),
            sources=("balling-nielsen",),
        )
    forced = is_sealed(package) and package.pressure.known and package.at.known
    under = f" at {package.pressure.text}" if forced and package.pressure.known else " at no pressure"
    if forced and package.gas.known:
        under += f" of {package.gas.text}"
    warm = package.at.range if forced and package.at.known else at.at_c
    return Figure(
        value,
        lambda: (
            f"beer at {degrees(brew, warm.typical)}{under} holds {number(value.typical, 3)} volumes,"
            " water a little more"
        ),
        paths=(at.path,),
        assumed=(at.assumed,) if at.assumed else (),
    )


def is_primed(brew: Brew) -> bool:
    """Whether the carbonation comes of sugar at packaging and not of what is stated."""
    package = packaging(brew)
    primed = package.priming.known and (not package.carbonation.known or _amount_stated(package))
    return primed or bool(added_sugars(brew))


def gas_of_sugars(brew: Brew) -> tuple[Range, tuple[Sugar, ...]]:
    """Volumes that the sugar at packaging gives with what the beer holds; and that sugar, the priming first.

    Raises:
        Unknown: the recipe states none, or not how much.
    """
    package = packaging(brew)
    sugars = added_sugars(brew)
    if package.priming.known:
        sugars = (priming_sugar_of(brew, package.priming), *sugars)
    if not sugars:
        raise Unknown("the priming sugar", brew.recipe.package.priming.path)
    gas = residual_co2(brew).range
    for sugar in sugars:
        gas = gas + volumes_of(sugar)
    return gas, sugars


def volumes_of(sugar: Sugar) -> Range:
    """Gas from so much sugar, volumes.

    Raises:
        Unknown: how much there is.
    """
    if sugar.grams_per_l is None:
        raise Unknown("how much priming sugar there is", sugar.path[:-1])
    return Range.span(volumes_from_sugar, sugar.grams_per_l, sugar.co2_per_g)


@figure("carbonation", unit="volumes", sources=("iupac-nist-co2", "troester-priming"))
def carbonation(brew: Brew) -> Figure:
    """Carbon dioxide in the beer."""
    package = packaging(brew)
    if is_primed(brew):
        value, sugars = gas_of_sugars(brew)
        held = residual_co2(brew)
        by_batch = any(sugar.path[-1] in ("weight", "volume") for sugar in sugars)

        def working() -> str:
            added = "".join(
                f" + {number(sugar.grams_per_l.typical, 3)} g/l of {sugar.name}"
                f" × {number(sugar.co2_per_g.typical, 3)} ÷ {CO2_G_PER_VOLUME:g}"
                for sugar in sugars
                if sugar.grams_per_l is not None
            )
            return f"{number(held.typical, 3)} left by fermentation{added} = {number(value.typical, 3)}"

        return Figure(
            value,
            working,
            paths=(*(sugar.path for sugar in sugars), *held.paths),
            assumed=(
                *held.assumed,
                *(left_behind(brew) if by_batch else ()),
                *(sugar.assumed for sugar in sugars if sugar.assumed),
            ),
            sources=held.sources,
            parts=(("stated", package.carbonation.range),) if package.carbonation.known else (),
        )
    if is_spunded(package):
        held = residual_co2(brew)
        return Figure(
            held.range,
            held.working,
            paths=held.paths,
            assumed=held.assumed,
            sources=held.sources,
            parts=(("stated", package.carbonation.range),) if package.carbonation.known else (),
        )
    if package.carbonation.known:
        stated = package.carbonation
        return Figure(stated.range, lambda: f"{stated.text}, as stated", paths=(brew.recipe.package.carbonation.path,))
    if package.pressure.known and package.at.known:
        bar, at = package.pressure, package.at
        gas = package.gas
        value = Range.span(dissolved_volumes, bar.range, at.range, co2_share(package))
        of_gas = f" of {gas.text}" if gas.known else ""
        return Figure(
            value,
            lambda: f"beer at {at.text} under {bar.text}{of_gas} takes up {number(value.typical, 3)} volumes",
            paths=(bar.path, at.path, *((gas.path,) if gas.known else ())),
            sources=("troester-carbonation", *(("mixed-gas-manual",) if gas.known else ())),
        )
    raise Unknown("the carbonation or the priming sugar", brew.recipe.package.carbonation.path)


def _amount_stated(package: Package) -> bool:
    priming = package.priming
    return priming.known and (
        priming.weight.known
        or priming.volume.known
        or priming.rate.known
        or (priming.each.known and bottle_of(package) is not None)
    )


@figure("priming-sugar", unit="g", sources=("troester-priming", "priming-article"))
def priming_sugar(brew: Brew) -> Figure:
    """Priming sugar for the stated carbonation."""
    package = packaging(brew)
    wanted = package.carbonation.need("the carbonation")
    if is_sort(package, VesselSort.KEG) and not package.priming.known:
        raise Unknown("priming; a keg takes its gas from the cylinder", brew.recipe.package.priming.path)
    sugar, volume, held = priming_sugar_of(brew, package.priming), packaged_volume(brew), residual_co2(brew)
    if sugar.kg_per_l is not None:
        return _priming_wort(brew, sugar, wanted, sugar.kg_per_l)
    value = Range.span(priming_sugar_g, volume, wanted.range, held.range, sugar.co2_per_g)
    return Figure(
        value,
        lambda: (
            f"{number(volume.typical, 3)} l × ({number(wanted.range.typical, 3)} - {number(held.typical, 3)} volumes)"
            f" × {CO2_G_PER_VOLUME:g} ÷ {number(sugar.co2_per_g.typical, 3)} g of gas from a gram of {sugar.name}"
            f" = {number(value.typical, 3)} g"
        ),
        paths=(brew.recipe.package.carbonation.path, *held.paths),
        assumed=(*held.assumed, *left_behind(brew), *((sugar.assumed,) if sugar.assumed else ())),
        sources=held.sources,
    )


def _priming_wort(brew: Brew, wort: Sugar, wanted: Quantity, kg_per_l: Range) -> Figure:
    """Wort for the stated carbonation; what it adds to the beer is to have that gas too."""
    volume, held = packaged_volume(brew), residual_co2(brew)

    def litres(beer: float, volumes: float, left: float, per_g: float) -> float:
        share = max(0.0, volumes - left) * CO2_G_PER_VOLUME / (1000 * kg_per_l.typical * per_g)
        if share >= 1:
            raise Unknown("wort strong enough for the stated carbonation", wort.path)
        return beer * share / (1 - share)

    needed = Range.span(litres, volume, wanted.range, held.range, wort.co2_per_g)
    return Figure(
        needed * (1000 * kg_per_l.typical),
        lambda: (
            f"{number(volume.typical, 3)} l × ({number(wanted.range.typical, 3)} - {number(held.typical, 3)} volumes)"
            f" × {CO2_G_PER_VOLUME:g} ÷ {number(1000 * kg_per_l.typical * wort.co2_per_g.typical, 3)} g of gas from a"
            f" litre of {wort.name}, and as much for what it adds = {number(needed.typical, 3)} l"
            f" ({number(needed.low, 3)} to {number(needed.high, 3)})"
        ),
        paths=(brew.recipe.package.carbonation.path, *held.paths),
        assumed=(*held.assumed, *left_behind(brew), *((wort.assumed,) if wort.assumed else ())),
        sources=held.sources,
    )
