"""Changes of a document: tried on its nodes, written into its text.

Both ways take the same edits, so that what was tried is what gets written. Text outside an edit stays to the byte.
"""

import re
from collections.abc import Iterable
from typing import NamedTuple

from msgspec.structs import replace

from mashwright.finding import Edit, Path
from mashwright.patterns import pattern
from mashwright.reading.document import read_document
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence, Span, at, start_of_line
from mashwright.reading.scalars import core_value

APPEND = "-"


class Replacement(NamedTuple):
    """A piece of text to put in place of another; an empty span is an insertion."""

    span: Span
    text: str


def can_edit(root: Node, *paths: Path) -> bool:
    """Whether edits at some paths have a place, and change nothing but that: no alias has to do with it."""
    changed = [_changed(root, path) for path in paths]
    return all(node is not None for node in changed) and _stand_once(root, {id(node) for node in changed})


def _changed(root: Node, path: Path) -> Node | None:
    """The value that an edit changes, or what a new one is added to; None where there is no place for it."""
    node: Node | None = root
    for depth, step in enumerate(path):
        child = _child(node, step)
        if child is None:
            kind = Sequence if step == APPEND else Mapping
            return node if depth == len(path) - 1 and isinstance(node, kind) and _may_grow(node) else None
        node = child
    return node if isinstance(node, Scalar) else None


def _may_grow(node: Mapping | Sequence) -> bool:
    """Whether the place of a new entry can be told: the entries stand here, as plain keys, or a text is written out."""
    if node.short:
        return True
    inside = node.items if isinstance(node, Sequence) else tuple(value for _, value in node.entries)
    if isinstance(node, Mapping) and not node.flow and node.entries[0][0].start != node.start:
        return False
    return all(node.start <= one.start <= one.end <= node.end for one in inside)


def _stand_once(root: Node, wanted: set[int]) -> bool:
    """Whether nodes, by their ids, are met once each; by an alias one is met again, and its text would change both."""
    met, pending = 0, [root]
    while pending:
        node = pending.pop()
        met += id(node) in wanted
        if isinstance(node, Sequence):
            pending.extend(node.items)
        elif isinstance(node, Mapping):
            pending.extend([value for _, value in node.entries])
    return met == len(wanted)


def edited(root: Node, edits: Iterable[Edit]) -> Node:
    """The nodes as they would be after the edits.

    Raises:
        KeyError: a path has no place in the document.
    """
    for edit in edits:
        root = _edited(root, edit.path, _parsed(edit.text))
    return root


def replacements(text: str, root: Node, edits: Iterable[Edit]) -> tuple[Replacement, ...]:
    """The same edits as pieces of text, in the order of the text.

    Raises:
        KeyError: a path has no place in the document.
    """
    # of several that are added at one place, a value comes before a line, and a line that stands deeper before others
    deepest = sorted(edits, key=lambda edit: -len(edit.path))
    places = [_short_above(root, edit.path) for edit in deepest]
    written_out = {
        place
        for place, edit in zip(places, deepest, strict=True)
        if place is not None and not _fits_a_short_form(text, root, edit)
    }
    within = [edit for place, edit in zip(places, deepest, strict=True) if place not in written_out]
    pieces = [_replacement(text, root, edit) for edit in within]
    pieces += [_in_full(root, place, deepest) for place in written_out]
    return tuple(sorted(pieces, key=lambda piece: (piece.span, piece.text.startswith(("\n", "\r")))))


