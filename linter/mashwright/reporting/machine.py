"""Reviews as the public JSON document, and how every JSON document is written."""

import json
from collections.abc import Mapping
from math import isfinite
from typing import Any

from mashwright.printable import harmless, printed
from mashwright.reviewing.results import EditRow, Result, Review, Unjudged

SIGNIFICANT = 6


def review_document(review: Review) -> dict[str, Any]:
    """A review as ``mashwright-review``, version 1; its schema is ``review.schema.json``."""
    counts = review.counts
    return {
        "format": "mashwright-review",
        "version": 1,
        "recipes": [
            {
                "path": recipe.path,
                "name": recipe.name,
                "findings": [_finding(result) for result in recipe.results],
                "open": [_unjudged(one) for one in recipe.unjudged],
            }
            for recipe in review.recipes
        ],
        "faults": [{"rule": fault.rule, "path": fault.path, "message": fault.message} for fault in review.faults],
        "remarks": list(review.remarks),
        "counts": {
            "reviewed": counts.reviewed,
            "skipped": counts.skipped,
            "errors": counts.errors,
            "warnings": counts.warnings,
            "notes": counts.notes,
            "open": counts.unjudged,
            "unsearched": counts.unsearched,
        },
    }


def _unjudged(one: Unjudged) -> dict[str, Any]:
    return {
        "rule": one.rule,
        "needs": one.missing,
        "pointer": one.pointer,
        "line": one.place.line,
        "column": one.place.column,
    }


def _finding(result: Result) -> dict[str, Any]:
    return {
        "rule": result.rule,
        "level": result.level.word,
        "pointer": result.pointer,
        "line": result.place.line,
        "column": result.place.column,
        "end-line": result.place.end_line,
        "end-column": result.place.end_column,
        "message": result.message,
        "says": says(result),
        "gap": rounded(result.gap),
        "evidence": [
            {
                "label": row.label,
                "value": row.value if isinstance(row.value, str) else rounded(row.value),
                "unit": row.unit,
                "pointer": row.pointer,
            }
            for row in result.evidence
        ],
        "remedies": [
            {"text": remedy.text, "edits": [_edit(edit) for edit in remedy.edits]} for remedy in result.remedies
        ],
        "accepted": result.accepted and {"reason": result.accepted.reason, "until": result.accepted.until or None},
        "state": result.state or None,
        "identity": result.identity,
    }


def _edit(edit: EditRow) -> dict[str, Any]:
    """One edit by its value, and by the piece of text that another takes the place of."""
    return {
        "pointer": edit.pointer,
        "text": edit.text,
        "line": edit.place.line,
        "column": edit.place.column,
        "end-line": edit.place.end_line,
        "end-column": edit.place.end_column,
        "put": edit.replacement.text,
    }


def says(result: Result) -> list[dict[str, Any]]:
    """The sentences of a finding with their values: texts, numbers, and measures with text, value and unit."""
    return [
        {"id": one.id, "values": {name: _value(value) for name, value in one.values.items()}} for one in result.said
    ]


def _value(value: Any) -> Any:
    if isinstance(value, dict):
        return {**value, "text": harmless(value["text"]), "value": rounded(value["value"])}
    return harmless(value) if isinstance(value, str) else rounded(value)


def rounded(value: float | None) -> float | None:
    """A number with 6 significant digits; None stays, and stands for a number without bound, which JSON has not."""
    if value is None or not isfinite(value):
        return None
    short = float(f"{value:.{SIGNIFICANT}g}")
    return int(short) if short.is_integer() else short


def dump(document: Mapping[str, Any], depth: int = 2) -> str:
    """A document as text: what can be printed as it is, line ends by hand, a line end at its end.

    Args:
        document: plain values, its keys in the order in which they are written.
        depth: how many levels are spread over lines; what lies deeper stands on one line, since the fast encoder knows
            only that.
    """
    return _spread(document, depth, "") + "\n"


def _spread(value: Any, depth: int, indent: str) -> str:
    if not depth or not value or not isinstance(value, dict | list):
        # a file name that is no UTF-8 reaches us as lone surrogates; as \\udcff they are sound JSON
        return printed(json.dumps(value, ensure_ascii=False, allow_nan=False), _escaped)
    inner = indent + " "
    if isinstance(value, dict):
        rows = [f"{_spread(key, 0, inner)}: {_spread(one, depth - 1, inner)}" for key, one in value.items()]
        return f"{{\n{inner}" + f",\n{inner}".join(rows) + f"\n{indent}}}"
    return f"[\n{inner}" + f",\n{inner}".join(_spread(one, depth - 1, inner) for one in value) + f"\n{indent}]"


def _escaped(one: str) -> str:
    """A character as JSON writes it in a text; one outside the first plane takes two."""
    units = one.encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{high:02x}{low:02x}" for high, low in zip(units[::2], units[1::2], strict=True))
