"""A recipe while it is read from a page: what each field says, and the lines that are not read, beside their place."""

from collections.abc import Iterator

from msgspec import Struct, field

from mashwright.paper.written import flow, text
from mashwright.printable import harmless

ORDER = (
    "recipe", "by", "style", "source", "notes", "batch", "efficiency", "grist", "steep", "mash", "sparge", "water",
    "boil", "hops", "additions", "yeast", "ferment", "package", "targets",
)  # fmt: skip
"""In which the fields are written: that of a brew day."""
_LISTS = ("grist", "hops", "additions", "ferment")
_NEEDED = {
    "batch": "the text states no batch; add how much beer it is, such as batch: 20 l",
    "grist": "no malt or grain with its weight was read; add it under grist",
}


class Draft(Struct):
    """What was read.

    Attributes:
        fields: by their names: a text, a mapping, or a list of mappings.
        comments: what is not read, or in part, by the field beside which it stands.
    """

    fields: dict[str, object] = field(default_factory=dict)
    comments: dict[str, list[str]] = field(default_factory=dict)

    def get(self, *path: str) -> str | None:
        """The text of a field; None where it is not read yet."""
        at: object = self.fields
        for name in path:
            at = at.get(name) if isinstance(at, dict) else None
        return at if isinstance(at, str) else None

    def put(self, value: str, *path: str) -> bool:
        """State a field once; whether it now says this."""
        if (before := self.get(*path)) is not None:
            return before == value
        at = self.fields
        for name in path[:-1]:
            inner = at.setdefault(name, {})
            if not isinstance(inner, dict):
                return False
            at = inner
        at[path[-1]] = value
        return True

    def items(self, *path: str) -> list[dict[str, str]]:
        """The lines of a list, to read or to add to."""
        at = self.fields
        for name in path[:-1]:
            inner = at.setdefault(name, {})
            assert isinstance(inner, dict)
            at = inner
        found = at.setdefault(path[-1], [])
        assert isinstance(found, list)
        return found

    def comment(self, place: str, line: str) -> None:
        """Keep a line beside a field."""
        self.comments.setdefault(place if place in ORDER else "recipe", []).append(line)

    def missing(self) -> tuple[str, ...]:
        """What a recipe cannot do without, and is not read, in plain words."""
        return tuple(words for name, words in _NEEDED.items() if not self.fields.get(name))

    def written(self) -> str:
        """The recipe as YAML text."""
        return "\n".join(self._lines()) + "\n"

    def _lines(self) -> Iterator[str]:
        for name in ORDER:
            value = self.fields.get(name)
            if value:
                yield from _written(name, value)
            elif name in _NEEDED:
                yield f"# {_NEEDED[name]}"
            for line in self.comments.get(name, ()):
                yield f"# {harmless(line)}"


_FIRST = (
    "grain",
    "sugar",
    "extract",
    "fruit",
    "hop",
    "what",
    "weight",
    "share",
    "alpha-units",
    "bitterness",
    "alpha",
    "form",
    "colour",
)
"""Fields of a line in the order in which they are usually written; others follow."""


def _in_order(item: dict[str, str]) -> dict[str, object]:
    first: dict[str, object] = {name: item[name] for name in _FIRST if name in item}
    return first | {name: True if said == "true" else said for name, said in item.items() if name not in first}


def _written(name: str, value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield f"{name}: {text(value)}"
    elif isinstance(value, list):
        yield f"{name}:"
        for item in value:
            yield f"  - {flow(_in_order(item))}"
    elif isinstance(value, dict):
        yield f"{name}:"
        for key, inner in value.items():
            if isinstance(inner, list):
                yield f"  {key}:"
                for item in inner:
                    yield f"    - {flow(_in_order(item))}"
            else:
                yield f"  {key}: {flow(inner)}"
