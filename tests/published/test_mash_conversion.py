"""The mash model against published trials, and against the same equations integrated by scipy.

Rows to which a parameter was fitted say so; they show that the fit is what it claims to be and nothing more.
"""

from bisect import bisect_left
from math import exp
from statistics import NormalDist
from typing import Final

import numpy as np
import pytest
from scipy.integrate import solve_ivp

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
from mashwright.brewing.mash_rates import enzyme_loss_per_min

BARLEY: Final = (Starch("barley", 1),)
LABORATORY: Final = Conditions(theta=30, shift_c=0, crush=1)
STANDARD_PROGRAMME: Final = (Rest(45, 30), Rest(45, 25, to_c=70), Rest(70, 60))
"""Austrian agreement of 1891 on malt analysis: 45 °C 30 min, 1 °C a minute to 70 °C, 60 min there."""


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
    assert found == pytest.approx(dissolved, abs=2.6)


@pytest.mark.parametrize(("temperature_c", "thin", "usual"), [(61.4, 87.9, 83.4), (63, 93.1, 91.4), (64.5, 96.2, 96.0)])
def test_ten_minutes_in_the_gelatinising_range(temperature_c: float, thin: float, usual: float) -> None:
    """M. Rittenauer et al., Foods 10 (2021) 1733: 10 min at 61.4-64.5 °C give 97.5 % of 60 min at 65 °C.

    The model falls short by up to 9.6 points at the lower end, more in a thick mash.
    """
    for shift_c, expected in ((0.0, thin), (2.0, usual)):
        conditions = Conditions(theta=30, shift_c=shift_c, crush=1)
        full = mash(BARLEY, [Rest(65, 60)], 100, conditions).released
        share = 100 * mash(BARLEY, [Rest(temperature_c, 10)], 100, conditions).released / full
        assert share == pytest.approx(expected, abs=0.1)
    assert thin == pytest.approx(97.5, abs=10)


@pytest.mark.parametrize("temperature_c", [54.5, 57.1])
def test_little_happens_below_the_gelatinising_range(temperature_c: float) -> None:
    """M. Rittenauer et al., Foods 10 (2021) 1733: at 54.5-57.1 °C granules and viscosity hardly change."""
    result = mash(BARLEY, [Rest(temperature_c, 15)], 100, TYPICAL)
    assert result.converted < 35


@pytest.mark.parametrize(
    ("cereal", "power_lintner", "minutes", "printed"),
    [
        ("barley", 62, 11.2, (10, 15)),  # Pilsner malt, at least 200 °WK
        ("barley", 76, 7.9, (7.9, 15)),  # Pilsner malt, 250 °WK: quicker than the 10 min of the standard
        ("barley", 40, 22.6, (15, 25)),  # Munich malt
        ("wheat", 160, 2.9, (0, 15)),
    ],
)
def test_minutes_to_iodine_normal(
    cereal: str, power_lintner: float, minutes: float, printed: tuple[float, float]
) -> None:
    """TGL 17756 (1966), malt standard, counted from 70 °C. Theta was fitted to these times, not a test of the model."""
    result = mash([Starch(cereal, 1)], STANDARD_PROGRAMME, power_lintner, LABORATORY)
    assert result.minutes_needed is not None
    assert result.minutes_needed - 55 == pytest.approx(minutes, abs=1)
    assert printed[0] - 1 <= result.minutes_needed - 55 <= printed[1]


def test_dark_malt_takes_twice_as_long_as_pale() -> None:
    """J. Heron with C. J. Lintner's remarks, Dingler's Polyt. J. 281 (1891) 190: 30 against 15 min."""
    dark = mash(BARLEY, STANDARD_PROGRAMME, 40, LABORATORY).minutes_needed
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


