"""Packages, chilling, souring and air in the words of brewers."""

import pytest

from mashwright.reading.document import read_document
from mashwright.reading.schema import understood
from mashwright.recipe.build import build_recipe
from mashwright.recipe.model import Recipe

HEAD = "recipe: A\nbatch: 20 l\ngrist: [{grain: rye, weight: 1 kg}]\n"


def read(text: str) -> Recipe:
    """The recipe of a text in which nothing is objected to."""
    document, objections = understood(read_document(HEAD + text + "\n"), "recipe")
    assert objections == []
    recipe, problems = build_recipe(document)
    assert problems == ()
    return recipe


@pytest.mark.parametrize(
    ("text", "by"),
    [
        ("chill: no-chill", "no-chill"),
        ("chill: no chill", "no-chill"),
        ("chill: {by: cube}", "no-chill"),
        ("chill: {by: ice bath, for: 45 min}", "water bath"),
        ("chill: {by: immersion chiller}", "chiller"),
        ("chill: 45 min", ""),
        ("cooling: no-chill", "no-chill"),
    ],
)
def test_how_wort_is_chilled(text: str, by: str) -> None:
    assert read(text).chill.by == by


@pytest.mark.parametrize(
    ("words", "place"),
    [
        ("kettle", "kettle"),
        ("before the boil", "kettle"),
        ("kettle sour", "kettle"),
        ("sour mash", "mash"),
        ("primary", "fermenter"),
        ("after the boil", "fermenter"),
    ],
)
def test_where_wort_sours(words: str, place: str) -> None:
    assert read(f"souring: {{with: Lactobacillus, in: {words}}}").souring.place == place


@pytest.mark.parametrize(
    ("text", "by"), [("aeration: air", "air"), ("aeration: {by: shaking}", "air"), ("aeration: {by: O2}", "oxygen")]
)
def test_how_wort_is_aerated(text: str, by: str) -> None:
    assert read(text).aeration.by == by


def test_packages_in_a_list() -> None:
    recipe = read(
        "package:\n"
        "  - bottles, 2.4 volumes\n"
        "  - keg at 1.2 bar\n"
        "  - {in: cask, spund: 1 bar at 12 °C, gas: 30 % CO2, priming: {wort: speise, volume: 1 l}}"
    )
    assert [one.vessel for one in recipe.packages] == ["bottles", "keg", "cask"]
    assert [one.path for one in recipe.packages] == [("package", 0), ("package", 1), ("package", 2)]
    cask = recipe.beside[1]
    assert cask.spund.pressure.path == ("package", 2, "spund", "pressure")
    assert cask.spund.pressure.known
    assert cask.spund.at.known
    assert cask.gas.known
    assert cask.gas.range.typical == 30
    assert (cask.priming.group, cask.priming.name) == ("wort", "speise")


@pytest.mark.parametrize("words", ["as needed", "To Volume", "to the mark"])
def test_water_as_needed_is_left_out_on_purpose(words: str) -> None:
    recipe = read(f"top-up: {{kettle: {words}}}\nsparge: {{water: {words}}}")
    assert recipe.top_up.kettle_as_needed
    assert not recipe.top_up.fermenter_as_needed
    assert not recipe.top_up.kettle.mentioned
    assert not recipe.sparge.water.mentioned
