"""The mash model against published trials, and against the same equations integrated by scipy.

Rows to which a parameter was fitted say so; they show that the fit is what it claims to be and nothing more. Where the
model does not meet what was published, a test named a known shortfall states what was published, by how much the model
misses it, and why that is lived with. The keys in brackets are those of the bibliography.
"""

from bisect import bisect_left
from itertools import pairwise
from math import exp
from statistics import NormalDist
from typing import Final

import numpy as np
import pytest
from scipy.integrate import solve_ivp

import mashwright
from mashwright.brewing.attenuation import base_malt_share, malt_wort_attenuation
from mashwright.brewing.mash import (
    FAVOURABLE,
    TRADE,
    TYPICAL,
    UNFAVOURABLE,
    Conditions,
    MashResult,
    Rest,
    Starch,
    gelatinised_share,
    mash,
    minutes_on_the_board,
)
from mashwright.brewing.mash_rates import converting_power, enzyme_loss_per_min, thickness_shift_c
from mashwright.finding import Level

BARLEY: Final = (Starch("barley", 1),)
LABORATORY: Final = Conditions(theta=30, shift_c=0, crush=1)
STANDARD_PROGRAMME: Final = (Rest(45, 30), Rest(45, 25, to_c=70), Rest(70, 60))
"""Austrian agreement on malt analysis [austrian-agreement-1891]: 45 °C 30 min, 1 °C a minute to 70 °C, 60 min there."""


@pytest.mark.parametrize(
    ("cereal", "temperature_c", "dissolved"),
    [
        ("barley", 50, 12.13),
        ("barley", 55, 53.30),
        ("barley", 60, 92.81),
        ("barley", 65, 96.24),
        ("barley", 50, 13.07),  # kilned malt
        ("barley", 55, 56.02),
        ("barley", 60, 91.70),
        ("barley", 65, 93.62),
        ("wheat", 55, 62.23),
        ("potato", 50, 0.13),
        ("potato", 55, 5.03),
        ("potato", 60, 52.68),
        ("rice", 50, 6.58),
        ("rice", 55, 9.68),
        ("rice", 65, 31.14),
        ("rye", 60, 93.7),
        ("oat", 55, 48.5),
        ("oat", 65, 93.4),
        ("maize", 60, 18.5),
        ("maize", 70, 93.3),
    ],
)
def test_starch_dissolved_in_four_hours(cereal: str, temperature_c: float, dissolved: float) -> None:
    """C. J. Lintner, Dingler's Polyt. J. 277 (1890) 138; rye, oats, maize P. Paccaud 1890, Dingler's 280 (1891) 21.

    Fitted, not a test of the model.
    """
    found = mash([Starch(cereal, 1)], [Rest(temperature_c, 240)], 100, LABORATORY).released
    assert found == pytest.approx(dissolved, abs=2.65)


@pytest.mark.parametrize(("temperature_c", "thin", "usual"), [(61.4, 87.7, 83.1), (63, 93.1, 91.2), (64.5, 96.2, 95.9)])
def test_ten_minutes_in_the_gelatinising_range(temperature_c: float, thin: float, usual: float) -> None:
    """M. Rittenauer et al., Foods 10 (2021) 1733 [rittenauer-2021]: all large granules gone in 10 min at 61.4-64.5 °C.

    They had 97.5 % of the sugar of 60 min at 65 °C. What the model releases comes within 10 points of that in their
    thin mash; in a usual one it falls short by 14 points at the lower end.
    """
    for shift_c, expected in ((0.0, thin), (2.0, usual)):
        conditions = Conditions(theta=30, shift_c=shift_c, crush=1)
        full = mash(BARLEY, [Rest(65, 60)], 100, conditions).released
        share = 100 * mash(BARLEY, [Rest(temperature_c, 10)], 100, conditions).released / full
        assert share == pytest.approx(expected, abs=0.1)
        assert share == pytest.approx(97.5, abs=10 if shift_c == 0 else 14.5)


