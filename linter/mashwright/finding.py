"""The lowest room: what every other room speaks in. Imports nothing of ours."""

from dataclasses import dataclass, field
from enum import IntEnum

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


@dataclass(frozen=True, slots=True)
class Finding:
    """What a rule has to say about one place.

    Attributes:
        path: where; the reader turns it into line and column.
        level: how bad.
        message: one sentence with its numbers, lower case, no full stop.
        gap: how far past the limit, as a share of the limit.
        evidence: the sum behind it.
        related: other places that have to do with it.
        knobs: what a brewer can turn to mend it; tried by the reviewing room, which fills ``remedies``.
        rule: filled by the runner.
    """

    path: Path
    level: Level
    message: str
    gap: float = 0.0
    evidence: tuple[Evidence, ...] = ()
    related: tuple[Path, ...] = ()
    knobs: tuple[object, ...] = ()
    remedies: tuple[Remedy, ...] = ()
    rule: str = field(default="")
