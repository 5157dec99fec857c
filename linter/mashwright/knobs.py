"""What a brewer can turn to mend a recipe, each in steps that can be weighed or set.

A rule names knobs; the reviewing room tries them and keeps the smallest step at which the rule holds.
"""

from collections.abc import Callable
from math import ceil

from msgspec import Struct

from mashwright.brew.board import number
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import grain_unit
from mashwright.brew.parts import Part
from mashwright.brew.plan import PlannedRest
from mashwright.finding import Edit, Path
from mashwright.measures.quantity import Kind, Quantity, from_canonical, said, step_of, to_canonical
from mashwright.reading.fields import OTHER_SPELLINGS
from mashwright.reading.nodes import at
from mashwright.recipe.model import Amount
from mashwright.recipe.stated import NOWHERE, Stated
from mashwright.words.sentences import Measure


class Knob(Struct, frozen=True):
    """One thing that a brewer can turn, in steps that can be weighed or set.

    Attributes:
        count: number of steps.
        edits: the changes of the recipe that a step (from 0) makes.
        say: what a step means, as a brewer would say it.
    """

    count: int
    edits: Callable[[int], tuple[Edit, ...]]
    say: Callable[[int], str]


def _of(weight: str, name: str) -> str:
    """A weight of something: ``2.66 quarters of pale malt``, though the unit is a quarter of malt."""
    return f"{weight.removesuffix(' of malt')} of {name}"


NOTHING = Knob(0, lambda _: (), lambda _: "")
"""A knob that cannot be turned."""


def more_of(part: Part, most: float = 3.0) -> Knob:
    """More of one part, up to so many times its weight."""
    if not _whole(part):
        return NOTHING
    return _weight_knob(part, part.weight_kg, part.weight_kg * most)


def less_of(part: Part, least: float = 0.0, first_kg: float | None = None) -> Knob:
    """Less of one part, down to a share of its weight; the most that is offered may be given."""
    if not _whole(part):
        return NOTHING
    start = part.weight_kg if first_kg is None else min(part.weight_kg, first_kg)
    return _weight_knob(part, start, part.weight_kg * least)


def _whole(part: Part) -> bool:
    """Whether a part has the weight that its line states, and is not one wort's share of it."""
    stated = part.line.weight
    return stated.known and stated.range == part.weight.range


_COARSE_FROM_KG = 0.1  # from here on grain is weighed in tens of grams; common practice
_COARSE_STEP_KG = 0.01


def _weight_knob(part: Part, start_kg: float, end_kg: float) -> Knob:
    """Round weights from one to another, the weight as it is left out; the last may not be nothing at all."""
    step = step_of(part.weight.unit, Kind.MASS)
    if part.weight.unit in ("kg", "g") and part.weight_kg >= _COARSE_FROM_KG:
        step = max(step, _COARSE_STEP_KG)
    sign = 1 if end_kg > start_kg else -1
    first = ceil(start_kg / step - 1e-9) if sign > 0 else int(start_kg / step + 1e-9)
    first += sign if abs(first * step - part.weight_kg) < 1e-9 else 0
    last = int(end_kg / step + 1e-9) if sign > 0 else ceil(end_kg / step - 1e-9)
    count = max(0, (last - first) * sign + 1)
    count = count if sign > 0 else max(0, min(count, first))

    def text(step_number: int) -> str:
        return said((first + sign * step_number) * step, part.weight.unit, Kind.MASS)

    return Knob(
        count,
        lambda number_: (Edit((*part.path, "weight"), text(number_)),),
        lambda number_: f"use {_of(text(number_), part.name)} instead of {part.weight.text}",
    )


_MOVED_KG = {"kg": 0.05, "g": 0.05}  # steps in which one malt takes another's place; in other units a quarter pound


