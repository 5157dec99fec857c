"""Specific gravity, degrees Plato, and the mass of extract in a wort.

Gravity is apparent, 20 °C over 20 °C; a degree Plato is a gram of extract (as sucrose) in 100 g of wort. Brix and
Balling differ from it by less than a brewer can read [brix-tables].
"""

from mashwright.measures.constants import WATER_KG_PER_L
from mashwright.measures.gravity_scale import plato, specific_gravity

__all__ = ["extract_kg", "gravity_of", "plato", "points", "specific_gravity"]


def points(sg: float) -> float:
    """Gravity points: thousandths above water, so 50 for 1.050. Source: common practice."""
    return (sg - 1) * 1000


def extract_kg(volume_l: float, sg: float) -> float:
    """Extract in a wort, kg.

    Args:
        volume_l: at 20 °C, litres.
        sg: 1.000-1.179.

    Source: mass balance; degrees Plato by the cubic of [brix-tables], fitted to [nbs-c440].
    """
    return volume_l * sg * WATER_KG_PER_L * max(0.0, plato(sg)) / 100


def gravity_of(extract_kg: float, volume_l: float) -> float:
    """Specific gravity of a wort that is made up to a volume and holds this much extract: the inverse of extract_kg.

    Args:
        extract_kg: 0 or more.
        volume_l: at 20 °C, litres, above 0.

    Returns:
        1.000 and up; past 1.179 an extrapolation.

    Raises:
        ValueError: volume_l is not above 0.

    Source: as extract_kg, solved by Newton's method.
    """
    if volume_l <= 0:
        raise ValueError(f"volume_l must be above 0, not {volume_l}")
    per_litre = 100 * extract_kg / (volume_l * WATER_KG_PER_L)
    if per_litre <= 0:
        return 1.0
    sg = 1 + 0.00386 * per_litre  # as sucrose at 100 g/l; near enough to start from
    for _ in range(3):
        degrees = plato(sg)
        slope = (547.3803 * sg - 1551.3642) * sg + 1262.7794  # of the cubic behind plato
        sg -= (sg * degrees - per_litre) / (degrees + sg * slope)
    return sg
