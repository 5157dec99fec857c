"""What is told of the place under the cursor."""

from collections.abc import Callable
from pathlib import Path

import pytest
from language_client import Client, covered, position
from lsprotocol import types

import mashwright
from mashwright.editor.asked import Asked
from mashwright.editor.desk import Desk

SAMPLES = Path(__file__).parents[2] / "sample-recipes"
DESK = Desk()
TEXT = """\
recipe: Lane wheat
batch: 20 l
efficiency: 72 %
grist:
  - {grain: pale ale malt, weight: 3 kg}
  - 1 kg wheat malt
  - {grain: caramel malt 40, weight: 500 g, lot: CM-0419}
mash:
  water: 14 l
  rests:
    - {at: 52 °C, for: 15 min}
    - {at: 66 °C, for: 60 min}
boil: {for: 60 min}
hops:
  - {hop: Saaz, weight: 30 g, alpha: 3.5 %, boil: 60 min}
  - 20 g Cascade dry 4 d
yeast: {kind: English ale}
targets: {og: 1.048, bitterness: 12 IBU}
accepted:
  - {rule: run-off, reason: so it is}
"""
HOUSE = "lots:\n  CM-0419: {of: caramel malt 40, colour: 41 °Lovibond}\n"


def told(word: str, text: str = TEXT, after: str = "", name: str = "a.yaml") -> str:
    index = text.index(word, text.index(after)) + 1
    found = DESK.hover(Asked(f"/shed/{name}", text, {"/shed/brewhouse.yaml": HOUSE}), index)
    return found.markdown if found is not None else ""


def test_an_ingredient_has_what_is_known_of_it_and_its_share() -> None:
    found = told("pale ale malt")
    assert "pale ale malt, malt or grain" in found
    assert "°Lovibond" in found
    assert "Sources" in found
    assert "66.7 % of the weight of the grist, 67.3 % of its extract" in found


def test_shares_are_of_the_whole() -> None:
    brew = DESK.brew(Asked("/shed/a.yaml", TEXT, {"/shed/brewhouse.yaml": HOUSE}))
    assert brew is not None
    from mashwright.editor.hovering import shares

    assert sum(one.extract or 0 for one in shares(brew)) == pytest.approx(100)


def test_a_short_form_is_told_of_like_a_long_one() -> None:
    assert "22.2 % of the weight of the grist" in told("wheat malt")
    assert "22.2 % of the weight of the grist" in told("1 kg wheat")


def test_a_lot_has_its_certificate() -> None:
    assert told(
        "CM-0419"
    ) == "```text\nlot CM-0419 in brewhouse.yaml\n  of: caramel malt 40\n  colour: 41 °Lovibond\n```".replace(
        "brewhouse.yaml", DESK.brewhouse(Asked("/shed/a.yaml", TEXT, {"/shed/brewhouse.yaml": HOUSE})).file
    )


def test_an_addition_has_its_bitterness_as_the_figures_have_it() -> None:
    rows = {row.id: row for row in mashwright.figures_of(TEXT, brewhouse=HOUSE).rows}
    parts = dict(rows["bitterness"].parts)
    first = parts["Saaz, 60 min"]
    found = told("Saaz")
    assert f"{first.typical:.1f} IBU" in found
    assert "United States" not in found
    assert "0 IBU" in told("Cascade")
    assert f"{first.typical:.1f} IBU" in told("30 g")


def test_a_rest_has_what_it_converts() -> None:
    cool, warm = told("52 °C"), told("66 °C")
    assert "this rest releases" in warm
    assert "converts" in cool
    assert cool != warm


def test_a_target_has_its_figure_with_range_and_working() -> None:
    row = next(row for row in mashwright.figures_of(TEXT, brewhouse=HOUSE).rows if row.id == "og")
    found = told("1.048")
    assert found.startswith(f"**{row.title}**: {row.shown}")
    assert row.working in found


def test_a_field_has_its_page_and_a_rule_its_own() -> None:
    assert "How the starch is converted" in told("mash:")
    assert told("weight").startswith("**weight**: How much of it.")
    assert "huskless" in told("run-off")


def test_a_wort_has_its_own_figures() -> None:
    text = (SAMPLES / "house" / "anchor-and-buoy.yaml").read_text()
    house = {"/shed/brewhouse.yaml": (SAMPLES / "brewhouse.yaml").read_text()}
    sheet = DESK.sheet(Asked("/shed/a.yaml", text, house))
    assert sheet is not None
    assert len(sheet.worts) > 1
    shown = []
    start = 0
    for wort in sheet.worts:
        start = text.index("og:", start) + 4
        found = DESK.hover(Asked("/shed/a.yaml", text, house), start)
        row = next(row for row in wort.rows if row.id == "og")
        assert found is not None
        assert row.shown in found.markdown
        shown.append(row.shown)
    assert len(set(shown)) == len(shown)


def test_what_cannot_be_worked_out_says_why() -> None:
    found = told("1.048", TEXT.replace("batch: 20 l\n", ""))
    assert found.startswith("```text\nOriginal gravity from this grist: not worked out; missing: ")
    assert "not worked out; missing: " in told("3 kg", TEXT.replace("weight: 500 g", "weight: 500"))


def test_a_brewhouse_is_told_of_too() -> None:
    assert told("colour", HOUSE, name="brewhouse.yaml").startswith("**colour**")
    assert "caramel malt 40, malt or grain" in told("caramel", HOUSE, name="brewhouse.yaml")


def test_nothing_that_a_recipe_says_is_a_mark_of_the_page() -> None:
    text = TEXT.replace("CM-0419", "'```[x](command:y)'").replace("Saaz", "'[x](command:y)'")
    for word in ("[x](command:y)'}", "[x](command:y)', w", "30 g"):
        found = told(word, text)
        assert all(part.count("```") == 0 for part in found.split("\n") if "command" in part)
        outside = "".join(found.split("```")[::2])
        assert "command" not in outside


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*/*.yaml"))[::5], ids=lambda path: path.stem)
def test_no_place_is_too_much(path: Path) -> None:
    text = path.read_text()
    for version in (text, text[: len(text) // 2], text[: len(text) * 2 // 3]):
        told = [DESK.hover(Asked("/shed/a.yaml", version, {}), index) for index in range(0, len(version), 11)]
        assert all(one is None or one for one in told), "nothing, or something to read"
        assert any(told) or version != text, "no place of a whole recipe says anything"


def test_a_client_is_told_where_it_is(started: Callable[..., Client]) -> None:
    client = started(["utf-8"])
    text = TEXT.replace("Lane wheat", "Süßholz 🍺").replace("{grain: pale", "{add: mash, grain: pale")
    client.open("a.yaml", text)
    where = types.TextDocumentIdentifier(client.uri("a.yaml"))
    at = position(text, text.index("pale ale malt") + 3, "utf-8")
    found = client.ask(types.TEXT_DOCUMENT_HOVER, types.HoverParams(where, at))
    assert covered(text, found.range, "utf-8") == "pale ale malt"
    assert "of the weight of the grist" in found.contents.value
    nowhere = client.ask(types.TEXT_DOCUMENT_HOVER, types.HoverParams(where, types.Position(99, 0)))
    assert nowhere is None
