"""Walks a parsed mapping and reads its fields, keeping what could not be read."""

from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

from msgspec import Struct, field

from mashwright.budgets import FAULTS
from mashwright.finding import Level, Path
from mashwright.measures.quantity import Kind, QuantityError, read_quantity, said
from mashwright.reading.document import Document
from mashwright.reading.fields import OTHER_SPELLINGS, choices
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence, Span, Told
from mashwright.recipe.stated import Lines, Said, Stated, Text, Unreadable, UnreadableLines, UnreadableText, Unsaid
from mashwright.words.plurals import with_article

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

_T = TypeVar("_T")


FIELD_WORDS = {"at": "temperature", "to": "temperature", "of": "temperature", "for": "time", "dry": "time"}
"""What a message calls a field whose key is no noun."""


AS_NEEDED = frozenset(
    ("as needed", "as required", "as much as needed", "to volume", "to the batch", "to the mark", "to fill", "enough")
)
"""What stands in place of a volume of water that is left out on purpose; common practice."""


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
    """A quantity that could not be read, or was read with a doubt; ``instead`` are texts of which one may be meant."""

    path: Path
    span: Span
    level: Level
    message: str
    instead: tuple[str, ...] = ()


class Gathered(Struct):
    """What reading one document leaves behind, apart from its values."""

    problems: list[QuantityProblem] = field(default_factory=list)
    unread: set[Path] = field(default_factory=set)
    asked: list[Path] = field(default_factory=list)
    readings: list[tuple[Path, str]] = field(default_factory=list)
    units: set[str] = field(default_factory=set)
    imperial: bool = False
    scale: str = ""

    def quiet(self) -> "Gathered":
        """For what is read once more, so that nothing is told twice; a question in vain is noted all the same."""
        return Gathered(asked=self.asked, imperial=self.imperial, scale=self.scale)


def unsaid(problems: list[QuantityProblem], document: Document) -> tuple[QuantityProblem, ...]:
    """The problems that lie where reading did not meet one already."""
    read = Told(problem.span for problem in document.problems)
    return tuple(one for one in problems if not read.meets(one.span))


