"""What a rule's module must have: whatever it lacks is told in words as it is loaded, and it is no rule then."""

from collections.abc import Callable

import pytest

from mashwright.reviewing.contract import NO_CHECK, NO_LIMITS
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.results import Fault

Install = Callable[..., None]

RULE = '''
"""Is it odd?"""
from mashwright.measures.quantity import Kind
from mashwright.rule import Example, ExampleOfTwo, Limit, Settings

def check(brew, limits):
    return ()

ODD
'''
WRONG_FIELD = (
    "a FAULTY in which a field is of the wrong type: line and column are numbers (int), the others texts (str)"
)
LIMITS = "class Limits(Settings):\n    {0}\n"
LIMIT = "Limit(3, 'kg', low=1, high=10, source='judgement')"


@pytest.mark.parametrize(
    ("odd", "told"),
    [
        ("check = None", NO_CHECK),
        ("check = None\ndef gather(brew): ...", NO_CHECK),
        ("Limits = 5", NO_LIMITS),
        ("class Limits: ...", NO_LIMITS),
        ("__doc__ = None", "no docstring, which is the page of the rule; write one that starts with its question"),
        ("__doc__ = ' '", "no docstring, which is the page of the rule; write one that starts with its question"),
        ("__doc__ = 5", "no docstring, which is the page of the rule; write one that starts with its question"),
        ("ALIASES = 'old-name'", "ALIASES that are not a tuple of names (str)"),
        ("ALIASES = (5,)", "ALIASES that are not a tuple of names (str)"),
        ("ALIASES = ('',)", "ALIASES that are not a tuple of names (str)"),
        ("ALIASES = None", "ALIASES that are not a tuple of names (str)"),
        ("ASKS_ABOUT = 'worts'", "ASKS_ABOUT that is not a tuple of fields at the top of a recipe (str)"),
        ("ASKS_ABOUT = ('wurst',)", "ASKS_ABOUT that is not a tuple of fields at the top of a recipe (str)"),
        (
            LIMITS.format("def __init__(self, values): ..."),
            "Limits with an __init__, values or limits of their own; leave these to Settings",
        ),
        (
            LIMITS.format(f"values = {LIMIT}"),
            "Limits with an __init__, values or limits of their own; leave these to Settings",
        ),
        (
            LIMITS.format(f"floor_kg = {LIMIT}\n    floor = {LIMIT}"),
            "two settings that are both called floor in brewhouse.yaml; rename one of them",
        ),
        (LIMITS.format(f"level = {LIMIT}"), "a setting called level, which every rule has already; rename it"),
        (
            LIMITS.format("floor_kg = Limit('3', 'kg', low=1, high=10, source='judgement')"),
            "a setting floor whose default, low and high are not all finite numbers",
        ),
        (
            LIMITS.format("floor_kg = Limit(3, 'kg', low=1, high=float('inf'), source='judgement')"),
            "a setting floor whose default, low and high are not all finite numbers",
        ),
        (
            LIMITS.format("floor_kg = Limit(float('nan'), 'kg', low=1, high=9, source='judgement')"),
            "a setting floor whose default, low and high are not all finite numbers",
        ),
        (
            LIMITS.format("floor_kg = Limit(True, 'kg', low=1, high=9, source='judgement')"),
            "a setting floor whose default, low and high are not all finite numbers",
        ),
        (
            LIMITS.format("floor_kg = Limit(30, 'kg', low=1, high=10, source='judgement')"),
            "a setting floor whose default does not lie between its low and its high",
        ),
        (
            LIMITS.format("floor_kg = Limit(3, None, low=1, high=10, source='judgement')"),
            "a setting floor_kg whose unit and source are not both texts (str)",
        ),
        (
            LIMITS.format("floor_kg = Limit(3, 'kg', low=1, high=10, source=5)"),
            "a setting floor_kg whose unit and source are not both texts (str)",
        ),
        (
            LIMITS.format("floor_kg = Limit(3, 'kg', old='least', low=1, high=10, source='judgement')"),
            "a setting floor_kg whose old names are not a tuple of names (str)",
        ),
        (
            LIMITS.format("floor_kg = Limit(3, 'kg', old=('floor',), low=1, high=10, source='judgement')"),
            "a setting floor whose old name floor is taken; take it out of its old names",
        ),
        (
            LIMITS.format(f"top_kg = {LIMIT}\n    floor_kg = {LIMIT[:-1]}, old=('top',))"),
            "a setting floor whose old name top is taken; take it out of its old names",
        ),
        (
            LIMITS.format(f"floor_kg = {LIMIT[:-1]}, old=('level',))"),
            "a setting called level, which every rule has already; rename it",
        ),
        (LIMITS.format(f"floor_kg = {LIMIT[:-1]}, name=5)"), "a setting floor_kg whose name is not a text (str)"),
        (
            LIMITS.format(f"floor_kg = {LIMIT[:-1]}, kind='mass')"),
            "a setting floor_kg whose kind is not one that a setting can have",
        ),
        (
            LIMITS.format(f"floor_kg = {LIMIT[:-1]}, kind=Kind.TIME)"),
            "a setting floor_kg in kg, which is no unit of time",
        ),
        ("FAULTY = Example('', 'error', 1, 1, '')", "a FAULTY, but no SOUND that is a text (str)"),
        ("SOUND = 5\nFAULTY = Example('', 'error', 1, 1, '')", "a FAULTY, but no SOUND that is a text (str)"),
        ("SOUND = ''", "a SOUND, but no FAULTY that is an Example or an ExampleOfTwo"),
        ("SOUND = ''\nFAULTY = ('', 'error')", "a SOUND, but no FAULTY that is an Example or an ExampleOfTwo"),
        (
            "SOUND = ''\nFAULTY = Example('', 'error', '1', 1, '')",
            WRONG_FIELD,
        ),
        (
            "SOUND = ''\nFAULTY = ExampleOfTwo('', None, 'error', 1, 1, '')",
            WRONG_FIELD,
        ),
        (
            "SOUND = ''\nFAULTY = Example('', 'warn', 1, 1, '')",
            "a FAULTY whose level is 'warn'; it must be one of note, warning, error",
        ),
        (
            "SOUND = ''\nFAULTY = ExampleOfTwo('', '', 'Error', 1, 1, '')",
            "a FAULTY whose level is 'Error'; it must be one of note, warning, error",
        ),
    ],
)
def test_what_a_module_lacks(odd: str, told: str, install: Install) -> None:
    install(ours={"odd": RULE.replace("ODD", odd), "sound": RULE.replace("ODD", "")})
    found = installed()
    assert list(found.rules) == ["sound"]
    assert found.faults == (Fault("odd", "", f"ours has {told}"),)


