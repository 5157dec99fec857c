"""Sulfite by molar mass, against the atomic masses of an outside library."""

import pytest
from chemicals.elements import molecular_weight, nested_formula_parser

from mashwright.brewing.sulfite import SHARE_OF_POTASSIUM, SHARE_OF_SODIUM, TABLET_G, sulfur_dioxide_mg


def molar_mass(formula: str) -> float:
    return float(molecular_weight(nested_formula_parser(formula)))


@pytest.mark.parametrize(("formula", "share"), [("K2S2O5", SHARE_OF_POTASSIUM), ("Na2S2O5", SHARE_OF_SODIUM)])
def test_two_molecules_of_sulfur_dioxide_come_of_one_of_metabisulfite(formula: str, share: float) -> None:
    assert share == pytest.approx(2 * molar_mass("SO2") / molar_mass(formula), rel=2e-4)


def test_a_gram_of_the_potassium_salt() -> None:
    """Winemaking's rule that 57 to 58 % of potassium metabisulfite is sulfur dioxide; common practice."""
    assert 570 < sulfur_dioxide_mg(0.001, sodium=False) < 580


def test_a_tablet_in_a_gallon_of_juice() -> None:
    """One Campden tablet gives an imperial gallon 50 to 70 mg/l; common practice."""
    assert 50 < sulfur_dioxide_mg(TABLET_G / 1000, sodium=False) / 4.54609 < 70
    assert 50 < sulfur_dioxide_mg(TABLET_G / 1000, sodium=True) / 4.54609 < 70


def test_nothing_gives_nothing_and_less_is_refused() -> None:
    assert sulfur_dioxide_mg(0, sodium=True) == 0
    with pytest.raises(ValueError, match="weight_kg must not be negative, not -1"):
        sulfur_dioxide_mg(-1, sodium=True)
