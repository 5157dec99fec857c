"""What is told of one file where it has more findings than anybody reads."""

from mashwright.budgets import FINDINGS
from mashwright.finding import Level
from mashwright.reviewing.results import ROOT, Result


def capped(results: list[Result]) -> tuple[Result, ...]:
    """The findings of one file in their order; of very many, the worst, and one more that tells of the others.

    Args:
        results: sorted by their places.
    """
    if len(results) <= FINDINGS:
        return tuple(results)
    worst_first = sorted(results, key=lambda one: (one.accepted is not None, -one.level))
    kept = {id(one) for one in worst_first[:FINDINGS]}
    left = [one for one in results if id(one) not in kept]
    level = max((one.level for one in left if one.accepted is None), default=Level.NOTE)
    message = f"at least {len(left)} more findings in this file are not told; mend the others first"
    more = Result("unreadable", level, ROOT, left[0].place, message, identity="unreadable ")
    return (*(one for one in results if id(one) in kept), more)
