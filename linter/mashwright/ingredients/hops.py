"""Hops by cultivar."""

from functools import cache

from msgspec import Struct

from mashwright.ingredients.tables import Sources, only, rows, sources
from mashwright.measures.range import Range

FROM_MEMORY = ("from-memory",)
"""The sources of a value that rests on memory alone: good for a usual value, not for doubting one."""


class Hop(Struct, frozen=True, gc=False):
    """One cultivar; a label's figures are better than these.

    Attributes:
        name: as the trade calls it.
        origin: country.
        status: landrace, freely grown, bred in public, or a privately owned name, which is here to read recipes only.
        alpha: alpha acids, % by weight of dried cones; None where no figure was found.
        beta: beta acids, likewise; None where no figure was found.
        storage_loss: alpha acids lost in six months at 20 °C, %; None where no figure was found.
        sources: the keys behind each property of the table.
    """

    name: str
    origin: str
    status: str
    alpha: Range | None
    beta: Range | None
    storage_loss: Range | None
    sources: Sources

    @property
    def alpha_to_compare(self) -> Range | None:
        """Its alpha acids where more than memory stands behind them, so that a stated value may be doubted by them."""
        return None if dict(self.sources).get("alpha") == FROM_MEMORY else self.alpha


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
        alpha=row["alpha"].range if "alpha" in row else None,
        beta=row["beta"].range if "beta" in row else None,
        storage_loss=row["storage-loss"].range if "storage-loss" in row else None,
        sources=sources(found),
    )
