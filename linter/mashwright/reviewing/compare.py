"""Compares what a review finds with what was known before: only new trouble fails, and what is gone is told.

A finding is the same if file, rule and place are; it is worse, and so new, if its level rises or its gap grows by more
than 2 %. A file with the same findings as one that is gone is that one under another name.
"""

import os
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator
from itertools import islice

from msgspec.structs import replace

from mashwright.budgets import COMPARED
from mashwright.reading.document import Place
from mashwright.reviewing.baseline import Baseline, Record, record_of
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.results import Result, Reviewed

WORSE = 1.02
"""A gap that grows by more than this is worse; judgement."""

_Shape = frozenset[tuple[str, str]]
"""Rule and place of each finding of a file, by which it is known again under another name."""


class Comparison:
    """A review under way beside a baseline.

    Args:
        baseline: what is known.

    Attributes:
        renamed: new path by old, for files that were found again under another name.
        gone: known findings that are no longer there.
    """

    def __init__(self, baseline: Baseline) -> None:
        self.baseline = baseline
        self.renamed: dict[str, str] = {}
        self.gone: list[Record] = []
        self._now: list[Record] = []
        self._left: dict[str, list[Record]] = {}
        self._kept: list[Record] = []
        self._vanished: dict[_Shape, dict[str, None]] | None = None

    def compared(self, reviewed: Reviewed) -> Reviewed:
        """The recipe with the state of each finding; it may come again with what is found in the whole collection."""
        path = self.baseline.seen_from_here(reviewed.path)
        fresh = [record_of(path, one) for one in reviewed.results if one.accepted is None]
        self._now += fresh
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
                left[path] = self.baseline.records[path]
        by_path: dict[str, list[Result]] = defaultdict(list)
        for record in sorted(record for records in left.values() for record in records):
            shown = self.baseline.shown(record.path)
            if unsure(record.rule, shown):
                self._kept.append(record)
            else:
                self.gone.append(record)
                by_path[shown].append(_absent(record))
        return [Reviewed(path, "", tuple(results)) for path, results in by_path.items()]

    def kept(self) -> list[Record]:
        """The known findings without those that are gone."""
        renamed = self.renamed
        every = (one for records in self.baseline.records.values() for one in records)
        there = Counter(one._replace(path=renamed.get(one.path, one.path)) for one in every)
        return list((there - Counter(self.gone)).elements())

    def refreshed(self) -> list[Record]:
        """What was found now, and what is known of files that were not looked at."""
        vanished = {*self._paths_of_vanished(), *self.renamed}
        elsewhere = (
            one
            for path, records in self.baseline.records.items()
            if path not in self._left and path not in vanished
            for one in records
        )
        return [*self._now, *self._kept, *elsewhere]

    def _known(self, path: str, fresh: list[Record]) -> list[Record]:
        """What is known of a file, under the name that it had."""
        if path in self.baseline.records:
            return list(self.baseline.records[path])
        if not fresh:
            return []
        records, alike = self.baseline.records, self._by_shape().get(_shape(fresh), {})
        old = min(islice(alike, COMPARED), key=lambda one: (_apart(fresh, records[one]), one), default=None)
        if old is None:
            return []
        del alike[old]
        self.renamed[old] = path
        return [one._replace(path=path) for one in self.baseline.records[old]]

    def _by_shape(self) -> dict[_Shape, dict[str, None]]:
        """Files that are gone and not known again, by what was found in each alone."""
        if self._vanished is None:
            self._vanished = {}
            for path, records in self.baseline.records.items():
                if not os.path.lexists(os.path.join(self.baseline.folder, path)):
                    self._vanished.setdefault(_shape(records), {})[path] = None
        return self._vanished

    def _paths_of_vanished(self) -> Iterator[str]:
        for paths in self._by_shape().values():
            yield from paths


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