@pytest.mark.parametrize(("temperature_c", "stated_thin"), [(61.4, 87.5), (63, 93.0), (64.5, 96.2)])
def test_ten_minutes_in_a_mash_that_is_stated_to_be_thin(temperature_c: float, stated_thin: float) -> None:
    """M. Rittenauer et al., Foods 10 (2021) 1733 [rittenauer-2021]: 97.5 %; at 6 l/kg the model is within 10 points."""
    conditions = Conditions(theta=30, shift_c=thickness_shift_c(6), crush=1)
    full = mash(BARLEY, [Rest(65, 60)], 100, conditions).released
    share = 100 * mash(BARLEY, [Rest(temperature_c, 10)], 100, conditions).released / full
    assert share == pytest.approx(stated_thin, abs=0.1)
    assert share == pytest.approx(97.5, abs=10)


@pytest.mark.parametrize(("temperature_c", "sugar"), [(61.4, 56.4), (63, 64.9), (64.5, 71.9)])
def test_sugar_after_ten_minutes_is_a_known_shortfall(temperature_c: float, sugar: float) -> None:
    """M. Rittenauer et al., Foods 10 (2021) 1733 [rittenauer-2021]: 97.5 % of the sugar in 10 min; the model has 56-72.

    Lived with: theta follows the times of a malt standard and of the brewhouse, where a mash takes 20 min and more to
    be iodine normal; with theirs no recipe would ever be told to rest longer.
    """
    full = mash(BARLEY, [Rest(65, 60)], 100, LABORATORY).converted
    share = 100 * mash(BARLEY, [Rest(temperature_c, 10)], 100, LABORATORY).converted / full
    assert share == pytest.approx(sugar, abs=0.1)
    assert share < 97.5 - 25


COOL: Final = "no rest reaches 60 °C: at"
SHORT: Final = "this mash needs about 51 min at 57.1 °C to convert, but its rests"


@pytest.mark.parametrize(
    ("temperature_c", "converted", "findings"),
    [
        (
            54.5,
            8.6,
            [f"error: saccharification-rest: {COOL} 54.5 °C only about 9.7 % of the starch turns to sugar"],
        ),
        (
            57.1,
            22.2,
            [
                f"warning: saccharification-rest: {COOL} 57.1 °C only about 25 % of the starch turns to sugar",
                f"warning: conversion-time: {SHORT} give 15 min and the run-off about 15 min",
            ],
        ),
    ],
)
def test_little_happens_below_the_gelatinising_range(
    temperature_c: float, converted: float, findings: list[str]
) -> None:
    """M. Rittenauer et al., Foods 10 (2021) 1733: at 54.5-57.1 °C granules and viscosity hardly change.

    So a recipe that rests there must be told. The model itself still converts a fifth at the upper end of that.
    """
    assert mash(BARLEY, [Rest(temperature_c, 15)], 100, TYPICAL).converted == pytest.approx(converted, abs=0.1)
    text = (
        "recipe: Cool Lane\nbatch: 20 l\ngrist: [{grain: two-row pale malt, weight: 4.5 kg}]\n"
        f"mash: {{rests: [{{at: {temperature_c} °C, for: 15 min}}]}}\n"
    )
    results = mashwright.review_text(text).recipes[0].results
    told = [f"{one.level.word}: {one.rule}: {one.message}" for one in results if one.level > Level.NOTE]
    assert told == findings


@pytest.mark.parametrize(
    ("cereal", "power_lintner", "minutes", "printed"),
    [
        ("barley", 62, 11.2, (10, 15)),  # Pilsner malt, at least 200 °WK
        ("barley", 76, 7.9, (7.9, 15)),  # Pilsner malt, 250 °WK: quicker than the 10 min of the standard
        ("barley", 40, 18, (15, 25)),  # Munich malt of today
        ("barley", 27, 25, (15, 25)),  # Munich malt, at least 80 °WK
        ("barley", 20, 34, (25, 35)),  # melanoidin malt, at most 25-35 min; its power from memory
        ("wheat", 160, 2.9, (0, 15)),
    ],
)
def test_minutes_to_iodine_normal(
    cereal: str, power_lintner: float, minutes: float, printed: tuple[float, float]
) -> None:
    """TGL 17756 (1966), malt standard, counted from 70 °C. Theta and the exponent were fitted to these times.

    With power by itself Munich malt of 27 °Lintner took 43 min.
    """
    counts = converting_power(power_lintner)
    result = mash([Starch(cereal, 1)], STANDARD_PROGRAMME, counts, LABORATORY)
    assert result.minutes_needed is not None
    assert result.minutes_needed - 55 == pytest.approx(minutes, abs=1)
    assert printed[0] - 1 <= result.minutes_needed - 55 <= printed[1]


