"""The pages of the format: each section has one, true to the schema, with an example that is read and fits a line."""

import re

import pytest
from click.testing import CliRunner

from mashwright.cli.command import command
from mashwright.measures.unit_table import ROWS
from mashwright.reading.document import read_document
from mashwright.reading.fields import at_path, keys
from mashwright.reading.schema import understood
from mashwright.reporting.format_pages import BREWHOUSE, NAMES, RECIPE, topic, topics
from mashwright.reporting.glossary import TERMS
from mashwright_schema import load

HEAD = "recipe: A\nbatch: 20 l\ngrist: [4 kg pale ale malt]\n"


def test_every_section_of_a_recipe_has_a_page_or_is_a_line_of_text() -> None:
    root = load("recipe")
    plain = {"by", "style", "source", "notes", "format", "efficiency", "mash-efficiency", "grain-bill"}
    assert set(keys(at_path(root, ()))) - plain <= set(RECIPE)


@pytest.mark.parametrize("name", topics())
@pytest.mark.parametrize("width", [80, 50])
def test_a_page_names_each_field_and_fits(name: str, width: int) -> None:
    page = topic(name, width)
    assert page is not None
    path: tuple[str | int, ...] = () if name in ("recipe", "brewhouse") else (name,)
    root = load("brewhouse" if name in ("brewhouse", "names") else "recipe")
    if name == "names":
        path = ("ingredients", "any")
    here = keys(at_path(root, path)) or keys(at_path(root, (*path, 0)))
    assert here
    for key in here:
        assert re.search(rf"^  {key}: ", page, re.MULTILINE)
    if width == 80:
        assert max(map(len, page.splitlines())) <= 100  # an example may be a long line
    assert "Left out:" in page


@pytest.mark.parametrize("name", RECIPE)
def test_what_is_said_of_fields_left_out_names_fields(name: str) -> None:
    path: tuple[str | int, ...] = () if name == "recipe" else (name,)
    root = load("recipe")
    here = {*keys(at_path(root, path)), *keys(at_path(root, (*path, 0))), *keys(at_path(root, ()))}
    for sentence in RECIPE[name].left_out:
        for field in re.findall(r"^`([^`]+)`:", sentence):
            assert field in here


@pytest.mark.parametrize("name", RECIPE)
def test_the_example_of_a_section_is_read(name: str) -> None:
    example = RECIPE[name].example
    given = [line.partition(":")[0] for line in example.splitlines()]
    given += ["batch"] if "worts" in given else []  # each wort has its own
    head = "".join(line for line in HEAD.splitlines(keepends=True) if line.partition(":")[0] not in given)
    assert understood(read_document(f"{head}{example}\n"), "recipe")[1] == []


@pytest.mark.parametrize("section", [BREWHOUSE, NAMES])
def test_the_examples_of_a_brewhouse_are_read(section: object) -> None:
    example = getattr(section, "example", "")
    assert understood(read_document(f"{example}\n", "brewhouse"), "brewhouse")[1] == []


def test_a_unit_and_a_word_of_the_trade_are_explained() -> None:
    assert "diastatic power" in str(topic("°Lintner", 80))
    assert "kilned so gently" in str(topic("base malt", 80))
    assert "36 imperial" in str(topic("British barrels", 80))
    assert topic("banana boat", 80) is None
    for rows in ROWS.values():
        for (name, _), *_ in rows[:1]:
            assert not name or topic(name, 80) is not None


def test_terms_are_small_sentences() -> None:
    for term, text in TERMS.items():
        assert term == term.casefold()
        assert text.endswith(".")
        assert len(text) < 140


def test_explain_shows_rules_sections_and_words() -> None:
    def explained(*arguments: str) -> tuple[int, str]:
        result = CliRunner().invoke(command, ["explain", *arguments])
        return result.exit_code, result.output

    assert "How the starch is converted" in explained("mash")[1]
    assert "mashwright explain sparge --section" in explained("sparge")[1]
    assert "How the wort is rinsed" in explained("sparge", "--section")[1]
    listed = explained()[1]
    assert listed.index("The grist:") < listed.index("The mash:") < listed.index("Reading:")
    code, text = explained("hopps")
    assert code != 0
    assert "did you mean hops?" in text
