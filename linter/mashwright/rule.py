"""The rule contract: everything that a rule imports, and nothing else.

A rule is a module: its docstring is its page, ``Limits`` its settings, ``check(brew, limits)`` yields findings, and
``SOUND`` and ``FAULTY`` are two short recipes that show it. Rules know no line numbers, no other rule, and nothing of
how findings are printed.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING, ClassVar, NamedTuple, overload

from msgspec.structs import replace

from mashwright.brew.own_units import KINDS
from mashwright.brew.parts import Part
from mashwright.figures.figure import Figure
from mashwright.figures.package import Stress
from mashwright.finding import Edit, Evidence, Finding, Level, Path, Say, say
from mashwright.former import not_there
from mashwright.measures.bounds import Bound
from mashwright.measures.declared import Declared, declared
from mashwright.measures.quantity import Kind, from_canonical
from mashwright.measures.range import Range
from mashwright.recipe.stated import Open, Unknown

if TYPE_CHECKING:
    from collections.abc import Mapping

    from mashwright.brew.brew import Brew

__all__ = [
    "Edit",
    "Evidence",
    "Example",
    "ExampleOfTwo",
    "Finding",
    "Level",
    "Limit",
    "Open",
    "Path",
    "Say",
    "Settings",
    "Unknown",
    "above",
    "below",
    "differs",
    "gap",
    "of_each_package",
    "replace",
    "row",
    "rows_of",
    "say",
    "strained",
]


class Limit:
    """One setting of a rule.

    A brewhouse may write it in any unit of the kind that ``unit`` measures. Its name there is the attribute's, with
    hyphens and without the declared unit at its end: ``floor_lintner`` in °Lintner is ``floor``.

    Args:
        default: in ``unit``.
        unit: as printed; "" for a bare number, such as a year.
        low, high: bounds of what a brewhouse may set.
        source: key of the bibliography.
        kind: what is measured, where the unit alone does not say it, as mg/l that are alkalinity.
        difference: it is how far two values are apart: 4 °C are 7.2 °F then, and not 39.2 °F.
        name: the name in brewhouse.yaml, where it is not to follow from the attribute's.
        old: names that it had there before, which are still read.
    """

    def __init__(
        self,
        default: float,
        unit: str,
        *,
        low: float,
        high: float,
        source: str,
        kind: Kind | None = None,
        difference: bool = False,
        name: str = "",
        old: tuple[str, ...] = (),
    ) -> None:
        self.default = default
        self.unit = unit
        self.low = low
        self.high = high
        self.source = source
        self.kind = kind
        self.difference = difference
        self.name = name
        self.old = old
        self.attribute = ""
        self.bound = ""
        self.belief = ""

    @classmethod
    def of(cls, bound: Bound) -> "Limit":
        """A bound of what can be meant: where a brewhouse moves it, the figures take it so too."""
        limit = cls(bound.usual, bound.unit, low=bound.low, high=bound.high, source=bound.source)
        limit.bound = bound.name
        return limit

    @classmethod
    def at(cls, bound: Bound) -> "Limit":
        """A belief that several rules share; where a brewhouse moves it here, this rule alone goes by that."""
        limit = cls(bound.usual, bound.unit, low=bound.low, high=bound.high, source=bound.source)
        limit.belief = bound.name
        return limit

    def __set_name__(self, owner: type, name: str) -> None:
        self.attribute = name

    @overload
    def __get__(self, owner: None, kind: type) -> "Limit": ...
    @overload
    def __get__(self, owner: "Settings", kind: type) -> float: ...
    def __get__(self, owner: "Settings | None", kind: type) -> "Limit | float":
        # asked of a class; in the settings themselves the value stands under the same name
        return self if owner is None else self.default

    @property
    def declared(self) -> Declared:
        """Its unit, with what that measures."""
        return declared(self.unit, self.kind, difference=self.difference)

    @property
    def key(self) -> str:
        """The name in brewhouse.yaml."""
        word = self.declared.word
        return self.name or (self.attribute.removesuffix(f"_{word}") if word else self.attribute).replace("_", "-")


class Settings:
    """Base of a rule's ``Limits``; each setting is a class attribute made by ``Limit``."""

    _usual: ClassVar[dict[str, float]] = {}

    def __init_subclass__(cls) -> None:
        """Keep what each setting usually is."""
        super().__init_subclass__()
        owners = reversed(cls.__mro__)
        cls._usual = {
            name: one.default for owner in owners for name, one in vars(owner).items() if isinstance(one, Limit)
        }

    def __init__(self, values: "Mapping[str, float] | None" = None) -> None:
        self.values = dict(values or {})
        # as attributes of its own they are read four times as fast as through the descriptor, a hundred times a recipe
        vars(self).update(self._usual)
        vars(self).update((name, value) for name, value in self.values.items() if name in self._usual)

    @classmethod
    def limits(cls) -> dict[str, Limit]:
        """The settings by their names in brewhouse.yaml."""
        found = (value for owner in reversed(cls.__mro__) for value in vars(owner).values() if isinstance(value, Limit))
        return {limit.key: limit for limit in found}

    @classmethod
    def old_names(cls) -> dict[str, str]:
        """Names that settings had in brewhouse.yaml before, and the ones that they have now."""
        return {old: key for key, limit in cls.limits().items() for old in limit.old}


