"""The parts of a text: for an outline, and for folding."""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.finding import Path
from mashwright.printable import harmless
from mashwright.reading.document import Document
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence, Span

_LONGEST = 60
_NAMES = ("grain", "sugar", "extract", "fruit", "hop", "what", "kind", "wort", "rule", "in", "date", "at", "of")
"""Fields by which an item of a list is called, where it has one."""


class Part(NamedTuple):
    """One part of a text.

    Attributes:
        name: as it is shown.
        detail: what it holds, in short.
        whole: from its key to the end of what it holds, without the space behind.
        key: the key, or what the part is called by.
        listed: it is an item of a list.
        inner: the parts of it.
    """

    name: str
    detail: str
    whole: Span
    key: Span
    listed: bool
    inner: "tuple[Part, ...]"


def parts(document: Document) -> tuple[Part, ...]:
    """The sections of a recipe or a brewhouse, with their lines and fields; none of a text that cannot be read."""
    root = document.root
    return tuple(_parts(document.text, root, ())) if isinstance(root, Mapping) else ()


def folds(document: Document) -> Iterator[Span]:
    """What may be folded: parts that take more than one line."""
    pending = list(parts(document))
    while pending:
        one = pending.pop()
        if (
            "\n" in document.text[one.whole.start : one.whole.end]
            or "\r" in document.text[one.whole.start : one.whole.end]
        ):
            yield one.whole
        pending += one.inner


def _parts(text: str, node: Node, path: Path) -> Iterator[Part]:
    if isinstance(node, Mapping) and not node.short:
        for key, value in node.entries:
            if not node.start <= key.start <= node.end:
                continue  # it came from elsewhere, by an alias
            whole = Span(key.start, max(key.end, _end(text, value, key.start, key.end)))
            inner = tuple(_parts(text, value, (*path, key.text))) if value.start >= key.start else ()
            yield Part(_shown(key.text), _detail(value), whole, Span(key.start, key.end), listed=False, inner=inner)
    elif isinstance(node, Sequence) and not node.short:
        for item in node.items:
            if not node.start <= item.start <= node.end:
                continue
            whole = Span(item.start, max(item.start + 1, _end(text, item, item.start, item.start)))
            called = _called(text, item)
            inner = tuple(_parts(text, item, path)) if not isinstance(item, Scalar) else ()
            yield Part(called, "", whole, whole, listed=True, inner=inner)


def _end(text: str, node: Node, begin: int, otherwise: int) -> int:
    """Where a part ends, without the space behind it; comments behind it count with it."""
    if node.start < begin:  # an alias: what it stands for lies elsewhere
        return otherwise
    return begin + len(text[begin : node.end].rstrip())


def _detail(value: Node) -> str:
    if isinstance(value, Scalar):
        return _shown(value.text)
    if isinstance(value, Sequence) and not value.short:
        return f"{len(value.items)}"
    return ""


def _called(text: str, item: Node) -> str:
    if isinstance(item, Mapping) and not item.short:
        weight = next(
            (value.text for key, value in item.entries if key.text == "weight" and isinstance(value, Scalar)), ""
        )
        for name in _NAMES:
            value = item.get(name)
            if isinstance(value, Scalar) and value.text:
                return _shown(f"{value.text}, {weight}" if weight else value.text)
    return _shown(text[item.start : item.end]) or "-"


def _shown(text: str) -> str:
    """On one line, in which all can be seen, and not too long."""
    first = text.strip().split("\n")[0]
    short = first if len(first) <= _LONGEST else f"{first[: _LONGEST - 3]}..."
    return harmless(short) or "-"
