"""What an audit tells of a recipe around its findings."""

import pytest

from mashwright.brew.brew import Brew
from mashwright.reviewing.results import Story
from mashwright.reviewing.story import story_of

SHORT = "recipe: Short\nbatch: 20 l\ngrist:\n  - {grain: pale malt, weight: 4 kg}\n"
WHOLE = """\
recipe: Whole
source: a folded sheet
batch: 5 imp gal
efficiency: 72 %
grist:
  - {grain: pale malt, weight: 9 lb}
mash: {water: 13 l, grain-temperature: 18 °C, rests: [{at: 66 °C, for: 60 min}]}
yeast: {kind: English ale, attenuation: 75 %}
targets: {og: 20 lb/barrel, fg: 1.011}
"""


def story(text: str) -> Story:
    return story_of(Brew.of(text), "a.yaml")


def test_what_it_would_be_stands_beside_what_it_says() -> None:
    told = story(WHOLE)
    assert told.source == "a folded sheet"
    assert [(word, said) for word, _, said in told.beer] == [
        ("starch converted", ""),
        ("OG", "20 lb/barrel"),
        ("FG", "1.011"),
        ("ABV", ""),
        ("colour", ""),
    ]
    assert {word: shown for word, shown, _ in told.beer}["OG"] == "1.039 SG (1.036 to 1.041), 9.7 °P (9 to 10.3)"


def test_old_measures_are_told_with_their_line() -> None:
    assert story(WHOLE).readings == (
        (9, '"20 lb/barrel" is read as brewer\'s pounds, above the 360 lb of a 36 gallon barrel of water: 1.056'),
    )


@pytest.mark.parametrize(
    "said",
    [
        "a yeast of 77 % attenuation, since none is stated",
        "a mash of 3 l/kg, since no mash water is stated",
    ],
)
def test_what_was_taken_where_nothing_is_said_is_told_once(said: str) -> None:
    assert story(SHORT).assumed.count(said) == 1
    assert said not in story(WHOLE).assumed


def test_what_is_wanted_is_told_once_for_all_figures_that_want_it() -> None:
    missing = story(SHORT).missing
    assert len(set(missing)) == len(missing)
    assert [one for one in missing if "yeast" in one] == ["the yeast (`yeast`)"]
    assert not any("measured brew day" in one or "keg" in one for one in missing)


def test_an_extract_beer_is_not_asked_for_a_mash() -> None:
    told = story("recipe: Tins\nbatch: 20 l\ngrist:\n  - {extract: light dry malt extract, weight: 3 kg}\n")
    assert [one for one in told.missing if "mash" in one] == []
