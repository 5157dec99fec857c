"""What a run is told, as one frozen value; and a brewhouse's settings for each rule."""

from collections.abc import Mapping
from functools import cached_property
from typing import NamedTuple

from msgspec import Struct

from mashwright.budgets import GUESSED
from mashwright.finding import Level, Path
from mashwright.measures.bounds import USUAL, Bounds
from mashwright.measures.quantity import QuantityError
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.build_brewhouse import OFF
from mashwright.reviewing.plugins import Installed, Rule
from mashwright.reviewing.results import READING_RULES
from mashwright.reviewing.trusted import Trusted
from mashwright.rule import Limit, Settings

_ALIKE = 0.6  # of the letters of a name, judgement
LEVELS = {level.word: level for level in Level}
_ROUNDING = 1e-9  # of a bound, that a value may be past it when it comes from another unit


class Run(Struct, frozen=True):
    """How one review is to go.

    Attributes:
        today: YYYY-MM-DD; suppressions that end before it have expired.
        stop_at: from which level it fails; None leaves it to the brewhouse.
        skip_others: pass over named files that are no recipes, as a hook wants.
        remedies: whether to look for what mends a finding.
        collection: whether rules about the whole collection run too.
        audit: take nothing as accepted.
        allow_empty: a folder that is named may be without any recipe.
        trusted: a copy of the collection, whose brewhouses count in place of those under review; or None.
    """

    today: str
    stop_at: Level | None = None
    skip_others: bool = False
    remedies: bool = True
    collection: bool = False
    audit: bool = False
    allow_empty: bool = False
    trusted: Trusted | None = None


class RunRule(Struct, frozen=True):
    """A rule with the settings of one brewhouse."""

    rule: Rule
    limits: Settings
    ceiling: Level = Level.ERROR


class SettingProblem(NamedTuple):
    """A setting in a brewhouse that cannot be used; ``rule`` is the rule of reading that says so."""

    path: Path
    message: str
    rule: str = "field"


class House(Struct, frozen=True, dict=True):
    """A brewhouse with the rules as it wants them.

    Attributes:
        problems: settings of rules that cannot be used.
        bounds: past which a number cannot be meant here: the usual ones, and what the settings of rules make of them.
    """

    brewhouse: Brewhouse
    rules: tuple[RunRule, ...]
    problems: tuple[SettingProblem, ...] = ()

    @cached_property
    def bounds(self) -> Bounds:
        """Past which a number cannot be meant here: the usual ones, and what the settings of rules make of them."""
        moved = {
            limit.bound: run_rule.limits.values[limit.attribute]
            for run_rule in self.rules
            if run_rule.limits.values
            for limit in run_rule.limits.limits().values()
            if limit.bound and limit.attribute in run_rule.limits.values
        }
        return Bounds(**moved) if moved else USUAL

    @property
    def stop_at(self) -> Level:
        """From which level a review fails here."""
        return LEVELS.get(self.brewhouse.stop_at, Level.ERROR)


def house_of(brewhouse: Brewhouse, found: Installed) -> House:
    """Apply a brewhouse's settings to the installed rules."""
    problems: list[SettingProblem] = []
    asked: dict[str, tuple[str, str | Mapping[str, str]]] = {}
    for name, settings in brewhouse.rules.items():
        rule_id = found.aliases.get(name, name)
        if rule_id in found.rules:
            asked[rule_id] = name, settings
        else:
            problems.append(SettingProblem(("rules", name), unknown_rule(name, found, guess=len(problems) < GUESSED)))
    problems.extend(
        SettingProblem((*item.path, "rule"), unknown_rule(item.rule, found, guess=index < GUESSED))
        for index, item in enumerate(brewhouse.accepted)
        if item.rule and found.aliases.get(item.rule, item.rule) not in found.rules
    )
    rules = []
    for rule_id, rule in found.rules.items():
        name, settings = asked.get(rule_id, (rule_id, {}))
        if isinstance(settings, str):
            if settings != OFF:
                problems.append(SettingProblem(("rules", name), f"{rule_id} may be off, or have settings in braces"))
                rules.append(RunRule(rule, rule.limits()))
            continue
        rules.append(_with_settings(rule, name, settings, problems))
    return House(brewhouse, tuple(rules), tuple(problems))


def unknown_rule(name: str, found: Installed, *, guess: bool = True) -> str:
    """What to say of a rule that is not installed, with what was meant if that is to be guessed."""
    if name in READING_RULES:
        return f"{name} says what cannot be read, and can be neither set nor accepted"
    from mashwright.words.nearest import nearest

    near = nearest(name, found.rules, _ALIKE) if guess else None
    hint = f"did you mean {near}?" if near is not None else "mashwright explain lists the rules that are installed"
    return f"no rule is called {name}; {hint}"


def _with_settings(rule: Rule, name: str, settings: Mapping[str, str], problems: list[SettingProblem]) -> RunRule:
    limits = rule.limits.limits() if settings else {}
    old_names = rule.limits.old_names() if settings else {}
    values: dict[str, float] = {}
    said_as: dict[str, str] = {}
    ceiling = Level.ERROR
    for key, text in settings.items():
        path: Path = ("rules", name, key)
        now = old_names.get(key, key)
        if key == "level":
            if text not in LEVELS:
                problems.append(SettingProblem(path, f"{text} is not a level; write warning or note"))
            elif text == Level.ERROR.word:
                problems.append(
                    SettingProblem(path, "error changes nothing here; write warning or note, or leave it out")
                )
            ceiling = LEVELS.get(text, Level.ERROR)
        elif now not in limits:
            problems.append(SettingProblem(path, _unknown_setting(rule.id, key, limits, guess=len(problems) < GUESSED)))
        elif now in said_as:
            problems.append(SettingProblem(path, f"{said_as[now]} and {key} are one setting; keep {now}"))
        else:
            said_as[now] = key
            value = _value(limits[now], text, path, problems)
            if value is not None:
                values[limits[now].attribute] = value
    return RunRule(rule, rule.limits(values), ceiling)


def _unknown_setting(rule_id: str, key: str, limits: Mapping[str, Limit], *, guess: bool) -> str:
    from mashwright.words.nearest import nearest

    near = nearest(key, limits, _ALIKE) if guess else None
    hint = f"did you mean {near}?" if near is not None else f"it has {', '.join(['level', *limits])}"
    return f"{rule_id} has no setting {key}; {hint}"


def _value(limit: Limit, text: str, path: Path, problems: list[SettingProblem]) -> float | None:
    try:
        value = limit.declared.read(text, str(path[-1]), limit.default, below_zero=limit.low < 0)
    except QuantityError as error:
        problems.append(SettingProblem(path, error.message, "quantity"))
        return None
    if not limit.low - _ROUNDING * abs(limit.low) <= value <= limit.high + _ROUNDING * abs(limit.high):
        between = f"between {limit.low:g} and {limit.high:g} {limit.unit}".rstrip()
        problems.append(SettingProblem(path, f"{path[-1]} must be {between}, not {text}"))
        return None
    return value