def test_dark_malt_takes_twice_as_long_as_pale() -> None:
    """J. Heron with C. J. Lintner's remarks, Dingler's Polyt. J. 281 (1891) 190 [heron-1891]: 30 against 15 min."""
    dark = mash(BARLEY, STANDARD_PROGRAMME, converting_power(27), LABORATORY).minutes_needed
    pale = mash(BARLEY, STANDARD_PROGRAMME, 62, LABORATORY).minutes_needed
    assert dark is not None
    assert pale is not None
    assert (dark - 55) / (pale - 55) == pytest.approx(2.0, abs=0.7)


def test_alpha_amylase_outlives_an_hour_at_65_c() -> None:
    """R. Muller, J. Inst. Brew. 1991, as quoted: more than half is left; the model has 76 %."""
    left = mash(BARLEY, [Rest(65, 60)], 100).rests[0].enzyme_left
    assert left == pytest.approx(0.76, abs=0.005)
    assert left > 0.5


def test_loss_at_73_c() -> None:
    """J. Kjeldahl, Dingler's Polyt. J. 235 (1880): activity falls to 0.77 from 6 to 15 min. Fitted, not a test."""
    assert exp(-enzyme_loss_per_min(73) * 9) == pytest.approx(0.77, abs=0.005)


@pytest.mark.parametrize(("minutes", "measured", "modelled"), [(10, 50, 60.7), (30, 17, 22.3), (60, 8, 5.0)])
def test_beta_amylase_at_65_c(minutes: float, measured: float, modelled: float) -> None:
    """R. Muller, J. Inst. Brew. 1991, as quoted [muller-1991]: 50, 17 and 8 % of beta-amylase left; within 11 points.

    The rate lies between his and that of malt extract: partly fitted.
    """
    left = 100 * mash(BARLEY, [Rest(65, minutes)], 100).rests[0].beta_left
    assert left == pytest.approx(modelled, abs=0.1)
    assert left == pytest.approx(measured, abs=11)


def test_malt_extract_at_65_c() -> None:
    """J. Kjeldahl, Dingler's Polyt. J. 235 (1880) [kjeldahl-1880]: from 6 to 18 min activity to 0.61; here 0.55."""
    kept = mash(BARLEY, [Rest(65, 12)], 100).rests[0].beta_left
    assert kept == pytest.approx(0.549, abs=0.001)
    assert kept == pytest.approx(0.61, abs=0.07)


def test_malt_extract_at_55_c_loses_nearly_nothing() -> None:
    """J. Kjeldahl, the same: no loss seen in 15 min at 55 °C; the model has 3 %."""
    assert mash(BARLEY, [Rest(55, 15)], 100).rests[0].beta_left > 0.97


@pytest.mark.parametrize(("minutes", "measured", "modelled"), [(20, 50, 96.2), (60, 25, 89.0)])
def test_diastase_in_water_at_55_c_is_a_known_shortfall(minutes: float, measured: float, modelled: float) -> None:
    """C. J. Lintner, Dingler's Polyt. J. 268 (1888) 132-135 [lintner-1888]: 50 and 25 % left; the model 96 and 89.

    That was precipitated diastase in plain water; with 3.3 % of starch paste he had 44-50 % after the hour, and another
    trial 85-93 % of beta-amylase after two hours at 63 °C in strong sugar [maltose-effects-2016]. Lived with: a mash is
    full of both, and brewers rest at 50-55 °C and still convert.
    """
    left = 100 * mash(BARLEY, [Rest(55, minutes)], 100).rests[0].beta_left
    assert left == pytest.approx(modelled, abs=0.1)
    assert left - measured > 45


PASTE: Final = [Starch("potato", 1, cooked=True)]