class Cursor(Struct, frozen=True):
    """One mapping of the document, or nothing where the recipe does not have it; made by ``cursor``.

    Attributes:
        fields: what stands under each key: the key as it is written, in either spelling, and the value.
    """

    node: Mapping | None
    path: Path
    gathered: Gathered
    unread: Unreadable | None
    fields: dict[str, tuple[str, Node]]

    @property
    def section(self) -> tuple[Path, bool, Unreadable | None]:
        """What every section begins with: its path, whether it is there, and what cannot be read in its place."""
        return self.path, self.node is not None, self.unread

    def find(self, key: str) -> tuple[str, Node] | None:
        """The value of a field in either spelling, with the key as it is written."""
        return self.fields.get(key)

    def has(self, key: str) -> bool:
        """Whether the field stands there at all."""
        return key in self.fields

    def _unreadable(self, path: Path) -> Unreadable:
        self.gathered.unread.add(path)
        return Unreadable(path, self.gathered.asked)

    def scalar(self, key: str) -> tuple[Path, Scalar] | Unsaid | Unreadable:
        """A field that holds one value; anything else there counts as unreadable."""
        if (found := self.fields.get(key)) is None:
            return self.unread if self.unread is not None else Unsaid((*self.path, key))
        name, value = found
        path = (*self.path, name)
        if isinstance(value, Scalar) and value.text != "":
            return path, value
        return self._unreadable(path)

    def text(self, key: str) -> Text:
        """A field's text, "" where it is missing."""
        if self.unread is None and key not in self.fields:
            return Text("", (*self.path, key))
        found = self.scalar(key)
        if isinstance(found, tuple):
            return Text(found[1].text, found[0])
        return Text("", found.path) if isinstance(found, Unsaid) else UnreadableText.at(found.path, found.asked)

    def choice(self, key: str, place: str) -> Text:
        """A field that takes one of a few words; another word there is told, and counts as if nothing stood there.

        So only that word is lost, and the sums go on with the widest meaning.

        Args:
            key: of the field.
            place: the list or section whose fields it is among, such as ``hops``.
        """
        text = self.text(key)
        if text and text not in choices(place, key):
            return Text("", text.path)
        return text

    def flag(self, key: str) -> bool | None:
        """True, false, or None where it is missing or neither."""
        found = self.scalar(key)
        return found[1].value if isinstance(found, tuple) and isinstance(found[1].value, bool) else None

    def as_needed(self, key: str) -> bool:
        """Whether a field says that as much goes in as is needed: left out on purpose, and not forgotten."""
        return key in self.fields and self.text(key).casefold().strip() in AS_NEEDED

    def water(self, key: str) -> Stated:
        """A volume of water; one that is left out on purpose counts as not stated."""
        return Unsaid((*self.path, key)) if self.as_needed(key) else self.quantity(key, Kind.VOLUME)

    def quantity(self, key: str, kind: Kind, substance: str = "") -> Stated:
        """A field's quantity; the substance says what a spoon of it weighs."""
        if self.unread is None and key not in self.fields:  # as most, so that no other function is asked
            return Unsaid((*self.path, key))
        found = self.scalar(key)
        if not isinstance(found, tuple):
            return found
        path, scalar = found
        what = FIELD_WORDS.get(key, str(path[-1]).replace("-", " "))
        quantity = self.read(path, scalar, kind, what, substance)
        return self._possible(key, what, scalar, quantity) if isinstance(quantity, Said) else quantity

    def _possible(self, key: str, what: str, scalar: Scalar, quantity: Said) -> Stated:
        """The quantity; a share of more than there can be of it is a problem, and no basis for a sum."""
        most = MOST_PERCENT.get(key)
        if most is None or quantity.range.typical <= most:
            return quantity
        bound = said(most, quantity.unit, quantity.kind)
        return self.refused(
            quantity.path, scalar, f"{with_article(what)} of {quantity.text} is not possible; at most {bound} is"
        )

    def refused(self, path: Path, scalar: Scalar, message: str, instead: tuple[str, ...] = ()) -> Unreadable:
        """What stands at a path and is no basis for a sum, told as an error."""
        where = Span(scalar.start, scalar.end)
        self.gathered.problems.append(QuantityProblem(path, where, Level.ERROR, message, instead))
        return self._unreadable(path)

    def read(self, path: Path, scalar: Scalar, kind: Kind, what: str, substance: str = "") -> Stated:
        """One scalar as a quantity of a kind; after very many problems nothing more is tried."""
        if len(self.gathered.problems) >= FAULTS:
            return self._unreadable(path)
        try:
            quantity = read_quantity(
                scalar.text,
                kind,
                what=what,
                imperial=self.gathered.imperial,
                malt=substance == "malt",
                sugar=substance == "sugar",
                substance=substance,
                scale=self.gathered.scale,
                # without the line's number, so that a text is judged once; what a wort has of its own is read alike
                place=(path[2] if path[0] == "worts" and len(path) > 2 else path[0], path[-1]),
            )
        except QuantityError as error:
            return self.refused(path, scalar, error.message, error.choices)
        self.gathered.units.add(quantity.unit)
        if quantity.note:
            self.gathered.problems.append(
                QuantityProblem(path, Span(scalar.start, scalar.end), Level.NOTE, quantity.note)
            )
        if quantity.reading:
            self.gathered.readings.append((path, quantity.reading))
        elif quantity.unit == "gal" and path[0] == "batch":  # told once, of the size by which all the others go
            litres = said(quantity.range.typical, "l", Kind.VOLUME)
            self.gathered.readings.append((path, f'"{quantity.text}" is read as US gallons: {litres}'))
        return Said(quantity.kind, quantity.range, quantity.unit, quantity.text, quantity.reading, quantity.note, path)

    def inside(self, key: str) -> "Cursor":
        """The mapping that a field holds; one of nothing where the field is missing or holds something else."""
        if (found := self.find(key)) is None:
            return cursor(None, (*self.path, key), self.gathered, self.unread)
        name, value = found
        path = (*self.path, name)
        if isinstance(value, Mapping):
            return cursor(value, path, self.gathered)
        return cursor(None, path, self.gathered, self._unreadable(path))

    def item(self, key: str, index: int) -> "Cursor":
        """The mapping that stands in a list; one of nothing where something else does."""
        found = self.find(key)
        if found is None or not isinstance(found[1], Sequence) or len(found[1].items) <= index:
            return self.inside(key)
        path, item = (*self.path, found[0], index), found[1].items[index]
        if isinstance(item, Mapping):
            return cursor(item, path, self.gathered)
        return cursor(None, path, self.gathered, self._unreadable(path))

    def items(self, key: str, build: "Callable[[Cursor], _T]", begin: int = 0) -> Lines[_T]:
        """What is built of the mappings of a list, from one of them on."""
        if (found := self.find(key)) is None:
            return self._lines((*self.path, key), (), () if self.unread is None else (self.unread,))
        name, value = found
        path = (*self.path, name)
        if not isinstance(value, Sequence):
            return self._lines(path, (), (self._unreadable(path),))
        built, unread = [], []
        for index, item in enumerate(value.items[begin:], begin):
            if isinstance(item, Mapping):
                built.append(build(cursor(item, (*path, index), self.gathered)))
            else:
                unread.append(self._unreadable((*path, index)))
        return self._lines(path, tuple(built), tuple(unread))

    def too_many(self, key: str) -> Lines[Any]:
        """A list of more than can be judged: nothing of it, as if it could not be read."""
        path = (*self.path, key)
        return self._lines(path, (), (self._unreadable(path),))

    def lines(self, entries: "Iterable[_T]") -> Lines[_T]:
        """What is built of the fields of a mapping whose keys are names."""
        return self._lines(self.path, tuple(entries), () if self.unread is None else (self.unread,))

    def _lines(self, path: Path, entries: tuple[_T, ...], unread: tuple[Unreadable, ...]) -> Lines[_T]:
        if not unread:
            return Lines.at(path, entries)
        return UnreadableLines.lacking(path, entries, unread[0])


def cursor(node: Mapping | None, path: Path, gathered: Gathered, unread: Unreadable | None = None) -> Cursor:
    """One mapping of the document, or nothing.

    Args:
        node: None where the recipe does not have it.
        path: its place.
        gathered: what reading leaves behind.
        unread: what stands in its place and cannot be read.
    """
    if node is None:
        return Cursor(None, path, gathered, unread, {})
    fields = {name.text: (name.text, value) for name, value in node.entries}
    if not fields.keys().isdisjoint(_OTHERS):
        for other, key in _OTHERS.items():
            if other in fields and key not in fields:
                fields[key] = fields[other]
    return Cursor(node, path, gathered, unread, fields)


_OTHERS = {other: key for key, other in OTHER_SPELLINGS.items()}
