"""What a review found, ready to be printed or sent between processes: plain frozen values, places worked out."""

import os
from collections.abc import Mapping
from contextlib import suppress
from typing import Any, NamedTuple

from msgspec import Struct
from msgspec.structs import force_setattr, replace

from mashwright.finding import Level, Path
from mashwright.printable import harmless
from mashwright.reading.document import Place
from mashwright.reading.editing import Replacement

ROOT = ""

READING_RULES = ("unreadable", "field", "quantity", "accepted")
"""What reading says, and what is said of acceptances: of slips, and not of the beer."""


def pointer(path: Path) -> str:
    """A path as a JSON Pointer.

    Source: [rfc-6901].
    """
    return "".join(f"/{str(step).replace('~', '~0').replace('/', '~1')}" for step in path)


def shown_path(path: str) -> str:
    """A path as reports show it: relative to the current folder, with forward slashes."""
    if os.path.isabs(path):
        with suppress(ValueError):  # on another drive there is no relative path
            path = os.path.relpath(path)
    return os.path.normpath(path).replace(os.sep, "/")


class EvidenceRow(NamedTuple):
    """One row of the sum behind a finding; ``line`` is where it came from, or None."""

    label: str
    value: float | str
    unit: str
    pointer: str | None
    line: int | None


class EditRow(NamedTuple):
    """One edit, and what becomes of the text: the piece that is replaced, with its place and its new text."""

    pointer: str
    text: str
    replacement: Replacement
    place: Place


class SaidRow(NamedTuple):
    """One sentence of a finding as data.

    Attributes:
        id: of the sentence, among those of its rule.
        values: by their names: texts, numbers, or a measure as its text, value and unit.
    """

    id: str
    values: Mapping[str, Any]


class RemedyRow(NamedTuple):
    """A change that mends a finding; it was tried."""

    text: str
    edits: tuple[EditRow, ...]


class Unjudged(NamedTuple):
    """A rule that could not judge a recipe, since what stands at a place cannot be read or meant.

    Attributes:
        missing: what the rule needs there, as a brewer would say it.
        pointer: JSON Pointer of the place.
        place: as of a finding.
    """

    rule: str
    missing: str
    pointer: str
    place: Place


class Acceptance(NamedTuple):
    """Why a finding is accepted; ``until`` is a date or ""."""

    reason: str
    until: str


class Result(Struct, frozen=True, gc=False):
    """One finding at its place; each of its sentences is one line in which all can be seen, whoever made it.

    Attributes:
        pointer: JSON Pointer of the place.
        place: lines and columns from 1, in characters; the end is exclusive.
        gap: how far past the limit, as a share.
        related: further places, as pointer and line.
        accepted: set where somebody accepted it; it is then told but does not fail the review.
        state: as in SARIF: new, unchanged, updated or absent; "" where nothing was compared.
        identity: the same for the same finding after lines have moved.
        refused: changes that were tried and are not offered, each with what speaks against it.
    """

    rule: str
    level: Level
    pointer: str
    place: Place
    message: str
    gap: float = 0.0
    evidence: tuple[EvidenceRow, ...] = ()
    remedies: tuple[RemedyRow, ...] = ()
    related: tuple[tuple[str, int], ...] = ()
    accepted: Acceptance | None = None
    state: str = ""
    identity: str = ""
    refused: tuple[str, ...] = ()
    said: tuple["SaidRow", ...] = ()

    def __post_init__(self) -> None:
        """See to the sentences."""
        force_setattr(self, "refused", tuple(map(harmless, self.refused)))
        evidence = tuple(
            row._replace(label=harmless(row.label), value=_shown(row.value), unit=harmless(row.unit))
            for row in self.evidence
        )
        force_setattr(self, "message", harmless(self.message))
        force_setattr(self, "evidence", evidence)
        force_setattr(self, "remedies", tuple(one._replace(text=harmless(one.text)) for one in self.remedies))
        if self.accepted is not None:
            force_setattr(self, "accepted", self.accepted._replace(reason=harmless(self.accepted.reason)))


def _shown(value: float | str) -> float | str:
    return harmless(value) if isinstance(value, str) else value


class Story(Struct, frozen=True, gc=False):
    """What an audit tells of a recipe around its findings.

    Attributes:
        source: where the recipe says that it comes from, or "".
        readings: line, and how an old or unclear measure there was taken.
        beer: of each figure that is known its word, its value, and what the recipe says of it or "".
        assumed: what the sums took where the recipe says nothing.
        missing: what it would need to say for the figures that cannot be had, and where that should stand.
    """

    source: str
    readings: tuple[tuple[int, str], ...]
    beer: tuple[tuple[str, str, str], ...]
    assumed: tuple[str, ...]
    missing: tuple[str, ...]


class Reviewed(Struct, frozen=True):
    """One recipe, or one brewhouse, with its findings in the order of the text.

    Attributes:
        path: relative to the current folder, with forward slashes.
        name: the recipe's name, or "".
        stop_at: the level from which a finding that is neither accepted nor known fails it.
        story: what an audit tells around the findings; None where nobody asked, or the recipe could not be read.
        unjudged: rules that found nothing and could not look, in the order of the text.
        unsearched: findings in which no remedy was looked for, since there is too much to try in one recipe.
    """

    path: str
    name: str
    results: tuple[Result, ...]
    stop_at: Level = Level.ERROR
    story: Story | None = None
    unjudged: tuple[Unjudged, ...] = ()
    unsearched: int = 0

    def and_also(self, later: "Reviewed") -> "Reviewed":
        """The recipe with findings that came out later, in the order of the text."""
        results = sorted((*self.results, *later.results), key=lambda one: (one.place, one.rule, one.message))
        return replace(self, name=self.name or later.name, results=tuple(results))


class Fault(Struct, frozen=True, gc=False):
    """A rule that failed as a program, or a file that vanished: not a finding about a recipe; told on one line."""

    rule: str
    path: str
    message: str

    def __post_init__(self) -> None:
        """See to the sentence."""
        force_setattr(self, "message", harmless(self.message))


class Counts(Struct, frozen=True, gc=False):
    """How much was reviewed and found; accepted findings, and those of the baseline, are counted apart.

    Attributes:
        unjudging: rules that could not judge one recipe at least.
        unjudged: recipes that one rule at least could not judge.
        unsearched: findings in which no remedy was looked for, since there is too much to try in one recipe.
    """

    reviewed: int = 0
    skipped: int = 0
    errors: int = 0
    warnings: int = 0
    notes: int = 0
    accepted: int = 0
    known: int = 0
    unjudging: int = 0
    unjudged: int = 0
    unsearched: int = 0


class RuleInfo(Struct, frozen=True, gc=False):
    """What a report tells of a rule.

    Attributes:
        stage: of the brew day, the folder of the built-in rules; of others their distribution; "" for those of reading.
    """

    id: str
    question: str
    page: str
    stage: str = ""


class Review(Struct, frozen=True):
    """A whole review.

    Attributes:
        failed: whether a finding that nobody accepted reaches the level from which its brewhouse, or the run, fails.
        rules: all that there are, by id.
        passed_over: the first few files that were no recipes.
        remarks: what is to be told of how the review went, beside findings and faults: a sentence each.
    """

    recipes: tuple[Reviewed, ...]
    faults: tuple[Fault, ...] = ()
    counts: Counts = Counts()
    failed: bool = False
    rules: tuple[RuleInfo, ...] = ()
    passed_over: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """See to the sentences."""
        force_setattr(self, "remarks", tuple(map(harmless, self.remarks)))
