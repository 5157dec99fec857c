"""Figures of heat: the mash at dough-in, the strike that it needs, its steps, the bed under the sparge, the boil."""

from msgspec import Struct

from mashwright.brew.board import lines, number
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import degrees, litres_in, on_scale, scale_of, warmer, weight_in
from mashwright.brew.parts import Part
from mashwright.brew.pours import (
    absorption,
    dead_space,
    doughed_in,
    in_the_tun,
    kit,
    of_one_mash,
    sparge_pour,
    strike_water,
    unstated_water,
    weight_kg,
)
from mashwright.brewing.boiling import air_pressure_kpa, boiling_point_c
from mashwright.brewing.heat import (
    grain_heat,
    mixed_temperature_c,
    rinsed_bed_c,
    slaking_rise_c,
    strike_temperature_c,
)
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.finding import Path
from mashwright.ingredients.kinds import RestBy, SpargeBy
from mashwright.measures.range import Range
from mashwright.recipe.stated import Open, Unknown

ROOM_C = Range(15, 20, 25)  # grain where a recipe states no temperature of it; common practice
# Heat that a tun of which nothing is said may take, share of the strike water's: 1-2 °C of the mash, common practice.
_COLD_TUN_SHARE = 0.05


@figure("boiling-point", unit="°C", sources=("us-standard-atmosphere-1976", "iapws-if97"))
def boiling_point(brew: Brew) -> Figure:
    """Boiling point of water at the brewhouse."""
    altitude = brew.brewhouse.altitude
    if altitude.mentioned and not altitude.known:
        raise Open("a readable altitude of the brewhouse")  # it stands in another file
    height = altitude.range if altitude.known else Range.exact(0.0)
    value = height.map(boiling_point_c)
    where = f"at {altitude.text}" if altitude.known else "at sea level"
    assumed = () if altitude.known else ("sea level, since the brewhouse states no altitude",)
    return Figure(
        value,
        lambda: (
            f"{where} the standard atmosphere is {number(10 * air_pressure_kpa(height.typical), 4)} mbar,"
            f" under which water boils at {degrees(brew, value.typical)}"
        ),
        assumed=assumed,
    )


def boils_at_c(brew: Brew) -> float:
    """Typical boiling point, °C."""
    return boiling_point(brew).typical


def _known_boil_c(brew: Brew) -> float | None:
    """The same, or None where it cannot be said: for a remark that no figure hangs on."""
    try:
        return boils_at_c(brew)
    except Unknown:
        return None


class Strike(Struct, frozen=True, gc=False):
    """What meets at dough-in, in kg of water and °C."""

    grain_kg: float
    heat: float
    grain_c: Range
    water: Range
    tun: Range
    slaking_c: float
    assumed: tuple[str, ...]
    paths: tuple[Path, ...]


def grain_heat_of(parts: tuple[Part, ...]) -> float:
    """Heat capacity of some grain relative to water, by its moisture."""
    total = weight_kg(parts)
    return sum(part.weight_kg * grain_heat(part.moisture.typical) for part in parts) / total


@once
def at_dough_in(brew: Brew) -> Strike:
    """Grain, water and tun at dough-in.

    Raises:
        Unknown: nothing is mashed, or a value that is stated cannot be read.
    """
    parts, water = doughed_in(brew), strike_water(brew)
    grain, poured_in = of_one_mash(brew)
    grain_kg, met = weight_kg(parts) * grain, water.litres * poured_in
    moisture = sum(part.weight_kg * part.moisture.typical for part in parts) / weight_kg(parts)
    mash, assumed, paths = brew.recipe.mash, [], [water.path] if water.stated else []
    if not water.stated:
        assumed.append(unstated_water(brew, met.typical / grain_kg))
    grain_c = ROOM_C
    mash.grain_temperature.readable("a readable temperature of the grain")
    if mash.grain_temperature.known:
        grain_c = mash.grain_temperature.range
        paths.append(mash.grain_temperature.path)
    else:
        assumed.append(f"grain at {degrees(brew, grain_c.typical)}, since its temperature is not stated")
    tun, bag = kit(brew).mash_tun, mash.known and mash.bag
    if tun.heat.known and not bag:
        takes = Range(0.0, tun.heat.range.typical, tun.heat.range.high)
        assumed.append("a tun as cold as the grain; a preheated tun takes almost no heat")
    else:
        takes = Range(0.0, 0.0, 0.0 if bag else _COLD_TUN_SHARE * met.typical)
        if not bag:
            assumed.append("a preheated tun; a cold tun costs a degree or two")
    return Strike(
        grain_kg,
        grain_heat_of(parts),
        grain_c,
        met,
        takes,
        slaking_rise_c(moisture),
        tuple(assumed),
        tuple(paths),
    )


