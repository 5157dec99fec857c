"""A review in lines for people: each finding in the GNU error format, its sum and what mends it indented below."""

from collections.abc import Callable, Iterator

from mashwright.finding import Level
from mashwright.printable import harmless
from mashwright.reporting.words import INDENT, columns, in_lines, value_and_unit, wrapped
from mashwright.reviewing.results import READING_RULES, Acceptance, RemedyRow, Result, Review, Reviewed
from mashwright.words.plurals import counted

_COLOURS = {Level.ERROR: "31", Level.WARNING: "33", Level.NOTE: "34"}
"""Red, yellow, blue, of the eight that every terminal has; the word says the same without them."""


def recipe_findings(
    recipe: Reviewed, *, notes: bool, colour: bool, width: int = 80, accepted: bool = False
) -> Iterator[str]:
    """The findings of one recipe, line by line without line ends.

    Args:
        notes: print notes too.
        colour: colour the word of the level.
        width: where the lines below a finding wrap, in characters; the finding's own line never does.
        accepted: print what somebody accepted too, with the reason.
    """
    for result in recipe.results:
        standing = result.state in ("", "new") and result.accepted is None
        told = standing or (accepted and result.accepted is not None)
        if told and (notes or result.level > Level.NOTE):
            yield _headline(recipe.path, result, colour=colour)
            yield from _below(result, width)
            for change in result.refused if notes else ():
                yield from wrapped(change, width, f"{INDENT}tried, not offered: ", INDENT * 2)
    if notes:
        yield from _unjudged(recipe, width)


def _unjudged(recipe: Reviewed, width: int) -> Iterator[str]:
    """The rules that could not judge, by what they lack."""
    rules: dict[tuple[int, int, str], list[str]] = {}
    for one in recipe.unjudged:
        rules.setdefault((one.place.line, one.place.column, one.missing), []).append(one.rule)
    for (line, column, missing), some in rules.items():
        need = f"{counted(len(some), 'rule')} cannot judge; {'it needs' if len(some) == 1 else 'they need'} {missing}"
        yield f"{harmless(recipe.path)}:{line}:{column}: open: {harmless(need)}"
        yield from wrapped(", ".join(map(harmless, some)), width, INDENT, INDENT)


def _headline(path: str, result: Result, *, colour: bool) -> str:
    word = result.level.word
    level = f"\x1b[{_COLOURS[result.level]}m{word}\x1b[0m" if colour else word
    place = f"{harmless(path)}:{result.place.line}:{result.place.column}"
    return f"{place}: {level}: {harmless(result.rule)}: {harmless(result.message)}"


def _below(result: Result, width: int) -> Iterator[str]:
    if result.evidence:
        yield from columns(
            [
                (row.label, value_and_unit(row.value, row.unit), f"line {row.line}" if row.line else "")
                for row in result.evidence
            ],
            width,
        )
    told = {result.place.line, *(row.line for row in result.evidence)}
    if further := {line for _, line in result.related} - told:
        yield f"{INDENT}see also {in_lines(further)}"
    # of a slip the message says already what to write
    remedies = () if result.rule in READING_RULES else result.remedies
    for lead, remedy in zip(("mend it: ", *["or: "] * len(remedies)), remedies, strict=False):
        yield from wrapped(_mending(remedy), width, INDENT + lead, INDENT * 2)
    if result.accepted is not None:
        yield from wrapped(_accepting(result.accepted), width, INDENT + "accepted: ", INDENT * 2)


def _mending(remedy: RemedyRow) -> str:
    """The change, where it goes, and behind a semicolon what else it does."""
    change, semicolon, effects = remedy.text.partition("; ")
    where = f" ({in_lines(edit.place.line for edit in remedy.edits)})" if remedy.edits else ""
    return f"{change}{where}{semicolon}{effects}"


def _accepting(acceptance: Acceptance) -> str:
    until = f" (until {acceptance.until})" if acceptance.until else ""
    return acceptance.reason + until


def faults(review: Review) -> Iterator[str]:
    """What failed as a program, a line each, for standard error."""
    for fault in review.faults:
        where = f"{fault.path}: " if fault.path else ""
        what = f"the rule {fault.rule} failed: " if fault.rule else ""
        yield harmless(f"mashwright: {where}{what}{fault.message}")


def remarks(review: Review) -> Iterator[str]:
    """What is told of how the review went, a line each, for standard error."""
    for remark in review.remarks:
        yield harmless(f"mashwright: {remark}")


def closing(review: Review, *, notes: bool = False, shown: Callable[[str], str] = harmless) -> str:
    """The counts in one line.

    Args:
        notes: whether the notes were printed, so that nobody need be told how to see them.
        shown: how a file's name is written.
    """
    counts = review.counts
    said = [_verdict(review)]
    if counts.notes:
        said.append(counted(counts.notes, "note") + ("" if notes else f" (--notes shows {_them(counts.notes)})"))
    if counts.unjudged:
        why = "" if notes else " (--notes shows why)"
        said.append(f"{counted(counts.unjudging, 'rule')} could not judge {counted(counts.unjudged, 'recipe')}{why}")
    if counts.unsearched:
        said.append(f"no remedy was looked for in {counted(counts.unsearched, 'finding')} (mend the others first)")
    if counts.accepted:
        said.append(f"{counts.accepted} accepted")
    if counts.known:
        said.append(f"{counts.known} known")
    if counts.skipped:
        named = ", ".join(map(shown, review.passed_over))
        more = ", …" if counts.skipped > len(review.passed_over) else ""
        said.append(f"{counted(counts.skipped, 'file')} without a recipe skipped{f' ({named}{more})' if named else ''}")
    if review.faults:
        said.append(f"{counted(len(review.faults), 'fault')} of the program, so this is not the whole review")
    return "; ".join(said)


def _verdict(review: Review) -> str:
    counts = review.counts
    if not counts.reviewed and not counts.errors and not counts.warnings:
        return "no recipe found"
    found = [counted(count, noun) for count, noun in ((counts.errors, "error"), (counts.warnings, "warning")) if count]
    reviewed = counted(counts.reviewed, "recipe")
    return f"{reviewed} reviewed: {', '.join(found) or 'no errors, no warnings'}"


def _them(count: int) -> str:
    return "it" if count == 1 else "them"
