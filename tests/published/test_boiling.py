"""The boiling point against CoolProp and the standard atmosphere."""

import pytest
from CoolProp.CoolProp import PropsSI

from mashwright.brewing.boiling import air_pressure_kpa, boiling_point_c, saturation_c, usual_boil_off_l_per_h


@pytest.mark.parametrize(("altitude_m", "hectopascal"), [(0, 1013.25), (1000, 898.76), (2000, 795.01), (3000, 701.21)])
def test_the_standard_atmosphere(altitude_m: float, hectopascal: float) -> None:
    """U.S. Standard Atmosphere, 1976, table of pressures; from memory."""
    assert 10 * air_pressure_kpa(altitude_m) == pytest.approx(hectopascal, abs=0.3)


@pytest.mark.parametrize("altitude_m", [-400, 0, 4, 120, 500, 1600, 2500, 4000, 8000])
def test_boiling_point(altitude_m: float) -> None:
    """CoolProp (IAPWS-95): saturation temperature at the pressure of the standard atmosphere."""
    pascal = 1000 * air_pressure_kpa(altitude_m)
    assert boiling_point_c(altitude_m) == pytest.approx(PropsSI("T", "P", pascal, "Q", 0, "Water") - 273.15, abs=0.002)


@pytest.mark.parametrize(("megapascal", "kelvin"), [(0.1, 372.755919), (1, 453.035632), (10, 584.149488)])
def test_verification_values(megapascal: float, kelvin: float) -> None:
    """IAPWS-IF97, table 36, saturation temperatures for computer verification."""
    assert saturation_c(1000 * megapascal) == pytest.approx(kelvin - 273.15, abs=1e-5)


def test_boil_off_at_home_and_in_the_trade() -> None:
    """Oxford Companion to Beer, evaporation rate: 10-15 % in 90 min, modern 6-8; home kettles in the test below."""
    trade = usual_boil_off_l_per_h(5000)
    assert 100 * 1.5 * trade.typical / 5000 == pytest.approx(12, abs=2.5)
    assert 100 * 1.5 * trade.high / 5000 == pytest.approx(15, abs=1)
    assert 6 <= 100 * 1.5 * trade.low / 5000 <= 8  # a modern plant, in all


@pytest.mark.parametrize(
    ("kettle", "litres_an_hour"),
    [
        ("narrow, made of a keg", 3.8),
        ("on average", 5.7),
        ("on average, another page", 4.7),
        ("short and wide, 45 cm", 6.6),
        ("indoors, gentle", 1.9),
        ("indoors, not so gentle", 3.8),
        ("electric, 2-2.5 kW, from memory", 2.0),
        ("electric, 2-2.5 kW, from memory", 3.5),
    ],
)
def test_boil_off_of_home_kettles(kettle: str, litres_an_hour: float) -> None:
    """Pages and a forum of home brewers on boil-off, for batches of about 20 l; the electric ones from memory."""
    home = usual_boil_off_l_per_h(22)
    assert home.low * 0.9 <= litres_an_hour <= home.high, kettle
    assert 3.8 <= home.typical <= 5.7
    # 1 kW boils away 1.6 l in an hour at the most, by the heat of evaporation
    assert home.high < 1.6 * 5
