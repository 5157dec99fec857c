"""Findings while a recipe or a brewhouse is typed, as a real client sees them."""

import io
import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from language_client import CONVERTER, Client, applied, covered, position
from lsprotocol import types

import mashwright
from mashwright.cli.command import run
from mashwright.editor import server
from mashwright.editor.asked import _HOUSES
from mashwright.reviewing.files import BREWHOUSE_NAMES

SAMPLES = Path(__file__).parents[2] / "sample-recipes"
SOUND = """\
recipe: Süßholz 🍺 bitter
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.2 kg}
mash: {water: 12 l, rests: [{at: 66 °C, for: 60 min}]}   # 🍺 ö
boil: {for: 60 min}
hops:
  - {hop: Fuggle, weight: 40 g, alpha: 4.5 %, boil: 60 min}
yeast: {kind: English ale}
"""
HOT = SOUND.replace("{at: 66 °C", "{at: 80 °C")
Start = Callable[..., Client]


def rules(found: list[types.Diagnostic]) -> list[str]:
    return [str(one.code) for one in found if one.severity is not types.DiagnosticSeverity.Information]


@pytest.mark.parametrize(
    ("asked", "agreed"),
    [
        (None, "utf-16"),
        (["utf-8", "utf-16"], "utf-8"),
        (["utf-16"], "utf-16"),
        (["utf-32", "utf-8"], "utf-32"),
        (["latin-1"], "utf-16"),
    ],
)
def test_places_are_counted_as_the_client_asks(started: Start, asked: list[str] | None, agreed: str) -> None:
    client = started(asked)
    assert client.hello.capabilities.position_encoding == agreed
    text = (
        "{recipe: Süßholz 🍺, batch: 20 l, grist: [{grain: pale ale malt, weight: 4.2 kg}], "
        "mash: {water: 12 l, rests: [{at: 80 °C, for: 60 min}]}}"
    )
    (found,) = [one for one in client.open("a.yaml", text) if one.code == "saccharification-rest"]
    assert covered(text, found.range, agreed) == "80 °C"
    (mend,) = client.mends("a.yaml", found.range)
    assert mend.edit is not None
    assert mend.edit.document_changes is not None
    change = mend.edit.document_changes[0]
    assert isinstance(change, types.TextDocumentEdit)
    assert change.text_document.version == 1
    assert applied(text, list(change.edits), agreed) == text.replace("80 °C", "66 °C")  # type: ignore[arg-type]
    assert client.quit() == 0


def test_a_place_behind_letters_of_two_units_is_right(started: Start) -> None:
    client = started()
    text = HOT.replace("  - {grain: pale ale malt, weight: 4.2 kg}", '  - {grain: "🍺ö🍺", weight: 4,2 kg}')
    found = client.open("a.yaml", text)
    assert "4,2 kg" in [covered(text, one.range) for one in found]


def test_a_finding_has_its_level_its_rule_and_its_words(started: Start) -> None:
    client = started()
    (found,) = client.open("a.yaml", HOT)
    (same,) = mashwright.review_text(HOT, brewhouse="{}").recipes[0].results
    assert (found.code, found.message, found.source) == ("saccharification-rest", same.message, "mashwright")
    assert found.severity is types.DiagnosticSeverity.Warning
    accepted = f"{HOT}accepted:\n  - {{rule: saccharification-rest, reason: a porridge}}\n"
    client.change("a.yaml", accepted, 2)
    (hint,) = client.told("a.yaml", 2)
    assert (hint.severity, hint.message) == (
        types.DiagnosticSeverity.Hint,
        f"{same.message} (accepted: a porridge)",
    )


@pytest.mark.parametrize("sample", sorted(SAMPLES.glob("lessons/*.yaml")), ids=lambda path: path.name)
def test_each_mend_of_a_sample_is_offered_and_takes_its_finding_away(started: Start, sample: Path) -> None:
    client = started()
    house, text = (SAMPLES / "brewhouse.yaml").read_text(), sample.read_text()
    client.open("brewhouse.yaml", house)
    client.open("a.yaml", text)
    review = mashwright.review_text(text, "a.yaml", brewhouse=house)
    wanted = [(one.rule, remedy.text) for one in review.recipes[0].results for remedy in one.remedies if remedy.edits]
    offered = [(str((mend.diagnostics or [])[0].code), mend.title) for mend in client.mends("a.yaml")]
    assert offered == wanted
    for version, mend in enumerate(client.mends("a.yaml"), 2):
        edit, finding = mend.edit, (mend.diagnostics or [])[0]
        assert edit is not None
        assert edit.document_changes is not None
        changed = applied(text, list(edit.document_changes[0].edits))  # type: ignore[union-attr, arg-type]
        client.change("a.yaml", changed, version)
        left = client.told("a.yaml", version)
        assert (finding.code, finding.message) not in [(one.code, one.message) for one in left]


