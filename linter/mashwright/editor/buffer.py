"""A text as an editor has it open: positions in the client's own encoding, and back."""

from bisect import bisect_right
from typing import NamedTuple

from msgspec import Struct

from mashwright.patterns import pattern
from mashwright.reading.nodes import Span

_ENDS = pattern(r"\r\n|\n|\r")
_MARK = "\ufeff"


class Position(NamedTuple):
    """A line and a place in it, both from 0, as the protocol counts them."""

    line: int
    character: int


class Buffer(Struct, frozen=True):
    """One version of an open text.

    Attributes:
        text: without a byte-order mark; spans count in it.
        starts: where each line starts; lines end by LF, CR or both, as in the protocol.
        encoding: utf-8, utf-16 or utf-32: what a character of a position is a unit of.
        marked: whether a byte-order mark stands in front of the text.
    """

    text: str
    starts: tuple[int, ...]
    encoding: str
    marked: bool = False

    def position(self, index: int) -> Position:
        """Where a character of the text stands, for the client."""
        line = bisect_right(self.starts, index) - 1
        before = self.text[self.starts[line] : index]
        return Position(line, self._units(before) + (self._units(_MARK) if self.marked and line == 0 else 0))

    def index(self, line: int, character: int) -> int:
        """The character at a position; past the end of a line its end, past the last line the end of the text.

        A position within a character counts as in front of it.
        """
        if line >= len(self.starts) or line < 0:
            return len(self.text) if line >= 0 else 0
        if self.marked and line == 0:
            character -= self._units(_MARK)
        start = self.starts[line]
        content = self.text[start : self.starts[line + 1] if line + 1 < len(self.starts) else None].rstrip("\r\n")
        if content.isascii():
            return start + max(0, min(character, len(content)))
        passed = 0
        for offset, letter in enumerate(content):
            passed += self._units(letter)
            if passed > character:
                return start + offset
        return start + len(content)

    def line_span(self, line: int) -> Span:
        """A whole line, counted from 0, without its indent and its end."""
        if not 0 <= line < len(self.starts):
            return Span(len(self.text), len(self.text))
        start = self.starts[line]
        content = self.text[start : self.starts[line + 1] if line + 1 < len(self.starts) else None].rstrip()
        return Span(start + len(content) - len(content.lstrip()), start + len(content))

    def _units(self, text: str) -> int:
        if text.isascii() or self.encoding == "utf-32":
            return len(text)
        if self.encoding == "utf-8":
            return len(text.encode("utf-8", "surrogatepass"))
        return len(text.encode("utf-16-le", "surrogatepass")) // 2


def buffer(text: str, encoding: str) -> Buffer:
    """A text as the client sent it.

    Args:
        encoding: utf-8, utf-16 or utf-32, as agreed with the client.
    """
    marked = text.startswith(_MARK)
    text = text.removeprefix(_MARK)
    return Buffer(text, (0, *(found.end() for found in _ENDS().finditer(text))), encoding, marked)
