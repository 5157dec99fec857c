import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing import yeast
from mashwright.brewing.yeast import cells_needed, viable
from mashwright.measures.range import Range


@given(st.floats(0.5, 2), st.floats(1, 1000), st.floats(1, 30), st.floats(1.1, 3))
def test_twice_the_wort_wants_twice_the_cells(rate: float, volume: float, plato: float, more: float) -> None:
    cells = cells_needed(rate, volume, plato)
    assert cells_needed(rate, volume * more, plato) == pytest.approx(cells * more)
    assert cells_needed(rate, volume, plato * more) == pytest.approx(cells * more)


def test_water_wants_none() -> None:
    assert cells_needed(0.75, 20, 0) == 0
    assert cells_needed(0.75, 20, -0.2) == 0


def test_half_of_them_live() -> None:
    assert viable(100, 50) == 50


@pytest.mark.parametrize("name", [name for name, value in vars(yeast).items() if isinstance(value, Range)])
def test_every_range_is_in_order(name: str) -> None:
    value = getattr(yeast, name)
    assert 0 < value.low < value.typical < value.high