def test_what_mends_is_offered_at_its_finding_alone_and_only_where_it_is_wanted(started: Start) -> None:
    client = started(versions=False)
    (found,) = client.open("a.yaml", HOT)
    assert client.mends("a.yaml", types.Range(types.Position(0, 0), types.Position(1, 0))) == []
    assert client.mends("a.yaml", only=[types.CodeActionKind.Refactor]) == []
    (mend,) = client.mends("a.yaml", types.Range(found.range.start, found.range.start))
    assert mend.kind == types.CodeActionKind.QuickFix
    assert mend.is_preferred is True
    assert mend.edit is not None
    assert mend.edit.document_changes is None
    assert mend.edit.changes is not None
    assert applied(HOT, list(mend.edit.changes[client.uri("a.yaml")])) == SOUND


def test_a_brewhouse_counts_as_it_is_typed(started: Start, tmp_path: Path) -> None:
    client = started()
    (tmp_path / "brewhouse.yaml").write_text("rules:\n  saccharification-rest: off\n")
    assert client.open("sub/a.yaml", HOT) == []
    assert client.open("brewhouse.yaml", "kettle: {volume: 30 l}\n") == []
    assert client.becomes("sub/a.yaml", ["saccharification-rest"])
    client.change("brewhouse.yaml", "kettle: {volume: 30}\n", 2)
    (found,) = client.told("brewhouse.yaml", 2)
    assert (found.code, found.severity) == ("quantity", types.DiagnosticSeverity.Error)
    client.told("sub/a.yaml", 1)
    client.close("brewhouse.yaml")
    assert client.becomes("sub/a.yaml", []), "the file counts again"
    (tmp_path / "brewhouse.yaml").write_text("{}\n")
    changed = types.FileEvent(client.uri("brewhouse.yaml"), types.FileChangeType.Changed)
    client.tell(types.WORKSPACE_DID_CHANGE_WATCHED_FILES, types.DidChangeWatchedFilesParams([changed]))
    assert client.becomes("sub/a.yaml", ["saccharification-rest"])
    client.close("sub/a.yaml")
    assert client.becomes("sub/a.yaml", [])


def test_only_recipes_and_brewhouses_are_spoken_of(started: Start, tmp_path: Path) -> None:
    client = started()
    assert client.open("compose.yaml", "services:\n  web: {image: x}\n") == []
    (tmp_path / "brewhouse.yaml").write_text("recipes: ['all/**/*.yaml']\n")
    assert rules(client.open("all/x.yaml", "services:\n  web: {image: x}\n")) != []
    assert client.open("empty.yaml", "") == []


def test_a_question_that_is_taken_back_gets_no_answer_and_hinders_nobody(started: Start) -> None:
    client = started()
    client.open("a.yaml", (SAMPLES / "lessons" / "sums-on-a-beermat.yaml").read_text())
    document = types.TextDocumentIdentifier(client.uri("a.yaml"))
    where = types.Range(types.Position(0, 0), types.Position(99, 0))
    params = types.CodeActionParams(document, where, types.CodeActionContext([]))
    text, taken_back = (SAMPLES / "lessons" / "sums-on-a-beermat.yaml").read_text(), 0
    for version in range(2, 22):
        client.change("a.yaml", f"{text}# {version}\n", version)
        number = client.request(types.TEXT_DOCUMENT_CODE_ACTION, params, taken_back=True)
        try:
            client.answer(types.TEXT_DOCUMENT_CODE_ACTION, number)
        except LookupError as error:
            taken_back += "-32800" in str(error)  # RequestCancelled, as the protocol has it
    assert taken_back, "some may come too late, which the protocol allows, but not all"
    assert client.mends("a.yaml") != []


def test_two_hundred_keys_in_a_row_are_reviewed_as_they_come_and_the_last_one_counts(started: Start) -> None:
    client = started()
    client.open("a.yaml", SOUND)
    for version in range(2, 202):
        client.change("a.yaml", SOUND + "#" * version, version)
    client.change("a.yaml", HOT, 202)
    assert rules(client.told("a.yaml", 202)) == ["saccharification-rest"]
    assert client.published < 150, "reviews of versions that were typed over are given up"
    assert client.quit() == 0


