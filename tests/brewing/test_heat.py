import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.heat import dough_in_temperature_c, strike_temperature_c


@given(st.floats(40, 100), st.floats(-10, 35), st.floats(0.5, 10), st.floats(0.38, 0.42), st.floats(0, 3))
def test_inverse(mash_c: float, grain_c: float, liquor_to_grist: float, grain_heat: float, slaking_c: float) -> None:
    strike_c = strike_temperature_c(mash_c, grain_c, liquor_to_grist, grain_heat, slaking_c)
    assert dough_in_temperature_c(strike_c, grain_c, liquor_to_grist, grain_heat, slaking_c) == pytest.approx(mash_c)


@given(st.floats(60, 100), st.floats(-10, 35), st.floats(0.5, 10))
def test_between_grain_and_water(liquor_c: float, grain_c: float, liquor_to_grist: float) -> None:
    assert grain_c < dough_in_temperature_c(liquor_c, grain_c, liquor_to_grist) < liquor_c


@pytest.mark.parametrize("liquor_to_grist", [0, -1])
def test_no_water(liquor_to_grist: float) -> None:
    with pytest.raises(ValueError, match="liquor_to_grist must be above 0"):
        dough_in_temperature_c(70, 20, liquor_to_grist)
    with pytest.raises(ValueError, match="liquor_to_grist must be above 0"):
        strike_temperature_c(66, 20, liquor_to_grist)
