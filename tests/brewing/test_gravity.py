import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.gravity import extract_kg, gravity_of, points


@given(st.floats(1.0005, 1.2), st.floats(0.5, 1000))
def test_gravity_and_mass_are_inverse(sg: float, volume_l: float) -> None:
    assert gravity_of(extract_kg(volume_l, sg), volume_l) == pytest.approx(sg, abs=1e-6)


@given(st.floats(0, 50), st.floats(0.001, 5))
def test_more_extract_is_a_stronger_wort(kg: float, more: float) -> None:
    assert gravity_of(kg + more, 100) > gravity_of(kg, 100)


def test_water() -> None:
    assert gravity_of(0, 20) == 1.0
    assert gravity_of(-1, 20) == 1.0
    assert extract_kg(20, 1.0) == 0
    assert extract_kg(20, 0.998) == 0
    assert points(1.0) == 0


def test_no_volume() -> None:
    with pytest.raises(ValueError, match="volume_l must be above 0, not 0"):
        gravity_of(1, 0)
