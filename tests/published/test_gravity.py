"""Gravity, degrees Plato and mass of extract against sugar tables and reference libraries."""

from typing import Final

import pytest
from CoolProp.CoolProp import PropsSI
from pint import UnitRegistry
from scipy.optimize import brentq

from mashwright.brewing.gravity import extract_kg, gravity_of, plato, points, specific_gravity
from mashwright.measures.constants import WATER_KG_PER_L

TABLE: Final = [
    # °P, SG
    (0.1, 1.00039),
    (0.2, 1.00078),
    (0.3, 1.00117),
    (3.8, 1.01490),
    (4.0, 1.01569),
    (4.1, 1.01609),
    (7.7, 1.03058),
    (7.9, 1.03139),
]


@pytest.mark.parametrize(("degrees", "gravity"), TABLE)
def test_gravity_of_sucrose_solutions(degrees: float, gravity: float) -> None:
    """USDA Agricultural Marketing Service, Sucrose Conversion Table, file code 135-A-50 [usda-135-a-50]."""
    assert specific_gravity(degrees) == pytest.approx(gravity, abs=0.00003)
    assert plato(gravity) == pytest.approx(degrees, abs=0.006)


@pytest.mark.parametrize(("degrees", "pounds"), [(1, 8.354), (2, 8.387), (4, 8.452), (5, 8.486)])
def test_weight_per_gallon_of_sucrose_solutions(degrees: float, pounds: float) -> None:
    """C. S. Chen, Brix and Pounds Solids Tables, 4th printing 1992, after NBS Circular C440 (1942); water 8.322 lb."""
    assert specific_gravity(degrees) == pytest.approx(pounds / 8.322, abs=0.0001)


def test_degrees_at_one_gravity() -> None:
    """Encyclopaedia summary of Brix [brix-summary]: SG 1.040 is 9.99325 °Bx (NBS table), 9.99359 °P (ASBC)."""
    assert plato(1.040) == pytest.approx(9.99325, abs=0.0005)
    assert plato(1.040) == pytest.approx(9.99359, abs=0.0005)
    assert pytest.approx(9.9935, abs=0.0005) == 135.997 * 1.040**3 - 630.272 * 1.040**2 + 1111.14 * 1.040 - 616.868
    assert plato(1.040) == pytest.approx(9.99249, abs=0.0012)  # by the density of the sugar industry


def icumsa_density(degrees: float, fourth: float = -3.9643) -> float:
    """Density of sucrose solutions at 20 °C, kg/m³, in vacuum [icumsa-density]."""
    w = degrees / 100
    return 998.203 + w * (385.1761 + w * (135.3705 + w * (40.9299 + w * (fourth + w * (13.4853 + w * -17.2890)))))


def icumsa_gravity(degrees: float, fourth: float = -3.9643) -> float:
    """Apparent gravity from that, in air of 1.2 kg/m³."""
    return (icumsa_density(degrees, fourth) - 1.2) / (998.203 - 1.2)


@pytest.mark.parametrize(("degrees", "density"), [(10, 1038.1), (20, 1081.0), (30, 1127.0)])
def test_the_density_of_the_sugar_industry(degrees: float, density: float) -> None:
    """CRC Handbook, sucrose in water (from memory); and a copy of the polynomial that prints -3.9646 for -3.9643."""
    assert icumsa_density(degrees) == pytest.approx(density, abs=0.05)
    assert icumsa_gravity(degrees, -3.9646) == pytest.approx(icumsa_gravity(degrees), abs=1e-7)


@pytest.mark.parametrize("degrees", [2, 5, 8, 10, 12, 14, 16, 18, 20])
def test_the_inverse_in_a_trade_catalogue(degrees: float) -> None:
    """Trade catalogue, page 105 [catalogue-conversions]: SG = 1 + P ÷ (258.6 - 227.1 P ÷ 258.2), to 25 °P."""
    assert specific_gravity(degrees) == pytest.approx(1 + degrees / (258.6 - 227.1 * degrees / 258.2), abs=0.00005)


@pytest.mark.parametrize(("gravity", "allowed"), [(1.010, 0.04), (1.030, 0.04), (1.050, 0.04), (1.080, 0.05)])
def test_a_form_with_one_parameter(gravity: float, allowed: float) -> None:
    """J. Buhl, OSF preprint v1.7 (2024) [buhl-2024]: P = 260.4 (1 - 1/SG), to about 20 °P.

    At 1.150 it is 0.28 °P off the fit to the ASBC table and 0.33 off ours, which part by 0.05 there.
    """
    assert plato(gravity) == pytest.approx(260.4 * (1 - 1 / gravity), abs=allowed)
    form, asbc = 260.4 * (1 - 1 / 1.150), 135.997 * 1.150**3 - 630.272 * 1.150**2 + 1111.14 * 1.150 - 616.868
    assert abs(asbc - form) == pytest.approx(0.28, abs=0.01)
    assert abs(plato(1.150) - form) == pytest.approx(0.33, abs=0.01)
    assert abs(plato(1.150) - asbc) == pytest.approx(0.05, abs=0.005)


