"""A whole review: what was named is reviewed in a fixed order, in this process or by several, and summed up."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

from msgspec.structs import replace

from mashwright.finding import Level, Path
from mashwright.reviewing.accept import house_acceptances
from mashwright.reviewing.batches import outcomes_by
from mashwright.reviewing.files import Candidate, Loaded
from mashwright.reviewing.find import Search
from mashwright.reviewing.houses import HouseFile, Houses
from mashwright.reviewing.outcomes import Outcome, Reviewer
from mashwright.reviewing.plugins import ConfigurationError, installed
from mashwright.reviewing.results import Fault, Review, Reviewed, RuleInfo, shown_path
from mashwright.reviewing.settings import Run
from mashwright.reviewing.sum_up import Remarks, Sum
from mashwright.reviewing.together import Together
from mashwright.reviewing.watch import Watch

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from mashwright.reviewing.compare import Comparison

WINDOW = 64
"""Batches that are on their way to other processes at once."""


class Collection:
    """A review under way; recipes come out one by one, the sums stand here when they are all through.

    Args:
        run: how it goes.
        comparison: with what was known before, or None.
        remarks: what is to be told of how the review goes, beside findings and faults.
        given: the brewhouse that counts for every recipe; None to look for each one's nearest.

    Attributes:
        search: what was named, and what of that is not there.
        sum: what was reviewed and found up to now.
        faults: what failed as a program, plugins that could not be loaded among them.
        sound_houses: brewhouse files that were read without a finding.
        wrong_houses: a brewhouse had findings of its own, so the work could not be done as asked.

    Raises:
        ConfigurationError: the rules that are installed contradict each other.
    """

    def __init__(
        self,
        run: Run,
        comparison: "Comparison | None" = None,
        *,
        remarks: Iterable[str] = (),
        given: HouseFile | None = None,
    ) -> None:
        self.run = run
        self.comparison = comparison
        self.search = Search()
        self.sum = Sum()
        self.remarks = Remarks(remarks)
        self.faults = list(installed().faults)
        self.sound_houses: list[str] = []
        self.wrong_houses = False
        self._houses = Houses(installed(), run.trusted, given)
        self._told_houses: set[str] = set()
        self._told_faults: set[Fault] = set()
        self._used: dict[str, set[Path]] = defaultdict(set)

    def paths(self, paths: tuple[str, ...], executor: "Executor | None" = None) -> Iterator[Reviewed]:
        """Find and review files and folders."""
        return self.files(self.find(paths), executor)

    def find(self, paths: tuple[str, ...]) -> list[Candidate]:
        """The files to look at in files and folders, in a fixed order."""
        found = self.search.find(paths, below_brewhouses=self.run.skip_others)
        self.remarks.add(self.search.remarks)
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

    def finished(self, recipes: Iterable[Reviewed]) -> Review:
        """The whole review, once every recipe came out; what was found in one recipe at two times stands together."""
        done: dict[str, Reviewed] = {}
        for one in recipes:
            before = done.get(one.path)
            done[one.path] = one if before is None else before.and_also(one)
        rules = rule_infos() if done else ()
        missing = (Fault("", path, "there is no such file or folder") for path in self.search.missing)
        empty = (Fault("", path, "no recipe is in this folder") for path in self.empty if not self.run.allow_empty)
        return Review(
            recipes=tuple(done.values()),
            faults=(*missing, *empty, *self.faults),
            counts=self.sum.counts(),
            failed=self.sum.failing,
            rules=rules,
            passed_over=tuple(self.sum.passed_over),
            remarks=self.remarks.told(),
        )

    @property
    def empty(self) -> list[str]:
        """Folders that were named and have no recipe in them; a hook names files, and has none to miss."""
        return [] if self.run.skip_others else self.search.empty

    def _merged(self, outcomes: Iterable[Outcome], run: Run, watch: Watch) -> Iterator[Reviewed]:
        together = Together(run, self._houses, self.search.covers, watch)
        for outcome in outcomes:
            yield from self._house(outcome.house)
            for fault in outcome.faults:
                if fault not in self._told_faults:  # that of a brewhouse comes with each of its recipes
                    self._told_faults.add(fault)
                    self.faults.append(fault)
            self.remarks.add(outcome.remarks)
            if outcome.skipped:
                self.sum.skip(outcome.skipped)
            if outcome.house is not None and (outcome.reviewed is not None or self.run.trusted is None):
                self._used[outcome.house.path].update(outcome.used)
            if outcome.reviewed is not None:
                self.sum.reviewed += 1
                self.search.has_recipe(outcome.reviewed.path)
                together.take(outcome)
                yield self._counted(outcome.reviewed, outcome.stop_at)
        for reviewed, stop_at in together.findings():
            self.sound_houses = [one for one in self.sound_houses if one != reviewed.path]
            yield self._counted(reviewed, stop_at)
        self.faults.extend(together.faults)
        if not self.run.audit:
            yield from self._acceptances_of_houses()
        if self.comparison is not None:
            yield from self.comparison.absent(self._unsure(self.comparison.baseline.folder))

    def _acceptances_of_houses(self) -> Iterator[Reviewed]:
        """What is wrong with what brewhouses accept; what is of no use only where all their recipes were reviewed."""
        for path, used in sorted(self._used.items()):
            file = self._houses.known(path)
            if not file.house.brewhouse.accepted:
                continue
            whole = self.search.covers(file.folder)
            results = house_acceptances(file.house, used, self.run.today, file.document, whole=whole)
            if results:
                self.sound_houses = [one for one in self.sound_houses if one != path]
                name = file.house.brewhouse.name
                yield self._counted(Reviewed(path, name, tuple(results)), self.run.stop_at or file.house.stop_at)

    def _unsure(self, folder: str) -> Callable[[str, str], bool]:
        """Which rules could not judge a file: they crashed on it, or need the whole folder beside it."""
        rules, whole = installed().rules, self.search.covers(folder)
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
        if self.comparison is not None:
            reviewed = self._compared(reviewed, self.comparison)
        self.sum.add(reviewed, stop_at)
        return replace(reviewed, stop_at=stop_at)

    def _compared(self, reviewed: Reviewed, comparison: "Comparison") -> Reviewed:
        """A recipe or brewhouse beside what is known; that of a trusted copy is known by its twin's name."""
        trusted = self.run.trusted
        if trusted is None or not trusted.holds(reviewed.path):
            return comparison.compared(reviewed)
        twin = shown_path(trusted.back(reviewed.path))
        return replace(comparison.compared(replace(reviewed, path=twin)), path=reviewed.path)


def rule_infos() -> tuple[RuleInfo, ...]:
    """Every rule with its page, the four of reading among them.

    Raises:
        ConfigurationError: the rules that are installed contradict each other.
    """
    from mashwright.reviewing.plugins import reading_rule
    from mashwright.reviewing.results import READING_RULES

    all_rules = [rule.info for rule in installed().rules.values()] + [reading_rule(name) for name in READING_RULES]
    return tuple(sorted(all_rules, key=lambda info: info.id))


__all__ = ["Collection", "ConfigurationError", "rule_infos"]
