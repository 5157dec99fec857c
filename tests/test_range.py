"""Values that vary: how they are added, taken off, multiplied and kept from falling below nothing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.measures.constants import CO2_G_PER_VOLUME
from mashwright.measures.quantity import Kind, to_canonical
from mashwright.measures.range import Range

AMOUNTS = st.lists(st.floats(0, 1e6), min_size=3, max_size=3).map(lambda ends: Range(*sorted(ends)))


@given(AMOUNTS, AMOUNTS)
def test_arithmetic_is_that_of_the_ends(one: Range, other: Range) -> None:
    assert one + other == Range.along(lambda a, b: a + b, (one, other))
    assert one - other == Range.along(lambda a, b: a - b, (one,), (other,))
    assert one.times(other) == Range.along(lambda a, b: a * b, (one, other))
    left = (one - other).not_below_0
    assert 0 <= left.low <= left.typical <= left.high
    assert left == Range.along(lambda a, b: max(0.0, a - b), (one,), (other,))


def test_a_sum_of_many() -> None:
    assert sum([Range(1, 2, 3), Range(10, 20, 30)], Range.exact(0)) == Range(11, 22, 33)


def test_a_volume_of_gas_weighs_the_same_wherever_it_is_written() -> None:
    """The table of units and the science each hold the number, since the one does not read the other."""
    assert to_canonical(CO2_G_PER_VOLUME, "g/l", Kind.CARBONATION) == pytest.approx(1.0)
