from time import process_time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.mash import (
    FAVOURABLE,
    GELATINISATION_C,
    TRADE,
    TYPICAL,
    UNFAVOURABLE,
    Conditions,
    Rest,
    Starch,
    gelatinised_share,
    mash,
    minutes_on_the_board,
)
from mashwright.brewing.mash_rates import conversion_rate_per_min

BARLEY = (Starch("barley", 1),)

starch_lists = st.lists(
    st.builds(Starch, st.sampled_from(sorted(GELATINISATION_C)), st.floats(0.01, 10), st.booleans()),
    min_size=1,
    max_size=4,
)
rest_lists = st.lists(
    st.builds(Rest, st.floats(35, 82), st.floats(0, 90), st.one_of(st.none(), st.floats(35, 82))), max_size=4
)
powers = st.floats(0, 200)
conditions = st.sampled_from([FAVOURABLE, TYPICAL, TRADE, UNFAVOURABLE])


@given(starch_lists, rest_lists, powers, conditions)
def test_nothing_comes_from_nothing(
    starches: list[Starch], rests: list[Rest], power_lintner: float, given_conditions: Conditions
) -> None:
    result = mash(starches, rests, power_lintner, given_conditions)
    assert -1e-9 <= result.converted <= result.released + 1e-9
    assert result.released <= 97 + 1e-9  # what follows slowly goes beyond what is releasable, and never beyond all
    assert result.releasable <= 97 + 1e-9
    assert len(result.rests) == len(rests)
    assert sum(rest.released for rest in result.rests) == pytest.approx(result.released)
    assert sum(rest.converted for rest in result.rests) == pytest.approx(result.converted)
    left = [1.0, *(rest.enzyme_left for rest in result.rests)]
    assert left == sorted(left, reverse=True)


@given(starch_lists, rest_lists, powers, conditions, st.floats(1, 100))
def test_more_enzyme_never_makes_it_worse(
    starches: list[Starch], rests: list[Rest], power_lintner: float, given_conditions: Conditions, more: float
) -> None:
    less = mash(starches, rests, power_lintner, given_conditions)
    better = mash(starches, rests, power_lintner + more, given_conditions)
    assert better.converted >= less.converted - 1e-9
    if less.minutes_needed is not None:
        assert better.minutes_needed is not None
        assert better.minutes_needed <= less.minutes_needed + 1e-9


@given(starch_lists, rest_lists, powers, conditions, st.floats(1, 60))
def test_a_longer_last_rest_never_makes_it_worse(
    starches: list[Starch], rests: list[Rest], power_lintner: float, given_conditions: Conditions, more: float
) -> None:
    last = Rest(66, 30)
    longer = Rest(66, 30 + more)
    short = mash(starches, [*rests, last], power_lintner, given_conditions)
    long = mash(starches, [*rests, longer], power_lintner, given_conditions)
    assert long.converted >= short.converted - 1e-9
    assert long.released >= short.released - 1e-9


@given(starch_lists, rest_lists, powers)
def test_order_of_grains_changes_nothing(starches: list[Starch], rests: list[Rest], power_lintner: float) -> None:
    result, turned = mash(starches, rests, power_lintner), mash(starches[::-1], rests, power_lintner)
    assert turned.converted == pytest.approx(result.converted)
    assert turned.by_starch == pytest.approx(result.by_starch[::-1])


@given(starch_lists, rest_lists, powers)
def test_units_of_amount_change_nothing(starches: list[Starch], rests: list[Rest], power_lintner: float) -> None:
    pounds = [Starch(starch.cereal, starch.amount / 0.45359237, starch.cooked) for starch in starches]
    assert mash(pounds, rests, power_lintner).converted == pytest.approx(mash(starches, rests, power_lintner).converted)


def test_a_rest_cut_in_two_is_the_same_rest() -> None:
    whole = mash(BARLEY, [Rest(66, 60)], 40)
    halves = mash(BARLEY, [Rest(66, 25), Rest(66, 35)], 40)
    assert halves.converted == pytest.approx(whole.converted)
    assert halves.minutes_needed == whole.minutes_needed
    assert halves.converting_rest == 1


def test_enzyme_lost_in_a_hot_rest_does_not_come_back() -> None:
    kept = mash(BARLEY, [Rest(65, 60)], 100)
    cooked = mash(BARLEY, [Rest(90, 15), Rest(65, 60)], 100)
    assert cooked.rests[0].enzyme_left < 0.001
    assert cooked.rests[1].enzyme_left <= cooked.rests[0].enzyme_left
    assert cooked.released > 95
    assert cooked.converted < 1
    assert kept.converted > 90
    assert cooked.minutes_needed is None


@pytest.mark.parametrize("temperature_c", [-300, -0.1, 85.1, 100, 152, 1e9])
def test_outside_the_range_nothing_converts(temperature_c: float) -> None:
    result = mash([Starch("barley", 1), Starch("maize", 1, cooked=True)], [Rest(temperature_c, 60)], 125)
    assert result.converted == 0
    assert result.minutes_needed is None
    assert result.converting_rest is None
    assert minutes_on_the_board(temperature_c, 125, TYPICAL) is None