@pytest.mark.parametrize(("power_lintner", "at_64", "at_70"), [(13.5, 1.25, 1.77), (40, 1.18, 1.48), (100, 1.08, 1.18)])
def test_sugar_by_temperature_is_a_known_shortfall(power_lintner: float, at_64: float, at_70: float) -> None:
    """J. Kjeldahl, Dingler's Polyt. J. 235 (1880) [kjeldahl-1880]: sugar in 15 min relative to 60 °C, 0.95 and 0.43.

    The model has the more the hotter. Lived with: it follows starch until it is iodine normal, which is quicker in the
    heat (W. Schultze 1878), and he weighed sugar; that less of it ferments is told by the attenuation curve alone.
    """
    cool = mash(PASTE, [Rest(60, 15)], power_lintner, LABORATORY).converted
    for temperature_c, modelled, measured in ((64, at_64, 0.95), (70, at_70, 0.43)):
        found = mash(PASTE, [Rest(temperature_c, 15)], power_lintner, LABORATORY).converted / cool
        assert found == pytest.approx(modelled, abs=0.006)
        assert found - measured > 0.1
    assert malt_wort_attenuation(70, 15, 100) / malt_wort_attenuation(60, 15, 100) == pytest.approx(0.93, abs=0.01)


def test_sugar_by_time_is_a_known_shortfall() -> None:
    """J. Kjeldahl, Dingler's Polyt. J. 235 (1880) [kjeldahl-1880]: 3 ml of extract at 56 °C, steps 1.53, 1.86, 1.22.

    From 5 to 10, to 20 and to 60 min; the model has 2.48, 1.94 and 1.69, and only the middle one is within 0.2. It
    starts later, since flakes take a few minutes to soften in it and his paste was ready, and it ends later, since his
    sugar stops at about two thirds and the model goes on to iodine normal. Lived with: minutes matter here to a quarter
    of an hour.
    """
    sugar = [mash(PASTE, [Rest(56, minutes)], 3 * 13.5, LABORATORY).converted for minutes in (5, 10, 20, 60)]
    steps = [later / sooner for sooner, later in pairwise(sugar)]
    assert steps == pytest.approx([2.48, 1.94, 1.69], abs=0.01)
    assert steps[0] - 1.53 > 0.2
    assert steps[1] == pytest.approx(1.86, abs=0.2)
    assert steps[2] - 1.22 > 0.2


def test_sugar_in_proportion_to_enzyme() -> None:
    """J. Kjeldahl, Dingler's Polyt. J. 235 (1880): 1 and 3 ml of malt extract, 10 min on paste at 56 °C, 1 to 3.1.

    With 1 ml a tenth of the final sugar was formed. The model, whose pace falls with what is left to convert, has
    1 to 2.6 there: a known shortfall. It is in proportion only at the very beginning.
    """
    tenth, beginning = (
        mash(PASTE, [Rest(56, 10)], 3 * power, LABORATORY).converted
        / mash(PASTE, [Rest(56, 10)], power, LABORATORY).converted
        for power in (13.5, 2)
    )
    assert mash(PASTE, [Rest(56, 10)], 13.5, LABORATORY).converted == pytest.approx(10, abs=0.5)
    assert tenth == pytest.approx(2.65, abs=0.05)
    assert beginning == pytest.approx(3.1, abs=0.3)


@pytest.mark.parametrize(("conditions", "cool", "hot"), [(LABORATORY, 92.9, 92.4), (TYPICAL, 84.7, 90.7)])
def test_extract_of_long_cool_mashes_is_a_known_shortfall(conditions: Conditions, cool: float, hot: float) -> None:
    """W. Schultze 1878, Dingler's Polyt. J. 231 (1879) [schultze-1878]: malt A, extract 80.1 at 60 °C, 76.1 at 72.5.

    Each rested until iodine normal, 18.5 h and 20 min. With the usual delay of a thick mash the hot one gives more in
    the model, and in a thin one less by half a point; before what follows slowly was counted, it was two points more.
    Lived with: the loss in the heat has been put down to protein that coagulates, in another trial [koji-1878].
    """
    found = [mash(BARLEY, [rest], 62, conditions).converted for rest in (Rest(60, 18.5 * 60), Rest(72.5, 20))]
    assert found == pytest.approx([cool, hot], abs=0.1)
    assert (found[0] > found[1]) is (conditions is LABORATORY)


MALTOSE: Final = [  # °C, minutes, maltose % of extract of malts A and C, the model's real degree of fermentation
    (60, 18.5 * 60, 77.3, 75.8, 73.7),
    (63, 11.5 * 60, 72.5, 71.6, 72.7),
    (65, 5.5 * 60, 67.5, 66.4, 70.7),
    (72.5, 20, 57.9, 56.7, 52.3),
]


