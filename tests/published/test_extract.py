"""Extract of malts and sugars against printed tables."""

import pytest

from mashwright.brewing.extract import (
    as_is,
    steeped_share,
    wort_limit_plato,
)
from mashwright.brewing.gravity import gravity_of, points, specific_gravity
from mashwright.reading.quantity import Kind, from_canonical, to_canonical


def in_unit(extract_percent: float, unit: str) -> float:
    return from_canonical(extract_percent, unit, Kind.EXTRACT)


def of_ppg(points_per_pound_gallon: float) -> float:
    """Kg of extract in a kg."""
    return to_canonical(points_per_pound_gallon, "ppg", Kind.EXTRACT) / 100


POUND_KG = 0.45359237
GALLON_L = 3.785411784


@pytest.mark.parametrize(
    ("yield_percent", "printed"),
    [(80, 37), (81, 38), (75, 35), (74, 34), (72, 33), (70, 32), (55, 25), (63, 29), (77, 36), (100, 46)],
)
def test_points_of_typical_malts(yield_percent: float, printed: float) -> None:
    """J. Palmer, How to Brew, 1st ed., chapter 12, table of typical malt yields; printed whole, rounded unevenly."""
    assert in_unit(yield_percent, "ppg") == pytest.approx(printed, abs=1)


def test_pale_ale_malt_at_85_percent() -> None:
    """J. Palmer, How to Brew, 1st ed., chapter 12: maximum 38, at 85 % 32 points."""
    assert in_unit(81, "ppg") == pytest.approx(37.4, abs=0.1)
    assert in_unit(81, "ppg") * 0.85 == pytest.approx(32, abs=1)


def test_litre_degrees_of_sucrose() -> None:
    """G. Noonan, article on malt analysis: 46.214 points; 46.2 are 385.6 litre-degrees, exact by the units."""
    assert in_unit(100, "l°/kg") / in_unit(100, "ppg") == pytest.approx(8.3454, abs=0.0001)
    assert in_unit(100, "l°/kg") == pytest.approx(385.6, abs=0.2)
    assert in_unit(100, "l°/kg") == pytest.approx(46.214 * 8.3454, abs=0.2)


@pytest.mark.parametrize(("grams_per_litre", "litre_degrees"), [(50, 386.6), (100, 385.6), (150, 384.8), (200, 384.0)])
def test_sucrose_falls_a_little_with_strength(grams_per_litre: float, litre_degrees: float) -> None:
    """Density of sucrose solutions, NBS C440."""
    assert points(gravity_of(grams_per_litre / 1000, 1)) / grams_per_litre * 1000 == pytest.approx(
        litre_degrees, abs=0.2
    )


@pytest.mark.parametrize("extract_percent", [55, 75.27, 100])
@pytest.mark.parametrize("unit", ["ppg", "l°/kg"])
def test_units_back_and_forth(extract_percent: float, unit: str) -> None:
    """Arithmetic."""
    assert to_canonical(in_unit(extract_percent, unit), unit, Kind.EXTRACT) == pytest.approx(extract_percent)


def test_moisture_is_taken_off_the_extract_and_not_off_the_malt() -> None:
    """G. Noonan, article on malt analysis, prints (0.715 - 0.035 - 0.002) × 0.90 = 0.6102, a hundredth too low.

    Another of his books prints E / (1 + M) - 0.002, which agrees with the mass balance to 0.0015.
    """
    printed = (0.715 - 0.035 - 0.002) * 0.90
    assert printed == pytest.approx(0.6102, abs=0.0001)
    assert as_is(0.715, 0.035) * 0.90 == pytest.approx(0.62098, abs=0.0001)
    assert as_is(0.78, 0.035) == pytest.approx(0.7527, abs=0.0001)
    assert as_is(0.78, 0.035) == pytest.approx(0.78 / 1.035 - 0.002, abs=0.0015)
    assert as_is(0.78, 0.035) != pytest.approx(0.78 - 0.035 - 0.002, abs=0.009)


def test_gravity_of_malt_extract_and_grain() -> None:
    """Homebrewer's page on gravity: 6 lb at 45 points and 1 lb at 32 and 70 % in 5 US gal, 58.5 by a straight line.

    By mass of extract it comes to 58.4: the line is good to about 1.08.
    """
    by_points = (6 * 45 + 1 * 32 * 0.70) / 5
    assert by_points == pytest.approx(58.5, abs=0.1)
    kg = POUND_KG * (6 * of_ppg(45) + 0.70 * of_ppg(32))
    assert points(gravity_of(kg, 5 * GALLON_L)) == pytest.approx(by_points, abs=0.3)


@pytest.mark.parametrize(
    ("water_to_grist", "degrees", "gravity"),
    [(2, 28.57, 1.1223), (3, 21.05, 1.0877), (4, 16.67, 1.0683), (5, 13.79, 1.0560), (6, 11.76, 1.0474)],
)
def test_strongest_first_wort(water_to_grist: float, degrees: float, gravity: float) -> None:
    """Mass balance after K. Troester, Understanding Efficiency, 2008: 0.80 kg extract in a kg of dry grist."""
    assert wort_limit_plato(0.80, water_to_grist) == pytest.approx(degrees, abs=0.02)
    assert specific_gravity(wort_limit_plato(0.80, water_to_grist)) == pytest.approx(gravity, abs=0.0002)


@pytest.mark.parametrize(
    ("kind", "lovibond", "highest", "steeped"),
    [
        ("caramel", 15, 35, 14),
        ("caramel", 40, 34, 22),
        ("caramel", 120, 33, 16),
        ("caramel", 1.8, 32, 4),
        ("kilned", 60, 32, 8),
        ("roasted", 350, 28, 15),
        ("roasted", 500, 25, 21),
    ],
)
def test_measured_steeping_lies_in_the_range(kind: str, lovibond: float, highest: float, steeped: float) -> None:
    """J. Palmer, How to Brew, 1st ed.: 1 lb in 1 US gal at 71 °C for 30 min. Fitted, not a test of the model."""
    share = steeped_share(kind, lovibond)
    assert share.low * highest <= steeped <= share.high * highest + 0.2
