"""What makes a figure of a function: computed once a brew, when first asked for.

It is called as a function, so that a misspelling is a type error.
"""

from collections.abc import Callable
from contextlib import suppress
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from mashwright.brew.brew import Brew
from mashwright.brew.own_units import KINDS, own_unit
from mashwright.figures.figure import Figure
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown

MOST_NAMED = 3
"""Unknown ingredients that a sentence names."""


class FigureFunction(Struct, frozen=True):
    """What ``@figure`` makes of a function: computed once a brew, when first asked for.

    Raises:
        Unknown: when called on a brew that lacks what it needs.
    """

    id: str
    title: str
    unit: str
    sources: tuple[str, ...]
    compute: Callable[[Brew], Figure]

    def __call__(self, brew: Brew) -> Figure:
        """The figure for a brew."""
        known = brew.computed.get(self.compute)
        if known is None:
            try:
                known = self.named(self.compute(brew), brew)
            except Unknown as unknown:
                known = unknown.again()
            brew.computed[self.compute] = known
        if isinstance(known, Unknown):
            raise brew.refused(known)
        return known

    def named(self, made: Figure, brew: Brew) -> Figure:
        """The figure with its id, title and unit."""
        return Figure(
            made.range,
            made.working,
            made.paths,
            made.assumed,
            (*self.sources, *made.sources),
            made.parts,
            made.memory,
            self.id,
            self.title,
            self.unit,
            partial(own_unit, brew, self.unit) if self.unit in KINDS else None,
        )


def spanning(function: FigureFunction, brew: Brew) -> Figure:
    """A figure over every reading of what nothing is known of: as wide as they are, its working that of the likeliest.

    Raises:
        Unknown: it cannot be had.
    """
    likeliest = function(brew)
    if not brew.unknown:
        return likeliest
    ranges = [likeliest.range]
    for reading in brew.other_readings:
        with suppress(Unknown):
            ranges.append(function(reading).range)
    widest = Range(min(one.low for one in ranges), likeliest.typical, max(one.high for one in ranges))
    hangs = widest != likeliest.range or any(one != ranges[0] for one in ranges)
    if not hangs:
        return likeliest
    asked = " and ".join(one.missing for one in brew.unknown[:MOST_NAMED])
    wide = f"the widest possible range; unknown is {asked}"
    return replace(likeliest, range=widest, assumed=(*likeliest.assumed, wide))


def figure(
    figure_id: str, *, unit: str, sources: tuple[str, ...] = ()
) -> Callable[[Callable[[Brew], Figure]], FigureFunction]:
    """Make a figure of a function; its docstring's first line is the title.

    Args:
        figure_id: public and lasting, such as ``grist-diastatic-power``.
        unit: as printed.
        sources: bibliography keys of the formula.
    """

    def made(compute: Callable[[Brew], Figure]) -> FigureFunction:
        title = (compute.__doc__ or figure_id).strip().split("\n", 1)[0].rstrip(".")
        return FigureFunction(figure_id, title, unit, sources, compute)

    return made
