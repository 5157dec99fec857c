import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.bitterness import (
    alpha_kept,
    boil_minutes,
    boiled_share,
    cooling_minutes,
    ibu,
    isomerised,
    rager_adjustment,
    rager_utilisation,
    utilisation,
)

GRAVITY, MINUTES = st.floats(1.0, 1.2), st.floats(0, 240)


@given(GRAVITY, MINUTES)
def test_utilisation_is_a_share(gravity: float, minutes: float) -> None:
    assert 0 <= utilisation(gravity, minutes) < 0.4
    assert 0.02 < rager_utilisation(gravity, minutes) <= 0.30


@given(GRAVITY, MINUTES, st.floats(0.1, 60))
def test_longer_gives_more_and_thicker_wort_less(gravity: float, minutes: float, longer: float) -> None:
    assert utilisation(gravity, minutes + longer) >= utilisation(gravity, minutes)
    assert rager_utilisation(gravity, minutes + longer) >= rager_utilisation(gravity, minutes)
    assert utilisation(min(1.2, gravity + 0.01), minutes) <= utilisation(gravity, minutes)


@pytest.mark.parametrize(("gravity", "minutes"), [(0.9, 60), (1.3, 60), (1.050, -1)])
def test_no_wort_and_boil(gravity: float, minutes: float) -> None:
    for model in (utilisation, rager_utilisation):
        with pytest.raises(ValueError, match="no wort and boil"):
            model(gravity, minutes)


def test_no_beer() -> None:
    with pytest.raises(ValueError, match="volume_l must be above 0, not 0"):
        ibu(0.25, 0.002, 0)


def test_a_gram_of_alpha_acid_that_is_all_used() -> None:
    assert ibu(1, 0.001, 20) == pytest.approx(50)  # mg/l


def test_gravity_adjustment_begins_at_its_breakpoint() -> None:
    assert rager_adjustment(1.050) == 0
    assert rager_adjustment(1.040) == 0
    assert rager_utilisation(1.040, 60) == rager_utilisation(1.050, 60) == 0.30


@given(st.floats(0, 105), st.floats(0, 300))
def test_boil_minutes_of_a_held_stand_are_those_of_one_that_hardly_falls(at_c: float, minutes: float) -> None:
    held = boil_minutes(at_c, at_c, minutes)
    assert boil_minutes(at_c + 1e-6, at_c, minutes) == pytest.approx(held, rel=1e-5, abs=1e-9)


@given(st.floats(20, 100), st.floats(20, 100), st.floats(0, 120))
def test_a_falling_stand_lies_between_its_ends(one_c: float, other_c: float, minutes: float) -> None:
    low, high = sorted(boil_minutes(end, end, minutes) for end in (one_c, other_c))
    assert low - 1e-9 <= boil_minutes(one_c, other_c, minutes) <= high + 1e-9
    assert boil_minutes(one_c, other_c, minutes) == pytest.approx(boil_minutes(other_c, one_c, minutes))


def test_time_does_not_run_back() -> None:
    with pytest.raises(ValueError, match="minutes must not be below 0, not -1"):
        boil_minutes(90, 90, -1)


@given(st.floats(60, 130), st.floats(0, 600))
def test_nothing_comes_of_nothing(at_c: float, minutes: float) -> None:
    formed, left = isomerised(at_c, minutes)
    assert 0 <= formed <= 1 - left + 1e-12
    assert 0 <= left <= 1


def test_six_months_warm_take_the_storage_loss() -> None:
    assert alpha_kept(40, 6) == pytest.approx(0.60)
    assert alpha_kept(40, 12) == pytest.approx(0.36)
    assert alpha_kept(40, 0) == 1
    assert alpha_kept(0, 24) == 1


def test_fifteen_degrees_colder_keep_twice_as_long() -> None:
    assert alpha_kept(40, 12, 5) == pytest.approx(alpha_kept(40, 6, 20))


@pytest.mark.parametrize(("loss", "months"), [(100, 6), (-1, 6), (40, -1)])
def test_no_loss_of_hops(loss: float, months: float) -> None:
    with pytest.raises(ValueError, match="no loss of hops"):
        alpha_kept(loss, months)


def test_a_boil_without_end_is_counted_as_one_that_holds_the_most() -> None:
    """The chemistry leaves nothing of either, which no share can be made of."""
    shares = [boiled_share(95, minutes) for minutes in (60, 120, 180, 1440, 1e6, 1e9)]
    assert shares == sorted(shares)
    assert shares[2] == shares[-1] < 1


@given(st.floats(30, 100), st.floats(1, 600))
def test_wort_that_cools_slowly_goes_on_bittering(start_c: float, minutes: float) -> None:
    formed = cooling_minutes(start_c, minutes)
    assert 0 < formed < minutes
    assert cooling_minutes(start_c, 2 * minutes) == pytest.approx(2 * formed)
    assert cooling_minutes(start_c - 5, minutes) < formed


def test_cool_wort_forms_nothing() -> None:
    assert cooling_minutes(25, 60) == cooling_minutes(100, 0) == 0
    with pytest.raises(ValueError, match="minutes must not be below 0, not -1"):
        cooling_minutes(100, -1)


def test_a_cube_overnight_is_more_than_brewers_count() -> None:
    """Hops in wort that is left to cool count as 15 to 20 min more of boil, common practice; the law gives 34."""
    assert cooling_minutes(100, 8 * 60) == pytest.approx(34, abs=1)
