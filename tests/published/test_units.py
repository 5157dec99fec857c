"""Units against pint (the reference library of physical units) and against printed definitions."""

from typing import Any

import pint
import pytest

from mashwright.measures.quantity import read_quantity
from mashwright.measures.units import Kind, from_canonical, to_canonical


@pytest.fixture(scope="module")
def registry() -> Any:
    return pint.UnitRegistry()


@pytest.mark.parametrize(
    ("unit", "kind", "expression", "canonical"),
    [
        ("kg", Kind.MASS, "kilogram", "kilogram"),
        ("g", Kind.MASS, "gram", "kilogram"),
        ("mg", Kind.MASS, "milligram", "kilogram"),
        ("t", Kind.MASS, "metric_ton", "kilogram"),
        ("lb", Kind.MASS, "pound", "kilogram"),
        ("lb oz", Kind.MASS, "pound", "kilogram"),
        ("oz", Kind.MASS, "ounce", "kilogram"),
        ("stone", Kind.MASS, "stone", "kilogram"),
        ("cwt", Kind.MASS, "long_hundredweight", "kilogram"),
        ("US cwt", Kind.MASS, "hundredweight", "kilogram"),
        ("l", Kind.VOLUME, "liter", "liter"),
        ("ml", Kind.VOLUME, "milliliter", "liter"),
        ("hl", Kind.VOLUME, "hectoliter", "liter"),
        ("gal", Kind.VOLUME, "gallon", "liter"),
        ("US gal", Kind.VOLUME, "gallon", "liter"),
        ("qt", Kind.VOLUME, "quart", "liter"),
        ("US qt", Kind.VOLUME, "quart", "liter"),
        ("pt", Kind.VOLUME, "pint", "liter"),
        ("US pt", Kind.VOLUME, "pint", "liter"),
        ("fl oz", Kind.VOLUME, "fluid_ounce", "liter"),
        ("US fl oz", Kind.VOLUME, "fluid_ounce", "liter"),
        ("imp gal", Kind.VOLUME, "imperial_gallon", "liter"),
        ("imp qt", Kind.VOLUME, "imperial_quart", "liter"),
        ("imp pt", Kind.VOLUME, "imperial_pint", "liter"),
        ("imp fl oz", Kind.VOLUME, "imperial_fluid_ounce", "liter"),
        ("US barrels", Kind.VOLUME, "beer_barrel", "liter"),
        ("British barrels", Kind.VOLUME, "imperial_barrel", "liter"),
        ("min", Kind.TIME, "minute", "minute"),
        ("s", Kind.TIME, "second", "minute"),
        ("h", Kind.TIME, "hour", "minute"),
        ("d", Kind.TIME, "day", "minute"),
        ("weeks", Kind.TIME, "week", "minute"),
        ("months", Kind.TIME, "month", "minute"),
        ("years", Kind.TIME, "year", "minute"),
        ("bar", Kind.PRESSURE, "bar", "bar"),
        ("mbar", Kind.PRESSURE, "millibar", "bar"),
        ("psi", Kind.PRESSURE, "psi", "bar"),
        ("kPa", Kind.PRESSURE, "kilopascal", "bar"),
        ("atm", Kind.PRESSURE, "atmosphere", "bar"),
        ("mg/l", Kind.CONCENTRATION, "milligram/liter", "milligram/liter"),
        ("g/l", Kind.CONCENTRATION, "gram/liter", "milligram/liter"),
        ("grains/gal", Kind.CONCENTRATION, "grain/gallon", "milligram/liter"),
        ("grains/US gal", Kind.CONCENTRATION, "grain/gallon", "milligram/liter"),
        ("grains/imp gal", Kind.CONCENTRATION, "grain/imperial_gallon", "milligram/liter"),
        ("l/kg", Kind.THICKNESS, "liter/kilogram", "liter/kilogram"),
        ("qt/lb", Kind.THICKNESS, "quart/pound", "liter/kilogram"),
        ("imp qt/lb", Kind.THICKNESS, "imperial_quart/pound", "liter/kilogram"),
        ("pt/lb", Kind.ABSORPTION, "pint/pound", "liter/kilogram"),
        ("imp pt/lb", Kind.ABSORPTION, "imperial_pint/pound", "liter/kilogram"),
        ("US qt/lb", Kind.THICKNESS, "quart/pound", "liter/kilogram"),
        ("US pt/lb", Kind.ABSORPTION, "pint/pound", "liter/kilogram"),
        ("US gal/lb", Kind.ABSORPTION, "gallon/pound", "liter/kilogram"),
        ("US gal/h", Kind.RATE, "gallon/hour", "liter/hour"),
        ("oz/US gal", Kind.DOSE, "ounce/gallon", "gram/liter"),
        ("h min", Kind.TIME, "hour", "minute"),
        ("gal/lb", Kind.ABSORPTION, "gallon/pound", "liter/kilogram"),
        ("imp gal/lb", Kind.ABSORPTION, "imperial_gallon/pound", "liter/kilogram"),
        ("l/h", Kind.RATE, "liter/hour", "liter/hour"),
        ("l/min", Kind.RATE, "liter/minute", "liter/hour"),
        ("ml/min", Kind.RATE, "milliliter/minute", "liter/hour"),
        ("gal/h", Kind.RATE, "gallon/hour", "liter/hour"),
        ("qt/h", Kind.RATE, "quart/hour", "liter/hour"),
        ("imp gal/h", Kind.RATE, "imperial_gallon/hour", "liter/hour"),
        ("g/l", Kind.DOSE, "gram/liter", "gram/liter"),
        ("g/hl", Kind.DOSE, "gram/hectoliter", "gram/liter"),
        ("mg/l", Kind.DOSE, "milligram/liter", "gram/liter"),
        ("oz/gal", Kind.DOSE, "ounce/gallon", "gram/liter"),
        ("oz/imp gal", Kind.DOSE, "ounce/imperial_gallon", "gram/liter"),
        ("lb/US barrel", Kind.DOSE, "pound/beer_barrel", "gram/liter"),
        ("lb/British barrel", Kind.DOSE, "pound/imperial_barrel", "gram/liter"),
        ("m", Kind.ALTITUDE, "meter", "meter"),
        ("ft", Kind.ALTITUDE, "foot", "meter"),
    ],
)
def test_units_against_pint(registry: Any, unit: str, kind: Kind, expression: str, canonical: str) -> None:
    """Pint, Python library of physical units, its registry of definitions."""
    assert to_canonical(1, unit, kind) == pytest.approx(registry(expression).to(canonical).magnitude, rel=1e-9)


