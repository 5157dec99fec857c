"""Volumes from the strike water to the fermenter: what grain, kettle and cold take away."""

from mashwright.measures.range import Range

# Volume that grain takes up in the mash, l/kg; common practice, and 0.652 by 42 fl oz for a pound in a quart.
GRAIN_VOLUME_L_PER_KG = Range(0.65, 0.66, 0.67)
# Wort that drained grain keeps, l/kg [grain-absorption-page]; the ends common practice, up to 1.67 was reported.
ABSORPTION_L_PER_KG = Range(0.8, 1.0, 1.25)
# The same in a bag, l/kg: 0.6-0.8 where it is squeezed, 1.0 where it only drains; common practice.
BAG_ABSORPTION_L_PER_KG = Range(0.6, 0.8, 1.0)
# Wort that hops keep, l/kg: 6 in a hop-back [catalogue-conversions]; 10 with the trub at home, common practice.
HOP_LOSS_L_PER_KG = Range(6.0, 8.0, 10.0)
# Share of a boiling wort's volume that is left at 20 °C; water by [iapws-95].
COOLED_SHARE = 0.96
# Volume that a dissolved kilogram of extract takes up, l; from degrees Plato and gravity at 10 °P, [brix-tables].
EXTRACT_VOLUME_L_PER_KG = 0.62


def mash_volume_l(water_l: float, grain_kg: float, grain_volume_l_per_kg: float = 0.66) -> float:
    """Volume of grain and water together, l. Source: common practice, 0.65-0.67 l/kg."""
    return water_l + grain_volume_l_per_kg * grain_kg


def run_off_l(water_l: float, grain_kg: float, absorption_l_per_kg: float = 1.0, dead_space_l: float = 0.0) -> float:
    """Wort that runs off from a mash and its sparge, l, never below 0.

    Args:
        water_l: mash and sparge water together.
        grain_kg: as weighed.
        absorption_l_per_kg: kept by the drained grain.
        dead_space_l: stays below the false bottom.

    Source: mass balance, the absorption counted in wort as brewers measure it.
    """
    return max(0.0, water_l - absorption_l_per_kg * grain_kg - dead_space_l)


def post_boil_l(fermenter_l: float, kettle_loss_l: float) -> float:
    """Hot wort needed at the end of the boil, l, for so much in the fermenter and so much left in the kettle at 20 °C.

    Source: volume balance; water from 100 to 20 °C shrinks by 3.99 % [iapws-95].
    """
    return (fermenter_l + kettle_loss_l) / COOLED_SHARE


def into_fermenter_l(post_boil_volume_l: float, kettle_loss_l: float) -> float:
    """Wort that reaches the fermenter at 20 °C, l, never below 0: the inverse of post_boil_l."""
    return max(0.0, post_boil_volume_l * COOLED_SHARE - kettle_loss_l)


def pre_boil_l(post_boil_volume_l: float, boil_off_l_per_h: float, hours: float) -> float:
    """Hot wort needed before the boil, l: boil-off is an amount in an hour, not a share of what is left.

    Source: volume balance.
    """
    return post_boil_volume_l + boil_off_l_per_h * hours


def total_liquor_l(
    pre_boil_volume_l: float, grain_kg: float, absorption_l_per_kg: float = 1.0, dead_space_l: float = 0.0
) -> float:
    """All water that a brew needs, l: what goes into the kettle and what grain and tun keep.

    The hot volume before the boil is counted as if it had been measured in as such: up to 4 % too much for water that
    is measured cold, as brewers reckon.

    Source: volume balance.
    """
    return pre_boil_volume_l + absorption_l_per_kg * grain_kg + dead_space_l
