"""The schemas that the program shows, for editors that complete and check by one."""

import json
from pathlib import Path

import jsonschema
import pytest

import mashwright
import mashwright_schema
from mashwright.cli.command import run
from mashwright.reading.as_typed import as_typed
from mashwright.reading.document import read_document
from mashwright.reading.nodes import data

SAMPLES = Path(__file__).parents[2] / "sample-recipes"


def shown(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, object]:
    assert run(["schema", *arguments]) == 0
    found: dict[str, object] = json.loads(capsys.readouterr().out)
    return found


@pytest.mark.parametrize("what", ["recipe", "brewhouse"])
def test_the_schema_is_that_of_what_people_type(what: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert shown(capsys, what) == as_typed(what)
    assert shown(capsys, what, "--in-full") == mashwright_schema.load(what)


@pytest.mark.parametrize("what", ["review", "figures", "names"])
def test_documents_that_are_written_have_theirs(what: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert shown(capsys, what) == mashwright_schema.load(what)


def test_a_recipe_is_meant_where_nothing_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    assert shown(capsys) == as_typed("recipe")


def test_known_names_are_in_it_and_those_of_the_brewhouse(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    house = "lots: {A-1: {of: Saaz, alpha: 3 %}}\ningredients: {the lane malt: {kind: pale ale malt}}\n"
    (tmp_path / "brewhouse.yaml").write_text(house)
    recipe, brewhouse = shown(capsys, "--names"), shown(capsys, "brewhouse", "--names")
    fields: dict[str, dict[str, list[dict[str, list[str]]]]]
    fields = recipe["$defs"]["grist-line"]["properties"]  # type: ignore[index]
    assert {"pale ale malt", "the lane malt"} <= set(fields["grain"]["anyOf"][0]["enum"])  # type: ignore[arg-type]
    assert fields["lot"]["anyOf"][0]["enum"] == ["A-1"]  # type: ignore[comparison-overlap]
    assert "light dry malt extract" in fields["extract"]["anyOf"][0]["enum"]
    assert "light dry malt extract" not in fields["sugar"]["anyOf"][0]["enum"]
    lot = brewhouse["$defs"]["lot"]["properties"]  # type: ignore[index]
    assert "Saaz" in lot["of"]["anyOf"][0]["enum"]
    for schema in (recipe, brewhouse):
        jsonschema.Draft202012Validator.check_schema(schema)


def test_a_name_that_nobody_knows_stays_valid(capsys: pytest.CaptureFixture[str]) -> None:
    check = jsonschema.Draft202012Validator(shown(capsys, "--names"))
    unknown = {"recipe": "A", "batch": "20 l", "grist": [{"grain": "heritage einkorn", "weight": "3 kg"}]}
    assert check.is_valid(unknown)
    assert not check.is_valid({**unknown, "grist": [{"grain": "heritage einkorn", "wieght": "3 kg"}]})
    for path in sorted(SAMPLES.glob("*/*.yaml")):
        root = read_document(path.read_text(encoding="utf-8")).root
        assert root is not None
        assert check.is_valid(data(root)) is (path.stem != "typed-on-the-ferry"), path


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (["review", "--names"], "mashwright: --names is for the schema of a recipe or a brewhouse\n"),
        (["figures", "--in-full"], "mashwright: --in-full is for the schema of a recipe or a brewhouse\n"),
        (["--names", "--in-full"], "mashwright: --names goes with the short forms; leave --in-full out\n"),
    ],
)
def test_what_does_not_go_together_is_told(
    arguments: list[str], sentence: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["schema", *arguments]) == 2
    assert capsys.readouterr().err.startswith(sentence)


@pytest.mark.parametrize("name", ["a.yaml", "brewhouse.yaml"])
def test_a_file_may_say_where_its_schema_is(name: str) -> None:
    text = "recipe: A\nbatch: 20 l\ngrist: [{grain: pale ale malt, weight: 4 kg}]\n"
    text = "brewhouse: A\n" if name == "brewhouse.yaml" else text
    before = mashwright.review_text(text, name, brewhouse="{}").recipes
    for line in ("$schema: ./x.schema.json\n", "# yaml-language-server: $schema=./x.schema.json\n"):
        after = mashwright.review_text(f"{text}{line}", name, brewhouse="{}").recipes
        assert [one.results for one in after] == [one.results for one in before]


def test_it_is_no_field_that_is_offered_to_a_brewer() -> None:
    text = "recipe: A\nbatch: 20 l\ngrist: [{grain: pale ale malt, weight: 4 kg}]\nzzzz: 1\n"
    (found,) = mashwright.review_text(text, brewhouse="{}").recipes[0].results
    assert "$schema" not in found.message
