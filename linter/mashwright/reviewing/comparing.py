"""What a change of a recipe does to the beer: lines that changed, figures that moved, findings that came and went."""

from collections import Counter
from collections.abc import Callable, Iterator
from typing import NamedTuple

from msgspec import Struct

from mashwright.reading.document import read_document
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence
from mashwright.reading.schema import understood
from mashwright.reviewing.results import Result, Reviewed
from mashwright.reviewing.sheet import FigureRow, Sheet

OF_THE_BEER = (
    "og",
    "fg",
    "abv",
    "bitterness",
    "colour",
    "carbonation",
    "grist-diastatic-power",
    "conversion",
    "conversion-time",
    "mash-temperature",
    "strike-temperature",
    "mash-ph",
    "total-liquor",
    "pre-boil-volume",
    "cells-needed",
    "priming-sugar",
    "bottle-pressure",
    "keg-pressure",
)
"""Figures that say what becomes of the beer, in the order of their interest."""
_HEADS = ("grain", "sugar", "extract", "fruit", "hop", "what", "kind", "wort", "rule", "date", "in")
"""Fields by which a line of a list is called."""


class Line(NamedTuple):
    """One thing that the recipe says, before and after; "" where it was not there."""

    what: str
    before: str
    after: str


class Moved(NamedTuple):
    """One figure that moved.

    Attributes:
        before, after: as shown, with their ranges; "" where it could not be computed.
        change: the difference of the typical values, in ``unit``; None where one of them is not known.
        sure: "more" or "less" where all of the range moved, "either way" else; "" where one is not known.
    """

    id: str
    title: str
    before: str
    after: str
    change: float | None
    unit: str
    sure: str


class Compared(Struct, frozen=True):
    """One recipe before and after.

    Attributes:
        path: now; that of before where it is gone.
        was: the path before, where it has another now; "" else.
        kind: ``changed``, ``new`` or ``gone``.
        came, went: findings, each as level, rule and message; ``worse`` those of a milder level before.
    """

    path: str
    name: str
    kind: str
    was: str = ""
    lines: tuple[Line, ...] = ()
    figures: tuple[Moved, ...] = ()
    came: tuple[Result, ...] = ()
    went: tuple[Result, ...] = ()
    worse: tuple[Result, ...] = ()

    @property
    def of_the_beer(self) -> bool:
        """Whether anything changed that a drinker or a brewer could notice."""
        return bool(self.kind != "changed" or self.figures or self.came or self.went or self.worse or self.lines)


def compared(
    old: str,
    new: str,
    path: str,
    was: str,
    review: Callable[[str, str], Reviewed | None],
    figures: Callable[[str, str], Sheet],
) -> Compared:
    """What changed from one text of a recipe to another.

    Args:
        old, new: the texts.
        path, was: of the recipe now, and before.
        review, figures: of a text under a path.
    """
    before, after = figures(old, was), figures(new, path)
    here, there = review(old, was), review(new, path)
    came, went, worse = _findings(here, there)
    return Compared(
        path,
        after.name or before.name,
        "changed",
        was if was != path else "",
        tuple(_lines(_said(old), _said(new))),
        tuple(_moved(before, after)),
        came,
        went,
        worse,
    )


def _said(text: str) -> dict[tuple[str, ...], str]:
    """All that a recipe says, by names in place of numbers of lines."""
    document, _ = understood(read_document(text), "recipe")
    found: dict[tuple[str, ...], str] = {}
    if document.root is not None:
        _gather(document.root, (), found)
    return found


def _gather(node: Node, path: tuple[str, ...], found: dict[tuple[str, ...], str]) -> None:
    if isinstance(node, Scalar):
        found[path] = " ".join(node.text.split())
    elif isinstance(node, Mapping):
        for key, value in node.entries:
            _gather(value, (*path, key.text), found)
    else:
        names = list(_names(node))
        times = Counter(names)
        seen: Counter[str] = Counter()
        for name, item in zip(names, node.items, strict=True):
            seen[name] += 1
            _gather(item, (*path, f"{name} ({seen[name]})" if times[name] > 1 else name), found)


def _names(node: Sequence) -> Iterator[str]:
    for number, item in enumerate(node.items, 1):
        heads = (item.get(head) for head in _HEADS) if isinstance(item, Mapping) else iter(())
        named = next((head.text for head in heads if isinstance(head, Scalar) and head.text), "")
        yield named or str(number)


