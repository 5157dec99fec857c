import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.heat import (
    decoction_share,
    decoction_temperature_c,
    grain_heat,
    heat_of_a_litre_kg,
    infusion_water_kg,
    mixed_temperature_c,
    rinsed_bed_c,
    slaking_rise_c,
    strike_temperature_c,
)


@given(st.floats(40, 100), st.floats(-10, 35), st.floats(0.5, 10), st.floats(0.38, 0.42))
def test_strike_water_mixes_to_the_mash(mash_c: float, grain_c: float, liquor_to_grist: float, heat: float) -> None:
    strike_c = strike_temperature_c(mash_c, grain_c, liquor_to_grist, heat)
    assert mixed_temperature_c(((heat, grain_c), (liquor_to_grist, strike_c))) == pytest.approx(mash_c)


@pytest.mark.parametrize("liquor_to_grist", [0, -1])
def test_no_water(liquor_to_grist: float) -> None:
    with pytest.raises(ValueError, match="liquor_to_grist must be above 0"):
        strike_temperature_c(66, 20, liquor_to_grist)


@given(st.floats(30, 70), st.floats(71, 80), st.floats(85, 100), st.floats(5, 50))
def test_infusion_brings_the_mash_there(from_c: float, to_c: float, liquor_c: float, mash_kg: float) -> None:
    water = infusion_water_kg(from_c, to_c, liquor_c, mash_kg)
    assert mixed_temperature_c(((mash_kg, from_c), (water, liquor_c))) == pytest.approx(to_c)


@given(st.floats(30, 70), st.floats(71, 80), st.floats(90, 100))
def test_decoction_brings_the_mash_there(from_c: float, to_c: float, boil_c: float) -> None:
    share = decoction_share(from_c, to_c, boil_c)
    assert 0 < share < 1
    assert decoction_temperature_c(from_c, share, boil_c) == pytest.approx(to_c)


def test_no_water_is_hot_enough() -> None:
    with pytest.raises(ValueError, match="liquor_c must be above 72"):
        infusion_water_kg(62, 72, 72, 10)
    with pytest.raises(ValueError, match="boil_c must be above 100"):
        decoction_share(100, 101, 100)
    with pytest.raises(ValueError, match="something that holds heat"):
        mixed_temperature_c(())


def test_between_the_rows_of_the_table() -> None:
    assert grain_heat(5) == pytest.approx(0.405)
    assert slaking_rise_c(5) == pytest.approx(1.5)
    assert grain_heat(-1) == grain_heat(0)
    assert slaking_rise_c(20) == slaking_rise_c(8)


def test_a_thick_part_holds_less_heat() -> None:
    assert heat_of_a_litre_kg(1.25) < heat_of_a_litre_kg(3) < 1


@given(st.floats(60, 78), st.floats(60, 99), st.floats(1, 50), st.floats(0, 100))
def test_a_rinsed_bed_nears_its_water(bed_c: float, liquor_c: float, bed_kg: float, water_kg: float) -> None:
    rinsed = rinsed_bed_c(bed_c, liquor_c, bed_kg, water_kg)
    assert min(bed_c, liquor_c) - 1e-9 <= rinsed <= max(bed_c, liquor_c) + 1e-9
    assert abs(liquor_c - rinsed_bed_c(bed_c, liquor_c, bed_kg, water_kg + 1)) <= abs(liquor_c - rinsed) + 1e-9
