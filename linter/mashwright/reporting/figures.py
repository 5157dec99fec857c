"""The figures of a recipe: on a teacher's board, 80 columns wide, and as the public JSON document."""

from collections.abc import Iterator
from typing import Any

from msgspec.structs import replace

from mashwright.reporting.words import INDENT, in_lines, wrapped
from mashwright.reviewing.sheet import OTHER_SCALES, FigureRow, Sheet, told

_HIDDEN = (
    "What no file can show: sanitation, the crush, how true the thermometer and the hydrometer are, oxygen,"
    " the freshness of malt, hops and yeast, and the health of the yeast."
)
_ESTIMATES = "All figures are estimates: on the day, go by what you measure."
_LONG = 4
"""Keys from which a list of sources is told once only."""


IN_SHORT = {
    "og": "OG",
    "fg": "FG",
    "abv": "alcohol",
    "bitterness": "bitterness",
    "colour": "colour",
    "strike-temperature": "strike water",
    "total-liquor": "water in all",
    "mash-ph": "mash pH",
    "cells-needed": "yeast needed",
    "priming-sugar": "priming sugar",
}
"""Figures that stand in the short sheet on top, each with its word."""


def figures_text(sheet: Sheet, width: int = 80, only: frozenset[str] = frozenset()) -> Iterator[str]:
    """All figures with their sums, line by line without line ends; the beer in ten lines stands on top.

    Args:
        sheet: what to show.
        width: where lines wrap, in characters; a recipe's own words may be wider.
        only: the ids of the figures to show; all of them where none is named.
    """
    if only:
        sheet = replace(_of_these(sheet, only), worts=tuple(_of_these(wort, only) for wort in sheet.worts))
    yield from wrapped(f"{sheet.name or 'A recipe without a name'}, {sheet.path}", width)
    yield from _read(sheet, width)
    if not only:
        yield from _in_short(sheet, width)
        for wort in sheet.worts:
            yield from _in_short(wort, width)
    listed: list[FigureRow] = []
    for one in (sheet, *sheet.worts):
        if one is not sheet:
            yield ""
            yield from wrapped(f"{one.name or 'A wort without a name'}, a wort of this mash", width)
        yield from _measured(one, width)
        for row in one.rows:
            if not row.missing:
                yield ""
                yield from _figure(row, width)
                yield from _sources(row, listed, width)
        yield from _unknown(one, width)
    yield from _citations(sheet, width)
    yield ""
    yield from wrapped(_HIDDEN, width)
    yield from wrapped(_ESTIMATES, width)


def _of_these(sheet: Sheet, only: frozenset[str]) -> Sheet:
    """A sheet with some of its figures."""
    return replace(sheet, rows=tuple(row for row in sheet.rows if row.id in only), measured=())


def _in_short(sheet: Sheet, width: int) -> Iterator[str]:
    known = [row for row in sheet.rows if row.id in IN_SHORT and not row.missing]
    if known:
        yield ""
        yield from wrapped(f"In short, {sheet.name}" if sheet.pointer and sheet.name else "In short", width)
    for row in sorted(known, key=lambda one: list(IN_SHORT).index(one.id)):
        word = f"{IN_SHORT[row.id]}, {row.package}" if row.package else IN_SHORT[row.id]
        yield from wrapped(row.shown, width, f"{INDENT}{word:<14} ", INDENT * 2)


def _read(sheet: Sheet, width: int) -> Iterator[str]:
    """What could not be read, and how old measures were taken."""
    if sheet.problems:
        yield ""
    for result in sheet.problems:
        place = f"line {result.place.line}, column {result.place.column}"
        yield from wrapped(f"{place}: {result.level.word}: {result.message}", width, rest=INDENT)
    if sheet.readings:
        yield ""
        yield "Readings that were chosen"
    for line, text in sheet.readings:
        yield from wrapped(f"line {line}: {text}", width, INDENT, INDENT * 2)


def _measured(sheet: Sheet, width: int) -> Iterator[str]:
    """The brew days beside what was reckoned."""
    if sheet.measured:
        yield ""
        yield "Measured on brew days, beside the figures"
    for line, text in sheet.measured:
        yield from wrapped(f"line {line}: {text}", width, INDENT, INDENT * 2)


