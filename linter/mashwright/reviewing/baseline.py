"""What a collection's findings were on the day that somebody wrote them down, so that only new trouble fails.

One line a finding, sorted, without line numbers: path, rule, place, level and gap, parted by tabs. Paths count from
the baseline's own folder. A finding is the same if file, rule and place are; it is worse, and so new, if its level
rises or its gap grows by more than 2 %.
"""

import os
import re
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from itertools import islice
from math import isfinite
from typing import NamedTuple

from mashwright.budgets import COMPARED, KNOWN_OF_FILE
from mashwright.finding import Level
from mashwright.patterns import pattern
from mashwright.printable import printed
from mashwright.reading.document import Place
from mashwright.reviewing.plugins import ConfigurationError, installed
from mashwright.reviewing.results import Result, Reviewed

HEADER = "# findings that are known; written by mashwright review --write-baseline"
WORSE = 1.02
"""A gap that grows by more than this is worse; judgement."""


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


_Shape = frozenset[tuple[str, str]]
"""Rule and place of each finding of a file, by which it is known again under another name."""


@dataclass
class Baseline:
    """Known findings, and what a review makes of them.

    Attributes:
        records: by path, as seen from ``folder``.
        folder: in which the baseline lies, as seen from the current one.
        renamed: new path by old, for files that were found again under another name.
        gone: known findings that are no longer there.
        now: what the review found, to be written down.
    """

    records: dict[str, list[Record]] = field(default_factory=dict)
    folder: str = "."
    renamed: dict[str, str] = field(default_factory=dict)
    gone: list[Record] = field(default_factory=list)
    now: list[Record] = field(default_factory=list)
    _left: dict[str, list[Record]] = field(default_factory=dict)
    _kept: list[Record] = field(default_factory=list)
    _vanished: dict[_Shape, dict[str, None]] | None = None

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

    def compared(self, reviewed: Reviewed) -> Reviewed:
        """The recipe with the state of each finding; it may come again with what is found in the whole collection."""
        path = self._seen_from_here(reviewed.path)
        fresh = [record_of(path, one) for one in reviewed.results if one.accepted is None]
        self.now += fresh
        if path not in self._left:
            self._left[path] = self._known(path, fresh)
        left = self._left[path]
        states = [_state(record_of(path, one), left) if one.accepted is None else one.state for one in reviewed.results]
        results = (replace(one, state=state) for one, state in zip(reviewed.results, states, strict=True))
        return replace(reviewed, results=tuple(results))

    def absent(self, unsure: Callable[[str, str], bool] = lambda _rule, _path: False) -> list[Reviewed]:
        """Once every recipe is through: the known findings that are no longer there, as results of their files.

        Those of files that were not looked at are left in peace; those of files that are gone are gone too.

        Args:
            unsure: whether a rule could not judge a file this time, by its path; what it found there before stays.
        """
        left = dict(self._left)
        for path in self._paths_of_vanished():
            if path not in left:
                left[path] = self.records[path]
        by_path: dict[str, list[Result]] = defaultdict(list)
        for record in sorted(record for records in left.values() for record in records):
            shown = self._shown(record.path)
            if unsure(record.rule, shown):
                self._kept.append(record)
            else:
                self.gone.append(record)
                by_path[shown].append(_absent(record))
        return [Reviewed(path, "", tuple(results)) for path, results in by_path.items()]

    def kept(self) -> list[Record]:
        """The known findings without those that are gone."""
        renamed = self.renamed
        every = (one for records in self.records.values() for one in records)
        there = Counter(one._replace(path=renamed.get(one.path, one.path)) for one in every)
        return list((there - Counter(self.gone)).elements())

    def refreshed(self) -> list[Record]:
        """What was found now, and what is known of files that were not looked at."""
        vanished = {*self._paths_of_vanished(), *self.renamed}
        elsewhere = (
            one
            for path, records in self.records.items()
            if path not in self._left and path not in vanished
            for one in records
        )
        return [*self.now, *self._kept, *elsewhere]

    def _known(self, path: str, fresh: list[Record]) -> list[Record]:
        """What is known of a file, under the name that it had."""
        if path in self.records:
            return list(self.records[path])
        if not fresh:
            return []
        alike = self._by_shape().get(_shape(fresh), {})
        old = min(islice(alike, COMPARED), key=lambda one: (_apart(fresh, self.records[one]), one), default=None)
        if old is None:
            return []
        del alike[old]
        self.renamed[old] = path
        return [one._replace(path=path) for one in self.records[old]]

    def _by_shape(self) -> dict[_Shape, dict[str, None]]:
        """Files that are gone and not known again, by what was found in each alone."""
        if self._vanished is None:
            self._vanished = {}
            for path, records in self.records.items():
                if not os.path.lexists(os.path.join(self.folder, path)):
                    self._vanished.setdefault(_shape(records), {})[path] = None
        return self._vanished

    def _paths_of_vanished(self) -> Iterator[str]:
        for paths in self._by_shape().values():
            yield from paths

    def _seen_from_here(self, path: str) -> str:
        """A path of the review as the baseline writes it."""
        return path if self.folder == "." else os.path.relpath(path, self.folder).replace(os.sep, "/")

    def _shown(self, path: str) -> str:
        """A path of the baseline as the review shows it."""
        return path if self.folder == "." else os.path.normpath(os.path.join(self.folder, path)).replace(os.sep, "/")


def _shape(records: Iterable[Record]) -> _Shape:
    """Without what is only found beside other recipes, which comes later than the rest."""
    rules = installed().rules
    alone = (one for one in records if one.rule not in rules or rules[one.rule].check is not None)
    return frozenset((one.rule, one.place) for one in alone)


def _apart(fresh: list[Record], known: list[Record]) -> float:
    """How far the gaps of a file's findings lie from those of another with the same findings."""
    gaps = {(one.rule, one.place): one.gap for one in known}
    return sum(abs(one.gap - gaps.get((one.rule, one.place), 0.0)) for one in fresh)


def _state(record: Record, known: list[Record]) -> str:
    """New, unchanged, or updated for the better; what is matched is taken out of the known."""
    same = [one for one in known if (one.rule, one.place) == (record.rule, record.place)]
    match = min(same, key=lambda one: abs(one.gap - record.gap), default=None)
    if match is None:
        return "new"
    known.remove(match)
    if record.level > match.level or (record.level == match.level and record.gap > match.gap * WORSE + 1e-9):
        return "new"
    better = record.level < match.level or record.gap * WORSE + 1e-9 < match.gap
    return "updated" if better else "unchanged"


def _absent(record: Record) -> Result:
    nowhere = Place(1, 1, 1, 1)
    message = "found before, and no longer there"
    return Result(
        record.rule,
        record.level,
        record.place,
        nowhere,
        message,
        record.gap,
        state="absent",
        identity=f"{record.rule} {record.place}",
    )


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
