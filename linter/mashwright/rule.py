"""The rule contract: everything that a rule imports, and nothing else.

A rule is a module: its docstring is its page, ``Limits`` its settings, ``check(brew, limits)`` yields findings, and
``SOUND`` and ``FAULTY`` are two short recipes that show it. Rules know no line numbers, no other rule, and nothing of
how findings are printed.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING, NamedTuple, overload

from mashwright.figures.board import gravity, number
from mashwright.figures.brew import Brew
from mashwright.figures.conversion import conversion, conversion_time, follow, starch_released, starches_of
from mashwright.figures.figure import Figure, Unknown
from mashwright.figures.function import figure
from mashwright.figures.gravity import (
    deliveries,
    efficiency_needed,
    fermenter_volume,
    highest_og,
    is_fermentable_sugar,
    mash_water,
    og,
    potential_extract,
    sugar_share,
    wort_limit,
)
from mashwright.figures.grist import (
    acidulated_share,
    adjunct_share,
    caramel_share,
    grain_unit,
    grist_diastatic_power,
    grist_weight,
    huskless_share,
    mash_weight,
    roast_share,
    weight_in,
)
from mashwright.figures.parts import MALT_EXTRACTS, MALTS, PREGELATINISED, SUGARS, UNMALTED, Part, table_entry
from mashwright.figures.plan import PlannedRest
from mashwright.figures.strength import (
    abv,
    apparent_attenuation,
    apparent_ceiling,
    fermenting,
    fg,
    real_attenuation,
    splits_dextrins,
)
from mashwright.finding import Edit, Evidence, Finding, Level, Path, Range
from mashwright.ingredients.lookup import nearest
from mashwright.ingredients.lookup import yeast as known_yeast
from mashwright.reading.quantity import Kind, Quantity, from_canonical, said, step_of

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = [
    "MALTS",
    "MALT_EXTRACTS",
    "PREGELATINISED",
    "SUGARS",
    "UNMALTED",
    "Brew",
    "Edit",
    "Evidence",
    "Example",
    "Figure",
    "Finding",
    "Kind",
    "Knob",
    "Level",
    "Limit",
    "Part",
    "Path",
    "PlannedRest",
    "Quantity",
    "Range",
    "Settings",
    "Unknown",
    "above",
    "abv",
    "acidulated_share",
    "added_grain",
    "adjunct_share",
    "another_text",
    "apparent_attenuation",
    "apparent_ceiling",
    "below",
    "caramel_share",
    "conversion",
    "conversion_time",
    "degrees_in",
    "deliveries",
    "differs",
    "efficiency_needed",
    "fermenter_volume",
    "fermenting",
    "fg",
    "figure",
    "follow",
    "from_canonical",
    "gap",
    "grain_unit",
    "gravity",
    "grist_diastatic_power",
    "grist_weight",
    "highest_og",
    "huskless_share",
    "is_fermentable_sugar",
    "known_yeast",
    "less_of",
    "longer",
    "mash_water",
    "mash_weight",
    "more_of",
    "nearest",
    "number",
    "og",
    "one_change",
    "potential_extract",
    "real_attenuation",
    "rest_at",
    "roast_share",
    "row",
    "rows_of",
    "said",
    "splits_dextrins",
    "starch_released",
    "starches_of",
    "stated_instead",
    "stated_temperature",
    "step_of",
    "sugar_share",
    "table_entry",
    "told",
    "weight_in",
    "wort_limit",
]


class Limit:
    """One setting of a rule.

    Args:
        default: in ``unit``.
        unit: as printed; "" for a bare number.
        low, high: bounds of what a brewhouse may set.
        source: key of the bibliography.
    """

    def __init__(self, default: float, unit: str, *, low: float, high: float, source: str) -> None:
        self.default = default
        self.unit = unit
        self.low = low
        self.high = high
        self.source = source
        self.attribute = ""

    def __set_name__(self, owner: type, name: str) -> None:
        self.attribute = name

    @overload
    def __get__(self, owner: None, kind: type) -> "Limit": ...
    @overload
    def __get__(self, owner: "Settings", kind: type) -> float: ...
    def __get__(self, owner: "Settings | None", kind: type) -> "Limit | float":
        return self if owner is None else owner.values.get(self.attribute, self.default)

    @property
    def key(self) -> str:
        """The name in brewhouse.yaml: the attribute's without its unit."""
        words = self.attribute.removesuffix("_per_l").removesuffix("_per_kg").split("_")
        unit_words = {"lintner", "lovibond", "percent", "c", "min", "points", "plato", "kg", "g", "l", "share"}
        unit_words |= {"times", "years"}
        return "-".join(words[:-1] if words[-1] in unit_words and len(words) > 1 else words)


