"""The worts of one mash: their extract adds up to the mash's, whoever takes what, and their sheets show it."""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

import mashwright
from mashwright.brew import Brew
from mashwright.figures.kettle.worts import worts_of
from mashwright.figures.mash import deliveries
from mashwright.reporting.figures import figures_document, figures_text
from mashwright.reviewing.sheet import Sheet
from mashwright_schema import load

SAMPLE = Path(__file__).parents[2] / "sample-recipes" / "house" / "anchor-and-buoy.yaml"
MASH = """\
recipe: Worts
efficiency: 70 %
grist:
  - {grain: pale ale malt, weight: 6 kg}
  - {grain: caramel malt 60, weight: 500 g}
mash: {water: 18 l}
sparge: {by: KIND, water: 16 l}
worts:
"""


def whole(*worts: str, kind: str = "batch") -> Brew:
    return Brew.of(MASH.replace("KIND", kind) + "".join(f"  - {{{one}}}\n" for one in worts))


def extracts(brew: Brew) -> list[float]:
    """Extract that arrives of each wort, kg."""
    return [sum(one.typical_kg for one in deliveries(own)) for own in worts_of(brew)]


@given(part=st.integers(5, 95), kind=st.sampled_from(["batch", "fly"]))
def test_whoever_takes_what_the_worts_together_have_what_arrives(part: int, kind: str) -> None:
    laboratory = sum(one.laboratory_kg.typical for one in deliveries(whole("wort: One, runnings: all, batch: 20 l")))
    for one, other in (
        (f"{part} %", "rest"),
        (f"{{all: {part} %}}", "rest"),
        (f"{{first: {part} %}}", "rest"),
        (f"{{first: {part} %, second: 20 %}}", "rest"),
    ):
        brew = whole(f"wort: A, runnings: {one}, batch: 8 l", f"wort: B, runnings: {other}, batch: 9 l", kind=kind)
        assert sum(extracts(brew)) == pytest.approx(0.7 * laboratory, rel=1e-6)


def test_what_runs_off_first_is_stronger() -> None:
    first, second = extracts(whole("wort: A, runnings: 11 l, batch: 8 l", "wort: B, runnings: rest, batch: 8 l"))
    mixed, other = extracts(whole("wort: A, runnings: {all: 11 l}, batch: 8 l", "wort: B, runnings: rest, batch: 8 l"))
    assert first > mixed
    assert second < other
    half, rest = extracts(whole("wort: A, runnings: {all: 50 %}, batch: 8 l", "wort: B, runnings: rest, batch: 8 l"))
    assert half == pytest.approx(rest)


def test_what_goes_into_one_wort_is_in_that_one_alone() -> None:
    sugar = ", grist: [{sugar: table sugar, weight: 500 g}]"
    a, b = extracts(whole("wort: A, runnings: first, batch: 8 l" + sugar, "wort: B, runnings: second, batch: 8 l"))
    plain_a, plain_b = extracts(whole("wort: A, runnings: first, batch: 8 l", "wort: B, runnings: second, batch: 8 l"))
    assert a - plain_a == pytest.approx(0.5, abs=0.01)
    assert b == plain_b


def test_less_arrives_at_no_stated_efficiency_where_little_is_sparged() -> None:
    text = MASH.replace("efficiency: 70 %\n", "").replace("KIND", "batch")
    only_first = Brew.of(text + "  - {wort: A, runnings: first, batch: 8 l}\n")
    both = Brew.of(text + "  - {wort: A, runnings: all, batch: 18 l}\n")
    assert extracts(only_first)[0] < 0.7 * extracts(both)[0]


def sheet() -> Sheet:
    return mashwright.figures_of(SAMPLE.read_text(encoding="utf-8"), str(SAMPLE))


def test_the_sheet_has_the_mash_and_then_each_wort() -> None:
    told = list(figures_text(sheet()))
    heads = ["Anchor Ale, a wort of this mash", "Buoy Brown, a wort of this mash"]
    assert [line for line in told if line in heads] == heads
    ids = [{row.id for row in one.rows} for one in (sheet(), *sheet().worts)]
    assert {"runnings-extract", "conversion", "mash-ph"} <= ids[0]
    assert {"wort-share", "og", "bitterness", "abv"} <= ids[1] == ids[2]
    assert {"og", "wort-share", "bitterness"}.isdisjoint(ids[0])


def test_the_document_has_them_too_and_keeps_to_its_schema() -> None:
    document = json.loads(json.dumps(figures_document(sheet())))
    assert list(Draft202012Validator(load("figures")).iter_errors(document)) == []
    assert [(one["name"], one["pointer"]) for one in document["worts"]] == [
        ("Anchor Ale", "/worts/0"),
        ("Buoy Brown", "/worts/1"),
    ]


def test_a_recipe_for_one_beer_has_neither() -> None:
    one = mashwright.figures_of("recipe: One\nbatch: 20 l\ngrist: [{grain: pale ale malt, weight: 4 kg}]\n")
    assert one.worts == ()
    assert "worts" not in figures_document(one)
    assert {"runnings-extract", "wort-share"}.isdisjoint(row.id for row in one.rows)
