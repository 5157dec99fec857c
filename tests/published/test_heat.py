"""Heat at mashing-in against printed examples and the properties of water."""

import pytest
from CoolProp.CoolProp import PropsSI
from pint import UnitRegistry

from mashwright.brewing.heat import dough_in_temperature_c, strike_temperature_c


def test_the_catalogue_example_is_wrong_by_arithmetic() -> None:
    """Trade catalogue, page 105: 3 % moisture, malt 30 °C, liquor 60 °C, 3 hl to 100 kg "= 65.9 °C".

    That lies above the water; its own formula gives 58.6 °C with its 2.1 °C of slaking, and 56.5 °C without.
    """
    assert dough_in_temperature_c(60, 30, 3.0) == pytest.approx(56.5, abs=0.1)
    assert dough_in_temperature_c(60, 30, 3.0, slaking_c=2.1) == pytest.approx(58.6, abs=0.1)
    assert dough_in_temperature_c(60, 30, 3.0, slaking_c=2.1) != pytest.approx(65.9, abs=5)


def test_brewing_room_book() -> None:
    """Brewing Room Book 1984/85, appendix 4: malt of 2 % moisture at 27 °C, liquor 69 °C, 2.68 kg to 1 kg."""
    assert dough_in_temperature_c(69, 27, 2.68, grain_heat=0.39) == pytest.approx(63.7, abs=0.1)
    assert dough_in_temperature_c(69, 27, 2.68, grain_heat=0.39, slaking_c=2.3) == pytest.approx(66.0, abs=0.1)


def test_first_infusion_in_american_units() -> None:
    """Homebrewing page on multi-rest infusion: 1 qt/lb, grain 65 °F, target 130 °F, strike 143.0 °F.

    Its constant 0.2 for US quarts and pounds is a grain heat of 0.417; with 0.40 the strike is 142.5 °F.
    """
    units: UnitRegistry[float] = UnitRegistry()
    thickness = (1 * units.quart / units.pound).to("l/kg").magnitude

    def celsius(fahrenheit: float) -> float:
        return float(units.Quantity(fahrenheit, "degF").to("degC").magnitude)

    strike_c = strike_temperature_c(celsius(130), celsius(65), thickness, grain_heat=0.2 * thickness)
    assert strike_c == pytest.approx(celsius(143.0), abs=0.05)
    assert strike_temperature_c(celsius(130), celsius(65), thickness) == pytest.approx(celsius(142.5), abs=0.05)


@pytest.mark.parametrize("liquor_to_grist", [2.0, 2.7, 4.0])
def test_heat_balance_with_the_properties_of_water(liquor_to_grist: float) -> None:
    """CoolProp: enthalpy of water between the mash and 75 °C; the grain takes 0.40 of water's heat at 20 °C."""
    mash_c = dough_in_temperature_c(75, 20, liquor_to_grist)
    given = PropsSI("H", "T", 348.15, "P", 101325, "Water") - PropsSI("H", "T", mash_c + 273.15, "P", 101325, "Water")
    taken = 0.40 * PropsSI("C", "T", 293.15, "P", 101325, "Water") * (mash_c - 20)
    assert liquor_to_grist * given == pytest.approx(taken, rel=0.003)


def test_strike_is_the_inverse_of_dough_in() -> None:
    """Arithmetic."""
    assert strike_temperature_c(dough_in_temperature_c(73, 18, 3.1), 18, 3.1) == pytest.approx(73)
