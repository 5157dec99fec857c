"""A comparison as text, as Markdown for a pull request, and as JSON."""

from collections.abc import Iterator
from typing import Any

from mashwright.brew.board import number
from mashwright.printable import harmless
from mashwright.reporting.words import INDENT, wrapped
from mashwright.reviewing.comparing import Compared, Line, Moved
from mashwright.reviewing.results import Result

MOST_LINES = 60
"""Rows of one recipe in Markdown; a comment of a forge has a bound. Judgement."""
MOST_RECIPES = 30
_SURE = {"more": "", "less": "", "either way": "either way, by the lot", "": ""}


def compared_text(recipes: list[Compared], width: int = 80) -> Iterator[str]:
    """All recipes that changed, line by line."""
    for index, one in enumerate(recipes):
        if index:
            yield ""
        yield from wrapped(_title(one), width, rest=INDENT)
        for line in one.lines:
            yield from wrapped(_line(line), width, INDENT, INDENT * 2)
        if one.figures:
            yield f"{INDENT}The beer:"
        for moved in one.figures:
            yield from wrapped(_figure(moved), width, INDENT * 2, INDENT * 3)
        for word, findings in _findings(one):
            for finding in findings:
                yield from wrapped(f"{word}: {_finding(finding)}", width, INDENT, INDENT * 2)


def _title(one: Compared) -> str:
    name = one.name or "A recipe without a name"
    if one.kind != "changed":
        return f"{name}, {one.path}: {'a new recipe' if one.kind == 'new' else 'no longer here'}"
    return f"{name}, {one.path}{f' (before: {one.was})' if one.was else ''}"


def _line(line: Line) -> str:
    if not line.before:
        return f"{line.what}: added: {line.after}"
    return f"{line.what}: {line.before} to {line.after}" if line.after else f"{line.what}: removed: {line.before}"


def _figure(moved: Moved) -> str:
    sure = _SURE[moved.sure]
    known = f"{moved.before or 'not known'} before, {moved.after or 'not known'} now"
    return f"{moved.title}: {known}{f'; {sure}' if sure else ''}"


def _findings(one: Compared) -> tuple[tuple[str, tuple[Result, ...]], ...]:
    return ("new", one.came), ("worse", one.worse), ("gone", one.went)


def _finding(finding: Result) -> str:
    return f"{finding.level.word}: {finding.rule}: {finding.message}"


def compared_markdown(recipes: list[Compared]) -> Iterator[str]:
    """What changes in the beer, a short table a recipe, the rest folded; bounded, and harmless to a forge."""
    if not recipes:
        yield "Nothing changes in the beer."
    for one in recipes[:MOST_RECIPES]:
        yield f"### {_plain(_title(one))}"
        yield ""
        if one.lines:
            yield "| line | before | after |"
            yield "|---|---|---|"
            for line in one.lines[:MOST_LINES]:
                yield f"| {_plain(line.what)} | {_plain(line.before)} | {_plain(line.after)} |"
            yield ""
        if one.figures:
            yield "| the beer | before | after | |"
            yield "|---|---|---|---|"
            for moved in one.figures:
                cells = (moved.title, moved.before or "not known", moved.after or "not known", _SURE[moved.sure])
                yield f"| {' | '.join(_plain(cell) for cell in cells)} |"
            yield ""
        told = [f"- **{word}** {_plain(_finding(two))}" for word, found in _findings(one) for two in found]
        if told:
            yield "<details><summary>findings</summary>"
            yield ""
            yield from told[:MOST_LINES]
            yield ""
            yield "</details>"
            yield ""
    if len(recipes) > MOST_RECIPES:
        yield f"and {len(recipes) - MOST_RECIPES} more recipes"


def _plain(text: str) -> str:
    """A text that no Markdown reads as anything else, and that calls nobody."""
    escaped = "".join(f"\\{sign}" if sign in "\\`*_{}[]()#+!|<>&~" else sign for sign in harmless(text))
    return escaped.replace("@", "@\N{ZERO WIDTH SPACE}")


def compared_document(recipes: list[Compared]) -> dict[str, Any]:
    """A comparison as ``mashwright-comparison``, version 1; its schema is ``comparison.schema.json``."""
    return {
        "format": "mashwright-comparison",
        "version": 1,
        "recipes": [
            {
                "path": one.path,
                "was": one.was or None,
                "name": one.name,
                "kind": one.kind,
                "lines": [
                    {"what": line.what, "before": line.before or None, "after": line.after or None}
                    for line in one.lines
                ],
                "figures": [
                    {
                        "id": moved.id,
                        "before": moved.before or None,
                        "after": moved.after or None,
                        "change": None if moved.change is None else float(number(moved.change, 6)),
                        "unit": moved.unit,
                        "sure": moved.sure or None,
                    }
                    for moved in one.figures
                ],
                **{
                    word: [
                        {"rule": found.rule, "level": found.level.word, "message": found.message} for found in findings
                    ]
                    for word, findings in _findings(one)
                },
            }
            for one in recipes
        ],
    }