class Settings:
    """Base of a rule's ``Limits``; each setting is a class attribute made by ``Limit``."""

    def __init__(self, values: "Mapping[str, float] | None" = None) -> None:
        self.values = dict(values or {})

    @classmethod
    def limits(cls) -> dict[str, Limit]:
        """The settings by their names in brewhouse.yaml."""
        found = (value for owner in reversed(cls.__mro__) for value in vars(owner).values() if isinstance(value, Limit))
        return {limit.key: limit for limit in found}


class Example(NamedTuple):
    """A short faulty recipe and the one finding that it gives: level, line, column, message."""

    recipe: str
    level: str
    line: int
    column: int
    message: str


_PAST = 1e-9  # share of a limit that a sum of weights may be past it by rounding alone


def below(value: Figure | Range, limit: float, *, doubt: bool = False) -> Level | None:
    """How surely a value is below a limit; its high end is the favourable one.

    Args:
        value: a figure, or its range.
        limit: in the same unit.
        doubt: whether to make a note where only the low end is below.

    Returns:
        None where it holds. A figure that rests on memory alone makes no error.
    """
    bar = limit - _PAST * abs(limit)
    return _level(value, value.high < bar, value.typical < bar, doubt and value.low < bar)


def above(value: Figure | Range, limit: float, *, doubt: bool = False) -> Level | None:
    """How surely a value is above a limit; its low end is the favourable one. Otherwise as ``below``."""
    bar = limit + _PAST * abs(limit)
    return _level(value, value.low > bar, value.typical > bar, doubt and value.high > bar)


def differs(value: Figure | Range, stated: Range, allowed: float, *, doubt: bool = False) -> Level | None:
    """How surely a value and a stated one are further apart than is allowed; the nearest ends are the favourable ones.

    Args:
        value: a figure, or its range.
        stated: what the recipe says, in the same unit.
        allowed: the distance that is still no fault.
        doubt: whether to make a note where only the far ends differ.
    """
    nearest_ends = max(stated.low - value.high, value.low - stated.high, 0.0)
    farthest_ends = max(stated.high - value.low, value.high - stated.low)
    return _level(
        value, nearest_ends > allowed, abs(value.typical - stated.typical) > allowed, doubt and farthest_ends > allowed
    )


def _level(value: Figure | Range, surely: bool, typically: bool, perhaps: bool) -> Level | None:
    if surely:
        return Level.WARNING if isinstance(value, Figure) and value.memory else Level.ERROR
    if typically:
        return Level.WARNING
    return Level.NOTE if perhaps else None


def gap(value: Figure | Range, limit: float) -> float:
    """How far past a limit the typical value lies, as a share of the limit; 1 where the limit is 0."""
    return round(abs(value.typical - limit) / abs(limit), 4) if limit else 1.0


def told(value: float, limit: float, digits: int = 2) -> str:
    """A number beside the limit that it misses: digits are added until the two print differently."""
    while number(value, digits) == number(limit, digits) and digits < 9:
        digits += 1
    return number(value, digits)


def row(value: Figure, path: Path | None = None) -> Evidence:
    """A figure as one row of evidence."""
    return Evidence(value.title, value.typical, value.unit, path or (value.paths[0] if value.paths else None))


def rows_of(parts: "tuple[Part, ...] | list[Part]", value: Callable[[Part], float], unit: str) -> tuple[Evidence, ...]:
    """One row for each part, with its weight and one of its values."""
    return tuple(Evidence(f"{part.name}, {part.weight.text}", value(part), unit, part.path) for part in parts)


@dataclass(frozen=True, slots=True)
class Knob:
    """One thing that a brewer can turn, in steps that can be weighed or set.

    Attributes:
        count: number of steps.
        edits: the changes of the recipe that a step (from 0) makes.
        say: what a step means, as a brewer would say it.
    """

    count: int
    edits: Callable[[int], tuple[Edit, ...]]
    say: Callable[[int], str]


def more_of(part: Part, most: float = 3.0) -> Knob:
    """More of one part, up to so many times its weight."""
    return _weight_knob(part, part.weight_kg, part.weight_kg * most)


def less_of(part: Part, least: float = 0.0) -> Knob:
    """Less of one part, down to a share of its weight."""
    return _weight_knob(part, part.weight_kg, part.weight_kg * least)


_COARSE_FROM_KG = 0.1  # from here on grain is weighed in tens of grams; common practice
_COARSE_STEP_KG = 0.01


