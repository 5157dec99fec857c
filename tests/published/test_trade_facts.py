"""Facts that brewers take for granted: common practice, all of them, unless a source stands beside them."""

import pytest

from mashwright.brewing.extract import steeped_share
from mashwright.brewing.heat import strike_temperature_c
from mashwright.brewing.mash import FAVOURABLE, TRADE, TYPICAL, Conditions, Rest, Starch, mash
from mashwright.measures.range import Range

TWO_ROW_LINTNER = Range(100, 110, 120)  # common practice, North American
LIGHT_MUNICH_LINTNER = 40  # common practice
BARLEY = (Starch("barley", 1),)


def test_light_munich_alone_just_converts() -> None:
    """Common practice: about 60-70 min at 68 °C, by the trade's own rule of 45 min."""
    needed = mash(BARLEY, [Rest(68, 60)], LIGHT_MUNICH_LINTNER, TRADE).minutes_needed
    assert needed is not None
    assert 60 <= needed <= 70
    assert mash(BARLEY, [Rest(68, 70)], LIGHT_MUNICH_LINTNER, TRADE).converted_of_releasable > 95


@pytest.mark.parametrize("power_lintner", [100, 110, 120, 125])
def test_two_row_converts_faster(power_lintner: float) -> None:
    """Common practice: it carries roughly triple its own need of 30-40 °Lintner, and converts faster."""
    two_row = mash(BARLEY, [Rest(68, 60)], power_lintner, TRADE).minutes_needed
    munich = mash(BARLEY, [Rest(68, 60)], LIGHT_MUNICH_LINTNER, TRADE).minutes_needed
    assert two_row is not None
    assert munich is not None
    assert two_row < munich / 2


@pytest.mark.parametrize("share", [1 / 3, 0.4])
def test_two_row_carries_roughly_triple_its_need(share: float) -> None:
    """Common practice: one part of two-row and two of flakes still convert, if slowly."""
    starches = [Starch("barley", share), Starch("maize", 1 - share, cooked=True)]
    result = mash(starches, [Rest(67, 60)], TWO_ROW_LINTNER.typical * share, TYPICAL)
    assert result.minutes_needed is not None
    assert result.minutes_needed <= 60


def test_equal_parts_of_two_row_light_munich_and_black_malt() -> None:
    """Common practice: they can be mashed; black malt adds no enzyme and no starch that wants converting."""
    grist = Range.weighted_mean([(TWO_ROW_LINTNER, 1), (Range.exact(LIGHT_MUNICH_LINTNER), 1), (Range.exact(0), 1)])
    assert grist.low > 40
    assert mash(BARLEY, [Rest(67, 60)], grist.low, TRADE).converted_of_releasable > 95


@pytest.mark.parametrize("conditions", [FAVOURABLE, TYPICAL, TRADE])
def test_caramel_malt_alone_converts_nothing(conditions: Conditions) -> None:
    """Common practice: it has no enzymes left."""
    result = mash(BARLEY, [Rest(67, 600)], 0, conditions)
    assert result.released > 95
    assert result.converted == 0
    assert result.minutes_needed is None


@pytest.mark.parametrize("lovibond", [15, 40, 60, 80, 120])
def test_steeped_caramel_malt_gives_a_part(lovibond: float) -> None:
    """Common practice: 10-15 %; J. Palmer, How to Brew, measured 40-65 %."""
    share = steeped_share("caramel", lovibond)
    assert share.low <= 0.10
    assert share.high >= 0.65
    assert share.high < 1
    assert 0.40 <= share.typical <= 0.65


@pytest.mark.parametrize(("liquor_to_grist", "mash_c"), [(2.6, 66.2), (3.0, 67.0), (3.2, 67.4), (4.0, 68.5)])
def test_strike_water_and_mash(liquor_to_grist: float, mash_c: float) -> None:
    """Common practice: 73.3 °C (164 °F) on grain at room temperature gives near 67.5 °C (153.5 °F), grain at 20 °C.

    The saying names no thickness: at the usual 3 kg of water to 1 kg of grain it is half a degree too much, at 2.6 a
    degree and a third.
    """
    assert strike_temperature_c(mash_c, 20, liquor_to_grist) == pytest.approx(73.3, abs=0.06)


def test_strike_water_meets_it_at_a_practical_thickness() -> None:
    """Common practice: it is exact at 3.3 kg of water to 1 of grain, in the practical 2-4 [mash-thickness-article]."""
    assert strike_temperature_c(67.5, 20, 3.28) == pytest.approx(73.3, abs=0.06)
