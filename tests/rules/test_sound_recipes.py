"""Recipes that are brewed every day give nothing above a note, whichever rule looks at them."""

import pytest

import mashwright

HARBOUR_WHEAT = """\
recipe: Harbour Wheat
by: Saltmarsh Lane Mash Circle
style: wheat ale
batch: 20 l
efficiency: 70 %

grist:
  - grain: two-row pale malt
    weight: 2.9 kg
  - grain: raw wheat
    weight: 1.35 kg
  - grain: caramel malt 40
    weight: 300 g
    colour: 41 °Lovibond
    lot: CM-0419
  - sugar: table sugar
    weight: 200 g
    add: kettle

mash:
  water: 14 l
  strike: 73 °C
  grain-temperature: 18 °C
  ph: 5.4
  salts: {gypsum: 4 g, calcium chloride: 2 g}
  rests:
    - {at: 66 °C, for: 60 min}
    - {at: 76 °C, for: 10 min, by: infusion, water: 7.3 l, of: 98 °C}
sparge: {by: batch, water: 8.5 l, at: 75 °C}
water: {calcium: 60 mg/l, magnesium: 8 mg/l, sodium: 20 mg/l, chloride: 40 mg/l, sulfate: 55 mg/l, alkalinity: 110 mg/l}

boil: {volume: 25 l, for: 60 min}
hops:
  - {hop: East Kent Golding, weight: 30 g, alpha: 5.2 %, boil: 60 min, form: pellet}
  - {hop: Fuggle, weight: 20 g, alpha: 4.5 %, whirlpool: 20 min, at: 80 °C}
  - {hop: Fuggle, weight: 25 g, alpha: 4.5 %, dry: 4 d}

yeast: {kind: English ale, attenuation: 75 %, tolerance: 9 %, pitch: 11 g}
ferment:
  - {at: 19 °C, for: 10 d}
package:
  in: bottles
  carbonation: 2.3 volumes
  priming: {sugar: table sugar, weight: 110 g}
  bottle-rating: 3.5 volumes

targets:
  og: 1.050
  fg: 1.012
  abv: 5.0 %
  bitterness: 20 IBU
  colour: 6 SRM
"""


def recipe(name: str, grist: list[str], mash: str = "", more: str = "", batch: str = "20 l") -> str:
    """A short recipe; ``grist`` holds lines such as ``grain: pale malt, weight: 4 kg``."""
    lines = [f"recipe: {name}", f"batch: {batch}", "grist:", *(f"  - {{{line}}}" for line in grist)]
    if mash:
        lines += ["mash:", "  rests:", *(f"    - {{{rest}}}" for rest in mash.split("; "))]
    return "\n".join([*lines, more, ""])


