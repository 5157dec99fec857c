"""Degrees of diastatic power against printed rules and examples."""

import pytest

import mashwright
from mashwright.measures.quantity import Kind, from_canonical, to_canonical
from mashwright.measures.range import Range
from mashwright_rules.grist import enzyme_sufficiency


def wk_of_lintner(power_lintner: float) -> float:
    return from_canonical(power_lintner, "°WK", Kind.DIASTATIC_POWER)


def lintner_of_wk(power_wk: float) -> float:
    return to_canonical(power_wk, "°WK", Kind.DIASTATIC_POWER)


def test_degrees_windisch_kolbach() -> None:
    """Encyclopaedia article on the Windisch-Kolbach unit [windisch-kolbach-unit]: 3.5 × °Lintner - 16."""
    assert wk_of_lintner(100) == 334
    assert lintner_of_wk(334) == pytest.approx(100)
    assert lintner_of_wk(250) == pytest.approx(76.0, abs=0.05)


def test_least_power_of_pilsner_malt() -> None:
    """TGL 17756 (1966), malt standard: Pilsner malt at least 200 °WK."""
    assert lintner_of_wk(200) == pytest.approx(61.7, abs=0.05)


def test_the_other_rule_in_print_is_not_ours() -> None:
    """Malt trade portal, diastatic power: 0.3 × °WK + 4 makes 79 of 250 °WK."""
    assert 0.3 * 250 + 4 == 79.0
    assert lintner_of_wk(250) != pytest.approx(79.0, abs=2.9)


def test_malt_without_power_has_none_in_either_unit() -> None:
    """Common practice: caramel and roasted malt have no power; the line alone would give 4.6 °Lintner to 0 °WK."""
    assert lintner_of_wk(0) == 0
    assert wk_of_lintner(0) == 0


@pytest.mark.parametrize(
    ("grist", "power", "allowed"),
    [
        ([(140, 2.0), (40, 0.5), (0, 0.3)], 107, 0.5),  # printed whole, in pounds
        ([(125, 7), (0, 3)], 87.5, 1e-9),  # two-row and flaked maize
        ([(40, 5), (0, 5)], 20, 1e-9),  # Munich and raw barley
        ([(160, 3), (0, 7)], 48, 1e-9),  # six-row and rice
    ],
)
def test_average_of_a_grist(grist: list[tuple[float, float]], power: float, allowed: float) -> None:
    """Article on calculating diastatic power [diastatic-power-article] (first row); the others are arithmetic."""
    average = Range.weighted_mean((Range.exact(lintner), weight) for lintner, weight in grist)
    assert average.typical == pytest.approx(power, abs=allowed)
    assert average.known


GRIST = """\
recipe: Levee Rice
batch: 20 l
grist:
  - {grain: six-row pale malt, weight: 3 kg, diastatic-power: 160 °Lintner}
  - {grain: flaked rice, weight: 7 kg}
mash: {rests: [{at: 66 °C, for: 45 min}]}
"""


@pytest.mark.parametrize(("floor_lintner", "passes"), [(40, True), (70, False)])
def test_one_grist_against_two_floors_in_print(floor_lintner: float, passes: bool) -> None:
    """Older copy of the encyclopaedia on degrees Lintner: 40 for a whole grist; article on diastatic power: 70.

    A grist of 48 passes the one and fails the other, both exactly; which floor is right no source settles.
    """
    floors = f"{{floor: {floor_lintner} °Lintner, comfortable: {floor_lintner} °Lintner}}"
    found = mashwright.try_rule(enzyme_sufficiency, GRIST, brewhouse=f"rules: {{enzyme-sufficiency: {floors}}}\n")
    if passes:
        assert found == []
    else:
        (line,) = found
        words = "the mash averages 48 °Lintner; below 70 °Lintner it converts slowly and may not finish"
        assert line.endswith(f": warning: {words}")
