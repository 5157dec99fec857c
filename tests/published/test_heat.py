"""Heat at mashing-in against printed examples and the properties of water."""

import pytest
from CoolProp.CoolProp import PropsSI
from pint import UnitRegistry

from mashwright.brewing.heat import (
    decoction_share,
    grain_heat,
    heat_of_a_litre_kg,
    infusion_water_kg,
    mixed_temperature_c,
    slaking_rise_c,
    strike_temperature_c,
)


def mashed_in_c(liquor_c: float, grain_c: float, liquor_to_grist: float, heat: float = 0.40) -> float:
    """Water and grain mixed, °C, before losses to the vessel and the heat of slaking."""
    return mixed_temperature_c(((heat, grain_c), (liquor_to_grist, liquor_c)))


def test_the_catalogue_example_is_wrong_by_arithmetic() -> None:
    """Trade catalogue, page 105: 3 % moisture, malt 30 °C, liquor 60 °C, 3 hl to 100 kg "= 65.9 °C".

    That lies above the water; its own formula gives 58.6 °C with its 2.1 °C of slaking, and 56.5 °C without.
    """
    assert mashed_in_c(60, 30, 3.0) == pytest.approx(56.5, abs=0.1)
    assert mashed_in_c(60, 30, 3.0) + slaking_rise_c(3) == pytest.approx(58.6, abs=0.1)
    assert mashed_in_c(60, 30, 3.0) + slaking_rise_c(3) != pytest.approx(65.9, abs=5)


def test_brewing_room_book() -> None:
    """Brewing Room Book 1984/85, appendix 4: malt of 2 % moisture at 27 °C, liquor 69 °C, 2.68 kg to 1 kg."""
    assert mashed_in_c(69, 27, 2.68, heat=0.39) == pytest.approx(63.7, abs=0.1)
    assert mashed_in_c(69, 27, 2.68, heat=0.39) + slaking_rise_c(2) == pytest.approx(66.0, abs=0.1)
    assert grain_heat(2) == pytest.approx(0.39)
    assert slaking_rise_c(2) == pytest.approx(2.3)


