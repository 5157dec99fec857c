"""Alcohol, real extract and attenuation from two gravities, against published balances and measurements."""

from typing import Final

import pytest

import mashwright
from mashwright.brewing.alcohol import (
    alcohol_by_mass,
    alcohol_by_volume,
    apparent_attenuation,
    final_gravity,
    real_degree,
    real_extract,
)
from mashwright.brewing.gravity import plato, specific_gravity
from mashwright.measures.constants import ETHANOL_TO_WATER

ETHANOL_WATER: Final = (
    998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388,
    306287.4042, -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426,
)  # fmt: skip


def ethanol_water_density(by_mass: float) -> float:
    """kg/m³ at 20 °C: OIML R22 (1975), the same as Council Directive 76/766/EEC, annex."""
    return sum(a * by_mass**k for k, a in enumerate(ETHANOL_WATER))


@pytest.mark.parametrize(
    ("og", "fg", "extract", "by_mass", "by_volume"),
    [
        (1.040, 1.010, 3.905, 3.107, 3.97),
        (1.050, 1.010, 4.337, 4.162, 5.32),
        (1.060, 1.012, 5.179, 5.008, 6.41),
        (1.080, 1.016, 6.836, 6.717, 8.63),
        (1.100, 1.020, 8.460, 8.444, 10.89),
    ],
)
def test_common_beers(og: float, fg: float, extract: float, by_mass: float, by_volume: float) -> None:
    """H. Nielsen et al., Balling's Formula, Scandinavian School of Brewing; worked with the ASBC fit for degrees."""
    assert real_extract(og, fg) == pytest.approx(extract, abs=0.005)
    assert alcohol_by_mass(og, fg) == pytest.approx(by_mass, abs=0.005)
    assert alcohol_by_volume(og, fg) == pytest.approx(by_volume, abs=0.01)


@pytest.mark.parametrize(("og", "fg"), [(1.040, 1.010), (1.050, 1.012), (1.080, 1.016), (1.100, 1.020), (1.12, 1.03)])
def test_balling_balance_closes(og: float, fg: float) -> None:
    """H. Nielsen et al., Balling's Formula: 100 (2.0665 A + RE) / (100 + 1.0665 A) is the original extract again."""
    alcohol, rest = alcohol_by_mass(og, fg), real_extract(og, fg)
    assert 100 * (2.0665 * alcohol + rest) / (100 + 1.0665 * alcohol) == pytest.approx(plato(og), abs=1e-10)


@pytest.mark.parametrize(
    ("original", "apparent", "measured"), [(14.08, 3.11, 4.72), (17.67, 2.45, 6.56), (12.75, 2.79, 4.21)]
)
def test_measured_brews(original: float, apparent: float, measured: float) -> None:
    """A. J. Cutaia, A.-J. Reid, R. A. Speers, J. Inst. Brew. 115(4), 2009, tables III and VI: means of data sets."""
    og, fg = specific_gravity(original), specific_gravity(apparent)
    assert alcohol_by_mass(og, fg) == pytest.approx(measured, abs=0.1)
    fitted = [(0.395 + 0.0021 * original) * (original - apparent), (0.372 + 0.00357 * original) * (original - apparent)]
    assert alcohol_by_mass(og, fg) == pytest.approx(fitted[0], abs=0.07)
    assert alcohol_by_mass(og, fg) == pytest.approx(fitted[1], abs=0.08)


@pytest.mark.parametrize(("og", "fg", "linear"), [(1.050, 1.010, 5.25), (1.080, 1.016, 8.40), (1.100, 1.020, 10.50)])
def test_the_linear_rule_is_a_little_low(og: float, fg: float, linear: float) -> None:
    """Homebrewer's page on gravity: 131.25 × (OG - FG)."""
    assert 131.25 * (og - fg) == pytest.approx(linear, abs=0.005)
    assert 0 < alcohol_by_volume(og, fg) - linear < 0.41


def test_the_steep_formula_is_too_high_for_strong_beer() -> None:
    """M. L. Hall, Zymurgy 18(2), 1995 (constants from memory) gives 11.58 at 1.100 to 1.020.

    UK revenue practice, at most 0.135 % a point [uk-customs-strength], gives 10.8 and sides with the balance.
    """
    steep = 76.08 * 0.080 / (1.775 - 1.100) * 1.020 / 0.794
    assert steep == pytest.approx(11.58, abs=0.01)
    assert alcohol_by_volume(1.100, 1.020) == pytest.approx(0.135 * 80, abs=0.15)
    assert alcohol_by_volume(1.100, 1.020) < steep - 0.6


def test_density_of_ethanol() -> None:
    """OIML R22 (1975): 789.239 kg/m³ at 20 °C, and that of water."""
    assert ethanol_water_density(1) == pytest.approx(789.239, abs=0.005)
    assert pytest.approx(ethanol_water_density(1) / ethanol_water_density(0), abs=0.00001) == ETHANOL_TO_WATER


