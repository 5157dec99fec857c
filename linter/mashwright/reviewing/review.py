"""Reviews recipes: text -> document -> recipe -> brew -> rules -> findings at their places."""

from collections.abc import Callable, Iterator
from contextlib import redirect_stdout
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import islice
from sys import stderr
from typing import Any, NamedTuple, ParamSpec, TypeVar

from mashwright.budgets import RULE_FINDINGS
from mashwright.crash import in_words, of_file
from mashwright.figures.brew import Brew
from mashwright.finding import Finding, Level, Path, Remedy
from mashwright.reading.document import Document, read_document
from mashwright.reading.editing import replacements
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence, Span
from mashwright.reading.schema import check_fields
from mashwright.recipe.build import build_recipe
from mashwright.recipe.stated import Open, Unknown
from mashwright.recipe.wanted import wanted
from mashwright.reviewing.accepting import accept
from mashwright.reviewing.capping import capped
from mashwright.reviewing.files import Loaded
from mashwright.reviewing.plugins import Rule
from mashwright.reviewing.readings import found_in_all
from mashwright.reviewing.remedies import Trials, remedies, worst
from mashwright.reviewing.results import (
    EditRow,
    EvidenceRow,
    Fault,
    RemedyRow,
    Result,
    Reviewed,
    Story,
    Unjudged,
    pointer,
)
from mashwright.reviewing.settings import House, Run, RunRule
from mashwright.reviewing.taking import UnfitError, small, taken, taken_open
from mashwright.reviewing.watch import OvertimeError, Watch

_T = TypeVar("_T")
_P = ParamSpec("_P")


class Gathered(NamedTuple):
    """What one rule about the collection wants to know of one recipe."""

    rule: str
    value: Any


@dataclass(slots=True)
class _Open:
    """One recipe under review: what was found so far.

    Attributes:
        watch: over the rules at work.
        late: rules that were not through in time; the recipe goes on without them.
    """

    document: Document
    path: str
    results: list[Result] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    unjudged: list[Unjudged] = field(default_factory=list)
    trials: Trials = field(default_factory=Trials)
    watch: Watch = field(default_factory=partial(Watch, strangers=False))
    late: set[str] = field(default_factory=set)

    def add(self, rule: str, level: Level, path: Path, span: Span, message: str) -> None:
        """A finding of reading."""
        place = self.document.place(span)
        identity = identity_of(rule, path, self.document.root)
        self.results.append(Result(rule, level, pointer(path), place, message, identity=identity))

    def attempt(self, run_rule: RunRule, work: Callable[_P, _T], *args: _P.args, **kwargs: _P.kwargs) -> _T | None:
        """What a rule's work gives; a rule that crashes becomes a tool fault with its name, told once, and None."""
        watch = self.watch
        before, watch.at = watch.at, run_rule.rule.id
        try:
            return work(*args, **kwargs)
        except BaseException as error:  # noqa: BLE001  (here a crash becomes a tool fault)
            self.failed(run_rule, error)
            return None
        finally:
            watch.at = before

    def found_by(self, run_rule: RunRule, brew: Brew) -> list[Finding] | None:
        """What a rule finds, else as ``attempt``; spelt out, since it runs for every rule of every recipe."""
        watch = self.watch
        before, watch.at = watch.at, run_rule.rule.id
        try:
            return found_by(run_rule, brew)
        except BaseException as error:  # noqa: BLE001  (here too)
            self.failed(run_rule, error)
            return None
        finally:
            watch.at = before

    def could_not_judge(self, rule: str, why: Unknown) -> None:
        """Keep that a rule found nothing because it could not look.

        Raises:
            UnfitError: the rule does not say why as the contract says.
        """
        missing, path = taken_open(why)
        place = self.document.place(self.document.span_of(path))
        self.unjudged.append(Unjudged(rule, missing, pointer(path), place))

    def failed(self, run_rule: RunRule, error: BaseException) -> None:
        """Tell of a rule's crash, once.

        Raises:
            BaseException: the error itself, where it is not the rule's: an interrupt, mostly.
        """
        rule, watch = run_rule.rule, self.watch
        if not watch.contains(error):
            raise error
        if isinstance(error, OvertimeError) and rule.id not in self.late:
            self.late.add(rule.id)
            watch.overdue[rule.id] = watch.overdue.get(rule.id, 0) + 1
        if all(fault.rule != rule.id for fault in self.faults):
            self.faults.append(Fault(rule.id, self.path, failure(rule, error, watch.seconds)))

    def left_out(self, run_rule: RunRule) -> bool:
        """Whether a rule is asked no more, since it was too slow too often; the recipe then says so."""
        rule_id = run_rule.rule.id
        if not self.watch.left_out(rule_id):
            return False
        if all(fault.rule != rule_id for fault in self.faults):
            times = self.watch.overdue[rule_id]
            message = f"it was too slow on {times} recipes, so it was not asked about this one"
            self.faults.append(Fault(rule_id, self.path, message))
        return True

    def put_back(self, run_rule: RunRule) -> None:
        """What a rule of others changed for everybody is undone, and told as its fault."""
        if changed := self.watch.put_back():
            message = (
                f"it called {changed}, which was undone; please report it to those who make {run_rule.rule.origin}"
            )
            self.faults.append(Fault(run_rule.rule.id, self.path, message))