def in_its_place(brew: Brew, part: Part, name: str, least: float, most: float = 0.9) -> Knob:
    """Another grain in place of some of a part: the same weight in all, in round steps.

    Args:
        part: what there is to be less of; its line may have a weight or a share.
        name: of the other grain, plain text.
        least, most: shares of the part to be replaced, 0-1.
    """
    if part.table_name == name:  # its own value is what is wrong, and no malt mends that in its own place
        return NOTHING
    by_weight = part.line.weight.known
    unit = grain_unit(brew) if by_weight else "%"
    field, kind = ("weight", Kind.MASS) if by_weight else ("share", Kind.SHARE)
    stated = part.line.weight if by_weight else part.line.share
    if not stated.known or not stated.range.known:
        return NOTHING
    whole, before = stated.range.typical, stated
    step = (_MOVED_KG.get(unit) or to_canonical(0.25, "lb", Kind.MASS)) if by_weight else 1.0
    first = max(1, ceil(least * whole / step - 1e-9))

    def texts(step_number: int) -> tuple[str, str]:
        moved = (first + step_number) * step
        return said(whole - moved, before.unit, kind), said(moved, unit, kind)

    def edits(step_number: int) -> tuple[Edit, ...]:
        less, other = texts(step_number)
        line = f"{{grain: {name}, {field}: {other}}}"
        return Edit((*part.path, field), less), Edit(("grist", "-"), line)

    def say(step_number: int) -> str:
        less, other = texts(step_number)
        whole, rest = before.text.removesuffix(" of malt"), less.removesuffix(" of malt")
        return f"cut the {part.name} from {whole} to {rest} and add {_of(other, name)}"

    return Knob(max(0, int(most * whole / step + 1e-9) - first + 1), edits, say)


_STEP_MIN = 5  # rests are timed in fives; common practice


