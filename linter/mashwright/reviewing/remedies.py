"""Finds what mends a finding: the smallest step of a knob at which the rule holds, by trying the changed recipe."""

from bisect import bisect_left
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from functools import cache
from typing import NamedTuple, cast

from msgspec import Struct

from mashwright.brew.brew import Brew
from mashwright.budgets import MENDED, TRIED_LINES
from mashwright.figures.beer import abv
from mashwright.figures.function import FigureFunction
from mashwright.figures.mash import CONVERTED_WELL, conversion, og
from mashwright.finding import Edit, Finding, Level, Path, Remedy
from mashwright.knobs import Knob
from mashwright.reading.editing import can_edit
from mashwright.recipe.stated import Unknown
from mashwright.reviewing.taking import taken_edits, taken_words

MOST_REMEDIES = 2
WEAKEST, STRONGEST = 2 / 3, 1.6
"""Of the gravity that a beer had, in points; a change that leads beyond, and not to what is stated, makes another
beer; judgement."""
_BESIDE_LINES = 20  # what a recipe takes beside its lists, as so many lines; measured
_ALL_RULES = 4  # as often as one rule takes what it does to build the recipe and ask that rule; measured

Findings = Callable[[Brew], Iterable[Finding]]


class SpentError(Exception):
    """The budget for trials is spent."""


class Trials(Struct):
    """What the search for remedies may still cost in one recipe.

    Attributes:
        findings: in which they may still be looked for.
        lines: of changed recipes that may still be tried.
        unsearched: findings in which they were not looked for, or not to the end.
        refused: of the finding at hand, each change that was tried and is not offered, and what speaks against it.
    """

    findings: int = MENDED
    lines: int = TRIED_LINES
    unsearched: int = 0
    refused: tuple[str, ...] = ()

    def begin(self) -> bool:
        """Whether one more finding can be looked at."""
        self.refused = ()
        if self.findings > 0 and self.lines > 0:
            self.findings -= 1
            return True
        self.unsearched += 1
        return False

    def refuse(self, change: str, why: str) -> None:
        """Keep what a change would be, and why it is not offered."""
        self.refused = (*self.refused, f"{change}; {why}")

    def spend(self, brew: Brew, times: int = 1) -> None:
        """Count a trial.

        Raises:
            SpentError: there is no room for it.
        """
        readings = 1 + len(brew.other_readings)
        self.lines -= times * readings * (brew.recipe.lines + _BESIDE_LINES)
        if self.lines < 0:
            raise SpentError


class _Trial(NamedTuple):
    edits: tuple[Edit, ...]
    say: str
    brew: Brew


Worst = Mapping[tuple[str, Path], Level]


def worst(findings: Iterable[Finding]) -> dict[tuple[str, Path], Level]:
    """The worst level that each rule has at each place."""
    levels: dict[tuple[str, Path], Level] = {}
    for finding in findings:
        place = (finding.rule, finding.path)
        levels[place] = max(levels.get(place, finding.level), finding.level)
    return levels


def remedies(
    finding: Finding, brew: Brew, check: Findings, check_all: Findings, before: Worst, trials: Trials
) -> tuple[Remedy, ...]:
    """What mends a finding, each tried.

    Args:
        finding: above a note, with its knobs.
        brew: the recipe as it is.
        check: the finding's own rule.
        check_all: every rule, with the rule's name in each finding.
        before: what every rule has to say of the recipe as it is.
        trials: how many there may still be.

    Returns:
        At most two changes after which the rule has nothing above a note to say there, and no rule gains anything.
    """
    found: list[Remedy] = []
    if not trials.begin():
        return ()
    try:
        for knob in cast("tuple[Knob, ...]", finding.knobs):
            if (trial := smallest(knob, finding, brew, check, trials)) is None:
                if knob.count:
                    trials.refuse(taken_words(knob.say(knob.count - 1)), "it is not enough")
                continue
            trials.spend(trial.brew, _ALL_RULES)
            gained = _gained(check_all(trial.brew), before)
            beer, other = _beer_at(brew, finding), _beer_at(trial.brew, finding)
            if gained is not None:
                trials.refuse(trial.say, f"it brings a new {gained.level.word} of {gained.rule}: {gained.message}")
            elif _another_beer(beer, other):
                trials.refuse(trial.say, f"it makes another beer{side_effects(beer, other)}")
            elif unjudged := _left_open(trial.brew) - _left_open(brew):
                trials.refuse(trial.say, f"then some rules cannot judge; they need {min(unjudged)[0]}")
            else:
                found.append(Remedy(trial.say + side_effects(beer, other), trial.edits))
            if len(found) == MOST_REMEDIES:
                break
    except SpentError:
        trials.unsearched += not found
    return tuple(found)