def failure(rule: Rule, error: BaseException, seconds: float) -> str:
    """What is told of a rule that failed as a program, and to whom to report it.

    Args:
        seconds: that it had.
    """
    if isinstance(error, OvertimeError):
        why = f"it was not through after {seconds:g} s"
    else:
        why = str(error) if isinstance(error, UnfitError) else in_words(error)
    return f"{why}; the other rules went on; please report it to those who make {rule.origin}"


def review_loaded(
    loaded: Loaded, path: str, house: House, run: Run, in_house: str = "", watch: Watch | None = None
) -> tuple[Reviewed, tuple[Fault, ...], tuple[Gathered, ...], tuple[Path, ...]]:
    """Review the text of one file.

    Args:
        loaded: its text, or why there is none.
        path: as reports show it.
        house: its brewhouse.
        run: how the review goes.
        in_house: the path seen from the brewhouse's folder, for globs of ``accepted``.
        watch: over the rules at work; none where no rules of others are.

    Returns:
        The recipe with its findings, what failed as a program, what rules about the collection want to know of it, and
        the places of those acceptances of the brewhouse that were of use.
    """
    unused = tuple(item.path for item in house.brewhouse.accepted)  # nobody knows what they would accept here
    watch = watch or Watch(strangers=False)
    if loaded.problem is not None:
        opened = _Open(Document(loaded.text, None), path)
        opened.add("unreadable", Level.ERROR, (), loaded.problem.span, loaded.problem.message)
        return Reviewed(path, "", capped(opened.results)), (), (), unused
    document = read_document(loaded.text)
    opened = _Open(document, path, watch=watch)
    for one_problem in document.problems:
        opened.add("unreadable", Level.ERROR, (), one_problem.span, one_problem.message)
    if document.root is None:
        return Reviewed(path, "", capped(opened.results)), (), (), unused
    fields = check_fields(document, "recipe")
    for problem in fields:
        opened.add("field", Level.ERROR, problem.path, problem.span, problem.message)
    if any(not problem.path for problem in fields):  # this is no recipe at all
        return Reviewed(path, "", capped(opened.results)), (), (), unused
    recipe, quantities = build_recipe(document)
    told = {problem.path for problem in fields}
    for one in quantities:
        if one.path not in told:
            opened.add("quantity", one.level, one.path, one.span, one.message)
    unread = {result.pointer for result in opened.results if result.level is Level.ERROR}
    by_reading = len(opened.results)
    brew = Brew(recipe, house.brewhouse, document, today=run.today, bounds=house.bounds)
    check_rules(opened, brew, house, run)
    # what could not be read is told once, and no rule speaks on it
    _drop_unread(opened, by_reading, unread)
    gathered = _gathered(opened, brew, house) if run.collection else ()
    story = _story(opened, brew) if run.audit else None
    brew.computed.clear()  # figures hold their brew in their workings, and it holds them; so both are freed at once
    results, used = opened.results, unused
    if not run.audit:
        failed = {fault.rule for fault in opened.faults}
        results, used = accept(opened.results, recipe, house, run.today, in_house, document, failed)
    results.sort(key=lambda result: (result.place, result.rule, result.message))
    unjudged = tuple(sorted(opened.unjudged, key=lambda left: (left.place, left.rule)))
    reviewed = Reviewed(
        path, recipe.name, capped(results), story=story, unjudged=unjudged, unsearched=opened.trials.unsearched
    )
    return reviewed, tuple(opened.faults), gathered, used


