"""Finds the rules: built-in ones and anybody's come in by the same door, the entry points of ``mashwright.rules``."""

import importlib
import pkgutil
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import redirect_stdout
from functools import cache
from math import inf
from sys import modules, stderr
from types import ModuleType
from typing import Any, NamedTuple

from mashwright.brew.brew import Brew
from mashwright.crash import in_words
from mashwright.figures.function import FigureFunction
from mashwright.finding import Finding
from mashwright.former import NotThereError
from mashwright.reviewing.contract import wrong_with
from mashwright.reviewing.entries import Entry, entries
from mashwright.reviewing.results import READING_RULES, Fault, RuleInfo
from mashwright.reviewing.taking import UnfitError
from mashwright.reviewing.watch import Watch
from mashwright.rule import ExampleOfTwo, Settings

GROUP = "mashwright.rules"
OURS = "mashwright"
"""The distribution that the built-in rules come with."""


class ConfigurationError(Exception):
    """The work cannot be done as it was asked for; the message says what to change."""


class Rule(NamedTuple):
    """One rule, ready to run.

    Attributes:
        module: its file; ``page`` is that module's docstring.
        check: what it finds in one brew; None where it is about the collection alone.
        origin: the distribution that brought it.
        gather: what a rule about the collection wants to know of one brew: small, and fit to be sent between processes.
        check_collection: what it finds in all that was gathered, as pairs of a recipe's path and a finding there.
        asks_about: fields of a recipe, one of which must be written for it to have anything to say; empty for any.
    """

    id: str
    module: ModuleType
    check: Callable[[Brew, Settings], Iterable[Finding]] | None
    limits: type[Settings]
    origin: str
    gather: Callable[[Brew], object] | None = None
    check_collection: Callable[[list[tuple[str, Any]], Settings], Iterable[tuple[str, Finding]]] | None = None
    asks_about: frozenset[str] = frozenset()

    @property
    def says(self) -> Mapping[str, str]:
        """Its sentences by their ids."""
        says: Mapping[str, str] = getattr(self.module, "SAYS", {})
        return says

    @property
    def stranger(self) -> bool:
        """Whether somebody else made it."""
        return self.origin != OURS

    @property
    def page(self) -> str:
        """What ``explain`` shows."""
        return (self.module.__doc__ or "").strip()

    @property
    def question(self) -> str:
        """The first line of its page."""
        return self.page.split("\n", 1)[0]

    @property
    def info(self) -> RuleInfo:
        """What a report tells of it."""
        return RuleInfo(self.id, self.question, self.page, self.stage)

    @property
    def stage(self) -> str:
        """The stage of the brew day that it belongs to; of a rule that somebody else made, its distribution."""
        return self.origin if self.stranger else self.module.__name__.split(".")[1]


class Installed(NamedTuple):
    """All rules by id, old names of theirs, and what failed to load."""

    rules: dict[str, Rule]
    aliases: dict[str, str]
    faults: tuple[Fault, ...]

    @property
    def strangers(self) -> bool:
        """Whether rules of others are among them."""
        return any(rule.stranger for rule in self.rules.values())


@cache
def installed() -> Installed:
    """The rules of every installed distribution.

    Raises:
        ConfigurationError: two rules have one name.
    """
    rules: dict[str, Rule] = {}
    faults: list[Fault] = []
    for entry in sorted(entries(GROUP), key=lambda found: (found.value, found.name)):
        for rule in _rules_of(entry, faults):
            other = rules.get(rule.id)
            if other is not None or rule.id in READING_RULES:
                origin = other.origin if other is not None else OURS
                raise ConfigurationError(_clash("rules", rule.id, origin, rule.origin))
            rules[rule.id] = rule
    _refuse_figures_of_one_id({rule.origin: rule.module.__name__.split(".")[0] for rule in rules.values()})
    return Installed(dict(sorted(rules.items())), _aliases(rules, faults), tuple(faults))


def _clash(what: str, clashing: str, first: str, second: str) -> str:
    if first == second:
        return f"two {what} of {first} are called {clashing}; one of the two must be renamed"
    return f"two {what} are called {clashing}, one of {first} and one of {second}; uninstall one of the two"


def _refuse_figures_of_one_id(packages: Mapping[str, str]) -> None:
    """Look whether an id is that of two figures, where others than we have brought some.

    Args:
        packages: by distribution, the first word of its modules' names.

    Raises:
        ConfigurationError: two figures have one id.
    """
    strangers = {package: origin for origin, package in packages.items() if origin != OURS}
    if not strangers:
        return
    from mashwright.figures import ALL

    known: dict[str, tuple[FigureFunction, str]] = {figure.id: (figure, OURS) for figure in ALL}
    theirs = sorted(name for name in modules if name.split(".")[0] in strangers)
    for name in theirs:
        origin = strangers[name.split(".")[0]]
        for figure in list(getattr(modules[name], "__dict__", {}).values()):
            if type(figure) is not FigureFunction or figure.compute.__module__.startswith(f"{OURS}."):
                continue
            first, of = known.setdefault(figure.id, (figure, origin))
            if first is not figure:
                raise ConfigurationError(_clash("figures", figure.id, of, origin))


_others: set[str] = set()
"""The distributions of others whose code this process has loaded, or tried to."""


