import pytest

from mashwright.brewing.extract import as_is, steeped_share, usual_efficiency, wort_limit_plato
from mashwright.measures.range import Range


def test_usual_efficiency() -> None:
    assert usual_efficiency(45) == Range(60, 72, 81)
    assert usual_efficiency(60) == Range(60, 72, 81)
    assert usual_efficiency(100) == Range(50, 62, 71)
    assert usual_efficiency(1000).low == 20


def test_dry_malt_is_all_malt() -> None:
    assert as_is(0.8, 0) == 0.8
    assert as_is(0.8, 0.05) == pytest.approx(0.76)


def test_wort_of_sugar_and_water() -> None:
    assert wort_limit_plato(1, 9) == 10
    assert wort_limit_plato(0, 9) == 0
    with pytest.raises(ValueError, match="a wort needs extract or water"):
        wort_limit_plato(0, 0)


@pytest.mark.parametrize("kind", ["caramel", "roasted", "kilned"])
def test_steeped_shares_hold_what_the_trade_says(kind: str) -> None:
    share = steeped_share(kind, None)
    assert share.low <= 0.10
    assert share.high >= 0.15
    assert share.low < share.typical < share.high < 1


def test_starchy_grain_gives_little() -> None:
    assert steeped_share("base-malt", 2) == steeped_share("flaked-grain", None)
    assert steeped_share("base-malt", 2).high <= 0.25


def test_dextrin_malt_is_a_pale_caramel_malt() -> None:
    assert steeped_share("caramel", 1.8).typical == 0.125
    assert steeped_share("caramel", 10).typical == 0.5
