"""Where in a text the cursor stands, also where the text is broken, as it is while somebody types.

The parser needs a whole document; this looks at what stands in front of the cursor only, line by line, by the indents
of YAML's block style and the brackets of its flow style, and never fails.
"""

from typing import NamedTuple

from msgspec import Struct, field

from mashwright.finding import Path
from mashwright.patterns import pattern

_KEY = pattern(
    r"(\"(?:[^\"\\]|\\.)*\"|'(?:[^']|'')*'|[^\s#\[\]{},&*!|>'\"%@`-][^:\r\n]*?|-[^\s:][^:\r\n]*?)[ \t]*:(?=\s|\Z)"
)
_LINE = pattern(r"[^\r\n]*(?:\r\n|\r|\n|\Z)")
_COMMENT = pattern(r"(?:^|(?<=\s))#")
_FLOW_KEY = pattern(r"(?:^|[{,])\s*[\"']?([A-Za-z][\w -]*?)[\"']?\s*:")
_BLOCK_KEY = pattern(r"[\"']?([^\s#:\"'][^:\"'\r\n]*?)[\"']?[ \t]*:(?=\s|\Z)")


class Spot(NamedTuple):
    """Where the cursor stands.

    Attributes:
        path: of the mapping for a key, of the value for a value or an item.
        role: ``key``, ``value`` behind a key, or ``item``, which may become a value or the first key of a mapping.
        begun: what is typed of it up to the cursor.
        start: where that begins in the text.
        beside: keys that the mapping has already.
        flow: within brackets or braces.
        close: right behind a colon, so that a space is missing.
    """

    path: Path
    role: str
    begun: str
    start: int
    beside: frozenset[str]
    flow: bool
    close: bool = False


class _Level(Struct):
    """A mapping or a list that is open: ``step`` is the key or the index at which it is."""

    indent: int
    listed: bool
    flow: bool
    step: str | int | None = None
    keys: set[str] = field(default_factory=set)


