"""Figures of heat and volume on whole recipes: values, workings, assumptions, and what is missing."""

from typing import TYPE_CHECKING

import pytest

from mashwright.brew.batch import kettle_loss_of
from mashwright.brew.brew import Brew
from mashwright.brew.pours import into_fermenter
from mashwright.figures.function import FigureFunction
from mashwright.figures.kettle.boil_volumes import kettle, post_boil_volume, pre_boil_volume
from mashwright.figures.kettle.volumes import liquor_to_grist, mash_volume, run_off_volume, total_liquor
from mashwright.figures.mash.gravity import og
from mashwright.figures.mash.heat import bed_temperature, boiling_point, mash_temperature, strike_temperature
from mashwright.figures.mash.step_heat import step_temperature
from mashwright.figures.package.packaged import packaged_volume
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown
from mashwright.reviewing.sheet import sheet_of

if TYPE_CHECKING:
    from mashwright.figures.figure import Figure

HOUSE = """\
brewhouse: Tried
mash-tun: {volume: 30 l, dead-space: 1 l, heat: 0.6 l}
kettle: {volume: 35 l, loss: 1 l, boil-off: 4 l/h}
fermenter: {volume: 30 l, loss: 1 l}
absorption: 1.0 l/kg
altitude: 120 m
"""
WHEAT = """\
recipe: Tried
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 3.2 kg}
  - {grain: raw wheat, weight: 1.35 kg}
mash:
  water: 14 l
  strike: 74 °C
  grain-temperature: 18 °C
  rests:
    - {at: 66 °C, for: 60 min}
    - {at: 76 °C, for: 10 min, by: infusion, water: 7.3 l, of: 98 °C}
sparge: {by: batch, water: 10 l, at: 75 °C}
boil: {volume: 26 l, for: 60 min}
"""
BARE = "recipe: Tried\nbatch: 20 l\ngrist: [{grain: pale ale malt, weight: 4.5 kg}]\n"


def brew_of(text: str, house: str = "") -> Brew:
    return Brew.of(text, house)


def value(function: FigureFunction, text: str, house: str = "") -> Range:
    figure = function(brew_of(text, house))
    assert figure.low <= figure.typical <= figure.high
    assert figure.working()
    return figure.range


def test_dough_in_with_the_tun() -> None:
    """By hand: (1.85 × 18 + 14 × 74 + 0.6 × 18) ÷ 16.45."""
    figure = mash_temperature(brew_of(WHEAT, HOUSE))
    assert figure.typical == pytest.approx(65.65, abs=0.02)
    preheated = (1.85 * 18 + 14 * 74) / 15.85
    assert figure.high - preheated == pytest.approx(1.3, abs=0.3), "the heat of slaking, and a tun that takes nothing"
    assert figure.low == pytest.approx(figure.typical)
    assert figure.assumed == ("a tun as cold as the grain; a preheated tun takes almost no heat",)
    assert "0.6 l of water for the heat that the tun takes at 18 °C" in figure.working()


def test_strike_is_solved_from_the_same_balance() -> None:
    needed = value(strike_temperature, WHEAT, HOUSE).typical
    text = WHEAT.replace("strike: 74 °C", f"strike: {needed:.6f} °C")
    assert value(mash_temperature, text, HOUSE).typical == pytest.approx(66)


def test_the_trade_fact_of_room_temperature_grain() -> None:
    """Common practice: 73.3 °C on grain at room temperature gives near 67.5 °C at an ordinary thickness."""
    mash = "mash: {thickness: 3.2 l/kg, strike: 73.3 °C, rests: [{at: 67.5 °C, for: 60 min}]}\n"
    figure = mash_temperature(brew_of(BARE + mash))
    assert figure.typical == pytest.approx(67.4, abs=0.2)
    assert figure.low < 67.5 < figure.high
    assert figure.assumed == (
        "grain at 20 °C, since its temperature is not stated",
        "a preheated tun; a cold tun costs a degree or two",
    )


def test_a_colder_tun_and_colder_grain_widen_the_cold_end() -> None:
    stated, unsaid = (
        value(mash_temperature, WHEAT),
        value(mash_temperature, WHEAT.replace("  grain-temperature: 18 °C\n", "")),
    )
    assert unsaid.low < stated.low
    assert stated.low == pytest.approx(stated.typical - 2.0, abs=0.4)


