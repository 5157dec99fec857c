"""What a parsed document consists of: values with the place in the text where each stands.

Named tuples and not dataclasses, since a review makes some two hundred of them for each recipe.
"""

from collections.abc import Iterator
from typing import NamedTuple, TypeAlias

from mashwright.finding import Path


def start_of_line(text: str, index: int) -> int:
    """Where the line starts in which a character stands."""
    return max(text.rfind("\n", 0, index), text.rfind("\r", 0, index)) + 1


class Scalar(NamedTuple):
    """One value.

    Attributes:
        value: as the YAML 1.2 core schema reads it.
        text: as it is written, without quotes.
        start, end: character indexes of the text, quotes included.
        plain: not in quotes.
    """

    value: str | int | float | bool | None
    text: str
    start: int
    end: int
    plain: bool


class Sequence(NamedTuple):
    """A list; ``flow`` where it stands in brackets."""

    items: "tuple[Node, ...]"
    start: int
    end: int
    flow: bool


class Mapping(NamedTuple):
    """Keys with their values, in the order of the text; ``flow`` where it stands in braces."""

    entries: "tuple[tuple[Scalar, Node], ...]"
    start: int
    end: int
    flow: bool

    def get(self, key: str) -> "Node | None":
        """The value of a key, or None."""
        for name, value in self.entries:
            if name.text == key:
                return value
        return None

    def key(self, key: str) -> Scalar | None:
        """The key itself, with its place."""
        for name, _ in self.entries:
            if name.text == key:
                return name
        return None


Node: TypeAlias = Scalar | Sequence | Mapping


class Span(NamedTuple):
    """Character indexes of a piece of the text."""

    start: int
    end: int


class Problem(NamedTuple):
    """What hinders reading, in a sentence, and where in the text."""

    span: Span
    message: str


class UnreadableError(Exception):
    """Reading cannot go on."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.message)
        self.problem = problem


def at(root: Node, path: Path) -> Node | None:
    """The node at a path, or None."""
    node: Node | None = root
    for step in path:
        if isinstance(node, Mapping) and isinstance(step, str):
            node = node.get(step)
        elif isinstance(node, Sequence) and isinstance(step, int) and 0 <= step < len(node.items):
            node = node.items[step]
        else:
            return None
    return node


def span(root: Node, path: Path) -> Span:
    """Where a finding about a path points.

    The value if it is a scalar, the first key of a list item, else the key; for what is missing, the nearest thing
    around it that is there.
    """
    node: Node = root
    key: Scalar | None = None
    for step in path:
        if isinstance(node, Mapping) and isinstance(step, str):
            found, name = node.get(step), node.key(step)
        elif isinstance(node, Sequence) and isinstance(step, int) and 0 <= step < len(node.items):
            found, name = node.items[step], None
        else:
            break
        if found is None:
            break
        node, key = found, name
    if isinstance(node, Scalar):
        return Span(node.start, node.end) if node.end > node.start or key is None else Span(key.start, key.end)
    if key is not None:
        return Span(key.start, key.end)
    if isinstance(node, Mapping) and node.entries:
        first = node.entries[0][0]
        return Span(first.start, first.end)
    return Span(node.start, node.start + 1 if node.end > node.start else node.start)


def data(node: Node) -> object:
    """The document as plain Python values, for a schema check."""
    if isinstance(node, Scalar):
        return node.value
    if isinstance(node, Sequence):
        return [data(item) for item in node.items]
    return {key.text: data(value) for key, value in node.entries}


def walk(node: Node, path: Path = ()) -> Iterator[tuple[Path, Node]]:
    """Every node with its path, parents first. Call only on documents within the depth limit."""
    yield path, node
    if isinstance(node, Sequence):
        for index, item in enumerate(node.items):
            yield from walk(item, (*path, index))
    elif isinstance(node, Mapping):
        for key, value in node.entries:
            yield from walk(value, (*path, key.text))
