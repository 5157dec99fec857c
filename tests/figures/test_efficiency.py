"""The efficiency to reckon with where a recipe states none."""

import pytest

from mashwright.brew.brew import Brew
from mashwright.brewing.extract import usual_efficiency
from mashwright.brewing.gravity import gravity_of, points
from mashwright.figures.mash.gravity import potential_extract


def brew(kg: float, house: str = "") -> Brew:
    return Brew.of(f"recipe: Tried\nbatch: 20 l\ngrist: [{{grain: pale ale malt, weight: {kg} kg}}]\n", house)


@pytest.mark.parametrize("kg", [0.5, 2, 4, 5, 6, 7, 8, 10, 12, 16, 20, 24])
def test_it_is_that_of_the_wort_which_it_makes(kg: float) -> None:
    tried = brew(kg)
    made = tried.efficiency.share.typical * points(gravity_of(potential_extract(tried).typical, 20))
    assert tried.efficiency.share.typical == pytest.approx(usual_efficiency(made).typical / 100, abs=1e-5)


def test_a_house_falls_by_as_much_with_a_strong_wort() -> None:
    """The points that a usual house loses, in the house's own."""
    house = "brewhouse: Tried\nefficiency: 80 %\n"
    lost = brew(4).efficiency.share.typical - brew(12).efficiency.share.typical
    assert lost > 0.05
    assert brew(4, house).efficiency.share.typical == pytest.approx(0.80)
    assert brew(12, house).efficiency.share.typical == pytest.approx(0.80 - lost)