def test_sugar_in_proportion_to_enzyme() -> None:
    """J. Kjeldahl, Dingler's Polyt. J. 235 (1880): 1 and 3 ml of malt extract, 10 min on paste at 56 °C, 1 to 3.1.

    With 1 ml a tenth of the final sugar was formed. The model, whose pace falls with what is left to convert, has
    1 to 2.6 there: a known shortfall. It is in proportion only at the very beginning.
    """
    paste = [Starch("potato", 1, cooked=True)]
    tenth, beginning = (
        mash(paste, [Rest(56, 10)], 3 * power, LABORATORY).converted
        / mash(paste, [Rest(56, 10)], power, LABORATORY).converted
        for power in (13.5, 2)
    )
    assert mash(paste, [Rest(56, 10)], 13.5, LABORATORY).converted == pytest.approx(10, abs=0.5)
    assert tenth == pytest.approx(2.65, abs=0.05)
    assert beginning == pytest.approx(3.1, abs=0.3)


@pytest.mark.parametrize("power_lintner", [40, 60, 100])
def test_recovery_after_an_hour(power_lintner: float) -> None:
    """G. Harris, I. MacWilliam, J. Inst. Brew. 1961: above 95 % at 65.5 °C, below that in a thick mash at 62.7 °C."""
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


@pytest.mark.parametrize(("cereal", "cooks"), [("maize", True), ("rice", True), ("wheat", False), ("rye", False)])
def test_which_grain_wants_cooking(cereal: str, cooks: bool) -> None:
    """Institute of Brewing, as quoted, and T. Goldammer, The Brewers' Handbook: raw maize and rice are cooked first."""
    assert (gelatinised_share(cereal, 66, TYPICAL.shift_c) < 0.9) is cooks
    assert mash([Starch(cereal, 1, cooked=True)], [Rest(66, 60)], 60).released > 95


def integrated(
    starches: tuple[Starch, ...], rests: tuple[Rest, ...], power_lintner: float, conditions: Conditions
) -> tuple[float, float, float]:
    """Released, converted (% of all starch) and enzyme left, by scipy: the equations written out a second time."""
    gelatinisation = {"barley": (54.3, 3.66), "wheat": (53.6, 3.66), "maize": (63.2, 3.66), "rice": (71.7, 14.5)}
    weights = np.array([starch.amount for starch in starches]) / sum(starch.amount for starch in starches)
    state = np.zeros(len(starches) * 2 + 1)
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
                change[i] = k * max(0.0, ceiling - now[i])
                change[count + i] = pace * now[-1] * (now[i] - now[count + i])
            change[-1] = -0.029 * exp(-26967 * (1 / (t + 273.15) - 1 / 346.15)) * now[-1]
            return change

        state = solve_ivp(slope, (0, rest.minutes), state, rtol=1e-8, atol=1e-10, max_step=0.5).y[:, -1]
    return 100 * float(weights @ state[:count]), 100 * float(weights @ state[count:-1]), float(state[-1])


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
            [(93, 53), (77, 129), (63, 257), (37, None)],
        ),
    ],
)
def test_common_grists(
    starches: tuple[Starch, ...],
    rest: Rest,
    powers: tuple[float, float, float],
    expected: list[tuple[float, float | None]],
) -> None:
    """Computed from the same equations by another hand, in whole minutes: a regression, no evidence about beer."""
    for (converted, needed), (percent, minutes) in zip(each(starches, rest, powers), expected, strict=True):
        assert converted == pytest.approx(percent, abs=1)
        if minutes is None:
            assert needed is None
        else:
            assert needed == pytest.approx(minutes, abs=2)


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


def test_raw_maize_is_only_half_lost() -> None:
    """Own calculation: 5 kg raw maize to 3 kg malt at 66 °C, uncooked, releases 71 % of all starch."""
    result = mash([Starch("maize", 5), Starch("barley", 3)], [Rest(66, 60)], 47)
    assert result.released == pytest.approx(71, abs=0.5)
    assert result.by_starch[0] == pytest.approx(56.4, abs=0.5)


def test_two_row_at_54_c() -> None:
    """Own calculation: an hour at 54 °C releases 24 % of two-row malt's starch."""
    assert mash(BARLEY, [Rest(54, 60)], 125).released == pytest.approx(24, abs=0.5)
