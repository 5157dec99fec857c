"""Facts of the trade, common practice without a source, seen through whole recipes."""

import pytest

import mashwright
from mashwright.finding import Level
from mashwright.ingredients.lookup import fermentable
from mashwright.measures.range import Range
from mashwright.reviewing.sheet import FigureRow, Sheet


def recipe(*lines: str, rests: str = "{at: 68 °C, for: 65 min}") -> str:
    grist = "\n".join(f"  - {{{line}}}" for line in lines)
    return f"recipe: Lane Trial\nbatch: 20 l\ngrist:\n{grist}\nmash:\n  rests: [{rests}]\n"


def row(sheet: Sheet, figure: str) -> FigureRow:
    return next(row for row in sheet.rows if row.id == figure)


def above_a_note(text: str) -> list[str]:
    review = mashwright.review_text(text)
    assert not review.faults
    assert not review.recipes[0].unjudged
    return [f"{one.rule}: {one.message}" for one in review.recipes[0].results if one.level > Level.NOTE]


@pytest.mark.parametrize(
    ("name", "power"),
    [
        ("two-row pale malt", Range(100, 125, 160)),
        ("light Munich malt", Range(27, 40, 70)),
        ("black malt", Range.exact(0)),
        ("caramel malt 60", Range.exact(0)),
    ],
)
def test_diastatic_power_of_the_usual_malts(name: str, power: Range) -> None:
    """Common practice: two-row 100-120 °Lintner, light Munich about 40, black and caramel malt none.

    The table's middle of two-row is the 125 of the Oxford Companion, five above that band, which its range holds.
    """
    entry = fermentable(name)
    assert entry is not None
    assert entry.power_lintner == power


def test_light_munich_alone_just_converts() -> None:
    """Common practice: a grist converts itself from 30-40 °Lintner; light Munich alone in about 60-70 min at 68 °C."""
    text = recipe("grain: light Munich malt, weight: 4.5 kg")
    assert above_a_note(text) == []
    sheet = mashwright.figures_of(text)
    assert row(sheet, "grist-diastatic-power").typical == 40
    needed = row(sheet, "conversion-time")
    assert (needed.low, needed.typical, needed.high) == (15, 34, 76)  # the trade's 60-70 min lie between
    assert above_a_note(recipe("grain: light Munich malt, weight: 4.5 kg", rests="{at: 68 °C, for: 15 min}")) == [
        (
            "conversion-time: this mash needs about 34 min at 68 °C to convert, but its rests give 15 min and the"
            " run-off about 15 min"
        )
    ]


def test_two_row_carries_about_triple_its_own_need_and_is_faster() -> None:
    """Common practice."""
    two_row = mashwright.figures_of(recipe("grain: two-row pale malt, weight: 4.5 kg"))
    munich = mashwright.figures_of(recipe("grain: light Munich malt, weight: 4.5 kg"))
    power = row(two_row, "grist-diastatic-power").typical
    assert power is not None
    assert power / 40 == pytest.approx(3, abs=0.15)
    ours, theirs = row(two_row, "conversion-time").typical, row(munich, "conversion-time").typical
    assert ours is not None
    assert theirs is not None
    assert ours < theirs / 1.7


def test_equal_parts_of_two_row_light_munich_and_black_malt_can_be_mashed() -> None:
    """Common practice: the average of 120, 40 and 0 is above what a grist needs."""
    text = recipe(
        "grain: two-row pale malt, weight: 1.5 kg",
        "grain: light Munich malt, weight: 1.5 kg",
        "grain: black malt, weight: 1.5 kg",
    )
    about_the_mash = ("enzyme-sufficiency", "no-base-malt", "conversion-time", "saccharification-rest")
    assert [finding for finding in above_a_note(text) if finding.startswith(about_the_mash)] == []
    power = row(mashwright.figures_of(text), "grist-diastatic-power").typical
    assert power == pytest.approx(55, abs=1)  # the table's two-row is 125


@pytest.mark.parametrize("place", ["mash", "steep"])
def test_caramel_malt_alone_gives_part_of_its_extract(place: str) -> None:
    """Common practice says 10-15 %; 40-65 % was measured (J. J. Palmer, How to Brew, 1st ed., steeped malts)."""
    text = f"recipe: Toffee\nbatch: 10 l\ngrist:\n  - {{grain: caramel malt 60, weight: 2 kg, add: {place}}}\n"
    sheet = mashwright.figures_of(text)
    og, highest = row(sheet, "og"), row(sheet, "highest-og")
    assert og.low is not None
    assert og.high is not None
    assert highest.typical is not None
    extract = highest.typical - 1
    assert (og.low - 1) / extract <= 0.12
    assert (og.high - 1) / extract >= 0.62
    assert row(sheet, "conversion").missing != ""


def test_a_mash_of_caramel_malt_alone_is_an_error() -> None:
    """Common practice: caramel malt converts nothing."""
    found = above_a_note(recipe("grain: caramel malt 60, weight: 5 kg"))
    assert [finding.split(":")[0] for finding in found] == ["no-base-malt"]
