"""A certificate of analysis pins the values of every line that names it: figures narrow, and doubts become verdicts."""

import pytest

from mashwright.brew.brew import Brew
from mashwright.brew.parts import Part
from mashwright.brewing.extract import as_is
from mashwright.figures.grist.shares import grist_diastatic_power
from mashwright.figures.mash.gravity import highest_og, og, potential_extract
from mashwright.measures.range import Range
from mashwright_rules.grist import enzyme_sufficiency, original_gravity

RECIPE = """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale malt, weight: 2 kg, lot: L1}
  - {grain: raw wheat, weight: 2 kg}
mash: {rests: [{at: 66 °C, for: 60 min}]}
"""


def brew(text: str, house: str = "") -> Brew:
    return Brew.of(text, house)


def lot(certificate: str, of: str = "pale malt") -> str:
    return f"lots:\n  L1: {{of: {of}, {certificate}}}\n"


def part(house: str, text: str = RECIPE) -> Part:
    return brew(text, house).grist()[0]


def width(value: Range) -> float:
    return value.high - value.low


@pytest.mark.parametrize(
    ("certificate", "extract"),
    [
        ("extract-fine-dry: 81 %, moisture: 4 %", Range.exact(0.81 * 0.96)),
        ("extract-fine-as-is: 77.5 %, moisture: 4 %", Range.exact(0.775)),
        # a coarse grind gives 1 to 2 points less than a fine one
        ("extract-coarse-as-is: 76 %", Range(0.77, 0.775, 0.78)),
        ("extract-coarse-dry: 79.5 %, moisture: 4 %", Range(0.805 * 0.96, 0.81 * 0.96, 0.815 * 0.96)),
        # the fine grind says more than the coarse one
        ("extract-coarse-dry: 79 %, extract-fine-dry: 81 %, moisture: 4 %", Range.exact(0.81 * 0.96)),
        # 300 l°/kg, of the 385.5 that sugar gives
        ("extract-fine-as-is: 300 l°/kg", Range.exact(300 / (46.2 * 3.785411784 / 0.45359237))),
    ],
)
def test_extract_in_every_form(certificate: str, extract: Range) -> None:
    found = part(lot(certificate)).extract
    assert found is not None
    assert (found.low, found.typical, found.high) == pytest.approx((extract.low, extract.typical, extract.high))


@pytest.mark.parametrize(
    ("certificate", "power_lintner"),
    [("diastatic-power: 70 °Lintner", 70.0), ("diastatic-power: 229 °WK", (229 + 16) / 3.5)],
)
def test_diastatic_power_in_both_units(certificate: str, power_lintner: float) -> None:
    found = part(lot(certificate)).power()
    assert found.known
    assert found.typical == pytest.approx(power_lintner)


@pytest.mark.parametrize(
    ("certificate", "lovibond"),
    [("colour: 2.1 °Lovibond", 2.1), ("colour: 4.5 EBC", (4.5 + 1.2) / 2.65), ("color: 2 SRM", (2 + 0.76) / 1.3546)],
)
def test_colour_in_every_unit(certificate: str, lovibond: float) -> None:
    found = part(lot(certificate)).colour_lovibond
    assert found is not None
    assert found.known
    assert found.typical == pytest.approx(lovibond)


def test_moisture_alone_narrows_the_extract_by_the_table() -> None:
    pinned, table = part(lot("moisture: 6 %")), part("")
    assert pinned.moisture == Range.exact(6.0)
    assert pinned.extract is not None
    assert table.extract is not None
    assert pinned.extract.typical == pytest.approx(as_is(0.81, 0.06))
    assert width(pinned.extract) < width(table.extract)