def test_steps_by_part() -> None:
    figure = step_temperature(brew_of(WHEAT, HOUSE))
    ((name, part),) = figure.parts
    assert name == "rest 2"
    assert part == figure.range
    assert figure.typical == pytest.approx(75.8, abs=0.05)
    assert "= 75.8 °C" in figure.working()


def test_a_step_that_leaves_its_water_open_says_what_it_needs() -> None:
    text = WHEAT.replace(", water: 7.3 l, of: 98 °C", ", of: 98 °C")
    figure = step_temperature(brew_of(text, HOUSE))
    assert figure.typical == 76
    assert "needs 7.5 l of water at 98 °C" in figure.working()
    assert figure.assumed == ("as much water for rest 2 as it needs, since none is stated",)
    assert "7.5 l for infusions that state no water" in mash_volume(brew_of(text, HOUSE)).assumed


def test_decoction_figured_with_and_without_losses() -> None:
    """Worked check: 18 l from 50 to 64 °C takes 5.04 l where nothing is lost, a seventh more where it is."""
    mash = "mash: {water: 15.03 l, rests: [{at: 50 °C, for: 20 min}, {at: 64 °C, by: decoction, pull: 5.04 l}]}\n"
    figure = step_temperature(brew_of(BARE + mash))
    assert figure.high == pytest.approx(64, abs=0.05)
    assert figure.typical == pytest.approx(50 + 14 / 1.15, abs=0.05)


def test_bed_by_batches_and_by_fly() -> None:
    batch = value(bed_temperature, WHEAT, HOUSE)
    assert batch.typical == pytest.approx(75.4, abs=0.05)
    fly = value(bed_temperature, WHEAT.replace("by: batch", "by: fly").replace("at: 75 °C", "at: 85 °C"), HOUSE)
    assert 76 < fly.typical < 85
    assert fly.high == 85


def test_every_litre_is_accounted_for() -> None:
    figure = total_liquor(brew_of(WHEAT, HOUSE))
    assert figure.typical == pytest.approx(31.3)
    assert figure.working().split("\n") == [
        "14 l strike + 7.3 l infusion + 10 l sparge = 31.3 l",
        "  4.6 l kept by 4.55 kg of grain",
        "  1 l left in the tun",
        "  4 l boiled away",
        "  1 l left in the kettle with hops and trub",
        "  0.87 l shrinks on cooling",
        "  leaves 19.9 l for the fermenter, which needs 20 l",
    ]


def test_the_worked_brew_without_stated_waters() -> None:
    """Sum by hand: 20 l, 1.5 l of trub, 3 l/h for 1 h, 5 kg at 1.0 l/kg: 22.4, 25.4 and 30.4 l."""
    text = BARE.replace("4.5 kg", "5 kg") + "boil: {for: 60 min}\n"
    house = (
        "brewhouse: Tried\nmash-tun: {dead-space: 0 l}\nkettle: {loss: 1.5 l, boil-off: 3 l/h}\nabsorption: 1 l/kg\n"
    )
    assert value(post_boil_volume, text, house).typical == pytest.approx(22.4, abs=0.05)
    assert value(pre_boil_volume, text, house).typical == pytest.approx(25.4, abs=0.05)
    assert value(run_off_volume, text, house).typical == pytest.approx(25.4, abs=0.05)
    assert value(total_liquor, text, house).typical == pytest.approx(30.4, abs=0.05)
    figure = total_liquor(brew_of(text, house))
    amounts = [float(row.split()[0]) for row in figure.working().split("\n")[:-1]]
    assert sum(amounts) == pytest.approx(30.4, abs=0.15), "the rows add up to the whole"


@pytest.mark.parametrize(
    ("batch", "fermenter_l"),
    [("{fermenter: 20 l}", 20.0), ("{package: 19 l}", 20.0), ("{kettle: 21.875 l}", 20.0)],
)
def test_a_batch_wherever_it_is_counted(batch: str, fermenter_l: float) -> None:
    text = BARE.replace("batch: 20 l", f"batch: {batch}") + "boil: {for: 60 min}\n"
    assert value(post_boil_volume, text, HOUSE).typical == pytest.approx((fermenter_l + 1) / 0.96)


