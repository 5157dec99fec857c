"""The balance of what runs off a mash: nothing is lost, nothing comes out of nothing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.runnings import run_offs

WATERS = st.lists(st.tuples(st.floats(0.1, 60), st.booleans()), max_size=4)


@given(water_l=st.floats(1, 200), kept_l=st.floats(0, 150), extract_kg=st.floats(0, 40), waters=WATERS)
def test_the_parts_and_what_stays_are_all_there_is(
    water_l: float, kept_l: float, extract_kg: float, waters: list[tuple[float, bool]]
) -> None:
    offs = run_offs(water_l, kept_l, extract_kg, tuple(waters))
    last = offs[-1]
    stays = last.before - last.share if len(offs) > 1 else 1 - last.share
    assert sum(off.share for off in offs) + stays == pytest.approx(1.0)
    assert all(0 <= off.share <= 1 and off.litres >= 0 for off in offs)
    assert stays >= 0


@given(water_l=st.floats(10, 60), kept_l=st.floats(1, 9), parts=st.floats(0, 1), fly=st.booleans())
def test_a_part_of_it_holds_no_more_than_all(water_l: float, kept_l: float, parts: float, fly: bool) -> None:
    off = run_offs(water_l, kept_l, 4.0, ((15.0, fly),))[1]
    assert 0 <= off.until(15 * parts) <= off.share + 1e-12
    assert off.until(15 * parts) >= off.share * parts - 1e-12
    assert off.until(20) == off.share
    assert off.until(-1) == 0


def test_a_mash_without_water_is_none() -> None:
    with pytest.raises(ValueError, match="a mash needs water"):
        run_offs(0.0, 1.0, 3.0)
    assert run_offs(5.0, 9.0, 1.0)[0].litres == 0
    assert run_offs(5.0, 9.0, 1.0)[0].until(3) == 0


def test_a_reiterated_mash_by_hand() -> None:
    """Two mashes of 5 kg with 4 kg of extract each, in 20 l: the second is mashed in what the first lets go."""
    first_wort = 20 + 0.62 * 4
    carried = 0.5 * (20 - 5) / first_wort
    second_wort = 15 + 0.62 * 4
    last = (carried + 0.5) * (15 - 5) / second_wort
    made = run_offs(20.0, 10.0, 8.0, mashes=2)
    assert made[0].litres == pytest.approx(10.0)
    assert made[0].share == pytest.approx(last)
    assert made[0].held_l == pytest.approx(second_wort - 10)


@given(water_l=st.floats(20, 60), mashes=st.integers(2, 6))
def test_a_reiterated_mash_is_stronger_and_gets_less(water_l: float, mashes: int) -> None:
    once, several = run_offs(water_l, 10.0, 8.0)[0], run_offs(water_l, 10.0, 8.0, mashes=mashes)[0]
    assert several.litres == pytest.approx(once.litres)
    assert several.share > once.share  # the beds before the last keep weaker wort
    assert several.share < 1


def test_one_of_one_is_the_plain_mash() -> None:
    assert run_offs(20.0, 8.0, 4.0, ((9.0, False),), 0.3, 1) == run_offs(20.0, 8.0, 4.0, ((9.0, False),), 0.3)
