"""A brewhouse's text: read, and what is wrong in it told; with the rules as it wants them."""

from collections.abc import Iterator
from itertools import islice
from typing import NamedTuple

from msgspec.structs import replace

from mashwright.budgets import FAULTS
from mashwright.finding import Level, Path
from mashwright.reading.document import Document, read_document
from mashwright.reading.nodes import Span
from mashwright.reading.schema import known_keys, understood
from mashwright.reading.syntax import short
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.build_brewhouse import build_brewhouse
from mashwright.reviewing.capping import capped
from mashwright.reviewing.files import Loaded
from mashwright.reviewing.plugins import Installed
from mashwright.reviewing.results import Result, Reviewed, pointer
from mashwright.reviewing.settings import House, house_of

NO_BREWHOUSE = (
    "this is not a brewhouse; write fields such as brewhouse: Saltmarsh Lane, 30-litre kit and efficiency: 72 %"
)
"""Of a text that has nothing of one; it may be any file of the machine, so nothing of it is told."""


class HouseRead(NamedTuple):
    """A brewhouse as it was read; nobody reads it again.

    Attributes:
        reviewed: its own findings.
    """

    house: House
    reviewed: Reviewed
    document: Document


def read_house(text: str | Loaded, shown: str, found: Installed) -> HouseRead:
    """Read a brewhouse. Never raises: what is wrong with it is among its findings.

    Args:
        text: of a brewhouse, or what loading a file gave.
        shown: its path, as reports are to show it.
        found: the rules for which it may have settings.
    """
    loaded = text if isinstance(text, Loaded) else Loaded(text, None)
    if loaded.problem is not None:
        document = Document(loaded.text, None)
        place = document.place(loaded.problem.span)
        result = Result("unreadable", Level.ERROR, "", place, loaded.problem.message, identity="unreadable ")
        return HouseRead(house_of(Brewhouse(), found), Reviewed(shown, "", (result,)), document)
    document, fields = understood(read_document(loaded.text, "brewhouse"), "brewhouse")
    brewhouse, quantities = build_brewhouse(document)
    house = house_of(replace(brewhouse, file=shown), found)
    results = [_result(document, "unreadable", "", problem.span, problem.message) for problem in document.problems]
    if document.root is not None:
        results += [_result(document, "field", pointer(one.path), one.span, one.message) for one in fields]
        taken = {one.path for one in fields}
        results += [
            _result(document, "quantity", pointer(one.path), one.span, one.message)
            for one in quantities
            if one.level is Level.ERROR and one.path not in taken
        ]
        results += [
            _result(document, one.rule, pointer(one.path), document.span_of(one.path), one.message)
            for one in house.problems
            if one.path not in taken
        ]
        results += [
            _result(document, "field", pointer(path), document.span_of(path), message)
            for path, message in islice(_own_ingredients(house), FAULTS)
            if path not in taken
        ]
        results += [
            _result(document, "field", pointer(path), document.span_of(path), message, Level.WARNING)
            for path, message in islice(_unknown_lots(brewhouse), FAULTS)
            if path not in taken
        ]
    results.sort(key=lambda one: (one.place, one.rule))
    if results and not _is_meant(loaded.text, results):
        results = [_result(document, "field", "", Span(0, 0), NO_BREWHOUSE)]
    return HouseRead(house, Reviewed(shown, brewhouse.name, capped(results)), document)


def _own_ingredients(house: House) -> Iterator[tuple[Path, str]]:
    """What is wrong with ingredients of its own, where it has any."""
    if house.brewhouse.ingredients:
        from mashwright.reviewing.own_ingredients import faults

        yield from faults(house.brewhouse, house.bounds)


def _unknown_lots(brewhouse: Brewhouse) -> Iterator[tuple[Path, str]]:
    """Lots of a malt that nothing knows; a hop needs no table where the lot gives its alpha acid."""
    unknown = 0
    for lot in brewhouse.lots.values():
        if not lot.of or lot.alpha.known:
            continue
        from mashwright.brew.own import own
        from mashwright.ingredients.kinds import Sort
        from mashwright.ingredients.lookup import fermentable, hop, most_guessed, nearest
        from mashwright.words.nearest import close

        if fermentable(lot.of) is not None or hop(lot.of) is not None:
            continue
        if own(brewhouse, Sort.GRIST, lot.of) or own(brewhouse, Sort.HOP, lot.of):
            continue
        unknown += 1
        guess = unknown <= most_guessed(len(brewhouse.ingredients))
        names = (*brewhouse.ingredients, *nearest(lot.of, "fermentables")) if guess else ()
        alike = close(lot.of, names, 0.7)
        near = [name for likeness, name in alike if likeness >= 0.9 or alike[0][0] < 0.9][:2]
        meant = f"did you mean {' or '.join(near)}?" if near else "describe it once under `ingredients`"
        yield (*lot.path, "of"), f"nothing is known of {short(lot.of)}; {meant}"


def _is_meant(text: str, results: list[Result]) -> bool:
    """Whether a text has at least one field of a brewhouse, or something near it, or nothing at all."""
    lines = [line.strip(" \t{\"'") for line in text.splitlines()]
    fields = known_keys("brewhouse", ())
    return (
        any(line.partition(":")[0].rstrip(" \t\"'").lower() in fields for line in lines)
        or any("did you mean" in one.message for one in results)
        or all(not line or line.startswith("#") for line in lines)
    )


def _result(document: Document, rule: str, where: str, span: Span, message: str, level: Level = Level.ERROR) -> Result:
    return Result(rule, level, where, document.place(span), message, identity=f"{rule} {where}")