def removed(text: str, root: Node, path: Path) -> Replacement | None:
    """The piece of text that takes an entry out, with its line; what is left empty above it goes too.

    None where the entry shares its line with others in a way that cannot be told apart, or an alias stands for it.

    Args:
        text: the whole of it.
        root: of the document.
        path: of an item of a list, or of a field.
    """
    parent = at(root, path[:-1])
    if not path or not isinstance(parent, Mapping | Sequence) or not _stand_once(root, {id(parent)}):
        return None
    entries: list[tuple[int, Node]] = []
    if isinstance(parent, Mapping):
        entries = [(key.start, value) for key, value in parent.entries]
        index = next((place for place, (key, _) in enumerate(parent.entries) if key.text == path[-1]), -1)
    else:
        entries = [(item.start, item) for item in parent.items]
        index = path[-1] if isinstance(path[-1], int) and path[-1] < len(entries) else -1
    if index < 0 or parent.short:
        return None
    if len(entries) == 1:
        return removed(text, root, path[:-1])
    start, value = entries[index]
    end = _content_end(text, value)
    if parent.flow:
        return _removed_in_flow(entries, index, end)
    begin = dash_before(text, parent.start, start) if isinstance(parent, Sequence) else start
    line = start_of_line(text, begin)
    last = _line_end(text, end)
    if text[line:begin].strip() or text[end:last].strip().partition("#")[0].strip():
        return None
    last += 2 if text.startswith("\r\n", last) else 1 if last < len(text) else 0
    return Replacement(Span(line, last), "")


def _removed_in_flow(entries: list[tuple[int, Node]], index: int, end: int) -> Replacement:
    """An entry in brackets goes with the comma behind it, or the last with that before it."""
    if index + 1 < len(entries):
        return Replacement(Span(entries[index][0], entries[index + 1][0]), "")
    _, before = entries[index - 1]
    return Replacement(Span(before.end, end), "")


def _short_above(root: Node, path: Path) -> Path | None:
    """The outermost text that stands for fields on the way to a path, or None."""
    for length in range(1, len(path)):
        node = at(root, path[:length])
        if isinstance(node, Mapping | Sequence) and node.short:
            return path[:length]
    return None


def _fits_a_short_form(text: str, root: Node, edit: Edit) -> bool:
    """Whether an edit can be made within a text that stands for fields; else its fields must be written out.

    An amount takes the place of an amount, or of the word that says it, and a name that of a name.
    """
    target = None if edit.path[-1:] == (APPEND,) else at(root, edit.path)
    if not isinstance(target, Scalar) or _AS_IT_IS().fullmatch(edit.text) is None:
        return False
    return edit.text[0].isdigit() or text[target.start : target.end] == target.text


def _in_full(root: Node, place: Path, edits: Iterable[Edit]) -> Replacement:
    """A text replaced by the fields that it stands for, with all the edits of them."""
    inside = [Edit(edit.path[len(place) :], edit.text) for edit in edits if edit.path[: len(place)] == place]
    node = at(root, place)
    if node is None:
        raise KeyError(place)
    return Replacement(Span(node.start, node.end), in_flow(edited(node, reversed(inside))))


_AS_IT_IS = pattern(r"[^\W_][^\n\r\t,\[\]{}#:&*!|>'\"%@`?]*(?:(?<=\s)%)?")


def in_flow(node: Node) -> str:
    """A node as it is written on one line, with quotes where a text would mean something else without them."""
    if isinstance(node, Sequence):
        return f"[{', '.join(map(in_flow, node.items))}]"
    if isinstance(node, Mapping):
        return f"{{{', '.join(f'{in_flow(key)}: {in_flow(value)}' for key, value in node.entries)}}}"
    if _AS_IT_IS().fullmatch(node.text) is not None and (node.plain or isinstance(core_value(node.text), str)):
        return node.text.strip()
    from json import dumps

    return dumps(node.text, ensure_ascii=False)


def _child(node: Node | None, step: str | int) -> Node | None:
    return at(node, (step,)) if node is not None else None


_MEANS_MORE = frozenset("{}[]:#\"',&*!|>\n\r\t")
"""Signs that may make more of a text than one plain value."""


def _parsed(text: str) -> Node:
    if text[:1].isalnum() and text[-1:] != " " and not _MEANS_MORE.intersection(text):
        return Scalar(core_value(text), text, 0, 0, plain=True)  # as most are; spares the parser
    node = read_document(text).root
    return node if node is not None else Scalar(core_value(text), text, 0, 0, plain=True)


