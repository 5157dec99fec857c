"""Certificates of analysis in a whole collection."""

import time
from pathlib import Path

import pytest

import mashwright
from mashwright.recipe.brewhouse import Lot
from mashwright_rules.grist import certificate

SHEETS = """\
lots:
  PM-0388: {of: two-row pale malt, diastatic-power: 112 °Lintner, moisture: 4.1 %, colour: 1.9 °Lovibond}
  GD-2025: {of: Golding, alpha: 5.1 %}
"""
BOTH_USED = "hops:\n  - {hop: Golding, weight: 20 g, lot: GD-2025, boil: 60 min}\n"
WAY_OUT = "one lot has one analysis, so correct one, or use two lot names"


def recipe(line: str, rest: str = "") -> str:
    return f"recipe: Tollgate\nbatch: 20 l\ngrist:\n  - {{weight: 4 kg, {line}}}\n{rest}"


def unused(line: int, name: str) -> str:
    return (
        f"brewhouse.yaml:{line}:3: note: no recipe here names lot {name};"
        f" write `lot: {name}` where that sack is used, or delete it"
    )


def test_a_certificate_that_no_recipe_names() -> None:
    found = mashwright.try_rule(certificate, recipe("grain: two-row pale malt, lot: PM-0388"), brewhouse=SHEETS)
    assert found == [unused(3, "GD-2025")]


@pytest.mark.parametrize("line", ["grain: two-row pale malt, lot: PM-0388", "grain: PM-0388"])
def test_a_lot_may_be_named_by_any_recipe_and_in_place_of_its_grain(line: str) -> None:
    others = recipe("grain: wheat malt", BOTH_USED)
    assert mashwright.try_rule(certificate, others, recipe(line), brewhouse=SHEETS) == []


@pytest.mark.parametrize(
    ("value", "apart"),
    [
        ("diastatic-power: 141 °Lintner", "has 141 °Lintner of diastatic power here and 112 °Lintner"),
        ("moisture: 5 %", "has 5 % of moisture here and 4.1 %"),
        ("colour: 12 EBC", "has 12 EBC of colour here and 1.9 °Lovibond"),
    ],
)
def test_a_recipe_that_contradicts_the_certificate(value: str, apart: str) -> None:
    text = recipe(f"lot: PM-0388, grain: two-row pale malt, {value}", BOTH_USED)
    assert mashwright.try_rule(certificate, text, brewhouse=SHEETS) == [
        f"first.yaml:4:25: warning: lot PM-0388 {apart} in brewhouse.yaml; {WAY_OUT}"
    ]


@pytest.mark.parametrize("value", ["diastatic-power: 376 °WK", "colour: 3.8 EBC", "moisture: 4.2 %"])
def test_rounding_and_other_units_are_no_second_analysis(value: str) -> None:
    text = recipe(f"grain: two-row pale malt, lot: PM-0388, {value}", BOTH_USED)
    assert mashwright.try_rule(certificate, text, brewhouse=SHEETS) == []


def test_two_lines_of_one_recipe() -> None:
    text = recipe(
        "grain: two-row pale malt, lot: X-1, moisture: 4 %",
        "  - {grain: two-row pale malt, weight: 1 kg, lot: X-1, moisture: 6 %}\n",
    )
    assert mashwright.try_rule(certificate, text) == [
        f"first.yaml:5:51: warning: lot X-1 has 6 % of moisture here and 4 % elsewhere; {WAY_OUT}"
    ]


def test_one_lot_of_two_things_and_of_two_names_for_one_thing() -> None:
    one, two = recipe("grain: two-row pale malt, lot: X-1"), recipe("grain: Munich malt, lot: X-1")
    assert mashwright.try_rule(certificate, one, two) == [
        f"second.yaml:4:45: warning: lot X-1 is Munich malt here and two-row pale malt in first.yaml; {WAY_OUT}"
    ]
    assert mashwright.try_rule(certificate, one, recipe("grain: American two-row, lot: X-1")) == []
    assert mashwright.try_rule(certificate, one, recipe("grain: Odile's malt, lot: X-1")) == []


@pytest.fixture
def circle(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / ".git").mkdir()
    for folder, power in (("attic", 112), ("barn", 150)):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "brewhouse.yaml").write_text(
            f"lots:\n  PM-0388: {{of: two-row pale malt, diastatic-power: {power} °Lintner}}\n", encoding="utf-8"
        )
        text = recipe("grain: two-row pale malt, lot: PM-0388")
        (tmp_path / folder / "one.yaml").write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def told(*paths: str) -> list[tuple[str, int, str]]:
    return [
        (one.path, result.place.line, result.message)
        for one in mashwright.review(paths).recipes
        for result in one.results
        if result.rule == "certificate"
    ]


def test_two_brewhouses_with_two_sheets_of_one_lot(circle: Path) -> None:
    assert told(".") == [
        (
            "barn/brewhouse.yaml",
            2,
            "lot PM-0388 has 150 °Lintner of diastatic power here and 112 °Lintner in attic/brewhouse.yaml; " + WAY_OUT,
        )
    ]


def test_unused_is_said_only_where_all_recipes_were_read(circle: Path) -> None:
    house = circle / "attic" / "brewhouse.yaml"
    house.write_text(house.read_text(encoding="utf-8") + "  X-9: {of: wheat malt}\n", encoding="utf-8")
    (circle / "attic" / "old").mkdir()
    (circle / "attic" / "old" / "two.yaml").write_text(recipe("grain: wheat malt, lot: X-9"), encoding="utf-8")
    assert told("attic") == []
    assert told("attic/one.yaml") == []
    assert told("attic/old") == []
    (circle / "attic" / "old" / "two.yaml").write_text(recipe("grain: wheat malt"), encoding="utf-8")
    assert [place for *place, _ in told("attic")] == [["attic/brewhouse.yaml", 3]]
    assert told("attic/old") == []
    (circle / "attic" / "old" / "two.yaml").write_text("recipe: Torn\nbatch: 20 l\ngrist: [\n", encoding="utf-8")
    assert told("attic") == []


def test_a_brewhouse_may_accept_it(circle: Path) -> None:
    house = circle / "attic" / "brewhouse.yaml"
    house.write_text(
        house.read_text(encoding="utf-8")
        + "  X-9: {of: wheat malt}\naccepted:\n  - {rule: certificate, reason: kept for the summer}\n",
        encoding="utf-8",
    )
    review = mashwright.review(["attic"])
    assert (review.counts.notes, review.counts.accepted) == (0, 1)


def test_ten_thousand_recipes_with_fifty_lots() -> None:
    lots = {f"L-{index}": Lot(("lots", f"L-{index}"), "wheat malt") for index in range(50)}
    gathered = [
        (f"{index:06}.yaml", certificate.Known("brewhouse.yaml", lots, (), frozenset({f"L-{index % 49}"})))
        for index in range(10_000)
    ]
    began = time.process_time()
    found = list(certificate.check_collection(gathered, certificate.Limits()))
    assert [finding.path for _, finding in found] == [("lots", "L-49")]
    assert time.process_time() - began < 2
