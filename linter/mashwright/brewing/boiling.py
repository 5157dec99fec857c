"""Boiling: where water boils at an altitude, and how much of it boils away."""

from math import sqrt

from mashwright.measures.constants import ATMOSPHERE_KPA, ICE_K
from mashwright.measures.range import Range

_LAPSE_PER_M = 2.25577e-5  # 0.0065 K/m ÷ 288.15 K
_LAPSE_POWER = 5.25588
_TROPOSPHERE_M = 11_000.0


def air_pressure_kpa(altitude_m: float) -> float:
    """Air pressure of the standard atmosphere, kPa; the weather moves it by about 3 % either way.

    Args:
        altitude_m: above the sea, -500 to 11 000.

    Raises:
        ValueError: outside that.

    Source: [us-standard-atmosphere-1976], troposphere.
    """
    if not -500 <= altitude_m <= _TROPOSPHERE_M:
        raise ValueError(f"altitude_m must lie within -500 and 11000, not {altitude_m}")
    result: float = ATMOSPHERE_KPA * (1 - _LAPSE_PER_M * altitude_m) ** _LAPSE_POWER
    return result


def boiling_point_c(altitude_m: float = 0.0) -> float:
    """Temperature at which water boils, °C; wort boils a few tenths higher.

    Args:
        altitude_m: as in air_pressure_kpa.

    Source: pressure as air_pressure_kpa; saturation line by [iapws-if97], backward equation of region 4.
    """
    return saturation_c(air_pressure_kpa(altitude_m))


def saturation_c(pressure_kpa: float) -> float:
    """Temperature at which water boils under an absolute pressure of 0.7 to 22 000 kPa, °C. Source: [iapws-if97]."""
    beta = sqrt(sqrt(pressure_kpa / 1000))
    e = (beta - 17.073846940092) * beta + 14.915108613530
    f = (1167.0521452767 * beta + 12020.824702470) * beta - 4823.2657361591
    g = (-724213.16703206 * beta - 3232555.0322333) * beta + 405113.40542057
    d = 2 * g / (-f - sqrt(f * f - 4 * e * g))
    top = 650.17534844798 + d
    return (top - sqrt(top * top - 4 * (-0.23855557567849 + 650.17534844798 * d))) / 2 - ICE_K


_HOME_L = 22.0  # wort of a home kettle that boils away 2-7 l/h


def usual_boil_off_l_per_h(wort_l: float) -> Range:
    """Water that usually boils away in an hour where no brewhouse says it, l/h.

    Args:
        wort_l: at the end of the boil, 0 or more.

    Source: 3.8-5.7 l/h of home kettles on average [boil-off-pages]; about 2 of an electric one or indoors and a gentle
    boil, 6.6 and more of a short wide one [boil-off-forum]; in proportion to the kettle's surface for other sizes
    (judgement); in a traditional brewhouse 10-15 % in 90 min, in a modern one 6-8 % in all [oxford-evaporation].
    """
    surface = (max(wort_l, 0.0) / _HOME_L) ** (2 / 3)
    return Range(max(2 * surface, 0.05 * wort_l), max(4 * surface, 0.08 * wort_l), max(7 * surface, 0.10 * wort_l))
