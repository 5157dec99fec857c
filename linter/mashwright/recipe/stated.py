"""What a recipe states: each value is Said, Unsaid or Unreadable, and knows the place where it stands or would stand.

Nothing is assumed in place of what somebody did write, and nobody has to remember to look: an unreadable value is not
known, ends what needs it as Open, and notes that it was asked for.
"""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any, ClassVar, Literal, NoReturn, Self, SupportsIndex, TypeAlias, TypeVar, overload

from msgspec import Struct

from mashwright.finding import Path
from mashwright.measures.quantity import Quantity

_T = TypeVar("_T")


class Unknown(Exception):  # noqa: N818  (a figure that cannot be computed is an answer, not an error)
    """Something that a figure needs is not there.

    Attributes:
        missing: what, as a brewer would say it.
        path: where it should stand.
    """

    def __init__(self, missing: str, path: Path = ()) -> None:
        super().__init__(missing)
        self.missing = missing
        self.path = path

    def again(self) -> "Unknown":
        """The same, fit to be kept or raised once more: one that was raised holds on to all that was under way."""
        return type(self)(self.missing, self.path)


class Open(Unknown):
    """Something stands there that cannot be read or meant, so that nothing can be judged by it: no silence, but open.

    Where a recipe simply does not say a thing, the figure is Unknown, and what hangs on it has nothing to ask.
    """


class Said(Quantity, frozen=True, gc=False):
    """A quantity that the recipe states, and its place."""

    path: Path = ()
    known: ClassVar[Literal[True]] = True
    mentioned: ClassVar[Literal[True]] = True

    def __bool__(self) -> Literal[True]:
        return True

    def need(self, what: str) -> "Said":  # noqa: ARG002  (the other two say what is missing)
        """The quantity itself."""
        return self

    def readable(self, what: str) -> "Said":  # noqa: ARG002  (as above)
        """The value itself: nothing is wrong with it."""
        return self

    def unit_or(self, usual: str) -> str:  # noqa: ARG002  (as above)
        """The unit in which it is stated."""
        return self.unit


class Unsaid(Struct, frozen=True, gc=False):
    """A quantity that the recipe does not state, and where it would stand."""

    path: Path = ()
    known: ClassVar[Literal[False]] = False
    mentioned: ClassVar[Literal[False]] = False

    def __bool__(self) -> Literal[False]:
        return False

    def need(self, what: str) -> NoReturn:
        """End what cannot go on without it.

        Args:
            what: what is missing, as a brewer would say it.

        Raises:
            Unknown: always.
        """
        raise Unknown(what, self.path)

    def readable(self, what: str) -> "Unsaid":  # noqa: ARG002  (an unreadable one says it)
        """The value itself: nothing is wrong with it."""
        return self

    def unit_or(self, usual: str) -> str:
        """The usual unit."""
        return usual


class Unreadable(Struct, frozen=True):
    """Something stands here that cannot be read; each question after it is noted.

    Attributes:
        asked: the places of the recipe that somebody asked for in vain.
    """

    path: Path
    asked: list[Path]
    mentioned: ClassVar[Literal[True]] = True

    @property
    def known(self) -> Literal[False]:
        """It is not, and whoever asks has not looked."""
        self.asked.append(self.path)
        return False

    def __bool__(self) -> Literal[False]:
        return self.known

    def need(self, what: str) -> NoReturn:
        """End what cannot go on without it; otherwise as ``Unsaid.need``.

        Raises:
            Open: always.
        """
        self.asked.append(self.path)  # whoever catches it has not looked either
        raise Open(what, self.path)

    def readable(self, what: str) -> NoReturn:
        """End what cannot tell whether it may go on.

        Raises:
            Open: always.
        """
        self.need(what)

    def unit_or(self, usual: str) -> str:
        """The usual unit; nothing hangs on a number here, so that this is no question."""
        return usual


Stated: TypeAlias = Said | Unsaid | Unreadable
"""A quantity as a recipe states it, or not; ``.known`` tells, and so does its truth, for ``this or that``."""

NOWHERE = Unsaid()
"""What nobody stated at no place: of a thing made by hand."""


class Text(str):
    """A text as the recipe states it, "" where it does not, and its place."""

    __slots__ = ("path",)
    path: Path

    def __new__(cls, text: str = "", path: Path = ()) -> Self:
        made = str.__new__(cls, text)
        made.path = path
        return made

    if TYPE_CHECKING:

        def __eq__(self, other: object) -> bool:
            """As of any text; said so that a checker lets it be compared with the words of the tables."""

        def __hash__(self) -> int:
            """As of any text."""

    def __reduce__(self) -> tuple[type[str], tuple[str]]:
        """Sent to another process it is a text like others."""
        return str, (str(self),)


