"""Figures beside the text, as hints that are no part of it: shares, bitterness, a target's figure."""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew.board import number
from mashwright.brew.brew import Brew
from mashwright.editor.hovering import FIGURES_OF_TARGETS, figure_of, shares
from mashwright.figures.kettle import hop_additions
from mashwright.finding import Path
from mashwright.printable import harmless
from mashwright.reading.document import Document
from mashwright.reading.nodes import Mapping, Node, Scalar, at
from mashwright.recipe.stated import Unknown
from mashwright.reviewing.sheet import Sheet


class Hint(NamedTuple):
    """A few words behind a place; ``kind`` is share, ibu or target, by which they can be switched off."""

    behind: int
    text: str
    told: str
    kind: str


def hints(document: Document, brew: Brew, sheet: Sheet | None, kinds: frozenset[str]) -> Iterator[Hint]:
    """What stands beside a recipe.

    Args:
        kinds: which are wanted: ``share``, ``ibu``, ``target``.
    """
    if "share" in kinds:
        yield from _shares(document, brew)
    if "ibu" in kinds:
        yield from _bitterness(document, brew)
    if "target" in kinds and sheet is not None:
        yield from _targets(document, sheet)


def _shares(document: Document, brew: Brew) -> Iterator[Hint]:
    try:
        found = shares(brew)
    except Unknown:
        return
    for one in found:
        index = _behind(document, one.path, "weight")
        if one.extract is not None and index is not None:
            yield Hint(index, f"{number(one.extract, 2)} %", harmless(one.told), "share")


def _bitterness(document: Document, brew: Brew) -> Iterator[Hint]:
    try:
        added = hop_additions(brew)
    except Unknown:
        return
    for one in added:
        index = _behind(document, one.path, "weight")
        if index is not None:
            yield Hint(index, f"{number(round(one.ibu.typical, 1), 2)} IBU", f"added: {harmless(one.when)}", "ibu")


def _targets(document: Document, sheet: Sheet) -> Iterator[Hint]:
    root = document.root
    places: list[Path] = [("targets",)]
    worts = at(root, ("worts",)) if root is not None else None
    places += [("worts", number_, "targets") for number_ in range(len(getattr(worts, "items", ())))]
    for place in places:
        for field in FIGURES_OF_TARGETS:
            node = at(root, (*place, field)) if root is not None else None
            row = figure_of(sheet, (*place, field))
            if isinstance(node, Scalar) and row is not None and row.shown:
                yield Hint(node.end, row.shown.partition(" (")[0].partition(",")[0], harmless(row.title), "target")


def _behind(document: Document, path: Path, field: str) -> int | None:
    """Behind the amount of a line; behind all of it where it has none, or is a text."""
    root = document.root
    line: Node | None = at(root, path) if root is not None else None
    if line is None:
        return None
    if isinstance(line, Mapping):
        amount = line.get(field)
        if isinstance(amount, Scalar) and not line.short:
            return amount.end
        if not line.short and line.entries and isinstance(line.entries[-1][1], Scalar):
            return line.entries[-1][1].end
    return line.end
