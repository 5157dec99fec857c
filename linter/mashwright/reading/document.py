"""A text that was read: its values, its problems, and where each stands."""

import re
from functools import cached_property
from typing import NamedTuple

from msgspec import Struct

from mashwright.finding import Path
from mashwright.reading.events import build
from mashwright.reading.nodes import Lines, Node, Problem, Span, UnreadableError, span
from mashwright.reading.syntax import first_directive, first_forbidden


class Place(NamedTuple):
    """Lines and columns from 1, in characters; the end is exclusive."""

    line: int
    column: int
    end_line: int
    end_column: int


class Document(Struct, frozen=True, dict=True):
    """A text that was read.

    Attributes:
        text: whole, without a byte-order mark.
        root: None where the text is no YAML that we read.
        problems: what was wrong with it, in the order of the text.
    """

    text: str
    root: Node | None
    problems: tuple[Problem, ...] = ()

    @cached_property
    def _lines(self) -> Lines:
        return Lines(self.text)

    def place(self, where: Span) -> Place:
        """Line and column of a piece of the text."""
        return Place(*self._position(where.start), *self._position(where.end))

    def span_of(self, path: Path) -> Span:
        """The piece of text that a finding about a path points to."""
        return span(self.root, path) if self.root is not None else Span(0, 0)

    def _position(self, index: int) -> tuple[int, int]:
        return self._lines.number(index), self._lines.column(index)


def read_document(text: str, noun: str = "recipe") -> Document:
    """Parse a recipe or a brewhouse. Never raises: what is wrong stands in the document's problems.

    Args:
        text: as the file has it, without a byte-order mark.
        noun: what it is to be, recipe or brewhouse, for the words of its problems.
    """
    if (forbidden := first_forbidden(text)) is not None:
        return Document(text, None, (forbidden,))
    if (marks := _of_a_merge(text)) is not None:
        return Document(text, None, (marks,))
    if (directive := first_directive(text, noun)) is not None:
        return Document(text, None, (directive,))
    problems: list[Problem] = []
    try:
        root = build(text, problems, noun)
    except UnreadableError as stop:
        return Document(text, None, (*problems, stop.problem))
    return Document(text, root, tuple(problems))


def _of_a_merge(text: str) -> Problem | None:
    """The first mark that a merge of two versions left in the text, be it within a note."""
    if "<<<<<<<" not in text and ">>>>>>>" not in text:
        return None
    found = re.search(r"(?:^|(?<=[\r\n]))[ \t]*(<{7}|>{7})(?=[ \r\n]|$)", text)
    if found is None:
        return None
    message = f"a merge of two versions left {found[1]} here; keep one of the two and take the marks out"
    return Problem(Span(found.start(1), found.end(1)), message)
