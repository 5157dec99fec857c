"""Alcohol and attenuation from two gravities, by Balling's balance.

Balling: 2.0665 g of extract become 1 g of alcohol, 0.9565 g of carbon dioxide and 0.11 g of yeast [balling-nielsen]. A
hydrometer in beer reads low, since alcohol is light; real extract corrects for that.
"""

from mashwright.brewing.gravity import plato
from mashwright.measures.constants import ETHANOL_TO_WATER, EXTRACT_PER_ALCOHOL, REAL_PER_APPARENT


def real_extract(og: float, fg: float) -> float:
    """Extract that is left in the beer, g in 100 g.

    Args:
        og: specific gravity before fermentation, 1.00-1.18.
        fg: specific gravity after it, 0.99-1.18.

    Source: attenuation quotient 0.8192, from memory, among those of [cutaia-2009].
    """
    return plato(og) - REAL_PER_APPARENT * (plato(og) - plato(fg))


def alcohol_by_mass(og: float, fg: float) -> float:
    """Alcohol, g in 100 g of beer. Source: Balling's balance as in [balling-nielsen]."""
    oe = plato(og)
    return (oe - real_extract(og, fg)) / (EXTRACT_PER_ALCOHOL - 0.010665 * oe)


def alcohol_by_volume(og: float, fg: float) -> float:
    """Alcohol, % by volume at 20 °C.

    Single brews scatter about ±0.1 % of mass around it; the linear 131.25 × (OG - FG) is within 0.4 up to 1.100, low.

    Source: alcohol_by_mass and the density of ethanol [oiml-r22].
    """
    return alcohol_by_mass(og, fg) * fg / ETHANOL_TO_WATER


def apparent_attenuation(og: float, fg: float) -> float:
    """Part of the gravity points that fermentation took away, %; 0 where there were none. Source: common practice."""
    return 100 * (og - fg) / (og - 1) if og > 1 else 0.0


def real_degree(og: float, fg: float) -> float:
    """Real degree of fermentation: part of the extract that was fermented, %; 0 where there was none.

    Source: [cutaia-2009].
    """
    oe = plato(og)
    return 100 * (oe - real_extract(og, fg)) / oe if oe > 0 else 0.0


def final_gravity(og: float, attenuation: float) -> float:
    """Gravity at which a beer ends.

    Args:
        og: specific gravity of the wort, 1.000 and up.
        attenuation: apparent, % of the points; above 100 for beer lighter than water.

    Source: definition of apparent attenuation by points, common practice.
    """
    return 1 + (og - 1) * (1 - attenuation / 100)