def _weight_knob(part: Part, start_kg: float, end_kg: float) -> Knob:
    step = step_of(part.weight.unit, Kind.MASS)
    if part.weight_kg >= _COARSE_FROM_KG:
        step = max(step, _COARSE_STEP_KG)
    sign = 1 if end_kg > start_kg else -1
    # from one round weight to the next; the last step may not reach nothing at all
    first = ceil(start_kg / step + 1e-9) if sign > 0 else -ceil(-start_kg / step + 1e-9)
    first += sign if abs(first * step - start_kg) < 1e-9 else 0
    last = int(end_kg / step)
    count = max(0, (last - first) * sign + 1) if part.line.weight is not None else 0
    count = count if sign > 0 else max(0, min(count, first))

    def text(step_number: int) -> str:
        return said((first + sign * step_number) * step, part.weight.unit, Kind.MASS)

    return Knob(
        count,
        lambda number_: (Edit((*part.path, "weight"), text(number_)),),
        lambda number_: f"{text(number_)} of {part.name} instead of {part.weight.text}",
    )


def longer(rest: PlannedRest, most_min: float = 120, step_min: float = 5) -> Knob:
    """A longer rest, in steps, where the recipe states its length."""
    minutes = rest.minutes.typical
    first = int(minutes // step_min) + 1
    count = max(0, int(most_min // step_min) - first + 1) if rest.minutes_path is not None else 0
    path = rest.minutes_path or ()

    def text(step_number: int) -> str:
        return f"{number((first + step_number) * step_min, 4)} min"

    return Knob(
        count,
        lambda number_: (Edit(path, text(number_)),),
        lambda number_: f"rest {text(number_)} instead of {number(minutes, 4)}",
    )


def stated_temperature(brew: Brew, rest: PlannedRest) -> Quantity | None:
    """The temperature of a rest or a steep as the recipe writes it; None where it was assumed."""
    recipe = brew.recipe
    for one in recipe.mash.rests if recipe.mash is not None else ():
        if one.path == rest.path:
            return one.at
    return recipe.steep.at if recipe.steep is not None and recipe.steep.path == rest.path else None


def degrees_in(brew: Brew, celsius: Range | float) -> str:
    """A temperature in the unit of the recipe's rests; where it states none, °F beside pounds and ounces."""
    for rest in brew.plan.rests:
        if (stated := stated_temperature(brew, rest)) is not None:
            return said(celsius, stated.unit, Kind.TEMPERATURE)
    return said(celsius, "°F" if grain_unit(brew).startswith(("lb", "oz")) else "°C", Kind.TEMPERATURE)


def rest_at(brew: Brew, rest: PlannedRest, first_c: float, last_c: float) -> Knob:
    """A rest at another temperature, in steps of the recipe's own unit from the first to the last of them."""
    stated = stated_temperature(brew, rest)
    if stated is None or rest.path is None:
        return Knob(0, lambda _: (), lambda _: "")
    step = step_of(stated.unit, Kind.TEMPERATURE) * (1 if last_c >= first_c else -1)
    path, before = (*rest.path, "at"), stated.text

    def text(step_number: int) -> str:
        return said(first_c + step_number * step, stated.unit, Kind.TEMPERATURE)

    return Knob(
        int(abs(last_c - first_c) / abs(step) + 1e-9) + 1,
        lambda number_: (Edit(path, text(number_)),),
        lambda number_: f"{text(number_)} instead of {before}",
    )


def added_grain(name: str, unit: str, least_kg: float, most_kg: float, more: str = "") -> Knob:
    """A new line of the grist, in weights that can be weighed, from the least to the most.

    Args:
        name: of the grain, plain text.
        unit: of its weight.
        least_kg, most_kg: where the steps begin and end, kg.
        more: further fields of the line, as ``add: steep``.
    """
    coarse = {"kg": 0.05, "lb": 0.0625 * 0.45359237, "lb oz": 0.0625 * 0.45359237, "g": 0.01}  # kg
    step = coarse.get(unit, step_of(unit, Kind.MASS))
    first = max(1, ceil(least_kg / step - 1e-9))
    fields = f", {more}" if more else ""

    def text(step_number: int) -> str:
        return said((first + step_number) * step, unit, Kind.MASS)

    return Knob(
        max(0, int(most_kg / step + 1e-9) - first + 1),
        lambda number_: (Edit(("grist", "-"), f"{{grain: {name}, weight: {text(number_)}{fields}}}"),),
        lambda number_: f"add {text(number_)} of {name}",
    )


def another_text(path: Path, text: str, say: str) -> Knob:
    """One value put in place of another, or a field added that is not there yet."""
    return one_change((Edit(path, text),), say)


def stated_instead(path: Path, stated: Quantity, value: float, what: str) -> Knob:
    """What the recipe states, put right: a value in the unit in which it is stated."""
    text = said(value, stated.unit, stated.kind)
    return another_text(path, text, f"{what} {text} instead of {stated.text}")


def one_change(edits: tuple[Edit, ...], say: str) -> Knob:
    """One change with nothing to turn: several edits at once, if need be."""
    return Knob(1, lambda _: edits, lambda _: say)
