"""Cells to pitch, against the published rates."""

import pytest

from mashwright.brewing.gravity import plato
from mashwright.brewing.yeast import (
    ALE_RATE,
    DRY_PER_GRAM,
    GENERAL_RATE,
    LAGER_RATE,
    LIQUID_PACK,
    STARTER_GROWTH,
    cells_needed,
    starter_growth,
    starter_litres,
)

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


@pytest.mark.parametrize(("row", "billion_per_l_plato"), [("at work before", 7.2), ("stored", 10.4)])
def test_growth_of_a_starter(row: str, billion_per_l_plato: float) -> None:
    """Side by side starters, a brewer's blog (2013): cells grown to each litre and °P that is present."""
    told = {"at work before": STARTER_GROWTH.low, "stored": STARTER_GROWTH.typical}[row]
    assert told == billion_per_l_plato
    assert starter_growth(1.5, 50, 9, told) == pytest.approx(1.5 * 9 * billion_per_l_plato)


def test_no_starter_grows_more_than_its_extract_can_feed() -> None:
    """Balling: 0.11 g of dry yeast from 2.0665 g of extract; 30-40 billion cells to the gram of it from memory."""
    grams = 1000 * 1.036 * 0.09
    most = grams * 0.11 / 2.0665 * 40
    assert starter_growth(1, 10, 9, STARTER_GROWTH.high) < most
    assert starter_growth(1, 10, 9, STARTER_GROWTH.high) == pytest.approx(1.4 * grams, rel=0.01)  # stirred, from memory


def test_a_crowded_starter_grows_less_and_a_full_one_nothing() -> None:
    """From memory: growth falls from 1.4 billion cells to the gram of extract on, and ends near 3.5."""
    grams = 1000 * 1.037 * 0.095
    grown = [starter_growth(1, share * grams, 9.5, 10.4) for share in (1.0, 1.4, 2.45, 3.5, 6.0)]
    assert grown[:2] == pytest.approx([9.5 * 10.4] * 2, rel=0.01)
    assert grown[2] == pytest.approx(grown[0] / 2, rel=0.01)
    assert grown[3:] == pytest.approx([0, 0], abs=1)


@pytest.mark.parametrize("cells", [20, 100, 250, 390])
def test_the_starter_that_is_told_grows_what_is_missing(cells: float) -> None:
    """The sum turned round is the sum."""
    litres = starter_litres(400, cells, 9.5, 10.4)
    assert cells + starter_growth(litres, cells, 9.5, 10.4) == pytest.approx(400)
