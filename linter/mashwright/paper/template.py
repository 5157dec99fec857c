"""A new recipe: what it needs, filled in with an example, and all else as commented lines of help, from the schema."""

from collections.abc import Iterator

from mashwright.paper.written import flow
from mashwright_schema import load

_FILLED = ("recipe", "batch", "grist")
"""What a recipe cannot do without."""
_LEFT_OUT = ("$schema", "format", "grain-bill", "mash-efficiency", "cereal-mash", "measured", "accepted")
"""Of second names and of what comes later; the page of each section tells of it."""


def template() -> str:
    """A recipe of format 1 as YAML text; with the mark of comment taken away, each of its lines holds too."""
    return "\n".join(_lines()) + "\n"


def _lines() -> Iterator[str]:
    yield "# A new recipe. Put your own in place of these three; for all else, take away the # and change it."
    fields = load("recipe")["properties"]
    for name in _FILLED:
        yield from _field(name, fields[name], "")
    yield ""
    yield "# mashwright explain SECTION tells what each field means, and what is assumed where it is left out."
    for name, field in fields.items():
        if name not in (*_FILLED, *_LEFT_OUT):
            yield from _field(name, field, "# ")


def _field(name: str, field: dict[str, object], mark: str) -> Iterator[str]:
    examples = field["examples"]
    assert isinstance(examples, list)
    value = examples[0]
    if isinstance(value, list):
        yield f"{mark}{name}:  # {field['description']}"
        for item in value:
            yield f"{mark}  - {flow(item)}"
    else:
        yield f"{mark}{name}: {flow(value)}  # {field['description']}"
