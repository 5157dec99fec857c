"""Cells to pitch, against the published rates."""

import pytest

from mashwright.brewing.gravity import plato
from mashwright.brewing.yeast import ALE_RATE, DRY_PER_GRAM, GENERAL_RATE, LAGER_RATE, LIQUID_PACK, cells_needed

GALLON_L = 3.785411784


def test_an_ale_of_twelve_degrees() -> None:
    """G. Fix, An Analysis of Brewing Techniques, as quoted: 0.75 million to the ml and °P; 20 l want 180 × 10^9."""
    assert cells_needed(ALE_RATE.typical, 20, 12) == pytest.approx(180, abs=1)
    assert cells_needed(ALE_RATE.typical, 5.25 * GALLON_L, 12) == pytest.approx(179, abs=1)


def test_rates_by_kind() -> None:
    """G. Fix, as quoted: ale 0.75, lager 1.5; 1 as a general rule."""
    assert (ALE_RATE.typical, GENERAL_RATE.typical, LAGER_RATE.typical) == (0.75, 1.0, 1.5)


@pytest.mark.parametrize(("gravity", "million_per_ml"), [(1.048, 6), (1.058, 6)])
def test_a_baseline_for_ale_lies_in_the_range(gravity: float, million_per_ml: float) -> None:
    """Magazine articles on pitching rates: 6 million to the ml below 1.060, less than Fix has."""
    degrees = plato(gravity)
    assert million_per_ml < ALE_RATE.typical * degrees
    assert ALE_RATE.low * degrees == pytest.approx(million_per_ml, rel=0.2)


def test_a_baseline_for_lager_lies_in_the_range() -> None:
    """The same: about 12 million to the ml for a lager of 12 °P."""
    assert LAGER_RATE.low * 12 <= 12 <= LAGER_RATE.typical * 12


def test_a_packet_of_dry_yeast_in_twenty_litres() -> None:
    """Common practice: 11 g raise 20 l of ordinary ale, one liquid pack about half of that rate."""
    want = cells_needed(ALE_RATE.low, 20, 12)
    assert 11 * DRY_PER_GRAM.typical > want
    assert 0.4 < LIQUID_PACK.typical / cells_needed(ALE_RATE.typical, 20, 12) < 0.7
