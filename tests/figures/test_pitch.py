"""Figures of the yeast: cells of pitch and starter, and what would bring those that are needed."""

import pytest

from mashwright.brew.brew import Brew
from mashwright.brewing.gravity import plato
from mashwright.brewing.yeast import DRY_PER_GRAM, LIQUID_PACK, starter_growth
from mashwright.figures.beer.pitch import (
    dry_yeast_needed,
    needed,
    packs_needed,
    pitched,
    slurry_needed,
    starter_needed,
)
from mashwright.recipe.stated import Open, Unknown

RECIPE = """\
recipe: Test Brew
batch: 20 l
grist: [{grain: pale ale malt, weight: 4.5 kg}]
targets: {og: 1.048}
yeast: YEAST
"""


def brew(yeast: str) -> Brew:
    return Brew.of(RECIPE.replace("YEAST", yeast))


def test_a_starter_beside_a_number_of_cells_is_told_and_widens_the_figure() -> None:
    plain = pitched(brew("{kind: English ale, pitch: 150 billion cells}"))
    both = pitched(brew("{kind: English ale, pitch: 150 billion cells, starter: 2 l}"))
    assert (plain.low, plain.typical, plain.high) == (150, 150, 150)
    assert plain.assumed == ()
    assert (both.low, both.typical) == (150, 150)
    assert both.high == pytest.approx(150 + starter_growth(2, 150, 10, 14.5))
    assert both.assumed == (
        "150 billion cells as what the starter brings; if they go into it, it grows 198 billion more",
    )


def test_a_pack_in_a_starter_grows_by_its_sugar() -> None:
    figure = pitched(brew("{kind: English ale, pitch: 1 pack, starter: 1 l}"))
    assert figure.typical == pytest.approx(100 + starter_growth(1, 100, 9.5, 10.4))
    assert figure.working().splitlines() == [
        "1 pack × 100 (70 to 200) + 1 l of starter × 9.5 °P × 10.4 (7.2 to 14.5) to each litre and °P",
        "  = 199 billion",
    ]
    assert figure.assumed == ("a starter of 9.5 °P, since its strength is not stated",)


def test_four_packs_in_a_litre_are_crowded() -> None:
    figure = pitched(brew("{kind: English ale, pitch: 4 packs, starter: 1 l}"))
    assert figure.typical == pytest.approx(400, abs=5)
    assert "less since it is crowded" in figure.working()


def test_the_starter_that_a_wort_needs() -> None:
    said = brew("{kind: English ale, pitch: 1 pack, viability: 80 %, starter: 500 ml}")
    figure, want = starter_needed(said), needed(said).typical
    assert want == pytest.approx(0.75 * 20 * plato(1.048))
    assert figure.typical == pytest.approx((want - 80) / (10.4 * 9.5))
    assert figure.low == 0  # 70 to 200 billion in the pack, at the best enough
    assert figure.working().splitlines() == [
        "179 billion needed - 1 pack × 100 (70 to 200) × 80 % that live = 98.7 billion",
        "  ÷ 10.4 billion to each litre and °P ÷ 9.5 °P = 1 l",
    ]


def test_no_starter_is_needed_where_the_cells_are_enough() -> None:
    figure = starter_needed(brew("{kind: English ale, pitch: 300 billion cells}"))
    assert (figure.low, figure.typical, figure.high) == (0, 0, 0)
    assert figure.working() == "179 billion needed - 300 billion cells = -121 billion: enough without one"


def test_an_amount_that_is_not_stated_is_taken_for_a_pack() -> None:
    figure = starter_needed(brew("{kind: English ale}"))
    assert "one liquid pack, since no amount of yeast is stated" in figure.assumed
    assert figure.typical == pytest.approx((0.75 * 20 * plato(1.048) - 100) / (10.4 * 9.5))


def test_the_cells_needed_as_yeast() -> None:
    said = brew("{kind: English ale}")
    want = needed(said)
    assert dry_yeast_needed(said).typical == pytest.approx(want.typical / DRY_PER_GRAM.typical)
    assert dry_yeast_needed(said).low == pytest.approx(want.low / DRY_PER_GRAM.high)
    assert packs_needed(said).typical == pytest.approx(want.typical / LIQUID_PACK.typical)
    assert slurry_needed(said).typical == pytest.approx(want.typical / 1.2)
    assert dry_yeast_needed(said).working() == "179 billion ÷ 12 (6 to 20) billion to the gram of dry yeast = 14.9 g"


def test_what_cannot_be_read_stays_open() -> None:
    for figure in (pitched, starter_needed):
        with pytest.raises(Open):
            figure(brew("{kind: English ale, pitch: a good handful}"))
    with pytest.raises(Unknown):
        starter_needed(brew("{kind: English ale, pitch: 1 pack, viability: 0 %}"))
