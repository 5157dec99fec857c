"""Carbon dioxide in beer: what it holds at a temperature and a pressure, and what sugar adds.

One volume is a litre of the gas, at 0 °C and 1 atm, in a litre of beer. Pressures are gauge pressures, in bar above the
air's. All of it holds at rest and after some days: freshly shaken or warmed bottles stand higher for a while.
"""

from math import exp

from mashwright.brewing.alcohol import alcohol_by_mass
from mashwright.measures.constants import ATMOSPHERE_BAR, CO2_G_PER_VOLUME, CO2_PER_ALCOHOL, ICE_K, WATER_KG_PER_L
from mashwright.measures.range import Range

# g of carbon dioxide from a g of dry sugar: two molecules for each of ethanol, by molar masses.
FROM_DISACCHARIDE = 0.5143  # sucrose, maltose: 4 × 44.010 ÷ 342.30
FROM_MONOSACCHARIDE = 0.4886  # glucose, fructose: 2 × 44.010 ÷ 180.16
# Part of that which comes where yeast grows on it too, 0.463 g to a g of extract [balling-nielsen].
LEAST_YIELD = 0.90
# Dry malt extract is taken at 1.3 to 1.5 times the weight of table sugar; common practice.
DRY_EXTRACT_RATIO = Range(1.3, 1.4, 1.5)

# Dry hops bring enzymes that split dextrins: one lager fell by 7 points in 40 days [hop-creep-article]; 3 to 7 are
# counted, from some 4 g/l on. How it grows between, and that three weeks on the hops end it, is judgement.
CREEP_FROM_G_PER_L = 4.0
CREEP_FULL_G_PER_L = 12.0
CREEP_POINTS = (3.0, 7.0)
CREEP_OVER_D = 20.0
"""Beer that stood on its hops so many days has done its creeping, d."""

_A, _B_K = -10.73797, 2617.25  # Henry's law fitted to beer [troester-carbonation]


def dissolved_volumes(pressure_bar: float, beer_c: float, co2_share: float = 1.0) -> float:
    """Carbon dioxide in beer at equilibrium, volumes.

    Args:
        pressure_bar: above the air's, from -1.
        beer_c: temperature of the beer, 0-40 °C.
        co2_share: of the gas, 0-1; nitrogen only pushes, so that the part of carbon dioxide in the whole pressure
            counts [mixed-gas-manual].

    Source: [troester-carbonation]; within 0.06 volumes of the charts up to 16 °C [co2-charts], within 2.5 % of
    another fit [delange-2011], and 3 to 8 % below water, least in the cold [crc-co2-solubility].
    """
    return co2_share * (pressure_bar + ATMOSPHERE_BAR) * _grams_per_bar(beer_c) / CO2_G_PER_VOLUME


def pressure_bar(volumes: float, beer_c: float, co2_share: float = 1.0) -> float:
    """Pressure over beer that holds so much carbon dioxide, bar above the air's: the inverse of dissolved_volumes.

    Below 0 the beer would take up gas from the air over it.

    Raises:
        ValueError: co2_share is not above 0.
    """
    if co2_share <= 0:
        raise ValueError(f"co2_share must be above 0, not {co2_share}")
    return volumes * CO2_G_PER_VOLUME / (_grams_per_bar(beer_c) * co2_share) - ATMOSPHERE_BAR


def co2_share_needed(volumes: float, pressure_bar: float, beer_c: float) -> float:
    """Share of carbon dioxide in a gas that keeps so many volumes in the beer under a pressure; above 1 none does.

    Raises:
        ValueError: pressure_bar is not above -1.01, where nothing lies on the beer.
    """
    if pressure_bar + ATMOSPHERE_BAR <= 0:
        raise ValueError(f"pressure_bar must be above {-ATMOSPHERE_BAR:g}, not {pressure_bar}")
    return volumes * CO2_G_PER_VOLUME / (_grams_per_bar(beer_c) * (pressure_bar + ATMOSPHERE_BAR))


def _grams_per_bar(beer_c: float) -> float:
    """Grams to the litre for each bar of pure gas; held to -10 to 100 °C, outside of which there is no beer."""
    return 10 * exp(_A + _B_K / (min(max(beer_c, -10.0), 100.0) + ICE_K))


def residual_volumes(warmest_c: float) -> Range:
    """Carbon dioxide that is left in beer after fermentation at the pressure of the air, volumes.

    Args:
        warmest_c: since fermentation slowed; gas that has gone does not come back in the cold.

    Returns:
        Typical for beer, high for water, which is what the usual table prints. Low by a tenth, for beer that
        was moved and stirred.

    Source: dissolved_volumes; the high end after [co2-hibberd], which is 3 to 7 % above; the low end is judgement.
    """
    typical = dissolved_volumes(0.0, warmest_c)
    return Range(0.90 * typical, typical, 1.06 * typical)


def volumes_from_sugar(sugar_g_per_l: float, co2_per_g: float) -> float:
    """Carbon dioxide from priming sugar, volumes.

    Args:
        sugar_g_per_l: as weighed, grams to a litre of beer.
        co2_per_g: grams of gas from a gram of it, as weighed.

    Source: stoichiometry; 0.5 g to a gram is a printed rule [troester-priming].
    """
    return sugar_g_per_l * co2_per_g / CO2_G_PER_VOLUME


def priming_sugar_g(volume_l: float, wanted_volumes: float, residual_volumes: float, co2_per_g: float) -> float:
    """Sugar that brings beer from what it holds to what is wanted, g; 0 where it holds enough.

    Raises:
        ValueError: co2_per_g is not above 0.

    Source: mass balance.
    """
    if co2_per_g <= 0:
        raise ValueError(f"co2_per_g must be above 0, not {co2_per_g}")
    return max(0.0, volume_l * (wanted_volumes - residual_volumes) * CO2_G_PER_VOLUME / co2_per_g)


def fermented_volumes(og: float, from_sg: float, to_sg: float) -> float:
    """Carbon dioxide that fermentation makes on its way from one gravity to another, volumes; 0 where it makes none.

    Args:
        og: specific gravity of the wort.
        from_sg, to_sg: where it stands and where it ends.

    Source: 0.9565 g to a gram of alcohol by Balling's balance [balling-nielsen]; a point makes about 0.52 volumes.
    """
    if to_sg >= from_sg:
        return 0.0
    beer_kg_per_l = to_sg * WATER_KG_PER_L
    alcohol_g_per_l = 10 * beer_kg_per_l * (alcohol_by_mass(og, to_sg) - alcohol_by_mass(og, from_sg))
    return CO2_PER_ALCOHOL * alcohol_g_per_l / CO2_G_PER_VOLUME


def hop_creep_points(dry_hops_g_per_l: float) -> float:
    """Points that dry hops can restart a finished beer by, at the most; 0 below 4 g/l.

    Source: 7 points at the most [hop-creep-article]; 3 at the least and the line between are judgement.
    """
    if dry_hops_g_per_l < CREEP_FROM_G_PER_L:
        return 0.0
    way = min(1.0, (dry_hops_g_per_l - CREEP_FROM_G_PER_L) / (CREEP_FULL_G_PER_L - CREEP_FROM_G_PER_L))
    return CREEP_POINTS[0] + way * (CREEP_POINTS[1] - CREEP_POINTS[0])
