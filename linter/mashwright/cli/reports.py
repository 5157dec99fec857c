"""The reports of one review: each in its form, to its place; text as it comes, documents when all is through."""

from contextlib import ExitStack
from itertools import pairwise
from typing import TYPE_CHECKING, TextIO

import click

from mashwright.cli.output import opened, wants_colour, width
from mashwright.cli.places import are_apart
from mashwright.printable import say

if TYPE_CHECKING:
    from collections.abc import Iterable

    from mashwright.reviewing.collection import Collection
    from mashwright.reviewing.results import Reviewed

FORMATS = ("text", "json", "sarif", "junit", "markdown")
ORDER = "mashwright.order-of-reports"
"""Under which click's context keeps in what order formats and outputs were given."""


def pairs(forms: tuple[str, ...], outputs: tuple[str, ...], order: list[str]) -> list[tuple[str, str | None]]:
    """Each form of a report with its file; one may be without, and goes to standard output.

    Args:
        forms: of the reports, in order.
        outputs: files for them, in order.
        order: "forms" or "outputs" for each option as it was given.

    Raises:
        click.ClickException: more than one report would go to one place.
    """
    if len(outputs) > len(forms) or len(forms) - len(outputs) > 1:
        raise click.ClickException(
            "give an --output for each --format; one may be left out, and goes to standard output"
        )
    if not are_apart(outputs if len(outputs) == len(forms) else (*outputs, None)):
        raise click.ClickException("two reports cannot go to one file; give each --format an --output of its own")
    if len(outputs) == len(forms):
        return list(zip(forms, outputs, strict=True))
    # one file less than forms: each stands behind its form, and the form with nothing behind it has none
    behind = [after == "outputs" for one, after in pairwise([*order, ""]) if one == "forms"]
    if sum(behind) < len(outputs):
        raise click.ClickException(
            "write each --output behind its --format; one may be left out, and goes to standard output"
        )
    files = iter(outputs)
    return [(form, next(files) if has else None) for form, has in zip(forms, behind or [False], strict=True)]


class Reports:
    """Where each report goes.

    Args:
        stack: closes the files.
        reports: forms, each with its file, or None for standard output.
    """

    def __init__(self, stack: ExitStack, reports: list[tuple[str, str | None]], *, notes: bool) -> None:
        self.notes = notes
        self._places = [(form, stack.enter_context(opened(place))) for form, place in reports]

    def take(self, recipes: "Iterable[Reviewed]", collection: "Collection") -> None:
        """Write them all."""
        kept = []
        documents = [(form, out) for form, out in self._places if form != "text"]
        texts = [out for form, out in self._places if form == "text"]
        for reviewed in recipes:
            for out in texts:
                self._print(reviewed, out)
            if documents:
                kept.append(reviewed)
        for form, out in documents:
            from mashwright.reporting import write

            write(form, collection.finished(kept), out)

    def _print(self, reviewed: "Reviewed", out: TextIO) -> None:
        from mashwright.reporting.text import recipe_findings

        inked = wants_colour(out)
        lines = recipe_findings(reviewed, notes=self.notes, colour=inked, width=width(out))
        if reviewed.story is not None:
            from mashwright.reporting.story import told_around

            lines = told_around(reviewed, reviewed.story, lines, width(out))
        for line in lines:
            say(line, out, inked=inked)