def _drop_unread(opened: _Open, by_reading: int, unread: set[str]) -> None:
    """Leave out what rules found where nothing could be read; one that found nothing else could not judge."""
    found = opened.results[by_reading:]
    dropped = [one for one in found if _lies_in(one.pointer, unread)]
    if not dropped:
        return
    opened.results[by_reading:] = [one for one in found if one not in dropped]
    silent = {one.rule for one in dropped} - {one.rule for one in opened.results[by_reading:]}
    for one in dropped:
        if one.rule in silent:
            silent.discard(one.rule)
            opened.unjudged.append(Unjudged(one.rule, "what can be read here", one.pointer, one.place))


def _story(opened: _Open, brew: Brew) -> Story | None:
    from mashwright.reviewing.story import story_of  # an audit alone needs every figure

    try:
        return story_of(brew, opened.path)
    except Exception as error:  # noqa: BLE001  (the findings are there without it)
        opened.faults.append(Fault("", opened.path, of_file(error, "recipe", "told in full")))
        return None


def check_rules(opened: _Open, brew: Brew, house: House, run: Run) -> None:
    """Run every rule on a brew, look for what mends each finding, and add them all."""
    found: list[tuple[RunRule, list[Finding]]] = []

    def check_all(changed: Brew) -> Iterator[Finding]:
        for run_rule, _ in found:
            if run_rule.rule.id not in opened.late:
                yield from opened.found_by(run_rule, changed) or ()

    def mended(run_rule: RunRule, finding: Finding) -> tuple[Remedy, ...]:
        if finding.level <= Level.NOTE or not finding.knobs or not run.remedies or finding.rule in opened.late:
            return ()
        return remedies(finding, brew, partial(check_one, run_rule), check_all, before, opened.trials)

    with redirect_stdout(stderr):  # nothing that a plugin prints may get into a report
        for run_rule in house.rules:
            if run_rule.rule.check is None or (opened.watch.overdue and opened.left_out(run_rule)):
                continue
            opens = len(brew.opened)
            findings = opened.found_by(run_rule, brew)
            if findings == []:
                why = brew.opened[-1] if len(brew.opened) > opens else _unread(opened, run_rule, brew)
                if why is not None:
                    opened.attempt(run_rule, opened.could_not_judge, run_rule.rule.id, why)
            if opened.watch.strangers and run_rule.rule.stranger:
                opened.put_back(run_rule)
            if findings is not None:
                found.append((run_rule, findings))
        before = worst(finding for _, findings in found for finding in findings)
        for run_rule, findings in found:
            for finding in findings:
                opened.trials.against = ""
                changes = opened.attempt(run_rule, mended, run_rule, finding) or ()
                result = opened.attempt(run_rule, located, replace(finding, remedies=changes), opened.document)
                if result is not None:
                    against = "" if changes else opened.trials.against
                    opened.results.append(replace(result, against=against) if against else result)


def _unread(opened: _Open, run_rule: RunRule, brew: Brew) -> Unknown | None:
    """What a rule that found nothing asked for and could not be read or meant; it is asked once more for that."""
    recipe = brew.recipe
    if not recipe.unread and not brew.opened:
        return None
    recipe.asked.clear()
    afresh = replace(brew, computed={}, opened=[])  # figures that are known already would ask for nothing
    opened.attempt(run_rule, _found_by, run_rule, afresh)
    if afresh.opened:
        return afresh.opened[-1]
    return Open(wanted(recipe, recipe.asked[0]), recipe.asked[0]) if recipe.asked else None


def _lies_in(where: str, unread: set[str]) -> bool:
    """Whether a place is one of those that could not be read, or lies below one."""
    steps = where.split("/")
    return any("/".join(steps[:count]) in unread for count in range(2, len(steps) + 1))


