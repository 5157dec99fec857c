"""Reviews files one after the other, or a few in step: what comes out can be sent between processes."""

import os
import sys
from collections.abc import Iterable, Iterator
from contextlib import redirect_stdout
from itertools import islice

from msgspec import Struct

from mashwright.budgets import IN_STEP_CHARACTERS, IN_STEP_LINES
from mashwright.crash import missing_part, of_file
from mashwright.finding import Level, Path
from mashwright.reading.recognising import looks_like_recipe
from mashwright.recipe.model import Accepted
from mashwright.reviewing.files import BREWHOUSE_NAMES, Candidate, Loaded, load, matches
from mashwright.reviewing.gather import Gathered
from mashwright.reviewing.houses import HouseFile, Houses
from mashwright.reviewing.in_step import Work, finished, in_step
from mashwright.reviewing.pipe import Through, reviewing
from mashwright.reviewing.plugins import ConfigurationError
from mashwright.reviewing.read import Read, read
from mashwright.reviewing.results import Fault, Reviewed, shown_path
from mashwright.reviewing.settings import House, Run
from mashwright.reviewing.watch import OvertimeError, Watch

IN_STEP = 20
"""Recipes that are judged in step, each rule over all of them: a seventh less time for the rules, and no more with
forty; measured."""


class Outcome(Struct, frozen=True):
    """What came of one file.

    Attributes:
        reviewed: the recipe with its findings; None where the file is no recipe.
        house: the brewhouse that was read for it, with that one's own findings.
        stop_at: from which level the recipe fails.
        gathered: what rules about the collection want to know of it.
        accepted: what the recipe itself accepts.
        skipped: its path, where it was no recipe; else "".
        used: places of those acceptances of the brewhouse that had something to accept.
        remarks: what the file, or a brewhouse above it, changes in the settings of a trusted copy.
    """

    reviewed: Reviewed | None = None
    faults: tuple[Fault, ...] = ()
    house: Reviewed | None = None
    stop_at: Level = Level.ERROR
    gathered: tuple[Gathered, ...] = ()
    accepted: tuple[Accepted, ...] = ()
    skipped: str = ""
    used: tuple[Path, ...] = ()
    remarks: tuple[str, ...] = ()


