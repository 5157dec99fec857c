"""Water and acids against printed figures, molar masses and units of outside libraries."""

import pytest
from chemicals import MW
from chemicals.elements import molecular_weight, nested_formula_parser
from pint import UnitRegistry

from mashwright.brewing.acids import ACIDS, carbonate_share_removed, density_kg_l, meq_per_ml
from mashwright.brewing.water import ION_G_MOL, SALTS, milliequivalents, residual_alkalinity_meq_l, salt_gives
from mashwright.measures.constants import BICARBONATE_MG_PER_MEQ, CACO3_MG_PER_MEQ
from mashwright.measures.units import Kind, from_canonical, to_canonical

CRYSTAL_WATER = {"·2H2O": 2, "·6H2O": 6, "·7H2O": 7}


def molar_mass(formula: str) -> float:
    for tail, molecules in CRYSTAL_WATER.items():
        if formula.endswith(tail):
            return molar_mass(formula.removesuffix(tail)) + molecules * molar_mass("H2O")
    return float(molecular_weight(nested_formula_parser(formula)))


@pytest.mark.parametrize("name", SALTS)
def test_molar_masses_of_salts(name: str) -> None:
    """The chemicals library, atomic weights."""
    assert SALTS[name].g_mol == pytest.approx(molar_mass(SALTS[name].formula), abs=0.03)


@pytest.mark.parametrize(
    ("ion", "formula"),
    [
        ("calcium", "Ca"),
        ("magnesium", "Mg"),
        ("sodium", "Na"),
        ("chloride", "Cl"),
        ("sulfate", "SO4"),
        ("bicarbonate", "HCO3"),
    ],
)
def test_molar_masses_of_ions(ion: str, formula: str) -> None:
    """The chemicals library, atomic weights; an electron more or less does not show."""
    assert ION_G_MOL[ion] == pytest.approx(molar_mass(formula), abs=0.01)


@pytest.mark.parametrize(
    ("acid", "cas"),
    [
        ("lactic acid", "50-21-5"),
        ("phosphoric acid", "7664-38-2"),
        ("hydrochloric acid", "7647-01-0"),
        ("sulfuric acid", "7664-93-9"),
        ("citric acid", "77-92-9"),
        ("tartaric acid", "87-69-4"),
        ("malic acid", "6915-15-7"),
    ],
)
def test_molar_masses_of_acids(acid: str, cas: str) -> None:
    """The chemicals library, by CAS number."""
    assert ACIDS[acid].g_mol == pytest.approx(MW(cas), abs=0.03)


# grams to the litre -> mg/l, own calculation from molar masses; 61.5 mg/l of calcium by 1 g of gypsum in a US gallon
# also stands in Palmer, How to Brew, 1st ed., chapter 15
@pytest.mark.parametrize(
    ("salt", "ion", "in_a_litre", "in_a_gallon"),
    [
        ("gypsum", "calcium", 232.8, 61.5),
        ("gypsum", "sulfate", 557.9, 147.4),
        ("calcium chloride dihydrate", "calcium", 272.6, 72.0),
        ("calcium chloride dihydrate", "chloride", 482.3, 127.4),
        ("Epsom salt", "magnesium", 98.6, 26.1),
        ("Epsom salt", "sulfate", 389.7, 103.0),
        ("baking soda", "sodium", 273.7, 72.3),
    ],
)
def test_what_a_gram_gives(salt: str, ion: str, in_a_litre: float, in_a_gallon: float) -> None:
    """Own calculation from molar masses, and Palmer's gypsum."""
    given = salt_gives(salt)[ion].typical
    units: UnitRegistry[float] = UnitRegistry()
    gallon_l = (1 * units.gallon).to("liter").magnitude
    assert given == pytest.approx(in_a_litre, abs=0.1)
    assert given / gallon_l == pytest.approx(in_a_gallon, abs=0.1)


