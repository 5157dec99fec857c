"""Tries one rule on recipes given as text: for the tests of a rule, ours or a stranger's."""

from collections.abc import Iterator
from contextlib import suppress
from types import ModuleType

from mashwright.figures.brew import Brew
from mashwright.finding import Finding
from mashwright.reading.document import Document, read_document
from mashwright.recipe.build import build_recipe
from mashwright.recipe.stated import Unknown
from mashwright.reviewing.files import Loaded
from mashwright.reviewing.houses import Houses
from mashwright.reviewing.plugins import Installed, rule_of
from mashwright.reviewing.review import found_by
from mashwright.reviewing.settings import RunRule
from mashwright.reviewing.taking import UnfitError, small, taken_pair

NAMES = ("first.yaml", "second.yaml", "third.yaml", "fourth.yaml")


def tried(module: ModuleType, *recipes: str, brewhouse: str = "") -> list[str]:
    """What a rule finds, without remedies: ``line:column: level: message``.

    Args:
        module: the rule.
        recipes: one text; or several up to four, for a rule about the collection: each finding then starts with the
            name of its recipe, first.yaml to fourth.yaml, or with brewhouse.yaml.
        brewhouse: the text of a brewhouse.yaml; settings in it must be those of this rule.

    Raises:
        ValueError: the module is no rule, a recipe cannot be read, the brewhouse is wrong or has settings that the
            rule does not take, or what the rule yields is not as the contract says.
    """
    name = module.__name__.rsplit(".", 1)[-1].replace("_", "-")
    try:
        rule = rule_of(name, module, "a test")
    except UnfitError as unfit:
        raise ValueError(f"{module.__name__} has {unfit}") from None
    if not 0 < len(recipes) <= len(NAMES):
        raise ValueError(f"give one recipe, or up to {len(NAMES)} for a rule about the collection, not {len(recipes)}")
    house, judged = Houses(Installed({name: rule}, {}, ())).reviewed(Loaded(brewhouse or "{}", None), "brewhouse.yaml")
    for wrong in judged.results:
        raise ValueError(f"brewhouse.yaml:{wrong.place.line}:{wrong.place.column}: {wrong.message}")
    documents = {path: read_document(text) for path, text in zip(NAMES, recipes, strict=False)}
    for path, document in documents.items():
        for problem in document.problems:
            place = document.place(problem.span)
            raise ValueError(f"{path}:{place.line}:{place.column}: {problem.message}")
    brews = {
        path: Brew(build_recipe(document)[0], house.brewhouse, document, bounds=house.bounds)
        for path, document in documents.items()
    }
    documents["brewhouse.yaml"] = read_document(brewhouse or "{}", "brewhouse")
    return [
        _told(path, finding, documents, alone=alone)
        for run_rule in house.rules
        for alone, found in ((len(recipes) == 1, _alone(run_rule, brews)), (False, _together(run_rule, brews)))
        for path, finding in found
    ]


def _alone(run_rule: RunRule, brews: dict[str, Brew]) -> Iterator[tuple[str, Finding]]:
    """What the rule finds in each brew by itself; a figure that cannot be had ends that."""
    for path, brew in brews.items():
        yield from ((path, finding) for finding in found_by(run_rule, brew))


def _together(run_rule: RunRule, brews: dict[str, Brew]) -> Iterator[tuple[str, Finding]]:
    """What the rule finds in all of them together."""
    rule = run_rule.rule
    if rule.gather is None or rule.check_collection is None:
        return
    values = []
    for path, brew in brews.items():
        with suppress(Unknown):
            values.append((path, small(rule.gather(brew))))
    known = [(path, value) for path, value in values if value is not None]
    for pair in rule.check_collection(known, run_rule.limits):
        yield taken_pair(pair, rule.id, run_rule.ceiling)


def _told(path: str, finding: Finding, documents: dict[str, Document], *, alone: bool) -> str:
    document = documents[path]
    place = document.place(document.span_of(finding.path))
    where = "" if alone else f"{path}:"
    return f"{where}{place.line}:{place.column}: {finding.level.word}: {finding.message}"