class Reviewer:
    """Reviews files one by one, or a few in step.

    Args:
        houses: which brewhouses there are.
    """

    def __init__(self, run: Run, watch: Watch, houses: Houses) -> None:
        self.run = run
        self.watch = watch
        self.houses = houses
        self._compared: set[str] = set()

    def candidates(self, candidates: Iterable[Candidate]) -> Iterator[Outcome]:
        """Review files that may be recipes or brewhouses, in their order.

        Rules of others are asked about one recipe after the other, so that whatever one changes is undone behind it.
        """
        together = IN_STEP if self.watch.is_alarm and not self.watch.strangers else 1
        files = iter(candidates)
        while some := list(islice(files, together)):
            with redirect_stdout(sys.stderr):  # nothing that a plugin prints may get into a report
                if together > 1:
                    done = in_step([self._guarded(self._candidate(one), one.path) for one in some], self.watch)
                else:
                    done = [finished(self._guarded(self._candidate(one), one.path)) for one in some]
            yield from done

    def text(self, loaded: Loaded, name: str) -> Outcome:
        """Review a text under a name, likewise; it need not lie on the disk."""
        with redirect_stdout(sys.stderr):
            return finished(self._guarded(self._text(loaded, name), name))

    def _guarded(self, work: Work[Outcome], path: str) -> Work[Outcome]:
        """What the work on one file gives, or the fault that it ended in; a fault of the program hides no other file.

        Raises:
            ConfigurationError: a part of the program is not installed.
        """
        self.watch.begin()
        try:
            return (yield from work)
        except ConfigurationError:
            raise
        except (Exception, OvertimeError) as error:  # noqa: BLE001  (one file that the program cannot take hides no other)
            return Outcome(faults=(self._fault(error, path, "file"),))
        finally:
            self.watch.rest()

    def _fault(self, error: BaseException, path: str, what: str) -> Fault:
        self.watch.contains(error)
        if (missing := missing_part(error)) is not None:
            raise ConfigurationError(missing) from None
        return Fault("", shown_path(path), of_file(error, what))

    def _candidate(self, candidate: Candidate) -> Work[Outcome]:
        path = candidate.path
        if os.path.basename(path) in BREWHOUSE_NAMES:
            return _of_house(self.houses.read(path))
        loaded = load(path)
        capitals = os.path.basename(path).lower() in BREWHOUSE_NAMES  # nobody finds it; as no recipe it is told why
        sure = capitals or (candidate.named and not self.run.skip_others)
        unknown = loaded.problem is not None and not loaded.text
        if not sure and not unknown and not looks_like_recipe(loaded.text) and not self._claimed(path):
            return Outcome(skipped=shown_path(path))
        return (yield from self._recipe(loaded, path))

    def _text(self, loaded: Loaded, name: str) -> Work[Outcome]:
        if os.path.basename(name) in BREWHOUSE_NAMES:
            return _of_house(self.houses.of_text(loaded, shown_path(name)))
        return (yield from self._recipe(loaded, name))

    def _recipe(self, loaded: Loaded, path: str) -> Work[Outcome]:
        file = self.houses.nearest(path)
        house = file.house if file is not None else self.houses.plain()
        done: Read | None = None
        try:
            done = read(loaded, shown_path(path))
            reviewed, faults, gathered, used = yield from self._through(done, house, inside(path, file))
        except (Exception, OvertimeError) as error:  # noqa: BLE001  (likewise; but its brewhouse is told of)
            reviewed, gathered, used = None, (), tuple(item.path for item in house.brewhouse.accepted)
            faults = (self._fault(error, path, "recipe"),)
        seen = file.reviewed if file is not None else None
        faults += file.faults if file is not None else ()
        stop_at, remarks = self.run.stop_at or house.stop_at, tuple(self._changes(done, path))
        accepted = done.recipe.accepted if done is not None and done.recipe is not None else ()
        return Outcome(reviewed, faults, seen, stop_at, gathered, accepted, used=used, remarks=remarks)

    def _through(self, recipe: Read, house: House, in_house: str) -> Work[Through]:
        """A recipe through its review; a long one at once, so that many are never held in memory together."""
        work = reviewing(recipe, house, self.run, in_house, self.watch)
        lines = recipe.recipe.lines if recipe.recipe is not None else 0
        if len(recipe.document.text) > IN_STEP_CHARACTERS or lines > IN_STEP_LINES:
            return finished(work)
        yield
        return (yield from work)

    def _changes(self, done: Read | None, path: str) -> Iterator[str]:
        """What is to be told of a recipe and the brewhouses above it where a trusted copy counts."""
        if self.run.trusted is not None:
            from mashwright.reviewing import changes

            folder = os.path.dirname(os.path.abspath(path))
            yield from changes.of_houses(self.run.trusted, self.houses, folder, self._compared)
            if done is not None and not self.run.audit:
                yield from changes.of_acceptances(self.run.trusted, done.document, path)

    def _claimed(self, path: str) -> bool:
        """Whether a brewhouse says that its recipes lie there."""
        file = self.houses.nearest(path)
        return file is not None and matches(path, file.folder, file.house.brewhouse.recipes)


def _of_house(file: HouseFile) -> Outcome:
    """What comes of a brewhouse that is itself looked at."""
    return Outcome(house=file.reviewed, faults=file.faults)


def inside(path: str, file: HouseFile | None) -> str:
    """The path seen from the brewhouse's folder; as it is, where the brewhouse lies in none."""
    if file is None or not file.folder:
        return path
    return os.path.relpath(os.path.abspath(path), file.folder).replace(os.sep, "/")