def _edited(node: Node, path: Path, value: Node) -> Node:
    if not path:
        return replace(value, start=node.start, end=node.end)
    step, rest = path[0], path[1:]
    if isinstance(node, Sequence):
        if step == APPEND:
            return replace(node, items=(*node.items, value))
        if not isinstance(step, int) or not 0 <= step < len(node.items):
            raise KeyError(path)
        return replace(
            node, items=(*node.items[:step], _edited(node.items[step], rest, value), *node.items[step + 1 :])
        )
    if not isinstance(node, Mapping):
        raise KeyError(path)
    if node.get(str(step)) is None:
        if rest:
            raise KeyError(path)
        return replace(node, entries=(*node.entries, (Scalar(step, str(step), node.end, node.end, plain=True), value)))
    entries = ((key, _edited(child, rest, value) if key.text == step else child) for key, child in node.entries)
    return replace(node, entries=tuple(entries))


def _replacement(text: str, root: Node, edit: Edit) -> Replacement:
    target = at(root, edit.path)
    if isinstance(target, Scalar) and edit.path[-1:] != (APPEND,):
        if target.start == target.end:
            # nothing stands there yet; a value keeps a blank from the colon or dash in front of it
            blank = "" if text[target.start - 1 : target.start].isspace() else " "
            return Replacement(Span(target.start, target.end), f"{blank}{edit.text}")
        return Replacement(Span(target.start, _scalar_end(text, target)), edit.text)
    parent = at(root, edit.path[:-1])
    if isinstance(parent, Mapping) and target is None:
        return _added(text, parent, f"{edit.path[-1]}: {edit.text}", parent.entries[-1][1] if parent.entries else None)
    if isinstance(parent, Sequence) and edit.path[-1] == APPEND:
        return _added(text, parent, edit.text, parent.items[-1] if parent.items else None)
    raise KeyError(edit.path)


def _added(text: str, parent: Mapping | Sequence, new: str, last: Node | None) -> Replacement:
    """A new entry behind the last one: on the same line in brackets, else on a line of its own."""
    if last is None:
        return Replacement(Span(parent.start + 1, parent.start + 1), new)
    if parent.flow:
        where = _content_end(text, last)
        return Replacement(Span(where, where), f", {new}")
    first = parent.entries[0][0].start if isinstance(parent, Mapping) else parent.items[0].start
    column = first - start_of_line(text, first)
    if isinstance(parent, Sequence):
        dash = dash_before(text, parent.start, first)
        column = dash - start_of_line(text, dash)
        new = f"- {new}"
    newline = "\r\n" if "\r\n" in text else "\r" if "\r" in text and "\n" not in text else "\n"
    where = _line_end(text, _content_end(text, last))
    return Replacement(Span(where, where), f"{newline}{' ' * column}{new}")


_DASH = pattern(r"-(?:[ \t]+#.*|[ \t]*)\Z", re.DOTALL)


def dash_before(text: str, begin: int, item: int) -> int:
    """Where the dash of a list's item stands; there may be comments with dashes of their own between the two.

    Args:
        text: the whole of it.
        begin: from where to look, such as the beginning of the list.
        item: where the item itself begins.
    """
    end = item
    while end > begin:
        start = start_of_line(text, end)
        line = text[start:end].lstrip()
        if line and not line.startswith("#"):
            found = _DASH().search(text, max(start, begin), end)
            return found.start() if found is not None else text.rfind("-", 0, item)
        end = start - 1
    return text.rfind("-", 0, item)


def _scalar_end(text: str, node: Scalar) -> int:
    """A text below a | or > ends, for the parser, only where the next line starts."""
    if text.startswith(("|", ">"), node.start) and not node.plain:
        return node.start + len(text[node.start : node.end].rstrip())
    return node.end


def _content_end(text: str, node: Node) -> int:
    """Where a node's last character stands; a block collection's own end lies past blanks and comments."""
    while not isinstance(node, Scalar):
        if node.flow:
            return node.end
        last = node.entries[-1][1] if isinstance(node, Mapping) else node.items[-1]
        if isinstance(last, Scalar) and last.start == last.end and isinstance(node, Mapping):
            return max(last.end, node.entries[-1][0].end + 1)
        node = last
    return _scalar_end(text, node)


def _line_end(text: str, index: int) -> int:
    ends = [found for found in (text.find("\n", index), text.find("\r", index)) if found >= 0]
    return min(ends, default=len(text))
