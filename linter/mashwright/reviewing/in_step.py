"""Works that stop here and there are led to their end: one, or many in step, each up to its next stop in turn.

Many recipes are read, then each rule is asked about all of them: what a rule needs stays in the processor's caches.
"""

from collections.abc import Generator, Iterable
from typing import TypeVar

from mashwright.reviewing.watch import Watch

_T = TypeVar("_T")
Work = Generator[None, None, _T]
"""What gives a value at its end, and may be left alone for a while at each stop before."""


def finished(work: Work[_T]) -> _T:
    """What a work comes to, without a pause."""
    try:
        while True:
            next(work)
    except StopIteration as end:
        value: _T = end.value
        return value


def in_step(works: Iterable[Work[_T]], watch: Watch) -> list[_T]:
    """What several works come to, in their order.

    Args:
        watch: under which each of them goes on with the time that it has spent itself.
    """
    done: dict[int, _T] = {}
    going: list[tuple[int, Work[_T], dict[str, int]]] = [(number, work, {}) for number, work in enumerate(works)]
    while going:
        left = []
        for turn in going:
            number, work, spent = turn
            watch.resume(spent)
            try:
                next(work)
            except StopIteration as end:
                done[number] = end.value
            else:
                left.append(turn)
            watch.pause()
        going = left
    return [done[number] for number in range(len(done))]
