"""Heat at mashing-in."""


def dough_in_temperature_c(
    liquor_c: float, grain_c: float, liquor_to_grist: float, grain_heat: float = 0.40, slaking_c: float = 0.0
) -> float:
    """Temperature of the mash just after grain and strike water are mixed, °C, before losses to the vessel.

    Args:
        liquor_c: strike water, 0-100 °C.
        grain_c: dry grain, °C.
        liquor_to_grist: kg of water to 1 kg of grain, above 0.
        grain_heat: heat capacity of the grain relative to water, 0.38 (dry) to 0.42 (8 % moisture).
        slaking_c: rise by the heat of wetting, 1-3 °C in a big tun; small tuns lose it, so home formulas leave it out.

    Raises:
        ValueError: liquor_to_grist is not above 0.

    Source: [brewing-room-book-1984], appendix 4; leaving out the heat of slaking is common practice.
    """
    _check(liquor_to_grist)
    return (grain_heat * grain_c + liquor_to_grist * liquor_c) / (grain_heat + liquor_to_grist) + slaking_c


def strike_temperature_c(
    mash_c: float, grain_c: float, liquor_to_grist: float, grain_heat: float = 0.40, slaking_c: float = 0.0
) -> float:
    """Temperature that strike water needs for a mash temperature, °C: the inverse of dough_in_temperature_c.

    Args:
        mash_c: wanted just after mixing, °C.
        grain_c: dry grain, °C.
        liquor_to_grist: kg of water to 1 kg of grain, above 0.
        grain_heat: as in dough_in_temperature_c.
        slaking_c: as in dough_in_temperature_c.

    Returns:
        °C; above 100 where no water is hot enough.

    Raises:
        ValueError: liquor_to_grist is not above 0.

    Source: [brewing-room-book-1984], appendix 4, rearranged.
    """
    _check(liquor_to_grist)
    return mash_c - slaking_c + grain_heat / liquor_to_grist * (mash_c - slaking_c - grain_c)


def _check(liquor_to_grist: float) -> None:
    if liquor_to_grist <= 0:
        raise ValueError(f"liquor_to_grist must be above 0, not {liquor_to_grist}")
