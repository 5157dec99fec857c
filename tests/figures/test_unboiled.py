"""Raw ale: the malt's enzymes live on in wort that was not boiled."""

import pytest

import mashwright
from mashwright.brew.brew import Brew
from mashwright.figures.beer.strength import apparent_attenuation, still_splitting

RAW = """\
recipe: {name}
batch: 20 l
grist:
  - {{grain: {grain}, weight: 4.2 kg}}
mash: {{rests: [{{at: {rest}, for: 60 min}}]}}
{more}yeast: {{kind: American ale}}
package: {{in: bottles, carbonation: 2.3 volumes}}
targets: {{og: 1.046, fg: {fg}}}
"""


def text(
    *,
    name: str = "Tried",
    grain: str = "pale ale malt",
    rest: str = "70 °C",
    more: str = "boil: {for: 0 min}\n",
    fg: str = "1.002",
) -> str:
    return RAW.format(name=name, grain=grain, rest=rest, more=more, fg=fg)


def brew(recipe: str) -> Brew:
    return Brew.of(recipe)


def told(recipe: str) -> list[str]:
    (reviewed,) = mashwright.review_text(recipe).recipes
    assert reviewed.unjudged == ()
    asked = ("final-gravity", "diastatic-yeast")
    return [f"{one.level.word}: {one.rule}" for one in reviewed.results if one.rule in asked]


def test_raw_ale_ends_near_95_per_cent() -> None:
    """Magazine answer on raw ales: 99 % apparent with ordinary ale yeast, mash and wort below 76 °C."""
    figure = apparent_attenuation(brew(text()))
    assert figure.typical == pytest.approx(95)
    assert figure.low < 80
    assert figure.high > 99


def test_a_dry_raw_ale_is_no_fault() -> None:
    assert told(text(fg="1.002")) == []


def test_a_raw_ale_bottled_at_1014_is_told() -> None:
    assert told(text(fg="1.014")) == ["error: diastatic-yeast"]


@pytest.mark.parametrize(
    ("name", "more"),
    [("Boathouse Raw Ale", ""), ("Tried", "notes: the wort is not boiled\n"), ("Tried", "style: råøl\n")],
)
def test_it_is_known_by_its_words_too(name: str, more: str) -> None:
    assert still_splitting(brew(text(name=name, more=more))) is not None


@pytest.mark.parametrize(
    "recipe",
    [
        text(more="boil: {for: 60 min}\n"),
        text(more=""),
        text(name="Raw Ale", more="hops: [{hop: Fuggle, weight: 20 g, alpha: 5 %, boil: 30 min}]\n"),
        text(rest="80 °C"),
        text(
            more="boil: {for: 0 min}\nhops: [{hop: Fuggle, weight: 20 g, alpha: 5 %, whirlpool: 20 min, at: 90 °C}]\n"
        ),
        text(grain="caramel malt 40"),
        text(name="No Raw Ale", more=""),
    ],
)
def test_what_was_hot_has_no_living_enzymes(recipe: str) -> None:
    assert still_splitting(brew(recipe)) is None
