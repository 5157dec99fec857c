"""Bitterness: how much of the alpha acids of hops ends up in the beer, by published models."""

from itertools import pairwise
from math import exp, log

from mashwright.measures.constants import ICE_K
from mashwright.measures.range import Range

BREAKPOINT_SG = 1.050  # above it Rager's table takes off for gravity; the article printed .050 [rager-1990]
TABLE_SG = (1.030, 1.130)  # what the table of [tinseth-1997] covers
TABLE_MIN = (0.0, 120.0)

# Upper end of each class of boil minutes, and the share of the alpha acids that is used, %. The last two rows are
# [from-memory], the rest [rager-1990].
RAGER = (
    (5, 5.0),
    (10, 6.0),
    (15, 8.0),
    (20, 10.1),
    (25, 12.1),
    (30, 15.3),
    (35, 18.8),
    (40, 22.8),
    (45, 26.9),
    (50, 28.1),
    (60, 30.0),
)
_FULL_MONTHS = 6.0  # storage losses are stated for so long
_STORED_C = 20.0  # and for this temperature
_BOIL_C = 100.0  # of water at the sea, by definition
_HALF_C = 63.0  # wort in which hops bitter half as much as at the boil [sub-boiling-hops]
_COOLED_C, _AROUND_C = 25.0, 15.0  # wort that is cool, and what cools it; judgement
_COLD_C = 20.0  # wort in which they hardly do, judgement
_MOST_TRIED_G_PER_L = 16.0  # of dry hops [parkin-2017]
_GAIN_TO_IBU, _LOSS_FROM_IBU = 30.0, 50.0  # beers that dry hops make more bitter, and those they do not [maye-2016]
_GAINED_PER_G, _LOST_PER_G = 1.5, 0.5  # IBU by 1 g/l at the most [maye-2016]; the loss judgement
_HALVED_PER_C = 15.0  # losses halve with each so many degrees colder; from memory


def utilisation(gravity_sg: float, minutes: float) -> float:
    """Share of the alpha acids that bitters the beer, 0-0.4.

    Args:
        gravity_sg: of the boiling wort, 1.000-1.200; measured for 1.030-1.130.
        minutes: boil, at least 0; measured to 120.

    Raises:
        ValueError: an argument lies outside.

    Source: [tinseth-1997]: 1.65 × 0.000125^(SG - 1) × (1 - e^(-0.04 t)) ÷ 4.15. It knows neither the form of the hops
    nor the kettle nor the altitude.
    """
    _check(gravity_sg, minutes)
    bigness = 1.65 * float(0.000125 ** (gravity_sg - 1))
    return bigness * (1 - exp(-0.04 * minutes)) / 4.15


def rager_utilisation(gravity_sg: float, minutes: float) -> float:
    """Share of the alpha acids that bitters the beer by the older, more generous table, 0.05-0.30.

    Args:
        gravity_sg: of the boiling wort, 1.000-1.200.
        minutes: boil, at least 0; beyond an hour the table goes no higher.

    Raises:
        ValueError: an argument lies outside.

    Source: [rager-1990], with 1.050 where the article printed .050; classes above 45 min [from-memory].
    """
    _check(gravity_sg, minutes)
    percent = next((share for most, share in RAGER if minutes <= most), RAGER[-1][1])
    return percent / 100 / (1 + rager_adjustment(gravity_sg))


def rager_adjustment(gravity_sg: float) -> float:
    """How much more hops a wort above 1.050 takes, as a share. Source: [rager-1990]."""
    return max(0.0, (gravity_sg - BREAKPOINT_SG) / 0.2)


def ibu(used: float, alpha_kg: float, volume_l: float) -> float:
    """Bitterness, mg of iso-alpha acid to a litre of beer.

    Args:
        used: share of the alpha acids that is used, 0-1.
        alpha_kg: weight of the alpha acids.
        volume_l: beer, above 0.

    Raises:
        ValueError: volume_l is not above 0.

    Source: by definition.
    """
    if volume_l <= 0:
        raise ValueError(f"volume_l must be above 0, not {volume_l}")
    return used * alpha_kg * 1e6 / volume_l


def formed_per_min(temperature_c: float) -> float:
    """Rate at which alpha acids turn into bitter iso-alpha acids, per minute.

    Measured at 90-130 °C and pH 5.2; below that it is extrapolated. Source: [malowicki-2005].
    """
    return 7.9e11 * exp(-11858 / (temperature_c + ICE_K))


def lost_per_min(temperature_c: float) -> float:
    """Rate at which iso-alpha acids break down, per minute. Source: [malowicki-2005]."""
    return 4.1e12 * exp(-12994 / (temperature_c + ICE_K))


def isomerised(temperature_c: float, minutes: float) -> tuple[float, float]:
    """Iso-alpha acids formed and alpha acids left, as shares of the alpha acids at the beginning.

    This is the chemistry only; trub, yeast and foam take so much that beer holds 20-30 % after an hour's boil.

    Source: [malowicki-2005], two first-order steps.
    """
    forming, losing = formed_per_min(temperature_c), lost_per_min(temperature_c)
    left = exp(-forming * minutes)
    return forming / (losing - forming) * (left - exp(-losing * minutes)), left


