"""One recipe through all steps of a review: read, judge, mend, place, accept; each takes what the one before gave."""

from typing import NamedTuple

from mashwright.brew.brew import Brew
from mashwright.crash import of_file
from mashwright.finding import Path
from mashwright.reviewing.accept import accept
from mashwright.reviewing.capping import capped
from mashwright.reviewing.files import Loaded
from mashwright.reviewing.gather import Gathered, gather
from mashwright.reviewing.in_step import Work, finished
from mashwright.reviewing.judge import judging
from mashwright.reviewing.mend import mend
from mashwright.reviewing.place import misread_places, place
from mashwright.reviewing.read import Read, read
from mashwright.reviewing.results import Fault, Reviewed, Story
from mashwright.reviewing.settings import House, Run
from mashwright.reviewing.watch import Watch


class Through(NamedTuple):
    """What came of one recipe.

    Attributes:
        reviewed: the recipe with its findings.
        faults: what failed as a program.
        gathered: what rules about the collection want to know of it.
        used: the places of those acceptances of the brewhouse that were of use.
    """

    reviewed: Reviewed
    faults: tuple[Fault, ...]
    gathered: tuple[Gathered, ...]
    used: tuple[Path, ...]


def review_loaded(
    loaded: Loaded, path: str, house: House, run: Run, in_house: str = "", watch: Watch | None = None
) -> Through:
    """Review the text of one file, from its first step to its last.

    Args:
        loaded: its text, or why there is none.
        path: as reports show it; otherwise as ``reviewing``.
    """
    return finished(reviewing(read(loaded, path), house, run, in_house, watch))


def reviewing(read: Read, house: House, run: Run, in_house: str = "", watch: Watch | None = None) -> Work[Through]:
    """Review one recipe that was read, with a stop after each rule.

    Args:
        read: the recipe.
        house: its brewhouse.
        run: how the review goes.
        in_house: the path seen from the brewhouse's folder, for globs of ``accepted``.
        watch: over the rules at work; none where no rules of others are.
    """
    every = tuple(item.path for item in house.brewhouse.accepted)
    if (recipe := read.judgeable) is None:  # nobody knows what would be accepted here
        return Through(Reviewed(read.path, "", capped(list(misread_places(read)))), (), (), every)
    judged = yield from judging(read, house, run.today, watch)
    if run.remedies:
        judged = mend(judged, watch)
    judged, gathered = gather(judged, watch) if run.collection else (judged, ())
    placed = place(judged, watch)
    story, untold = _story(judged.brew, read.path) if run.audit else (None, ())
    judged.brew.computed.clear()  # its figures hold the brew in their workings; so both are freed at once
    results, used = (placed.results, every) if run.audit else accept(placed, read, house, run.today, in_house)
    reviewed = Reviewed(
        read.path,
        recipe.name,
        capped(sorted(results, key=lambda one: (one.place, one.rule, one.message))),
        story=story,
        unjudged=tuple(sorted(placed.unjudged, key=lambda left: (left.place, left.rule))),
        unsearched=judged.unsearched,
    )
    return Through(reviewed, (*placed.faults, *untold), gathered, used)


def _story(brew: Brew, path: str) -> tuple[Story | None, tuple[Fault, ...]]:
    """What an audit tells around the findings, which are there without it."""
    from mashwright.reviewing.story import story_of  # an audit alone needs every figure

    try:
        return story_of(brew, path), ()
    except Exception as error:  # noqa: BLE001  (as is told)
        return None, (Fault("", path, of_file(error, "recipe", "told in full")),)
