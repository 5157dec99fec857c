"""Figures of water, mash pH and colour through whole recipes."""

import pytest

import mashwright
from mashwright.brew.brew import Brew
from mashwright.brewing.volumes import BAG_ABSORPTION_L_PER_KG
from mashwright.figures.beer.beer_colour import colour
from mashwright.figures.figure import Figure
from mashwright.figures.function import FigureFunction
from mashwright.figures.water.acidity import mash_ph
from mashwright.figures.water.brewing_water import liquor, tap_water
from mashwright.figures.water.dissolved import ions, ions_in_mash, residual_alkalinity, sulfate_chloride_ratio
from mashwright.recipe.stated import Unknown

WATER = (
    "calcium: 60 mg/l, magnesium: 8 mg/l, sodium: 20 mg/l, chloride: 40 mg/l, sulfate: 55 mg/l, alkalinity: 110 mg/l"
)
HOUSE = "brewhouse: Here\nwater: {calcium: 100 mg/l, alkalinity: 4 mEq/l}\n"


def brew(text: str, house: str = "") -> Brew:
    return Brew.of(text, house)


def recipe(mash: str = "water: 15 l", water: str = WATER, more: str = "", grain: str = "Pilsner malt") -> str:
    stated = f"water: {{{water}}}\n" if water else ""
    grist = f"grist:\n  - {{grain: {grain}, weight: 5 kg}}\n"
    return f"recipe: Tried\nbatch: 20 l\n{grist}mash: {{{mash}}}\n{stated}{more}"


def parts(figure: Figure) -> dict[str, float]:
    return {name: round(value.typical, 1) for name, value in figure.parts}


def missing(function: FigureFunction, text: str, house: str = "") -> tuple[str, tuple[str | int, ...]]:
    with pytest.raises(Unknown) as unknown:
        function(brew(text, house))
    return unknown.value.missing, unknown.value.path


def test_ions_with_salts_in_mash_sparge_and_kettle() -> None:
    """By molar mass: 15 g of gypsum in 15 l are 232.8 and 557.9 mg/l, half of that in mash and sparge together; 3 g of
    table salt in 15 l of the sparge, and 2.5 g of Epsom salt in 25 l before the boil."""
    text = recipe(
        "water: 15 l, salts: {gypsum: 15 g}",
        more="sparge: {by: batch, water: 15 l, salts: {table salt: 3 g}}\n"
        "boil: {volume: 25 l, salts: {Epsom salt: 2.5 g}}\n",
    )
    assert parts(ions(brew(text))) == {
        "calcium in the mash": 292.8,
        "magnesium in the mash": 8.0,
        "sodium in the mash": 20.0,
        "chloride in the mash": 40.0,
        "sulfate in the mash": 612.9,
        "bicarbonate in the mash": 134.1,
        "calcium in the kettle": 176.4,
        "magnesium in the kettle": 17.9,
        "sodium in the kettle": 59.3,
        "chloride in the kettle": 100.7,
        "sulfate in the kettle": 372.9,
        "bicarbonate in the kettle": 134.1,
    }
    ratio = sulfate_chloride_ratio(brew(text))
    assert ratio.typical == pytest.approx(372.9 / 100.7, rel=0.001)


def test_the_sum_on_the_board() -> None:
    assert ions(brew(recipe("water: 15 l, salts: {gypsum: 15 g}"))).working().split("\n")[1] == (
        "  15 g of gypsum: 233 mg/l calcium, 558 mg/l sulfate in 15 l of the mash"
    )
    assert residual_alkalinity(brew(recipe())).working() == (
        "alkalinity 110 - calcium 60 ÷ 1.40 - magnesium 8 ÷ 1.70, all in mg/l\n"
        "  = 62.5 mg/l as CaCO3 = 1.25 mEq/l = 3.5 °dH"
    )


@pytest.mark.parametrize(
    "alkalinity",
    ["alkalinity: 110 mg/l", "alkalinity: 2.198 mEq/l", "alkalinity: 6.163 °dH", "alkalinity: 11 °fH",
     "bicarbonate: 134.13 mg/l"],
)  # fmt: skip
def test_units_of_alkalinity(alkalinity: str) -> None:
    text = recipe(water=f"calcium: 60 mg/l, magnesium: 8 mg/l, {alkalinity}")
    assert residual_alkalinity(brew(text)).typical == pytest.approx(62.5, abs=0.05)


