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
)


def test_the_four_per_cent_of_cooling() -> None:
    """Common practice, and CoolProp (IAPWS-95): water shrinks by 3.99 % from the boil to 20 °C."""
    hot, cold = (PropsSI("D", "T", celsius + 273.15, "P", 101325, "Water") for celsius in (99.9, 20))
    shrinkage = 1 - hot / cold
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