def test_a_gram_of_gypsum_in_ten_litres() -> None:
    """Own calculation: calcium 23.3 and sulfate 55.8 mg/l."""
    given = salt_gives("gypsum")
    assert given["calcium"].typical / 10 == pytest.approx(23.3, abs=0.1)
    assert given["sulfate"].typical / 10 == pytest.approx(55.8, abs=0.1)


@pytest.mark.parametrize(("salt", "meq"), [("baking soda", 11.90), ("chalk", 19.98), ("slaked lime", 26.99)])
def test_alkalinity_of_salts(salt: str, meq: float) -> None:
    """Own calculation from molar masses, mEq by a gram, all of it dissolved."""
    assert salt_gives(salt)["alkalinity"].high == pytest.approx(meq, abs=0.01)


def test_chalk_if_it_all_dissolves() -> None:
    """Own calculation: calcium 400.4 mg/l by 1 g/l, 105.8 in a US gallon; carbonate 599.6 and 158.4."""
    calcium, gallon_l = salt_gives("chalk")["calcium"].high, 3.785411784
    assert calcium == pytest.approx(400.4, abs=0.1)
    assert calcium / gallon_l == pytest.approx(105.8, abs=0.1)
    carbonate = salt_gives("chalk")["alkalinity"].high * molar_mass("CO3") / 2
    assert carbonate == pytest.approx(599.6, abs=0.1)
    assert carbonate / gallon_l == pytest.approx(158.4, abs=0.1)


def test_baking_soda_as_bicarbonate() -> None:
    """Own calculation: 726.3 mg/l of bicarbonate by 1 g/l, 191.9 by 1 g in a US gallon."""
    in_a_gallon = salt_gives("baking soda")["alkalinity"].typical * BICARBONATE_MG_PER_MEQ / 3.785411784
    assert in_a_gallon == pytest.approx(191.9, abs=0.1)
    assert salt_gives("baking soda")["alkalinity"].typical * BICARBONATE_MG_PER_MEQ == pytest.approx(726.3, abs=0.2)


@pytest.mark.parametrize(("salt", "printed", "ion_mg"), [("chalk", 1220, 599.6), ("slaked lime", 1646, 459.1)])
def test_tables_that_print_bicarbonate_as_carbonate(salt: str, printed: float, ion_mg: float) -> None:
    """Some tables print 1220 and 1646 mg/l of "carbonate" and "hydroxide" for 1 g/l of chalk and lime.

    Those are bicarbonate equivalents, alkalinity times 61; the ion itself is 599.6 mg/l of carbonate, or 459.1 of
    hydroxide, which must not be taken for it.
    """
    alkalinity = salt_gives(salt)["alkalinity"].high
    assert alkalinity * BICARBONATE_MG_PER_MEQ == pytest.approx(printed, abs=2)
    assert ion_mg != pytest.approx(printed, rel=0.4)
    assert {"carbonate", "hydroxide"}.isdisjoint(salt_gives(salt))


def test_calcium_chloride_lies_between_its_two_forms() -> None:
    """Common practice: as sold it lies between the dihydrate and the anhydrous salt, 272.6 and 361.1 mg/l."""
    calcium = salt_gives("calcium chloride")["calcium"]
    assert calcium.low == pytest.approx(272.6, abs=0.1)
    assert calcium.high == pytest.approx(361.1, abs=0.1)


@pytest.mark.parametrize(
    ("alkalinity_mg", "calcium", "magnesium", "expected_mg"), [(100, 50, 10, 58.4), (300, 120, 8, 209.6)]
)
def test_residual_alkalinity(alkalinity_mg: float, calcium: float, magnesium: float, expected_mg: float) -> None:
    """Palmer, How to Brew, 1st ed., chapter 15, and MEBAK W-030.01.900: Kolbach's formula; own calculation."""
    meq = residual_alkalinity_meq_l(alkalinity_mg / CACO3_MG_PER_MEQ, calcium, magnesium)
    assert meq * CACO3_MG_PER_MEQ == pytest.approx(expected_mg, abs=0.1)
    assert alkalinity_mg - calcium / 1.4016 - magnesium / 1.7000 == pytest.approx(expected_mg, abs=0.1)