def _beer_at(brew: Brew, finding: Finding) -> Brew:
    """The beer that a finding is about: the wort in which it stands, where a mash gives several."""
    if not brew.recipe.worts:
        return brew
    from mashwright.figures.kettle.worts import wort_at  # most recipes give one beer

    return wort_at(brew, finding.path)


def _left_open(brew: Brew) -> set[tuple[str, Path]]:
    """What kept some rule from judging: a change after which one cannot look any more mends nothing."""
    return {(one.missing, one.path) for one in brew.opened}


def _gained(found: Iterable[Finding], before: Worst) -> Finding | None:
    """The first thing that a rule has to say beyond before; a note that only moved to another place is not beyond."""
    notes = Counter(rule for (rule, _), level in before.items() if level is Level.NOTE)
    for one in found:
        if one.level <= before.get((one.rule, one.path), 0):
            continue
        if one.level > Level.NOTE or not notes[one.rule]:
            return one
        notes[one.rule] -= 1
    return None


def _another_beer(before: Brew, after: Brew) -> bool:
    """Whether a change makes a beer of quite another strength that the recipe does not ask for."""
    old, new, starch = _typical(og, before), _typical(og, after), _typical(conversion, before)
    if old is None or new is None or old <= 1 or (starch is not None and starch < CONVERTED_WELL):
        return False
    stated = before.recipe.targets.og
    if stated.known and abs(new - stated.range.typical) < abs(old - stated.range.typical):
        return False
    return not WEAKEST <= (new - 1) / (old - 1) <= STRONGEST


def smallest(knob: Knob, finding: Finding, brew: Brew, check: Findings, trials: Trials) -> _Trial | None:
    """The first step of a knob at which the finding is gone; more of a knob is taken never to bring it back.

    Raises:
        SpentError: the budget for trials is spent before it is found.
    """

    @cache
    def trial(step: int) -> _Trial | None:
        edits = taken_edits(knob.edits(step))
        root = brew.document.root
        if root is None or not can_edit(root, *(edit.path for edit in edits)):
            return None
        changed = brew.edited(edits)
        trials.spend(changed)
        if changed.recipe.unread - brew.recipe.unread:
            return None
        return _Trial(edits, taken_words(knob.say(step)), changed)

    def holds(step: int) -> bool:
        tried = trial(step)
        if tried is None:
            return False
        try:
            return all(one.level <= Level.NOTE or one.path != finding.path for one in check(tried.brew))
        except Unknown:
            return False

    step = bisect_left(range(knob.count), True, key=holds)
    return trial(step) if step < knob.count else None


def side_effects(before: Brew, after: Brew) -> str:
    """What else a change does to the beer, such as ``; OG goes from 1.048 to 1.055``.

    Nothing where the mash as it is leaves starch: its figures hold for a mash that converts, and mislead here. Nothing
    of several worts together, which nobody drinks.
    """
    starch = _typical(conversion, before)
    if before.recipe.worts or (starch is not None and starch < CONVERTED_WELL):
        return ""
    told: list[str] = []
    for figure_function, label, digits in ((og, "OG", 3), (abv, "ABV", 1)):
        old, new = _typical(figure_function, before), _typical(figure_function, after)
        if old is not None and new is not None and f"{old:.{digits}f}" != f"{new:.{digits}f}":
            unit = " %" if label == "ABV" else ""
            told.append(f"{label}{'' if told else ' goes'} from {old:.{digits}f} to {new:.{digits}f}{unit}")
    return f"; {', '.join(told)}" if told else ""


def _typical(figure_function: FigureFunction, brew: Brew) -> float | None:
    try:
        return figure_function(brew).typical
    except Unknown:
        return None
