"""What a collection's findings were on the day that somebody wrote them down, so that only new trouble fails.

One line a finding, sorted, without line numbers: path, rule, place, level and gap, parted by tabs. Paths count from
the baseline's own folder.
"""

import os
import re
from collections import defaultdict
from collections.abc import Iterable
from math import isfinite
from typing import NamedTuple

from msgspec import Struct, field

from mashwright.budgets import KNOWN_OF_FILE
from mashwright.finding import Level
from mashwright.patterns import pattern
from mashwright.printable import printed
from mashwright.reviewing.plugins import ConfigurationError
from mashwright.reviewing.results import Result

HEADER = "# findings that are known; written by mashwright review --write-baseline"


class Record(NamedTuple):
    """One known finding; the order of the fields is the order of the file."""

    path: str
    rule: str
    place: str
    level: Level
    gap: float

    def line(self) -> str:
        """As it stands in the file."""
        fields = (self.path, self.rule, self.place, self.level.word, f"{self.gap:g}")
        return "\t".join(printed(one.replace("\\", "\\\\")) for one in fields)


def record_of(path: str, result: Result) -> Record:
    """A finding as it is written down."""
    _, _, place = result.identity.partition(" ")
    return Record(path, result.rule, place, result.level, result.gap)


def written(records: Iterable[Record]) -> str:
    """The whole file."""
    return "\n".join([HEADER, *(record.line() for record in sorted(records))]) + "\n"


class Baseline(Struct, frozen=True):
    """Known findings.

    Attributes:
        records: by path, as seen from ``folder``.
        folder: in which the baseline lies, as seen from the current one.
    """

    records: dict[str, list[Record]] = field(default_factory=dict)
    folder: str = "."

    @classmethod
    def read(cls, text: str, name: str) -> "Baseline":
        """A baseline from its text.

        Raises:
            ConfigurationError: a line is none of a baseline, or one file has more of them than a review tells.
        """
        records: dict[str, list[Record]] = defaultdict(list)
        for number, line in enumerate(text.split("\n"), 1):
            if not line or (line.startswith("#") and "\t" not in line):
                continue
            record = _record(line)
            if record is None:
                message = f"{name}:{number}: this is no line of a baseline; write the file anew with --write-baseline"
                raise ConfigurationError(message)
            records[record.path].append(record)
            if len(records[record.path]) > KNOWN_OF_FILE:
                many = f"no file has more than {KNOWN_OF_FILE} findings"
                raise ConfigurationError(f"{name}:{number}: {many}; write the baseline anew with --write-baseline")
        return cls(dict(records), os.path.dirname(name) or ".")

    def seen_from_here(self, path: str) -> str:
        """A path of the review as the baseline writes it."""
        return path if self.folder == "." else os.path.relpath(path, self.folder).replace(os.sep, "/")

    def shown(self, path: str) -> str:
        """A path of the baseline as the review shows it."""
        return path if self.folder == "." else os.path.normpath(os.path.join(self.folder, path)).replace(os.sep, "/")


def _record(line: str) -> Record | None:
    fields = [_plain(one) for one in line.split("\t")]
    levels = {level.word: level for level in Level}
    if len(fields) != 5 or fields[3] not in levels:
        return None
    try:
        gap = float(fields[4])
    except ValueError:
        return None
    return Record(fields[0], fields[1], fields[2], levels[fields[3]], gap) if isfinite(gap) else None


_ESCAPED = pattern(r"\\(?:([\\tnr])|x([\da-f]{2})|u([\da-f]{4})|U(00(?:0[\da-f]|10)[\da-f]{4}))", re.ASCII)
_SIGNS = {"\\": "\\", "t": "\t", "n": "\n", "r": "\r"}


def _plain(text: str) -> str:
    """A field as it was before it was written down."""
    if "\\" not in text:
        return text
    return _ESCAPED().sub(lambda one: _SIGNS.get(one[1]) or chr(int(one[one.lastindex or 0], 16)), text)
