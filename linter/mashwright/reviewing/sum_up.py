"""The last step of a review: how many recipes and findings there were, and whether it fails."""

from collections.abc import Iterable

from mashwright.budgets import REMARKS
from mashwright.finding import Level
from mashwright.reviewing.results import Counts, Reviewed

MOST_PASSED_OVER = 3
"""Files without a recipe that are named; of more it is said how many there are."""


class Sum:
    """What was reviewed and found up to now.

    Attributes:
        reviewed: recipes.
        skipped: files that were no recipes; ``passed_over`` names the first few.
        failing: whether a finding reached the level from which the review fails.
    """

    def __init__(self) -> None:
        self.reviewed = 0
        self.skipped = 0
        self.passed_over: list[str] = []
        self.failing = False
        self._accepted = 0
        self._known = 0
        self._unjudged = 0
        self._unsearched = 0
        self._unjudging: set[str] = set()
        self._levels = dict.fromkeys(Level, 0)

    def skip(self, path: str) -> None:
        """A file was no recipe."""
        self.skipped += 1
        self.passed_over += [path][: MOST_PASSED_OVER - len(self.passed_over)]

    def add(self, reviewed: Reviewed, stop_at: Level) -> None:
        """Count the findings of a recipe or a brewhouse, which fails from some level on."""
        self._unjudged += bool(reviewed.unjudged)
        self._unsearched += reviewed.unsearched
        self._unjudging.update(one.rule for one in reviewed.unjudged)
        for result in reviewed.results:
            if result.accepted is not None:
                self._accepted += 1
            elif result.state in ("unchanged", "updated"):
                self._known += 1
            elif result.state != "absent":
                self._levels[result.level] += 1
                self.failing = self.failing or result.level >= stop_at

    def counts(self) -> Counts:
        """All that is counted."""
        return Counts(
            reviewed=self.reviewed,
            skipped=self.skipped,
            errors=self._levels[Level.ERROR],
            warnings=self._levels[Level.WARNING],
            notes=self._levels[Level.NOTE],
            accepted=self._accepted,
            known=self._known,
            unjudging=len(self._unjudging),
            unjudged=self._unjudged,
            unsearched=self._unsearched,
        )


class Remarks:
    """What is to be told of how a review went, each sentence once; what is past the budget is only counted.

    Args:
        told: what is to be told already.
    """

    def __init__(self, told: Iterable[str]) -> None:
        self._told = list(told)
        self._seen = set(self._told)

    def add(self, sentences: Iterable[str]) -> None:
        """Keep what is to be told."""
        for sentence in sentences:
            if sentence not in self._seen:
                self._seen.add(sentence)
                if len(self._seen) <= REMARKS:
                    self._told.append(sentence)

    def told(self) -> tuple[str, ...]:
        """All of them, and how many more there are."""
        more = len(self._seen) - len(self._told)
        return (*self._told, *([f"and {more} more changes like these"] if more > 0 else ()))