class Example(NamedTuple):
    """A short faulty recipe and the one finding that it gives: level, line, column, message.

    Where a rule asks for vessels, ``brewhouse`` is the text of the brewhouse.yaml that lies beside it.
    """

    recipe: str
    level: str
    line: int
    column: int
    message: str
    brewhouse: str = ""


_PAST = 1e-9  # share of a limit that a sum of weights may be past it by rounding alone


class ExampleOfTwo(NamedTuple):
    """Two recipes of a collection, and the one finding that they give, in the second."""

    first: str
    second: str
    level: str
    line: int
    column: int
    message: str


def below(value: Figure | Range, limit: float, *, doubt: bool = False, harm: bool = False) -> Level | None:
    """How surely a value is below a limit; its high end is the favourable one.

    Args:
        value: a figure, or its range.
        limit: in the same unit.
        doubt: whether to make a note where only the low end is below.
        harm: people can be hurt, so it is an error at the typical value and a warning at the unfavourable end.

    Returns:
        None where it holds. A figure that rests on memory alone makes no error.
    """
    bar = limit - _PAST * abs(limit)
    if harm:
        return _harmful(value.typical < bar, value.low < bar)
    return _level(value, value.high < bar, value.typical < bar, doubt and value.low < bar)


def above(value: Figure | Range, limit: float, *, doubt: bool = False, harm: bool = False) -> Level | None:
    """How surely a value is above a limit; its low end is the favourable one. Otherwise as ``below``."""
    bar = limit + _PAST * abs(limit)
    if harm:
        return _harmful(value.typical > bar, value.high > bar)
    return _level(value, value.low > bar, value.typical > bar, doubt and value.high > bar)


def differs(value: Figure | Range, stated: Range, allowed: float) -> Level | None:
    """How surely a value and a stated one are further apart than is allowed; the nearest ends are the favourable ones.

    Args:
        value: a figure, or its range.
        stated: what the recipe says, in the same unit.
        allowed: the distance that is still no fault.
    """
    nearest_ends = max(stated.low - value.high, value.low - stated.high, 0.0)
    return _level(value, nearest_ends > allowed, abs(value.typical - stated.typical) > allowed, perhaps=False)


def _level(value: Figure | Range, surely: bool, typically: bool, perhaps: bool) -> Level | None:
    if surely:
        return Level.WARNING if isinstance(value, Figure) and value.memory else Level.ERROR
    if typically:
        return Level.WARNING
    return Level.NOTE if perhaps else None


def _harmful(typically: bool, perhaps: bool) -> Level | None:
    return Level.ERROR if typically else Level.WARNING if perhaps else None


def of_each_package(brew: "Brew", check: "Callable[[Brew], Iterable[Finding]]") -> Iterator[Finding]:
    """What a rule about the package finds in each of them; outside of these one finding a place, the worst.

    Args:
        brew: whose beer goes into one package or several.
        check: finds what is wrong with a brew that goes into one.
    """
    if not brew.recipe.beside:
        yield from check(brew)
        return
    elsewhere: dict[Path, Finding] = {}
    for one in brew.by_package():
        try:
            for finding in check(one):
                if finding.path[:1] == ("package",):
                    yield finding
                elif finding.path not in elsewhere or finding.level > elsewhere[finding.path].level:
                    elsewhere[finding.path] = finding
        except Unknown as why:
            brew.refused(why)  # noted where it is open; what this package does not say leaves the others to be judged
    yield from elsewhere.values()


def strained(held: Stress) -> Level | None:
    """How bad it is that a vessel is to hold so much gas, for people can be hurt; None where it bears it.

    A stated rating: an error past it at the usual value, a warning at the unfavourable end. By the kind of vessel: an
    error past what it is made for, a warning from where doubt begins, a note past what it is commonly used for. The
    unfavourable end makes a warning only where nothing lets the gas out.
    """
    value, limit, vessel = held.value, held.bearing.limit, held.bearing.vessel
    level = above(value, limit.high, harm=True)
    if level is Level.ERROR or limit.known or (level and vessel.sealed):
        return level
    usual = Range.exact(value.typical)
    if above(usual, limit.typical):
        return Level.WARNING
    return Level.NOTE if above(usual, limit.low) else None


def gap(value: Figure | Range, limit: float) -> float:
    """How far past a limit the typical value lies, as a share of the limit; 1 where the limit is 0."""
    return round(abs(value.typical - limit) / abs(limit), 4) if limit else 1.0


def row(value: Figure, path: Path | None = None) -> Evidence:
    """A figure as one row of evidence: its title in lower case, its value in the recipe's own unit."""
    unit = value.own_unit() if value.own_unit is not None else value.unit
    there = from_canonical(value.typical, unit, KINDS[value.unit]) if unit != value.unit else value.typical
    label = value.title[:1].lower() + value.title[1:]
    return Evidence(label, there, unit, path or (value.paths[0] if value.paths else None))


def rows_of(parts: "tuple[Part, ...] | list[Part]", value: Callable[[Part], float], unit: str) -> tuple[Evidence, ...]:
    """One row for each part, with its weight and one of its values."""
    return tuple(Evidence(f"{part.name}, {part.weight.text}", value(part), unit, part.path) for part in parts)


if not TYPE_CHECKING:  # to a type checker what is not here is an error of its own

    def __getattr__(name: str) -> object:
        """What to say to a rule that asks this module for what it does not hold.

        Raises:
            NotThereError: always, but for what Python itself asks.
        """
        if name.startswith("__"):
            raise AttributeError(name)
        raise not_there(name)
