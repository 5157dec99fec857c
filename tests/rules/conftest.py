import importlib
from collections.abc import Callable

import pytest

from mashwright.figures.brew import Brew
from mashwright.figures.figure import Unknown
from mashwright.finding import Finding
from mashwright.reading.document import read_document
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.build import build_recipe
from mashwright.recipe.build_brewhouse import build_brewhouse
from mashwright.reviewing.readings import found_in_all


@pytest.fixture
def found() -> Callable[..., list[str]]:
    """Runs one rule on one recipe text: ``line:column: level: message`` of each finding."""

    def run(rule: str, text: str, brewhouse: str = "", **limits: float) -> list[str]:
        module = importlib.import_module(f"mashwright_rules.{rule}")
        if not hasattr(module, "check"):
            return []
        document = read_document(text)
        house = build_brewhouse(read_document(brewhouse))[0] if brewhouse else Brewhouse()
        brew = Brew(build_recipe(document)[0], house, document)

        def find(reading: Brew) -> list[Finding]:
            try:
                return list(module.check(reading, module.Limits(limits)))
            except Unknown:
                return []

        findings = found_in_all(brew, find) if brew.unknown else find(brew)
        places = [document.place(document.span_of(finding.path)) for finding in findings]
        return [
            f"{place.line}:{place.column}: {finding.level.word}: {finding.message}"
            for place, finding in zip(places, findings, strict=True)
        ]

    return run