@pytest.mark.parametrize("temperature_c", [20, 85])
def test_the_ends_of_the_range_belong_to_it(temperature_c: float) -> None:
    assert conversion_rate_per_min(temperature_c, 100, 30) > 0


def test_nothing_to_convert() -> None:
    for starches in ([], [Starch("barley", 0)]):
        result = mash(starches, [Rest(66, 60)], 50)
        assert (result.released, result.converted, result.releasable) == (0, 0, 0)
        assert result.minutes_needed is None
        assert result.convert_c is None
        assert result.converted_of_releasable == 0


def test_no_rests() -> None:
    result = mash(BARLEY, [], 100)
    assert (result.released, result.converted, result.rests, result.converting_rest) == (0, 0, (), None)
    assert result.minutes_needed is None


def test_negative_and_endless_rests() -> None:
    assert mash(BARLEY, [Rest(66, -5)], 100).released == 0
    assert mash(BARLEY, [Rest(66, 1e9)], 100).converted == mash(BARLEY, [Rest(66, 1440)], 100).converted


@pytest.mark.parametrize("rest", [Rest(50, 1440, 78), Rest(78, 1440, 50), Rest(45, 600, 60), Rest(62, 1440)], ids=str)
def test_long_steps_change_a_long_mash_by_a_tenth_of_a_point_at_most(
    rest: Rest, monkeypatch: pytest.MonkeyPatch
) -> None:
    rests = (rest, Rest(66, 30))
    coarse = mash(BARLEY, rests, 60)
    monkeypatch.setattr("mashwright.brewing.mash._STEPS", 12 * 360)
    monkeypatch.setattr("mashwright.brewing.mash._RAMP_STEPS", 12 * 60)
    fine = mash(BARLEY, rests, 60)
    assert coarse.released == pytest.approx(fine.released, abs=0.1)
    assert coarse.converted == pytest.approx(fine.converted, abs=0.1)


@pytest.mark.parametrize("minutes", [5, 1440, 1e9])
def test_however_long_the_rests_they_are_soon_counted(minutes: float) -> None:
    began = process_time()
    mash(BARLEY, [Rest(50, minutes, 70)] * 100, 60)
    assert process_time() - began < 0.1


def test_unknown_cereal() -> None:
    with pytest.raises(ValueError, match="no gelatinisation temperature is known for 'cassava'"):
        mash([Starch("cassava", 1)], [Rest(66, 60)], 100)
    with pytest.raises(ValueError, match="cassava"):
        gelatinised_share("cassava", 66)


def test_mash_out_is_not_drawn_out() -> None:
    result = mash(BARLEY, [Rest(50, 15), Rest(66, 20), Rest(77, 10)], 40)
    assert result.converting_rest == 1
    assert result.minutes_given == 35
    alone = mash(BARLEY, [Rest(50, 15), Rest(66, 20)], 40)
    assert result.minutes_needed == alone.minutes_needed
    assert result.minutes_needed is not None
    assert result.minutes_needed > 45
    assert result.converted > alone.converted


def test_a_single_hot_rest_is_drawn_out() -> None:
    result = mash(BARLEY, [Rest(78, 20)], 100)
    assert result.converting_rest == 0
    assert result.minutes_needed is not None


def test_a_protein_rest_is_not_drawn_out() -> None:
    hot = mash(BARLEY, [Rest(50, 20), Rest(77, 30)], 100)
    assert hot.converting_rest == 1
    assert hot.minutes_needed is not None
    cooled = mash(BARLEY, [Rest(66, 30), Rest(45, 15)], 30)
    assert cooled.converting_rest == 0
    assert cooled.minutes_given == 30


def test_never_ends_without_the_search_for_it() -> None:
    result = mash([Starch("barley", 1), Starch("rice", 9, cooked=True)], [Rest(66, 60)], 4)
    assert result.minutes_needed is None
    assert 30 < result.converted < 40


def test_starch_is_released_where_it_is_hot_enough() -> None:
    result = mash([Starch("barley", 3), Starch("maize", 1)], [Rest(62, 30), Rest(72, 30)], 90)
    assert result.by_starch[0] > 95
    assert result.rests[0].convert_c == 62
    assert result.convert_c is not None
    assert 62 < result.convert_c < 72
    assert mash([Starch("barley", 3), Starch("maize", 1)], [Rest(62, 60)], 90).by_starch[1] < 30


def test_a_rise_releases_between_its_ends() -> None:
    result = mash(BARLEY, [Rest(50, 30, to_c=70)], 100)
    assert 55 < result.rests[0].convert_c < 65
    assert mash(BARLEY, [Rest(50, 0, to_c=70)], 100).rests[0].convert_c == 60


def test_a_thick_or_coarse_mash_is_slower() -> None:
    results = [mash(BARLEY, [Rest(63, 20)], 60, given).released for given in (FAVOURABLE, TYPICAL, UNFAVOURABLE)]
    assert results == sorted(results, reverse=True)


def test_results_are_frozen() -> None:
    with pytest.raises(AttributeError):
        mash(BARLEY, [Rest(66, 60)], 100).converted = 100  # type: ignore[misc]
