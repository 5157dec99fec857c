"""The nearest brewhouse.yaml above a recipe, up to the root of the repository; each is read once."""

import os
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import islice
from typing import NamedTuple

from msgspec import structs

from mashwright.budgets import FAULTS
from mashwright.crash import missing_part, of_file
from mashwright.finding import Level, Path
from mashwright.reading.document import Document, read_document
from mashwright.reading.nodes import Span
from mashwright.reading.schema import check_fields, known_keys
from mashwright.reading.syntax import short
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.build_brewhouse import build_brewhouse
from mashwright.reviewing.capping import capped
from mashwright.reviewing.files import Loaded, house_in, load
from mashwright.reviewing.plugins import Installed
from mashwright.reviewing.repository import is_top
from mashwright.reviewing.results import Fault, Result, Reviewed, pointer, shown_path
from mashwright.reviewing.settings import House, house_of
from mashwright.reviewing.trusted import Trusted

NO_BREWHOUSE = (
    "this is not a brewhouse; write fields such as brewhouse: Saltmarsh Lane, 30-litre kit and efficiency: 72 %"
)
"""Of a text that has nothing of one; it may be any file of the machine, so nothing of it is told."""


class HouseFile(NamedTuple):
    """A brewhouse as read from a file.

    Attributes:
        folder: where it lies, or would lie beside the recipes under review; its globs count from there.
        reviewed: its own findings; None where the program could not take it.
        faults: the program's own, on it.
    """

    house: House
    path: str
    folder: str
    reviewed: Reviewed | None
    faults: tuple[Fault, ...] = ()


@dataclass
class Houses:
    """Finds brewhouses and keeps those that it has read.

    Attributes:
        trusted: the copy whose brewhouses count for recipes under review; None where theirs do.
    """

    found: Installed
    trusted: Trusted | None = None
    _files: dict[str, HouseFile] = field(default_factory=dict)
    _nearest: dict[str, HouseFile | None] = field(default_factory=dict)
    _plain: House | None = None

    def plain(self) -> House:
        """A brewhouse that says nothing."""
        if self._plain is None:
            self._plain = house_of(Brewhouse(), self.found)
        return self._plain

    def nearest(self, recipe_path: str) -> HouseFile | None:
        """The brewhouse for a recipe, or None."""
        folder = os.path.dirname(os.path.abspath(recipe_path))
        return self._of(self.trusted.twin(folder) if self.trusted is not None else folder)

    def _of(self, folder: str) -> HouseFile | None:
        below: list[str] = []
        while folder not in self._nearest:  # a loop, since folders may lie deeper than functions can call each other
            below.append(folder)
            here = house_in(folder)
            if here is not None:
                self._nearest[folder] = self.read(here)
            elif self._ends_at(folder) or os.path.dirname(folder) == folder:
                self._nearest[folder] = None
            else:
                folder = os.path.dirname(folder)
        known = self._nearest[folder]
        self._nearest.update(dict.fromkeys(below, known))
        return known

    def _ends_at(self, folder: str) -> bool:
        """Whether nothing above a folder is looked at: it is the top of a repository, under review or trusted."""
        if self.trusted is None:
            return is_top(folder)
        return folder == self.trusted.folder or is_top(folder) or is_top(self.trusted.back(folder))

    def read(self, path: str) -> HouseFile:
        """A brewhouse file with what is wrong in it."""
        key = os.path.abspath(path)
        if key not in self._files:
            loaded, shown, folder = load(path), shown_path(path), os.path.dirname(key)
            if self.trusted is not None and self.trusted.holds(key):
                twin = self.trusted.back(key)
                folder = os.path.dirname(twin)
                if load(twin).text == loaded.text:
                    shown = shown_path(twin)  # there it can be looked at beside the recipes
            self._files[key] = self._read(loaded, shown, folder)
        return self._files[key]

    def _read(self, loaded: Loaded, shown: str, folder: str) -> HouseFile:
        try:
            house, reviewed = self.reviewed(loaded, shown)
        except Exception as error:  # what the program itself cannot take is told, and its recipes are reviewed without
            if missing_part(error) is not None:
                raise
            return HouseFile(self.plain(), shown, folder, None, (Fault("", shown, of_file(error, "brewhouse")),))
        return HouseFile(house, shown, folder, reviewed)

    def reviewed(self, loaded: Loaded, shown: str) -> tuple[House, Reviewed]:
        """A brewhouse's text, judged."""
        if loaded.problem is not None:
            place = Document(loaded.text, None).place(loaded.problem.span)
            result = Result("unreadable", Level.ERROR, "", place, loaded.problem.message, identity="unreadable ")
            return self.plain(), Reviewed(shown, "", (result,))
        document = read_document(loaded.text, "brewhouse")
        brewhouse, quantities = build_brewhouse(document)
        house = house_of(structs.replace(brewhouse, file=shown), self.found)
        results = [_result(document, "unreadable", "", problem.span, problem.message) for problem in document.problems]
        if document.root is not None:
            fields = check_fields(document, "brewhouse")
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
                _result(document, "field", pointer(path), document.span_of(path), message, Level.WARNING)
                for path, message in islice(_unknown_lots(brewhouse), FAULTS)
                if path not in taken
            ]
        results.sort(key=lambda one: (one.place, one.rule))
        if results and not _is_meant(loaded.text, results):
            results = [_result(document, "field", "", Span(0, 0), NO_BREWHOUSE)]
        return house, Reviewed(shown, brewhouse.name, capped(results))


def _unknown_lots(brewhouse: Brewhouse) -> Iterator[tuple[Path, str]]:
    """Lots of a malt that nothing knows; a hop needs no table where the lot gives its alpha acid."""
    unknown = 0
    for lot in brewhouse.lots.values():
        if not lot.of or lot.alpha.known or lot.of in brewhouse.ingredients:
            continue
        from mashwright.ingredients.lookup import fermentable, hop, most_guessed, nearest
        from mashwright.words.nearest import close

        if fermentable(lot.of) is not None or hop(lot.of) is not None:
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
