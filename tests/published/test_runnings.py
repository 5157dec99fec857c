"""What runs off a mash against the rules of the trade and a mass balance done by hand."""

import pytest

from mashwright.brewing.extract import wort_limit_plato
from mashwright.brewing.gravity import gravity_of, plato
from mashwright.brewing.runnings import run_offs


def test_the_first_half_of_the_wort_holds_about_two_thirds_of_the_extract() -> None:
    """Common practice: drained and sparged with as much again, the first half is about two thirds of what runs off."""
    for litres_per_kg in (2.5, 3.0, 3.5):
        extract_kg, first_l = 0.76, litres_per_kg - 1.0
        first, second = run_offs(litres_per_kg, 1.0, extract_kg, ((first_l, False),), 0.04)
        assert first.litres == second.litres == first_l
        assert 0.62 < first.share / (first.share + second.share) < 0.74


def test_a_strong_beer_of_a_third_of_the_wort_has_about_twice_the_gravity_of_the_rest() -> None:
    """From memory: a third of the wort to the strong beer and two thirds to the small one halves the extract."""
    first, second = run_offs(3.0, 1.5, 0.76, ((3.0, False),), 0.04)
    strong, small = first.share / first.litres, second.share / second.litres
    assert 1.9 < strong / small < 3.1
    assert first.share / (first.share + second.share) == pytest.approx(0.5, abs=0.1)


def test_the_first_runnings_are_as_strong_as_the_mash() -> None:
    """[troester-efficiency]: the strongest wort is all extract in all water, whatever of it runs off."""
    first = run_offs(14.0, 5.0, 3.9, moisture_kg=0.2)[0]
    strength = plato(gravity_of(3.9 * first.share, first.litres))
    assert strength == pytest.approx(wort_limit_plato(3.9, 14.2), abs=0.2)


def test_a_batch_sparge_recovers_what_a_balance_by_hand_does() -> None:
    """Mass balance, done by hand: 12 l on 4 kg with 3 kg of extract make 14.02 l of wort; 8 l run off, 6.02 l stay."""
    first, second, third = run_offs(12.0, 4.0, 3.0, ((6.02, False), (6.02, False)), 0.16)
    assert first.share == pytest.approx(8 / 14.02, abs=0.001)
    assert second.share == pytest.approx((1 - 8 / 14.02) / 2, abs=0.001)
    assert third.share == pytest.approx((1 - 8 / 14.02) / 4, abs=0.001)


def test_a_fly_sparge_rinses_better_than_one_batch() -> None:
    """Common practice; the limit is an exponential: 1 - e^-1 of what is kept, by as much water as is kept."""
    batch = run_offs(12.0, 4.0, 3.0, ((6.02, False),), 0.16)[1]
    fly = run_offs(12.0, 4.0, 3.0, ((6.02, True),), 0.16)[1]
    assert fly.share > batch.share
    assert fly.share == pytest.approx((1 - 8 / 14.02) * (1 - 2.71828**-1), rel=0.01)
    assert fly.until(3.01) > fly.share / 2
    assert batch.until(3.01) == pytest.approx(batch.share / 2)
