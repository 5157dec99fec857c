"""The events of ruamel.yaml's C parser -> nodes, with a stack of our own.

Not by the library's own composer: it recurses, so that deep nesting ends the process, and long flat lists take seconds.
"""

import re
from functools import cached_property
from typing import Any, NamedTuple, NoReturn

from msgspec import Struct, field
from msgspec.structs import replace

from mashwright.budgets import (
    BREWHOUSE_LINES,
    CHARACTERS,
    DEPTH,
    FAULTS,
    LIST_LINES,
    NAME_CHARACTERS,
    NODES,
    PROSE_CHARACTERS,
)
from mashwright.reading.nodes import (
    Lines,
    Mapping,
    Node,
    Problem,
    Scalar,
    Sequence,
    Span,
    UnreadableError,
)
from mashwright.reading.scalars import core_value, is_finite
from mashwright.reading.signs import ODD_BLANKS, marked_otherwise
from mashwright.reading.syntax import in_words, short

_FIRST_LINES = {"recipe": "recipe: House Bitter", "brewhouse": "brewhouse: Saltmarsh Lane"}
_CURLY = "“”„‟‘’‚‛"
_PROSE = frozenset(("by", "source", "reason"))
"""Fields that are read by people, as a whole."""
_OWN = "notes"
"""The field of a recipe below which anything may stand, at any length."""


def build(text: str, problems: list[Problem], noun: str = "recipe") -> Node:
    """Read the one document of a text.

    Args:
        text: characters that YAML allows.
        problems: gains what can be read past: tags, repeated keys, numbers that are none.
        noun: what the text is to be: recipe or brewhouse.

    Returns:
        The root node.

    Raises:
        UnreadableError: the text is no YAML, or more than a recipe can need.
    """
    from _ruamel_yaml import CParser
    from ruamel.yaml import events
    from ruamel.yaml.error import MarkedYAMLError

    builder = _Builder(text, problems, noun)
    handlers = {
        events.ScalarEvent: builder.scalar,
        events.MappingStartEvent: builder.open_mapping,
        events.SequenceStartEvent: builder.open_sequence,
        events.MappingEndEvent: builder.close,
        events.SequenceEndEvent: builder.close,
        events.AliasEvent: builder.alias,
        events.DocumentStartEvent: builder.start_document,
    }
    parser = CParser(_without_other_breaks(text))
    try:
        while (event := parser.get_event()) is not None:
            if (handle := handlers.get(type(event))) is not None:
                handle(event)
    except MarkedYAMLError as error:
        raise UnreadableError(in_words(text, error, noun)) from None
    if builder.root is None or (isinstance(builder.root, Scalar) and builder.root.text == ""):
        message = f"this file has only spaces and comments; a {noun} starts with a line such as {_FIRST_LINES[noun]}"
        raise UnreadableError(Problem(Span(0, 0), message))
    return builder.root


def _without_other_breaks(text: str) -> str:
    """U+0085, U+2028 and U+2029 end a line for the parser, as in YAML 1.1; for YAML 1.2 and for editors they don't."""
    if text.isascii() or not any(sign in text for sign in "\x85\u2028\u2029"):
        return text
    return text.translate(dict.fromkeys((0x85, 0x2028, 0x2029), " "))


def _in_curly_quotes(text: str) -> bool:
    """Whether a text in curly quotes may be taken without them: a quantity in them is for its own reader to refuse."""
    inner = text[1:-1]
    return text[-1] in _CURLY and inner != "" and not inner[0].isdigit() and not any(sign in inner for sign in "“”„‟‚‛")


def _odd_key(key: Scalar) -> Problem | None:
    """What to say of a key behind a sign that is no dash, or beside a blank that is none: then the lines don't hold."""
    if (bullet := marked_otherwise(key.text)) is not None:
        return Problem(Span(key.start, key.start + 1), bullet)
    edge = re.match(rf"-?[{ODD_BLANKS}]", key.text) or re.search(rf"[{ODD_BLANKS}]\Z", key.text)
    if edge is None:
        return None
    where, code = key.start + edge.end() - 1, f"U+{ord(edge.group()[-1]):04X}"
    return Problem(Span(where, where + 1), f"use an ordinary space, not {code}")


