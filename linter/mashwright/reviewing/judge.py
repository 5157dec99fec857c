"""The second step of a review: every rule says what it finds in the recipe, or that it could not look."""

import sys
from collections.abc import Generator
from contextlib import redirect_stdout
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from mashwright.brew.brew import Brew
from mashwright.finding import Finding, Path
from mashwright.reading.nodes import Mapping
from mashwright.recipe.stated import Open, Unknown
from mashwright.recipe.wanted import wanted
from mashwright.reviewing.ask import found_in
from mashwright.reviewing.guard import Guard
from mashwright.reviewing.in_step import finished
from mashwright.reviewing.read import Read
from mashwright.reviewing.results import Fault
from mashwright.reviewing.settings import House, RunRule
from mashwright.reviewing.taking import taken_open
from mashwright.reviewing.watch import Watch


class Found(NamedTuple):
    """One finding of a rule.

    Attributes:
        refused: changes that were tried and are not offered, each with what speaks against it.
    """

    run_rule: RunRule
    finding: Finding
    refused: tuple[str, ...] = ()


class LeftOpen(NamedTuple):
    """A rule that found nothing because it could not look.

    Attributes:
        missing: what it needs, as a brewer would say it.
        path: where that should stand.
    """

    rule: str
    missing: str
    path: Path


class Judged(Struct, frozen=True):
    """What the rules say of one recipe.

    Attributes:
        house: the brewhouse with the rules as it wants them.
        brew: the recipe on that brewhouse.
        answered: the rules that came to an end, whether they found anything or not.
        found: their findings, in the order of the rules.
        open: rules that could not look.
        faults: rules that failed as programs.
        late: rules that were not through in time.
        unsearched: findings in which no remedy was looked for, since there is too much to try in one recipe.
    """

    read: Read
    house: House
    brew: Brew
    answered: tuple[RunRule, ...]
    found: tuple[Found, ...]
    open: tuple[LeftOpen, ...]
    faults: tuple[Fault, ...]
    late: frozenset[str]
    unsearched: int = 0


def judge(read: Read, house: House, today: str = "", watch: Watch | None = None) -> Judged:
    """What every rule of a brewhouse says of a recipe.

    Args:
        read: in which there is a recipe to judge.
        today: YYYY-MM-DD, or "" where no day matters.
        watch: over the rules at work; none where no rules of others are.
    """
    with redirect_stdout(sys.stderr):  # nothing that a plugin prints may get into what somebody else reads
        return finished(judging(read, house, today, watch))


def judging(read: Read, house: House, today: str = "", watch: Watch | None = None) -> Generator[None, None, Judged]:
    """The same rule by rule, with a stop after each, so that many recipes can be judged in step."""
    assert read.recipe is not None
    brew = Brew(read.recipe, house.brewhouse, read.document, today=today, bounds=house.bounds)
    guard = Guard(watch, read.path)
    strangers, overdue = guard.watch.strangers, guard.watch.overdue
    answered: list[RunRule] = []
    found: list[Found] = []
    left_open: list[LeftOpen] = []
    root = read.document.root
    written = {key.text for key, _ in root.entries} if isinstance(root, Mapping) else set[str]()
    for run_rule in house.rules:
        about = run_rule.rule.asks_about
        if about and about.isdisjoint(written):  # it has nothing to ask, and costs nothing
            answered.append(run_rule)
            continue
        if run_rule.rule.check is None or (overdue and guard.left_out(run_rule)):
            continue
        opens = len(brew.opened)
        findings = guard.found_by(run_rule, brew)
        if findings == []:
            why = brew.opened[-1] if len(brew.opened) > opens else _unread(guard, run_rule, brew)
            one = guard.attempt(run_rule, left_open_by, run_rule, why) if why is not None else None
            if one is not None:
                left_open.append(one)
        if strangers and run_rule.rule.stranger:
            guard.put_back(run_rule)
        if findings is not None:
            answered.append(run_rule)
            found += [Found(run_rule, finding) for finding in findings]
        yield
    return Judged(
        read, house, brew, tuple(answered), tuple(found), tuple(left_open), tuple(guard.faults), frozenset(guard.late)
    )


def left_open_by(run_rule: RunRule, why: Unknown) -> LeftOpen:
    """That a rule could not look, and why.

    Raises:
        UnfitError: it does not say why as the contract says.
    """
    return LeftOpen(run_rule.rule.id, *taken_open(why))


def _unread(guard: Guard, run_rule: RunRule, brew: Brew) -> Unknown | None:
    """What a rule that found nothing asked for and could not be read or meant; it is asked once more for that."""
    recipe = brew.recipe
    if not recipe.unread and not brew.opened:
        return None
    recipe.asked.clear()
    afresh = replace(brew, computed={}, opened=[])  # figures that are known already would ask for nothing
    guard.attempt(run_rule, found_in, run_rule, afresh)
    if afresh.opened:
        return afresh.opened[-1]
    return Open(wanted(recipe, recipe.asked[0]), recipe.asked[0]) if recipe.asked else None
