"""How far a wort will ferment: from the rests, the enzymes, the grist and the yeast.

What a part of the extract ferments is its real degree, 0-1; a hydrometer shows that divided by 0.819. The band of ±6
points is wide for a reason: published models miss malts that they were not fitted to by up to a tenth of the sugar
[koljonen-1995].
"""

from collections.abc import Iterable
from itertools import pairwise
from math import exp, log

from mashwright.measures.constants import REAL_PER_APPARENT
from mashwright.measures.range import Range

BAND = 6.0  # points of apparent attenuation on either side; judgement
DIASTATIC = Range(85, 92, 100)  # apparent; yeast or enzymes that split dextrins [sta1-guide], range from memory
# What splits dextrins slows down between these, apparent %; beyond the second nothing is left to speak of; judgement.
SLOWS_DOWN, SPENT = 85.0, 95.0
USUAL_YEAST = 77.0  # apparent attenuation of the yeast for which the curve stands; judgement
OPTIMUM_C = 62.5  # for attenuation [hamilton-lewis-1974]
ROASTED = 0.33  # judgement
MALTODEXTRIN = 0.03  # judgement
LACTOSE = 0.0  # brewing yeast has no enzyme for it; common practice


def going_on_to(reached_percent: float, usual_percent: float = DIASTATIC.typical) -> tuple[float, float]:
    """Apparent attenuation at which beer with a splitter of dextrins usually ends, and that to which it may go, %.

    The further it has come, the less is left: up to SLOWS_DOWN it may go all the way, from SPENT on nowhere.

    Args:
        reached_percent: where it stands.
        usual_percent: where such beer usually ends.

    Source: ends after [sta1-guide], from memory; between them judgement.
    """
    usual = max(reached_percent, usual_percent)
    left = min(max((SPENT - reached_percent) / (SPENT - SLOWS_DOWN), 0.0), 1.0)
    furthest = reached_percent + left * max(0.0, DIASTATIC.high - reached_percent)
    return usual, max(usual, furthest)


def malt_wort_attenuation(convert_c: float, minutes_below_70_c: float, power_lintner: float) -> float:
    """Apparent attenuation of a wort of pale malt, with a usual yeast, %.

    Args:
        convert_c: rest temperatures weighted by the starch turned to sugar in each (MashResult.convert_c), °C.
        minutes_below_70_c: of all rests, as minutes_counted; held to 15-120. Their weight fades from 65 to 70 °C of
            convert_c, since the enzyme that makes use of time is soon gone there.
        power_lintner: grist average; below 60 each degree takes off points, see little_enzyme.

    Returns:
        Per cent, 0-90.

    Source: curve through three mashes [chandrasekhar]; ceiling after [munsche-1894], real 73.3 %; below the optimum of
    62.5 °C [hamilton-lewis-1974] starch comes late, and see late_starch;
    that and the factor for time are judgement.
    """
    curve = 90 / (1 + exp((min(convert_c, 200.0) - 76.8) / 4.8))
    curve *= 1 + 0.06 * time_counts(convert_c) * log(min(max(minutes_below_70_c, 15.0), 120.0) / 60)
    curve -= late_starch(convert_c, minutes_below_70_c)
    return max(0.0, min(90.0, curve) - little_enzyme(convert_c) * max(0.0, 60 - power_lintner))


def late_starch(convert_c: float, minutes_below_70_c: float) -> float:
    """Points of attenuation that a rest cooler than the optimum loses, since starch comes late in it.

    Source: optimum 62.5 °C [hamilton-lewis-1974]; a point for each °C down to 60, in an hour or less, judgement, so
    that a night loses next to none [munsche-1894].
    """
    return min(max(OPTIMUM_C - convert_c, 0.0), 2.5) * 60 / max(minutes_below_70_c, 60.0)