@pytest.mark.parametrize(("unit", "name"), [("°F", "degF"), ("°Réaumur", "degRe"), ("°C", "degC")])
@pytest.mark.parametrize("degrees", [-10.0, 0.0, 37.5, 152.0])
def test_temperatures_against_pint(registry: Any, unit: str, name: str, degrees: float) -> None:
    """Pint, Python library of physical units, its registry of definitions."""
    expected = registry.Quantity(degrees, name).to("degC").magnitude
    assert to_canonical(degrees, unit, Kind.TEMPERATURE) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        # Weights and Measures Act 1985 (UK): gallon 4.54609 l, pound 0.45359237 kg. NIST Handbook 44, appendix C:
        # US gallon 3.785411784 l. Casks and quarters: common practice of the trade.
        ("1 quarter of malt", Kind.MASS, 336 * 0.45359237),
        ("1 bushel", Kind.MASS, 42 * 0.45359237),
        ("8 bushels", Kind.MASS, 336 * 0.45359237),
        ("1 US bushel", Kind.MASS, 34 * 0.45359237),
        ("1 American bushel", Kind.MASS, 34 * 0.45359237),
        ("1 quarter of brewing sugar", Kind.MASS, 224 * 0.45359237),
        ("2 cwt", Kind.MASS, 224 * 0.45359237),
        ("1 US cwt", Kind.MASS, 45.359237),
        ("1 stone", Kind.MASS, 6.35029318),
        ("1 British barrel", Kind.VOLUME, 163.65924),
        ("1 American barrel", Kind.VOLUME, 117.347765304),
        ("1 pin", Kind.VOLUME, 163.65924 / 8),
        ("1 firkin", Kind.VOLUME, 163.65924 / 4),
        ("1 kilderkin", Kind.VOLUME, 163.65924 / 2),
        ("1 hogshead", Kind.VOLUME, 163.65924 * 1.5),
        # common practice: a barrel of water weighs 360 lb, so 36 lb of excess is a gravity of 1.1
        ("36 lb/barrel", Kind.GRAVITY, 1.1),
        ("18 brewer's pounds", Kind.GRAVITY, 1.05),
        # NIST Handbook 44, appendix C: 1 grain = 64.79891 mg
        ("1 grain per gallon", Kind.CONCENTRATION, 17.1181),
        ("1 grain per imperial gallon", Kind.CONCENTRATION, 14.2538),
    ],
)
def test_archaic_measures(text: str, kind: Kind, value: float) -> None:
    quantity = read_quantity(text, kind)
    assert quantity.range.typical == pytest.approx(value, rel=3e-5)
    assert quantity.reading


