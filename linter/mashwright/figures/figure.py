"""A figure: one computed number with its range, its working and the lines that it came from."""

from collections.abc import Callable

from msgspec import Struct

from mashwright.finding import Path
from mashwright.measures.range import Range


class Figure(Struct, frozen=True):
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
        own_unit: tells the recipe's own unit for it; filled likewise, None where it has but the one.
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
    own_unit: Callable[[], str] | None = None

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