def only_ours() -> bool:
    """Whether no rule of others was loaded into this process."""
    return not _others


def _aliases(rules: dict[str, Rule], faults: list[Fault]) -> dict[str, str]:
    """Old names of the rules; one that a rule, or another's old name, has already is nobody's."""
    aliases: dict[str, str] = {}
    for rule in rules.values():
        for alias in getattr(rule.module, "ALIASES", ()):
            if alias in rules or alias in aliases or alias in READING_RULES:
                other = aliases.get(alias, alias)
                message = f"its old name {alias} is taken by {other}; take it out of the ALIASES of {rule.origin}"
                faults.append(Fault(rule.id, "", message))
            else:
                aliases[alias] = rule.id
    return aliases


def _rules_of(entry: Entry, faults: list[Fault]) -> list[Rule]:
    origin = entry.origin
    if origin != OURS:
        _others.add(origin)
    # time is not counted: a library may take long to load, and half loaded it is of no use
    with Watch(strangers=origin != OURS, seconds=inf) as watch:
        package = _loaded(entry.value, origin, watch, faults)
        if package is None:
            return []
        if not hasattr(package, "__path__"):
            message = f"{origin} names {entry.value} for rules, which is no package: make it a folder of rules"
            faults.append(Fault("", "", message))
            return []
        found = []
        for name, module in _modules_of(package, origin, watch, faults):
            rule_id = name.rpartition(".")[2].replace("_", "-")
            watch.begin()
            try:
                found.append(rule_of(rule_id, module, origin))
            except UnfitError as unfit:
                faults.append(Fault(rule_id, "", f"{origin} has {unfit}"))
            except BaseException as error:  # a module may answer by a function of its own, and that may fail
                if not watch.contains(error):
                    raise
                faults.append(Fault(rule_id, "", f"{name} of {origin} is no rule: {in_words(error)}"))
            finally:
                watch.rest()
        return found


def _modules_of(
    package: ModuleType, origin: str, watch: Watch, faults: list[Fault], *, inner: bool = False
) -> Iterator[tuple[str, ModuleType]]:
    """The modules of a folder of rules and, one step down, of the folders in it; each with its full name."""
    for info in pkgutil.iter_modules(package.__path__):
        name = f"{package.__name__}.{info.name}"
        if info.name.startswith("_") or (module := _loaded(name, origin, watch, faults)) is None:
            continue
        if info.ispkg and not inner and not hasattr(module, "check"):
            yield from _modules_of(module, origin, watch, faults, inner=True)
        else:
            yield name, module


def _loaded(name: str, origin: str, watch: Watch, faults: list[Fault]) -> ModuleType | None:
    watch.begin()
    try:
        with redirect_stdout(stderr):
            return importlib.import_module(name)
    except BaseException as error:
        if not watch.contains(error):
            raise
        rule_id = name.rsplit(".", 1)[-1].replace("_", "-")
        faults.append(Fault(rule_id, "", _unloadable(name, origin, error)))
        return None
    finally:
        watch.rest()


def _unloadable(name: str, origin: str, error: BaseException) -> str:
    gone = isinstance(error, ModuleNotFoundError) and (error.name or "").startswith(f"{OURS}.")
    if isinstance(error, NotThereError) or gone:
        what = f"{name} of {origin} was made for another Mashwright"
        return f"{what}; get a version of {origin} that fits this one, or write to its makers: {error}"
    return f"{name} of {origin} cannot be loaded: {in_words(error)}"


def rule_of(rule_id: str, module: ModuleType, origin: str) -> Rule:
    """A module as a rule.

    Raises:
        UnfitError: it lacks what a rule must have; the message goes on after ``has``.
    """
    if wrong := wrong_with(module):
        raise UnfitError(wrong)
    check, gather, collect = (
        found if callable(found := getattr(module, name, None)) else None
        for name in ("check", "gather", "check_collection")
    )
    about = frozenset(getattr(module, "ASKS_ABOUT", ()))
    return Rule(rule_id, module, check, getattr(module, "Limits", Settings), origin, gather, collect, about)


def reading_rule(rule_id: str) -> RuleInfo:
    """One of the four rules of this room, with its page."""
    module = importlib.import_module(f"mashwright.reviewing.pages.{rule_id}")
    page = (module.__doc__ or "").strip()
    return RuleInfo(rule_id, page.split("\n", 1)[0], page)


def example_of(rule_id: str, rule: Rule | None) -> tuple[str, str, str] | None:
    """A rule's two recipes, the sound and the faulty one, and the finding of the latter as it is printed."""
    module = rule.module if rule is not None else importlib.import_module(f"mashwright.reviewing.pages.{rule_id}")
    sound, faulty = getattr(module, "SOUND", None), getattr(module, "FAULTY", None)
    if sound is None or faulty is None:
        return None
    if isinstance(faulty, ExampleOfTwo):
        recipe = f"{faulty.first}\nand\n\n{faulty.second}"
    else:
        beside = f"\nwith this brewhouse.yaml\n\n{faulty.brewhouse}" if faulty.brewhouse else ""
        recipe = f"{faulty.recipe}{beside}"
    return sound, recipe, f"{faulty.line}:{faulty.column}: {faulty.level}: {rule_id}: {faulty.message}"