class _Reading:
    """Goes through what stands in front of the cursor."""

    def __init__(self, text: str, index: int) -> None:
        self.text = text[:index]
        self.levels: list[_Level] = []
        self.role = "key"
        self.start = 0
        self.hidden = False
        """In a comment or in a text of several lines, where nothing can be completed."""
        self._below: int | None = None
        """The indent below which lines belong to a text of several lines."""
        self._token = 0
        self._quote = ""

    def read(self) -> None:
        position = 0
        while position < len(self.text):
            found = _LINE().match(self.text, position)
            assert found is not None
            self._line(position, found.end())
            position = found.end()
        if self.text[-1:] in ("", "\n", "\r"):
            self._line(position, position)

    def _line(self, begin: int, end: int) -> None:
        line = self.text[begin:end].rstrip("\r\n")
        content = line.lstrip(" ")
        column = len(line) - len(content)
        last = end == len(self.text) and self.text[begin:end] == line
        if self.levels and self.levels[-1].flow:
            self._flow(begin, begin + len(line))
            return
        if self._below is not None:
            if column > self._below or (not content and not last):
                self.hidden = last
                return
            self._below = None
        self.hidden = False
        if not content.strip() or content.startswith("#"):
            self.role, self.start = "key", begin + len(line)
            self.hidden = content.startswith("#")
            if last:
                self._close(column, dash=False)
                self._nested(column)
            return
        if content.startswith(("---", "...", "%")) and column == 0:
            return
        self._content(begin + column, begin + len(line), column)

    def _content(self, at: int, end: int, column: int) -> None:
        """What stands in a line of block style from one column on."""
        content = self.text[at:end]
        if content == "-" or content.startswith(("- ", "-\t")):
            self._close(column, dash=True)
            top = self.levels[-1] if self.levels else None
            if top is not None and top.listed and top.indent == column:
                top.step = int(top.step or 0) + 1
            else:
                self.levels.append(_Level(column, listed=True, flow=False, step=0))
            rest = content[1:].lstrip(" \t")
            inner = end - len(rest)
            self.role, self.start = "item", inner
            if rest.startswith("#"):
                self.hidden = True
            elif rest:
                self._content(inner, end, column + inner - at)
            return
        self._close(column, dash=False)
        key = _KEY().match(self.text, at, end)
        if key is None:
            self.start = at
            self._nested(column)
            if content[0] in "[{":
                self._value(at, end, column)
            else:
                self._cut_comment(at, end)
            return
        self._key(column, key[1])
        self._value(key.end(), end, column)

    def _key(self, column: int, key: str) -> None:
        top = self.levels[-1] if self.levels else None
        if top is None or top.listed or top.indent != column:
            top = _Level(column, listed=False, flow=False)
            self.levels.append(top)
        top.step = key.strip("\"'")
        top.keys.add(str(top.step))

    def _value(self, at: int, end: int, column: int) -> None:
        """What stands behind a key."""
        rest = self.text[at:end]
        self.role, self.start = "value", end - len(rest.lstrip(" \t"))
        opener = rest.lstrip(" \t")[:1]
        if opener in ("|", ">") and opener:
            self._below, self.hidden = column, True
        elif opener in ("[", "{") and opener:
            self._flow(self.start, end)
        else:
            self._cut_comment(at, end)

    def _cut_comment(self, at: int, end: int) -> None:
        if self.text[self.start : self.start + 1] not in ("'", '"'):
            self.hidden = _COMMENT().search(self.text, at, end) is not None

    def _close(self, column: int, *, dash: bool) -> None:
        """Mappings and lists that end, since a line starts at a column."""
        while self.levels:
            top = self.levels[-1]
            if top.indent < column or (top.indent == column and (dash or not top.listed)):
                return
            self.levels.pop()

    def _nested(self, column: int) -> None:
        """Something without a colon: a key that is being typed, or a value on a line of its own."""
        top = self.levels[-1] if self.levels else None
        same = top is not None and not top.listed and top.indent == column
        self.role = "key" if same or (top is None and column == 0) else "item"
        if same:
            assert top is not None
            top.step = None

    def _flow(self, at: int, end: int) -> None:
        """What stands in a line within brackets and braces, which may go on in the next."""
        self.hidden = False
        position = at
        while position < end:
            letter = self.text[position]
            if self._quote:
                position += self._quoted(position)
                continue
            begun = self.text[self._token : position].strip()
            if letter in "\"'" and not begun:
                self._quote, self._token = letter, position
            elif letter in "[{":
                self.levels.append(_Level(-1, listed=letter == "[", flow=True, step=0 if letter == "[" else None))
                self._token = position + 1
            elif letter in "]}":
                self.levels.pop()
                self._token = position + 1
                if not self.levels or not self.levels[-1].flow:
                    self.hidden = True  # behind the brackets nothing more can stand
                    return
            elif letter == ",":
                top = self.levels[-1]
                top.step = int(top.step or 0) + 1 if top.listed else None
                self._token = position + 1
            elif letter == ":" and self._ends_a_key(position, begun):
                self._token = position + 1
            elif letter == "#" and self.text[position - 1].isspace():
                self.hidden = end == len(self.text)
                break
            position += 1
        self._in_flow()

    def _quoted(self, position: int) -> int:
        """How far to go on within quotes."""
        letter = self.text[position]
        if letter == "\\" and self._quote == '"':
            return 2
        if letter == self._quote:
            self._quote = ""
        return 1

    def _ends_a_key(self, position: int, begun: str) -> bool:
        top, behind = self.levels[-1], self.text[position + 1 : position + 2]
        if (
            top.listed
            or top.step is not None
            or not (behind in ("", ",", "}") or behind.isspace() or begun[-1:] in "\"'")
        ):
            return False
        top.step = begun.strip("\"'")
        top.keys.add(top.step)
        return True

    def _in_flow(self) -> None:
        top = self.levels[-1]
        self.role = "item" if top.listed else "key" if top.step is None else "value"
        token = self.text[self._token :]
        self.start = len(self.text) - len(token.lstrip())


def spot(text: str, index: int) -> Spot | None:
    """Where the cursor stands; None where nothing can be completed.

    Args:
        text: the whole of it.
        index: of the character behind the cursor.
    """
    reading = _Reading(text, index)
    reading.read()
    if reading.hidden:
        return None
    levels, start = reading.levels, min(reading.start, index)
    flow = bool(levels) and levels[-1].flow
    steps = [one.step for one in levels]
    if reading.role == "key" and levels and not levels[-1].listed:
        steps = steps[:-1]
    path = tuple(step for step in steps if step is not None)
    beside = frozenset[str]()
    if reading.role == "key" and levels and not levels[-1].listed:
        beside = frozenset(levels[-1].keys | _behind(text, index, levels[-1]))
    close = reading.role == "value" and text[start - 1 : start] == ":"
    return Spot(path, reading.role, text[start:index], start, beside, flow, close)


def _behind(text: str, index: int, level: _Level) -> set[str]:
    """Keys of the mapping that stand behind the cursor, as far as they are easily found."""
    end = len(text)
    if level.flow:
        depth = 0
        for position in range(index, min(end, index + 2000)):
            depth += {"{": 1, "[": 1, "}": -1, "]": -1}.get(text[position], 0)
            if depth < 0:
                end = position
                break
        return {found[1] for found in _FLOW_KEY().finditer(text[index:end])}
    found: set[str] = set()
    first = True
    for line in _LINE().finditer(text, index):
        content = line[0].strip()
        indent = len(line[0]) - len(line[0].lstrip(" "))
        if first or not content or content.startswith("#"):
            first = False
            continue
        if indent < level.indent or (indent == level.indent and content.startswith("- ")):
            break
        if indent == level.indent and (key := _BLOCK_KEY().match(content)) is not None:
            found.add(key[1])
    return found