@pytest.mark.parametrize(("temperature_c", "minutes", "malt_a", "malt_c", "degree"), MALTOSE)
def test_maltose_is_outside_the_model_a_known_shortfall(
    temperature_c: float, minutes: float, malt_a: float, malt_c: float, degree: float
) -> None:
    """W. Schultze 1878, Dingler's Polyt. J. 231 (1879) [schultze-1878]: maltose in the extract of malts A and C, %.

    The model does not tell maltose from other sugars. The nearest that it has, what ferments, falls with temperature
    as his maltose does and lies within 6 points of it, below at both ends and above between: near enough for a band of
    ±6, and not the 2 points that a figure of maltose would have to keep. Lived with: no rule asks for maltose.
    """
    found = 100 * base_malt_share(malt_wort_attenuation(temperature_c, minutes, 100))
    assert found == pytest.approx(degree, abs=0.1)
    assert found == pytest.approx(malt_a, abs=6)
    assert found == pytest.approx(malt_c, abs=6)


def test_the_order_of_maltose_is_right() -> None:
    """W. Schultze 1878 [schultze-1878]: the hotter, the less; a line through his malts is 169.7 - 1.563 °C."""
    degrees = [base_malt_share(malt_wort_attenuation(row[0], row[1], 100)) for row in MALTOSE]
    assert degrees == sorted(degrees, reverse=True)
    for temperature_c, _, malt_a, *_ in MALTOSE:
        assert 169.7 - 1.563 * temperature_c == pytest.approx(malt_a, abs=2)


@pytest.mark.parametrize("power_lintner", [40, 60, 100])
def test_recovery_after_an_hour(power_lintner: float) -> None:
    """G. Harris, I. MacWilliam, J. Inst. Brew. 1961 [harris-macwilliam-1961]: above 95 % at 65.5 °C.

    Below that in a thick mash at 62.7 °C.
    """
    warm = mash(BARLEY, [Rest(65.5, 60)], power_lintner, TYPICAL).converted
    thick = mash(BARLEY, [Rest(62.7, 60)], power_lintner, UNFAVOURABLE).converted
    assert 96.9 < 100 * warm / 96.2 <= 100
    assert 100 * thick / 96.2 < 95


def test_hotter_is_quicker_to_iodine_normal() -> None:
    """W. Schultze 1878, Dingler's Polyt. J. 231 (1879): 20 min at 70 °C, 5.5, 11.5, 18.5 h at 65, 63, 60 °C.

    The order only: malt of that time, coarse and unstirred, took hours where ours takes minutes.
    """
    minutes = [minutes_on_the_board(at_c, 62, TRADE) for at_c in (70, 65, 63, 60)]
    assert minutes == sorted(minutes, key=lambda found: found or 0)
    assert len(set(minutes)) == 4


def test_strong_wort_gelatinises_later() -> None:
    """N. De Schepper, C. Courtin, Food Hydrocolloids 2022: 1 °C for 2.5 g of extract; from 12 to 22 g it is 4 °C."""
    assert pytest.approx((22 - 12) / 2.5, abs=0.5) == UNFAVOURABLE.shift_c
    assert TYPICAL.shift_c == UNFAVOURABLE.shift_c / 2
    half = thickness_shift_c(2.5) - thickness_shift_c(6)  # 25 and 12 g
    assert 2 * half == pytest.approx((25 - 12) / 2.5, abs=0.5)


@pytest.mark.parametrize(("cereal", "cooks"), [("maize", True), ("rice", True), ("wheat", False), ("rye", False)])
def test_which_grain_wants_cooking(cereal: str, cooks: bool) -> None:
    """Institute of Brewing, as quoted, and T. Goldammer, The Brewers' Handbook: raw maize and rice are cooked first."""
    assert (gelatinised_share(cereal, 66, TYPICAL.shift_c) < 0.9) is cooks
    assert mash([Starch(cereal, 1, cooked=True)], [Rest(66, 60)], 60).released > 95


