"""The schema in an editor that knows YAML by JSON Schema: its server is driven over its standard streams.

``.ci/run`` installs it from npm and names it in YAML_LANGUAGE_SERVER; without that these tests are passed over.
"""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from language_client import Client, position
from lsprotocol import types

from mashwright.cli.command import run

SERVER = os.environ.get("YAML_LANGUAGE_SERVER", "")
SAMPLES = Path(__file__).parents[2] / "sample-recipes"
MISSPELT = "typed-on-the-ferry"
"""A sample that shows how slips are told."""

pytestmark = pytest.mark.skipif(not SERVER, reason="YAML_LANGUAGE_SERVER names no server")


@pytest.fixture
def editor(
    started: Callable[..., Client], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Client:
    """An editor beside the schemas of recipe and brewhouse."""
    monkeypatch.chdir(SAMPLES)
    for what, more in (("recipe", []), ("brewhouse", []), ("recipe", ["--names"]), ("brewhouse", ["--names"])):
        assert run(["schema", what, *more]) == 0
        (tmp_path / f"{what}{''.join(more)}.json").write_text(capsys.readouterr().out, encoding="utf-8")
    return started(command=(SERVER, "--stdio"))


def told(editor: Client, name: str, text: str) -> list[types.Diagnostic]:
    item = types.TextDocumentItem(editor.uri(name), "yaml", 1, text)
    editor.tell(types.TEXT_DOCUMENT_DID_OPEN, types.DidOpenTextDocumentParams(item))
    return editor.told(name, None)


@pytest.mark.parametrize("names", ["", "--names"])
def test_it_finds_no_fault_in_a_sample(editor: Client, names: str) -> None:
    found = {}
    for path in sorted(SAMPLES.glob("*/*.yaml")):
        text = f"# yaml-language-server: $schema=./recipe{names}.json\n{path.read_text(encoding='utf-8')}"
        found[path.stem] = [one.message for one in told(editor, path.name, text)]
    assert any("wieght" in one for one in found.pop(MISSPELT)), "it reads the schema"
    assert {name: wrong for name, wrong in found.items() if wrong} == {}
    house = f"$schema: ./brewhouse{names}.json\n{(SAMPLES / 'brewhouse.yaml').read_text(encoding='utf-8')}"
    house = f"# yaml-language-server: $schema=./brewhouse{names}.json\n{house}"
    assert told(editor, "brewhouse.yaml", house) == []


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("", "batch"),
        ("grist:\n  - ", "weight"),
        ("grist:\n  - grain: ", "pale ale malt"),
        ("mash:\n  ", "rests"),
        ("mash: ", "66 °C for 60 min"),
        ("hops:\n  - ", "alpha"),
        ("hops:\n  - hop: ", "Saaz"),
        ("yeast:\n  ", "attenuation"),
        ("yeast:\n  kind: ", "English ale"),
        ("package:\n  ", "carbonation"),
        ("targets:\n  ", "og"),
    ],
)
def test_it_offers_no_nonsense(editor: Client, text: str, wanted: str) -> None:
    text = f"# yaml-language-server: $schema=./recipe--names.json\n{text}"
    told(editor, "a.yaml", text)
    where = types.TextDocumentIdentifier(editor.uri("a.yaml"))
    answer = editor.ask(types.TEXT_DOCUMENT_COMPLETION, types.CompletionParams(where, position(text, len(text))))
    items = answer.items if isinstance(answer, types.CompletionList) else answer
    assert wanted in [one.label for one in items]
    for one in items:
        put = one.text_edit.new_text if one.text_edit is not None else one.insert_text or one.label
        assert "object Object" not in one.label + put
        key, _, value = put.partition(":")
        for sign in ("${1|", "${1:"):
            offered = value.strip().removeprefix(sign).rstrip("}|").split(",")
            assert key not in offered, put
