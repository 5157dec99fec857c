"""A figure: one computed number with its range, its working and the lines that it came from."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from mashwright.finding import Path, Range

if TYPE_CHECKING:
    from mashwright.figures.brew import Brew


class Unknown(Exception):  # noqa: N818  (a figure that cannot be computed is an answer, not an error)
    """Something that a figure needs is not there.

    Attributes:
        missing: what, as a brewer would say it.
        path: where it should stand.
    """

    def __init__(self, missing: str, path: Path = ()) -> None:
        super().__init__(missing)
        self.missing = missing
        self.path = path


@dataclass(frozen=True, slots=True)
class Figure:
    """A computed number.

    Attributes:
        range: low, typical, high in ``unit``.
        working: makes the sum with this recipe's numbers put in, a line each; called only when it is shown.
        paths: the recipe's lines that it came from.
        assumed: what the recipe does not say and was taken in its place.
        sources: bibliography keys of the formula and of the values.
        parts: further values by name, where a figure has several.
        memory: an input rests on memory alone, so that no rule makes an error of it.
        id, title, unit: filled by the figure function.
    """

    range: Range
    working: Callable[[], str]
    paths: tuple[Path, ...] = ()
    assumed: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    parts: tuple[tuple[str, Range], ...] = ()
    memory: bool = False
    id: str = ""
    title: str = ""
    unit: str = ""

    @property
    def low(self) -> float:
        """Its low end."""
        return self.range.low

    @property
    def typical(self) -> float:
        """Its typical value."""
        return self.range.typical

    @property
    def high(self) -> float:
        """Its high end."""
        return self.range.high


@dataclass(frozen=True, slots=True)
class FigureFunction:
    """What ``@figure`` makes of a function: computed once a brew, when first asked for.

    Raises:
        Unknown: when called on a brew that lacks what it needs.
    """

    id: str
    title: str
    unit: str
    sources: tuple[str, ...]
    compute: "Callable[[Brew], Figure]"

    def __call__(self, brew: "Brew") -> Figure:
        """The figure for a brew."""
        known = brew.computed.get(self.id)
        if known is None:
            try:
                made = self.compute(brew)
                sources = tuple(dict.fromkeys((*self.sources, *made.sources)))
                known = replace(made, id=self.id, title=self.title, unit=self.unit, sources=sources)
            except Unknown as unknown:
                known = unknown
            brew.computed[self.id] = known
        if isinstance(known, Unknown):
            raise known
        return known


def figure(
    figure_id: str, *, unit: str, sources: tuple[str, ...] = ()
) -> "Callable[[Callable[[Brew], Figure]], FigureFunction]":
    """Make a figure of a function; its docstring's first line is the title.

    Args:
        figure_id: public and lasting, such as ``grist-diastatic-power``.
        unit: as printed.
        sources: bibliography keys of the formula.
    """

    def made(compute: "Callable[[Brew], Figure]") -> FigureFunction:
        title = (compute.__doc__ or figure_id).strip().split("\n", 1)[0].rstrip(".")
        return FigureFunction(figure_id, title, unit, sources, compute)

    return made
