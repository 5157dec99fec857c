"""Hops by cultivar."""

from functools import cache

from msgspec import Struct

from mashwright.ingredients.tables import Sources, aliases, only, rows, sources
from mashwright.measures.range import Range


class Hop(Struct, frozen=True, gc=False):
    """One cultivar; a label's figures are better than these.

    Attributes:
        name: as the trade calls it.
        origin: country.
        status: landrace, freely grown, or bred in public.
        alpha: alpha acids, % by weight of dried cones.
        beta: beta acids, likewise; None where no figure was found.
        storage_loss: alpha acids lost in six months at 20 °C, %; None where no figure was found.
        aliases: other names in use that are not mere spellings.
        sources: the keys behind each property of the table.
    """

    name: str
    origin: str
    status: str
    alpha: Range
    beta: Range | None
    storage_loss: Range | None
    aliases: tuple[str, ...]
    sources: Sources


@cache
def entry(name: str) -> Hop:
    """The hop of exactly that name.

    Raises:
        KeyError: there is none.
    """
    found = rows("hops", name)
    row = only(name, found)
    return Hop(
        name=name,
        origin=row["origin"].typical,
        status=row["status"].typical,
        alpha=row["alpha"].range,
        beta=row["beta"].range if "beta" in row else None,
        storage_loss=row["storage-loss"].range if "storage-loss" in row else None,
        aliases=tuple(alias for alias, of in aliases("hops") if of == name),
        sources=sources(found),
    )