def test_a_key_leaves_nothing_behind(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    kept: list[int] = []
    servers: list[server.Server] = []
    made = server.made

    def watched() -> server.Server:
        servers.append(made())
        return servers[-1]

    uri = (tmp_path / "a.yaml").as_uri()
    item = types.TextDocumentItem(uri, "yaml", 1, SOUND)
    messages: list[tuple[str, object]] = [
        (types.INITIALIZE, types.InitializeParams(capabilities=types.ClientCapabilities())),
        (types.TEXT_DOCUMENT_DID_OPEN, types.DidOpenTextDocumentParams(item)),
    ]
    for version in range(2, 302):
        changed = types.VersionedTextDocumentIdentifier(version, uri)
        whole = [types.TextDocumentContentChangeWholeDocument(SOUND)]
        messages.append((types.TEXT_DOCUMENT_DID_CHANGE, types.DidChangeTextDocumentParams(changed, whole)))
    stream = b""
    for number, (method, params) in enumerate(messages):
        told = {"jsonrpc": "2.0", "method": method, "params": CONVERTER.unstructure(params)}
        body = json.dumps({**told, "id": 1} if number == 0 else told).encode()
        stream += b"Content-Length: %d\r\n\r\n" % len(body) + body
    monkeypatch.setattr(server, "made", watched)
    monkeypatch.setattr(server, "heed_no_more", lambda: None)
    monkeypatch.setattr(sys, "stdout", sys.stdout)
    assert server.serve(io.BytesIO(stream), io.BytesIO()) == 1, "it was not asked to end"
    kept += [len(one.protocol._request_futures) for one in servers]
    assert len(kept) == 1
    assert kept[0] < 10


@pytest.mark.parametrize("name", ["lessons/typed-on-the-ferry.yaml", "house/harbour-wheat.yaml", "brewhouse.yaml"])
def test_no_beginning_of_a_text_ends_the_server(started: Start, name: str) -> None:
    client = started()
    whole = (SAMPLES / name).read_text()
    called = Path(name).name
    client.open(called, "")
    for version in range(2, len(whole) + 2):
        client.change(called, whole[: version - 1], version)
        if version % 50 == 0:
            client.told(called, version)
            client.mends(called)
    client.told(called, len(whole) + 1)
    assert client.said == []
    assert client.errors == []
    assert client.quit() == 0


@pytest.mark.parametrize(
    "text",
    ["\ufeff" + HOT, HOT.replace("\n", "\r\n"), HOT.replace("\n", "\r"), HOT.replace("🍺 ö", "\u2028 \x85 ö")],
    ids=["mark", "CRLF", "CR", "other ends of lines"],
)
def test_ends_of_lines_and_a_mark_move_no_place(started: Start, text: str) -> None:
    client = started()
    (found,) = [one for one in client.open("a.yaml", text) if one.code == "saccharification-rest"]
    assert covered(text, found.range) == "80 °C"
    assert found.range.start == position(text, text.index("80 °C"))


def test_a_text_that_lies_nowhere_is_reviewed(started: Start) -> None:
    client = started()
    item = types.TextDocumentItem("untitled:Untitled-1", "yaml", 3, HOT)
    client.tell(types.TEXT_DOCUMENT_DID_OPEN, types.DidOpenTextDocumentParams(item))
    client.uri = lambda name: "untitled:Untitled-1"  # type: ignore[method-assign]
    assert rules(client.told("", 3)) == ["saccharification-rest"]


@pytest.mark.parametrize("text", ["a: " + "[" * 3000, "recipe: x\n" + "a: &a [*a]\n", "recipe: " + "x" * 1_100_000])
def test_a_text_made_to_harm_is_told_of_like_another(started: Start, text: str) -> None:
    client = started()
    client.open("a.yaml", text)
    assert rules(client.open("b.yaml", HOT)) == ["saccharification-rest"]
    assert client.quit() == 0


def test_nothing_of_the_folder_is_run(tmp_path: Path, started: Start) -> None:
    mark = tmp_path.parent / f"{tmp_path.name}-was-run"
    for name in ("pygls", "lsprotocol", "cattrs", "asyncio", "json", "mashwright_rules", "click", "logging"):
        (tmp_path / f"{name}.py").write_text(f"open({str(mark)!r}, 'w')\n")
    subprocess.run(["git", "init", "-q", str(tmp_path)], check=True)
    with (tmp_path / ".git" / "config").open("a") as config:
        config.write(f"[core]\n\tfsmonitor = touch {mark}\n")
    client = started(environment={"PYTHONPATH": ""})
    assert rules(client.open("a.yaml", HOT)) == ["saccharification-rest"]
    client.mends("a.yaml")
    assert client.quit() == 0
    assert not mark.exists()


def test_it_ends_when_its_client_is_gone(started: Start) -> None:
    client = started()
    client.open("a.yaml", HOT)
    assert client.process.stdin is not None
    client.process.stdin.close()
    assert client.process.wait(timeout=20) == 1


@pytest.mark.skipif(os.name != "posix", reason="such signals are of POSIX")
def test_it_ends_by_a_signal(started: Start) -> None:
    client = started()
    client.open("a.yaml", HOT)
    client.process.send_signal(signal.SIGTERM)
    assert client.process.wait(timeout=20) == -signal.SIGTERM


def test_without_its_parts_it_says_how_to_install_them(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in [name for name in sys.modules if name.startswith("mashwright.editor")]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "lsprotocol", None)
    assert run(["language-server"]) == 2
    assert capsys.readouterr().err == (
        "mashwright: the language server needs parts that are not installed; install them: "
        "python -m pip install 'mashwright[editor]'\n"
    )


def test_it_knows_the_names_of_brewhouses() -> None:
    assert _HOUSES == BREWHOUSE_NAMES
