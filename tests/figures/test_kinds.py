"""What a line is goes by the tables, whatever key it stands under; shares without a gravity serve for proportions."""

import pytest

from mashwright.brew.brew import Brew
from mashwright.brew.own_units import weight_in
from mashwright.figures.beer.strength import apparent_attenuation
from mashwright.figures.grist.shares import (
    adjunct_share,
    grist_diastatic_power,
    grist_weight,
    mash_weight,
)
from mashwright.figures.mash.converting import conversion
from mashwright.figures.mash.gravity import fermenter_share, og, sugar_share
from mashwright.recipe.stated import Unknown


def brew(*grist: str, more: str = "") -> Brew:
    lines = ["batch: 20 l", "grist:", *(f"  - {{{line}}}" for line in grist), more]
    return Brew.of("\n".join(lines))


@pytest.mark.parametrize(
    ("line", "group", "place"),
    [
        ("grain: pale malt", "grain", "mash"),
        ("grain: table sugar", "sugar", "kettle"),
        ("grain: light DME", "extract", "kettle"),
        ("extract: rice syrup", "sugar", "kettle"),
        ("extract: maltodextrin", "sugar", "kettle"),
        ("sugar: flaked maize", "grain", "mash"),
        ("fruit: honey", "sugar", "kettle"),
        ("fruit: raspberries", "fruit", "fermenter"),
        ("grain: pumpkin", "grain", "mash"),
        ("grain: moon dust", "grain", "mash"),
        ("sugar: moon dust", "sugar", "kettle"),
        ("grain: moon dust, kind: sugar", "sugar", "kettle"),
    ],
)
def test_the_tables_say_what_a_line_is(line: str, group: str, place: str) -> None:
    (part,) = brew(f"{line}, weight: 1 kg").grist()
    assert (part.group, part.place) == (group, place)


def test_sugar_under_another_key_is_the_same_sugar() -> None:
    rest = "mash: {rests: [{at: 66 °C, for: 60 min}]}"
    malt = "grain: pale malt, weight: 4 kg"
    asked = (grist_diastatic_power, mash_weight, og, sugar_share, apparent_attenuation)
    right = brew(malt, "sugar: table sugar, weight: 500 g", more=rest)
    for key in ("grain", "extract", "fruit"):
        wrong = brew(malt, f"{key}: table sugar, weight: 500 g", more=rest)
        assert [figure(wrong).range for figure in asked] == [figure(right).range for figure in asked]


def test_shares_without_a_gravity_give_shares_and_no_weights() -> None:
    shared = brew("grain: pale malt, share: 70 %", "grain: flaked rice, share: 30 %")
    weighed = brew("grain: pale malt, weight: 7 kg", "grain: flaked rice, weight: 3 kg")
    for figure in (adjunct_share, grist_diastatic_power, conversion):
        assert figure(shared).range == figure(weighed).range
    assert adjunct_share(shared).working() == "(30 %) ÷ 100 % × 100 = 30 %"
    assert weight_in(shared, 2) == "2 kg"
    for figure in (grist_weight, mash_weight, og):
        with pytest.raises(Unknown, match="the target OG, without which shares cannot be turned into weights"):
            figure(shared)


def test_share_that_only_goes_into_the_fermenter() -> None:
    text = ("extract: light dry malt extract, weight: 2 kg", "sugar: table sugar, weight: 500 g, add: fermenter")
    assert fermenter_share(brew(*text)) == pytest.approx(0.5 / (0.5 + 1.9), abs=0.02)
    assert fermenter_share(brew(text[0])) == 0
