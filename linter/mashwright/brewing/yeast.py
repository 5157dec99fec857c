"""Yeast by its cells: how many a wort needs, and how many a pitch brings.

Cells are counted in thousand millions (10^9, American: billions).
"""

from mashwright.finding import Range

# Million cells to each ml and °P: the middle as G. Fix is quoted, the ends from the pitching articles, [fix-pitching]
# [pitching-articles].
ALE_RATE = Range(0.5, 0.75, 1.0)
GENERAL_RATE = Range(0.75, 1.0, 1.5)
LAGER_RATE = Range(1.0, 1.5, 1.75)

# 10^9 living cells. Dry yeast by its packers' least promise and by what laboratories count; common practice.
DRY_PER_GRAM = Range(6, 12, 20)
LIQUID_PACK = Range(70, 100, 200)  # one pack for 20 l, fresh; common practice
SLURRY_PER_ML = Range(0.5, 1.2, 2.5)  # settled yeast, thin to thick; from memory
PRESSED_PER_GRAM = Range(1, 3, 10)  # barm and pressed yeast by weight; from memory
STARTER_PER_LITRE = Range(40, 80, 150)  # new cells in a litre of starter of 1.036-1.040; from memory


def cells_needed(rate_million: float, volume_l: float, plato: float) -> float:
    """Cells that a wort should be pitched with, 10^9.

    Args:
        rate_million: to each ml and °P, 0.5-1.75.
        volume_l: of wort, litres.
        plato: extract of the wort, °P.

    Source: [fix-pitching].
    """
    return rate_million * volume_l * max(0.0, plato)


def viable(cells: float, viability_percent: float) -> float:
    """Of these cells, those that live. Source: by definition."""
    return cells * viability_percent / 100
