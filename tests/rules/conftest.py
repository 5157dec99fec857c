from collections.abc import Callable, Iterator

import pytest

from mashwright.brew import Brew
from mashwright.finding import Finding
from mashwright.reading.document import read_document
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.build_brewhouse import build_brewhouse
from mashwright.recipe.stated import Unknown
from mashwright.reporting.machine import rounded
from mashwright.reporting.text import recipe_findings
from mashwright.reviewing.judge import judge
from mashwright.reviewing.mend import mend
from mashwright.reviewing.place import Placed, place
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.read import read
from mashwright.reviewing.results import Reviewed
from mashwright.reviewing.settings import House, RunRule
from mashwright.rule import Settings


def _placed(
    rule: str, text: str, brewhouse: str, limits: dict[str, float], *, remedies: bool = False
) -> tuple[Placed, list[str]]:
    """One recipe as a review judges it by one rule, and what that rule says is not stated."""
    plain = installed().rules[rule.replace("_", "-")]
    not_stated: list[str] = []

    def check(brew: Brew, settings: Settings) -> Iterator[Finding]:
        assert plain.check is not None
        try:
            yield from plain.check(brew, settings)
        except Unknown as unknown:
            not_stated.append(f"not stated: {unknown.missing}")
            raise

    asked = plain._replace(check=check if plain.check is not None else None)
    run_rule = RunRule(asked, plain.limits(limits))
    built = build_brewhouse(read_document(brewhouse))[0] if brewhouse else Brewhouse()
    judged = judge(read(text, "recipe.yaml"), House(built, (run_rule,)))
    placed = place(mend(judged) if remedies else judged)
    assert placed.faults == ()
    return placed, not_stated


@pytest.fixture
def found() -> Callable[..., list[str]]:
    """Runs one rule on one recipe text as a review does: ``line:column: level: message`` of each finding.

    An empty list says that the rule looked and found nothing. One that could not look says so in its place:
    ``line:column: open: what is missing`` where something stands there that cannot be read or meant, as a review tells
    it too, and ``not stated: what is missing`` where the recipe just does not say it.
    """

    def run(rule: str, text: str, brewhouse: str = "", **limits: float) -> list[str]:
        placed, not_stated = _placed(rule, text, brewhouse, limits)
        told = [
            f"{one.place.line}:{one.place.column}: {one.level.word}: {one.message}"
            for one in sorted(placed.results, key=lambda one: (one.place, one.message))
            if one.rule == rule.replace("_", "-")
        ]
        left_open = [
            f"{one.place.line}:{one.place.column}: open: {one.missing}"
            for one in sorted(placed.unjudged, key=lambda one: one.place)
        ]
        return told or left_open or not_stated[:1]

    return run


@pytest.fixture
def mended() -> Callable[..., list[str]]:
    """The remedies that one rule offers in one recipe, as ``found`` runs it; all of its findings together."""

    def run(rule: str, text: str, brewhouse: str = "", **limits: float) -> list[str]:
        placed, _ = _placed(rule, text, brewhouse, limits, remedies=True)
        own = sorted(
            (one for one in placed.results if one.rule == rule.replace("_", "-")),
            key=lambda one: (one.place, one.message),
        )
        return [remedy.text for one in own for remedy in one.remedies]

    return run


@pytest.fixture
def printed() -> Callable[..., list[str]]:
    """What a review prints of one rule in one recipe, its sums and remedies with it, and how far each misses."""

    def run(rule: str, text: str, brewhouse: str = "") -> list[str]:
        placed, not_stated = _placed(rule, text, brewhouse, {}, remedies=True)
        own = sorted(
            (one for one in placed.results if one.rule == rule.replace("_", "-")),
            key=lambda one: (one.place, one.message),
        )
        lines = []
        for one in own:
            lines += recipe_findings(Reviewed("recipe.yaml", "", (one,)), notes=True, colour=False)
            lines.append(f"    misses by {rounded(one.gap)}")
        left_open = [f"{one.place.line}:{one.place.column}: open: {one.missing}" for one in placed.unjudged]
        return lines or left_open or not_stated[:1] or ["nothing"]

    return run