_G1 = ("brewing-room-book-1984", "catalogue-conversions", "common-practice")


@figure("mash-temperature", unit="°C", sources=_G1)
def mash_temperature(brew: Brew) -> Figure:
    """Mash temperature from the stated strike water."""
    mash = brew.recipe.mash
    strike, met = mash.strike.need("the temperature of the strike water").range, at_dough_in(brew)
    typical = _mixed(met, strike.typical, met.water.typical, met.grain_c.typical, met.tun.typical)
    value = Range(
        min(typical, _mixed(met, strike.low, met.water.low, met.grain_c.low, met.tun.high)),
        typical,
        # where the heat of wetting is not lost
        max(typical, _mixed(met, strike.high, met.water.high, met.grain_c.high, met.tun.low) + met.slaking_c),
    )

    def working() -> str:
        grain = f"{weight_in(brew, met.grain_kg)} of grain × {number(met.heat, 2)}"
        rows = [f"  {grain} at {degrees(brew, met.grain_c.typical)}"]
        rows.append(f"  {litres_in(brew, met.water.typical)} of water at {degrees(brew, strike.typical)}")
        if met.tun.typical > 0:
            takes = f"{litres_in(brew, met.tun.typical)} of water for the heat that the tun takes"
            rows.append(f"  {takes} at {degrees(brew, met.grain_c.typical)}")
        grain_at = on_scale(brew, met.grain_c.typical)
        top = f"{number(met.heat * met.grain_kg, 3)} × {grain_at}"
        top += f" + {number(met.water.typical, 3)} × {on_scale(brew, strike.typical)}"
        whole = met.heat * met.grain_kg + met.water.typical + met.tun.typical
        if met.tun.typical > 0:
            top += f" + {number(met.tun.typical, 3)} × {grain_at}"
        rows.append(f"  ({top}) ÷ {number(whole, 3)} = {on_scale(brew, typical)} {scale_of(brew)}")
        rows.append(f"  the warm end with {warmer(brew, met.slaking_c)} by the heat of slaking, which small tuns lose")
        return lines(["heat capacity in kg of water × temperature, added up, divided by all of it:", *rows])

    return Figure(value, working, (mash.strike.path, *met.paths), met.assumed)


def _mixed(met: Strike, strike_c: float, water_kg: float, grain_c: float, tun_kg: float) -> float:
    return mixed_temperature_c(((met.heat * met.grain_kg + tun_kg, grain_c), (water_kg, strike_c)))


@figure("strike-temperature", unit="°C", sources=_G1)
def strike_temperature(brew: Brew) -> Figure:
    """Strike temperature for the first rest."""
    rest, met = brew.plan.known()[0], at_dough_in(brew)
    mash = brew.recipe.mash
    if mash.known and mash.rests and mash.rests[0].by == RestBy.CEREAL_MASH:
        raise Unknown("the rest before the cereal mash comes in", (*mash.rests[0].path, "at"))

    def needed(mash_c: float, grain_c: float, water_kg: float, tun_kg: float) -> float:
        heat = met.heat + tun_kg / met.grain_kg
        return strike_temperature_c(mash_c, grain_c, water_kg / met.grain_kg, heat)

    typical = needed(rest.at_c.typical, met.grain_c.typical, met.water.typical, met.tun.typical)
    ends = (
        needed(rest.at_c.low - met.slaking_c, met.grain_c.high, met.water.high, met.tun.low),
        needed(rest.at_c.high, met.grain_c.low, met.water.low, met.tun.high),
        typical,
    )
    boils = _known_boil_c(brew)

    def working() -> str:
        ratio = number(met.water.typical / met.grain_kg, 3)
        heat = number(met.heat + met.tun.typical / met.grain_kg, 2)
        tun = ", the tun's share counted in" if met.tun.typical > 0 else ""
        at = on_scale(brew, rest.at_c.typical)
        result = f"{on_scale(brew, typical)} {scale_of(brew)}"
        rows = [
            f"{at} + {heat} ÷ {ratio} × ({at} - {on_scale(brew, met.grain_c.typical)}) = {result}",
            f"  {heat} is the heat of the grain{tun}; {ratio} kg of water to 1 kg of grain",
        ]
        if boils is not None and typical > boils:
            rows.append(f"  no water is so hot: it boils at {degrees(brew, boils)}")
        return lines(rows)

    assumed = (*met.assumed, *(() if brew.plan.stated else brew.plan.assumed))
    paths = (*((rest.path,) if rest.path is not None else ()), *met.paths)
    return Figure(Range(min(ends), typical, max(ends)), working, paths, assumed)