class _Open(Struct):
    """A collection that is being read.

    Attributes:
        before: how many nodes came before it.
        written: how many characters came before it.
        inside: how many lists and mappings stand in each other within it.
        again: how many of its items came before its first key stood there a second time.
    """

    start: int
    flow: bool
    mapping: bool
    anchor: str | None
    before: int
    written: int
    inside: int = 0
    items: list[Any] = field(default_factory=list)
    seen: dict[str, Scalar] = field(default_factory=dict)
    key: Scalar | None = None
    drop: bool = False
    again: int | None = None


class _Anchored(NamedTuple):
    """What an alias stands for: the node, and what it costs to have it once more."""

    node: Node
    nodes: int
    characters: int
    depth: int


class _Builder:
    def __init__(self, text: str, problems: list[Problem], noun: str) -> None:
        self.text = text
        self.noun = noun
        self.problems = problems
        self.root: Node | None = None
        self.stack: list[_Open] = []
        self.anchors: dict[str, _Anchored] = {}
        self.count = 0
        self.characters = 0
        self.documents = 0

    def start_document(self, event: Any) -> None:
        self.documents += 1
        if self.documents > 1:
            self.stop(event, f"a second document starts here; keep one {self.noun} to a file and leave out the ---")

    def scalar(self, event: Any) -> None:  # four events of five are one, so it asks no other function for little
        self.count += 1
        if self.count > NODES:
            self.counted(event, 0)
        text, plain = event.value, event.style == ""
        start, end = event.start_mark.index, event.end_mark.index
        if plain and text and text[0] in _CURLY and _in_curly_quotes(text):
            text, plain = text[1:-1], False
        if event.tag is not None or event.anchor is not None:
            self.refuse_tag(event)
            first, start = start, self.past_properties(start, end)
            if text == "" and event.tag is not None:
                # what was meant as text (notes: !good) is no value that is missing
                text, start = self.text[first:end].strip(), first
        self.characters += len(text)
        if len(text) > NAME_CHARACTERS and self.is_too_long(text, start, end):
            text, plain = "", False
        value = core_value(text) if plain else text
        if value.__class__ is float and not is_finite(value):
            self.note(
                start,
                end,
                f"{short(text)} is not a usable number; write the number or leave the line out",
            )
            value = None
        node = Scalar(value, text, start, end, plain)
        if event.anchor is not None:
            self.anchors[event.anchor] = _Anchored(node, 1, len(text), 0)
        self.add(node, event)

    def is_too_long(self, text: str, start: int, end: int) -> bool:
        """Whether a value is longer than what stands in its place can be; that is told, and nothing more of it."""
        parent = self.stack[-1] if self.stack else None
        if parent is None or self.is_own() or (parent.mapping and parent.key is None):
            return False
        key = next((one.key.text for one in reversed(self.stack) if one.key is not None), "")
        most = PROSE_CHARACTERS if key in _PROSE else NAME_CHARACTERS
        if len(text) <= most:
            return False
        where = parent.key.start if parent.key is not None else start
        longer = ", and the rest under `notes`" if self.noun == "recipe" else ""
        name = f"`{short(key)}`" if key else "this text"
        message = f"{name} has {len(text)} characters; at most {most} are read; write it shorter{longer}"
        self.note(where, max(end, where + 1), message)
        return True

    def is_own(self) -> bool:
        """Whether what is being read is the recipe's own data, below its notes."""
        top = self.stack[0].key if self.stack else None
        return top is not None and top.text == _OWN and self.noun == "recipe"

    def alias(self, event: Any) -> None:
        if event.anchor not in self.anchors:
            self.stop(
                event,
                f"*{short(event.anchor)} points to nothing above it; write the value itself, or put the text in quotes",
            )
        again = self.anchors[event.anchor]
        much = f"*{short(event.anchor)} repeats so much that"
        if self.count + again.nodes > NODES:
            self.stop(event, f"{much} there are more than {NODES} values up to here; write out what is meant")
        if self.characters + again.characters > CHARACTERS:
            self.stop(event, f"{much} there are more than {CHARACTERS} characters up to here; write out what is meant")
        if len(self.stack) + again.depth > DEPTH:
            self.stop(
                event,
                f"with *{short(event.anchor)}, lists or braces stand more than {DEPTH} deep here;"
                f" a {self.noun} needs five",
            )
        self.counted(event, again.nodes)
        self.characters += again.characters
        if self.stack:
            self.stack[-1].inside = max(self.stack[-1].inside, again.depth)
        self.add(again.node, event)

    def open_mapping(self, event: Any) -> None:
        self.open(event, mapping=True)

    def open_sequence(self, event: Any) -> None:
        self.open(event, mapping=False)

    def open(self, event: Any, *, mapping: bool) -> None:
        self.counted(event, 1)
        if len(self.stack) >= DEPTH:
            self.stop(event, f"lists or braces stand more than {DEPTH} deep here; a {self.noun} needs five")
        if self.stack and self.stack[-1].mapping and self.stack[-1].key is None:
            self.stop(
                event,
                "a list or braces cannot be the name of a field; quote the text, or write a name before the colon",
            )
        self.refuse_tag(event)
        start, flow = event.start_mark.index, bool(event.flow_style)
        self.stack.append(_Open(start, flow, mapping, event.anchor, self.count - 1, self.characters))

    def close(self, event: Any) -> None:
        done = self.stack.pop()
        collection = Mapping if done.mapping else Sequence
        if done.again is not None:
            done = self.parted(done)
        node: Node = collection(tuple(done.items), done.start, event.end_mark.index, done.flow)
        if len(done.items) > LIST_LINES and not self.is_own():
            node = self.within_lines(node, done)
        depth = done.inside + 1
        if self.stack:
            self.stack[-1].inside = max(self.stack[-1].inside, depth)
        if done.anchor is not None:
            whole = not isinstance(node, Scalar)
            nodes, characters = self.count - done.before, self.characters - done.written
            self.anchors[done.anchor] = _Anchored(node, nodes, characters, depth) if whole else _Anchored(node, 1, 0, 0)
        self.add(node, event)

    def within_lines(self, node: Node, done: _Open) -> Node:
        """A list or its like, or nothing where it has more lines than are read; that is told."""
        most = LIST_LINES if self.noun == "recipe" else BREWHOUSE_LINES
        if len(done.items) <= most:
            return node
        key = self.stack[-1].key if self.stack else None
        where = key.start if key is not None else done.start
        lines = "fields" if done.mapping else "lines"
        name = f"`{short(key.text)}`" if key is not None else f"this {self.noun if not self.stack else 'place'}"
        message = f"{name} has {len(done.items)} {lines}; at most {most} are read; split the {self.noun}"
        if not self.stack:
            raise UnreadableError(Problem(Span(where, node.end), message))
        self.note(where, node.end, message)
        return Scalar(None, "", node.start, node.end, plain=False)

    def parted(self, done: _Open) -> _Open:
        """A list item whose fields start over is two, the dash between them forgotten, if more than one came again."""
        first, second = done.items[: done.again], done.items[done.again :]
        if len(second) < 2:
            return replace(done, items=first)
        self.stack[-1].items.append(Mapping(tuple(first), done.start, first[-1][1].end, done.flow))
        return replace(done, items=second, start=second[0][0].start)

    def add(self, node: Node, event: Any) -> None:
        if not self.stack:
            self.root = node
            return
        parent = self.stack[-1]
        if not parent.mapping:
            parent.items.append(node)
        elif parent.key is None:
            self.add_key(parent, node, event)
        else:
            key, parent.key = parent.key, None
            if parent.flow and isinstance(node, Scalar) and node.start == node.end == key.end:
                self.add_lone_key(parent, key)
            elif not parent.drop:
                parent.items.append((key, node))

    def add_key(self, parent: _Open, node: Node, event: Any) -> None:
        if not isinstance(node, Scalar):
            self.stop(
                event,
                "a list or braces cannot be the name of a field; quote the text, or write a name before the colon",
            )
        parent.key = node
        parent.drop = True
        if len(node.text) > NAME_CHARACTERS and not self.is_own():
            self.note(
                node.start,
                node.end,
                f"the name of this field has {len(node.text)} characters; at most {NAME_CHARACTERS} are read;"
                " write it shorter",
            )
        elif node.text == "<<" and node.plain:
            self.note(
                node.start,
                node.end,
                f"<< copies fields from elsewhere, which a {self.noun} does not do; write the fields out",
            )
        elif node.plain and not (node.text[:1].isalpha() and node.text.isascii()) and (odd := _odd_key(node)):
            raise UnreadableError(odd)
        elif node.text in parent.seen:
            self.repeated(parent, node)
        else:
            parent.seen[node.text] = node
            parent.drop = False

    def repeated(self, parent: _Open, key: Scalar) -> None:
        """A key that stands in its mapping already; in a list, the first one again starts what should be an item."""
        if parent.again is not None:
            parent.drop = False
            return
        line = self.lines.number(parent.seen[key.text].start)
        new = ""
        if len(self.stack) > 1 and not self.stack[-2].mapping and parent.items and parent.items[0][0].text == key.text:
            parent.again, parent.drop = len(parent.items), False
            new = ", or give it braces of its own" if parent.flow else ", or give it a dash of its own"
        message = f"{short(key.text)} is here twice (first in line {line}); keep one of the two{new}"
        self.note(key.start, key.end, message)

    @cached_property
    def lines(self) -> Lines:
        """For the lines that a message names."""
        return Lines(self.text)

    def add_lone_key(self, parent: _Open, key: Scalar) -> None:
        """Words after a comma in braces, without a colon: what was written as one value came apart."""
        before = parent.items[-1] if parent.items else None
        if before is not None and isinstance(before[1], Scalar) and before[1].plain:
            name, value = before
            whole = self.text[value.start : key.end]
            if re.match(r"\d", key.text) and re.search(r"\d$", value.text):
                # the quantity parser says what a decimal comma is, once, at the whole value
                parent.items[-1] = (name, Scalar(whole, whole, value.start, key.end, plain=False))
            else:
                remedy = f'quote the whole text ({short(name.text)}: "{short(whole)}"), or write its field and a colon'
                self.note(key.start, key.end, f'"{short(key.text)}" stands alone after a comma; {remedy}')
            return
        self.note(
            key.start,
            key.end,
            f'"{short(key.text)}" has no value; write {short(key.text)}: and a value, or leave it out',
        )

    def past_properties(self, start: int, end: int) -> int:
        """Where the value itself starts, after a tag or an anchor."""
        word = re.compile(r"\S+\s*")
        while start < end and self.text[start] in "&!" and (match := word.match(self.text, start, end)):
            start = match.end()
        return start

    def refuse_tag(self, event: Any) -> None:
        if event.tag is not None:
            match = re.compile(r"(?:&\S*\s+)?(!\S*)").match(self.text, event.start_mark.index)
            where, written = (match.start(1), match[1]) if match is not None else (event.start_mark.index, event.tag)
            self.note(
                where,
                where + 1,
                f"the tag {short(written)} means nothing in a {self.noun};"
                " write the plain value, or put the text in quotes",
            )

    def counted(self, event: Any, number: int) -> None:
        self.count += number
        if self.count > NODES:
            self.stop(
                event,
                f"there are more than {NODES} values up to here; a {self.noun} needs a few hundred, so split the file",
            )

    def note(self, start: int, end: int, message: str) -> None:
        if len(self.problems) < FAULTS:
            self.problems.append(Problem(Span(start, end), message))

    def stop(self, event: Any, message: str) -> NoReturn:
        raise UnreadableError(Problem(Span(event.start_mark.index, event.end_mark.index), message))
