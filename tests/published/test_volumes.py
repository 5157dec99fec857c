"""Volumes from the strike to the fermenter against the properties of water, exact units and sums by hand."""

import pytest
from CoolProp.CoolProp import PropsSI
from pint import UnitRegistry

from mashwright.brewing.gravity import gravity_of
from mashwright.brewing.volumes import (
    ABSORPTION_L_PER_KG,
    BAG_ABSORPTION_L_PER_KG,
    COOLED_SHARE,
    EXTRACT_VOLUME_L_PER_KG,
    GRAIN_VOLUME_L_PER_KG,
    HOP_LOSS_L_PER_KG,
    into_fermenter_l,
    mash_volume_l,
    post_boil_l,
    pre_boil_l,
    total_liquor_l,
    water_density_kg_per_m3,
)


@pytest.mark.parametrize("celsius", [0.5, 4, 10, 20, 38, 50, 65, 77, 90, 99.9])
def test_density_of_water(celsius: float) -> None:
    """CoolProp (IAPWS-95) at 101.325 kPa."""
    assert water_density_kg_per_m3(celsius) == pytest.approx(
        PropsSI("D", "T", celsius + 273.15, "P", 101325, "Water"), abs=0.02
    )


@pytest.mark.parametrize(
    ("celsius", "density"),
    [(4, 999.975), (20, 998.207), (38, 992.966), (65, 980.551), (77, 973.637), (99.9, 958.421)],
)
def test_printed_densities(celsius: float, density: float) -> None:
    """CoolProp 8.0.0 (IAPWS-95), values as printed by it."""
    assert water_density_kg_per_m3(celsius) == pytest.approx(density, abs=0.02)


HYDROMETER = [
    # °F, what a reading of 1.000 is out by in points, and what a reading of 1.050 becomes, hydrometer made for 60 °F
    (32, -0.83, 1.0491),
    (41, -0.95, 1.0490),
    (60, 0.00, 1.0500),
    (68, 0.81, 1.0509),
    (77, 1.98, 1.0521),
    (95, 5.01, 1.0553),
    (104, 6.85, 1.0572),
    (122, 11.12, 1.0617),
    (140, 16.09, 1.0669),
]


@pytest.mark.parametrize(("fahrenheit", "points_off", "becomes"), HYDROMETER)
def test_density_of_water_by_a_hydrometer(fahrenheit: float, points_off: float, becomes: float) -> None:
    """Reading × density at 60 °F ÷ density at the sample's temperature, by the density of water in [icumsa-density].

    The program corrects no hydrometer, since recipes state gravity at 20 °C; this checks the density behind hot volumes
    over the range that brewers use. The glass would take off 0.1 point at 68 °F and 1.1 at 140.
    """
    factor = water_density_kg_per_m3((60 - 32) / 1.8) / water_density_kg_per_m3((fahrenheit - 32) / 1.8)
    assert 1000 * (factor - 1) == pytest.approx(points_off, abs=0.02)
    assert 1.050 * factor == pytest.approx(becomes, abs=0.0001)


@pytest.mark.parametrize(
    ("fahrenheit", "printed", "allowed"),
    [(60, 0, 0.01), (68, 1.0, 0.2), (77, 2.2, 0.25), (95, 5.0, 0.05), (104, 6.8, 0.06), (122, 11.0, 0.15),
     (140, 15.9, 0.2)],
)  # fmt: skip
def test_printed_hydrometer_table(fahrenheit: float, printed: float, allowed: float) -> None:
    """A hydrometer correction table [hydrometer-table] and B. Burch's book as quoted [burch-hydrometer].

    Their rows below 50 °F, -1.6 at 32 and -1.3 at 41, are 0.4 to 0.8 points from the density of water.
    """
    at_60 = water_density_kg_per_m3((60 - 32) / 1.8)
    assert 1000 * (at_60 / water_density_kg_per_m3((fahrenheit - 32) / 1.8) - 1) == pytest.approx(printed, abs=allowed)
    for cold, wrong in ((32, -1.6), (41, -1.3)):
        true = 1000 * (at_60 / water_density_kg_per_m3((cold - 32) / 1.8) - 1)
        assert 0.3 < true - wrong < 0.8


def test_the_four_per_cent_of_cooling() -> None:
    """Common practice, and physics: water shrinks by 3.99 % from 100 to 20 °C."""
    shrinkage = 1 - water_density_kg_per_m3(100) / water_density_kg_per_m3(20)
    assert shrinkage == pytest.approx(0.0399, abs=0.0002)
    assert 1 - shrinkage == pytest.approx(COOLED_SHARE, abs=0.0005)


def test_a_pound_in_a_quart() -> None:
    """From memory: 1 lb of grain in 1 US quart of water fills 42 US fluid ounces, 0.652 l/kg."""
    units: UnitRegistry[float] = UnitRegistry()
    filled = mash_volume_l(
        (1 * units.quart).to("l").magnitude, (1 * units.pound).to("kg").magnitude, GRAIN_VOLUME_L_PER_KG.low
    )
    assert filled == pytest.approx((42 * units.floz).to("l").magnitude, abs=0.003)


def test_an_eighth_of_a_gallon_a_pound() -> None:
    """Common practice: drained grain keeps 0.125 US gal/lb, a pint to the pound."""
    units: UnitRegistry[float] = UnitRegistry()
    kept = (0.125 * units.gallon / units.pound).to("l/kg").magnitude
    assert kept == pytest.approx(1.04, abs=0.005)
    assert ABSORPTION_L_PER_KG.low < kept < ABSORPTION_L_PER_KG.high


def test_a_bag_and_the_hops() -> None:
    """Common practice: a squeezed bag keeps 0.6-0.8 l/kg; trade catalogue [catalogue-conversions]: hops keep 6 l/kg."""
    assert (BAG_ABSORPTION_L_PER_KG.low, BAG_ABSORPTION_L_PER_KG.typical) == (0.6, 0.8)
    assert BAG_ABSORPTION_L_PER_KG.typical < ABSORPTION_L_PER_KG.typical
    assert (HOP_LOSS_L_PER_KG.low, HOP_LOSS_L_PER_KG.high) == (6, 10)  # 10 with the trub at home, common practice


def test_a_whole_brew() -> None:
    """Sum by hand: 20 l wanted, 1.5 l of trub, 3 l/h for 1 h, 5 kg at 1.0 l/kg: 22.4, 25.4 and 30.4 l."""
    post = post_boil_l(20, 1.5)
    pre = pre_boil_l(post, 3, 1)
    assert post == pytest.approx(22.4, abs=0.05)
    assert pre == pytest.approx(25.4, abs=0.05)
    assert total_liquor_l(pre, 5, 1.0) == pytest.approx(30.4, abs=0.05)
    assert into_fermenter_l(post, 1.5) == pytest.approx(20)


def test_volume_of_dissolved_extract() -> None:
    """NBS Circular 440 through degrees Plato: a kilogram of sugar in 10 l fills 0.62 l."""
    litres = 10.0
    for _ in range(20):
        litres = (10 * 998.2 / 1000 + 1) / (gravity_of(1, litres) * 0.9982)
    assert litres - 10 == pytest.approx(EXTRACT_VOLUME_L_PER_KG, abs=0.01)
