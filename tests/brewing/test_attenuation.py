from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.attenuation import (
    BAND,
    LACTOSE,
    ROASTED,
    base_malt_share,
    caramel_malt_share,
    kilned_malt_share,
    late_starch,
    malt_extract_share,
    malt_wort_attenuation,
    wort_attenuation,
    yeast_pull,
)


@given(st.floats(40, 90), st.floats(0, 300), st.floats(0, 200))
def test_curve_stays_inside(convert_c: float, minutes: float, power_lintner: float) -> None:
    assert 0 <= malt_wort_attenuation(convert_c, minutes, power_lintner) <= 90


@given(st.floats(62.5, 89), st.floats(0, 200), st.floats(0, 300))
def test_hotter_is_sweeter(convert_c: float, power_lintner: float, minutes: float) -> None:
    hotter = malt_wort_attenuation(convert_c + 1, minutes, power_lintner)
    assert hotter <= malt_wort_attenuation(convert_c, minutes, power_lintner) + 1e-9


def test_a_cool_rest_loses_late_starch_unless_it_lasts() -> None:
    assert late_starch(60, 60) == late_starch(50, 15) == 2.5
    assert late_starch(60, 1200) == pytest.approx(0.125)
    assert late_starch(62.5, 60) == late_starch(68, 60) == 0


def test_little_enzyme_costs_more_in_the_heat() -> None:
    lost = [malt_wort_attenuation(at_c, 60, 100) - malt_wort_attenuation(at_c, 60, 40) for at_c in (60, 66, 69)]
    assert lost == pytest.approx([1.25, 5, 7])


def test_time_counts_below_70_c_from_15_to_120_min() -> None:
    at = [malt_wort_attenuation(64, minutes, 100) for minutes in (0, 15, 60, 120, 500)]
    assert at[0] == at[1] < at[2] < at[3] == at[4]
    assert malt_wort_attenuation(72, 15, 100) == malt_wort_attenuation(72, 120, 100)


def test_absurd_heat() -> None:
    assert malt_wort_attenuation(1e9, 60, 100) == pytest.approx(0, abs=1e-6)


def test_yeasts_part_by_what_they_leave() -> None:
    """By maltotriose down to 60 %; a kind that leaves maltose ends near what it is said to ferment."""
    assert base_malt_share(80, 77) == pytest.approx(0.8 * 0.8192)
    assert base_malt_share(80, 87) - base_malt_share(80, 77) == pytest.approx(0.8192 * 0.03)
    assert malt_extract_share(77) == 0.62
    assert malt_extract_share(62) == pytest.approx(0.62 - 0.8192 * 0.12 * 15 / 17)
    assert 6 < yeast_pull(76) - yeast_pull(65) < 10
    for stated in (15, 20, 25):
        assert 100 * base_malt_share(77, stated) / 0.8192 == pytest.approx(stated, abs=0.01)
    pulls = [yeast_pull(tenth / 10) for tenth in range(1001)]
    assert pulls == sorted(pulls)
    assert max(later - sooner for sooner, later in pairwise(pulls)) < 0.12
    assert malt_extract_share(0) == 0


def test_darker_malt_ferments_less() -> None:
    base = base_malt_share(82)
    assert base > kilned_malt_share(base) > ROASTED
    assert kilned_malt_share(base) == pytest.approx(base - 0.08)
    assert caramel_malt_share(40) == pytest.approx(0.506)
    assert caramel_malt_share(500) == 0.33


def test_mixing() -> None:
    malt = base_malt_share(80)
    assert wort_attenuation([(1, malt)], 50).typical == pytest.approx(80)
    assert wort_attenuation([(3, malt), (1, LACTOSE)], 50).typical == pytest.approx(60)
    assert wort_attenuation([(2, malt), (2, malt)], 50) == wort_attenuation([(1, malt)], 50)
    assert wort_attenuation([(1, malt)], 85).typical == pytest.approx(78)
    assert wort_attenuation([(1, 1.0)], 50).typical == pytest.approx(122.1, abs=0.1)
    band = wort_attenuation([(1, malt)], 50)
    assert (band.low, band.high) == pytest.approx((80 - BAND, 80 + BAND))


def test_all_lactose_does_not_go_below_nothing() -> None:
    assert wort_attenuation([(1, LACTOSE)], 50).low == 0


def test_no_extract() -> None:
    with pytest.raises(ValueError, match="no extract to ferment"):
        wort_attenuation([], 50)