class UnreadableText(Text):
    """Something stands here that is no text: read as "", and each question after it is noted."""

    __slots__ = ("asked",)
    asked: list[Path]

    @classmethod
    def at(cls, path: Path, asked: list[Path]) -> "UnreadableText":
        """What cannot be read at a place."""
        made = cls("", path)
        made.asked = asked
        return made

    def __bool__(self) -> bool:
        self.asked.append(self.path)
        return False

    def __eq__(self, other: object) -> bool:
        self.asked.append(self.path)
        return other == ""

    def __hash__(self) -> int:
        self.asked.append(self.path)
        return hash("")

    def __format__(self, spec: str) -> str:
        self.asked.append(self.path)
        return format("", spec)

    def __contains__(self, part: object) -> bool:
        self.asked.append(self.path)
        return part == ""

    def casefold(self) -> str:
        """As of a text that says nothing."""
        self.asked.append(self.path)
        return ""

    lower = casefold


NO_TEXT = Text()


class Lines(tuple[_T, ...]):  # noqa: SLOT001  (a tuple can have none that hold something)
    """The entries of a list of the recipe, and its place; none where it has no such list."""

    path: Path = ()

    @classmethod
    def at(cls, path: Path, entries: Iterator[_T] | tuple[_T, ...] = ()) -> Self:
        """The entries of the list at a place."""
        made = cls(entries)
        made.path = path
        return made

    def and_those(self, others: "Lines[_T]") -> "Lines[_T]":
        """The entries of two lists at the place of the first; unreadable where either is."""
        entries = (*tuple.__iter__(self), *tuple.__iter__(others))
        lacking = next((one for one in (self, others) if isinstance(one, UnreadableLines)), None)
        if lacking is None:
            return Lines.at(self.path, entries)
        return UnreadableLines.lacking(self.path, entries, Unreadable(lacking.unread, lacking.asked))

    def readable(self, what: str) -> Self:
        """The list itself, where all in it can be read; one whose section cannot is not there.

        Raises:
            Open: something in it cannot.
        """
        place = _unreadable_within(self)
        if place is not None and place[: len(self.path)] == self.path:
            raise Open(what, place)
        return self


class UnreadableLines(Lines[_T]):
    """A list of which something cannot be read; each question after it is noted.

    Attributes:
        unread: the place of what cannot be read.
    """

    asked: list[Path]
    unread: Path

    @classmethod
    def lacking(cls, path: Path, entries: tuple[_T, ...], unread: Unreadable) -> Self:
        """The entries that can be read, of a list in which something cannot."""
        made = cls.at(path, entries)
        made.asked, made.unread = unread.asked, unread.path
        return made

    def __iter__(self) -> Iterator[_T]:
        self.asked.append(self.unread)
        return super().__iter__()

    def __len__(self) -> int:
        self.asked.append(self.unread)
        return super().__len__()

    @overload
    def __getitem__(self, index: SupportsIndex, /) -> _T: ...
    @overload
    def __getitem__(self, index: slice, /) -> tuple[_T, ...]: ...
    def __getitem__(self, index: Any, /) -> Any:
        self.asked.append(self.unread)
        return super().__getitem__(index)


_SOUND = frozenset((Said, Unsaid, Text, Lines, str, bool, float, int, tuple, type(None)))
"""What is not itself unreadable, of all that a recipe consists of: most of it, so that this is looked at first."""


def unreadable_place(thing: object) -> Path | None:
    """Where a value, a list or a section is itself unreadable, without asking it; None where it is not."""
    if type(thing) in _SOUND:
        return None
    if isinstance(thing, Section):
        thing = thing.unread
    if isinstance(thing, UnreadableLines):
        return thing.unread
    return thing.path if isinstance(thing, Unreadable | UnreadableText) else None


def _unreadable_within(thing: object) -> Path | None:
    """The first place in a thing, itself or below it, that is unreadable."""
    place = unreadable_place(thing)
    if place is not None:
        return place
    inner: Iterable[object] = ()
    if isinstance(thing, Lines):
        inner = thing
    elif isinstance(thing, Struct) and not isinstance(thing, Said | Unsaid):
        inner = [getattr(thing, name) for name in thing.__struct_fields__]
    for one in inner:
        if (type(one) not in _SOUND or type(one) is Lines) and (place := _unreadable_within(one)) is not None:
            return place
    return None


class Section(Struct, frozen=True):
    """A part of the recipe that holds fields of its own; always there, for whom it asks what stands in it.

    Attributes:
        path: where it stands, or would.
        there: whether the recipe has it.
        unread: what stands in its place and cannot be read, if anything does.
    """

    path: Path
    there: bool = True
    unread: Unreadable | None = None

    @property
    def known(self) -> bool:
        """Whether the recipe has it, in a form that can be read."""
        return self.there if self.unread is None else self.unread.known

    @property
    def mentioned(self) -> bool:
        """Whether something stands in its place, readable or not."""
        return self.there or self.unread is not None

    def readable(self, what: str) -> Self:
        """The section itself, where all in it can be read.

        Raises:
            Open: something in it cannot.
        """
        if (place := _unreadable_within(self)) is not None:
            raise Open(what, place)
        return self
