"""A whole review: what was named is reviewed in a fixed order, in this process or by several, and summed up."""

import os
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from mashwright.budgets import REMARKS
from mashwright.finding import Level, Path
from mashwright.reviewing.accept import house_acceptances
from mashwright.reviewing.baseline import Baseline
from mashwright.reviewing.batches import outcomes_by
from mashwright.reviewing.files import Candidate, Loaded, Unseen, candidates
from mashwright.reviewing.houses import HouseFile, Houses
from mashwright.reviewing.outcomes import Outcome, Reviewer
from mashwright.reviewing.plugins import ConfigurationError, installed
from mashwright.reviewing.repository import Git, is_inside
from mashwright.reviewing.results import Counts, Fault, Review, Reviewed, RuleInfo, shown_path
from mashwright.reviewing.settings import Run
from mashwright.reviewing.together import Together
from mashwright.reviewing.unseen import told_of
from mashwright.reviewing.watch import Watch

if TYPE_CHECKING:
    from concurrent.futures import Executor

MOST_PASSED_OVER = 3
"""Files without a recipe that are named; of more it is said how many there are."""
WINDOW = 64
"""Batches that are on their way to other processes at once."""


@dataclass
class Collection:
    """A review under way; recipes come out one by one, the sums stand here when they are all through.

    Attributes:
        run: how it goes.
        baseline: what was known before, or None.
        given: the brewhouse that counts for every recipe; None to look for each one's nearest.
        faults: what failed as a program, plugins that could not be loaded among them.
        remarks: what is to be told of how the review went, beside findings and faults.
        missing: named paths that are not there.
        passed_over: the first few files that were no recipes.
        sound_houses: brewhouse files that were read without a finding.
        wrong_houses: a brewhouse had findings of its own, so the work could not be done as asked.
        failing: whether a finding reached the level from which the review fails.
    """

    run: Run
    baseline: Baseline | None = None
    given: HouseFile | None = None
    faults: list[Fault] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    missing: list[str] = field(default_factory=list)
    reviewed: int = 0
    skipped: int = 0
    accepted: int = 0
    known: int = 0
    unjudged: int = 0
    unsearched: int = 0
    levels: dict[Level, int] = field(default_factory=lambda: dict.fromkeys(Level, 0))
    passed_over: list[str] = field(default_factory=list)
    sound_houses: list[str] = field(default_factory=list)
    wrong_houses: bool = False
    failing: bool = False

    def __post_init__(self) -> None:
        """Load the rules.

        Raises:
            ConfigurationError: the rules that are installed contradict each other.
        """
        self.faults.extend(installed().faults)
        self._houses = Houses(installed(), self.run.trusted, self.given)
        self._told_houses: set[str] = set()
        self._told_faults: set[Fault] = set()
        self._used: dict[str, set[Path]] = defaultdict(set)
        self._folders: list[str] = []
        self._empty: dict[str, str] = {}
        self._unjudging: set[str] = set()
        self._remarked = set(self.remarks)

    def paths(self, paths: tuple[str, ...], executor: "Executor | None" = None) -> Iterator[Reviewed]:
        """Find and review files and folders."""
        return self.files(self.find(paths), executor)

    def find(self, paths: tuple[str, ...]) -> list[Candidate]:
        """The files to look at in files and folders, in a fixed order; what is not there goes to ``missing``."""
        there = tuple(path for path in paths if os.path.lexists(path))
        self.missing.extend(path for path in paths if not os.path.lexists(path))
        folders = {os.path.abspath(path): path for path in there if os.path.isdir(path)}
        self._folders += folders
        self._empty |= folders
        git = Git()
        unseen: list[Unseen] = []
        found = list(candidates(there, git, unseen))
        self._remark(told_of(unseen, found, folders, git))
        self._remark(git.told())
        return found

    def files(self, found: Iterable[Candidate], executor: "Executor | None" = None) -> Iterator[Reviewed]:
        """Review files in their order; a brewhouse comes before the first recipe under it.

        Args:
            found: as ``find`` gives them. Where a folder was named, rules about the whole collection run too.
            executor: of concurrent.futures; the recipes are reviewed by it, in the same order. None reviews them here.
        """
        found = list(found)
        run = replace(self.run, collection=any(not candidate.named for candidate in found))
        with Watch(strangers=installed().strangers) as watch:
            if executor is None:
                yield from self._merged(Reviewer(run, watch, self._houses).candidates(found), run, watch)
            else:
                yield from self._merged(outcomes_by(executor, found, run, WINDOW), run, watch)

    def text(self, text: str | Loaded, name: str) -> Iterator[Reviewed]:
        """Review a text under a name; it need not lie on the disk."""
        loaded = text if isinstance(text, Loaded) else Loaded(text, None)
        with Watch(strangers=installed().strangers) as watch:
            yield from self._merged([Reviewer(self.run, watch, self._houses).text(loaded, name)], self.run, watch)

    def counts(self) -> Counts:
        """What was reviewed and found up to now."""
        errors, warnings, notes = (self.levels[level] for level in (Level.ERROR, Level.WARNING, Level.NOTE))
        unjudging = len(self._unjudging)
        beside = self.accepted, self.known, unjudging, self.unjudged, self.unsearched
        return Counts(self.reviewed, self.skipped, errors, warnings, notes, *beside)

    def finished(self, recipes: Iterable[Reviewed]) -> Review:
        """The whole review, once every recipe came out; what was found in one recipe at two times stands together."""
        done: dict[str, Reviewed] = {}
        for one in recipes:
            before = done.get(one.path)
            done[one.path] = one if before is None else before.and_also(one)
        rules = rule_infos() if done else ()
        missing = (Fault("", path, "there is no such file or folder") for path in self.missing)
        empty = (Fault("", path, "no recipe is in this folder") for path in self.empty if not self.run.allow_empty)
        more = len(self._remarked) - len(self.remarks)
        return Review(
            recipes=tuple(done.values()),
            faults=(*missing, *empty, *self.faults),
            counts=self.counts(),
            failed=self.failing,
            rules=rules,
            passed_over=tuple(self.passed_over),
            remarks=(*self.remarks, *([f"and {more} more changes like these"] if more > 0 else ())),
        )

    @property
    def empty(self) -> list[str]:
        """Folders that were named and have no recipe in them; a hook names files, and has none to miss."""
        return [] if self.run.skip_others else list(self._empty.values())

    def _merged(self, outcomes: Iterable[Outcome], run: Run, watch: Watch) -> Iterator[Reviewed]:
        together = Together(run, self._houses, self._covers, watch)
        for outcome in outcomes:
            yield from self._house(outcome.house)
            for fault in outcome.faults:
                if fault not in self._told_faults:  # that of a brewhouse comes with each of its recipes
                    self._told_faults.add(fault)
                    self.faults.append(fault)
            self._remark(outcome.remarks)
            if outcome.skipped:
                self.skipped += 1
                self.passed_over += [outcome.skipped][: MOST_PASSED_OVER - len(self.passed_over)]
            if outcome.house is not None and (outcome.reviewed is not None or self.run.trusted is None):
                self._used[outcome.house.path].update(outcome.used)
            if outcome.reviewed is not None:
                self.reviewed += 1
                self._no_longer_empty(outcome.reviewed.path)
                together.take(outcome)
                yield self._counted(outcome.reviewed, outcome.stop_at)
        for reviewed, stop_at in together.findings():
            self.sound_houses = [one for one in self.sound_houses if one != reviewed.path]
            yield self._counted(reviewed, stop_at)
        self.faults.extend(together.faults)
        if not self.run.audit:
            yield from self._acceptances_of_houses()
        if self.baseline is not None:
            yield from self.baseline.absent(self._unsure(self.baseline.folder))

    def _remark(self, sentences: Iterable[str]) -> None:
        """Keep what is to be told, each once; what is past the budget is only counted."""
        for sentence in sentences:
            if sentence not in self._remarked:
                self._remarked.add(sentence)
                if len(self._remarked) <= REMARKS:
                    self.remarks.append(sentence)

    def _no_longer_empty(self, path: str) -> None:
        if self._empty:
            there = os.path.abspath(path)
            self._empty = {folder: name for folder, name in self._empty.items() if not is_inside(there, folder)}

    def _acceptances_of_houses(self) -> Iterator[Reviewed]:
        """What is wrong with what brewhouses accept; what is of no use only where all their recipes were reviewed."""
        for path, used in sorted(self._used.items()):
            file = self._houses.known(path)
            if not file.house.brewhouse.accepted:
                continue
            whole = self._covers(file.folder)
            results = house_acceptances(file.house, used, self.run.today, file.document, whole=whole)
            if results:
                self.sound_houses = [one for one in self.sound_houses if one != path]
                name = file.house.brewhouse.name
                yield self._counted(Reviewed(path, name, tuple(results)), self.run.stop_at or file.house.stop_at)

    def _covers(self, folder: str) -> bool:
        """Whether a folder was reviewed with all that is in it."""
        return any(is_inside(os.path.abspath(folder), one) for one in self._folders)

    def _unsure(self, folder: str) -> Callable[[str, str], bool]:
        """Which rules could not judge a file: they crashed on it, or need the whole folder beside it."""
        rules, whole = installed().rules, self._covers(folder)
        failed = {(fault.rule, fault.path) for fault in self.faults}

        def unsure(rule: str, path: str) -> bool:
            alone = rule in rules and rules[rule].check is None and not whole
            return alone or (rule, path) in failed or (rule, "") in failed

        return unsure

    def _house(self, reviewed: Reviewed | None) -> Iterator[Reviewed]:
        if reviewed is None or reviewed.path in self._told_houses:
            return
        self._told_houses.add(reviewed.path)
        if reviewed.results:
            self.wrong_houses |= any(result.level is Level.ERROR for result in reviewed.results)
            yield self._counted(reviewed, Level.ERROR)
        else:
            self.sound_houses.append(reviewed.path)

    def _counted(self, reviewed: Reviewed, stop_at: Level) -> Reviewed:
        if self.baseline is not None:
            reviewed = self._compared(reviewed, self.baseline)
        self.unjudged += bool(reviewed.unjudged)
        self.unsearched += reviewed.unsearched
        self._unjudging.update(one.rule for one in reviewed.unjudged)
        for result in reviewed.results:
            if result.accepted is not None:
                self.accepted += 1
            elif result.state in ("unchanged", "updated"):
                self.known += 1
            elif result.state != "absent":
                self.levels[result.level] += 1
                self.failing = self.failing or result.level >= stop_at
        return replace(reviewed, stop_at=stop_at)

    def _compared(self, reviewed: Reviewed, baseline: Baseline) -> Reviewed:
        """A recipe or brewhouse beside what is known; that of a trusted copy is known by its twin's name."""
        trusted = self.run.trusted
        if trusted is None or not trusted.holds(reviewed.path):
            return baseline.compared(reviewed)
        twin = shown_path(trusted.back(reviewed.path))
        return replace(baseline.compared(replace(reviewed, path=twin)), path=reviewed.path)


def rule_infos() -> tuple[RuleInfo, ...]:
    """Every rule with its page, the four of reading among them.

    Raises:
        ConfigurationError: the rules that are installed contradict each other.
    """
    from mashwright.reviewing.plugins import READING_RULES, reading_rule

    all_rules = [rule.info for rule in installed().rules.values()] + [reading_rule(name) for name in READING_RULES]
    return tuple(sorted(all_rules, key=lambda info: info.id))


__all__ = ["Collection", "ConfigurationError", "rule_infos"]