def test_top_up_is_taken_off_the_kettle_or_put_in() -> None:
    text = BARE + "boil: {for: 60 min}\n"
    whole, partial = (
        value(pre_boil_volume, text, HOUSE),
        value(pre_boil_volume, text + "top-up: {fermenter: 5 l}\n", HOUSE),
    )
    assert whole.typical - partial.typical == pytest.approx(5 / 0.96)
    assert value(run_off_volume, text + "top-up: {kettle: 5 l}\n", HOUSE).typical == pytest.approx(whole.typical - 5)


def test_many_hops_keep_more() -> None:
    hops = "hops: [{hop: Cascade, weight: 300 g, boil: 10 min}, {hop: Cascade, weight: 500 g, dry: 3 d}]\n"
    figure = post_boil_volume(brew_of(BARE + hops, HOUSE))
    assert figure.typical == pytest.approx((20 + 1 + 8 * (0.3 - 0.06)) / 0.96)
    assert figure.assumed == ("1.9 l more kept by this many hops",)
    for grams, more in ((60, ()), (90, ("0.24 l more kept by this many hops",))):
        few = f"hops: [{{hop: Cascade, weight: {grams} g, boil: 10 min}}]\nboil: {{for: 60 min}}\n"
        assert post_boil_volume(brew_of(BARE + few, HOUSE)).assumed == more


HOPPED = "recipe: Tried\nbatch: {{{batch}}}\ngrist: [{{grain: pale ale malt, weight: 4.5 kg}}]\n{hops}"
MANY = "hops: [{hop: Fuggle, weight: 700 g, alpha: 4 %, boil: 60 min}]\n"


@pytest.mark.parametrize("batch", ["kettle: 24 l", "package: 18 l", "fermenter: 20 l"])
def test_one_kettle_loss_for_all_figures(batch: str) -> None:
    """Of 20 l and more, 60 g of hops are held already, and each further kg keeps 8 l."""
    tried = brew_of(HOPPED.format(batch=batch, hops=MANY), HOUSE)
    cold = {"kettle: 24 l": 24 * 0.96, "package: 18 l": 19.0, "fermenter: 20 l": 20.0}[batch]
    loss = 1 + 8 * (0.7 - 0.003 * cold)
    assert kettle(tried).loss.typical == pytest.approx(loss)
    assert kettle_loss_of(tried.recipe, tried.brewhouse, Range.exact(cold)).litres.typical == pytest.approx(loss)
    by_mash = HOPPED.format(batch=batch, hops=MANY + "mash-efficiency: 80 %\n")
    counted = brew_of(by_mash, HOUSE).wort_volume()[0].typical
    assert counted == pytest.approx(cold if batch.startswith("kettle") else cold + loss)


def test_what_many_hops_keep_they_keep_with_its_extract() -> None:
    """A batch counted in the kettle is no stronger for its hops, and less of it comes into the fermenter."""
    few, many = (brew_of(HOPPED.format(batch="kettle: 24 l", hops=hops), HOUSE) for hops in ("", MANY))
    assert og(many).range == og(few).range
    assert into_fermenter(few).typical == pytest.approx(24 * 0.96 - 1)
    assert into_fermenter(many).typical == pytest.approx(24 * 0.96 - 1 - 8 * (0.7 - 0.003 * 24 * 0.96))
    assert packaged_volume(many).typical == pytest.approx(into_fermenter(many).typical - 1)
    text = og(many).working()
    assert "24 l in the kettle × 0.96 for cooling, less 1 l left in the kettle, beside the 5 l that so many" in text


def test_losses_of_a_house_that_is_far_too_small_count_nowhere() -> None:
    text = HOPPED.format(batch="package: 400 l", hops="").replace("4.5 kg", "90 kg")
    small, none = brew_of(text, HOUSE), brew_of(text)
    assert small.wort_volume() == none.wort_volume()
    assert small.assumed_losses() == none.assumed_losses() != ()
    assert packaged_volume(brew_of(text.replace("package", "fermenter"), HOUSE)).typical == pytest.approx(380)