@pytest.mark.parametrize(
    ("plato", "gravity"),
    [(0.1, 1.00039), (0.3, 1.00117), (3.8, 1.01490), (4.0, 1.01569), (4.1, 1.01609), (7.7, 1.03058), (7.9, 1.03139)],
)
def test_gravity_of_sucrose_solutions(plato: float, gravity: float) -> None:
    """USDA Agricultural Marketing Service, Sucrose Conversion Table, file code 135-A-50."""
    assert to_canonical(plato, "°P", Kind.GRAVITY) == pytest.approx(gravity, abs=0.00003)


def test_gravity_against_the_published_anchor() -> None:
    """9.99325 °Bx, 9.99359 °P and 9.99249 % (ICUMSA) are published for SG 1.040."""
    assert from_canonical(1.040, "°P", Kind.GRAVITY) == pytest.approx(9.9933, abs=0.0005)


@pytest.mark.parametrize("plato", [5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0])
def test_gravity_against_the_density_of_sucrose(plato: float) -> None:
    """ICUMSA density of sucrose solutions at 20 °C, as a polynomial in the mass fraction; air taken as 1.2 kg/m³."""
    w = plato / 100
    density = 998.203 + w * (385.1761 + w * (135.3705 + w * (40.9299 + w * (-3.9643 + w * (13.4853 - 17.2890 * w)))))
    expected = (density - 1.2) / (998.203 - 1.2)
    assert to_canonical(plato, "°P", Kind.GRAVITY) == pytest.approx(expected, abs=0.0001)


def test_diastatic_power_of_wheat_malt() -> None:
    """Oxford Companion to Beer, "Lintner": °WK = 3.5 °Lintner - 16; wheat malt of 317 °WK has 95 °Lintner."""
    assert to_canonical(317, "°WK", Kind.DIASTATIC_POWER) == pytest.approx(95.1, abs=0.05)


@pytest.mark.parametrize(("lovibond", "srm"), [(10, 12.8), (40, 53.4)])
def test_malt_colour(lovibond: float, srm: float) -> None:
    """Common practice: SRM = 1.3546 °L - 0.76; printed anchors 10 °L ~ 12.7 and 40 °L ~ 53.4 SRM."""
    assert from_canonical(lovibond, "SRM", Kind.MALT_COLOUR) == pytest.approx(srm, abs=0.1)


def test_beer_colour() -> None:
    """By definition SRM is 12.7 and EBC 25 times the absorbance at 430 nm; at 2 they are 25.4 and 50."""
    assert from_canonical(25.4, "EBC", Kind.BEER_COLOUR) == pytest.approx(50, abs=0.05)


def test_alkalinity() -> None:
    """From molar masses: 10 °dH are 178.5 mg/l as CaCO3 and 3.57 mEq/l; 1 °fH is 10 mg/l by definition."""
    assert to_canonical(10, "°dH", Kind.ALKALINITY) == pytest.approx(178.5, abs=0.1)
    assert from_canonical(178.5, "mEq/l", Kind.ALKALINITY) == pytest.approx(3.57, abs=0.01)
    assert to_canonical(1, "°fH", Kind.ALKALINITY) == 10


def test_extract() -> None:
    """1 ppg = 8.3454 l°/kg from the exact pound and gallon; sucrose has 46.2 ppg and 385.6 l°/kg."""
    share = to_canonical(1, "ppg", Kind.EXTRACT)
    assert from_canonical(share, "l°/kg", Kind.EXTRACT) == pytest.approx(8.3454, abs=1e-4)
    assert from_canonical(100, "l°/kg", Kind.EXTRACT) == pytest.approx(385.6, abs=0.1)


def test_carbonation() -> None:
    """IUPAC-NIST Solubility Database: CO2 has 22.2605 l/mol at 0 °C and 1 atm; molar mass 44.0095 g/mol."""
    assert to_canonical(44.0095 / 22.2605, "g/l", Kind.CARBONATION) == pytest.approx(1, abs=1e-4)
