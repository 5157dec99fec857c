"""All figures of one recipe as plain frozen values, ready to be printed or sent between processes."""

from collections.abc import Callable, Iterator

from msgspec import Struct
from msgspec.structs import replace

from mashwright.brew.board import gravity, number
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import KINDS, grain_unit, own_unit, weight_in
from mashwright.brewing.gravity import plato
from mashwright.figures import ALL, OF_THE_PACKAGE, of_a_wort, of_the_mash
from mashwright.figures.beer import day_name
from mashwright.figures.figure import Figure
from mashwright.figures.function import FigureFunction, spanning
from mashwright.finding import Path
from mashwright.measures.quantity import Kind, from_canonical, said
from mashwright.measures.range import Range
from mashwright.reading.nodes import at
from mashwright.recipe.stated import Stated, Unknown
from mashwright.reviewing.results import Result, Reviewed, pointer

OTHER_SCALES = {"in °P": "°P", "as SG": "SG", "in EBC": "EBC"}
"""Parts that say the same value on another scale, and the unit of that."""

_MODERN = {"l": ("l", "ml", "hl", "gal", "qt", "pt", "oz"), "°C": ("°C", "°F")}
"""Ends of units that a jug or a thermometer shows; beside an older one stands the value in the figure's own."""

_WEIGHED_IN = ("kg", "g", "lb", "oz", "lb oz")
"""Units that a scale shows; beside an older one stands the weight in kg."""


class FigureRow(Struct, frozen=True):
    """One figure as it is shown.

    Attributes:
        low, typical, high: in ``unit``; None where the figure cannot be computed.
        shown: the value and its range as a brewer reads it, in the recipe's own unit; "" where there is none.
        parts: further values by name, in ``unit``.
        working: the sum with this recipe's numbers, several lines.
        sources: keys of the bibliography.
        pointers, lines: the places that it came from.
        missing: what it would need and where that should stand; "" where it is known.
        package: of which it is, where the beer goes into several; "" else.
        shown_in: the recipe's own unit, in which value and parts are shown where it is not ``unit``; "" else.
    """

    id: str
    title: str
    unit: str
    low: float | None = None
    typical: float | None = None
    high: float | None = None
    shown: str = ""
    parts: tuple[tuple[str, Range], ...] = ()
    working: str = ""
    assumed: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    pointers: tuple[str, ...] = ()
    lines: tuple[int, ...] = ()
    missing: str = ""
    shown_in: str = ""
    package: str = ""


class Sheet(Struct, frozen=True):
    """All figures of a recipe.

    Attributes:
        readings: line, and how an old or unclear measure there was taken.
        problems: what could not be read; filled by whoever read it.
        wrong_house: the brewhouse, where there is something to say of it.
        measured: line, and what was measured on a brew day beside what was reckoned.
        worts: where a mash gives several, a sheet for each under its name; the rows are those of the mash then.
        pointer: where this is the sheet of such a wort, its place.
    """

    path: str
    name: str
    rows: tuple[FigureRow, ...]
    readings: tuple[tuple[int, str], ...] = ()
    problems: tuple[Result, ...] = ()
    wrong_house: Reviewed | None = None
    measured: tuple[tuple[int, str], ...] = ()
    worts: "tuple[Sheet, ...]" = ()
    pointer: str = ""


def sheet_of(brew: Brew, path: str) -> Sheet:
    """Every figure of a brew, in the order in which a brewer works them out.

    Args:
        brew: the recipe on its brewhouse.
        path: of the recipe, relative to the current folder.
    """
    worts: tuple[Sheet, ...] = ()
    functions = ALL
    if brew.recipe.worts:
        functions, worts = of_the_mash(), tuple(_of_worts(brew, path))
    rows = tuple(row for function in functions for row in _rows(brew, function))
    readings = tuple((_line(brew, place), text) for place, text in brew.recipe.readings)
    measured = tuple(_measured(brew, rows))
    return Sheet(path, brew.recipe.name, rows, tuple(sorted(readings)), measured=measured, worts=worts)


def _of_worts(brew: Brew, path: str) -> Iterator[Sheet]:
    """A sheet of each wort of a mash."""
    from mashwright.figures.kettle.worts import worts_of  # most recipes give one beer

    for own in worts_of(brew):
        assert own.of_mash is not None
        rows = tuple(row for function in of_a_wort() for row in _rows(own, function))
        at = pointer(own.of_mash.path)
        yield Sheet(path, own.recipe.name, rows, measured=tuple(_measured(own, rows)), pointer=at)


_BESIDE = {
    "og": ("OG", "og"),
    "fg": ("FG", "fg"),
    "abv": ("ABV", "abv"),
    "attenuation": ("attenuation", "apparent-attenuation"),
    "bitterness": ("bitterness", "bitterness"),
    "colour": ("colour", "colour"),
    "first_wort_gravity": ("first wort", ""),
    "pre_boil_gravity": ("before the boil", "pre-boil-gravity"),
}
"""What may be measured: its word, and the figure that it is set beside."""


def _measured(brew: Brew, rows: tuple[FigureRow, ...]) -> Iterator[tuple[int, str]]:
    """The brew days, each beside the figures: facts, which nobody calls wrong."""
    reckoned = {row.id: row.typical for row in rows}
    for day in brew.recipe.measured:
        told_ = []
        for field, (word, figure_id) in _BESIDE.items():
            stated: Stated = getattr(day.measured, field)
            if not stated.known:
                continue
            figure = reckoned.get(figure_id)
            beside = f" (worked out: {said(figure, stated.unit, stated.kind)})" if figure is not None else ""
            told_.append(f"{word} {stated.text}{beside}")
        if day.batch.stated.known:
            told_.append(f"batch {day.batch.stated.text}")
        told_ += [f"{one.name} {one.quantity.text}" for one in day.temperatures if one.quantity.known]
        if told_:
            yield _line(brew, day.path), f"{day_name(brew, day)}: {', '.join(told_)}"