def test_first_infusion_in_american_units() -> None:
    """Homebrewing page on multi-rest infusion [infusion-pages]: 1 qt/lb, grain 65 °F, target 130 °F, strike 143.0 °F.

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
    mash_c = mashed_in_c(75, 20, liquor_to_grist)
    given = PropsSI("H", "T", 348.15, "P", 101325, "Water") - PropsSI("H", "T", mash_c + 273.15, "P", 101325, "Water")
    taken = 0.40 * PropsSI("C", "T", 293.15, "P", 101325, "Water") * (mash_c - 20)
    assert liquor_to_grist * given == pytest.approx(taken, rel=0.003)


def test_strike_is_the_inverse_of_dough_in() -> None:
    """Arithmetic."""
    assert strike_temperature_c(mashed_in_c(73, 18, 3.1), 18, 3.1) == pytest.approx(73)


CATALOGUE = [
    (0, 0.38, 3.1),
    (1, 0.38, 2.6),
    (2, 0.39, 2.3),
    (3, 0.40, 2.1),
    (4, 0.40, 1.7),
    (6, 0.41, 1.3),
    (8, 0.42, 1.1),
]


@pytest.mark.parametrize(("moisture_percent", "heat", "slaking_c"), CATALOGUE)
def test_grain_heat_and_slaking(moisture_percent: float, heat: float, slaking_c: float) -> None:
    """Trade catalogue, page 105, table of specific heat and slaking heat of malt by its moisture."""
    assert grain_heat(moisture_percent) == pytest.approx(heat)
    assert slaking_rise_c(moisture_percent) == pytest.approx(slaking_c)


@pytest.mark.parametrize(
    ("moisture_percent", "fahrenheit"), [(0, 5.5), (1, 4.7), (2, 4.1), (3, 3.7), (4, 3.1), (6, 2.3), (8, 2.0)]
)
def test_slaking_in_fahrenheit(moisture_percent: float, fahrenheit: float) -> None:
    """Trade catalogue, page 105, the column in °F beside."""
    assert 1.8 * slaking_rise_c(moisture_percent) == pytest.approx(fahrenheit, abs=0.2)


def test_where_the_brewing_room_book_contradicts_itself() -> None:
    """Brewing Room Book 1984/85, appendix 4, prints 2.3 °C beside 3.5 °F at 3 % moisture, and 1.5 beside 3.0 at 4 %.

    Neither pair agrees by 1.8, so the catalogue's values stand in the table instead.
    """
    assert pytest.approx(4.1, abs=0.05) == 2.3 * 1.8
    assert pytest.approx(2.7, abs=0.05) == 1.5 * 1.8
    for celsius, fahrenheit in ((2.3, 3.5), (1.5, 3.0)):
        assert abs(celsius * 1.8 - fahrenheit) > 0.25  # more than rounding to a tenth of both can hide
    assert slaking_rise_c(3) == 2.1
    assert slaking_rise_c(4) == 1.7
    for moisture_percent, fahrenheit in ((3, 3.7), (4, 3.1)):  # the catalogue's own two columns
        assert abs(slaking_rise_c(moisture_percent) * 1.8 - fahrenheit) < 0.1


@pytest.mark.parametrize(
    ("celsius", "joules"), [(4, 4207.5), (20, 4184.1), (38, 4179.3), (65, 4187.3), (77, 4194.6), (99.9, 4215.6)]
)
def test_a_kilogram_of_water_counts_one_at_any_temperature(celsius: float, joules: float) -> None:
    """CoolProp 8.0.0 (IAPWS-95), heat capacity of water, J/(kg K): the sums take it as the same from cold to boiling.

    It moves by less than 0.9 % in all.
    """
    found = PropsSI("C", "T", celsius + 273.15, "P", 101325, "Water")
    assert found == pytest.approx(joules, abs=0.1)
    assert found == pytest.approx(4184.1, rel=0.009)


def test_infusion_to_the_next_rest() -> None:
    """Homebrewing page on multi-rest infusion: 14 lb in 14 qt, 130 to 154 °F with water at 210 °F: 7.2 qt.

    The page rounds it to 7. Its 0.2 for quarts and pounds is in the units of the sum, so a quart counts 1.
    """
    assert infusion_water_kg(130, 154, 210, 0.2 * 14 + 14) == pytest.approx(7.2, abs=0.05)
    assert infusion_water_kg(130, 154, 210, 0.2 * 14 + 14) != pytest.approx(7.0, abs=0.15)


def test_decoction_of_a_part_like_the_whole() -> None:
    """Heat balance by hand: 18 l of mash from 50 to 64 °C by boiling mash: 5.04 l."""
    assert 18 * decoction_share(50, 64, 100) == pytest.approx(5.04, abs=0.01)


def test_thick_decoction() -> None:
    """J. Palmer, How to Brew, as quoted in a forum post: 122 to 150 °F, 9 lb in 11.25 qt, drawn at 0.6 qt/lb: 4.669 qt.

    It counts 2 lb to the quart and 0.32 qt to the pound of grain, so the sum stands in pounds and half quarts.
    """
    share = decoction_share(122, 150, 212)
    drawn_lb = share * (0.4 * 9 + 2 * 11.25) / heat_of_a_litre_kg(2 * 0.6, 0.4, 2 * 0.32)
    assert drawn_lb / 2 == pytest.approx(4.669, abs=0.001)


def test_infusion_against_the_enthalpy_of_water() -> None:
    """CoolProp: 7.3 kg of water from 98 °C to the mixture gives what 14 kg of water and the grain take from 66 °C."""

    def enthalpy(celsius: float) -> float:
        return float(PropsSI("H", "T", celsius + 273.15, "P", 101325, "Water"))

    mash_c = mixed_temperature_c(((0.40 * 4.55 + 14, 66), (7.3, 98)))
    given = 7.3 * (enthalpy(98) - enthalpy(mash_c))
    taken = (14 + 0.40 * 4.55) * (enthalpy(mash_c) - enthalpy(66))
    assert given == pytest.approx(taken, rel=0.005)