def integrated(
    starches: tuple[Starch, ...], rests: tuple[Rest, ...], power_lintner: float, conditions: Conditions
) -> tuple[float, float, float]:
    """Released, converted (% of all starch) and enzyme left, by scipy: the equations written out a second time."""
    gelatinisation = {"barley": (54.4, 3.66), "wheat": (53.7, 3.66), "maize": (63.3, 3.66), "rice": (71.7, 14.5)}
    weights = np.array([starch.amount for starch in starches]) / sum(starch.amount for starch in starches)
    state = np.zeros(len(starches) * 3 + 1)  # released at once, turned to sugar, released slowly
    state[-1] = 1
    count = len(starches)
    for rest in rests:
        end_c = rest.at_c if rest.to_c is None else rest.to_c

        def slope(minute: float, now: np.ndarray, rest: Rest = rest, end_c: float = end_c) -> np.ndarray:
            t = rest.at_c + (end_c - rest.at_c) * minute / rest.minutes
            change = np.zeros_like(now)
            pace = 3 / conditions.theta * power_lintner / 40 * 2 ** ((min(t, 75) - 67) / 10)
            for i, starch in enumerate(starches):
                mean, spread = gelatinisation[starch.cereal]
                ceiling = 0.97 if starch.cooked else 0.962 * NormalDist(mean, spread).cdf(t - conditions.shift_c)
                k = 0.35 * conditions.crush * 2 ** ((max(t, 65) if starch.cooked else t) / 6 - 65 / 6)
                most = 0.97 if starch.cooked else 0.962
                slow = 0 if starch.cooked else 0.005 / 60 * 2 ** ((t - conditions.shift_c - mean) / 2)
                at_once, slowly = now[i], now[2 * count + i]
                change[i] = k * max(0.0, min(ceiling, most - slowly) - at_once)
                change[2 * count + i] = slow * max(0.0, most - slowly - max(ceiling, at_once))
                change[count + i] = pace * now[-1] * (at_once + slowly - now[count + i])
            change[-1] = -0.029 * exp(-26967 * (1 / (t + 273.15) - 1 / 346.15)) * now[-1]
            return change

        state = solve_ivp(slope, (0, rest.minutes), state, rtol=1e-8, atol=1e-10, max_step=0.5).y[:, -1]
    released = state[:count] + state[2 * count : -1]
    return 100 * float(weights @ released), 100 * float(weights @ state[count : 2 * count]), float(state[-1])


@pytest.mark.parametrize(
    ("starches", "rests", "power_lintner", "conditions"),
    [
        (BARLEY, (Rest(68, 60),), 40, TYPICAL),
        ((Starch("barley", 50), Starch("rice", 50, cooked=True)), (Rest(66, 60),), 15, UNFAVOURABLE),
        (
            (Starch("barley", 5), Starch("wheat", 3), Starch("maize", 2), Starch("maize", 1, cooked=True)),
            (Rest(52, 20), Rest(63, 30), Rest(72, 20.5), Rest(66, 10), Rest(78, 5)),
            45,
            TYPICAL,
        ),
        (BARLEY, (Rest(60, 15), Rest(60, 12, to_c=72), Rest(72, 30, to_c=69)), 60, TRADE),
    ],
)
def test_same_equations_by_scipy(
    starches: tuple[Starch, ...], rests: tuple[Rest, ...], power_lintner: float, conditions: Conditions
) -> None:
    """scipy.integrate.solve_ivp: the steps of a minute cost less than 0.1 point."""
    result = mash(starches, rests, power_lintner, conditions)
    released, converted, enzyme = integrated(starches, rests, power_lintner, conditions)
    assert result.released == pytest.approx(released, abs=0.1)
    assert result.converted == pytest.approx(converted, abs=0.1)
    assert result.rests[-1].enzyme_left == pytest.approx(enzyme, abs=0.001)


def each(
    starches: tuple[Starch, ...], rest: Rest, powers: tuple[float, float, float]
) -> list[tuple[float, float | None]]:
    """Converted and minutes needed: favourable, typical, by the trade's rule, all unfavourable."""
    low, typical, high = powers
    results: list[MashResult] = [
        mash(starches, [rest], high, FAVOURABLE),
        mash(starches, [rest], typical, TYPICAL),
        mash(starches, [rest], typical, TRADE),
        mash(starches, [rest], low, UNFAVOURABLE),
    ]
    return [(result.converted, result.minutes_needed) for result in results]


