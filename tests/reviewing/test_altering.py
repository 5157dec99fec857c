"""Another size, other units, another efficiency, other hops: the beer stays what it was, and the text around too."""

from pathlib import Path

import pytest

from mashwright.brew import Brew
from mashwright.figures.beer import abv
from mashwright.figures.kettle import bitterness
from mashwright.figures.mash import og
from mashwright.recipe.stated import Unknown
from mashwright.reviewing.altering import (
    SYSTEMS,
    Altered,
    CannotAlterError,
    altered,
    to_alpha,
    to_batch,
    to_efficiency,
    to_units,
)

SAMPLES = sorted((Path(__file__).parents[2] / "sample-recipes").glob("**/*.yaml"))
RECIPES = [path for path in SAMPLES if path.name != "brewhouse.yaml"]
BITTER = """\
recipe: Ferry Bitter  # ours
batch: 20 l
efficiency: 72 %
grist:
  - 4 kg pale ale malt   # floor malted
  - {grain: crystal malt, weight: 250 g}
  - {sugar: table sugar, weight: 200 g}
mash: {water: 12 l, rests: [{at: 66 °C, for: 60 min}]}
boil: {volume: 26 l, for: 60 min}
hops:
  - 40 g Fuggle (4.5 %) at 60 min
  - {hop: Fuggle, weight: 20 g, dry: 4 d}
yeast: {kind: English ale, pitch: 11 g}
package: {in: bottles, priming: {sugar: table sugar, each: 3 g, bottle: 500 ml}}
"""


def after(text: str, *ways: object) -> str:
    return altered(text, Brew.of(text), ways)[0]  # type: ignore[arg-type]


def value(figure: object, text: str) -> float:
    found: float = figure(Brew.of(text)).range.typical  # type: ignore[operator]
    return found


def test_twice_the_batch_has_twice_of_all_and_the_same_beer() -> None:
    text = after(BITTER, lambda brew: to_batch(brew, "40 l"))
    for piece in (
        "batch: 40 l",
        "8 kg pale ale malt   # floor malted",
        "500 g",
        "water: 24 l",
        "volume: 52 l",
        "80 g Fuggle (4.5 %) at 60 min",
        "pitch: 22 g",
        "each: 3 g, bottle: 500 ml",
        "for: 60 min",
    ):
        assert piece in text
    assert value(og, text) == pytest.approx(value(og, BITTER), abs=1e-6)
    assert value(abv, text) == pytest.approx(value(abv, BITTER), abs=1e-3)
    assert after(text, lambda brew: to_batch(brew, "20 l")) == BITTER


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_half_of_any_sample_is_the_same_beer(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    brew = Brew.of(text)
    now = brew.recipe.batch.said
    if now is None:
        return
    try:
        half = after(text, lambda brew: to_batch(brew, f"{now.range.typical / 2:g} l"))
    except CannotAlterError:
        return
    assert half == after(text, lambda brew: to_batch(brew, f"{now.range.typical / 2:g} l"))
    assert half.count("\n") == text.count("\n")
    assert half.count("#") == text.count("#")
    try:
        before = value(og, text)
    except Unknown:
        return
    assert value(og, half) == pytest.approx(before, abs=0.0008)  # of what a scale shows


@pytest.mark.parametrize("system", SYSTEMS)
def test_other_units_are_the_same_beer(system: str) -> None:
    text = after(BITTER, lambda brew: to_units(brew, system))
    assert value(og, text) == pytest.approx(value(og, BITTER), abs=0.0005)
    assert "pitch: 11 g" in text
    assert (text == BITTER) is (system == "metric")
    assert after(text, lambda brew: to_units(brew, system)) == text


def test_another_efficiency_keeps_the_gravity() -> None:
    text = after(BITTER, lambda brew: to_efficiency(brew, "60 %"))
    assert "efficiency: 60 %" in text
    assert "sugar: table sugar, weight: 200 g" in text
    assert value(og, text) == pytest.approx(value(og, BITTER), abs=0.0003)


def test_other_hops_keep_the_bitterness() -> None:
    text = after(BITTER, lambda brew: to_alpha(brew, "fuggle=3.6 %"))
    assert "50 g Fuggle (3.6 %) at 60 min" in text
    assert "{hop: Fuggle, weight: 20 g, dry: 4 d, alpha: 3.6 %}" in text
    assert value(bitterness, text) == pytest.approx(value(bitterness, BITTER), rel=0.02)


@pytest.mark.parametrize(
    ("way", "why"),
    [
        (lambda brew: to_batch(brew, "lots"), "not a number"),
        (lambda brew: to_efficiency(brew, "140 %"), "no efficiency"),
        (lambda brew: to_alpha(brew, "Saaz=3 %"), "no hops of the recipe are called Saaz"),
        (lambda brew: to_alpha(brew, "Fuggle"), "does not say"),
        (lambda brew: to_alpha(brew, "Fuggle=0 %"), "no bitterness"),
    ],
)
def test_what_cannot_be_done_says_why(way: object, why: str) -> None:
    with pytest.raises(CannotAlterError, match=why):
        after(BITTER, way)


def test_remarks_are_told_once() -> None:
    def twice(brew: Brew) -> Altered:
        return to_batch(brew, "40 l")

    remarks = altered(BITTER, Brew.of(BITTER), [twice, twice])[1]
    assert len(remarks) == len(set(remarks)) == 3


WORTS = """\
recipe: Two of one
grist: [{grain: pale ale malt, weight: 6 kg}]
mash: {water: 17 l, mashes: 2}
sparge:
  - {water: 10 l, at: 76 °C}
  - {water: 8 l, at: 76 °C}
worts:
  - wort: Strong
    runnings: {first: 60 %, second: 4 l}
    batch: 8 l
    hops: [{hop: Golding, weight: 40 g, alpha: 5 %, boil: 60 min}]
    yeast: {kind: English ale, pitch: 11 g}
  - wort: Small
    runnings: rest
    batch: 10 l
    hops: [{hop: Golding, weight: 20 g, alpha: 5 %, boil: 60 min}]
    measured: [{date: 2026-03-14, batch: 9 l}]
"""


def test_all_worts_of_a_mash_grow_together() -> None:
    text = after(WORTS, lambda brew: to_batch(brew, "36 l"))
    for piece in (
        "weight: 12 kg",
        "water: 34 l, mashes: 2",
        "{water: 20 l, at: 76 °C}",
        "{water: 16 l, at: 76 °C}",
        "{first: 60 %, second: 8 l}",
        "batch: 16 l",
        "batch: 20 l",
        "weight: 80 g",
        "weight: 40 g",
        "pitch: 22 g",
        "batch: 9 l",
    ):
        assert piece in text
    assert after(text, lambda brew: to_batch(brew, "18 l")) == WORTS


def test_hops_and_units_are_altered_in_each_wort() -> None:
    assert after(WORTS, lambda brew: to_alpha(brew, "Golding=4 %")).count("alpha: 4 %") == 2
    text = after(WORTS, lambda brew: to_units(brew, "US"))
    assert "pitch: 11 g" in text
    assert text.count(" gal") >= 5
