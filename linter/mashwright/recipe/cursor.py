"""Walks a parsed mapping and reads its fields, keeping what could not be read."""

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from mashwright.budgets import FAULTS
from mashwright.finding import Level, Path
from mashwright.reading.document import Document
from mashwright.reading.fields import OTHER_SPELLINGS
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence, Span, Told
from mashwright.reading.quantity import Kind, Quantity, QuantityError, read_quantity, said

if TYPE_CHECKING:
    from collections.abc import Iterator


FIELD_WORDS = {"at": "temperature", "to": "temperature", "of": "temperature", "for": "time", "dry": "time"}
"""What a message calls a field whose key is no noun."""


MOST_PERCENT = {
    "share": 100.0,
    "moisture": 100.0,
    "fermentable": 100.0,
    "extract": 105.0,
    "extract-fine-dry": 105.0,
    "extract-coarse-dry": 105.0,
    "extract-fine-as-is": 105.0,
    "extract-coarse-as-is": 105.0,
    "attenuation": 125.0,
    "tolerance": 30.0,
    "viability": 100.0,
    "dilution": 100.0,
    "alpha": 100.0,
}
"""More cannot be, by definition; pure sugar shows an apparent attenuation of 122 %, and no yeast makes 30 % alcohol."""


class QuantityProblem(NamedTuple):
    """A quantity that could not be read, or was read with a doubt."""

    path: Path
    span: Span
    level: Level
    message: str


@dataclass(slots=True)
class Gathered:
    """What reading one document leaves behind, apart from its values."""

    problems: list[QuantityProblem] = field(default_factory=list)
    unreadable: set[Path] = field(default_factory=set)
    readings: list[tuple[Path, str]] = field(default_factory=list)
    units: set[str] = field(default_factory=set)
    imperial: bool = False


def unsaid(problems: list[QuantityProblem], document: Document) -> tuple[QuantityProblem, ...]:
    """The problems that lie where reading did not meet one already."""
    read = Told(problem.span for problem in document.problems)
    return tuple(one for one in problems if not read.meets(one.span))


@dataclass(frozen=True)
class Cursor:
    """One mapping of the document, or nothing where the recipe does not have it."""

    node: Mapping | None
    path: Path
    gathered: Gathered

    @cached_property
    def _fields(self) -> dict[str, Node]:
        return {name.text: value for name, value in self.node.entries} if self.node is not None else {}

    def find(self, key: str) -> tuple[str, Node] | None:
        """The value of a field in either spelling, with the key as it is written."""
        if (value := self._fields.get(key)) is not None:
            return key, value
        other = OTHER_SPELLINGS.get(key)
        if other is not None and (value := self._fields.get(other)) is not None:
            return other, value
        return None

    def has(self, key: str) -> bool:
        """Whether the field stands there at all."""
        return self.find(key) is not None

    def scalar(self, key: str) -> tuple[Path, Scalar] | None:
        """A field that holds one value; anything else there counts as unreadable."""
        if (found := self.find(key)) is None:
            return None
        name, value = found
        path = (*self.path, name)
        if isinstance(value, Scalar) and value.text != "":
            return path, value
        self.gathered.unreadable.add(path)
        return None

    def text(self, key: str) -> str:
        """A field's text, "" where it is missing."""
        return found[1].text if (found := self.scalar(key)) is not None else ""

    def flag(self, key: str) -> bool | None:
        """True, false, or None where it is missing or neither."""
        if (found := self.scalar(key)) is None:
            return None
        return found[1].value if isinstance(found[1].value, bool) else None

    def quantity(self, key: str, kind: Kind, substance: str = "") -> Quantity | None:
        """A field's quantity, None where it is missing or unreadable; the substance says what a spoon of it weighs."""
        if (found := self.scalar(key)) is None:
            return None
        path, scalar = found
        what = FIELD_WORDS.get(key, str(path[-1]).replace("-", " "))
        quantity = self.read(path, scalar, kind, what, substance)
        return None if quantity is None or self._cannot_be(key, what, path, scalar, quantity) else quantity

    def _cannot_be(self, key: str, what: str, path: Path, scalar: Scalar, quantity: Quantity) -> bool:
        """Whether a share is more than there can be of it; that is a problem, and no basis for a sum."""
        most = MOST_PERCENT.get(key)
        if most is None or quantity.range.typical <= most:
            return False
        article = "an" if what[0] in "aeiou" else "a"
        bound = said(most, quantity.unit, quantity.kind)
        message = f"{article} {what} of {quantity.text} cannot be, {bound} at the most"
        self.gathered.unreadable.add(path)
        self.gathered.problems.append(QuantityProblem(path, Span(scalar.start, scalar.end), Level.ERROR, message))
        return True

    def read(self, path: Path, scalar: Scalar, kind: Kind, what: str, substance: str = "") -> Quantity | None:
        """One scalar as a quantity of a kind; after very many problems nothing more is tried."""
        if len(self.gathered.problems) >= FAULTS:
            self.gathered.unreadable.add(path)
            return None
        try:
            quantity = read_quantity(
                scalar.text,
                kind,
                what=what,
                imperial=self.gathered.imperial,
                malt=substance == "malt",
                sugar=substance == "sugar",
                substance=substance,
                place=(path[0], path[-1]),  # without the line's number, so that a text is judged once
            )
        except QuantityError as error:
            self.gathered.unreadable.add(path)
            self.gathered.problems.append(
                QuantityProblem(path, Span(scalar.start, scalar.end), Level.ERROR, error.message)
            )
            return None
        self.gathered.units.add(quantity.unit)
        if quantity.note:
            self.gathered.problems.append(
                QuantityProblem(path, Span(scalar.start, scalar.end), Level.NOTE, quantity.note)
            )
        if quantity.reading:
            self.gathered.readings.append((path, quantity.reading))
        elif quantity.unit == "gal" and path[0] == "batch":  # told once, of the size by which all the others go
            litres = said(quantity.range.typical, "l", Kind.VOLUME)
            self.gathered.readings.append((path, f'"{quantity.text}" is taken as US gallons: {litres}'))
        return quantity

    def inside(self, key: str) -> "Cursor | None":
        """The mapping that a field holds."""
        if (found := self.find(key)) is None:
            return None
        name, value = found
        path = (*self.path, name)
        if isinstance(value, Mapping):
            return Cursor(value, path, self.gathered)
        self.gathered.unreadable.add(path)
        return None

    def items(self, key: str) -> "Iterator[Cursor]":
        """The mappings of a list."""
        if (found := self.find(key)) is None:
            return
        name, value = found
        path = (*self.path, name)
        if not isinstance(value, Sequence):
            self.gathered.unreadable.add(path)
            return
        for index, item in enumerate(value.items):
            if isinstance(item, Mapping):
                yield Cursor(item, (*path, index), self.gathered)
            else:
                self.gathered.unreadable.add((*path, index))
