import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.alcohol import (
    alcohol_by_mass,
    alcohol_by_volume,
    apparent_attenuation,
    final_gravity,
    real_degree,
    real_extract,
)


@given(st.floats(1.01, 1.15), st.floats(0, 110))
def test_attenuation_and_final_gravity_are_inverse(og: float, attenuation: float) -> None:
    assert apparent_attenuation(og, final_gravity(og, attenuation)) == pytest.approx(attenuation, abs=1e-6)


@given(st.floats(1.02, 1.15), st.floats(0, 100), st.floats(1, 10))
def test_a_drier_beer_is_stronger(og: float, attenuation: float, more: float) -> None:
    weak, strong = final_gravity(og, attenuation), final_gravity(og, attenuation + more)
    assert alcohol_by_volume(og, strong) > alcohol_by_volume(og, weak)
    assert real_degree(og, strong) > real_degree(og, weak)


def test_unfermented_wort() -> None:
    assert alcohol_by_mass(1.050, 1.050) == 0
    assert real_degree(1.050, 1.050) == 0
    assert apparent_attenuation(1.0, 1.0) == 0
    assert real_degree(1.0, 1.0) == 0


def test_beer_lighter_than_water() -> None:
    assert real_extract(1.050, 0.998) > 0
    assert apparent_attenuation(1.050, 0.998) == pytest.approx(104)
    assert alcohol_by_volume(1.050, 0.998) > alcohol_by_volume(1.050, 1.000)