@pytest.mark.parametrize(
    ("by_volume", "by_mass", "density"),
    [
        (1, 0.7919, 996.697),
        (2, 1.5860, 995.233),
        (3, 2.3825, 993.806),
        (4, 3.1811, 992.414),
        (5, 3.9818, 991.055),
        (6, 4.7846, 989.728),
        (8, 6.3960, 987.164),
        (10, 8.0149, 984.710),
        (12, 9.6410, 982.355),
    ],
)
def test_mass_to_volume(by_volume: float, by_mass: float, density: float) -> None:
    """OIML R22 (1975): per cent by mass times the gravity over the ratio of densities is per cent by volume.

    The polynomial stands in this file only; the program has the ratio, and the rule that turns mass into volume by it.
    """
    assert ethanol_water_density(by_mass / 100) == pytest.approx(density, abs=0.005)
    gravity = ethanol_water_density(by_mass / 100) / ethanol_water_density(0)
    assert by_mass * gravity / ETHANOL_TO_WATER == pytest.approx(by_volume, abs=0.001)


@pytest.mark.parametrize(("by_mass", "printed_volume", "printed_density"), [(5, 6.2, 0.989), (10, 12.4, 0.981)])
def test_another_table_of_ethanol_and_water(by_mass: float, printed_volume: float, printed_density: float) -> None:
    """A separate water-ethanol table [ethanol-water-table], which cuts off its last digit."""
    density = ethanol_water_density(by_mass / 100)
    assert density / 1000 == pytest.approx(printed_density, abs=0.001)
    by_volume = by_mass * density / ethanol_water_density(0) / ETHANOL_TO_WATER
    assert by_volume == pytest.approx(printed_volume, abs=0.08)


def test_two_forms_in_an_encyclopaedia() -> None:
    """Encyclopaedia article on gravity [gravity-encyclopaedia]: 1.050 to 1.010 is 5.31 % (short) or 5.23 % (long)."""
    assert alcohol_by_volume(1.050, 1.010) == pytest.approx(5.31, abs=0.02)
    assert alcohol_by_volume(1.050, 1.010) == pytest.approx(5.23, abs=0.1)


@pytest.mark.parametrize(
    ("og", "fg", "linear", "steep"),
    [
        (1.040, 1.010, 3.94, 3.95),
        (1.050, 1.010, 5.25, 5.34),
        (1.060, 1.012, 6.30, 6.51),
        (1.080, 1.016, 8.40, 8.97),
        (1.100, 1.020, 10.50, 11.58),
    ],
)
def test_the_balance_lies_between_the_two_quick_formulas(og: float, fg: float, linear: float, steep: float) -> None:
    """Homebrewer's page on gravity [uchima-gravity], and M. L. Hall, Zymurgy 18(2), 1995, constants from memory.

    At 1.040 all three agree within 0.04 and the balance is the highest by a hair; above that it lies between them.
    """
    assert 131.25 * (og - fg) == pytest.approx(linear, abs=0.005)
    assert 76.08 * (og - fg) / (1.775 - og) * fg / 0.794 == pytest.approx(steep, abs=0.006)
    ours = alcohol_by_volume(og, fg)
    assert linear < ours < steep + 0.03


def test_attenuation_of_an_example() -> None:
    """Encyclopaedia article on gravity: 1.050 to 1.010 is 80 % apparent, by points; 79.3 % by °P, 65.0 % real."""
    assert apparent_attenuation(1.050, 1.010) == pytest.approx(80.0, abs=0.001)
    assert 100 * (1 - plato(1.010) / plato(1.050)) == pytest.approx(79.3, abs=0.1)
    assert real_degree(1.050, 1.010) == pytest.approx(65.0, abs=0.1)
    assert final_gravity(1.050, 80.0) == pytest.approx(1.010)


@pytest.mark.parametrize(
    ("og", "fg", "low", "high"),
    [(1.050, 1.010, 5.23, 5.32), (1.0572, 1.0122, 5.94, 6.14)],
)
def test_alcohol_of_stated_and_of_measured_gravities(og: float, fg: float, low: float, high: float) -> None:
    """Gravity (alcoholic beverage), encyclopaedia: 5.31 and 5.23 % for 1.050 to 1.010 by its two forms.

    The second row is the mean of 14.08 and 3.11 °P of A. J. Cutaia, A.-J. Reid, R. A. Speers, J. Inst. Brew. 115(4)
    (2009) 318-327: 4.72 % by mass was measured, which is 6.04 % by volume.
    """
    for text in (f"targets: {{og: {og}, fg: {fg}}}", f"measured: [{{og: {og}, fg: {fg}}}]"):
        recipe = f"recipe: A\nbatch: 20 l\ngrist: [{{grain: pale ale malt, weight: 5 kg}}]\n{text}\n"
        rows = {row.id: row for row in mashwright.figures_of(recipe).rows}
        found = rows["stated-abv" if text.startswith("targets") else "measured-abv"].typical
        assert found is not None
        assert low <= found <= high