def test_a_bag_keeps_less_and_has_no_dead_space() -> None:
    bag = BARE + "mash: {water: 28 l, bag: true}\n"
    run_off = value(run_off_volume, bag)
    assert run_off.typical == pytest.approx(28 - 0.8 * 4.5)
    assert run_off.high == pytest.approx(28 - 0.6 * 4.5)


def test_malt_extract_and_sugar_fill_the_kettle_too() -> None:
    text = "recipe: Tried\nbatch: 20 l\ngrist: [{sugar: table sugar, weight: 2 kg}]\nboil: {for: 60 min}\n"
    liquor = value(total_liquor, text, HOUSE).typical
    assert value(pre_boil_volume, text, HOUSE).typical - liquor == pytest.approx(2 * 0.62, abs=0.03)


def test_the_waters_of_malt_extract_are_its_steep_and_top_up() -> None:
    """3 l of steep less 0.5 l kept by the grain, 16 l of top-up, and 2.1 l that 3 kg of syrup fill."""
    text = """\
recipe: Tried
batch: 20 l
grist:
  - {extract: light liquid malt extract, weight: 3 kg}
  - {grain: caramel malt 80, weight: 500 g, add: steep}
steep: {water: 3 l, at: 67 °C, for: 30 min}
top-up: {kettle: 16 l}
boil: {for: 60 min}
"""
    parts = dict(pre_boil_volume(brew_of(text, HOUSE)).parts)
    assert parts["from the stated water"].typical == pytest.approx(3 - 0.5 + 16 + 2.1, abs=0.1)
    figure = total_liquor(brew_of(text, HOUSE))
    assert figure.working().split("\n")[0] == "3 l steep + 16 l top-up in the kettle = 19 l"
    for open_one in (
        text.replace("top-up: {kettle: 16 l}\n", ""),
        text.replace("water: 3 l, ", ""),
        text.replace("{extract: light liquid malt extract, weight: 3 kg}", "{sugar: table sugar, weight: 3 kg}"),
    ):
        assert "from the stated water" not in dict(pre_boil_volume(brew_of(open_one, HOUSE)).parts)


def test_a_big_batch_is_not_brewed_in_a_small_house() -> None:
    text = BARE.replace("20 l", "2000 l").replace("4.5 kg", "450 kg")
    assert value(pre_boil_volume, text, HOUSE) == value(pre_boil_volume, text)


def test_thickness_and_volume_of_the_mash() -> None:
    assert value(liquor_to_grist, WHEAT).typical == pytest.approx(14 / 4.55)
    figure = liquor_to_grist(brew_of(WHEAT))
    assert [(name, round(part.typical, 3)) for name, part in figure.parts] == [("in the end", 4.681)]
    assert value(mash_volume, WHEAT).typical == pytest.approx(21.3 + 0.66 * 4.55)


def test_boiling_point_by_altitude() -> None:
    assert value(boiling_point, BARE).typical == pytest.approx(99.97, abs=0.01)
    assert value(boiling_point, BARE, "brewhouse: Tried\naltitude: 0 m\n") == value(boiling_point, BARE)
    assert value(boiling_point, BARE, "brewhouse: Tried\naltitude: 5280 ft\n").typical == pytest.approx(94.6, abs=0.1)


@pytest.mark.parametrize("altitude", ["-900 m", "12000 m", "high up"])
def test_an_altitude_that_cannot_be_leaves_the_strike_known(altitude: str) -> None:
    house = f"brewhouse: Tried\naltitude: {altitude}\n"
    with pytest.raises(Unknown, match="a readable altitude of the brewhouse"):
        boiling_point(brew_of(WHEAT, house))
    assert value(strike_temperature, WHEAT, house) == value(strike_temperature, WHEAT)
    rows = {row.id: row for row in sheet_of(brew_of(WHEAT, house), "tried.yaml").rows}
    assert rows["strike-temperature"].working
    assert rows["boiling-point"].missing == "a readable altitude of the brewhouse"


@pytest.mark.parametrize(
    ("function", "missing"),
    [
        (mash_temperature, "the temperature of the strike water"),
        (step_temperature, "rests after the first that say how the mash is brought there"),
        (bed_temperature, "a sparge"),
        (liquor_to_grist, "the mash water"),
    ],
)
def test_what_is_missing(function: FigureFunction, missing: str) -> None:
    with pytest.raises(Unknown, match=f"^{missing}$"):
        function(brew_of(BARE))


