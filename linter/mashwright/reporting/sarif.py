"""Reviews as a SARIF 2.1.0 log.

Source: Static Analysis Results Interchange Format Version 2.1.0 Plus Errata 01, OASIS Standard, 2023.
"""

import re
from typing import Any
from urllib.parse import quote

from mashwright import __version__
from mashwright.reading.document import Place
from mashwright.reporting.machine import rounded, says
from mashwright.reporting.words import value_and_unit
from mashwright.reviewing.results import EditRow, EvidenceRow, Fault, RemedyRow, Result, Review, RuleInfo, Unjudged

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
ROOT = "%SRCROOT%"


def sarif_log(review: Review) -> dict[str, Any]:
    """A review as a log with one run."""
    rules = _all_rules(review)
    index = {rule.id: number for number, rule in enumerate(rules)}
    return {
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {
                    "driver": {
                        "name": "mashwright",
                        "version": __version__,
                        "semanticVersion": __version__,
                        "rules": [_descriptor(rule) for rule in rules],
                    }
                },
                "invocations": [_invocation(review, index)],
                "language": "en-GB",
                "columnKind": "unicodeCodePoints",
                "results": [
                    *(_result(recipe.path, result, index) for recipe in review.recipes for result in recipe.results),
                    *(_unjudged(recipe.path, one, index) for recipe in review.recipes for one in recipe.unjudged),
                ],
            }
        ],
    }


def _all_rules(review: Review) -> list[RuleInfo]:
    """The rules that were run, and any other that a finding or a fault names."""
    known = {rule.id: rule for rule in review.rules}
    named = [result.rule for recipe in review.recipes for result in recipe.results]
    named += [one.rule for recipe in review.recipes for one in recipe.unjudged]
    for rule in (*named, *(fault.rule for fault in review.faults if fault.rule)):
        known.setdefault(rule, RuleInfo(rule, "", ""))
    return list(known.values())


def _descriptor(rule: RuleInfo) -> dict[str, Any]:
    entry: dict[str, Any] = {"id": rule.id}
    if rule.question:
        entry["shortDescription"] = {"text": rule.question}
    if rule.page:
        paragraphs = rule.page.strip().split("\n\n")
        entry["fullDescription"] = {"text": " ".join(paragraphs[min(1, len(paragraphs) - 1)].split())}
        entry["help"] = {"text": rule.page, "markdown": rule.page}
    entry["defaultConfiguration"] = {"enabled": True, "level": "warning"}
    return entry


def _invocation(review: Review, index: dict[str, int]) -> dict[str, Any]:
    told = [_notification(fault, index) for fault in review.faults]
    remarks = [{"level": "note", "message": _message(remark)} for remark in review.remarks]
    return {"executionSuccessful": not told, "toolExecutionNotifications": [*told, *remarks]}


def _notification(fault: Fault, index: dict[str, int]) -> dict[str, Any]:
    entry: dict[str, Any] = {"level": "error", "message": _message(fault.message)}
    if fault.rule:
        entry["associatedRule"] = {"id": fault.rule, "index": index[fault.rule]}
    if fault.path:
        entry["locations"] = [{"physicalLocation": {"artifactLocation": _artifact(fault.path)}}]
    return entry


def _result(path: str, result: Result, index: dict[str, int]) -> dict[str, Any]:
    location: dict[str, Any] = _location(path, _region(result.place), result.pointer)
    entry: dict[str, Any] = {
        "ruleId": result.rule,
        "ruleIndex": index[result.rule],
        "level": result.level.word,
        "message": _message(result.message),
        "locations": [location],
    }
    if related := _related(path, result):
        entry["relatedLocations"] = related
    if result.identity:
        entry["partialFingerprints"] = {"mashwrightIdentity/v1": result.identity}
    if fixes := [_fix(path, remedy) for remedy in result.remedies if remedy.edits]:
        entry["fixes"] = fixes
    if result.state:
        entry["baselineState"] = result.state
    # in one run all results carry suppressions or none does (3.27.23), so an empty list says that nobody accepted it
    entry["suppressions"] = [_suppression(result.accepted.reason, result.accepted.until)] if result.accepted else []
    entry["properties"] = {
        "gap": rounded(result.gap),
        "evidence": [_said(row) for row in result.evidence],
        "says": says(result),
    }
    return entry


def _unjudged(path: str, one: Unjudged, index: dict[str, int]) -> dict[str, Any]:
    """A rule that could not judge: kind open (3.27.9), and then no level (3.27.10)."""
    return {
        "ruleId": one.rule,
        "ruleIndex": index[one.rule],
        "kind": "open",
        "level": "none",
        "message": {"text": f"this rule cannot judge; it needs {one.missing}"},
        "locations": [_location(path, _region(one.place), one.pointer)],
        "suppressions": [],
    }


def _related(path: str, result: Result) -> list[dict[str, Any]]:
    """The lines of the sum, each with what it adds, and then the further places."""
    lines = [(row.pointer or "", row.line, _said(row)) for row in result.evidence if row.line]
    places = [*lines, *((pointer, line, "") for pointer, line in result.related)]
    found = []
    for number, (pointer, line, said) in enumerate(places):
        entry = {"id": number, **_location(path, {"startLine": line}, pointer)}
        found.append(entry | {"message": _message(said)} if said else entry)
    return found


def _message(sentence: str) -> dict[str, str]:
    """A sentence as a viewer shows it; where one in it would become a link (3.11.6), its brackets are escaped."""
    return {"text": re.sub(r"[\\[\]]", r"\\\g<0>", sentence) if "](" in sentence else sentence}


def _said(row: EvidenceRow) -> str:
    return f"{row.label}: {value_and_unit(row.value, row.unit)}"


def _fix(path: str, remedy: RemedyRow) -> dict[str, Any]:
    change = {"artifactLocation": _artifact(path), "replacements": [_replacement(edit) for edit in remedy.edits]}
    return {"description": _message(remedy.text), "artifactChanges": [change]}


def _replacement(edit: EditRow) -> dict[str, Any]:
    return {"deletedRegion": _region(edit.place), "insertedContent": {"text": edit.replacement.text}}


def _suppression(reason: str, until: str) -> dict[str, Any]:
    entry: dict[str, Any] = {"kind": "external", "status": "accepted", "justification": reason}
    return entry | {"properties": {"until": until}} if until else entry


def _location(path: str, region: dict[str, int], pointer: str) -> dict[str, Any]:
    location: dict[str, Any] = {"physicalLocation": {"artifactLocation": _artifact(path), "region": region}}
    if pointer:
        location["logicalLocations"] = [{"fullyQualifiedName": pointer}]
    return location


def _region(place: Place) -> dict[str, int]:
    return {
        "startLine": place.line,
        "startColumn": place.column,
        "endLine": place.end_line,
        "endColumn": place.end_column,
    }


def _artifact(path: str) -> dict[str, str]:
    """A relative URI reference; a name that is no UTF-8 keeps its bytes."""
    try:
        name = path.encode("utf-8", "surrogateescape")
    except UnicodeEncodeError:  # no bytes of any file name, but a baseline may have it
        name = path.encode("utf-8", "surrogatepass")
    if name.startswith(b"//"):  # that would be another machine
        name = b"/" + name.lstrip(b"/")
    return {"uri": quote(name, safe="/~"), "uriBaseId": ROOT}
