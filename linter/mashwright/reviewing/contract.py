"""What a rule's module must have, looked at once as it is loaded; DEVELOPERS.md tells it to authors."""

from math import isfinite
from types import ModuleType

from mashwright.measures.unit_table import EITHER, Kind
from mashwright.measures.units import find
from mashwright.reading.schema import known_keys
from mashwright.rule import Example, ExampleOfTwo, Level, Limit, Settings

NO_CHECK = "no check(brew, limits), nor gather(brew) with check_collection(gathered, limits); write one or the other"
NO_LIMITS = "Limits that are not a class of Settings; write class Limits(Settings)"
LEVEL = "level"
"""A setting that every rule has."""
LEVELS = tuple(level.word for level in Level)


def wrong_with(module: ModuleType) -> str:
    """What a module lacks to be a rule, in words that follow ``has``; "" where it is one."""
    has = {name: callable(getattr(module, name, None)) for name in ("check", "gather", "check_collection")}
    limits = getattr(module, "Limits", Settings)
    if not (has["check"] or (has["gather"] and has["check_collection"])):
        return NO_CHECK
    if not (isinstance(limits, type) and issubclass(limits, Settings)):
        return NO_LIMITS
    if not isinstance(module.__doc__, str) or not module.__doc__.strip():
        return "no docstring, which is the page of the rule; write one that starts with its question"
    aliases = getattr(module, "ALIASES", ())
    if not isinstance(aliases, tuple) or not all(type(name) is str and name for name in aliases):
        return "ALIASES that are not a tuple of names (str)"
    about = getattr(module, "ASKS_ABOUT", ())
    if not isinstance(about, tuple) or not all(
        type(name) is str and name in known_keys("recipe", ()) for name in about
    ):
        return "ASKS_ABOUT that is not a tuple of fields at the top of a recipe (str)"
    says = getattr(module, "SAYS", {})
    if type(says) is not dict or not all(type(text) is str and text for pair in says.items() for text in pair):
        return "SAYS that are not a dict of sentences (str) by their ids (str)"
    return _of_limits(limits) or _of_examples(module)


def _of_limits(limits: type[Settings]) -> str:
    if any(name in vars(owner) for owner in limits.__mro__[:-2] for name in ("__init__", "values", "limits")):
        return "Limits with an __init__, values or limits of their own; leave these to Settings"
    found = [one for owner in limits.__mro__ for one in vars(owner).values() if isinstance(one, Limit)]
    for limit in found:
        if wrong := _of_names(limit):
            return f"a setting {limit.attribute} {wrong}"
    keys = [limit.key for limit in found]
    names = keys + [old for limit in found for old in limit.old]
    for limit in found:
        for old in limit.old:
            if names.count(old) > 1:
                return f"a setting {limit.key} whose old name {old} is taken; take it out of its old names"
        if keys.count(limit.key) > 1:
            return f"two settings that are both called {limit.key} in brewhouse.yaml; rename one of them"
        if LEVEL in (limit.key, *limit.old):
            return f"a setting called {LEVEL}, which every rule has already; rename it"
        if wrong := _of_limit(limit):
            return f"a setting {limit.key} {wrong}"
    return ""


def _of_names(limit: Limit) -> str:
    if type(limit.unit) is not str or type(limit.source) is not str:
        return "whose unit and source are not both texts (str)"
    if type(limit.name) is not str:
        return "whose name is not a text (str)"
    if type(limit.old) is not tuple or not all(type(name) is str and name for name in limit.old):
        return "whose old names are not a tuple of names (str)"
    if limit.kind is None:
        return ""
    if type(limit.kind) is not Kind or limit.kind in EITHER:
        return "whose kind is not one that a setting can have"
    unit = find(limit.declared.name, limit.declared.kind)
    if unit is None:
        return f"in {limit.unit}, which is no unit of {limit.kind.value}"
    return ""


def _of_limit(limit: Limit) -> str:
    numbers = (limit.low, limit.default, limit.high)
    if not all(type(number) in (int, float) and isfinite(number) for number in numbers):
        return "whose default, low and high are not all finite numbers"
    if not limit.low <= limit.default <= limit.high:
        return "whose default does not lie between its low and its high"
    return ""


def _of_examples(module: ModuleType) -> str:
    sound, faulty = getattr(module, "SOUND", None), getattr(module, "FAULTY", None)
    if sound is None and faulty is None:
        return ""
    if type(sound) is not str:
        return "a FAULTY, but no SOUND that is a text (str)"
    if not isinstance(faulty, (Example, ExampleOfTwo)):
        return "a SOUND, but no FAULTY that is an Example or an ExampleOfTwo"
    kinds = tuple(int if name in ("line", "column") else str for name in faulty._fields)
    if any(type(value) is not kind for value, kind in zip(faulty, kinds, strict=True)):
        return (
            "a FAULTY in which a field is of the wrong type: line and column are numbers (int), the others texts (str)"
        )
    if faulty.level not in LEVELS:
        return f"a FAULTY whose level is {faulty.level[:40]!r}; it must be one of {', '.join(LEVELS)}"
    return ""
