"""Rules about the collection: what was gathered of each recipe is looked at together, once every recipe is through."""

import os
from collections import defaultdict
from collections.abc import Callable, Collection, Iterator
from contextlib import redirect_stdout
from dataclasses import dataclass, field
from itertools import islice
from sys import stderr
from typing import Any

from mashwright.budgets import RECIPES_AT_ONCE, RULE_FINDINGS
from mashwright.finding import Finding, Level
from mashwright.reading.document import read_document
from mashwright.recipe.build import build_recipe
from mashwright.recipe.model import Recipe
from mashwright.reviewing.accepting import accepted
from mashwright.reviewing.capping import capped
from mashwright.reviewing.files import BREWHOUSE_NAMES, load
from mashwright.reviewing.houses import Houses
from mashwright.reviewing.outcomes import Outcome, inside
from mashwright.reviewing.plugins import READING_RULES, installed
from mashwright.reviewing.results import Fault, Result, Reviewed
from mashwright.reviewing.review import failure, located
from mashwright.reviewing.settings import House, Run, RunRule
from mashwright.reviewing.taking import UnfitError, taken_pair
from mashwright.reviewing.watch import Watch


@dataclass(slots=True)
class Together:
    """What was gathered up to now, by rule.

    Attributes:
        covers: whether a folder is reviewed with all that is in it; what is said of a brewhouse needs that.
        watch: over the rules at work.
    """

    run: Run
    covers: Callable[[str], bool]
    watch: Watch
    faults: list[Fault] = field(default_factory=list)
    _gathered: dict[str, list[tuple[str, Any]]] = field(default_factory=lambda: defaultdict(list))
    _unsure: set[str] = field(default_factory=set)

    def take(self, outcome: Outcome) -> None:
        """Keep what a recipe gave."""
        reviewed = outcome.reviewed
        if reviewed is not None:
            if outcome.house is not None and any(_unread(result) for result in reviewed.results):
                self._unsure.add(outcome.house.path)  # what cannot be read may be what its brewhouse is asked for
            for one in outcome.gathered:
                self._gathered[one.rule].append((reviewed.path, one.value))

    def findings(self) -> Iterator[tuple[Reviewed, Level]]:
        """What the rules find in all of it: recipes in the order of their paths, with the level at which each fails."""
        found: dict[str, list[Result]] = defaultdict(list)
        names: dict[str, tuple[str, Level]] = {}
        houses = Houses(installed(), self.run.trusted)
        for rule_id, values in sorted(self._gathered.items()):
            for path, result, name, stop_at in self._of_one(rule_id, values, houses):
                found[path].append(result)
                names[path] = (name, stop_at)
        for path, results in sorted(found.items()):
            name, stop_at = names[path]
            yield Reviewed(path, name, capped(sorted(results, key=lambda one: (one.place, one.message)))), stop_at

    def _of_one(
        self, rule_id: str, values: list[tuple[str, Any]], houses: Houses
    ) -> list[tuple[str, Result, str, Level]]:
        rule = installed().rules[rule_id]
        file = houses.nearest(values[0][0])
        run_rule = _as_wanted(file.house if file is not None else houses.plain(), rule_id)
        times, gathered = 1 + len(values) / RECIPES_AT_ONCE, {path for path, _ in values}
        self.watch.begin(times)
        try:
            with redirect_stdout(stderr):
                self.watch.at = rule_id
                found = _taken(run_rule, values)
                self.watch.at = ""
                return list(self._placed(found, gathered, houses))
        except BaseException as error:
            if not self.watch.contains(error):
                raise
            self.faults.append(Fault(rule_id, "", failure(rule, error, self.watch.seconds * times)))
            return []
        finally:
            self.watch.rest()

    def _placed(
        self, found: list[tuple[str, Finding]], gathered: Collection[str], houses: Houses
    ) -> Iterator[tuple[str, Result, str, Level]]:
        """The findings of a rule at their places.

        Raises:
            UnfitError: one is about a file of which the rule was told nothing.
        """
        # of one file there may be many findings, one after the other
        read, document = "", read_document("")
        for path, whole in found:
            of_house = os.path.basename(path) in BREWHOUSE_NAMES
            file = houses.nearest(path)
            if path not in gathered and not (of_house and file is not None and file.path == path):
                raise UnfitError("it names a file that is none of the recipes gathered and none of their brewhouses")
            if path != read:
                read, document = path, read_document(load(path).text, "brewhouse" if of_house else "recipe")
            if document.root is None:
                continue  # it was changed since it was reviewed
            if of_house and (file is None or path in self._unsure or not self.covers(file.folder)):
                continue
            house = file.house if file is not None else houses.plain()
            recipe = Recipe(name=house.brewhouse.name) if of_house else build_recipe(document)[0]
            result = located(whole, document)
            if not self.run.audit:
                result = accepted(result, recipe, house, self.run.today, inside(path, file))
            yield path, result, recipe.name, self.run.stop_at or house.stop_at


def _taken(run_rule: RunRule, values: list[tuple[str, Any]]) -> list[tuple[str, Finding]]:
    """What a rule finds in all that was gathered, each finding with its file, looked at.

    Raises:
        UnfitError: something in it is not as the contract says.
    """
    rule, most = run_rule.rule, RULE_FINDINGS + len(values)
    found = list(islice(rule.check_collection(values, run_rule.limits), most + 1)) if rule.check_collection else []
    if len(found) > most:
        raise UnfitError(f"it yields more than {most} findings of {len(values)} recipes")
    return [taken_pair(pair, rule.id, run_rule.ceiling) for pair in found]


def _unread(result: Result) -> bool:
    return result.rule in READING_RULES and result.level is Level.ERROR


def _as_wanted(house: House, rule_id: str) -> RunRule:
    """A rule with the settings of the brewhouse of the first recipe that it gathered."""
    return next(
        (one for one in house.rules if one.rule.id == rule_id),
        RunRule(installed().rules[rule_id], installed().rules[rule_id].limits()),
    )
