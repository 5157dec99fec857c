"""The new recipe that ``mashwright begin`` writes."""

import re

from mashwright.paper.template import template
from mashwright.paper.written import flow, text
from mashwright.reading.document import read_document
from mashwright.reading.nodes import data
from mashwright.reviewing.collection import Collection
from mashwright.reviewing.settings import Run
from mashwright_schema import load


def found_in(recipe: str) -> list[str]:
    collection = Collection(Run("2027-01-01"))
    return [f"{one.rule}: {one.message}" for each in collection.text(recipe, "a.yaml") for one in each.results]


def sections() -> dict[str, str]:
    """Each section that stands in a comment, with its lines as they are without the mark."""
    parts = re.findall(r"(?m)^# ([a-z-]+):((?: .*)?(?:\n#   .*)*)", template())
    return {name: f"{name}:{body}".replace("\n# ", "\n") + "\n" for name, body in parts}


def test_a_new_recipe_passes_as_it_stands() -> None:
    assert found_in(template()) == []


def test_every_section_is_there_with_its_help() -> None:
    fields = load("recipe")["properties"]
    left = {"$schema", "format", "grain-bill", "mash-efficiency", "cereal-mash", "measured", "accepted"}
    assert sections().keys() | {"recipe", "batch", "grist"} == fields.keys() - left
    for name in sections():
        assert fields[name]["description"] in template()


def test_each_section_holds_once_the_mark_of_comment_is_gone() -> None:
    for name, section in sections().items():
        new = template().replace("\nbatch:", "\n# batch:") if name == "worts" else template()  # each has its own
        document = read_document(new + section)
        assert document.problems == (), name
        assert [one for one in found_in(new + section) if one.startswith(("field", "unreadable"))] == [], name


def test_any_text_is_written_so_that_it_is_read_again() -> None:
    for said in (
        "yes: no",
        "no",
        "true",
        "12",
        "1.048",
        "",
        " a",
        "a #b",
        "a: b",
        '"',
        "- x",
        "[",
        "é ½ °",
        "\n",
        "~",
        "null",
        "{a}",
        "a, b",
    ):
        root = read_document(f"recipe: {text(said)}\nx: {flow({'a': said})}\n").root
        assert root is not None
        found = data(root)
        assert isinstance(found, dict)
        wanted = said.replace("\n", "\\n")
        assert str(found["recipe"]) == wanted
        assert {name: str(one) for name, one in found["x"].items()} == {"a": wanted}
