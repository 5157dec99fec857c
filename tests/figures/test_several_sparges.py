"""Several waters after one mash, each drained by itself: as in the old books, for one beer or for several."""

import pytest

import mashwright
from mashwright.brew import Brew
from mashwright.figures.kettle import drained_with_sparge, from_waters
from mashwright.figures.kettle.runnings import runnings
from mashwright.figures.mash import bed_temperature

RECIPE = """\
recipe: Rinsed
batch: 20 l
grist: [{grain: pale ale malt, weight: 5 kg}]
mash: {water: 14 l, rests: [{at: 66 °C, for: 60 min}]}
sparge: SPARGE
boil: {volume: 26 l, for: 60 min}
"""
TWO = "[{water: 10 l, at: 82 °C}, {water: 8 l, at: 78 °C, salts: {gypsum: 2 g}}]"


def brew(sparge: str) -> Brew:
    return Brew.of(RECIPE.replace("SPARGE", sparge))


def test_they_are_one_sparge_to_whoever_asks_for_one() -> None:
    recipe = brew(TWO).recipe
    assert recipe.sparge.water.known
    assert (recipe.sparge.water.range.typical, recipe.sparge.water.text) == (18.0, "10 l + 8 l")
    assert recipe.sparge.at.path == ("sparge", 0, "at")
    assert [salt.path for salt in recipe.sparge.salts] == [("sparge", 1, "salts", "gypsum")]
    given, same = from_waters(brew(TWO)), from_waters(brew("{by: batch, water: 18 l, at: 80 °C}"))
    assert given is not None
    assert same is not None
    assert given[0] == same[0]


def test_the_bed_is_as_hot_as_one_water_after_the_other_makes_it() -> None:
    """By hand: 5 kg of grain keep 5 l and contain the heat of about 2.3 l; the bed comes to 75.2, then to 76.6 °C."""
    bed, first = bed_temperature(brew(TWO)), (7.3 * 66 + 10 * 82) / 17.3
    assert bed.typical == pytest.approx((7.3 * first + 8 * 78) / 15.3, abs=0.2)
    hotter = bed_temperature(brew("[{water: 10 l, at: 82 °C}, {water: 8 l, at: 90 °C}]"))
    assert hotter.typical > bed.typical + 3
    assert hotter.paths[0] == ("sparge", 0, "at")


def test_the_tun_holds_one_of_them_at_a_time() -> None:
    two, one = drained_with_sparge(brew(TWO)), drained_with_sparge(brew("{by: batch, water: 10 l}"))
    assert two == one


def test_each_gives_runnings_of_its_own() -> None:
    run = runnings(brew(TWO))
    assert [off.litres for off in run.usual][1:] == [10.0, 8.0]
    once = runnings(brew("{by: batch, water: 18 l}"))
    assert sum(off.share for off in run.usual) > sum(off.share for off in once.usual)


def told(sparge: str) -> list[tuple[str, int, int, str]]:
    reviewed = mashwright.review_text(RECIPE.replace("SPARGE", sparge), "a.yaml").recipes[0]
    return [(one.rule, one.place.line, one.place.column, one.message) for one in reviewed.results]


def test_they_are_judged_as_one_is() -> None:
    assert told(TWO) == told("[10 l at 82 °C, {water: 8 l, at: 78 °C, salts: {gypsum: 2 g}}]") == []
    assert told("[{water: 9 l, at: 97 °C}, {water: 9 l, at: 76 °C}]")[0][:3] == ("sparge", 5, 27)
    assert told("[{water: 9 l, at: 76 °C}, {water: 9 l, at: 152 °C}]")[0][:3] == ("unit-slip", 5, 52)
    assert told("[{water: 9 x}, {water: 9 l}]") == [
        ("quantity", 5, 18, 'the water "9 x" has an unknown unit "x"; write it in l, ml, gal, qt or pt')
    ]


def test_more_than_there_are_runnings_is_refused() -> None:
    assert told(f"[{', '.join(['{water: 1 l}'] * 5)}]") == [
        ("field", 5, 1, "these are more than 4 waters after the mash; put the last ones together")
    ]
