"""Heat of the mash: at mashing-in, by infusion, by decoction, and of the grain bed under the sparge.

Heat is counted in kg of water: what takes up as much of it as a kilogram of water counts 1.
"""

from collections.abc import Iterable
from math import exp

# By malt moisture, %: heat capacity relative to water, and the rise by the heat of slaking, °C [catalogue-conversions].
_BY_MOISTURE = (
    (0.0, 0.38, 3.1),
    (1.0, 0.38, 2.6),
    (2.0, 0.39, 2.3),
    (3.0, 0.40, 2.1),
    (4.0, 0.40, 1.7),
    (6.0, 0.41, 1.3),
    (8.0, 0.42, 1.1),
)


def strike_temperature_c(mash_c: float, grain_c: float, liquor_to_grist: float, grain_heat: float = 0.40) -> float:
    """Temperature that strike water needs for a mash temperature, °C, before losses to the vessel.

    The heat of wetting is left out: it lifts a big tun by 1-3 °C, and small tuns lose it.

    Args:
        mash_c: wanted just after mixing, °C.
        grain_c: dry grain, °C.
        liquor_to_grist: kg of water to 1 kg of grain, above 0.
        grain_heat: heat capacity of the grain relative to water, 0.38 (dry) to 0.42 (8 % moisture).

    Returns:
        °C; above 100 where no water is hot enough.

    Raises:
        ValueError: liquor_to_grist is not above 0.

    Source: [brewing-room-book-1984], appendix 4, rearranged; leaving out the heat of slaking is common practice.
    """
    if liquor_to_grist <= 0:
        raise ValueError(f"liquor_to_grist must be above 0, not {liquor_to_grist}")
    return mash_c + grain_heat / liquor_to_grist * (mash_c - grain_c)


def mixed_temperature_c(bodies: Iterable[tuple[float, float]]) -> float:
    """Temperature of several bodies after they were mixed, °C, none of the heat lost.

    Args:
        bodies: pairs of a heat capacity, kg of water, and a temperature, °C.

    Raises:
        ValueError: nothing that holds heat.

    Source: heat balance.
    """
    capacity = heat = 0.0
    for kg, celsius in bodies:
        capacity += kg
        heat += kg * celsius
    if capacity <= 0:
        raise ValueError("a mixture needs something that holds heat")
    return heat / capacity


def grain_heat(moisture_percent: float) -> float:
    """Heat capacity of grain relative to water, 0.38-0.42.

    Args:
        moisture_percent: 0-8; drier and moister grain is taken as the nearest of them.

    Source: table of [catalogue-conversions], the same as [brewing-room-book-1984], appendix 4.
    """
    return _in_table(moisture_percent, 1)


def slaking_rise_c(moisture_percent: float) -> float:
    """Rise of the mash by the heat of wetting in a big or well insulated tun, °C; small tuns lose it.

    Args:
        moisture_percent: as in grain_heat.

    Source: table of [catalogue-conversions].
    """
    return _in_table(moisture_percent, 2)


def _in_table(moisture_percent: float, column: int) -> float:
    first = _BY_MOISTURE[0]
    if moisture_percent <= first[0]:
        return first[column]
    for last in _BY_MOISTURE[1:]:
        if moisture_percent <= last[0]:
            share = (moisture_percent - first[0]) / (last[0] - first[0])
            return first[column] + share * (last[column] - first[column])
        first = last
    return first[column]


def infusion_water_kg(from_c: float, to_c: float, liquor_c: float, mash_heat_kg: float) -> float:
    """Hot water that brings a mash to its next rest, kg.

    Args:
        from_c, to_c: the mash before and after, °C.
        liquor_c: the water, °C, hotter than to_c.
        mash_heat_kg: water in the mash and grain_heat times its grain, kg of water.

    Raises:
        ValueError: the water is no hotter than the rest.

    Source: [palmer-16], in kg of water.
    """
    if liquor_c <= to_c:
        raise ValueError(f"liquor_c must be above {to_c}, not {liquor_c}")
    return (to_c - from_c) * mash_heat_kg / (liquor_c - to_c)


def decoction_share(from_c: float, to_c: float, boil_c: float = 100.0) -> float:
    """Share of a mash that has to be drawn off and boiled to bring the whole to its next rest, 0-1, none of it lost.

    Args:
        from_c, to_c: the mash before and after, °C.
        boil_c: the drawn part when it comes back, °C, above from_c.

    Raises:
        ValueError: the boil is no hotter than the mash.

    Source: heat balance, for a part like the whole; common practice adds 10-20 % for losses.
    """
    if boil_c <= from_c:
        raise ValueError(f"boil_c must be above {from_c}, not {boil_c}")
    return (to_c - from_c) / (boil_c - from_c)


def decoction_temperature_c(from_c: float, share: float, boil_c: float = 100.0) -> float:
    """Mash after a share of its heat capacity came back boiling, °C: the inverse of decoction_share."""
    return from_c + share * (boil_c - from_c)


def heat_of_a_litre_kg(liquor_to_grist: float, heat: float = 0.40, grain_volume_l_per_kg: float = 0.66) -> float:
    """Heat capacity of a litre of mash of some thickness, kg of water.

    Args:
        liquor_to_grist: kg of water to 1 kg of grain, 0 or more; about 1.25 in a thick decoction.
        heat: of the grain, as grain_heat.
        grain_volume_l_per_kg: volume that the grain takes up.

    Source: [decoction-forum], quoting a handbook, in metric units.
    """
    return (heat + liquor_to_grist) / (liquor_to_grist + grain_volume_l_per_kg)


def rinsed_bed_c(bed_c: float, liquor_c: float, bed_heat_kg: float, liquor_kg: float) -> float:
    """Grain bed that was rinsed with water little by little, °C, as if each part of it mixed with the bed.

    Args:
        bed_c: before the sparge, °C.
        liquor_c: sparge water, °C.
        bed_heat_kg: grain and the wort in it, kg of water, above 0.
        liquor_kg: all sparge water, 0 or more.

    Source: heat balance of a stirred vessel; a bed that the water passes like a piston comes nearer to liquor_c.
    """
    return liquor_c - (liquor_c - bed_c) * exp(-liquor_kg / bed_heat_kg)
