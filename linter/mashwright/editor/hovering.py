"""What is told of the place under the cursor: an ingredient, an addition, a rest, a figure, a field."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from mashwright.brew.board import number
from mashwright.brew.brew import Brew
from mashwright.figures.kettle import hop_additions
from mashwright.figures.mash import follow
from mashwright.figures.mash.gravity import deliveries
from mashwright.finding import Path
from mashwright.measures.range import Range
from mashwright.printable import harmless
from mashwright.reading.document import Document
from mashwright.reading.fields import at_path, keys
from mashwright.reading.nodes import Node, Scalar, Sequence, Span
from mashwright.recipe.brewhouse import Brewhouse, Lot
from mashwright.recipe.stated import Unknown
from mashwright.reporting import format_pages, pages
from mashwright.reporting.names import found_text
from mashwright.reviewing.catalogue import KINDS, known
from mashwright.reviewing.plugins import Installed
from mashwright.reviewing.results import pointer
from mashwright.reviewing.search import Search, search
from mashwright.reviewing.sheet import FigureRow, Sheet, spread
from mashwright_schema import load

_WIDTH = 72
_FIGURES = {
    ("targets", "og"): "og",
    ("targets", "fg"): "fg",
    ("targets", "abv"): "abv",
    ("targets", "bitterness"): "bitterness",
    ("targets", "colour"): "colour",
    ("targets", "color"): "colour",
    ("targets", "attenuation"): "apparent-attenuation",
    ("targets", "pre-boil-gravity"): "pre-boil-gravity",
    ("mash", "strike"): "strike-temperature",
    ("mash", "ph"): "mash-ph",
    ("mash", "water"): "mash-volume",
    ("mash", "thickness"): "liquor-to-grist",
    ("sparge", "water"): "total-liquor",
    ("boil", "volume"): "pre-boil-volume",
    ("yeast", "pitch"): "cells-pitched",
    ("yeast", "attenuation"): "apparent-attenuation",
    ("package", "carbonation"): "carbonation",
    ("package", "pressure"): "keg-pressure",
    ("package", "priming", "weight"): "priming-sugar",
    ("package", "priming", "rate"): "priming-sugar",
}
"""The figure that is told of a field, beside what the recipe states there."""
FIGURES_OF_TARGETS = {place[1]: figure for place, figure in _FIGURES.items() if place[0] == "targets"}
_NAMES = ("grain", "sugar", "extract", "fruit", "hop", "kind", "of", "with", "style")
"""Fields that may name something known."""
_MORE = {"mash": ("salts", "acid", "enzymes"), "sparge": ("salts", "acid"), "boil": ("salts",)}
"""Sections with mappings whose keys are names of something known."""


class Place(NamedTuple):
    """What stands under the cursor: a key or a value, with its path."""

    path: Path
    span: Span
    is_key: bool
    text: str


class Hover(NamedTuple):
    """What is told of a place, as Markdown."""

    markdown: str
    span: Span


def place_at(document: Document, index: int) -> Place | None:
    """The key or the value under the cursor; None where there is neither, or the text cannot be read."""
    best: Place | None = None
    for one in _places(document.root, ()) if document.root is not None else ():
        inside = one.span.start <= index <= one.span.end and one.span.end > one.span.start
        if inside and (best is None or (index < one.span.end and best.span.end <= index)):
            best = one
    return best


def _places(node: Node, path: Path) -> Iterator[Place]:
    if isinstance(node, Scalar):
        yield Place(path, Span(node.start, node.end), is_key=False, text=node.text)
    elif isinstance(node, Sequence):
        for index, item in enumerate(node.items):
            yield from _places(item, (*path, index))
    else:
        for key, value in node.entries:
            if not node.short:
                yield Place((*path, key.text), Span(key.start, key.end), is_key=True, text=key.text)
            yield from _places(value, (*path, key.text))


def hover(
    document: Document,
    index: int,
    schema: str,
    house: Brewhouse,
    found: Installed,
    sheet: Callable[[], Sheet | None],
    brew: Callable[[], Brew | None],
) -> Hover | None:
    """What is told of the place under the cursor.

    Args:
        schema: ``recipe`` or ``brewhouse``.
        sheet, brew: of the recipe; asked only where they are needed.
    """
    place = place_at(document, index)
    if place is None:
        return None
    blocks: list[str] = []
    if place.is_key and not _is_name(place):
        blocks.append(_page(place.path, schema) or _field(place.path, schema))
    else:
        blocks += _named(place, house, found)
        blocks += _of_the_brew(place.path, brew) if schema == "recipe" else ()
        blocks += _figure(place.path, sheet) if schema == "recipe" else ()
        if not blocks:
            blocks.append(_field(place.path, schema))
    told = "\n\n".join(block for block in blocks if block)
    return Hover(told, place.span) if told else None


def _fence(text: str) -> str:
    """A text as it is, in Markdown; nothing that a recipe says is read as a mark."""
    return f"```text\n{text.replace('```', '` ` `')}\n```"


def _own(path: Path) -> Path:
    """A path as in a recipe of one beer, without indexes of sections that may be several."""
    if path[:1] == ("worts",) and len(path) > 2:
        path = path[2:]
    if path[:1] in (("yeast",), ("package",)) and len(path) > 1 and isinstance(path[1], int):
        path = (path[0], *path[2:])
    return path


def _is_name(place: Place) -> bool:
    """Whether a key is itself the name of something."""
    own = _own(place.path)
    return len(own) == 3 and own[1] in _MORE.get(str(own[0]), ()) if len(own) > 1 else False


def _page(path: Path, schema: str) -> str:
    """The page of a section; "" where the field is none."""
    if schema == "brewhouse":
        topic = {"brewhouse": "brewhouse", "ingredients": "names"}.get(str(path[0])) if len(path) == 1 else None
    else:
        own = _own(path)
        topic = str(own[0]) if len(own) == 1 and own[0] in format_pages.RECIPE else None
    return _fence(format_pages.topic(topic, _WIDTH) or "") if topic is not None else ""


def _field(path: Path, schema: str) -> str:
    """The words of a field."""
    root = load(schema)
    own = _own(path) if schema == "recipe" else path
    if not own or not at_path(root, path) or not isinstance(own[-1], str):
        return ""
    among = keys(at_path(root, path[:-1]))
    words = format_pages.field_in_words(root, path, tuple(among)) if own[-1] in among else ""
    return f"**{own[-1]}**: {harmless(words)}" if words else ""


def _named(place: Place, house: Brewhouse, found: Installed) -> Iterator[str]:
    """What is known of an ingredient, a style or a rule."""
    field = place.path[-1] if place.path else ""
    if field == "rule" and place.text in found.rules:
        rule = found.rules[place.text]
        yield _fence(pages.page(rule.info, rule, _WIDTH))
    if field == "lot" and (lot := house.lots.get(place.text)) is not None:
        yield _fence("\n".join((f"lot {harmless(place.text)} in {house.file}", *_stated(lot))))
    if not (field in _NAMES or _is_name(place) or _own(place.path)[-2:] == ("priming", "sugar")):
        return
    listed = tuple(one for kind in KINDS if kind != "units" for one in known(kind, house))
    whole = search(place.text, listed).whole
    if whole:
        yield _fence("\n".join(found_text(Search(whole[:1], (), ()), house.file, _WIDTH)))


def _stated(lot: Lot) -> Iterator[str]:
    """What a certificate states."""
    if lot.of:
        yield f"  of: {harmless(str(lot.of))}"
    for name in lot.__struct_fields__:
        value = getattr(lot, name)
        if getattr(value, "known", False) and getattr(value, "text", ""):
            yield f"  {name.replace('_', '-')}: {harmless(value.text)}"


def _of_the_brew(path: Path, brew: Callable[[], Brew | None]) -> Iterator[str]:
    """What a line of the grist, an addition of hops or a rest gives in this brew."""
    match path:
        case ("grist" | "grain-bill", int(index), str(field)) if field in ("weight", "share", *_NAMES):
            line = ("grist", index), ("grain-bill", index)
            yield from _maybe(brew, lambda one: next((s.told for s in shares(one) if s.path in line), ""))
        case ("hops", int(index), _):
            yield from _maybe(brew, lambda one: next((text for at, text in bitter(one) if at == ("hops", index)), ""))
        case ("mash", "rests", int(index), _):
            yield from _maybe(brew, lambda one: _rest(one, path[:3]))


def _maybe(brew: Callable[[], Brew | None], tell: Callable[[Brew], str]) -> Iterator[str]:
    """What is told of a brew, if it can be worked out."""
    one = brew()
    if one is None:
        return
    try:
        told = tell(one)
    except Unknown as unknown:
        told = f"not worked out; missing: {unknown.missing}"
    if told:
        yield _fence(harmless(told))


class Share(NamedTuple):
    """A line of the grist with its share of all extract, %; None where the extract cannot be had."""

    path: Path
    told: str
    extract: float | None


def shares(brew: Brew) -> list[Share]:
    """What share of the weight and of the extract each line of the grist has.

    Raises:
        Unknown: a line cannot be read.
    """
    parts = brew.grist()
    weight = sum(part.amount for part in parts)
    try:
        extract = {one.part.path: one.laboratory_kg.typical for one in deliveries(brew)}
    except Unknown:
        extract = {}
    total = sum(extract.values())
    found = []
    for part in parts:
        of_weight = f"{number(100 * part.amount / weight, 3)} % of the weight of the grist" if weight > 0 else ""
        share = 100 * extract[part.path] / total if part.path in extract and total > 0 else None
        of_extract = f"{number(share, 3)} % of its extract" if share is not None else ""
        found.append(Share(part.path, ", ".join(filter(None, (of_weight, of_extract))), share))
    return found


def bitter(brew: Brew) -> list[tuple[Path, str]]:
    """What each addition of hops gives.

    Raises:
        Unknown: one of them cannot be counted.
    """
    return [(one.path, f"{ibu(one.ibu)}, {one.when}") for one in hop_additions(brew)]


def ibu(value: Range) -> str:
    """A bitterness with its range."""
    return spread(value, lambda one: number(round(one, 1) + 0.0, 3), " IBU")


def _rest(brew: Brew, path: Path) -> str:
    """What a rest releases and converts."""
    for rest, result in zip(brew.rests(), follow(brew).typical.rests, strict=False):
        if rest.path == path:
            return (
                f"this rest releases {number(round(result.released, 1), 3)} % of the starch and converts"
                f" {number(round(result.converted, 1), 3)} %; {number(100 * result.enzyme_left, 2)} % of the"
                f" alpha- and {number(100 * result.beta_left, 2)} % of the beta-amylase are left"
            )
    return ""


def figure_of(sheet: Sheet, path: Path) -> FigureRow | None:
    """The figure that is told of a field; that of its wort, where it stands in one."""
    figure = _FIGURES.get(tuple(str(step) for step in _own(path)))
    if figure is None:
        return None
    rows = next((one.rows for one in sheet.worts if one.pointer == pointer(path[:2])), sheet.rows)
    return next((row for row in rows if row.id == figure), None)


def _figure(path: Path, sheet: Callable[[], Sheet | None]) -> Iterator[str]:
    """The figure of a field with its range, its working and what was assumed."""
    if tuple(str(step) for step in _own(path)) not in _FIGURES or (found := sheet()) is None:
        return
    row = figure_of(found, path)
    if row is None:
        return
    if row.missing:
        yield _fence(harmless(f"{row.title}: not worked out; missing: {row.missing}"))
        return
    yield f"**{row.title}**: {harmless(row.shown)}"
    assumed = [f"assumed: {one}" for one in row.assumed]
    yield _fence("\n".join(map(harmless, (*row.working.split("\n"), *assumed))))
