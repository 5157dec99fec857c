"""Tries one rule on recipes given as text: for the tests of a rule, ours or a stranger's."""

from collections.abc import Iterator
from contextlib import suppress
from types import ModuleType

from mashwright.finding import Finding
from mashwright.reading.document import Document, Place
from mashwright.recipe.stated import Unknown
from mashwright.reviewing.judge import Found, Judged, judge
from mashwright.reviewing.mend import mend
from mashwright.reviewing.plugins import Installed, rule_of
from mashwright.reviewing.read import read
from mashwright.reviewing.read_house import read_house
from mashwright.reviewing.settings import House
from mashwright.reviewing.taking import UnfitError, small, taken_pair
from mashwright.reviewing.watch import Watch

NAMES = ("first.yaml", "second.yaml", "third.yaml", "fourth.yaml")
HOUSE = "brewhouse.yaml"


def tried(module: ModuleType, *recipes: str, brewhouse: str = "", mends: bool = False) -> list[str]:
    """What a rule finds: ``line:column: level: message``; if asked for, below each what mends it and what does not.

    Args:
        module: the rule.
        recipes: one text; or several up to four, for a rule about the collection: each finding then starts with the
            name of its recipe, first.yaml to fourth.yaml, or with brewhouse.yaml.
        brewhouse: the text of a brewhouse.yaml; settings in it must be those of this rule.
        mends: try the knobs too, by this rule alone: ``mend it: ...``, ``or: ...``, ``tried, not offered: ...``.

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
    house, reviewed, document = read_house(brewhouse or "{}", HOUSE, Installed({name: rule}, {}, ()))
    for wrong in reviewed.results:
        raise ValueError(_line(wrong.place, wrong.message, f"{HOUSE}:"))
    judged = {path: _judged(text, path, house, mends=mends) for path, text in zip(NAMES, recipes, strict=False)}
    documents = {HOUSE: document, **{path: one.read.document for path, one in judged.items()}}
    alone = ((path, found) for path, one in judged.items() for found in one.found)
    return [
        *(
            line
            for path, found in alone
            for line in (
                _told(found.finding, documents[path], "" if len(recipes) == 1 else f"{path}:"),
                *_mends(found),
            )
        ),
        *(_told(finding, documents[path], f"{path}:") for path, finding in _together(house, judged)),
    ]


class _OfATest(Watch):
    """What a rule raises in its own test is not contained."""

    def contains(self, _error: BaseException) -> bool:
        """Nothing is anybody's affair but the test's."""
        return False


def _judged(text: str, path: str, house: House, *, mends: bool) -> Judged:
    recipe = read(text, path)
    for problem in recipe.document.problems:
        raise ValueError(_line(recipe.document.place(problem.span), problem.message, f"{path}:"))
    watch = _OfATest(strangers=False)
    judged = judge(recipe, house, watch=watch)
    return mend(judged, watch) if mends else judged


def _together(house: House, judged: dict[str, Judged]) -> Iterator[tuple[str, Finding]]:
    """What the rule finds in all of them together."""
    for run_rule in house.rules:
        rule = run_rule.rule
        if rule.gather is None or rule.check_collection is None:
            continue
        values = []
        for path, one in judged.items():
            with suppress(Unknown):
                values.append((path, small(rule.gather(one.brew))))
        known = [(path, value) for path, value in values if value is not None]
        for pair in rule.check_collection(known, run_rule.limits):
            yield taken_pair(pair, rule.id, run_rule.ceiling, rule.says)


def _mends(found: Found) -> Iterator[str]:
    """What mends a finding and what does not, as a review prints it but for the lines of the places."""
    for lead, remedy in zip(("mend it", *["or"] * len(found.finding.remedies)), found.finding.remedies, strict=False):
        yield f"    {lead}: {remedy.text}"
    for change in found.refused:
        yield f"    tried, not offered: {change}"


def _told(finding: Finding, document: Document, where: str) -> str:
    return _line(document.place(document.span_of(finding.path)), f"{finding.level.word}: {finding.message}", where)


def _line(place: Place, message: str, where: str) -> str:
    return f"{where}{place.line}:{place.column}: {message}"
