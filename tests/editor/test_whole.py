"""What is asked about a whole text and across files: outline, folds, hints, a lot's certificate and its name."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from language_client import Client, applied, covered, position
from lsprotocol import types

import mashwright
from mashwright.editor.asked import Asked
from mashwright.editor.desk import Desk

SAMPLES = Path(__file__).parents[2] / "sample-recipes"
Start = Callable[..., Client]
TEXT = """\
recipe: Süßholz 🍺
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 3 kg}
  - 1 kg wheat malt
  - grain: caramel malt 40
    weight: 500 g
    lot: CM-0419
mash:
  rests:
    - {at: 66 °C, for: 60 min}
hops:
  - {hop: Saaz, weight: 30 g, alpha: 3.5 %, boil: 60 min}   # 🍺
yeast: {kind: English ale}
targets: {og: 1.048, bitterness: 12 IBU}

"""
HOUSE = """\
brewhouse: Lane
lots:
  PM-1: {of: pale ale malt, moisture: 4 %}
  CM-0419:
    of: caramel malt 40
    colour: 41 °Lovibond
"""


def document(client: Client, name: str) -> types.TextDocumentIdentifier:
    return types.TextDocumentIdentifier(client.uri(name))


def outline(client: Client, name: str) -> list[types.DocumentSymbol]:
    found: list[types.DocumentSymbol]
    found = client.ask(types.TEXT_DOCUMENT_DOCUMENT_SYMBOL, types.DocumentSymbolParams(document(client, name)))
    return found


def hints(client: Client, name: str, text: str) -> list[tuple[str, str]]:
    """Each with what stands in front of it in its line."""
    whole = types.Range(types.Position(0, 0), types.Position(999, 0))
    params = types.InlayHintParams(document(client, name), whole)
    found = client.ask(types.TEXT_DOCUMENT_INLAY_HINT, params) or []
    before = [covered(text, types.Range(types.Position(one.position.line, 0), one.position)) for one in found]
    return [(line.strip()[-6:], one.label) for line, one in zip(before, found, strict=True)]


def test_the_outline_has_sections_lines_and_fields(started: Start) -> None:
    client = started()
    client.open("a.yaml", TEXT)
    found = outline(client, "a.yaml")
    names = ["recipe", "batch", "grist", "mash", "hops", "yeast", "targets"]
    assert [one.name for one in found] == names
    assert found[0].detail == "Süßholz 🍺"
    grist = found[2]
    assert [one.name for one in grist.children or ()] == [
        "pale ale malt, 3 kg",
        "1 kg wheat malt",
        "caramel malt 40, 500 g",
    ]
    assert covered(TEXT, grist.selection_range) == "grist"
    assert covered(TEXT, grist.range) == TEXT[TEXT.index("grist:") : TEXT.index("\nmash:")]
    assert covered(TEXT, found[-1].range) == "targets: {og: 1.048, bitterness: 12 IBU}"


def test_parts_of_several_lines_fold(started: Start) -> None:
    client = started()
    client.open("a.yaml", TEXT)
    found = client.ask(types.TEXT_DOCUMENT_FOLDING_RANGE, types.FoldingRangeParams(document(client, "a.yaml")))
    lines = TEXT.split("\n")
    assert [(lines[one.start_line], lines[one.end_line].strip()) for one in found] == [
        ("grist:", "lot: CM-0419"),
        ("  - grain: caramel malt 40", "lot: CM-0419"),
        ("mash:", "- {at: 66 °C, for: 60 min}"),
        ("  rests:", "- {at: 66 °C, for: 60 min}"),
        ("hops:", "- {hop: Saaz, weight: 30 g, alpha: 3.5 %, boil: 60 min}   # 🍺"),
    ]


def test_figures_stand_beside_the_recipe(started: Start) -> None:
    client = started()
    client.open("brewhouse.yaml", HOUSE)
    client.open("a.yaml", TEXT)
    rows = {row.id: row for row in mashwright.figures_of(TEXT, brewhouse=HOUSE).rows}
    found = hints(client, "a.yaml", TEXT)
    assert [where for where, _ in found] == [": 3 kg", "t malt", " 500 g", ": 30 g", " 1.048", "12 IBU"]
    shares = [float(label.removesuffix(" %")) for _, label in found[:3]]
    assert sum(shares) == pytest.approx(100, abs=1.5)
    bitterness = rows["bitterness"].typical
    assert bitterness is not None
    assert found[3][1] == f"{bitterness:.2g} IBU"
    assert rows["og"].shown.startswith(found[4][1])


@pytest.mark.parametrize(
    ("options", "left"), [({"hints": False}, 0), ({"hints": True}, 6), ({"hints": ["ibu"]}, 1), ({"hints": 3}, 6)]
)
def test_they_can_be_switched_off(started: Start, options: Any, left: int) -> None:
    client = started(options=options)
    client.open("a.yaml", TEXT)
    assert len(hints(client, "a.yaml", TEXT)) == left
    settings = {"mashwright": {"hints": ["target"]}}
    client.tell(types.WORKSPACE_DID_CHANGE_CONFIGURATION, types.DidChangeConfigurationParams(settings))
    assert len(hints(client, "a.yaml", TEXT)) == 2


def test_a_lot_leads_to_its_certificate(started: Start, tmp_path: Path) -> None:
    client = started()
    (tmp_path / "brewhouse.yaml").write_text(HOUSE)
    client.open("sub/a.yaml", TEXT)
    at = position(TEXT, TEXT.index("CM-0419") + 2)
    params = types.DefinitionParams(document(client, "sub/a.yaml"), at)
    found = client.ask(types.TEXT_DOCUMENT_DEFINITION, params)
    assert found.uri == client.uri("brewhouse.yaml")
    assert covered(HOUSE, found.range) == "CM-0419"
    typed = f"# ö\n{HOUSE}"
    client.open("brewhouse.yaml", typed)
    assert covered(typed, client.ask(types.TEXT_DOCUMENT_DEFINITION, params).range) == "CM-0419"
    nothing = types.DefinitionParams(document(client, "sub/a.yaml"), types.Position(0, 0))
    assert client.ask(types.TEXT_DOCUMENT_DEFINITION, nothing) is None


def changes(edit: types.WorkspaceEdit, texts: dict[str, str]) -> dict[str, str]:
    """The texts after a change of several files, by their names."""
    done = dict(texts)
    for change in edit.document_changes or ():
        assert isinstance(change, types.TextDocumentEdit)
        name = next(name for name in texts if change.text_document.uri.endswith(f"/{name}"))
        done[name] = applied(texts[name], list(change.edits))  # type: ignore[arg-type]
    return done


def test_another_name_for_a_lot_is_put_everywhere_it_is_used(started: Start, tmp_path: Path) -> None:
    texts = {
        "brewhouse.yaml": HOUSE,
        "a.yaml": TEXT,
        "guests/b.yaml": TEXT.replace("CM-0419", '"CM-0419"   # the lot CM-0419').replace("\n", "\r\n"),
        "guests/c.yaml": TEXT.replace("CM-0419", "PM-1"),
        "other/brewhouse.yaml": HOUSE,
        "other/d.yaml": TEXT,
    }
    for name, text in texts.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(text.encode())
    client = started()
    typed = {**texts, "a.yaml": f"# not saved yet 🍺\n{TEXT}"}
    client.open("a.yaml", typed["a.yaml"], 7)
    where = position(typed["a.yaml"], typed["a.yaml"].index("CM-0419"))

    def ask(name: str) -> types.WorkspaceEdit:
        found: types.WorkspaceEdit
        params = types.RenameParams(document(client, "a.yaml"), where, name)
        found = client.ask(types.TEXT_DOCUMENT_RENAME, params)
        return found

    edit = ask("caramel, new")
    done = changes(edit, typed)
    assert done == {
        **typed,
        "brewhouse.yaml": HOUSE.replace("CM-0419", '"caramel, new"'),
        "a.yaml": typed["a.yaml"].replace("lot: CM-0419", 'lot: "caramel, new"'),
        "guests/b.yaml": texts["guests/b.yaml"].replace('"CM-0419"', '"caramel, new"'),
    }
    versions = {one.text_document.uri: one.text_document.version for one in edit.document_changes or ()}  # type: ignore[union-attr]
    assert versions == {client.uri("a.yaml"): 7, client.uri("brewhouse.yaml"): None, client.uri("guests/b.yaml"): None}
    with pytest.raises(LookupError, match="the brewhouse has a lot PM-1; use another name"):
        ask("PM-1")
    with pytest.raises(LookupError, match="a lot has a name"):
        ask(" ")
    where = types.Position(0, 3)
    with pytest.raises(LookupError, match="no lot is named here"):
        ask("x")


def test_from_its_certificate_too(started: Start, tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(TEXT)
    client = started(versions=False)
    client.open("brewhouse.yaml", HOUSE)
    params = types.RenameParams(document(client, "brewhouse.yaml"), position(HOUSE, HOUSE.index("CM-0419") + 1), "K-1")
    found = client.ask(types.TEXT_DOCUMENT_RENAME, params)
    assert {uri: len(edits) for uri, edits in found.changes.items()} == {
        client.uri("brewhouse.yaml"): 1,
        client.uri("a.yaml"): 1,
    }


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*/*.yaml"))[::4], ids=lambda path: path.stem)
def test_no_text_is_too_much(path: Path) -> None:
    desk, whole = Desk(), path.read_text()
    for text in (whole, *(whole[: len(whole) * part // 7] for part in range(7))):
        asked = Asked("/shed/a.yaml", text, {})
        parts = desk.parts(asked)
        for span in desk.folds(asked):
            assert 0 <= span.start < span.end <= len(text)
        assert all(one.whole.start <= one.key.start <= one.key.end <= one.whole.end for one in parts)
        for hint in desk.hints(asked, frozenset(("share", "ibu", "target"))):
            assert 0 < hint.behind <= len(text)


def test_an_alias_is_outlined_once_and_where_it_stands() -> None:
    text = "a: &x\n  b: 1\n  c: [1, 2]\nd: *x\ne: {<<: *x, f: 2}\n"
    asked = Asked("/shed/a.yaml", text, {})
    for one in Desk().parts(asked):
        assert one.whole.start <= one.key.start < one.key.end <= one.whole.end
        for inner in one.inner:
            assert one.whole.start <= inner.whole.start <= inner.whole.end <= one.whole.end
