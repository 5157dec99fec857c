"""Beer colour against its definitions and printed tables."""

import numpy as np
import pytest
from pint import UnitRegistry

from mashwright.brewing.colour import SRM_LIMIT, daniels_srm, malt_colour_units, morey_srm, mosher_srm
from mashwright.measures.constants import EBC_PER_SRM
from mashwright.measures.units import Kind, from_canonical, to_canonical


def test_by_definition() -> None:
    """Encyclopaedia article Standard Reference Method: A430 = 2 in 1 cm is 25.4 SRM and 50 EBC."""
    assert from_canonical(25.4, "EBC", Kind.BEER_COLOUR) == pytest.approx(50, abs=0.05)


@pytest.mark.parametrize(("lovibond", "srm"), [(10, 12.8), (40, 53.4)])
def test_malt_colour(lovibond: float, srm: float) -> None:
    """Note on degrees Lovibond [lovibond-note]: SRM = 1.3546 °L - 0.76."""
    assert from_canonical(lovibond, "SRM", Kind.MALT_COLOUR) == pytest.approx(srm, abs=0.1)


def test_malt_colour_units() -> None:
    """Pint: pounds and US gallons; 4.5 kg at 2 °L and 0.5 kg at 60 °L in 20 l are 16.27 MCU."""
    units: UnitRegistry[float] = UnitRegistry()
    factor = (1 * units.kilogram / units.liter).to("pound/gallon").magnitude
    assert malt_colour_units(4.5 * 2 + 0.5 * 60, 20) == pytest.approx(39 / 20 * factor)
    assert malt_colour_units(39, 20) == pytest.approx(16.27, abs=0.01)


def test_a_whole_grist() -> None:
    """Own calculation by Morey's formula: 10.1 SRM, 19.9 EBC."""
    srm = morey_srm(malt_colour_units(39, 20))
    assert srm == pytest.approx(10.1, abs=0.1)
    assert srm * EBC_PER_SRM == pytest.approx(19.9, abs=0.1)


@pytest.mark.parametrize(
    ("mcu", "morey", "ebc", "mosher", "daniels"),
    [
        (1, 1.49, 2.9, 5.0, 8.6),
        (3, 3.17, 6.2, 5.6, 9.0),
        (5, 4.50, 8.9, 6.2, 9.4),
        (10, 7.24, 14.3, 7.7, 10.4),
        (20, 11.65, 22.9, 10.7, 12.4),
        (30, 15.38, 30.3, 13.7, 14.4),
        (50, 21.83, 43.0, 19.7, 18.4),
        (100, 35.13, 69.2, 34.7, 28.4),
    ],
)
def test_table_of_three_models(mcu: float, morey: float, ebc: float, mosher: float, daniels: float) -> None:
    """Own calculation of Morey's formula; Mosher's and Daniels' lines from memory, None where they do not hold."""
    assert morey_srm(mcu) == pytest.approx(morey, abs=0.006)
    assert morey_srm(mcu) * EBC_PER_SRM == pytest.approx(ebc, abs=0.1)
    assert mosher_srm(mcu) == (pytest.approx(mosher, abs=0.05) if mcu >= 7 else None)
    assert daniels_srm(mcu) == (pytest.approx(daniels, abs=0.05) if mcu >= 11 else None)


def test_where_the_lines_meet() -> None:
    """Morey, letter on beer colour: his curve is Daniels from 10.5 to 37 MCU and Mosher beyond, where they meet.

    The page prints "< 37" for Mosher's part: a slip, for there his line lies below Daniels'.
    """
    assert mosher_srm(37) == pytest.approx(15.8)
    assert daniels_srm(37) == pytest.approx(15.8)
    low = mosher_srm(20), daniels_srm(20)
    assert low[0] is not None
    assert low[1] is not None
    assert low[0] < low[1] - 1.5
    first, second = daniels_srm(11), daniels_srm(21)
    assert first is not None
    assert second is not None
    assert first - 0.5 * (second - first) / 10 == pytest.approx(10.5)


@pytest.mark.parametrize(
    ("most", "factor", "exponent", "determination"), [(100, 1.69, 0.644, 0.969), (150, 1.53, 0.677, 0.978)]
)
def test_morey_refitted(most: int, factor: float, exponent: float, determination: float) -> None:
    """Morey, letter on beer colour [morey-1995]: one power law through MCU to 10.5, Daniels to 37, Mosher beyond.

    Fitted again over whole MCU by numpy on logarithms; he reports 1.4922, 0.6859 and a determination of 0.97.
    """
    mcu = np.arange(1, most + 1)
    srm = [m if m <= 10.5 else daniels_srm(m) if m <= 37 else mosher_srm(m) for m in mcu]
    y = np.log(np.array(srm, dtype=float))
    slope, start = np.polyfit(np.log(mcu), y, 1)
    residual = y - (start + slope * np.log(mcu))
    assert np.exp(start) == pytest.approx(factor, abs=0.006)
    assert slope == pytest.approx(exponent, abs=0.0006)
    assert 1 - residual.var() / y.var() == pytest.approx(determination, abs=0.0006)
    for one in (5, 10, 20, 50, 100):
        assert morey_srm(one) == pytest.approx(float(np.exp(start)) * one**slope, rel=0.07)


def test_the_limit_of_the_formula() -> None:
    """Morey: meant below 50 SRM, which is 167 MCU."""
    assert morey_srm(167) == pytest.approx(SRM_LIMIT, abs=0.1)


def test_old_degrees_of_the_ebc_are_others() -> None:
    """Encyclopaedia article: EBC taken at 530 nm, as in EBC = 2.65 °L - 1.2, is obsolete and no measure of beer."""
    old = 2.65 * 20 - 1.2
    assert from_canonical(20, "EBC", Kind.BEER_COLOUR) != pytest.approx(old, rel=0.2)
    assert to_canonical(40, "EBC", Kind.BEER_COLOUR) == pytest.approx(20.3, abs=0.05)