def little_enzyme(convert_c: float) -> float:
    """Points of attenuation for each °Lintner below 60: a quarter at 66 °C, more where heat ends beta-amylase sooner.

    Source: slope between none [amylase-joint-action] and [moritz-1891]; with heat after the 2.4 and 16.2 % that he had
    left at 22 °Lintner and 60 and 68.5 °C.
    """
    return 0.25 * min(max((convert_c - 60) / 6, 0.25), 1.4)


def time_counts(convert_c: float) -> float:
    """How much the length of the rests counts, 0-1: wholly up to 65 °C, not at all from 70 °C. Source: judgement."""
    return min(max((70 - convert_c) / 5, 0.0), 1.0)


def base_malt_share(malt_attenuation: float, yeast_attenuation: float = USUAL_YEAST) -> float:
    """Real degree to which base malt, malted or raw wheat, and flakes ferment, 0-1.

    Args:
        malt_attenuation: of malt_wort_attenuation, %.
        yeast_attenuation: apparent, middle of the yeast's range or what the recipe states, %.

    Source: the pull of the yeast as in yeast_pull.
    """
    return max(0.0, REAL_PER_APPARENT * malt_attenuation / 100 + _yeast_term(yeast_attenuation))


def kilned_malt_share(base_share: float) -> float:
    """Real degree of biscuit, aromatic, amber and brown malt, 0.08 below base malt. Source: judgement."""
    return max(0.0, base_share - 0.08)


def caramel_malt_share(lovibond: float) -> float:
    """Real degree of mashed caramel malt. Source: judgement, between [mash-or-steep-article] and base malt."""
    return max(0.33, 0.59 - 0.0021 * lovibond)


def malt_extract_share(yeast_attenuation: float = USUAL_YEAST, *, liquid: bool = False) -> float:
    """Real degree of malt extract; syrup, as in kits, leaves a little more, the longer it was stored.

    Source: dry 0.62, syrup 0.58, common practice; the pull of the yeast is judgement.
    """
    return max(0.0, (0.58 if liquid else 0.62) + _yeast_term(yeast_attenuation))


def wort_attenuation(parts: Iterable[tuple[float, float]], og_points: float) -> Range:
    """Apparent attenuation that a wort should reach, %.

    Args:
        parts: pairs of a share of all extract (any unit, together above 0) and the real degree to which it ferments.
        og_points: points of gravity; above 65 each takes off a tenth of a point.

    Returns:
        Typical and ±6; sugar can lift it above 100.

    Raises:
        ValueError: no extract.

    Source: mixing by mass of extract; the term for gravity and the band are judgement.
    """
    pairs = list(parts)
    total = sum(share for share, _ in pairs)
    if total <= 0:
        raise ValueError("no extract to ferment")
    real = sum(share * degree for share, degree in pairs) / total
    typical = max(0.0, 100 * real / REAL_PER_APPARENT - 0.1 * max(0.0, og_points - 65))
    return Range(max(0.0, typical - BAND), typical, typical + BAND)


def yeast_pull(yeast_attenuation: float) -> float:
    """By how many points of apparent attenuation a yeast ends above or below a usual one, in a wort of malt.

    Most strains part by the maltotriose that they leave, 10 to 14 points of such a wort at most; further down a yeast
    leaves maltose too, and what it is said to ferment is nearly all that it ferments.

    Args:
        yeast_attenuation: apparent, as it is stated of the strain, %; 0-100.

    Source: ends of the lines from memory (maltotriose 10-15 % of the extract; kinds without maltose 10-25 %), between
    them and above the usual yeast judgement.
    """
    for (low, at_low), (high, at_high) in pairwise(_PULL):
        if yeast_attenuation <= high:
            return at_low + (at_high - at_low) * (yeast_attenuation - low) / (high - low)
    return _PULL[-1][1]


# Attenuation of the strain and points of the wort; the three tenths above the usual yeast are judgement.
_PULL = ((0.0, -77.0), (25.0, -52.0), (60.0, -12.0), (USUAL_YEAST, 0.0), (100.0, 6.9))


def _yeast_term(yeast_attenuation: float) -> float:
    return REAL_PER_APPARENT * yeast_pull(yeast_attenuation) / 100