def _lines(old: dict[tuple[str, ...], str], new: dict[tuple[str, ...], str]) -> Iterator[Line]:
    """Each value that changed; a line that came or went is told once, with what it says."""
    told: set[tuple[str, ...]] = set()
    for path in dict.fromkeys((*old, *new)):
        if old.get(path) == new.get(path):
            continue
        owner = path[:-1]
        if path in old and path in new:
            yield Line(" › ".join(path), old[path], new[path])
            continue
        whole, other = (old, new) if path in old else (new, old)
        if not owner or any(one[: len(owner)] == owner for one in other):
            yield Line(" › ".join(path), old.get(path, ""), new.get(path, ""))
        elif owner not in told:
            told.add(owner)
            said = ", ".join(value for one, value in whole.items() if one[: len(owner)] == owner and value != owner[-1])
            yield Line(" › ".join(owner), said if whole is old else "", said if whole is new else "")


def _moved(before: Sheet, after: Sheet) -> Iterator[Moved]:
    """Figures of the beer that moved; where a mash gives several worts, those of each that was there before."""
    yield from _moved_of(before, after, "")
    worts = {wort.name: wort for wort in before.worts}
    for wort in after.worts:
        if wort.name in worts:
            yield from _moved_of(worts[wort.name], wort, f"{wort.name}: ")


def _moved_of(before: Sheet, after: Sheet, whose: str) -> Iterator[Moved]:
    here = {row.id: row for row in before.rows if not row.package}
    there = {row.id: row for row in after.rows if not row.package}
    for figure in OF_THE_BEER:
        old, new = here.get(figure), there.get(figure)
        if old is None or new is None or _as_shown(old) == _as_shown(new):
            continue
        yield Moved(figure, f"{whose}{new.title}", old.shown, new.shown, _change(old, new), new.unit, _sure(old, new))


def _as_shown(row: FigureRow) -> str:
    """The usual value as it is shown; ranges that move by themselves are no news."""
    return row.shown.partition(" (")[0]


def _change(old: FigureRow, new: FigureRow) -> float | None:
    return None if old.typical is None or new.typical is None else new.typical - old.typical


def _sure(old: FigureRow, new: FigureRow) -> str:
    """Whether it moved for sure: the same lots stand on both sides, so low goes with low and high with high."""
    ends = ((old.low, new.low), (old.typical, new.typical), (old.high, new.high))
    moves = [there - here for here, there in ends if here is not None and there is not None]
    if len(moves) < len(ends):
        return ""
    if all(move > 0 for move in moves):
        return "more"
    return "less" if all(move < 0 for move in moves) else "either way"


def _findings(
    before: Reviewed | None, after: Reviewed | None
) -> tuple[tuple[Result, ...], tuple[Result, ...], tuple[Result, ...]]:
    """What came, what went, and what got worse; a finding is known again by its rule and its place by name."""
    here = {one.identity: one for one in (before.results if before is not None else ()) if one.accepted is None}
    there = {one.identity: one for one in (after.results if after is not None else ()) if one.accepted is None}
    came = tuple(one for identity, one in there.items() if identity not in here)
    went = tuple(one for identity, one in here.items() if identity not in there)
    worse = tuple(one for identity, one in there.items() if identity in here and one.level > here[identity].level)
    return came, went, worse


def renamed(old: dict[str, str], new: dict[str, str]) -> dict[str, str]:
    """Recipes that have another path now: of those gone and those new, the ones of the same name or the same text.

    Args:
        old, new: the texts by their paths.

    Returns:
        The path before, by the path now.
    """
    gone = {path: text for path, text in old.items() if path not in new}
    found: dict[str, str] = {}
    for path, text in new.items():
        if path in old:
            continue
        twin = next((one for one, other in gone.items() if other == text), None)
        twin = twin or next((one for one, other in gone.items() if _name(other) and _name(other) == _name(text)), None)
        if twin is not None:
            found[path] = twin
            del gone[twin]
    return found


def _name(text: str) -> str:
    root = read_document(text).root
    name = root.get("recipe") if isinstance(root, Mapping) else None
    return name.text if isinstance(name, Scalar) else ""