def test_a_lot_beats_the_brewhouses_description_and_the_recipe_beats_the_lot() -> None:
    house = lot("extract-fine-dry: 80 %, moisture: 5 %, colour: 3 °Lovibond", of="Jetty malt") + (
        "ingredients:\n"
        "  Jetty malt: {kind: base malt, cereal: barley, extract: 70 %, moisture: 9 %, colour: 9 °Lovibond}\n"
    )
    text = RECIPE.replace("pale malt", "Jetty malt")
    by_lot = part(house, text)
    assert by_lot.extract is not None
    assert by_lot.extract.known
    assert by_lot.extract.typical == pytest.approx(0.8 * 0.95)
    assert by_lot.colour_lovibond == Range.exact(3.0)
    by_recipe = part(house, text.replace("lot: L1", "lot: L1, extract: 75 %, colour: 4 °Lovibond"))
    assert by_recipe.extract.known
    assert by_recipe.extract.typical == pytest.approx(0.75 * 0.95)
    assert by_recipe.colour_lovibond == Range.exact(4.0)


def test_a_lots_number_may_stand_for_the_name() -> None:
    named = part(
        lot("diastatic-power: 70 °Lintner"), RECIPE.replace("pale malt, weight: 2 kg, lot: L1", "L1, weight: 2 kg")
    )
    assert named.known
    assert named.kind == "base malt"
    assert named.power() == Range.exact(70.0)


def test_what_a_laboratory_finds_in_caramel_malt_converts_nothing() -> None:
    text = RECIPE.replace("pale malt", "caramel malt 40")
    assert part(lot("diastatic-power: 15 °Lintner", of="caramel malt 40"), text).power() == Range.exact(0.0)


def test_every_line_that_names_it_is_pinned() -> None:
    text = RECIPE.replace("{grain: raw wheat,", "{grain: pale malt, lot: L1,")
    parts = brew(text, lot("diastatic-power: 70 °Lintner")).grist()
    assert [one.power() for one in parts] == [Range.exact(70.0), Range.exact(70.0)]


def test_a_measured_value_rests_no_longer_on_memory() -> None:
    text = RECIPE.replace("pale malt", "honey-type malt")
    assert "extract" in part("", text).memory
    assert "extract" not in part(lot("extract-coarse-dry: 79 %", of="honey-type malt"), text).memory


def test_figures_narrow() -> None:
    house = lot("extract-fine-dry: 81 %, moisture: 4.2 %, diastatic-power: 100 °Lintner")
    for figure in (grist_diastatic_power, potential_extract, highest_og, og):
        with_lot, without = figure(brew(RECIPE, house)), figure(brew(RECIPE))
        assert with_lot.typical == pytest.approx(without.typical, rel=0.01)
        assert width(with_lot.range) < width(without.range)


@pytest.mark.parametrize(
    ("power", "levels"),
    [
        (None, ["warning"]),  # by the table 13 to 40 °Lintner on average, typically 29: some lots would do
        ("60 °Lintner", ["error"]),  # 17: this one surely does not
        ("140 °Lintner", []),  # 40: this one does
    ],
)
def test_doubts_become_verdicts_on_enzymes(power: str | None, levels: list[str]) -> None:
    text = RECIPE.replace("weight: 2 kg, lot", "weight: 0.8 kg, lot")
    measured = brew(text, lot(f"diastatic-power: {power}") if power else "")
    found = [one.level.word for one in enzyme_sufficiency.check(measured, enzyme_sufficiency.Limits())]
    assert [level for level in found if level != "note"] == levels


def test_doubts_become_verdicts_on_gravity() -> None:
    """All of the extract gives 1.072 by the table's best malt; a lot below that makes 1.0705 surely impossible."""
    text = """\
recipe: Test Brew
batch: 20 l
grist:
  - {grain: pale malt, weight: 4.7 kg, lot: L1}
targets: {og: 1.071}
"""
    levels = [
        [one.level.word for one in original_gravity.check(brew(text, house), original_gravity.Limits())]
        for house in ("", lot("extract-fine-dry: 79 %, moisture: 5 %"))
    ]
    assert levels == [["warning"], ["error"]]
