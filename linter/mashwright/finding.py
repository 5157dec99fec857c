"""The lowest room: what every other room speaks in. Imports nothing of ours."""

from collections.abc import Iterator, Mapping
from enum import IntEnum
from typing import Any

from msgspec import Struct

Path = tuple[str | int, ...]
"""A place in a recipe: keys and list indexes from the root, as in a JSON Pointer."""


class Level(IntEnum):
    """How bad a finding is; the three words are those of SARIF 2.1.0."""

    NOTE = 1
    WARNING = 2
    ERROR = 3

    @property
    def word(self) -> str:
        """``note``, ``warning`` or ``error``."""
        return self.name.lower()


class Edit(Struct, frozen=True, gc=False):
    """One change of a recipe's text.

    Attributes:
        path: the scalar to replace; or a key that its mapping lacks yet, to add; or a list and ``"-"``, to append an
            item (the last as in JSON Patch, RFC 6902).
        text: the new value as YAML flow text, on one line.
    """

    path: Path
    text: str


class Evidence(Struct, frozen=True, gc=False):
    """One row of the sum behind a finding."""

    label: str
    value: float | str
    unit: str = ""
    path: Path | None = None


class Remedy(Struct, frozen=True, gc=False):
    """A change that was tried and mends the finding."""

    text: str
    edits: tuple[Edit, ...]


class Say(Struct, frozen=True):
    """One sentence of a rule with its values, and what follows it behind a semicolon.

    Attributes:
        id: of the sentence, among the rule's ``SAYS``.
        values: by the names that stand in it.
        then: a further part, or None.
    """

    id: str
    values: Mapping[str, Any]
    then: "Say | None" = None

    def and_then(self, *parts: "Say | None") -> "Say":
        """The sentence with further parts behind it; None is no part."""
        said = [part for part in parts if part is not None]
        if not said:
            return self
        if self.then is not None:
            return Say(self.id, self.values, self.then.and_then(*said))
        return Say(self.id, self.values, said[0].and_then(*said[1:]))

    def __iter__(self) -> "Iterator[Say]":
        """The sentence and all that follows it."""
        part: Say | None = self
        while part is not None:
            yield part
            part = part.then


def say(sentence: str, /, **values: object) -> Say:
    """One sentence of a rule's ``SAYS`` with its values.

    Args:
        sentence: its id.
        values: texts, numbers, and quantities as the recipe states them; each name stands in the sentence.
    """
    return Say(sentence, values)


class Finding(Struct, frozen=True):
    """What a rule has to say about one place.

    Attributes:
        path: where; the reader turns it into line and column.
        level: how bad.
        message: what it says: one of the rule's ``SAYS`` with its values, or one plain sentence without any; lower
            case, no full stop. The runner makes the text of it.
        gap: how far past the limit, as a share of the limit.
        evidence: the sum behind it.
        related: other places that have to do with it.
        knobs: what a brewer can turn to mend it; tried by the reviewing room, which fills ``remedies``.
        rule: filled by the runner.
        said: its sentences with their values, filled likewise; none of a plain sentence.
    """

    path: Path
    level: Level
    message: Say | str
    gap: float = 0.0
    evidence: tuple[Evidence, ...] = ()
    related: tuple[Path, ...] = ()
    knobs: tuple[object, ...] = ()
    remedies: tuple[Remedy, ...] = ()
    rule: str = ""
    said: tuple[Say, ...] = ()

    @property
    def text(self) -> str:
        """The message as a person reads it, once the runner has made it."""
        assert isinstance(self.message, str)
        return self.message