def test_dilution_halves_everything() -> None:
    whole, half = tap_water(brew(recipe())), tap_water(brew(recipe(water=f"{WATER}, dilution: 50 %")))
    assert {ion: value.typical for ion, value in half.ions.items()} == {
        ion: value.typical / 2 for ion, value in whole.ions.items()
    }
    assert residual_alkalinity(brew(recipe(water=f"{WATER}, dilution: 50 %"))).typical == pytest.approx(31.2, abs=0.1)
    assert parts(ions(brew(recipe(water="dilution: 100 %"))))["calcium in the mash"] == 0


def test_the_brewhouse_knows_the_water() -> None:
    figure = residual_alkalinity(brew(recipe(water=""), HOUSE))
    assert figure.assumed == (
        "the brewhouse's water, since the recipe states none",
        "5 mg/l of magnesium (0 to 20), since none is stated",
    )
    assert figure.typical == pytest.approx(200.16 - 100 / 1.4016 - 5 / 1.7, abs=0.1)
    assert figure.low < figure.typical < figure.high
    diluted = residual_alkalinity(brew(recipe(water="dilution: 50 %"), HOUSE))
    assert diluted.typical == pytest.approx((200.16 - 100 / 1.4016) / 2 - 5 / 1.7, abs=1.5)


def test_salts_and_acid_in_residual_alkalinity() -> None:
    text = recipe("water: 15 l, salts: {gypsum: 6 g}, acid: {lactic acid 88 %: 2 ml}")
    figure = residual_alkalinity(brew(text))
    assert figure.typical == pytest.approx(62.5 - 6 * 232.8 / 15 / 1.4016, abs=0.1)
    assert parts(figure) == {
        "of the water without salts": 62.5,
        "with the acid": pytest.approx(figure.typical - 2 * 11.45 / 15 * 50.04, abs=0.2),
    }


def test_baking_soda_raises_it() -> None:
    figure = residual_alkalinity(brew(recipe("water: 10 l, salts: {baking soda: 1 g}")))
    assert figure.typical == pytest.approx(62.5 + 1.19 * 50.04, abs=0.1)


def test_two_half_additions_are_one_whole() -> None:
    once = brew(recipe("water: 15 l, salts: {gypsum: 4 g}"))
    twice = brew(recipe("water: 15 l, salts: {gypsum: 2 g, calcium sulfate: 2 g}"))
    assert parts(ions(once)) == parts(ions(twice))


def test_gallons_and_litres() -> None:
    metric = brew(recipe("water: 15.1416 l, salts: {gypsum: 28.3495 g}"))
    american = brew(recipe("water: 4 gal, salts: {gypsum: 1 oz}"))
    assert parts(ions(metric)) == parts(ions(american))


def test_infusions_and_thickness_are_mash_water() -> None:
    thick = liquor(brew(recipe("thickness: 3 l/kg"))).mash_l
    assert thick is not None
    assert thick.typical == 15
    stepped = "water: 12 l, rests: [{at: 63 °C}, {at: 72 °C, by: infusion, water: 3 l}], salts: {gypsum: 15 g}"
    assert parts(ions(brew(recipe(stepped))))["calcium in the mash"] == 292.8


def test_the_rest_of_the_kettle_is_the_same_water() -> None:
    """25 l before the boil, 5 l in the grain and 0.3 l in the tun less 15 l in the mash are 15.3 l more."""
    text = recipe("water: 15 l, salts: {gypsum: 15 g}", more="boil: {volume: 25 l}\n")
    figure = ions(brew(text))
    assert parts(figure)["calcium in the kettle"] == 175.2
    assert figure.assumed == ("the rest of the kettle filled with the same water",)


def test_salts_without_a_volume_are_left_out() -> None:
    text = recipe("salts: {gypsum: 15 g}")
    figure = ions(brew(text))
    assert parts(figure)["calcium in the mash"] == 60
    assert "gypsum left out, since the volume of that water is not stated" in figure.assumed
    assert missing(residual_alkalinity, text) == ("the mash water, into which the salts go", ("mash", "water"))
    assert missing(mash_ph, text) == ("the mash water, into which the salts go", ("mash", "water"))