@pytest.mark.parametrize("degrees", range(36))
def test_against_the_density_of_the_sugar_industry(degrees: int) -> None:
    """ICUMSA density polynomial as used in sugar-industry models; another fit to other measurements."""
    assert specific_gravity(degrees) == pytest.approx(icumsa_gravity(degrees), abs=0.0001)


@pytest.mark.parametrize(("degrees", "gravity"), [(12, 1.0484), (16, 1.0654), (20, 1.0830), (30, 1.1291)])
def test_common_worts(degrees: float, gravity: float) -> None:
    """ICUMSA density polynomial, rounded as brewers write it."""
    assert specific_gravity(degrees) == pytest.approx(gravity, abs=0.0002)


@pytest.mark.parametrize(
    ("gravity", "degrees"), [(1.010, 2.561), (1.050, 12.387), (1.060, 14.740), (1.080, 19.331), (1.100, 23.774)]
)
def test_the_other_published_curves_agree(gravity: float, degrees: float) -> None:
    """Encyclopaedia article on Brix [brix-tables]: cubic fit to the ASBC table, to 25 °P; Lincoln, to SG 1.100."""
    asbc = 135.997 * gravity**3 - 630.272 * gravity**2 + 1111.14 * gravity - 616.868
    lincoln = (463 - 205 * gravity) * (gravity - 1)
    assert plato(gravity) == pytest.approx(degrees, abs=0.005)
    assert plato(gravity) == pytest.approx(asbc, abs=0.006)
    assert plato(gravity) == pytest.approx(lincoln, abs=0.025)


def test_four_points_to_a_degree_is_too_rough() -> None:
    """Common practice: a quarter of the points, good below 1.050 only: there 0.11 °P too high, at 1.080 0.67."""
    assert points(1.050) / 4 - plato(1.050) == pytest.approx(0.11, abs=0.005)
    assert points(1.080) / 4 - plato(1.080) == pytest.approx(0.67, abs=0.01)


@pytest.mark.parametrize("degrees", [0.5, 4, 12, 25, 40])
def test_inverse_by_bracketing(degrees: float) -> None:
    """scipy's brentq on the cubic fit to the NBS C440 table (encyclopaedia article on Brix), written out here again."""

    def miss(gravity: float) -> float:
        cubic = 182.4601 * gravity**3 - 775.6821 * gravity**2 + 1262.7794 * gravity - 669.5622
        return float(cubic - degrees)

    assert specific_gravity(degrees) == pytest.approx(brentq(miss, 1.0, 1.3, xtol=1e-14), abs=1e-10)


@pytest.mark.parametrize(("volume_l", "kg"), [(1, 0.05), (20, 2.511), (23, 6.0), (27, 0.4)])
def test_gravity_of_a_mass_by_bracketing(volume_l: float, kg: float) -> None:
    """scipy's brentq on extract_kg."""
    expected = brentq(lambda gravity: extract_kg(volume_l, gravity) - kg, 1.0001, 1.3, xtol=1e-14)
    assert gravity_of(kg, volume_l) == pytest.approx(expected, abs=1e-9)


def test_water_density() -> None:
    """CoolProp, water at 20 °C and 101.325 kPa."""
    assert pytest.approx(PropsSI("D", "T", 293.15, "P", 101325, "Water") / 1000, abs=0.0001) == WATER_KG_PER_L


def test_a_pound_of_sugar_made_up_to_a_gallon() -> None:
    """Density of sucrose solutions, NBS C440; the American units by pint. Not the same as a pound added to a gallon."""
    units: UnitRegistry[float] = UnitRegistry()
    kg = (1 * units.pound).to("kg").magnitude
    litres = (1 * units.gallon).to("l").magnitude
    assert gravity_of(kg, litres) == pytest.approx(1.0462, abs=0.0002)
    added = specific_gravity(100 * kg / (kg + litres * WATER_KG_PER_L))
    assert added == pytest.approx(1.0430, abs=0.0002)


def test_a_hundred_grams_in_a_litre() -> None:
    """Density of sucrose solutions, NBS C440."""
    assert gravity_of(0.1, 1) == pytest.approx(1.0386, abs=0.0002)


def test_extract_in_a_wort() -> None:
    """Mass balance: 20 l at 12 °P."""
    assert extract_kg(20, 1.0484) == pytest.approx(2.511, abs=0.005)


def test_boiling_down() -> None:
    """Mass balance: 27 l at 1.044 boiled to 23 l; a straight line of points gives 1.05165."""
    assert gravity_of(extract_kg(27, 1.044), 23) == pytest.approx(1.05161, abs=0.00005)
    assert gravity_of(extract_kg(27, 1.044), 23) != pytest.approx(1.05165, abs=0.00001)
