import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.diastatic import lintner_of_wk, wk_of_lintner


@given(st.floats(0.001, 1000))
def test_there_and_back(power_wk: float) -> None:
    assert wk_of_lintner(lintner_of_wk(power_wk)) == pytest.approx(power_wk, abs=1e-9)


def test_never_negative() -> None:
    assert wk_of_lintner(2) == 0
    assert lintner_of_wk(-5) == 0