def test_a_module_that_fails_as_it_is_looked_at(install: Install) -> None:
    odd = "def __getattr__(name):\n    raise ZeroDivisionError(name)\n"
    install(ours={"odd": RULE.replace("ODD", odd), "sound": RULE.replace("ODD", "")})
    found = installed()
    assert list(found.rules) == ["sound"]
    assert found.faults == (Fault("odd", "", "ours.odd of ours is no rule: ZeroDivisionError: gather"),)


@pytest.mark.parametrize("alias", ["other", "field", "old"])
def test_an_old_name_that_somebody_has_is_nobodys(alias: str, install: Install) -> None:
    odd = RULE.replace("ODD", f"ALIASES = ({alias!r},)")
    other = RULE.replace("ODD", "ALIASES = ('old',)")
    install(ours={"another": other, "odd": odd, "other": RULE.replace("ODD", "")})
    found = installed()
    assert sorted(found.rules) == ["another", "odd", "other"]
    assert found.aliases == {"old": "another"}
    taken = "another" if alias == "old" else alias
    told = f"its old name {alias} is taken by {taken}; take it out of the ALIASES of ours"
    assert found.faults == (Fault("odd", "", told),)


def test_limits_of_a_rule_may_come_from_a_class_of_the_authors(install: Install) -> None:
    odd = f"class Common(Settings):\n    floor_kg = {LIMIT}\nclass Limits(Common):\n    top_kg = {LIMIT}\n"
    install(ours={"odd": RULE.replace("ODD", odd)})
    found = installed()
    assert found.faults == ()
    assert list(found.rules["odd"].limits.limits()) == ["floor", "top"]
