"""Reviews what was named: files, folders, or a text that an editor holds."""

import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from mashwright.finding import Level
from mashwright.reviewing.files import BREWHOUSE_NAMES, Candidate, Loaded, candidates, load, looks_like_recipe, matches
from mashwright.reviewing.houses import HouseFile, Houses, shown_path
from mashwright.reviewing.plugins import ConfigurationError, installed
from mashwright.reviewing.results import Counts, Fault, Review, Reviewed, RuleInfo
from mashwright.reviewing.review import review_loaded
from mashwright.reviewing.settings import Run


@dataclass
class Collection:
    """A review under way; recipes come out one by one, the sums stand here when they are all through.

    Attributes:
        run: how it goes.
        faults: what failed as a program, plugins that could not be loaded among them.
        missing: named paths that are not there.
        sound_houses: brewhouse files that were read without a finding.
        wrong_houses: a brewhouse had findings of its own, so the work could not be done as asked.
        failing: whether a finding reached the level from which the review fails.
    """

    run: Run
    faults: list[Fault] = field(default_factory=list)
    missing: list[str] = field(default_factory=list)
    reviewed: int = 0
    skipped: int = 0
    accepted: int = 0
    levels: dict[Level, int] = field(default_factory=lambda: dict.fromkeys(Level, 0))
    sound_houses: list[str] = field(default_factory=list)
    wrong_houses: bool = False
    failing: bool = False

    def __post_init__(self) -> None:
        """Load the rules.

        Raises:
            ConfigurationError: the rules that are installed contradict each other.
        """
        found = installed()
        self.faults.extend(found.faults)
        self.houses = Houses(found)
        self._told_houses: set[str] = set()

    def paths(self, paths: tuple[str, ...]) -> Iterator[Reviewed]:
        """Review files and folders in a fixed order; a brewhouse comes before the first recipe under it."""
        there = tuple(path for path in paths if os.path.lexists(path))
        self.missing.extend(path for path in paths if not os.path.lexists(path))
        for candidate in candidates(there):
            yield from self._candidate(candidate)

    def text(self, text: str | Loaded, name: str) -> Iterator[Reviewed]:
        """Review a text under a name; it need not lie on the disk."""
        loaded = text if isinstance(text, Loaded) else Loaded(text, None)
        if os.path.basename(name) in BREWHOUSE_NAMES:
            reviewed = self.houses.reviewed(loaded, shown_path(name))[1]
            if reviewed.results:
                yield self._count_house(reviewed)
            else:
                self.sound_houses.append(reviewed.path)
        else:
            yield from self._recipe(loaded, name)

    def counts(self) -> Counts:
        """What was reviewed and found up to now."""
        levels = self.levels
        return Counts(
            self.reviewed, self.skipped, levels[Level.ERROR], levels[Level.WARNING], levels[Level.NOTE], self.accepted
        )

    def finished(self, recipes: Iterable[Reviewed]) -> Review:
        """The whole review, once every recipe came out."""
        done = tuple(recipes)
        return Review(done, tuple(self.faults), self.counts(), self.failing, rule_infos() if done else ())

    def _candidate(self, candidate: Candidate) -> Iterator[Reviewed]:
        path = candidate.path
        if os.path.basename(path) in BREWHOUSE_NAMES:
            yield from self._house(self.houses.read(path))
            return
        loaded = load(path)
        sure = candidate.named and not self.run.skip_others
        unknown = loaded.problem is not None and not loaded.text
        if not sure and not unknown and not looks_like_recipe(loaded.text):
            house = self.houses.nearest(path)
            if house is None or not matches(path, house.folder, house.house.brewhouse.recipes):
                self.skipped += 1
                return
        yield from self._recipe(loaded, path)

    def _recipe(self, loaded: Loaded, path: str) -> Iterator[Reviewed]:
        file = self.houses.nearest(path)
        if file is not None:
            yield from self._house(file)
        house = file.house if file is not None else self.houses.plain()
        inside = os.path.relpath(os.path.abspath(path), file.folder).replace(os.sep, "/") if file is not None else path
        reviewed, faults = review_loaded(loaded, shown_path(path), house, self.run, inside)
        self.faults.extend(faults)
        self.reviewed += 1
        stop_at = self.run.stop_at or house.stop_at
        for result in reviewed.results:
            if result.accepted is not None:
                self.accepted += 1
                continue
            self.levels[result.level] += 1
            self.failing = self.failing or result.level >= stop_at
        yield reviewed

    def _house(self, file: HouseFile) -> Iterator[Reviewed]:
        if file.path not in self._told_houses:
            self._told_houses.add(file.path)
            if file.reviewed.results:
                yield self._count_house(file.reviewed)
            else:
                self.sound_houses.append(file.path)

    def _count_house(self, reviewed: Reviewed) -> Reviewed:
        for result in reviewed.results:
            self.levels[result.level] += 1
            self.wrong_houses = True
        return reviewed


def rule_infos() -> tuple[RuleInfo, ...]:
    """Every rule with its page, the four of reading among them.

    Raises:
        ConfigurationError: the rules that are installed contradict each other.
    """
    from mashwright.reviewing.plugins import READING_RULES, reading_rule

    all_rules = [rule.info for rule in installed().rules.values()] + [reading_rule(name) for name in READING_RULES]
    return tuple(sorted(all_rules, key=lambda info: info.id))


__all__ = ["Collection", "ConfigurationError", "rule_infos"]
