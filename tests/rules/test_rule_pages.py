"""Every rule's page, settings and two examples: what a stranger's rule is held to as well."""

import re
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

import mashwright
from mashwright.ingredients.bibliography import source
from mashwright.reviewing.plugins import installed
from mashwright.rule import Example, ExampleOfTwo, Settings

RULES = [rule_id.replace("-", "_") for rule_id in installed().rules]


def module_of(rule: str) -> ModuleType:
    return installed().rules[rule.replace("_", "-")].module


@pytest.fixture(params=RULES)
def rule(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def test_the_page_asks_a_question_and_answers_it(rule: str) -> None:
    page = module_of(rule).__doc__
    assert page is not None
    first, blank, *_ = page.split("\n")
    assert first.endswith("?")
    assert blank == ""
    parts = [part.split(" ", 1)[0] for part in page.split("\n\n")]
    checked = "\nWhat is checked: " if "\nWhat is checked: " in page else "\nComputed: "
    assert page.index(checked) < page.index("\nOn the day: ") < page.index("\nSources: ")
    assert parts.index(checked.split(maxsplit=1)[0]) > 1, "nothing is said about why it matters"


def test_every_source_is_in_the_bibliography(rule: str) -> None:
    module = module_of(rule)
    keys = re.findall(r"\[([a-z0-9-]+)\]", module.__doc__ or "")
    assert keys
    for key in (*keys, *(key for limit in module.Limits.limits().values() for key in limit.source.split())):
        assert source(key).citation


def test_settings_lie_within_their_bounds(rule: str) -> None:
    limits = module_of(rule).Limits
    assert issubclass(limits, Settings)
    declared = [name for name, value in vars(limits).items() if hasattr(value, "default")]
    assert len(limits.limits()) == len(declared), "two settings have one name in brewhouse.yaml"
    for key, limit in limits.limits().items():
        assert re.fullmatch(r"[a-z0-9-]+", key)
        assert limit.low <= limit.default <= limit.high
        assert limit.low < limit.high


def test_the_sound_example_draws_nothing_of_the_rule(rule: str, found: Callable[..., list[str]]) -> None:
    assert found(rule, module_of(rule).SOUND) == []


def test_the_faulty_example_draws_exactly_its_finding(rule: str, found: Callable[..., list[str]]) -> None:
    module = module_of(rule)
    faulty = module.FAULTY
    expected = f"{faulty.line}:{faulty.column}: {faulty.level}: {faulty.message}"
    if isinstance(faulty, ExampleOfTwo):
        assert mashwright.try_rule(module, faulty.first, faulty.second) == [f"second.yaml:{expected}"]
    else:
        assert isinstance(faulty, Example)
        assert found(rule, faulty.recipe, faulty.brewhouse) == [expected]


def test_the_examples_draw_nothing_else_above_a_note(rule: str, tmp_path: Path) -> None:
    module = module_of(rule)
    identity = rule.replace("_", "-")
    faulty = module.FAULTY
    of_two = [(text, []) for text in faulty[:2]] if isinstance(faulty, ExampleOfTwo) else []
    if isinstance(faulty, Example) and faulty.brewhouse:
        (tmp_path / "brewhouse.yaml").write_text(faulty.brewhouse, encoding="utf-8")
    alone = [] if of_two else [(faulty.recipe, [(identity, faulty.level)])]
    for text, expected in ((module.SOUND, []), *of_two, *alone):
        review = mashwright.review_text(text, str(tmp_path / "recipe.yaml"))
        assert review.faults == ()
        above_a_note = [
            (result.rule, result.level.word)
            for reviewed in review.recipes
            for result in reviewed.results
            if result.level.word != "note"
        ]
        assert above_a_note == [pair for pair in expected if pair[1] != "note"]
