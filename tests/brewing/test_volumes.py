import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.boiling import boiling_point_c, usual_boil_off_l_per_h
from mashwright.brewing.volumes import (
    into_fermenter_l,
    post_boil_l,
    pre_boil_l,
    run_off_l,
    total_liquor_l,
)


@given(st.floats(1, 500), st.floats(0, 20), st.floats(0, 20), st.floats(0, 3), st.floats(0, 50), st.floats(0.5, 1.7))
def test_the_waters_back_to_the_fermenter(
    wanted_l: float, loss_l: float, rate: float, hours: float, grain_kg: float, absorption: float
) -> None:
    pre = pre_boil_l(post_boil_l(wanted_l, loss_l), rate, hours)
    liquor = total_liquor_l(pre, grain_kg, absorption, 1.0)
    run_off = run_off_l(liquor, grain_kg, absorption, 1.0)
    assert run_off == pytest.approx(pre)
    assert into_fermenter_l(run_off - rate * hours, loss_l) == pytest.approx(wanted_l)


def test_never_below_nothing() -> None:
    assert run_off_l(3, 5) == 0
    assert into_fermenter_l(1, 5) == 0


@given(st.floats(-400, 8000))
def test_higher_up_it_boils_cooler(altitude_m: float) -> None:
    assert boiling_point_c(altitude_m + 100) < boiling_point_c(altitude_m)


@pytest.mark.parametrize("altitude_m", [-1000, 20_000])
def test_no_brewery_stands_there(altitude_m: float) -> None:
    with pytest.raises(ValueError, match="altitude_m must lie within"):
        boiling_point_c(altitude_m)


@given(st.floats(0, 10_000))
def test_boil_off_in_order(wort_l: float) -> None:
    usual = usual_boil_off_l_per_h(wort_l)
    assert 0 <= usual.low <= usual.typical <= usual.high
