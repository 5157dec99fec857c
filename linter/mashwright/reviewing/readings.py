"""What holds whatever an unknown ingredient is: a recipe is judged once for each reading of it."""

from collections import Counter
from collections.abc import Callable, Iterable

from msgspec.structs import replace

from mashwright.brew.brew import Brew
from mashwright.finding import Finding, Level, Path
from mashwright.recipe.stated import Open


def found_in_all(brew: Brew, find: Callable[[Brew], Iterable[Finding]]) -> list[Finding]:
    """What is found in every reading of a brew: in the same words, or as an error each time.

    An error each time is what cannot be even so; it is told in the words of the reading that misses by least. Where a
    reading has a warning or an error that is not so in all of them, nobody can say, and the brew is left open.

    Args:
        brew: with an ingredient of which nothing is known.
        find: judges one reading.
    """
    readings = [_by_place(find(reading)) for reading in (brew, *brew.other_readings)]
    kept = []
    doubtful = False
    for key in dict.fromkeys(key for found in readings for key in found):
        here = [found[key] for found in readings if key in found]
        mildest = min(here, key=lambda one: (one.level, one.gap))
        if len(here) == len(readings) and len({one.message for one in here}) == 1:
            kept.append(mildest)
        elif len(here) == len(readings) and mildest.level is Level.ERROR:
            kept.append(replace(mildest, knobs=()))  # what mends it in one reading need not in another
        else:
            doubtful = doubtful or any(one.level > Level.NOTE for one in here)
    if doubtful:
        brew.opened.append(Open(brew.unknown[0].missing, brew.unknown[0].path))
    return kept


def _by_place(found: Iterable[Finding]) -> dict[tuple[Path, int], Finding]:
    """Findings by their path, and by which one it is there."""
    times = Counter[Path]()
    placed = {}
    for one in found:
        placed[one.path, times[one.path]] = one
        times[one.path] += 1
    return placed
