"""Mends a recipe: takes the mends that its review offers, one after the other, until none is left that helps.

Slips are mended together, since each is a word or a number for itself; of changes of the beer each is taken alone and
the recipe is reviewed again, since one may mend what another was for. A change is kept only if its finding is gone and
no rule finds more than before.
"""

from collections import Counter
from collections.abc import Callable, Iterable

from msgspec import Struct

from mashwright.finding import Level
from mashwright.reading.editing import Replacement
from mashwright.reviewing.results import READING_RULES, RemedyRow, Result, Reviewed

MOST_ROUNDS = 60
"""Reviews of one recipe; judgement."""

Choose = Callable[[str, Result], RemedyRow | None]
"""Which mend of a finding to take in a text, or none."""


class Change(Struct, frozen=True):
    """One mend that was taken.

    Attributes:
        rule, message: of the finding.
        line: of the finding, in the text before this change.
        text: what was done, as the review says it.
    """

    rule: str
    message: str
    line: int
    text: str


class Amended(Struct, frozen=True):
    """A recipe after its mends.

    Attributes:
        text: of the recipe now.
        changes: in the order in which they were made.
        left: findings for which there was no mend, or none that was taken.
    """

    text: str
    changes: tuple[Change, ...]
    left: tuple[Result, ...]


def first_choice(_text: str, result: Result) -> RemedyRow | None:
    """The first mend; of a slip only where nothing else could have been meant."""
    if result.rule in READING_RULES and len(result.remedies) != 1:
        return None
    return next((remedy for remedy in result.remedies if remedy.edits), None)


def amend(
    text: str,
    review: Callable[[str], Reviewed | None],
    *,
    level: Level = Level.WARNING,
    rules: frozenset[str] = frozenset(),
    only_slips: bool = False,
    choose: Choose = first_choice,
) -> Amended:
    """Mend a recipe as far as its mends go.

    Args:
        text: of the recipe.
        review: reviews a text of it; None where that is no recipe any more.
        level: findings below it are left alone.
        rules: only their findings; those of all rules where none is named.
        only_slips: only what changes nothing of the beer.
        choose: which mend of a finding to take.
    """

    def wanted(result: Result) -> bool:
        slip = result.rule in READING_RULES
        named = not rules or result.rule in rules
        return result.accepted is None and result.level >= level and named and (slip or not only_slips)

    changes: list[Change] = []
    passed: set[str] = set()
    now = review(text)
    for _ in range(MOST_ROUNDS):
        found = [one for one in now.results if wanted(one)] if now is not None else []
        step = _slips(text, found, choose, passed) or _one(text, found, choose, passed)
        if now is None or not step:
            break
        better = applied(text, [edit.replacement for _, remedy in step for edit in remedy.edits])
        then = review(better)
        if then is None or not _mends(now, then, [result for result, _ in step]):
            passed.update(_key(result) for result, _ in step[:1])
            if len(step) > 1:  # of several one may be at fault: the first is left, and the others are tried again
                passed.discard(_key(step[0][0]))
                step = step[:1]
                better = applied(text, [edit.replacement for edit in step[0][1].edits])
                then = review(better)
                if then is None or not _mends(now, then, [step[0][0]]):
                    passed.add(_key(step[0][0]))
                    continue
            else:
                continue
        changes += [Change(result.rule, result.message, result.place.line, remedy.text) for result, remedy in step]
        text, now = better, then
    left = tuple(one for one in now.results if wanted(one)) if now is not None else ()
    return Amended(text, tuple(changes), left)


def applied(text: str, pieces: Iterable[Replacement]) -> str:
    """A text with some of its pieces replaced; none of them overlap."""
    for piece in sorted(pieces, key=lambda one: one.span, reverse=True):
        text = text[: piece.span.start] + piece.text + text[piece.span.end :]
    return text


Step = list[tuple[Result, RemedyRow]]


def _slips(text: str, found: list[Result], choose: Choose, passed: set[str]) -> Step:
    """All slips with a mend, but for those that touch a piece that another changes."""
    step: Step = []
    taken: list[Replacement] = []
    for result in found:
        if result.rule not in READING_RULES or _key(result) in passed:
            continue
        remedy = choose(text, result)
        if remedy is None or not remedy.edits:
            passed.add(_key(result))
            continue
        pieces = [edit.replacement for edit in remedy.edits]
        if not any(_meet(piece, other) for piece in pieces for other in taken):
            step.append((result, remedy))
            taken += pieces
    return step


def _one(text: str, found: list[Result], choose: Choose, passed: set[str]) -> Step:
    """The first finding about the beer with a mend, the worst level before others."""
    for result in sorted(found, key=lambda one: -one.level):
        if result.rule in READING_RULES or _key(result) in passed:
            continue
        remedy = choose(text, result)
        if remedy is not None and remedy.edits:
            return [(result, remedy)]
        passed.add(_key(result))
    return []


def _meet(piece: Replacement, other: Replacement) -> bool:
    return piece.span.start <= other.span.end and other.span.start <= piece.span.end


def _mends(before: Reviewed, after: Reviewed, results: list[Result]) -> bool:
    """Whether findings are gone, and no rule finds more than before, nor a rule that judged cannot judge now.

    What reading finds may hide what it and rules find, so once a slip is mended these are new, and no reproach.
    """
    here = Counter((one.rule, one.message) for one in before.results)
    there = Counter((one.rule, one.message) for one in after.results)
    for result in results:
        key = (result.rule, result.message)
        if there[key] >= here[key]:
            return False
    if any(result.rule in READING_RULES for result in results):
        return _slips_in(after) <= _slips_in(before)
    count_before, count_after = _counted(before), _counted(after)
    worse = any(count_after[rule] > count_before[rule] for rule in count_after)
    own = {result.rule for result in results}  # one that found something here counts as one that could judge
    return not worse and {one.rule for one in after.unjudged} <= {one.rule for one in before.unjudged} | own


def _slips_in(reviewed: Reviewed) -> int:
    return sum(1 for one in reviewed.results if one.rule in READING_RULES)


def _counted(reviewed: Reviewed) -> Counter[str]:
    """How many findings each rule has, errors and warnings counted; notes are worth knowing and no harm."""
    return Counter(one.rule for one in reviewed.results if one.level > Level.NOTE and one.accepted is None)


def _key(result: Result) -> str:
    return f"{result.identity} {result.message}"
