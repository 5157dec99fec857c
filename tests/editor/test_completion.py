"""What is offered at the cursor: in block and in flow style, in whole texts and in broken ones."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from language_client import Client, applied, position
from lsprotocol import types

import mashwright
from mashwright.editor.asked import Asked
from mashwright.editor.completing import Offer
from mashwright.editor.desk import Desk
from mashwright.editor.where import spot
from mashwright.reading.document import read_document
from mashwright.reading.fields import OTHER_SPELLINGS
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence

SAMPLES = Path(__file__).parents[2] / "sample-recipes"
HOUSE = (SAMPLES / "brewhouse.yaml").read_text()
RECIPES = sorted(path for path in SAMPLES.glob("*/*.yaml"))
MISSPELT = ("typed-on-the-ferry", "borrowed-from-abroad")
"""Samples that show how slips are told."""
DESK = Desk()
Start = Callable[..., Client]


def offered(text: str, name: str = "a.yaml", house: str = HOUSE) -> list[Offer]:
    """What is offered at the mark ``|`` of a text."""
    index = text.index("|")
    asked = Asked(f"/shed/{name}", text.replace("|", "", 1), {"/shed/brewhouse.yaml": house})
    return DESK.offers(asked, index)


def labels(text: str, name: str = "a.yaml") -> list[str]:
    return [one.label for one in offered(text, name)]


def put(text: str, label: str, name: str = "a.yaml") -> str:
    """The text with what is offered under a label."""
    (one,) = [one for one in offered(text, name) if one.label == label]
    bare = text.replace("|", "", 1)
    return bare[: one.start] + one.text + bare[one.end :]


@pytest.mark.parametrize(
    ("text", "wanted", "not_wanted"),
    [
        ("|", ["recipe", "batch", "grist"], ["color", "grain", "batch: 20 l"]),
        ("recipe: A\nb|", ["batch", "boil"], ["recipe"]),
        ("recipe: A\n|\nbatch: 20 l\n", ["grist"], ["recipe", "batch"]),
        ("grist:\n  - |", ["grain", "weight", "4.5 kg pale ale malt"], ["water"]),
        ("grist:\n- {grain: pale ale malt, |}", ["weight", "lot"], ["grain", "sugar", "fruit", "color"]),
        ("grist:\n- {|, weight: 3 kg}", ["grain"], ["weight"]),
        ("grist:\n- grain: pale ale malt\n  |\n  weight: 3 kg\n", ["lot"], ["grain", "weight", "recipe"]),
        ("mash:\n  |", ["water", "rests", "66 °C for 60 min"], ["mash"]),
        ("mash:\n  rests:\n    - {at: 66 °C, |", ["for", "by"], ["at", "grain"]),
        ("mash: {rests: [{at: 66 °C}], |", ["water"], ["rests", "for"]),
        ("mash: {salts: {|", ["gypsum", "Epsom salt"], ["lactic acid", "water"]),
        ("mash: {acid: {|", ["lactic acid"], ["gypsum"]),
        ("worts:\n  - wort: A\n    hops:\n      - {|", ["hop", "weight", "alpha"], ["wort"]),
    ],
)
def test_fields_that_may_stand_there_are_offered(text: str, wanted: list[str], not_wanted: list[str]) -> None:
    found = labels(text)
    assert set(wanted) <= set(found)
    assert not set(not_wanted) & set(found)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("batch: 20|", ["20 l", "20 ml", "20 gal", "20 qt", "20 pt"]),
        ("batch: 20 g|", ["20 l", "20 ml", "20 gal", "20 qt", "20 pt"]),
        ("grist: [{weight: 4.5|}]", ["4.5 kg", "4.5 g", "4.5 lb", "4.5 oz"]),
        ("mash:\n  rests:\n  - at: 66|", ["66 °C", "66 °F"]),
        ("grist:\n  - 4|", ["4 kg", "4 g", "4 lb", "4 oz"]),
        ("hops:\n  - form: |", ["cone", "pellet", "extract", "cones", "pellets"]),
        ("mash: {bag: |}", ["true"]),
        ("targets: {og: 12|", ["12 °P"]),
    ],
)
def test_units_and_words_are_offered(text: str, wanted: list[str]) -> None:
    assert labels(text) == wanted


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("grist:\n  - grain: |", "pale ale malt"),
        ("grist:\n  - 4 kg pa|", "pale ale malt"),
        ("grist: [{sugar: |", "table sugar"),
        ("grist: [{extract: |", "light dry malt extract"),
        ("grist: [{fruit: |", "raspberries"),
        ("hops:\n  - {hop: Sa|", "Saaz"),
        ("hops:\n  - 30 g |", "Saaz"),
        ("yeast: |", "English ale"),
        ("yeast: 11 g Eng|", "English ale"),
        ("yeast:\n  - kind: |", "English ale"),
        ("package: {priming: {sugar: |", "table sugar"),
        ("grist: [{grain: x, lot: |", "CM-0419"),
        ("accepted:\n  - rule: |", "saccharification-rest"),
        ("style: |", "cream ale"),
    ],
)
def test_names_are_offered(text: str, name: str) -> None:
    assert name in labels(text)
    assert "saccharification-rest" not in labels(text) or "rule" in text


def test_names_of_the_brewhouse_come_first() -> None:
    house = "ingredients:\n  the lane malt: {kind: pale ale malt}\n  lane yeast: {kind: English ale}\n"
    assert offered("grist: [{grain: |", house=house)[0].label == "the lane malt"
    assert offered("yeast: |", house=house)[0].label == "lane yeast"
    assert offered("grist:\n  - 3 kg |", house=house)[0].label == "the lane malt"


@pytest.mark.parametrize(
    ("text", "label"),
    [
        ("|", "kettle"),
        ("lots:\n  A-1: {|", "of"),
        ("lots:\n  A-1: {of: |", "pale ale malt"),
        ("ingredients:\n  mine: |", "pale ale malt"),
        ("rules:\n  |", "run-off"),
        ("rules: {run-off: {|", "gummy"),
        ("rules: {run-off: |", "off"),
        ("stop-at: |", "warning"),
        ("kettle: {boil-off: 4|", "4 l/h"),
    ],
)
def test_a_brewhouse_is_completed_too(text: str, label: str) -> None:
    assert label in labels(text, "brewhouse.yaml")


@pytest.mark.parametrize(
    "text", ["# |", "recipe: A  # |", "notes: |\n  |".replace("|", ">", 1), "mash: {}|", "mash: {} |", "recipe: |"]
)
def test_nothing_is_offered_where_nothing_of_ours_stands(text: str) -> None:
    assert [one for one in labels(text) if one != "Harbour Wheat"] == []


@pytest.mark.parametrize(
    ("text", "label", "then"),
    [
        ("gri|", "grist", "grist: "),
        ("mea|", "measured", "measured:"),
        ("mash: {wa|}", "water", "mash: {water: }"),
        ("mash: {wa|ter: 3 l}", "water", "mash: {water: 3 l}"),
        ("boil:|", "60 min", "boil: 60 min"),
        ('hops: [{hop: "Fu|"}]', "Fuggle", "hops: [{hop: Fuggle}]"),
        ("grist:\n  - 4 kg pa|", "pale ale malt", "grist:\n  - 4 kg pale ale malt"),
        ("grist: [{weight: 4|}]", "4 kg", "grist: [{weight: 4 kg}]"),
        ("hops: [|]", "30 g East Kent Golding (5.2 %) at 60 min", "hops: [30 g East Kent Golding (5.2 %) at 60 min]"),
    ],
)
def test_what_is_offered_fits_in_its_place(text: str, label: str, then: str) -> None:
    assert put(text, label).replace('"30 g East Kent Golding (5.2 %) at 60 min"', label) == then


def keys_of(node: Node) -> Iterator[Scalar]:
    if isinstance(node, Sequence):
        for item in node.items:
            yield from keys_of(item)
    elif isinstance(node, Mapping):
        for key, value in node.entries:
            yield key
            yield from keys_of(value)


@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_each_field_of_a_sample_is_offered_where_it_stands(path: Path) -> None:
    text = path.read_text()
    root = read_document(text).root
    assert root is not None
    seen = 0
    for key in keys_of(root):
        place = spot(text, key.start)
        assert place is not None, key
        assert place.role in ("key", "item")
        bare = text[: key.start] + text[key.end :]
        found = DESK.offers(Asked("/shed/a.yaml", bare, {"/shed/brewhouse.yaml": HOUSE}), key.start)
        same = [one for one in found if one.label == key.text]
        if not same:
            open_places = ("notes", "salts", "acid", "enzymes", "temperatures", "source", "measured")
            known = any(step in open_places for step in place.path) or key.text in OTHER_SPELLINGS.values()
            assert known or path.stem in MISSPELT, (key, place.path)
            continue
        seen += 1
        (one,) = same
        assert bare[: one.start] + one.text + bare[one.end :] == text
    assert seen > 3 or path.stem in MISSPELT


VALUES = """\
mash: {crush: |}
sparge: {by: |}
chill: {by: |}
boil: |
yeast: |
hops: [{form: |, hop: Saaz, weight: 20 g, alpha: 3 %}]
package: {in: |}
package: |
souring: {with: x, in: |}
grist: [{kind: |, grain: rye, weight: 1 kg}]
hops: [{hop: |, weight: 20 g, alpha: 3 %, boil: 60 min}]
grist: [{grain: |, weight: 4 kg}]
mash: |
hops: [20 g |]
grist: [4 kg |]
additions: [|]
steep: |
ferment: |
targets: {og: |}
targets: {colour: |}
package: {in: bottles, priming: |}
"""
"""Places each with the cursor in them."""


@pytest.mark.parametrize("form", VALUES.splitlines())
def test_whatever_is_offered_is_read(form: str) -> None:
    grist = "" if form.startswith("grist") else "grist: [{grain: pale ale malt, weight: 4 kg}]\n"
    head = f"recipe: A\nbatch: 20 l\n{grist}"
    text = head + form
    values = [one for one in offered(text) if one.sort != "field"]
    assert values
    for one in values[:60]:
        bare = text.replace("|", "", 1)
        whole = bare[: one.start] + one.text + bare[one.end :]
        results = mashwright.review_text(whole, brewhouse="{}", remedies=False).recipes[0].results
        wrong = [str(found.message) for found in results if found.rule in ("unreadable", "field", "quantity")]
        assert wrong == [], one


@pytest.mark.parametrize("path", [*RECIPES[::6], SAMPLES / "brewhouse.yaml"], ids=lambda path: path.stem)
def test_no_place_of_a_text_is_too_much(path: Path) -> None:
    text = path.read_text()
    name = f"/shed/{path.name}"
    for index in range(0, len(text), 3):
        for version in (text, text[:index]):
            found = DESK.offers(Asked(name, version, {}), index)
            assert all(one.start <= index <= one.end for one in found)


def test_a_client_is_offered_them_with_their_words(started: Start) -> None:
    client = started()
    text = "recipe: Süßholz 🍺\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, we"
    client.open("a.yaml", text)
    where = types.TextDocumentIdentifier(client.uri("a.yaml"))
    found = client.ask(types.TEXT_DOCUMENT_COMPLETION, types.CompletionParams(where, position(text, len(text))))
    (one,) = [one for one in found if one.label == "weight"]
    assert one.detail == "How much of it."
    assert one.documentation.startswith("How much of it. Also: amount")
    assert applied(text, [one.text_edit]) == text[:-2] + "weight: "
    assert found[0].sort_text < found[1].sort_text
