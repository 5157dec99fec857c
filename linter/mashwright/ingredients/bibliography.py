"""The one bibliography: every number of the project carries a key into it."""

from functools import cache

from msgspec import Struct

from mashwright.ingredients.tables import lines


class Source(Struct, frozen=True, gc=False):
    """A place where a number comes from.

    Attributes:
        key: as it stands beside the number.
        citation: author, title, year, page.
        where: an address where it was seen; empty if there is none to give.
    """

    key: str
    citation: str
    where: str


def source(key: str) -> Source:
    """The source of that key.

    Raises:
        KeyError: there is none.
    """
    return _by_key()[key]


def sources() -> tuple[Source, ...]:
    """All of them, by key."""
    return tuple(_by_key().values())


@cache
def _by_key() -> dict[str, Source]:
    """``key,"citation",where``: only the citation may hold commas."""
    found = {}
    for line in lines("sources"):
        key, _, rest = line.partition(",")
        citation, _, where = rest.rpartition(",")
        found[key] = Source(key, citation.strip('"'), where)
    return found