def test_what_is_missing() -> None:
    assert missing(ions, recipe(water="")) == ("what is dissolved in the water", ("water",))
    assert missing(ions, recipe(water="ph: 7")) == ("what is dissolved in the water", ("water",))
    assert missing(mash_ph, recipe(water="calcium: 60 mg/l")) == (
        "the alkalinity of the water",
        ("water", "alkalinity"),
    )
    assert missing(mash_ph, recipe(water="alkalinity: 60 mg/l")) == ("the calcium of the water", ("water", "calcium"))
    assert missing(sulfate_chloride_ratio, recipe(water="alkalinity: 60 mg/l")) == (
        "the sulfate of the water",
        ("water", "sulfate"),
    )
    assert missing(ions, recipe(water="calcium: much")) == ("a readable water", ("water", "calcium"))
    unreadable = recipe("water: 15 l, salts: {gypsum: much}")
    assert missing(ions, unreadable) == ("a readable weight of gypsum", ("mash", "salts", "gypsum"))


def test_an_analysis_with_holes() -> None:
    figure = ions(brew(recipe(water="calcium: 60 mg/l, alkalinity: 110 mg/l")))
    assert list(parts(figure)) == [
        "calcium in the mash",
        "bicarbonate in the mash",
        "calcium in the kettle",
        "bicarbonate in the kettle",
    ]
    assert figure.assumed == ("nothing of magnesium, sodium, chloride, sulfate, which the water does not state",)


EXTRACT = f"""\
recipe: Tried
batch: 20 l
grist:
  - {{extract: light liquid malt extract, weight: 3 kg}}
  - {{grain: caramel malt 80, weight: 350 g, add: steep}}
steep: {{water: 3 l, at: 67 °C, for: 30 min}}
water: {{{WATER}}}
boil: {{volume: 25 l, salts: {{gypsum: 5 g}}}}
"""


def test_nothing_is_told_of_a_mash_where_there_is_none() -> None:
    figure = ions(brew(EXTRACT))
    assert parts(figure) == {
        "calcium in the kettle": 106.6,
        "magnesium in the kettle": 8.0,
        "sodium in the kettle": 20.0,
        "chloride in the kettle": 40.0,
        "sulfate in the kettle": 166.6,
        "bicarbonate in the kettle": 134.1,
    }
    assert figure.typical == pytest.approx(sum(parts(figure).values()), abs=0.2)
    assert "what the malt extract brings" in figure.working()
    assert ions_in_mash(brew(EXTRACT)) == {}
    for function in (residual_alkalinity, mash_ph):
        assert missing(function, EXTRACT) == ("grain that is mashed", ("grist",))


def test_a_partial_mash_and_a_small_mash_in_the_steep_have_mash_water() -> None:
    both = recipe(more="").replace("mash:", "  - {extract: light liquid malt extract, weight: 1 kg}\nmash:")
    small = EXTRACT.replace(
        "{grain: caramel malt 80,", "{grain: pale malt, weight: 500 g, add: steep}\n  - {grain: flaked oats,"
    )
    for text in (both, small):
        assert "calcium in the mash" in parts(ions(brew(text)))
        assert residual_alkalinity(brew(text)).typical == pytest.approx(62.5, abs=0.1)


def test_mash_ph_is_a_band() -> None:
    figure = mash_ph(brew(recipe()))
    assert figure.typical == pytest.approx(5.77 + 1.25 * 0.052, abs=0.02)
    assert figure.typical - figure.low >= 0.15
    assert figure.high - figure.typical >= 0.15


def test_acid_lowers_it() -> None:
    plain = mash_ph(brew(recipe())).typical
    lactic = mash_ph(brew(recipe("water: 15 l, acid: {lactic acid 88 %: 10 ml}")))
    assert plain - lactic.typical == pytest.approx(114.5 / 5 / 42, abs=0.01)
    assert lactic.working().split("\n")[-2].startswith("lactic acid 88 %: 114 mEq ÷ 5 kg ÷ 42 mEq")
    beside = mash_ph(brew(recipe("water: 15 l, acid: {acidulated malt: 150 g}")))
    assert plain - beside.typical == pytest.approx(0.3, abs=0.01)