@pytest.mark.parametrize(
    ("starches", "rest", "powers", "expected"),
    [
        (BARLEY, Rest(67, 60), (100, 125, 160), [(96, 10), (96, 19), (96, 24), (95, 39)]),
        (BARLEY, Rest(68, 60), (27, 40, 70), [(96, 14), (95, 39), (91, 60), (80, 116)]),
        (BARLEY, Rest(68, 75), (27, 40, 70), [(96, 14), (96, 39), (93, 60), (85, 116)]),
        (
            (Starch("barley", 60), Starch("maize", 40, cooked=True)),
            Rest(66, 60),
            (60, 75, 96),
            [(96, 14), (96, 27), (96, 36), (92, 56)],
        ),
        (
            (Starch("barley", 50), Starch("rice", 50, cooked=True)),
            Rest(66, 60),
            (7.5, 15, 20),
            [(93, 53), (77, 129), (63, 256), (37, None)],
        ),
    ],
)
def test_common_grists(
    starches: tuple[Starch, ...],
    rest: Rest,
    powers: tuple[float, float, float],
    expected: list[tuple[float, float | None]],
) -> None:
    """Computed from the same equations by another hand, printed whole: a regression, no evidence about beer.

    The model counts whole minutes up, so it may be one later. The weakest mash was printed 37 and comes to 36.1.
    """
    for (converted, needed), (percent, minutes) in zip(each(starches, rest, powers), expected, strict=True):
        assert converted == pytest.approx(percent, abs=0.95 if minutes is None else 0.65)
        if minutes is None:
            assert needed is None
        else:
            assert needed is not None
            assert 0 <= needed - minutes <= 1


@pytest.mark.parametrize(
    ("minutes", "conditions", "floor_lintner"),
    [
        (60, FAVOURABLE, 17.5),
        (60, TYPICAL, 28),
        (60, TRADE, 42),
        (90, FAVOURABLE, 13),
        (90, TYPICAL, 20),
        (90, TRADE, 30),
    ],
)
def test_power_that_a_rest_asks_for(minutes: float, conditions: Conditions, floor_lintner: float) -> None:
    """A grist converts itself from 30-40 °Lintner at an ordinary rest (common practice): what the model makes of it."""

    def done(tenths: int) -> bool:
        needed = mash(BARLEY, [Rest(66.5, minutes)], tenths / 10, conditions).minutes_needed
        return needed is not None and needed <= minutes

    assert bisect_left(range(2000), True, key=done) / 10 == pytest.approx(floor_lintner, rel=0.03)


@pytest.mark.parametrize("power_lintner", [30, 40, 75, 125])
@pytest.mark.parametrize("temperature_c", [66, 67, 68])
def test_the_sum_on_the_board(power_lintner: float, temperature_c: float) -> None:
    """Own check: the sum that fits on a board is within 10 min of the model for 30-125 °Lintner."""
    needed = mash(BARLEY, [Rest(temperature_c, 60)], power_lintner, TYPICAL).minutes_needed
    assert minutes_on_the_board(temperature_c, power_lintner, TYPICAL) == pytest.approx(needed, abs=10)


def test_the_sum_on_the_board_is_short_for_weak_malt() -> None:
    """Own check: it leaves out that enzymes fade; at 20 °Lintner that is a quarter of an hour."""
    needed = mash(BARLEY, [Rest(67, 60)], 20, TYPICAL).minutes_needed
    on_the_board = minutes_on_the_board(67, 20, TYPICAL)
    assert needed is not None
    assert on_the_board is not None
    assert 10 < needed - on_the_board < 20


@pytest.mark.parametrize(("temperature_c", "all_starch", "of_maize"), [(66, 70.7, 55.7), (67, 77.0, 65.6)])
def test_raw_maize_is_only_half_lost(temperature_c: float, all_starch: float, of_maize: float) -> None:
    """Own calculation, and scipy's: 5 kg raw maize to 3 kg malt, uncooked, an hour at 66 or 67 °C.

    A note on these equations prints 71 % of all starch for 67 °C. They give that at 66 °C, and 77 % at 67.
    """
    starches = (Starch("maize", 5), Starch("barley", 3))
    result = mash(starches, [Rest(temperature_c, 60)], 47)
    assert result.released == pytest.approx(all_starch, abs=0.1)
    assert result.by_starch[0] == pytest.approx(of_maize, abs=0.1)
    assert integrated(starches, (Rest(temperature_c, 60),), 47, TYPICAL)[0] == pytest.approx(all_starch, abs=0.1)


def test_two_row_at_54_c() -> None:
    """Own calculation: an hour at 54 °C releases 23.5 % of two-row malt's starch."""
    assert mash(BARLEY, [Rest(54, 60)], 125).released == pytest.approx(23.5, abs=0.5)
