"""Beer styles: the ranges of published guidelines, numbers only; and how much CO2 is usual.

A beer outside a range is not wrong.
"""

from functools import cache

from msgspec import Struct

from mashwright.ingredients.tables import Row, Sources, blocks, rows, sources
from mashwright.measures.range import Range

_IN = " in "
"""Parts a property from the edition that it is taken from, where that is not the style's own."""


class Bounds(Struct, frozen=True, gc=False):
    """A style's range of one figure; ``high`` is None where it is open upwards."""

    low: float
    high: float | None


class OtherEdition(Struct, frozen=True, gc=False):
    """What another guideline says of a style, where it differs.

    Attributes:
        edition: which guideline.
        bounds: ``og``, ``fg``, ``abv``, ``ibu``, ``srm`` and their ranges; a figure that is not named is the same
            or was not seen.
        sources: the keys behind each.
    """

    edition: str
    bounds: tuple[tuple[str, Bounds], ...]
    sources: Sources


class Style(Struct, frozen=True, gc=False):
    """One style.

    Attributes:
        name: as the guideline has it.
        edition: the guideline whose ranges these are.
        code: its category there; empty if it has none.
        og: specific gravity.
        fg: specific gravity.
        abv: % by volume.
        ibu: bitterness units.
        srm: colour, SRM.
        others: other guidelines where they differ.
        sources: the keys behind each property.
    """

    name: str
    edition: str
    code: str
    og: Bounds
    fg: Bounds
    abv: Bounds
    ibu: Bounds
    srm: Bounds
    others: tuple[OtherEdition, ...]
    sources: Sources


class Carbonation(Struct, frozen=True, gc=False):
    """How much CO2 a kind of beer usually holds.

    Attributes:
        kind: a label, not a name to match.
        volumes: litres of CO2 at 0 °C and 1 atm in a litre of beer, the span of all its sources.
        by_source: what each source says.
        styles: names of the styles that it fits best.
    """

    kind: str
    volumes: Range
    by_source: tuple[tuple[str, Range], ...]
    styles: tuple[str, ...]


@cache
def entry(name: str) -> Style:
    """The style of exactly that name.

    Raises:
        KeyError: there is none.
    """
    found = rows("styles", name)
    own = [row for row in found if _IN not in row.what]
    row = {row.what: row for row in own}
    return Style(
        name=name,
        edition=row["edition"].typical,
        code=row["code"].typical if "code" in row else "",
        og=_bounds(row["og"]),
        fg=_bounds(row["fg"]),
        abv=_bounds(row["abv"]),
        ibu=_bounds(row["ibu"]),
        srm=_bounds(row["srm"]),
        others=_others([row for row in found if _IN in row.what]),
        sources=sources(own),
    )


@cache
def carbonation(style: str) -> Carbonation | None:
    """The usual carbonation of the style of exactly that name; None where none was found."""
    return next((one for one in carbonations() if style in one.styles), None)


@cache
def carbonations() -> tuple[Carbonation, ...]:
    """All kinds of carbonation."""
    return tuple(map(_carbonation, blocks("carbonation")))


def _carbonation(kind: str) -> Carbonation:
    found = rows("carbonation", kind)
    told = tuple((row.keys[0], row.range) for row in found if row.what == "co2")
    low, high = min(value.low for _, value in told), max(value.high for _, value in told)
    fits = tuple(row.typical for row in found if row.what == "style")
    return Carbonation(kind, Range(low, (low + high) / 2, high), told, fits)


def _bounds(row: Row) -> Bounds:
    return Bounds(float(row.low), float(row.high) if row.high else None)


def _others(found: list[Row]) -> tuple[OtherEdition, ...]:
    editions: dict[str, list[Row]] = {}
    for row in found:
        figure, _, edition = row.what.partition(_IN)
        editions.setdefault(edition, []).append(row._replace(what=figure))
    return tuple(
        OtherEdition(edition, tuple((row.what, _bounds(row)) for row in told), sources(told))
        for edition, told in editions.items()
    )