def test_roasted_malt_lowers_it_and_a_late_one_does_not() -> None:
    dark = "  - {grain: roasted barley, weight: 500 g%s}\nmash:"
    now = recipe().replace("mash:", dark % "")
    late = recipe().replace("mash:", dark % ", add: late mash")
    assert mash_ph(brew(now)).typical < mash_ph(brew(recipe())).typical - 0.1
    assert mash_ph(brew(late)).typical == mash_ph(brew(recipe())).typical


def test_no_mash_water_is_assumed() -> None:
    figure = mash_ph(brew(recipe("bag: true")))
    assert figure.assumed == ("a mash of 3 l/kg, since no mash water is stated",)


def test_colour_of_a_grist() -> None:
    """5 kg at 1.7 °Lovibond in 20 l: 3.55 MCU, 3.56 SRM."""
    figure = colour(brew(recipe(grain="Pilsner malt, colour: 1.7 °Lovibond")))
    assert figure.typical == pytest.approx(1.4922 * 3.5468**0.6859)
    assert figure.low == pytest.approx(0.8 * figure.typical)
    assert figure.high == pytest.approx(1.2 * figure.typical)
    assert dict(figure.parts)["in EBC"].typical == pytest.approx(figure.typical * 25 / 12.7)


def test_colour_counts_late_grain_steeped_grain_and_sugar() -> None:
    plain = colour(brew(recipe())).typical
    for line in (
        "{grain: black malt, weight: 100 g, add: late mash}",
        "{grain: black malt, weight: 100 g, add: steep}",
        "{sugar: candi syrup, colour: 180 °Lovibond, weight: 291.7 g}",
    ):
        darker = colour(brew(recipe().replace("mash:", f"  - {line}\nmash:"))).typical
        assert darker == pytest.approx(14, abs=1)
        assert darker > plain + 5


def test_colour_is_the_same_in_pounds() -> None:
    metric = colour(brew(recipe())).typical
    american = recipe().replace("5 kg", "11.0231 lb").replace("20 l", "5.28344 gal")
    assert colour(brew(american)).typical == pytest.approx(metric, rel=1e-4)


def test_hulls_have_no_colour_and_the_unknown_may_have_any() -> None:
    hulls = recipe().replace("mash:", "  - {grain: rice hulls, weight: 300 g}\nmash:")
    assert colour(brew(hulls)).typical == colour(brew(recipe())).typical
    strange = recipe().replace("mash:", "  - {grain: ruby lagoon, weight: 3 kg}\nmash:")
    assert colour(brew(strange)).high > 5 * colour(brew(recipe())).high


def test_the_rest_of_the_kettle_by_what_the_bag_keeps() -> None:
    """A bag keeps 0.8 l/kg and no tun: 25 l and 4 l less 15 l are 14 l; and no vessel of another house counts."""
    bag = brew(recipe("water: 15 l, bag: true, salts: {gypsum: 15 g}", more="boil: {volume: 25 l}\n"))
    rest = liquor(bag).sparge_l
    assert rest is not None
    assert rest.typical == pytest.approx(25 + 5 * BAG_ABSORPTION_L_PER_KG.typical - 15)


@pytest.mark.parametrize(("acid_ml", "guessed"), [(18, False), (20, True)])
def test_a_mash_below_ph_4_8_is_hardly_more_than_guessed(acid_ml: int, guessed: bool) -> None:
    text = (
        "recipe: Tried\nbatch: 20 l\ngrist: [{grain: Pilsner malt, weight: 5 kg}]\n"
        f"mash: {{water: 15 l, acid: {{lactic acid 88 %: {acid_ml} ml}}}}\n"
        "water: {calcium: 20 mg/l, magnesium: 3 mg/l, alkalinity: 20 mg/l}\n"
    )
    (row,) = (row for row in mashwright.figures_of(text).rows if row.id == "mash-ph")
    assert ("little more than a guess" in row.working) is guessed
    assert row.typical is not None
    assert (row.typical < 4.8) is guessed