SOUND = [
    HARBOUR_WHEAT,
    recipe(
        "Pale ale",
        ["grain: pale ale malt, weight: 4.2 kg", "grain: caramel malt 40, weight: 300 g"],
        "at: 67 °C, for: 60 min",
        "targets: {og: 1.048, fg: 1.012, abv: 4.7 %}",
    ),
    recipe(
        "Dry stout",
        [
            "grain: pale ale malt, weight: 2.8 kg",
            "grain: flaked barley, weight: 800 g",
            "grain: roasted barley, weight: 400 g",
        ],
        "at: 66 °C, for: 60 min",
        "targets: {og: 1.043, fg: 1.010, abv: 4.3 %}",
    ),
    recipe(
        "Bavarian wheat beer",
        ["grain: wheat malt, weight: 3 kg", "grain: Pilsner malt, weight: 2 kg", "grain: rice hulls, weight: 200 g"],
        "at: 45 °C, for: 15 min; at: 63 °C, for: 40 min; at: 72 °C, for: 20 min; at: 76 °C, for: 10 min",
        "targets: {og: 1.052, fg: 1.013, abv: 5.2 %}",
    ),
    recipe(
        "Wheat beer by shares and without times",
        ["grain: wheat malt, share: 70 %", "grain: Pilsner malt, share: 30 %"],
        "at: 50 °C; at: 63 °C; at: 72 °C",
        "targets: {og: 1.050}",
    ),
    recipe(
        "Wit",
        [
            "grain: two-row pale malt, weight: 2.4 kg",
            "grain: flaked wheat, weight: 1.8 kg",
            "grain: flaked oats, weight: 250 g",
        ],
        "at: 67 °C, for: 60 min",
        "targets: {og: 1.048, fg: 1.011, abv: 4.9 %}",
    ),
    recipe(
        "Wit of two",
        ["grain: two-row pale malt, weight: 2.7 kg", "grain: flaked wheat, weight: 1.8 kg"],
        "at: 66 °C, for: 60 min",
    ),
    recipe(
        "All-Munich dunkel",
        ["grain: light Munich malt, weight: 5 kg"],
        "at: 68 °C, for: 75 min",
        "targets: {og: 1.054}",
    ),
    recipe("All-Munich dunkel at 67", ["grain: light Munich malt, weight: 5 kg"], "at: 67 °C, for: 75 min"),
    recipe(
        "Dark Munich dunkel",
        [
            "grain: dark Munich malt, weight: 4.5 kg",
            "grain: caramel malt 60, weight: 400 g",
            "grain: dehusked black malt, weight: 100 g",
        ],
        "at: 67 °C, for: 75 min",
    ),
    recipe(
        "Dark Munich, no rests",
        ["grain: dark Munich malt, share: 90 %", "grain: caramel malt 20, share: 10 %"],
        "",
        "targets: {og: 1.055}",
    ),
    recipe(
        "American lager",
        ["grain: six-row pale malt, weight: 7 lb", "grain: flaked maize, weight: 3 lb"],
        "at: 150 °F, for: 60 min",
        "targets: {og: 1.047, fg: 1.009, abv: 5.0 %}",
        "5 gal",
    ),
    recipe(
        "Old six-row lager",
        ["grain: six-row pale malt, weight: 5.3 lb", "grain: flaked corn, weight: 4.7 lb"],
        "at: 149 °F, for: 75 min",
        batch="5 gal",
    ),
    recipe(
        "Extract bitter",
        [
            "extract: light liquid malt extract, weight: 3 kg",
            "grain: caramel malt 60, weight: 350 g",
            "grain: chocolate malt, weight: 60 g",
        ],
        "",
        "steep: {water: 4 l, at: 68 °C, for: 30 min}\ntargets: {og: 1.046, fg: 1.012, abv: 4.5 %}",
    ),
    recipe(
        "Extract stout",
        [
            "extract: dark dry malt extract, weight: 2.6 kg",
            "grain: roasted barley, weight: 300 g",
            "grain: caramel malt 80, weight: 350 g",
        ],
    ),
    recipe(
        "Partial mash oatmeal stout",
        [
            "extract: light dry malt extract, weight: 2 kg",
            "grain: pale malt, weight: 700 g, add: steep",
            "grain: flaked oats, weight: 400 g, add: steep",
            "grain: roasted barley, weight: 250 g, add: steep",
        ],
        "",
        "steep: {water: 5 l, at: 67 °C, for: 45 min}",
    ),
    recipe(
        "Half raw wheat, cooked",
        ["grain: pale ale malt, weight: 2.5 kg", "grain: raw wheat, weight: 2.5 kg, prepare: cereal mash"],
        "at: 66 °C, for: 75 min",
        "cereal-mash: {water: 9 l, boil: 20 min}",
    ),
    recipe(
        "Half flaked on pale ale malt",
        [
            "grain: pale ale malt, weight: 2.5 kg",
            "grain: flaked barley, weight: 1 kg",
            "grain: flaked maize, weight: 1.5 kg",
        ],
    ),
    recipe(
        "Lambic grist",
        ["grain: Pilsner malt, weight: 3.3 kg", "grain: raw wheat, weight: 1.8 kg"],
        "at: 45 °C, for: 15 min; at: 52 °C, for: 15 min; at: 65 °C, for: 45 min; at: 72 °C, for: 30 min",
    ),
    recipe(
        "Bitter with invert sugar",
        [
            "grain: pale ale malt, weight: 3.2 kg",
            "grain: torrefied wheat, weight: 250 g",
            "grain: caramel malt 60, weight: 200 g",
            "sugar: invert sugar, weight: 300 g",
        ],
        "at: 66 °C, for: 60 min",
        "targets: {og: 1.042, fg: 1.009, abv: 4.3 %}",
    ),
    recipe(
        "Dark mild",
        [
            "grain: mild ale malt, weight: 2.8 kg",
            "grain: caramel malt 80, weight: 300 g",
            "grain: chocolate malt, weight: 100 g",
        ],
        "at: 68 °C, for: 60 min",
        "targets: {og: 1.036, fg: 1.011, abv: 3.3 %}",
    ),
    recipe(
        "Porter with brown malt",
        [
            "grain: pale ale malt, weight: 3.8 kg",
            "grain: brown malt, weight: 900 g",
            "grain: black malt, weight: 150 g",
        ],
        "at: 67 °C, for: 90 min",
        "targets: {og: 1.055, fg: 1.014, abv: 5.4 %}",
    ),
    recipe(
        "Oatmeal stout",
        [
            "grain: pale ale malt, weight: 9 lb",
            "grain: flaked oats, weight: 1 lb 8 oz",
            "grain: chocolate malt, weight: 12 oz",
            "grain: roasted barley, weight: 8 oz",
            "grain: caramel malt 80, weight: 12 oz",
        ],
        "at: 154 °F, for: 60 min",
        "targets: {og: 1.060, fg: 1.016, abv: 5.8 %}",
        "5 gal",
    ),
    recipe(
        "Roggenbier",
        [
            "grain: rye malt, weight: 2.5 kg",
            "grain: light Munich malt, weight: 1.3 kg",
            "grain: Pilsner malt, weight: 1.1 kg",
            "grain: caramel malt 60, weight: 150 g",
        ],
        "at: 40 °C, for: 30 min; at: 50 °C, for: 20 min; at: 65 °C, for: 45 min; at: 72 °C, for: 15 min",
        "targets: {og: 1.052, fg: 1.014, abv: 5.1 %}",
    ),
    recipe(
        "Schwarzbier",
        [
            "grain: Pilsner malt, weight: 2.5 kg",
            "grain: light Munich malt, weight: 2.2 kg",
            "grain: dehusked black malt, weight: 220 g",
        ],
        "at: 63 °C, for: 35 min; at: 72 °C, for: 25 min; at: 77 °C",
    ),
    recipe(
        "Helles",
        [
            "grain: Pilsner malt, weight: 4.6 kg",
            "grain: acidulated malt, weight: 120 g",
            "grain: light Munich malt, weight: 200 g",
        ],
        "at: 62 °C, for: 30 min; at: 72 °C, for: 30 min",
    ),
    recipe(
        "Tripel",
        ["grain: Pilsner malt, weight: 5.6 kg", "sugar: table sugar, weight: 1.1 kg"],
        "at: 64 °C, for: 75 min",
        "yeast: {kind: Belgian ale, attenuation: 83 %, tolerance: 12 %}\ntargets: {og: 1.078, fg: 1.011, abv: 8.9 %}",
    ),
    recipe(
        "Barley wine",
        [
            "grain: pale ale malt, weight: 9 kg",
            "grain: caramel malt 80, weight: 400 g",
            "sugar: table sugar, weight: 400 g",
        ],
        "at: 66 °C, for: 90 min",
        "targets: {og: 1.096, fg: 1.022, abv: 9.9 %}",
    ),
    recipe(
        "Saison with spelt",
        [
            "grain: Pilsner malt, weight: 3.6 kg",
            "grain: spelt malt, weight: 800 g",
            "grain: spelt, weight: 400 g",
            "sugar: table sugar, weight: 250 g",
        ],
        "at: 63 °C, for: 60 min; at: 70 °C, for: 20 min",
        "yeast: {kind: saison, attenuation: 90 %, diastatic: true}\ntargets: {og: 1.052, fg: 1.004, abv: 6.3 %}",
    ),
    recipe(
        "Kölsch",
        ["grain: Kölsch malt, weight: 4.2 kg", "grain: wheat malt, weight: 300 g"],
        "at: 52 °C, for: 10 min; at: 63 °C, for: 45 min; at: 72 °C, for: 15 min; at: 77 °C, for: 5 min",
    ),
    recipe(
        "Altbier",
        [
            "grain: Pilsner malt, weight: 2.2 kg",
            "grain: dark Munich malt, weight: 2.2 kg",
            "grain: chocolate malt, weight: 80 g",
        ],
        "at: 65 °C, for: 60 min",
    ),
    recipe(
        "Cream ale with grits",
        [
            "grain: six-row pale malt, weight: 7.5 lb",
            "grain: maize grits, weight: 2 lb, prepare: cereal mash",
            "grain: six-row pale malt, weight: 0.25 lb, prepare: cereal mash",
        ],
        "at: 122 °F, for: 20 min; at: 152 °F, for: 60 min, by: cereal mash",
        "cereal-mash: {water: 6 qt, rests: [{at: 158 °F, for: 15 min}], boil: 30 min}",
        "5 gal",
    ),
    recipe(
        "Cream ale, the cooker not spelt out",
        ["grain: six-row pale malt, weight: 3.4 kg", "grain: corn grits, weight: 1 kg"],
        "at: 66 °C, for: 60 min",
        "cereal-mash: {water: 5 l, boil: 30 min}",
    ),
    recipe(
        "Imperial stout",
        [
            "grain: pale ale malt, weight: 8 kg",
            "grain: roasted barley, weight: 700 g",
            "grain: chocolate malt, weight: 400 g",
            "grain: black malt, weight: 250 g",
            "grain: caramel malt 120, weight: 400 g",
        ],
        "at: 67 °C, for: 75 min",
        "targets: {og: 1.095, fg: 1.026, abv: 9.2 %}",
    ),
    recipe(
        "Gose",
        [
            "grain: Pilsner malt, weight: 2 kg",
            "grain: wheat malt, weight: 2 kg",
            "grain: acidulated malt, weight: 600 g",
        ],
        "at: 65 °C, for: 60 min",
        "style: gose",
    ),
    recipe(
        "Decocted bock",
        [
            "grain: light Munich malt, weight: 5.5 kg",
            "grain: Pilsner malt, weight: 1 kg",
            "grain: melanoidin malt, weight: 200 g",
        ],
        "at: 50 °C, for: 20 min; at: 64 °C, for: 30 min, by: decoction; at: 72 °C, for: 30 min, by: decoction;"
        " at: 76 °C, for: 10 min, by: decoction",
        "targets: {og: 1.070, fg: 1.018, abv: 6.8 %}",
    ),
    recipe(
        "Hochkurz",
        ["grain: Pilsner malt, weight: 4.5 kg"],
        "at: 62 °C, for: 30 min; at: 72 °C, for: 30 min; at: 78 °C, for: 10 min",
    ),
    recipe(
        "Overnight mash",
        ["grain: pale ale malt, weight: 4.5 kg", "grain: caramel malt 20, weight: 200 g"],
        "at: 66 °C, for: 10 h, to: 55 °C",
    ),
    recipe("Full-bodied single rest", ["grain: pale malt, weight: 4.5 kg"], "at: 70 °C, for: 45 min"),
    recipe(
        "Thin old rest",
        ["grain: two-row pale malt, weight: 4.5 kg"],
        "at: 140 °F, for: 90 min; at: 158 °F, for: 20 min",
    ),
    recipe("Single malt, short", ["grain: two-row pale malt, weight: 10 lb"], "at: 152 °F, for: 30 min", batch="5 gal"),
    recipe(
        "Vienna lager",
        ["grain: Vienna malt, weight: 4.6 kg", "grain: dehusked black malt, weight: 40 g"],
        "at: 66 °C, for: 60 min",
    ),
    recipe(
        "Rauchbier",
        ["grain: smoked malt, weight: 4.5 kg", "grain: light Munich malt, weight: 500 g"],
        "at: 66 °C, for: 60 min",
    ),
    recipe(
        "Red ale with rye",
        ["grain: pale malt, weight: 3.6 kg", "grain: rye malt, weight: 900 g", "grain: caramel malt 60, weight: 350 g"],
        "at: 67 °C, for: 60 min",
    ),
    recipe(
        "Hazy pale ale",
        [
            "grain: two-row pale malt, weight: 4 kg",
            "grain: flaked oats, weight: 900 g",
            "grain: wheat malt, weight: 600 g",
        ],
        "at: 67 °C, for: 60 min",
    ),
    recipe(
        "Two-row, light Munich, some black",
        [
            "grain: two-row pale malt, weight: 2.4 kg",
            "grain: light Munich malt, weight: 2.4 kg",
            "grain: black malt, weight: 200 g",
        ],
        "at: 67 °C, for: 60 min",
    ),
    recipe("No mash stated", ["grain: pale ale malt, weight: 4.2 kg", "grain: caramel malt 60, weight: 200 g"]),
    recipe(
        "Grodziskie",
        ["grain: smoked wheat malt, weight: 3.2 kg", "grain: rice hulls, weight: 250 g"],
        "at: 52 °C, for: 20 min; at: 65 °C, for: 45 min; at: 70 °C, for: 20 min",
    ),
    recipe(
        "Rice lager",
        ["grain: two-row pale malt, weight: 3.3 kg", "grain: flaked rice, weight: 1.2 kg"],
        "at: 65 °C, for: 75 min",
        "targets: {og: 1.046, fg: 1.008, abv: 5.0 %}",
    ),
    recipe(
        "Small beer",
        ["grain: pale malt, weight: 2 kg", "grain: light Munich malt, weight: 300 g"],
        "at: 70 °C, for: 45 min",
        "targets: {og: 1.022, fg: 1.008, abv: 1.8 %}",
    ),
]


@pytest.mark.parametrize("text", SOUND, ids=[text.partition("\n")[0].removeprefix("recipe: ") for text in SOUND])
def test_nothing_above_a_note_and_nothing_left_open(text: str) -> None:
    review = mashwright.review_text(text)
    assert review.faults == ()
    (reviewed,) = review.recipes
    told = [f"{one.rule}: {one.level.word}: {one.message}" for one in reviewed.results]
    assert [one for one in told if ": note: " not in one] == []
    assert reviewed.unjudged == ()
