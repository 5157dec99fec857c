"""Findings as an editor shows them, and the changes that mend them."""

from collections.abc import Iterable, Iterator

from lsprotocol import types

from mashwright.editor.buffer import Buffer
from mashwright.editor.completing import Offer
from mashwright.editor.hints import Hint
from mashwright.editor.outline import Part
from mashwright.finding import Level
from mashwright.reading.editing import Replacement
from mashwright.reading.nodes import Span
from mashwright.reviewing.amending import first_choice
from mashwright.reviewing.results import RemedyRow, Result

SEVERITY = {
    Level.ERROR: types.DiagnosticSeverity.Error,
    Level.WARNING: types.DiagnosticSeverity.Warning,
    Level.NOTE: types.DiagnosticSeverity.Information,
}
SOURCE = "mashwright"


def range_of(buffer: Buffer, span: Span) -> types.Range:
    """A piece of the text as the client counts."""
    start, end = buffer.position(span.start), buffer.position(span.end)
    return types.Range(types.Position(*start), types.Position(*end))


def span_of(buffer: Buffer, where: types.Range) -> Span:
    """What the client counts as a piece of the text."""
    start = buffer.index(where.start.line, where.start.character)
    return Span(start, max(start, buffer.index(where.end.line, where.end.character)))


def span_of_result(buffer: Buffer, result: Result) -> Span:
    """Where a finding stands; its lines and columns count characters."""
    place = result.place
    return Span(_index(buffer, place.line, place.column), _index(buffer, place.end_line, place.end_column))


def _index(buffer: Buffer, line: int, column: int) -> int:
    start = buffer.starts[min(line, len(buffer.starts)) - 1]
    return min(start + column - 1, len(buffer.text))


def diagnostic(buffer: Buffer, uri: str, result: Result) -> types.Diagnostic:
    """One finding; one that is accepted is a hint, with the reason."""
    accepted = result.accepted
    return types.Diagnostic(
        range_of(buffer, span_of_result(buffer, result)),
        result.message if accepted is None else f"{result.message} (accepted: {accepted.reason})",
        severity=SEVERITY[result.level] if accepted is None else types.DiagnosticSeverity.Hint,
        code=result.rule,
        source=SOURCE,
        related_information=[
            types.DiagnosticRelatedInformation(
                types.Location(uri, range_of(buffer, buffer.line_span(line - 1))),
                pointer.lstrip("/").replace("/", ", "),
            )
            for pointer, line in result.related
        ]
        or None,
    )


def pieces_of(remedy: RemedyRow) -> tuple[Replacement, ...]:
    """The pieces of text that a change replaces, in their order; none where two of them would replace the same text."""
    pieces: list[Replacement] = []
    for edit in sorted(dict.fromkeys(edit.replacement for edit in remedy.edits), key=lambda one: one.span):
        if pieces and edit.span.start < pieces[-1].span.end:
            return ()
        pieces.append(edit)
    return tuple(pieces)


def mends(
    buffer: Buffer, uri: str, version: int | None, results: Iterable[Result], where: Span
) -> Iterator[types.CodeAction]:
    """What mends the findings at a place, the smallest change first.

    Args:
        version: of the text, where the client takes changes of one version only; else None.
    """
    for result in results:
        span = span_of_result(buffer, result)
        if result.accepted is not None or span.start > where.end or span.end < where.start:
            continue
        chosen = first_choice(buffer.text, result)  # none of a slip that may mean two things: nobody but a person knows
        for remedy in result.remedies:
            if not (pieces := pieces_of(remedy)):
                continue
            edits = [types.TextEdit(range_of(buffer, piece.span), piece.text) for piece in pieces]
            yield types.CodeAction(
                remedy.text,
                kind=types.CodeActionKind.QuickFix,
                diagnostics=[diagnostic(buffer, uri, result)],
                is_preferred=remedy is chosen,
                edit=edits_of([(uri, version, edits)], versions=version is not None),
            )


def edits_of(files: Iterable[tuple[str, int | None, list[types.TextEdit]]], *, versions: bool) -> types.WorkspaceEdit:
    """Changes of several texts.

    Args:
        files: of each its name, its version, which is None where it is not open, and its changes.
        versions: whether the client takes changes of one version of a text only.
    """
    if not versions:
        return types.WorkspaceEdit(changes={uri: edits for uri, _, edits in files})
    return types.WorkspaceEdit(
        document_changes=[
            types.TextDocumentEdit(types.OptionalVersionedTextDocumentIdentifier(uri, version), list(edits))
            for uri, version, edits in files
        ]
    )


_SORTS = {
    "field": types.CompletionItemKind.Property,
    "word": types.CompletionItemKind.EnumMember,
    "name": types.CompletionItemKind.Value,
    "unit": types.CompletionItemKind.Unit,
    "line": types.CompletionItemKind.Snippet,
}


def items(buffer: Buffer, offers: Iterable[Offer]) -> list[types.CompletionItem]:
    """What may stand at the cursor, in the order in which it is offered; the client looks for what was typed in it."""
    found = []
    for number, offer in enumerate(offers):
        first = buffer.text[offer.start : offer.start + 1]
        quote = first if first in ("'", '"') else ""
        found.append(
            types.CompletionItem(
                offer.label,
                kind=_SORTS[offer.sort],
                detail=offer.beside or None,
                documentation=offer.told or None,
                sort_text=f"{number:04}",
                filter_text=f"{quote}{offer.label}",
                text_edit=types.TextEdit(range_of(buffer, Span(offer.start, offer.end)), offer.text),
            )
        )
    return found


def symbols(buffer: Buffer, parts: Iterable[Part]) -> list[types.DocumentSymbol]:
    """The parts of a text as an outline."""
    return [
        types.DocumentSymbol(
            one.name,
            types.SymbolKind.Object if one.listed else types.SymbolKind.Property,
            range_of(buffer, one.whole),
            range_of(buffer, one.key),
            detail=one.detail or None,
            children=symbols(buffer, one.inner) or None,
        )
        for one in parts
    ]


def inlays(buffer: Buffer, hints: Iterable[Hint], within: Span) -> list[types.InlayHint]:
    """Figures beside the text, of the part that the client shows."""
    return [
        types.InlayHint(
            types.Position(*buffer.position(one.behind)), one.text, tooltip=one.told or None, padding_left=True
        )
        for one in hints
        if within.start <= one.behind <= within.end
    ]