def test_residual_alkalinity_in_its_units() -> None:
    """Own calculation: 58.4 mg/l as CaCO3 are 1.17 mEq/l and 3.27 °dH."""
    meq = residual_alkalinity_meq_l(100 / CACO3_MG_PER_MEQ, 50, 10)
    assert meq == pytest.approx(1.17, abs=0.01)
    assert from_canonical(meq * CACO3_MG_PER_MEQ, "°dH", Kind.ALKALINITY) == pytest.approx(3.27, abs=0.01)


@pytest.mark.parametrize(
    ("value", "unit", "mg_caco3"),
    [(10, "°dH", 178.5), (1, "mEq/l", 50.04), (1, "°fH", 10.0), (2.804, "°dH", 50.04), (5.004, "°fH", 50.04)],
)
def test_units_of_alkalinity(value: float, unit: str, mg_caco3: float) -> None:
    """Own calculation from molar masses; Troester, How to read a water report [troester-water-report], for °fH."""
    assert to_canonical(value, unit, Kind.ALKALINITY) == pytest.approx(mg_caco3, abs=0.1)


def test_ten_german_degrees_in_milliequivalents() -> None:
    """Own calculation: 10 °dH = 3.57 mEq/l."""
    assert to_canonical(10, "°dH", Kind.ALKALINITY) / CACO3_MG_PER_MEQ == pytest.approx(3.57, abs=0.01)


def test_bicarbonate_and_alkalinity() -> None:
    """Own calculation: bicarbonate = 1.219 × alkalinity as CaCO3."""
    assert pytest.approx(1.219, abs=0.001) == BICARBONATE_MG_PER_MEQ / CACO3_MG_PER_MEQ
    assert milliequivalents("bicarbonate", 61.017) == pytest.approx(1.0)


def test_lactic_acid_of_88_percent() -> None:
    """Own calculation: 11.78 mol/l, of which 11.45 mEq/ml are delivered at pH 5.4."""
    assert density_kg_l("lactic acid", 88) == pytest.approx(1.206, abs=0.001)
    assert meq_per_ml("lactic acid", 88, 14) == pytest.approx(11.78, abs=0.01)
    assert meq_per_ml("lactic acid", 88) == pytest.approx(11.45, abs=0.02)


@pytest.mark.parametrize(("litres", "alkalinity_mg", "ml"), [(20, 100, 3.16), (30, 250, 11.85), (15, 60, 1.42)])
def test_lactic_acid_for_a_water(litres: float, alkalinity_mg: float, ml: float) -> None:
    """Own calculation: litres × mEq/l of alkalinity × 0.905 ÷ 11.45 mEq/ml bring water to pH 5.4."""
    needed = litres * alkalinity_mg / CACO3_MG_PER_MEQ * carbonate_share_removed(5.4) / meq_per_ml("lactic acid", 88)
    assert needed == pytest.approx(litres * alkalinity_mg / 50.04 * 0.905 / 11.45, rel=0.003)
    assert needed == pytest.approx(ml, abs=0.02)


def test_a_normal_solution_of_lactic_acid() -> None:
    """Retailer's page on 88 % lactic acid: 84.7 ml made up to 1 l are 1 N."""
    assert 84.7 * meq_per_ml("lactic acid", 88, 14) == pytest.approx(1000, abs=3)


@pytest.mark.parametrize(("ph", "share"), [(5.4, 0.905), (4.3, 0.99)])
def test_alkalinity_removed_by_acid(ph: float, share: float) -> None:
    """Own calculation with pK1 6.38 of carbonic acid, from memory."""
    assert carbonate_share_removed(ph) == pytest.approx(share, abs=0.002)