def _figure(row: FigureRow, width: int) -> Iterator[str]:
    yield from wrapped(row.title, width, rest=INDENT)
    yield from wrapped(f"{row.id} = {row.shown}", width, INDENT, INDENT * 2)
    for name, value in row.parts:
        if name not in OTHER_SCALES:
            yield from wrapped(f"{name}: {told(value, row.unit, row.shown_in)}", width, INDENT * 2, INDENT * 3)
    for line in row.working.split("\n") if row.working else ():
        own = INDENT + line[: len(line) - len(line.lstrip(" "))]
        yield from wrapped(line.lstrip(" "), width, own, own + INDENT)
    for sentence in row.assumed:
        yield from wrapped(sentence, width, f"{INDENT}assumed: ", INDENT * 2)
    if row.lines:
        yield from wrapped(in_lines(row.lines), width, f"{INDENT}from ", INDENT * 2)


def _sources(row: FigureRow, listed: list[FigureRow], width: int) -> Iterator[str]:
    """The keys of its sources; a long list that stands above is told by the figure that has it.

    Args:
        row: the figure.
        listed: the figures above with a long list of their own; this one is added if it is such a one.
        width: where lines wrap.
    """
    if not row.sources:
        return
    held = [one for one in listed if set(row.sources).issuperset(one.sources)]
    same = max(held, key=lambda one: len(one.sources), default=None)
    keys = list(row.sources)
    if same is not None:
        keys = [f"those of {same.id}", *(key for key in keys if key not in same.sources)]
    elif len(keys) >= _LONG:
        listed.append(row)
    yield from wrapped(", ".join(keys), width, f"{INDENT}sources: ", INDENT * 2)


def _unknown(sheet: Sheet, width: int) -> Iterator[str]:
    """What cannot be computed, by what is missing for it."""
    unknown = [row for row in sheet.rows if row.missing]
    for missing in dict.fromkeys(row.missing for row in unknown):
        yield ""
        yield from wrapped(f"Not worked out; missing: {missing}", width, rest=INDENT)
        for row in unknown:
            if row.missing == missing:
                yield from wrapped(f"{row.id}: {row.title}", width, INDENT, INDENT * 2)


def _citations(sheet: Sheet, width: int) -> Iterator[str]:
    from mashwright.ingredients.bibliography import sources

    wanted = {key for one in (sheet, *sheet.worts) for row in one.rows for key in row.sources}
    if not wanted:
        return
    citations = {source.key: source.citation for source in sources()}
    yield ""
    yield "Sources"
    for key in sorted(wanted):
        yield from wrapped(f"{key}: {citations[key]}" if key in citations else key, width, INDENT, INDENT * 2)


def figures_document(sheet: Sheet, only: frozenset[str] = frozenset()) -> dict[str, Any]:
    """A sheet as ``mashwright-figures``, version 1, in the canonical units; its schema is ``figures.schema.json``.

    Args:
        sheet: what to show.
        only: the ids of the figures to show; all of them where none is named.
    """

    def entries(rows: tuple[FigureRow, ...]) -> list[dict[str, Any]]:
        return [_figure_entry(row) for row in rows if not only or row.id in only]

    document: dict[str, Any] = {
        "format": "mashwright-figures",
        "version": 1,
        "path": sheet.path,
        "name": sheet.name,
        "figures": entries(sheet.rows),
    }
    if sheet.worts:
        document["worts"] = [
            {"name": wort.name, "pointer": wort.pointer, "figures": entries(wort.rows)} for wort in sheet.worts
        ]
    return document


def _figure_entry(row: FigureRow) -> dict[str, Any]:
    from mashwright.reporting.machine import rounded

    return {
        "id": row.id,
        "title": row.title,
        "unit": row.unit,
        "low": rounded(row.low),
        "typical": rounded(row.typical),
        "high": rounded(row.high),
        "parts": [
            {"name": name, "low": rounded(value.low), "typical": rounded(value.typical), "high": rounded(value.high)}
            for name, value in row.parts
        ],
        "working": row.working,
        "assumed": list(row.assumed),
        "sources": list(row.sources),
        "pointers": list(row.pointers),
        "missing": row.missing or None,
        **({"package": row.package} if row.package else {}),
    }
