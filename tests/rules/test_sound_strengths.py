"""Beers of many strengths with OG, FG and ABV as such recipes usually state them: nothing above a note."""

import pytest

import mashwright

RECIPES = {
    "bitter": """\
recipe: Quay Street Bitter
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 3.2 kg}
  - {grain: caramel malt 60, weight: 250 g}
  - {grain: torrefied wheat, weight: 150 g}
mash:
  rests: [{at: 67 °C, for: 60 min}]
yeast: {kind: English ale}
targets: {og: 1.039, fg: 1.010, abv: 3.8 %}
""",
    "tripel": """\
recipe: Saltmarsh Tripel
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 5.9 kg}
  - {sugar: table sugar, weight: 1 kg}
mash:
  rests: [{at: 64 °C, for: 75 min}]
yeast: {kind: abbey ale}
targets: {og: 1.081, fg: 1.011, abv: 9.3 %}
""",
    "barley wine": """\
recipe: Winter Barley Wine
batch: 5 gal
grist:
  - {grain: pale ale malt, weight: 20 lb}
  - {grain: caramel malt 40, weight: 1 lb}
mash:
  rests: [{at: 150 °F, for: 90 min}]
yeast: {kind: English ale}
targets: {og: 1.101, fg: 1.026, abv: 10.1 %}
""",
    "imperial stout": """\
recipe: Lighthouse Imperial Stout
batch: 5 gal
grist:
  - {grain: two-row pale malt, weight: 17 lb}
  - {grain: roasted barley, weight: 1.25 lb}
  - {grain: chocolate malt, weight: 12 oz}
  - {grain: caramel malt 120, weight: 1 lb}
mash:
  rests: [{at: 152 °F, for: 60 min}]
yeast: {kind: American ale}
targets: {og: 1.092, fg: 1.022, abv: 9.4 %}
""",
    "saison": """\
recipe: Hayfield Saison
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.2 kg}
  - {grain: wheat malt, weight: 400 g}
  - {sugar: table sugar, weight: 250 g}
mash:
  rests: [{at: 64 °C, for: 90 min}]
yeast: {kind: saison}
targets: {og: 1.054, fg: 1.004, abv: 6.6 %}
""",
    "berliner": """\
recipe: Harbour Sour Wheat
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 1.4 kg}
  - {grain: wheat malt, weight: 1.4 kg}
yeast: {kind: Kölsch}
targets: {og: 1.032, fg: 1.006, abv: 3.4 %}
""",
    "small mild": """\
recipe: Tide Table Mild
batch: 20 l
grist:
  - {grain: mild ale malt, weight: 2.2 kg}
  - {grain: caramel malt 80, weight: 300 g}
  - {grain: chocolate malt, weight: 100 g}
mash:
  rests: [{at: 69 °C, for: 60 min}]
yeast: {kind: English ale}
targets: {og: 1.031, fg: 1.010, abv: 2.8 %}
""",
    "doppelbock": """\
recipe: Lent Doppelbock
batch: 20 l
grist:
  - {grain: dark Munich malt, weight: 5 kg}
  - {grain: Pilsner malt, weight: 2 kg}
  - {grain: caramel malt 60, weight: 300 g}
mash:
  rests:
    - {at: 55 °C, for: 10 min}
    - {at: 64 °C, for: 30 min}
    - {at: 72 °C, for: 30 min}
yeast: {kind: Bavarian lager}
targets: {og: 1.076, fg: 1.019, abv: 7.6 %}
""",
    "hazy": """\
recipe: Fog Bank
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 4.6 kg}
  - {grain: flaked oats, weight: 800 g}
  - {grain: flaked wheat, weight: 500 g}
mash:
  rests: [{at: 67 °C, for: 60 min}]
yeast: {kind: hazy ale}
targets: {og: 1.066, fg: 1.015, abv: 6.7 %}
""",
    "sweet stout": """\
recipe: Dairy Lane Stout
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 3.8 kg}
  - {grain: black malt, weight: 300 g}
  - {grain: caramel malt 80, weight: 300 g}
  - {sugar: lactose, weight: 450 g}
mash:
  rests: [{at: 67 °C, for: 60 min}]
yeast: {kind: English ale}
targets: {og: 1.058, fg: 1.022, abv: 4.8 %}
""",
    "scotch": """\
recipe: Scottish Export
batch: 5 gal
grist:
  - {grain: pale ale malt, weight: 8 lb}
  - {grain: caramel malt 40, weight: 8 oz}
  - {grain: roasted barley, weight: 2 oz}
mash:
  rests: [{at: 158 °F, for: 60 min}]
yeast: {kind: Scottish ale}
targets: {og: 1.046, fg: 1.014, abv: 4.2 %}
""",
    "extract": """\
recipe: Extract Amber
batch: 5 gal
grist:
  - {extract: light dry malt extract, weight: 5.5 lb}
  - {grain: caramel malt 60, weight: 12 oz}
steep: {water: 1 gal, at: 155 °F, for: 30 min}
yeast: {kind: American ale}
targets: {og: 1.050, fg: 1.012, abv: 5.0 %}
""",
    "american lager": """\
recipe: Flats Lager
batch: 5 gal
grist:
  - {grain: six-row pale malt, weight: 6.5 lb}
  - {grain: flaked maize, weight: 2.5 lb}
mash:
  rests: [{at: 149 °F, for: 75 min}]
yeast: {kind: American lager}
targets: {og: 1.047, fg: 1.009, abv: 5.0 %}
""",
}


@pytest.mark.parametrize("beer", RECIPES)
def test_a_sound_recipe_draws_nothing_above_a_note(beer: str) -> None:
    review = mashwright.review_text(RECIPES[beer])
    assert review.faults == ()
    assert review.counts.reviewed == 1
    (reviewed,) = review.recipes
    assert reviewed.unjudged == ()
    found = [result for result in reviewed.results if result.level.word != "note"]
    assert [(result.rule, result.message) for result in found] == []