@figure("bed-temperature", unit="°C", sources=("common-practice", "judgement"))
def bed_temperature(brew: Brew) -> Figure:
    """Grain bed temperature at the end of the sparge."""
    sparge = brew.recipe.sparge
    if not sparge.known or sparge.by == SpargeBy.NONE:
        raise Unknown("a sparge", brew.recipe.sparge.path)
    if brew.recipe.sparges:
        return _hottest_bed(brew)
    sparge_at = sparge.at.need("the temperature of the sparge water")
    last, parts = brew.plan.known()[-1], in_the_tun(brew)
    bed_c = last.to_c or last.at_c
    grain, poured_in = of_one_mash(brew)
    grain_kg, liquor_c = weight_kg(parts) * grain, sparge_at.range
    pour = sparge_pour(brew)
    water = pour.litres if pour is not None else strike_water(brew).litres
    assumed = [] if pour is not None else [f"{litres_in(brew, water.typical)} of sparge water, as much as in the mash"]
    fly = sparge.by == SpargeBy.FLY
    if not sparge.by:
        assumed.append("a sparge in batches, since it is not said how")
    heat, water = grain_heat_of(parts) * grain_kg, water * poured_in
    if fly:
        held = heat + strike_water(brew).litres.typical * poured_in
        typical = rinsed_bed_c(bed_c.typical, liquor_c.typical, held, water.typical)
        value = Range(min(typical - 2.0, typical), typical, max(typical, liquor_c.high, bed_c.high))
        how = f"rinsed little by little: {number(held, 3)} kg of water in the bed's heat"
    else:
        held = heat + absorption(brew)[0].typical * grain_kg + dead_space(brew)[0].typical * grain
        typical = mixed_temperature_c(((held, bed_c.typical), (water.typical, liquor_c.typical)))
        value = Range(
            min(typical, mixed_temperature_c(((held, bed_c.low - 2.0), (water.low, liquor_c.low - 1.0)))),
            typical,
            max(typical, mixed_temperature_c(((held, bed_c.high), (water.high, liquor_c.high)))),
        )
        how = f"the drained bed holds the heat of {number(held, 3)} kg of water"

    def working() -> str:
        rows = [f"{how}, at {degrees(brew, bed_c.typical)} from the last rest"]
        rows.append(f"  {litres_in(brew, water.typical)} of sparge water at {degrees(brew, liquor_c.typical)}")
        rows.append(f"  together {degrees(brew, typical)}")
        return lines(rows)

    paths = (sparge.at.path, *((pour.path,) if pour is not None and pour.stated else ()))
    return Figure(value, working, paths, tuple(assumed))


def _hottest_bed(brew: Brew) -> Figure:
    """The bed as hot as it gets where several waters follow the mash, each mixed with the drained grain."""
    last, parts = brew.plan.known()[-1], in_the_tun(brew)
    grain, poured_in = of_one_mash(brew)
    grain_kg = weight_kg(parts) * grain
    held = (grain_heat_of(parts) + absorption(brew)[0].typical) * grain_kg + dead_space(brew)[0].typical * grain
    bed_c = last.to_c or last.at_c
    beds, rows, paths = [], [f"the drained bed contains the heat of {number(held, 3)} kg of water"], []
    for one in brew.recipe.sparges:
        liquor = one.at.need("the temperature of the sparge water")
        water = one.water.need("the sparge water")
        litres = water.range * poured_in
        typical = mixed_temperature_c(((held, bed_c.typical), (litres.typical, liquor.range.typical)))
        low = mixed_temperature_c(((held, bed_c.low - 2.0), (litres.low, liquor.range.low - 1.0)))
        high = mixed_temperature_c(((held, bed_c.high), (litres.high, liquor.range.high)))
        bed_c = Range(min(low, typical), typical, max(high, typical))
        rows.append(f"{water.text} at {liquor.text} brings it to {degrees(brew, typical)}")
        beds.append(bed_c)
        paths += [liquor.path, water.path]
    hottest = max(beds, key=lambda one: one.typical)
    return Figure(hottest, lambda: lines(rows), tuple(paths))


__all__ = [
    "at_dough_in",
    "bed_temperature",
    "boiling_point",
    "boils_at_c",
    "mash_temperature",
    "strike_temperature",
]
