"""Yeast by its cells: how many a wort needs, and how many a pitch brings.

Cells are counted in thousand millions (10^9, American: billions).
"""

from itertools import pairwise

from mashwright.measures.range import Range

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
# New cells, 10^9, to each litre and °P of a starter. By the sugar that is there: low for yeast that was at work before,
# middle for stored yeast, both counted [starter-trials]; the high end is 1.4 × 10^9 to the gram of extract of a stirred
# one, from memory.
STARTER_GROWTH = Range(7.2, 10.4, 14.5)
STARTER_PLATO = Range(9.0, 9.5, 10.0)  # of a starter whose strength is not said, 1.036-1.040; common practice
_CROWDED, _FULL = 1.4, 3.5  # 10^9 cells to the gram of extract: growth falls from here, and ends there; from memory
_GRAMS_PER_L_PLATO = 10.37  # extract in a litre of 1 °P of such a starter, by its density


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


def starter_growth(litres: float, cells: float, plato: float, per_l_plato: float) -> float:
    """New cells that a starter grows, 10^9; fewer the more it is crowded from the beginning.

    Args:
        litres: of the starter, from 0.
        cells: living ones that it begins with, 10^9.
        plato: its strength, °P.
        per_l_plato: of a starter that is not crowded, see STARTER_GROWTH.

    Source: growth follows the sugar [troester-yeast-growth] [starter-trials]; where it falls, from memory.
    """
    grams = litres * plato * _GRAMS_PER_L_PLATO
    if grams <= 0:
        return 0.0
    room = (_FULL - cells / grams) / (_FULL - _CROWDED)
    return litres * plato * per_l_plato * min(1.0, max(0.0, room))


def starter_litres(wanted: float, cells: float, plato: float, per_l_plato: float) -> float:
    """The starter that brings cells to as many as are wanted, l; 0 where they are enough.

    Args:
        wanted: 10^9 cells.
        cells: living ones that it begins with, 10^9.
        plato: its strength, °P, above 0.
        per_l_plato: as in ``starter_growth``, above 0.

    Source: as ``starter_growth``, turned round.
    """
    missing = wanted - cells
    if missing <= 0:
        return 0.0
    per_gram = per_l_plato / _GRAMS_PER_L_PLATO
    grams = missing / per_gram
    if cells > _CROWDED * grams:
        grams = (missing / per_gram * (_FULL - _CROWDED) + cells) / _FULL
    return grams / (plato * _GRAMS_PER_L_PLATO)


# Days from pitching after which a wort of so much is usually at its end, by the sort of yeast in the middle of its
# range. Ale after [ready-to-bottle-blog] and [ferment-times-forum]; lager up to two to four weeks longer
# [lager-time-page]; kveik and diastatic yeast from memory; the line between them is judgement.
DAYS_BY_SG: dict[str, tuple[tuple[float, float], ...]] = {
    "ale": ((1.050, 7), (1.065, 10), (1.090, 14), (1.100, 28)),
    "lager": ((1.050, 14), (1.065, 18), (1.090, 24), (1.100, 35)),
    "kveik": ((1.050, 4), (1.065, 5), (1.090, 7), (1.100, 10)),
    "diastatic": ((1.050, 14), (1.090, 21), (1.100, 28)),
}
SLOWER_EACH_3_C = 1.3
"""Times longer for each 3 °C below the middle of the yeast's range; judgement."""
_COOL_C = 1.5  # so little colder makes no difference; judgement
_SLOWEST = 3.0  # times; colder than that a yeast sleeps, judgement


def fermenting_days(sort: str, og: float, cold_by_c: float = 0.0) -> float:
    """Days from pitching after which a beer is usually at its end.

    Args:
        sort: ``ale``, ``lager``, ``kveik`` or ``diastatic``.
        og: specific gravity of the wort.
        cold_by_c: how far the beer is below the middle of the yeast's range, °C; not negative.

    Raises:
        KeyError: no such sort.

    Source: beside DAYS_BY_SG.
    """
    steps = DAYS_BY_SG[sort]
    days = steps[0][1]
    for (low, fewer), (high, more) in pairwise(steps):
        if og > low:
            days = fewer + (more - fewer) * min(1.0, (og - low) / (high - low))
    slower: float = SLOWER_EACH_3_C ** (max(0.0, cold_by_c - _COOL_C) / 3)
    return days * min(_SLOWEST, slower)
