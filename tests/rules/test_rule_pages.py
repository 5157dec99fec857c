"""Every rule's page, settings and two examples: what a stranger's rule is held to as well."""

import ast
import inspect
import re
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

import mashwright
from mashwright.figures.package import Stress
from mashwright.ingredients.bibliography import source
from mashwright.reading.nodes import Mapping
from mashwright.reviewing.plugins import Rule, installed
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


def test_it_has_a_test_of_its_own(rule: str) -> None:
    assert (Path(__file__).parent / f"test_{rule}.py").is_file()


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


def sources_of(rule: str) -> str:
    """The text of a rule's module, or of all modules of its package."""
    file = Path(str(module_of(rule).__file__))
    files = sorted(file.parent.glob("*.py")) if file.name == "__init__.py" else [file]
    return "\n".join(one.read_text("utf-8") for one in files)


def test_a_rule_says_only_what_it_lists_and_all_of_that(rule: str) -> None:
    says, source_ = module_of(rule).SAYS, sources_of(rule)
    assert says
    body = re.sub(r"^SAYS = \{.*?^\}", "", source_, flags=re.DOTALL | re.MULTILINE)
    if ".does(level)" in body:  # what gas does to a vessel is said by four rules, each in its own sentences
        body += inspect.getsource(Stress.does)
    for sentence, text in says.items():
        assert re.fullmatch(r"[a-z0-9-]+", sentence), sentence
        parts = sentence.split("-")
        # an id may be put together of two pieces
        cuts = [("-".join(parts[:cut]), "-".join(parts[cut:])) for cut in range(1, len(parts))]
        together = any(f'"{head}' in body and f'{tail}"' in body for head, tail in cuts)
        assert f'"{sentence}"' in body or f'"{sentence}{{' in body or together, f"nothing says {sentence}"
        assert "  " not in text


def test_no_sentence_of_a_rule_is_made_by_hand(rule: str) -> None:
    for call in ast.walk(ast.parse(sources_of(rule))):
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "Finding":
            assert not any(isinstance(one, ast.JoinedStr) for one in call.args), f"line {call.lineno}"
            assert not (len(call.args) > 2 and isinstance(call.args[2], ast.Constant)), f"line {call.lineno}"


@pytest.mark.parametrize("rule", [one for one in installed().rules.values() if one.asks_about], ids=lambda one: one.id)
def test_a_rule_that_asks_about_fields_finds_nothing_without_them(rule: Rule) -> None:
    """What it says of samples and of every rule's faulty recipe, it says only where one of its fields is written."""
    from mashwright.brew import Brew
    from mashwright.reviewing.plugins import example_of

    texts = [
        path.read_text(encoding="utf-8") for path in (Path(__file__).parents[2] / "sample-recipes").glob("**/*.yaml")
    ]
    texts += [found[1] for one in installed().rules.values() if (found := example_of(one.id, one)) is not None]
    asked = 0
    for text in texts:
        brew = Brew.of(text) if "with this brewhouse" not in text else None
        root = brew.document.root if brew is not None else None
        if brew is None or not isinstance(root, Mapping) or rule.check is None:
            continue
        if rule.asks_about.isdisjoint(key.text for key, _ in root.entries):
            asked += 1
            assert list(rule.check(brew, rule.limits({}))) == []
    assert asked >= 3
