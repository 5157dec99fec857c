"""Reviews as JUnit XML, in which CI servers take test results: a suite a folder, a case a recipe.

No standard stands behind the form; these are the elements and attributes that its readers have in common.
"""

from collections.abc import Iterable, Iterator
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from msgspec.structs import replace

from mashwright.printable import harmless
from mashwright.reporting.text import recipe_findings
from mashwright.reviewing.results import Fault, Result, Review, Reviewed
from mashwright.words.plurals import counted

TOOL = "mashwright"


def junit(review: Review) -> str:
    """A review as a document of test suites, with the same bytes for the same review.

    A fault is a case of its own, beside those of the recipes, so that no case has two outcomes and the counts are of
    cases. What XML cannot hold, of which nothing can be printed either, is written as its escape.

    Args:
        review: what to write.
    """
    suites: dict[str, list[Element]] = {}
    for recipe in review.recipes:
        suites.setdefault(_folder(recipe.path), []).append(_recipe_case(recipe))
    for fault in review.faults:
        suites.setdefault(_folder(fault.path) if fault.path else TOOL, []).append(_fault_case(fault))
    if review.remarks:
        suites.setdefault(TOOL, []).append(_remarks_case(review.remarks))
    root = Element("testsuites", {"name": TOOL, **_tally(case for cases in suites.values() for case in cases)})
    for folder, cases in suites.items():
        suite = SubElement(root, "testsuite", {"name": harmless(folder), **_tally(cases), "skipped": "0", "time": "0"})
        suite.extend(cases)
    indent(root)
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{tostring(root, encoding="unicode")}\n'


def _folder(path: str) -> str:
    return path.rpartition("/")[0] or "."


def _tally(cases: Iterable[Element]) -> dict[str, str]:
    outcomes = [{part.tag for part in case} for case in cases]
    failures, errors = (sum(outcome in parts for parts in outcomes) for outcome in ("failure", "error"))
    return {"tests": str(len(outcomes)), "failures": str(failures), "errors": str(errors)}


def _case(folder: str, name: str) -> Element:
    # many readers ask for a time; a measured one would make two runs differ
    return Element("testcase", classname=harmless(folder), name=harmless(name), time="0")


def _recipe_case(recipe: Reviewed) -> Element:
    case = _case(_folder(recipe.path), recipe.path)
    standing = [result for result in recipe.results if result.accepted is None and result.state in {"", "new"}]
    failing = [result for result in standing if result.level >= recipe.stop_at]
    told: list[str] = []
    if failing:
        worst = max(failing, key=lambda result: result.level)
        more = f" (and {counted(len(standing) - 1, 'more finding', 'more findings')})" if len(standing) > 1 else ""
        failure = SubElement(case, "failure", message=harmless(worst.message) + more, type=worst.level.word)
        failure.text = "\n".join(_lines(standing))
    else:
        told += _lines(standing)
    told += _aside(recipe)
    if told:
        SubElement(case, "system-out").text = "\n".join(told)
    return case


def _lines(results: Iterable[Result]) -> Iterator[str]:
    """Findings as in the text report, without the path that the case has for its name."""
    nameless = Reviewed("", "", tuple(replace(result, state="") for result in results))
    for line in recipe_findings(nameless, notes=True, colour=False, accepted=True):
        yield line.removeprefix(":")


def _aside(recipe: Reviewed) -> Iterator[str]:
    """What fails nothing: accepted, known before, or gone."""
    there = [result for result in recipe.results if result.state != "absent"]
    accepted = [result for result in there if result.accepted is not None]
    known = [result for result in there if result.accepted is None and result.state in {"unchanged", "updated"}]
    for title, some in (("accepted:", accepted), ("known before:", known)):
        if some:
            yield title
            yield from _lines(some)
    for one in recipe.unjudged:
        yield f"could not judge: {harmless(one.rule)}; it needs {harmless(one.missing)} (line {one.place.line})"
    for result in recipe.results:
        if result.state == "absent":
            yield f"gone since: {harmless(result.rule)} at {harmless(result.pointer) or 'the top'}"


def _remarks_case(remarks: Iterable[str]) -> Element:
    case = _case(TOOL, "how the review went")
    SubElement(case, "system-out").text = "\n".join(map(harmless, remarks))
    return case


def _fault_case(fault: Fault) -> Element:
    what = f"the rule {fault.rule}" if fault.rule else "the program"
    case = _case(
        _folder(fault.path) if fault.path else TOOL,
        f"{fault.path}: {what}" if fault.path else what,
    )
    SubElement(case, "error", message=harmless(fault.message), type="fault")
    return case
