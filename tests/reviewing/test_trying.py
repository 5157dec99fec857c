"""The helper for tests of a rule: what it gives, and what it says of a test that is itself at fault."""

import re
from types import ModuleType

import pytest

import mashwright
from mashwright.reviewing.contract import NO_CHECK, NO_LIMITS

RECIPE = "recipe: Light\nbatch: 20 l\ngrist:\n  - {grain: pale ale malt, weight: 2 kg}\n"
PAIR = '''
"""Do two recipes weigh the same?"""
from mashwright.figures.grist.shares import grist_weight
from mashwright.rule import Finding, Level

def gather(brew):
    return grist_weight(brew).typical

def check_collection(gathered, limits):
    first = {}
    for path, weight in gathered:
        if weight in first:
            yield path, Finding(("grist",), Level.ERROR, f"it weighs {weight:g} kg as {first[weight]} does")
        first.setdefault(weight, path)
'''


def rule(source: str, name: str = "club_rules.light_grist") -> ModuleType:
    module = ModuleType(name)
    exec(source, module.__dict__)
    return module


@pytest.fixture
def light(light_grist: str) -> ModuleType:
    return rule(light_grist)


def house(text: str) -> str:
    return f"brewhouse: Shed\nrules: {{light-grist: {text}}}\n"


def test_findings_are_lines_without_a_path(light: ModuleType) -> None:
    told = "4:6: {0}: the grist weighs 2 kg; below {1} kg it is no grist"
    assert mashwright.try_rule(light, RECIPE) == [told.format("error", 3)]
    assert mashwright.try_rule(light, RECIPE.replace("2 kg", "3 kg")) == []
    assert mashwright.try_rule(light, RECIPE, brewhouse=house("{floor: 2.5 kg}")) == [told.format("error", 2.5)]
    assert mashwright.try_rule(light, RECIPE, brewhouse=house("{level: note}")) == [told.format("note", 3)]
    assert mashwright.try_rule(light, RECIPE, brewhouse=house("off")) == []


def test_a_figure_that_cannot_be_had_ends_the_rule_and_not_the_test(light: ModuleType) -> None:
    unknown = RECIPE.replace("2 kg", "2")
    assert mashwright.try_rule(light, unknown) == []
    told = "second.yaml:4:6: error: the grist weighs 2 kg; below 3 kg it is no grist"
    assert mashwright.try_rule(light, unknown, RECIPE) == [told]


def test_a_rule_about_the_collection_names_the_recipe_of_each_finding() -> None:
    pair = rule(PAIR)
    other = RECIPE.replace("2 kg", "5 kg")
    told = "it weighs 2 kg as first.yaml does"
    assert mashwright.try_rule(pair, RECIPE) == []
    assert mashwright.try_rule(pair, RECIPE, RECIPE) == [f"second.yaml:3:1: error: {told}"]
    assert mashwright.try_rule(pair, RECIPE, RECIPE.replace("2 kg", "2"), other, RECIPE) == [
        f"fourth.yaml:3:1: error: {told}"
    ]
    assert mashwright.try_rule(pair, RECIPE, RECIPE, brewhouse=house("{level: warning}")) == [
        f"second.yaml:3:1: warning: {told}"
    ]


@pytest.mark.parametrize(
    ("source", "lacking"),
    [
        ("", NO_CHECK),
        ("check = 3\n", NO_CHECK),
        ("def gather(brew):\n    return None\n", NO_CHECK),
        ("def check(brew, limits):\n    return ()\nLimits = 3\n", NO_LIMITS),
        ("def check(brew, limits):\n    return ()\nclass Limits:\n    pass\n", NO_LIMITS),
    ],
)
def test_a_module_that_is_no_rule(source: str, lacking: str) -> None:
    told = f"club_rules.light_grist has {lacking}"
    with pytest.raises(ValueError, match=f"^{re.escape(told)}$"):
        mashwright.try_rule(rule(source), RECIPE)


@pytest.mark.parametrize(
    ("recipes", "brewhouse", "told"),
    [
        ((), "", "give one recipe, or up to 4 for a rule about the collection, not 0"),
        ((RECIPE,) * 5, "", "give one recipe, or up to 4 for a rule about the collection, not 5"),
        (
            (RECIPE, "recipe: [\n"),
            "",
            "second.yaml:1:9: the [ that starts here is not closed, or lacks a comma; add ] at its end",
        ),
        (
            (RECIPE,),
            house("{flor: 2 kg}"),
            "brewhouse.yaml:2:29: light-grist has no setting flor; did you mean floor?",
        ),
        ((RECIPE,), house("{floor: 2}"), 'brewhouse.yaml:2:30: the floor "2" has no unit; write 2 kg or 2 lb'),
        ((RECIPE,), house("{floor: 20 kg}"), "brewhouse.yaml:2:30: floor must be between 1 and 10 kg, not 20 kg"),
        (
            (RECIPE,),
            house("{level: loud}"),
            "brewhouse.yaml:2:30: `level` takes error, warning or note, not loud",
        ),
        (
            (RECIPE,),
            "brewhouse: Shed\nrules: {heavy-grist: off}\n",
            "brewhouse.yaml:2:22: no rule is called heavy-grist; did you mean light-grist?",
        ),
        ((RECIPE,), "brewhous: Shed\n", "brewhouse.yaml:1:1: `brewhous` is not known here; did you mean `brewhouse`?"),
        (
            (RECIPE,),
            "kettle: {volume: 3}\n",
            'brewhouse.yaml:1:18: the volume "3" has no unit; write 3 l or 3 gal',
        ),
        (
            (RECIPE,),
            "kettle: [\n",
            "brewhouse.yaml:1:9: the [ that starts here is not closed, or lacks a comma; add ] at its end",
        ),
    ],
)
def test_a_test_that_is_at_fault(recipes: tuple[str, ...], brewhouse: str, told: str, light: ModuleType) -> None:
    with pytest.raises(ValueError, match=f"^{re.escape(told)}$"):
        mashwright.try_rule(light, *recipes, brewhouse=brewhouse)


def test_a_rule_that_raises_is_left_to_its_test() -> None:
    broken = rule('"""Is it?"""\ndef check(brew, limits):\n    raise ZeroDivisionError("no malt")\n')
    with pytest.raises(ZeroDivisionError, match="no malt"):
        mashwright.try_rule(broken, RECIPE)


def test_mends_are_tried_if_asked_for() -> None:
    module = rule(
        '''
"""Is it heavy enough?"""
from mashwright.figures.grist import grist_weight
from mashwright.knobs import less_of, more_of
from mashwright.rule import Finding, Level

def check(brew, limits):
    if grist_weight(brew).typical < 2.5:
        (part,) = brew.grist()
        yield Finding(("grist",), Level.WARNING, "light", gap=0.2, knobs=(less_of(part), more_of(part)))
'''
    )
    assert mashwright.try_rule(module, RECIPE) == ["3:1: warning: light"]
    assert mashwright.try_rule(module, RECIPE, mends=True) == [
        "3:1: warning: light",
        "    mend it: use 2.5 kg of pale ale malt instead of 2 kg; OG goes from 1.022 to 1.027, ABV from 2.3 to 2.9 %",
        "    tried, not offered: use 0.01 kg of pale ale malt instead of 2 kg; it is not enough",
    ]
