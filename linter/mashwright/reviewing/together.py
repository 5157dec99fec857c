"""Rules about the collection: what was gathered of each recipe is looked at together, once every recipe is through."""

import os
import sys
from collections import defaultdict
from collections.abc import Callable, Iterator
from contextlib import redirect_stdout
from itertools import islice
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from mashwright.budgets import RECIPES_AT_ONCE, RULE_FINDINGS
from mashwright.crash import of_file
from mashwright.finding import Finding, Level
from mashwright.reading.document import read_document
from mashwright.reading.schema import understood
from mashwright.recipe.model import Accepted
from mashwright.reviewing.accept import accepted
from mashwright.reviewing.capping import capped
from mashwright.reviewing.files import BREWHOUSE_NAMES, load
from mashwright.reviewing.guard import Guard, failure
from mashwright.reviewing.houses import Houses
from mashwright.reviewing.outcomes import Outcome, inside
from mashwright.reviewing.place import located
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.results import READING_RULES, Fault, Result, Reviewed
from mashwright.reviewing.settings import Run, RunRule
from mashwright.reviewing.taking import UnfitError, taken_pair
from mashwright.reviewing.watch import Watch


class Together(Struct):
    """What was gathered up to now, by rule.

    Attributes:
        houses: which brewhouses there are.
        covers: whether a folder is reviewed with all that is in it; what is said of a brewhouse needs that.
        watch: over the rules at work.
    """

    run: Run
    houses: Houses
    covers: Callable[[str], bool]
    watch: Watch
    faults: list[Fault] = field(default_factory=list)
    _gathered: dict[str, list[tuple[str, Any]]] = field(default_factory=lambda: defaultdict(list))
    _accepted: dict[str, tuple[Accepted, ...]] = field(default_factory=dict)
    _unsure: set[str] = field(default_factory=set)

    def take(self, outcome: Outcome) -> None:
        """Keep what a recipe gave."""
        reviewed = outcome.reviewed
        if reviewed is not None:
            if outcome.house is not None and any(_unread(result) for result in reviewed.results):
                self._unsure.add(outcome.house.path)  # what cannot be read may be what its brewhouse is asked for
            if outcome.gathered and outcome.accepted:
                self._accepted[reviewed.path] = outcome.accepted
            for one in outcome.gathered:
                self._gathered[one.rule].append((reviewed.path, one.value))

    def findings(self) -> Iterator[tuple[Reviewed, Level]]:
        """What the rules find in all of it: recipes in the order of their paths, with the level at which each fails."""
        found: dict[str, list[tuple[RunRule, Finding]]] = defaultdict(list)
        for rule_id, values in sorted(self._gathered.items()):
            run_rule = self._as_wanted(rule_id, values[0][0])
            for path, finding in self._of_one(run_rule, values):
                found[path].append((run_rule, finding))
        guard = Guard(self.watch, "")
        placed = []
        for path, of_path in sorted(found.items()):
            try:
                placed.append(self._placed(path, of_path, guard))
            except Exception as error:  # noqa: BLE001  (one file that the program cannot take hides no other)
                self.faults.append(Fault("", path, of_file(error, "file")))
        self.faults += guard.faults
        failed = {fault.rule for fault in guard.faults}
        for reviewed, stop_at in placed:
            kept = [one for one in reviewed.results if one.rule not in failed]
            if kept:
                kept.sort(key=lambda one: (one.place, one.message))
                yield replace(reviewed, results=capped(kept)), stop_at

    def _of_one(self, run_rule: RunRule, values: list[tuple[str, Any]]) -> list[tuple[str, Finding]]:
        """What one rule finds, each with its file; nothing where it fails as a program, which is told."""
        times = 1 + len(values) / RECIPES_AT_ONCE
        self.watch.begin(times)
        try:
            with redirect_stdout(sys.stderr):
                self.watch.at = run_rule.rule.id
                found = _taken(run_rule, values)
                self.watch.at = ""
                self._see_that_named(found, values)
                return found
        except BaseException as error:
            if not self.watch.contains(error):
                raise
            self.faults.append(Fault(run_rule.rule.id, "", failure(run_rule.rule, error, self.watch.seconds * times)))
            return []
        finally:
            self.watch.rest()

    def _see_that_named(self, found: list[tuple[str, Finding]], values: list[tuple[str, Any]]) -> None:
        """See that each finding is about a file that may be found fault with.

        Raises:
            UnfitError: one is about a file of which the rule was told nothing.
        """
        gathered = {path for path, _ in values}
        for path, _ in found:
            if path not in gathered and not self._is_house(path):
                raise UnfitError("it names a file that is neither a gathered recipe nor the brewhouse of one")

    def _is_house(self, path: str) -> bool:
        if os.path.basename(path) not in BREWHOUSE_NAMES:
            return False
        file = self.houses.nearest(path)
        return file is not None and file.path == path

    def _placed(self, path: str, found: list[tuple[RunRule, Finding]], guard: Guard) -> tuple[Reviewed, Level]:
        """What was found in one file, at its places, and the level at which it fails.

        A recipe is parsed once more, for its places alone: to keep those of every file until here takes memory.
        """
        file = self.houses.nearest(path)
        house = file.house if file is not None else self.houses.plain()
        stop_at = self.run.stop_at or house.stop_at
        name, sure = "", True
        if file is not None and self._is_house(path):
            name, document = house.brewhouse.name, file.document
            sure = path not in self._unsure and self.covers(file.folder)
        else:
            document, _ = understood(read_document(load(path).text), "recipe")
        if document.root is None or not sure:  # it was changed since it was reviewed, or may be meant otherwise
            return Reviewed(path, name, ()), stop_at
        self.watch.begin()
        placed = [guard.attempt(run_rule, located, finding, document) for run_rule, finding in found]
        self.watch.rest()
        results = [one for one in placed if one is not None]
        if not self.run.audit:
            own, in_house = self._accepted.get(path, ()), inside(path, file)
            results = [accepted(one, own, house, self.run.today, in_house) for one in results]
        return Reviewed(path, name, tuple(results)), stop_at

    def _as_wanted(self, rule_id: str, path: str) -> RunRule:
        """A rule with the settings of the brewhouse of the first recipe that it gathered."""
        file = self.houses.nearest(path)
        house = file.house if file is not None else self.houses.plain()
        return next(
            (one for one in house.rules if one.rule.id == rule_id),
            RunRule(installed().rules[rule_id], installed().rules[rule_id].limits()),
        )


def _taken(run_rule: RunRule, values: list[tuple[str, Any]]) -> list[tuple[str, Finding]]:
    """What a rule finds in all that was gathered, each finding with its file, looked at.

    Raises:
        UnfitError: something in it is not as the contract says.
    """
    rule, most = run_rule.rule, RULE_FINDINGS + len(values)
    found = list(islice(rule.check_collection(values, run_rule.limits), most + 1)) if rule.check_collection else []
    if len(found) > most:
        raise UnfitError(f"it yields more than {most} findings of {len(values)} recipes")
    return [taken_pair(pair, rule.id, run_rule.ceiling, rule.says) for pair in found]


def _unread(result: Result) -> bool:
    return result.rule in READING_RULES and result.level is Level.ERROR