@pytest.mark.parametrize("function", [strike_temperature, mash_volume, run_off_volume, pre_boil_volume, total_liquor])
def test_what_can_be_had_from_grist_and_batch_alone(function: FigureFunction) -> None:
    figure: Figure = function(brew_of(BARE))
    assert figure.low < figure.typical < figure.high
    assert figure.assumed


def test_metric_and_american_recipes_agree() -> None:
    american = """\
recipe: Tried
batch: 5.28344 gal
grist: [{grain: two-row pale malt, weight: 7.05479 lb}, {grain: raw wheat, weight: 2.97624 lb}]
mash:
  water: 3.69841 gal
  strike: 165.2 °F
  grain-temperature: 64.4 °F
  rests:
    - {at: 150.8 °F, for: 60 min}
    - {at: 168.8 °F, for: 10 min, by: infusion, water: 1.928456 gal, of: 208.4 °F}
sparge: {by: batch, water: 2.64172 gal, at: 167 °F}
boil: {volume: 6.868472 gal, for: 60 min}
"""
    for function in (
        mash_temperature,
        strike_temperature,
        step_temperature,
        bed_temperature,
        mash_volume,
        total_liquor,
    ):
        assert value(function, american).typical == pytest.approx(value(function, WHEAT).typical, rel=1e-4)
    assert " lb" in mash_temperature(brew_of(american)).working()
    assert "gal" in total_liquor(brew_of(american)).working()


@pytest.mark.parametrize(
    ("batch", "weight", "kept", "thickness"),
    [
        ("20 l", "4.5 kg", "1 l of wort kept by each kg of grain (0.8 to 1.25)", "3.33 l/kg"),
        ("20000 ml", "4500 g", "1 l of wort kept by each kg of grain (0.8 to 1.25)", "3.33 l/kg"),
        ("0.2 hl", "4.5 kg", "1 l of wort kept by each kg of grain (0.8 to 1.25)", "3.33 l/kg"),
        ("5 gal", "10 lb", "0.12 gal of wort kept by each lb of grain (0.096 to 0.15)", "1.59 qt/lb"),
        ("20 qt", "10 lb 4 oz", "0.48 qt of wort kept by each lb of grain (0.38 to 0.6)", "1.55 qt/lb"),
        ("5 imp gal", "10 lb", "0.1 imp gal of wort kept by each lb of grain (0.08 to 0.12)", "1.32 imp qt/lb"),
        ("1 British barrels", "60 lb", "0.1 imp gal of wort kept by each lb of grain (0.08 to 0.12)", "0.551 l/kg"),
        ("5 imp gal", "4.5 kg", "0.22 imp gal of wort kept by each kg of grain (0.18 to 0.27)", "3.33 l/kg"),
    ],
)
def test_absorption_and_thickness_in_the_recipes_own_units(batch: str, weight: str, kept: str, thickness: str) -> None:
    grist = f"grist: [{{grain: pale ale malt, weight: {weight}}}]"
    text = f"batch: {batch}\n{grist}\nmash: {{water: 15 l}}\nsparge: {{by: none}}\n"
    assert kept in run_off_volume(brew_of(text)).assumed
    assert liquor_to_grist(brew_of(text)).working().endswith(f" = {thickness}")


def test_the_board_adds_up_in_gallons() -> None:
    text = "batch: 5 gal\ngrist: [{grain: pale ale malt, weight: 10 lb}]\nmash: {water: 4 gal}\nsparge: {by: none}\n"
    assert mash_volume(brew_of(text)).working() == "4 gal of water + 10 lb × 0.0791 gal/lb = 4.79 gal"
    assert run_off_volume(brew_of(text)).working() == "4 gal - 10 lb × 0.12 gal/lb - 0.08 gal in the tun = 2.72 gal"


def test_a_barrel_is_not_told_to_the_thousandth() -> None:
    text = "batch: 24 British barrels\ngrist: [{grain: pale ale malt, weight: 2700 lb}]\nboil: {for: 90 min}\n"
    figure = run_off_volume(brew_of(text))
    assert figure.working() == "29.7 British barrels before the boil, all of it run off"
    assert "1.44 British barrels left in the kettle with hops and trub" in figure.assumed