def boil_minutes(start_c: float, end_c: float, minutes: float) -> float:
    """Minutes of boil at 100 °C that form as much as hot wort going evenly from one temperature to another.

    Args:
        start_c, end_c: 0-110 °C, the same where the temperature is held.
        minutes: at least 0.

    Raises:
        ValueError: minutes is below 0.

    Source: [malowicki-2005]: the rate integrated over the time, by Simpson's rule.
    """
    if minutes < 0:
        raise ValueError(f"minutes must not be below 0, not {minutes}")
    if start_c == end_c:
        return minutes * formed_per_min(start_c) / formed_per_min(100)
    steps = 16
    rates = [formed_per_min(start_c + (end_c - start_c) * step / steps) for step in range(steps + 1)]
    weighed = rates[0] + rates[-1] + 4 * sum(rates[1:-1:2]) + 2 * sum(rates[2:-1:2])
    return minutes * weighed / (3 * steps) / formed_per_min(100)


def cooling_minutes(start_c: float, minutes: float) -> float:
    """Minutes of boil at 100 °C that form as much as wort that is left to cool from a temperature to 25 °C.

    Args:
        start_c: at which it begins, up to 110 °C; at 25 °C or below nothing forms.
        minutes: in which it comes to 25 °C, at least 0.

    Raises:
        ValueError: minutes is below 0.

    Source: [malowicki-2005] along Newton's law of cooling; surroundings of 15 °C are judgement.
    """
    if minutes < 0:
        raise ValueError(f"minutes must not be below 0, not {minutes}")
    if start_c <= _COOLED_C or minutes == 0:
        return 0.0
    rate = log((start_c - _AROUND_C) / (_COOLED_C - _AROUND_C))
    steps = 64
    heat = [_AROUND_C + (start_c - _AROUND_C) * exp(-rate * step / steps) for step in range(steps + 1)]
    return sum(boil_minutes(one, other, minutes / steps) for one, other in pairwise(heat))


def boiled_share(boil_c: float, minutes: float) -> float:
    """Iso-alpha acids that a cooler boil forms, as a share of those that one of 100 °C forms in the same time.

    A long boil loses less than a short one, since much of the alpha acids is turned by then. From the time on at which
    a boil of 100 °C holds the most, it stays what it is: what boiling breaks down later no table of use counts.

    Args:
        boil_c: boiling point at the brewhouse, 80-105 °C.
        minutes: at least 0.

    Raises:
        ValueError: minutes is below 0.

    Source: [malowicki-2005], as in isomerised.
    """
    if minutes < 0:
        raise ValueError(f"minutes must not be below 0, not {minutes}")
    if minutes == 0:
        return formed_per_min(boil_c) / formed_per_min(_BOIL_C)
    forming, losing = formed_per_min(_BOIL_C), lost_per_min(_BOIL_C)
    minutes = min(minutes, log(forming / losing) / (forming - losing))
    return isomerised(boil_c, minutes)[0] / isomerised(_BOIL_C, minutes)[0]


def sub_boiling_share(at_c: float) -> float:
    """Iso-alpha acids formed below the boil, as a share of those at the boil whatever the time.

    Args:
        at_c: 60-100 °C.

    Source: [sub-boiling-hops], fitted to a home brewer's measurements.
    """
    return 2.39e11 * exp(-9773 / (at_c + ICE_K))


def measured_share(at_c: float) -> float:
    """The most that hops below the boil bitter, as a share of what they do at the boil, 0-1.

    A laboratory's bitterness counts what else comes out of hops, so it falls less than the iso-alpha acids do.

    Args:
        at_c: of the wort.

    Source: half at 63 °C [sub-boiling-hops]; straight lines from there to the boil and to cold wort, [judgement].
    """
    if at_c >= _HALF_C:
        return min(1.0, 0.5 + 0.5 * (at_c - _HALF_C) / (_BOIL_C - _HALF_C))
    return max(0.0, 0.5 * (at_c - _COLD_C) / (_HALF_C - _COLD_C))


def dry_hops_read(g_per_l: float, bitter_ibu: float) -> Range:
    """What dry hops may add to the bitterness that a laboratory reads, IBU; below 0 where they take some away.

    Args:
        g_per_l: dry hops to a litre, at least 0; the trials went to 16.
        bitter_ibu: of the beer before.

    Source: 0.5-1.5 IBU for each g/l below 30 IBU by their humulinones [maye-2016], to 16 g/l [parkin-2017]; none or
    less above 50 IBU [maye-2016], by up to half an IBU for each g/l and evenly between the two, [judgement]. No
    recipe's formula counts them, so the middle is nothing.
    """
    dose = min(g_per_l, _MOST_TRIED_G_PER_L)
    bitter = min(1.0, max(0.0, (bitter_ibu - _GAIN_TO_IBU) / (_LOSS_FROM_IBU - _GAIN_TO_IBU)))
    return Range(0.0 - _LOST_PER_G * dose * bitter, 0.0, _GAINED_PER_G * dose * (1 - bitter))


def alpha_kept(loss_percent: float, months: float, stored_c: float = _STORED_C) -> float:
    """Share of the alpha acids that hops still have, 0-1.

    Args:
        loss_percent: lost in six months at 20 °C as baled cones, 0-99.
        months: age, at least 0.
        stored_c: cold store or room.

    Raises:
        ValueError: an argument lies outside.

    Source: a first-order loss; half as fast for each 15 °C colder, [from-memory].
    """
    if not 0 <= loss_percent < 100 or months < 0:
        raise ValueError(f"no loss of hops: {loss_percent} % in six months, {months} months old")
    slower = 2 ** ((stored_c - _STORED_C) / _HALVED_PER_C)
    return float((1 - loss_percent / 100) ** (months / _FULL_MONTHS * slower))


def _check(gravity_sg: float, minutes: float) -> None:
    if not 0.99 <= gravity_sg <= 1.2 or minutes < 0:
        raise ValueError(f"no wort and boil: {gravity_sg} SG, {minutes} min")
