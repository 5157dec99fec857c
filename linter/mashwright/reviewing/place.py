"""The fourth step of a review: what was found gets its lines and columns, here and nowhere earlier."""

from collections.abc import Sequence as Many

from msgspec import Struct
from msgspec.structs import replace

from mashwright.finding import Finding, Level, Path
from mashwright.measures import Quantity, from_canonical
from mashwright.reading.document import Document
from mashwright.reading.editing import Replacement, replacements
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence, Span
from mashwright.reading.syntax import short
from mashwright.reviewing.guard import Guard
from mashwright.reviewing.judge import Judged
from mashwright.reviewing.read import Misread, Read
from mashwright.reviewing.results import EditRow, EvidenceRow, Fault, RemedyRow, Result, SaidRow, Unjudged, pointer
from mashwright.reviewing.watch import Watch
from mashwright.words.sentences import Measure


class Placed(Struct, frozen=True):
    """What is told of one recipe, at its places.

    Attributes:
        results: what reading and rules found, in this order.
        unjudged: rules that could not look.
        faults: rules that failed as programs.
    """

    results: tuple[Result, ...]
    unjudged: tuple[Unjudged, ...]
    faults: tuple[Fault, ...]


def place(judged: Judged, watch: Watch | None = None) -> Placed:
    """All findings at their places. What could not be read is told once, by reading, and no rule speaks on it.

    Args:
        watch: over the rules, whose findings these are; none where no rules of others are.
    """
    document = judged.read.document
    guard = Guard(watch, judged.read.path, judged.faults, judged.late)
    by_reading = misread_places(judged.read)
    unread = {one.pointer for one in by_reading if one.level is Level.ERROR}
    results: list[Result] = []
    for run_rule, finding, refused in judged.found:
        result = guard.attempt(run_rule, located, finding, document)
        if result is not None:
            results.append(replace(result, refused=refused) if refused else result)
    unjudged = [
        Unjudged(rule, missing, pointer(path), document.place(document.span_of(path)))
        for rule, missing, path in judged.open
    ]
    if unread:
        dropped = [one for one in results if _lies_in(one.pointer, unread)]
        results = [one for one in results if one not in dropped]
        unjudged += _silenced(dropped, {one.rule for one in results})
    return Placed((*by_reading, *results), tuple(unjudged), tuple(guard.faults))


def misread_places(read: Read) -> tuple[Result, ...]:
    """What reading found, at its places."""
    document = read.document
    return tuple(
        [
            Result(
                one.rule,
                one.level,
                pointer(one.path),
                document.place(one.span),
                one.message,
                remedies=_instead(one, document),
                identity=identity_of(one.rule, one.path, document.root),
            )
            for one in read.misread
        ]
    )


def _instead(misread: Misread, document: Document) -> tuple[RemedyRow, ...]:
    """What may be written at the place of a slip, each as a change of the text."""
    if not misread.instead:
        return ()
    shown = document.text[misread.span.start : misread.span.end]
    inside = Span(misread.span.start, misread.span.end)
    if len(shown) > 1 and shown[0] == shown[-1] and shown[0] in "\"'":  # what stands in quotes stays in them
        inside, shown = Span(inside.start + 1, inside.end - 1), shown[1:-1]
    rows = []
    for text in misread.instead:
        value = "" if misread.path and shown == str(misread.path[-1]) else text  # a name is written anew, and no value
        edit = EditRow(pointer(misread.path), value, Replacement(inside, text), document.place(inside))
        rows.append(RemedyRow(f"write {text} instead of {short(shown)}", (edit,)))
    return tuple(rows)


def _silenced(dropped: Many[Result], speaking: set[str]) -> list[Unjudged]:
    """Rules of which nothing is left but what they found where nothing could be read: each could not judge."""
    first: dict[str, Result] = {}
    for one in dropped:
        if one.rule not in speaking:
            first.setdefault(one.rule, one)
    return [Unjudged(one.rule, "what can be read here", one.pointer, one.place) for one in first.values()]


def _lies_in(where: str, unread: set[str]) -> bool:
    """Whether a place is one of those that could not be read, or lies below one."""
    steps = where.split("/")
    return any("/".join(steps[:count]) in unread for count in range(2, len(steps) + 1))


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
        message=finding.text,
        gap=finding.gap,
        evidence=evidence,
        remedies=tuple(rows),
        related=tuple((pointer(path), line(path)) for path in finding.related),
        identity=identity_of(finding.rule, finding.path, root),
        said=tuple(SaidRow(part.id, {name: _plain(one) for name, one in part.values.items()}) for part in finding.said),
    )


def _plain(value: object) -> object:
    """A value of a sentence as plain data."""
    if isinstance(value, Measure):
        return {"text": str(value), "value": value.value, "unit": value.unit}
    if isinstance(value, Quantity):
        there = from_canonical(value.range.typical, value.unit, value.kind)
        return {"text": value.text, "value": there, "unit": value.unit}
    return value if isinstance(value, int | float) else str(value) if isinstance(value, str) else ""


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