def longer(rest: PlannedRest, most_min: float = 120, least_min: float = 0) -> Knob:
    """A longer rest, in steps of 5 min, where the recipe states its length; the least that is offered may be given."""
    minutes = rest.minutes.typical
    first = max(int(minutes // _STEP_MIN) + 1, ceil(least_min / _STEP_MIN - 1e-9))
    count = max(0, int(most_min // _STEP_MIN) - first + 1) if rest.minutes_path is not None else 0
    path = rest.minutes_path or ()

    def text(step_number: int) -> str:
        return f"{number((first + step_number) * _STEP_MIN, 4)} min"

    return Knob(
        count,
        lambda number_: (Edit(path, text(number_)),),
        lambda number_: f"rest {text(number_)} instead of {number(minutes, 4)} min",
    )


def stated_temperature(brew: Brew, rest: PlannedRest) -> Stated:
    """The temperature of a rest or a steep as the recipe writes it; unsaid where it was assumed."""
    recipe = brew.recipe
    for one in recipe.mash.rests:
        if one.path == rest.path:
            return one.at
    return recipe.steep.at if recipe.steep.path == rest.path else NOWHERE


def rest_at(brew: Brew, rest: PlannedRest, first_c: float, last_c: float, least_min: float = 0) -> Knob:
    """A rest at another temperature, in steps of the recipe's own unit from the first to the last of them.

    A rest that is stated to be shorter than ``least_min`` is drawn out to that at the same time.
    """
    stated = stated_temperature(brew, rest)
    if not stated.known or rest.path is None:
        return NOTHING
    step = step_of(stated.unit, Kind.TEMPERATURE) * (1 if last_c >= first_c else -1)
    path, before = (*rest.path, "at"), stated.text
    short = rest.minutes_path is not None and rest.minutes.typical < least_min
    more = (Edit(rest.minutes_path, f"{number(least_min)} min"),) if short and rest.minutes_path is not None else ()
    verb, was = (
        (f"rest {number(least_min)} min at", f"{number(rest.minutes.typical)} min at ") if short else ("use", "")
    )

    def text(step_number: int) -> str:
        return said(first_c + step_number * step, stated.unit, Kind.TEMPERATURE)

    return Knob(
        int(abs(last_c - first_c) / abs(step) + 1e-9) + 1,
        lambda number_: (Edit(path, text(number_)), *more),
        lambda number_: f"{verb} {text(number_)} instead of {was}{before}",
    )


def added_grain(name: str, unit: str, least_kg: float, most_kg: float, more: str = "") -> Knob:
    """A new line of the grist, in weights that can be weighed, from the least to the most.

    Args:
        name: of the grain, plain text.
        unit: of its weight.
        least_kg, most_kg: where the steps begin and end, kg.
        more: further fields of the line, as ``add: steep``.
    """
    ounce = to_canonical(1, "oz", Kind.MASS)
    coarse = {"kg": 0.05, "lb": ounce, "lb oz": ounce, "g": 0.01}  # kg
    step = coarse.get(unit, step_of(unit, Kind.MASS))
    first = max(1, ceil(least_kg / step - 1e-9))
    fields, beside = (f", {more}", f" ({more})") if more else ("", "")

    def text(step_number: int) -> str:
        return said((first + step_number) * step, unit, Kind.MASS)

    return Knob(
        max(0, int(most_kg / step + 1e-9) - first + 1),
        lambda number_: (Edit(("grist", "-"), f"{{grain: {name}, weight: {text(number_)}{fields}}}"),),
        lambda number_: f"add {_of(text(number_), name)}{beside}",
    )


def same_number(stated: Quantity, unit: str) -> Measure | None:
    """The number as it stands with another unit behind it; None for a range."""
    if not stated.range.known:
        return None
    written = from_canonical(stated.range.typical, stated.unit, stated.kind)
    return Measure(f"{number(written, 6)} {unit}", written, unit)


_OTHER_SIZE = {  # the unit that a slip of the pen takes for another, and how many of it are in that
    "kg": ("g", 1000), "g": ("kg", 0.001), "lb": ("oz", 16), "oz": ("lb", 1 / 16), "l": ("ml", 1000),
    "ml": ("l", 0.001), "hl": ("l", 100), "t": ("kg", 1000), "mg": ("g", 0.001),
}  # fmt: skip


def other_size(path: Path, stated: Quantity, low: float, high: float) -> tuple[Measure | None, tuple[Knob, ...]]:
    """What may be meant, and the change, where another unit brings the number between two canonical values."""
    unit, scale = _OTHER_SIZE.get(stated.unit, ("", 1))
    text = same_number(stated, unit) if unit else None
    if text is None or not low <= stated.range.typical / scale <= high:
        return None, ()
    return text, (another_text(path, text, f"use {text} instead of {stated.text}"),)


def another_text(path: Path, text: str, say: str) -> Knob:
    """One value put in place of another, or a field added that is not there yet."""
    return one_change((Edit(path, text),), say)


def stated_instead(path: Path, stated: Quantity, value: float, what: str) -> Knob:
    """What the recipe states, put right: a value in the unit in which it is stated."""
    text = said(value, stated.unit, stated.kind)
    return another_text(path, text, f"{what} {text} instead of {stated.text}")


def stated_right(path: Path, stated: Quantity, value: float, name: str) -> Knob:
    """What the recipe states of the beer, put right by what it gives: its OG, its colour."""
    text = said(value, stated.unit, stated.kind)
    return another_text(path, text, f"change the stated {name} from {stated.text} to {text}")


def one_change(edits: tuple[Edit, ...], say: str) -> Knob:
    """One change with nothing to turn: several edits at once, if need be."""
    return Knob(1, lambda _: edits, lambda _: say)


def less_of_amount(amount: Amount, most: float) -> Knob:
    """Less of a salt or an acid, down from so much; in the steps of its own unit, in its canonical unit."""
    quantity = amount.quantity
    if not quantity.known:
        return NOTHING
    unit, kind = quantity.unit, quantity.kind
    step = step_of(unit, kind)
    first = int(min(most, quantity.range.typical) / step)

    def text(step_number: int) -> str:
        return said((first - step_number) * step, unit, kind)

    return Knob(
        max(0, first),
        lambda number_: (Edit(amount.path, text(number_)),),
        lambda number_: f"use {text(number_)} of {amount.name} instead of {quantity.text}",
    )


def as_written(brew: Brew, path: Path) -> Path:
    """A path whose last key is spelt as the recipe spells it: `color` where that stands instead of `colour`."""
    root, last = brew.document.root, path[-1]
    other = OTHER_SPELLINGS.get(last) if isinstance(last, str) else None
    if root is None or other is None or at(root, path) is not None:
        return path
    spelt = (*path[:-1], other)
    return spelt if at(root, spelt) is not None else path
