"""How a report puts its words on a page: wrapped, counted, and harmless to a terminal."""

from collections.abc import Iterable, Iterator
from math import isfinite

from mashwright.brew.board import gravity, number
from mashwright.printable import harmless
from mashwright.words.plurals import in_a_row

INDENT = "    "
_GAP = 3
_LONGEST_UNIT = 3
_NARROWEST = 20
"""Columns of a label below which rows are written as sentences."""


def wrapped(text: str, width: int, first: str = "", rest: str = "") -> Iterator[str]:
    """A text, made harmless, in lines of at most a width, as far as its words allow.

    Args:
        width: of the whole line, indents counted, in characters.
        first: what the first line begins with.
        rest: what the others begin with.
    """
    line, empty = first, True
    for word in _unbroken(harmless(text)):
        if not empty and len(line) + 1 + len(word) > width:
            yield line
            line, empty = rest, True
        line, empty = (line + word, False) if empty else (f"{line} {word}", False)
    yield line


def _unbroken(text: str) -> Iterator[str]:
    """The words of a text; a number keeps its unit beside it, and an equals sign its result."""
    held = ""
    for word in text.split(" "):
        stays = held[-1:] == "=" or (held[-1:].isdigit() and (word.startswith("°") or 0 < len(word) <= _LONGEST_UNIT))
        if held and not stays:
            yield held
        held = f"{held} {word}" if held and stays else word
    yield held


def value_and_unit(value: float | str, unit: str) -> str:
    """A value as a brewer reads it, with its unit."""
    if not isinstance(value, str):
        value = gravity(value) if unit == "SG" or not isfinite(value) else number(value, 3)
    return f"{value} {unit}" if unit and unit != "SG" else value


def in_lines(lines: Iterable[int]) -> str:
    """``line 6`` or ``lines 6, 8 and 10``, each once, in order."""
    numbers = [str(line) for line in sorted(set(lines))]
    return f"{'line' if len(numbers) == 1 else 'lines'} {in_a_row(numbers)}"


def columns(rows: list[tuple[str, str, str]], width: int) -> Iterator[str]:
    """Rows of label, value and place with their columns aligned, as far as the page is wide enough for columns."""
    rows = [(label, harmless(value), place) for label, value, place in rows]
    values, places = (max(len(row[column]) for row in rows) for column in (1, 2))
    room = width - len(INDENT) - _GAP - values - (_GAP + places if places else 0)
    if room < _NARROWEST:
        for label, value, place in rows:
            yield from wrapped(f"{label}: {value}{f' ({place})' if place else ''}", width, INDENT, INDENT * 2)
        return
    cut = [list(wrapped(label, room, rest="  ")) for label, _, _ in rows]
    labels = max(len(line) for label in cut for line in label)
    gap = " " * _GAP
    for (first, *more), (_, value, place) in zip(cut, rows, strict=True):
        yield f"{INDENT}{first:{labels}}{gap}{value:{values}}{gap}{place}".rstrip()
        yield from (INDENT + line for line in more)
