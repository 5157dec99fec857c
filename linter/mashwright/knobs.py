"""What a brewer can turn to mend a recipe, each in steps that can be weighed or set.

A rule names knobs; the reviewing room tries them and keeps the smallest step at which the rule holds.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil

from mashwright.figures.board import number
from mashwright.figures.brew import Brew
from mashwright.figures.grist import grain_unit
from mashwright.figures.parts import Part
from mashwright.figures.plan import PlannedRest
from mashwright.finding import Edit, Path, Range
from mashwright.reading.quantity import Kind, Quantity, said, step_of


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
