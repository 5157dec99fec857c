"""What a parsed document consists of: values with the place in the text where each stands."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator
from itertools import accumulate
from typing import NamedTuple, TypeAlias

from msgspec import Struct

from mashwright.finding import Path


class Lines:
    """The lines of a text as an editor counts them: they end by LF, CR or both.

    Not the parser's line numbers, which also count U+0085, U+2028 and U+2029. Ends are counted a block at a time, since
    a list of all would be ten times as large as a text of nothing else.
    """

    _BLOCK = 4096

    def __init__(self, text: str) -> None:
        self._text = text
        blocks = range(0, len(text), self._BLOCK)
        self._before = list(accumulate((self._ends(begin, begin + self._BLOCK) for begin in blocks), initial=0))

    def number(self, index: int) -> int:
        """The line in which a character stands, from 1; an end of a line stands in the line that it ends."""
        block = min(index // self._BLOCK, len(self._before) - 1)
        return self._before[block] + self._ends(block * self._BLOCK, index) + 1

    def column(self, index: int) -> int:
        """The place of a character in its line, from 1."""
        within = index - 1 if self._text[max(index - 1, 0) : index + 1] == "\r\n" else index
        return index - start_of_line(self._text, within) + 1

    def _ends(self, begin: int, end: int) -> int:
        count = self._text.count
        return count("\n", begin, end) + count("\r", begin, end) - count("\r\n", begin, end + 1)


def start_of_line(text: str, index: int) -> int:
    """Where the line starts in which a character stands."""
    size = 256  # looked at from there backwards: each sign alone may be far away, or nowhere
    while True:
        begin = max(index - size, 0)
        found = max(text.rfind("\n", begin, index), text.rfind("\r", begin, index))
        if found >= 0 or begin == 0:
            return found + 1
        size *= 4


class Scalar(Struct, frozen=True, gc=False):
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


class Sequence(Struct, frozen=True, gc=False):
    """A list; ``flow`` where it stands in brackets, ``short`` where a text stands for it (``short_forms``)."""

    items: "tuple[Node, ...]"
    start: int
    end: int
    flow: bool
    short: bool = False


class Mapping(Struct, frozen=True, gc=False):
    """Keys with their values, in the order of the text; ``flow`` where it stands in braces.

    ``short`` where a text stands for it: its keys are not written, and begin where their values do.
    """

    entries: "tuple[tuple[Scalar, Node], ...]"
    start: int
    end: int
    flow: bool
    short: bool = False

    def get(self, key: str) -> "Node | None":
        """The value of a key, or None."""
        for name, value in self.entries:
            if name.text == key:
                return value
        return None

    def entry(self, key: str) -> "tuple[Scalar | None, Node | None]":
        """The key itself, with its place, and its value; both None where it is not there."""
        for one in self.entries:
            if one[0].text == key:
                return one
        return None, None

    def key(self, key: str) -> Scalar | None:
        """The key itself, with its place."""
        return self.entry(key)[0]


Node: TypeAlias = Scalar | Sequence | Mapping


class Span(NamedTuple):
    """Character indexes of a piece of the text."""

    start: int
    end: int


class Problem(NamedTuple):
    """What hinders reading, in a sentence, and where in the text."""

    span: Span
    message: str


class Told:
    """The pieces of a text of which something was said already."""

    def __init__(self, spans: Iterable[Span]) -> None:
        ordered = sorted(spans)
        self._starts = [span.start for span in ordered]
        self._ends = list(accumulate((span.end for span in ordered), max))

    def meets(self, where: Span) -> bool:
        """Whether a piece has a character in common with one of them."""
        before = bisect_left(self._starts, where.end)
        return before > 0 and self._ends[before - 1] > where.start


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
            name, found = node.entry(step)
        elif isinstance(node, Sequence) and isinstance(step, int) and 0 <= step < len(node.items):
            found, name = node.items[step], None
        else:
            break
        if found is None:
            break
        node, key = found, name
    if isinstance(node, Scalar):
        return Span(node.start, node.end) if node.end > node.start or key is None else Span(key.start, key.end)
    if node.short:
        return Span(node.start, node.end)
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
