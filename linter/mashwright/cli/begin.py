"""``mashwright begin``."""

import os
import sys
from typing import TYPE_CHECKING

import click

from mashwright.cli.arguments import TakesFiles
from mashwright.printable import complain, publish, say

if TYPE_CHECKING:
    from mashwright.paper.page import Page


@click.command(cls=TakesFiles, short_help="Begin a recipe: a new one, or one read from plain text.")
@click.argument("text", required=False, metavar="[TEXT]", type=click.Path())
@click.option("--output", metavar="FILE", type=click.Path(), help="Write the recipe to this new file.")
def begin(text: str | None, output: str | None) -> int:
    """Write a new recipe with a line of help for every section.

    With TEXT, a file or - for standard input: read a recipe that is typed as plain text, such as a mail, notes or a
    page of an old book, and write it as a recipe. English, German, French, Dutch, Danish and Norwegian are read. What
    is not read stays as a comment; nothing is added.

    Exit status: 0 written; 1 written, but it states no batch or no grist; 2 nothing was written.
    """
    if output is not None:
        _see_to(output)
    if text is None:
        from mashwright.paper.template import template

        _write(template(), output)
        return 0
    page = _read(text)
    _write(page.recipe, output)
    _sum_up(page, output)
    return 1 if page.missing else 0


def _see_to(output: str) -> None:
    """Refuse what could not be a new recipe before anything is read.

    Raises:
        click.ClickException: in words, with a way out.
    """
    from mashwright.reviewing.files import BREWHOUSE_NAMES, ENDINGS

    if os.path.lexists(output):
        raise click.ClickException(f"{output} is there already; give the new recipe another name")
    if not output.lower().endswith(ENDINGS):
        raise click.ClickException(f"{output} would not be found as a recipe; give it the ending .yaml")
    if os.path.basename(output).lower() in BREWHOUSE_NAMES:
        raise click.ClickException(f"{output} is the name of a brewhouse; give the recipe another name")


def _write(recipe: str, output: str | None) -> None:
    """To standard output, or to a file that was not there before.

    Raises:
        click.ClickException: the file cannot be written.
    """
    if output is None:
        publish(recipe, sys.stdout)
        return
    from mashwright.reviewing.links import refusal

    try:
        if refused := refusal(os.path.join(os.path.dirname(output), "")):
            raise click.ClickException(f"{output}: {refused}")
        with open(output, "x", encoding="utf-8", newline="\n") as file:
            publish(recipe, file)
    except FileExistsError:
        raise click.ClickException(f"{output} is there already; give the new recipe another name") from None
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) and error.strerror else error
        raise click.ClickException(f"{output} cannot be written: {why}") from None


def _read(text: str) -> "Page":
    """The page read.

    Raises:
        click.ClickException: it is no text, or holds nothing that is read.
    """
    from mashwright.cli.output import from_standard_input
    from mashwright.paper.page import NotAPageError, read_page
    from mashwright.reviewing.files import decode, load

    name = "standard input" if text == "-" else text
    if text != "-" and not os.path.lexists(text):
        raise click.ClickException(f"{text}: there is no such file")
    if text != "-" and os.path.isdir(text):
        raise click.ClickException(f"{text} is a folder; name one text in it")
    loaded = decode(from_standard_input()) if text == "-" else load(text)
    if loaded.problem is not None:
        raise click.ClickException(f"{name}: {loaded.problem.message}")
    try:
        return read_page(loaded.text)
    except NotAPageError as error:
        raise click.ClickException(f"{name}: {error}") from None


def _sum_up(page: "Page", output: str | None) -> None:
    """What was read, and what a review of it finds, on standard error."""
    from datetime import UTC, datetime

    from mashwright.cli.output import STANDARD_INPUT
    from mashwright.reporting import text
    from mashwright.reviewing.collection import Collection, ConfigurationError
    from mashwright.reviewing.settings import Run
    from mashwright.words.plurals import counted

    partly = f", {page.partly} read in part" if page.partly else ""
    see = "; see the comments" if page.unread or page.partly else ""
    complain(f"{counted(page.read, 'line')} read{partly}, {page.unread} not read{see}")
    for missing in page.missing:
        complain(missing)
    try:
        collection = Collection(Run(datetime.now(UTC).date().isoformat()))
        for reviewed in collection.text(page.recipe, output or STANDARD_INPUT):
            for line in text.recipe_findings(reviewed, notes=False, colour=False):
                say(line, sys.stderr)
        say(text.closing(collection.finished(()), notes=False), sys.stderr)
    except ConfigurationError as error:
        complain(str(error))
