"""Asks one rule about a mash that gives several worts: about the mash, then about each wort as a beer of its own.

What is said of the mash stands outside of the worts, what is said of a wort within it; so nothing is said twice.
"""

from collections.abc import Callable, Iterable, Iterator
from itertools import islice

from mashwright.brew.brew import Brew
from mashwright.budgets import RULE_FINDINGS
from mashwright.figures.kettle.worts import worts_of
from mashwright.finding import Finding
from mashwright.recipe.stated import Unknown
from mashwright.rule import Settings

OWN = frozenset(
    (
        *("batch", "top-up", "boil", "chill", "souring", "hops", "additions", "yeast", "aeration", "ferment"),
        *("package", "targets", "measured", "worts"),
    )
)
"""What stands in each wort, so that a rule that misses it at the top has looked at the wrong place."""


CLAIMS = (("notes",), ("style",))
"""Where the recipe says something of all of its beers."""


def found_of_worts(check: Callable[[Brew, Settings], Iterable[Finding]], limits: Settings, brew: Brew) -> list[Finding]:
    """What a rule finds in the mash and in each of its worts.

    Args:
        check: of the rule.
        limits: its settings.
        brew: the whole recipe.
    """
    found = [one for one in _asked(check, limits, brew) if not one.path or one.path[0] not in OWN or len(one.path) > 2]
    told = {one.path for one in found}
    for own in worts_of(brew):
        assert own.of_mash is not None
        place = own.of_mash.path
        for one in _asked(check, limits, own):
            # what the notes claim of all beers may be wrong of what goes into this one alone
            claimed = one.path[:1] in CLAIMS and one.path not in told
            if one.path[: len(place)] == place or claimed:
                found.append(one)
                told.add(one.path)
    return found[: RULE_FINDINGS + 1]


def _asked(check: Callable[[Brew, Settings], Iterable[Finding]], limits: Settings, brew: Brew) -> Iterator[Finding]:
    try:
        yield from islice(check(brew, limits), RULE_FINDINGS + 1)
    except Unknown as unknown:
        brew.refused(unknown)
