import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.carbonation import (
    co2_share_needed,
    dissolved_volumes,
    fermented_volumes,
    hop_creep_points,
    pressure_bar,
    priming_sugar_g,
    residual_volumes,
    volumes_from_sugar,
)

CELSIUS = st.floats(0, 40)


@given(st.floats(0.1, 8), CELSIUS)
def test_pressure_and_volumes_are_inverse(volumes: float, celsius: float) -> None:
    assert dissolved_volumes(pressure_bar(volumes, celsius), celsius) == pytest.approx(volumes)


@given(st.floats(0.1, 8), CELSIUS, st.floats(0.05, 1))
def test_of_mixed_gas_too(volumes: float, celsius: float, share: float) -> None:
    bar = pressure_bar(volumes, celsius, share)
    assert dissolved_volumes(bar, celsius, share) == pytest.approx(volumes)
    assert co2_share_needed(volumes, bar, celsius) == pytest.approx(share)


def test_nitrogen_keeps_no_gas_in_the_beer() -> None:
    assert dissolved_volumes(2.0, 4.0, 0.0) == 0
    with pytest.raises(ValueError, match=r"co2_share must be above 0, not 0"):
        pressure_bar(2.5, 4.0, 0)
    with pytest.raises(ValueError, match=r"pressure_bar must be above -1.01325, not -2"):
        co2_share_needed(2.5, -2, 4.0)


@pytest.mark.parametrize(
    ("percent", "bar", "celsius", "volumes"),
    [(25, 1, 4, 0.7), (30, 2, 4, 1.3), (40, 2.4, 6, 1.8), (50, 2.4, 10, 1.9), (70, 1, 4, 2.0), (100, 2, 4, 4.2)],
)
def test_mixed_gas_by_its_share_of_the_whole_pressure(
    percent: float, bar: float, celsius: float, volumes: float
) -> None:
    """Henry's law by hand, another fit of it for beer; to a tenth of a volume."""
    assert dissolved_volumes(bar, celsius, percent / 100) == pytest.approx(volumes, abs=0.1)


@given(st.floats(0, 5), CELSIUS, st.floats(0.5, 10))
def test_warmer_beer_holds_less(bar: float, celsius: float, more: float) -> None:
    assert dissolved_volumes(bar, celsius + more) < dissolved_volumes(bar, celsius)
    assert dissolved_volumes(bar + more, celsius) > dissolved_volumes(bar, celsius)


@given(CELSIUS)
def test_what_is_left_is_a_range(celsius: float) -> None:
    left = residual_volumes(celsius)
    assert left.low < left.typical < left.high
    assert left.typical == dissolved_volumes(0, celsius)


@given(st.floats(1, 1000), st.floats(0.5, 1), st.floats(1, 4), st.floats(0.3, 0.52))
def test_the_sugar_gives_what_is_wanted(volume: float, held: float, wanted: float, per_g: float) -> None:
    grams = priming_sugar_g(volume, wanted, held, per_g)
    assert held + volumes_from_sugar(grams / volume, per_g) == pytest.approx(wanted)


def test_beer_that_holds_enough_wants_no_sugar() -> None:
    assert priming_sugar_g(20, 0.8, 0.9, 0.5) == 0


@pytest.mark.parametrize("per_g", [0.0, -1.0])
def test_a_sugar_that_gives_nothing(per_g: float) -> None:
    with pytest.raises(ValueError, match=f"co2_per_g must be above 0, not {per_g}"):
        priming_sugar_g(20, 2.4, 0.8, per_g)


def test_beer_at_its_end_makes_no_gas() -> None:
    assert fermented_volumes(1.050, 1.010, 1.010) == 0
    assert fermented_volumes(1.050, 1.010, 1.012) == 0


@given(st.floats(1.03, 1.1), st.floats(0.001, 0.02))
def test_gas_adds_up_on_the_way_down(og: float, drop: float) -> None:
    top, end = og - 0.02, og - 0.02 - drop
    middle = (top + end) / 2
    halves = fermented_volumes(og, top, middle) + fermented_volumes(og, middle, end)
    assert halves == pytest.approx(fermented_volumes(og, top, end), rel=0.01)


@pytest.mark.parametrize(("g_per_l", "points"), [(0, 0), (3.99, 0), (4, 3), (8, 5), (12, 7), (25, 7)])
def test_hop_creep(g_per_l: float, points: float) -> None:
    assert hop_creep_points(g_per_l) == pytest.approx(points)
