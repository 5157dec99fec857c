"""Lots: from where one is used to its certificate in the brewhouse, and another name for it in all recipes."""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.reading.document import Document
from mashwright.reading.editing import in_flow
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence, Span, at
from mashwright.reading.scalars import core_value


class Use(NamedTuple):
    """One place where a lot is named."""

    name: str
    span: Span


class Renaming(NamedTuple):
    """Another name for a lot.

    Attributes:
        refused: why there can be none, in a sentence; "" where it can.
        places: of each file its path, with its text and where the name stands in it.
    """

    refused: str
    places: dict[str, tuple[str, list[Span]]] = {}  # noqa: RUF012  (never changed)


def uses(document: Document, *, is_house: bool) -> Iterator[Use]:
    """Where a text names lots: a brewhouse by the keys under ``lots``, a recipe by the fields ``lot``."""
    root = document.root
    if root is None:
        return
    if is_house:
        lots = at(root, ("lots",))
        if isinstance(lots, Mapping):
            yield from (Use(key.text, Span(key.start, key.end)) for key, _ in lots.entries)
        return
    seen: set[Span] = set()
    for node in _named_lot(root):
        span = Span(node.start, node.end)
        if span not in seen:  # by an alias a line is met again
            seen.add(span)
            yield Use(node.text, span)


def _named_lot(node: Node) -> Iterator[Scalar]:
    if isinstance(node, Sequence):
        for item in node.items:
            yield from _named_lot(item)
    elif isinstance(node, Mapping):
        for key, value in node.entries:
            if key.text == "lot" and isinstance(value, Scalar):
                yield value
            elif key.text != "notes":
                yield from _named_lot(value)


def use_at(document: Document, index: int, *, is_house: bool) -> Use | None:
    """The lot under the cursor."""
    return next((one for one in uses(document, is_house=is_house) if one.span.start <= index <= one.span.end), None)


def written(name: str) -> str:
    """A name as YAML takes it."""
    return in_flow(Scalar(core_value(name), name, 0, 0, plain=isinstance(core_value(name), str)))