def _gathered(opened: _Open, brew: Brew, house: House) -> tuple[Gathered, ...]:
    """What the rules about the collection want to know of this recipe."""

    def known(rule: str, gather: Callable[[Brew], object]) -> object:
        try:
            return small(gather(brew))
        except Unknown as unknown:
            if brew.is_open(unknown):
                opened.could_not_judge(rule, unknown)
            return None

    found = []
    with redirect_stdout(stderr):
        for run_rule in house.rules:
            if (gather := run_rule.rule.gather) is not None and not opened.left_out(run_rule):
                value = opened.attempt(run_rule, known, run_rule.rule.id, gather)
                if value is not None:
                    found.append(Gathered(run_rule.rule.id, value))
    return tuple(found)


def check_one(run_rule: RunRule, brew: Brew) -> list[Finding]:
    """What one rule finds, with its name and under its ceiling.

    Raises:
        Unknown: a figure that it asks for cannot be had.
        UnfitError: what it yields is not as the contract says.
    """
    check = run_rule.rule.check
    return _named(run_rule, list(islice(check(brew, run_rule.limits), _ENOUGH))) if check is not None else []


def found_by(run_rule: RunRule, brew: Brew) -> list[Finding]:
    """What one rule finds; a figure that cannot be had ends it, and what it found before that stays.

    Raises:
        UnfitError: what it yields is not as the contract says.
    """
    if run_rule.rule.check is None:
        return []
    return found_in_all(brew, partial(_found_by, run_rule)) if brew.unknown else _found_by(run_rule, brew)


def _found_by(run_rule: RunRule, brew: Brew) -> list[Finding]:
    found: list[Finding] = []
    check = run_rule.rule.check
    assert check is not None
    try:
        found.extend(islice(check(brew, run_rule.limits), _ENOUGH))
    except Unknown as unknown:
        brew.refused(unknown)
    return _named(run_rule, found) if found else found


_ENOUGH = RULE_FINDINGS + 1


def _named(run_rule: RunRule, found: list[Finding]) -> list[Finding]:
    if len(found) == _ENOUGH:
        raise UnfitError(f"it yields more than {RULE_FINDINGS} findings of one recipe")
    rule, ceiling = run_rule.rule.id, run_rule.ceiling
    return [taken(finding, rule, ceiling) for finding in found]


def located(finding: Finding, document: Document) -> Result:
    """A finding at its place in the text."""
    root = document.root
    assert root is not None

    def line(path: Path) -> int:
        return document.place(document.span_of(path)).line

    evidence = tuple(
        EvidenceRow(
            row.label,
            row.value,
            row.unit,
            pointer(row.path) if row.path is not None else None,
            line(row.path) if row.path is not None else None,
        )
        for row in finding.evidence
    )
    rows = []
    for remedy in finding.remedies:
        pieces = [(edit, replacements(document.text, root, (edit,))[0]) for edit in remedy.edits]
        edits = tuple(
            EditRow(pointer(edit.path), edit.text, piece, document.place(piece.span)) for edit, piece in pieces
        )
        rows.append(RemedyRow(remedy.text, edits))
    return Result(
        rule=finding.rule,
        level=finding.level,
        pointer=pointer(finding.path),
        place=document.place(document.span_of(finding.path)),
        message=finding.message,
        gap=finding.gap,
        evidence=evidence,
        remedies=tuple(rows),
        related=tuple((pointer(path), line(path)) for path in finding.related),
        identity=identity_of(finding.rule, finding.path, root),
    )


def identity_of(rule: str, path: Path, root: Node | None) -> str:
    """What stays the same when lines move: the rule, and the place with names in place of list indexes."""
    steps: list[str | int] = []
    node = root
    for step in path:
        if isinstance(node, Sequence) and isinstance(step, int) and step < len(node.items):
            node = node.items[step]
            steps.append(_called(node, step))
        else:
            node = node.get(str(step)) if isinstance(node, Mapping) else None
            steps.append(step)
    return f"{rule} {pointer(tuple(steps))}"


def _called(item: Node, index: int) -> str | int:
    """A list item's name: the value of its first field, if that is a text and no quantity."""
    if isinstance(item, Mapping) and item.entries:
        first = item.entries[0][1]
        if isinstance(first, Scalar) and first.text and not first.text[0].isdigit():
            return first.text
    return index