def _rows(brew: Brew, function: FigureFunction) -> Iterator[FigureRow]:
    """A figure; one of the package for each of several, unless it is the same for all."""
    if not brew.recipe.beside or function not in OF_THE_PACKAGE:
        yield _row(brew, function)
        return
    packages = [(one.recipe.package, _row(one, function)) for one in brew.by_package()]
    if all(row == packages[0][1] for _, row in packages):
        yield packages[0][1]
        return
    for package, row in packages:
        name = f"{package.vessel or 'package'} (line {_line(brew, package.path)})"
        yield replace(row, title=f"{row.title}: {name}", package=name)


def _row(brew: Brew, function: FigureFunction) -> FigureRow:
    try:
        figure = spanning(function, brew)
        own, working = _own_unit(brew, figure), figure.working()
    except Unknown as unknown:  # of the figure; or of its working, which then cannot be shown to hold
        missing = f"{unknown.missing}{_where(brew, unknown.path)}"
        return FigureRow(function.id, function.title, function.unit, missing=missing)
    return FigureRow(
        figure.id,
        figure.title,
        figure.unit,
        figure.low,
        figure.typical,
        figure.high,
        shown=_shown(brew, figure, own, working),
        parts=figure.parts,
        working=working,
        assumed=figure.assumed,
        sources=tuple(dict.fromkeys(figure.sources)),
        pointers=tuple(dict.fromkeys(pointer(path) for path in figure.paths)),
        lines=tuple(sorted({_line(brew, path) for path in figure.paths})),
        shown_in=own,
    )


def _own_unit(brew: Brew, figure: Figure) -> str:
    """The unit in which the recipe itself writes what a figure tells; "" where that is the figure's."""
    package, own = brew.recipe.package, own_unit(brew, figure.unit)
    if figure.id == "priming-sugar" and package.priming.known:
        weight = package.priming.weight
        own = "oz" if weight.known and weight.unit in _OUNCES else own
    return own if own != figure.unit else ""


_OUNCES = ("oz", "lb", "lb oz")


def _shown(brew: Brew, figure: Figure, own: str, working: str) -> str:
    """The value and its range, and the same on another scale beside.

    That is where a gravity has two, where the recipe's own unit is old, and where the working is not in it.
    """
    if figure.unit == "kg":
        shown = _weight(brew, figure.range)
        return shown if grain_unit(brew) in _WEIGHED_IN else f"{shown}, {told(figure.range, 'kg')}"
    if own:
        shown = told(figure.range, figure.unit, own)
        modern = _MODERN.get(figure.unit)
        old = modern is not None and not own.endswith(modern)
        return f"{shown}, {told(figure.range, figure.unit)}" if old or own not in working else shown
    beside = [f", {told(value, scale)}" for name, value in figure.parts if (scale := OTHER_SCALES.get(name))]
    if figure.unit == "SG" and not beside:
        beside = [f", {told(figure.range.map(plato), '°P')}"]
    return told(figure.range, figure.unit) + "".join(beside)


def _weight(brew: Brew, value: Range) -> str:
    """A weight in the unit of the grain: a sum of stated weights as it is, what is reckoned with three digits."""
    unit = grain_unit(brew)
    if value.known or unit == "lb oz":
        return spread(value, lambda kg: weight_in(brew, kg))
    return spread(value, lambda kg: _three(from_canonical(kg, unit, Kind.MASS)), f" {unit}")


def told(value: Range, unit: str, own: str = "") -> str:
    """A value with its unit and range: ``79.7 °Lintner (63.7 to 102)``; no more than three digits of what varies.

    Args:
        value: in ``unit``.
        unit: of the figure.
        own: another unit to show it in; "" for none.
    """
    if own:
        value = value.map(lambda one: _in_unit(one, unit, own))
        unit = own
    if unit == "°P":
        return spread(value, lambda one: number(round(one, 1) + 0.0, 3), " °P")  # near water no digits that say nothing
    write = gravity if unit == "SG" else (lambda one: number(one, 3)) if value.known else _three
    return spread(value, write, f" {unit}" if unit else "")


def _in_unit(value: float, unit: str, own: str) -> float:
    """A value of a figure in another unit of the same kind; grams, alone, are not canonical."""
    return from_canonical(value / 1000, own, Kind.MASS) if unit == "g" else from_canonical(value, own, KINDS[unit])


def _three(value: float) -> str:
    """A number with three significant digits, above a thousand too."""
    return number(float(f"{value:.3g}"), 3)


def spread(value: Range, write: Callable[[float], str], unit: str = "") -> str:
    """A value with its ends in brackets where they differ when written."""
    low, typical, high = write(value.low), write(value.typical), write(value.high)
    return f"{typical}{unit}" if low == high else f"{typical}{unit} ({low} to {high})"


def _line(brew: Brew, path: Path) -> int:
    return brew.document.place(brew.document.span_of(path)).line


def _where(brew: Brew, path: Path) -> str:
    """Where something stands, or should stand."""
    root = brew.document.root
    if not path or root is None:
        return ""
    there = next(depth for depth in range(len(path), -1, -1) if at(root, path[:depth]) is not None)
    names = [str(step) for step in path[there:] if isinstance(step, str)]
    wanted = f"`{': '.join(names)}`" if names else ""
    line = f"line {_line(brew, path[:there])}" if there else ""
    return f" ({' at '.join(filter(None, (wanted, line)))})" if wanted or line else ""
