"""``mashwright book``."""

import sys
from contextlib import ExitStack

import click

from mashwright.cli.arguments import TakesFiles
from mashwright.cli.processes import PARALLEL_FROM, executor
from mashwright.cli.review import day
from mashwright.printable import complain

INSTALL = "a book needs the package Jinja2; install it with: pip install 'mashwright[book]'"


@click.command(cls=TakesFiles, short_help="Write a collection as a recipe book of static pages.")
@click.argument("paths", nargs=-1, metavar="[PATHS]...", type=click.Path())
@click.option("--output", metavar="FOLDER", type=click.Path(), required=True, help="Folder for the pages.")
@click.option("--title", metavar="TEXT", default="Recipe book", show_default=True, help="Title of the book.")
@click.option(
    "--jobs", type=click.IntRange(min=1), metavar="NUMBER", help="Number of processes; else by cores and files."
)
@click.option(
    "--today", metavar="DATE", help="Date to use as today, for entries that end (YYYY-MM-DD); else today, UTC."
)
def book(paths: tuple[str, ...], output: str, title: str, jobs: int | None, today: str | None) -> int:
    """Write recipes as a book: a page for each with its pictures, figures and findings, and an index.

    PATHS are files or folders; with none, the current folder. The pages work from a file, without a network, and on
    paper. The folder must be empty, not there yet, or hold a book; only pages that a book wrote are replaced or taken
    away.

    Exit status: 0 written, whatever the review finds; 2 not written.
    """
    from importlib.util import find_spec

    if find_spec("jinja2") is None:
        raise click.ClickException(INSTALL)
    from mashwright.finding import Level
    from mashwright.reporting.book.day_page import day_place
    from mashwright.reporting.book.folder import Folder, FolderError
    from mashwright.reporting.book.index import index_pages, index_places
    from mashwright.reporting.book.making import all_made, reference_made
    from mashwright.reporting.book.places import pages_of
    from mashwright.reviewing.collection import Collection, ConfigurationError
    from mashwright.reviewing.settings import Run
    from mashwright.words.plurals import counted

    try:
        folder = Folder(output)
        collection = Collection(Run(day(today), skip_others=False))
        with ExitStack() as stack:
            found = collection.find(paths or (".",))
            pool = executor(stack, len(found), jobs)
            review = collection.finished(collection.files(found, pool))
            houses = {*collection.sound_houses, *(one.path for one in review.recipes if _is_house(one.path))}
            recipes = [one for one in review.recipes if one.path not in houses]
            for fault in review.faults:
                complain(f"{fault.path}: {fault.message}")
            wrong = [one for one in review.recipes if one.path in houses]
            if collection.wrong_houses:
                for one in wrong:
                    for result in one.results:
                        if result.level is Level.ERROR:
                            complain(f"{one.path}:{result.place.line}: {result.message}")
                raise click.ClickException("no book is written on a brewhouse that is wrong; mend it first")
            if not recipes:
                raise click.ClickException("no recipe is there to make a book of; name files or folders with some")
            pages = pages_of(one.path for one in recipes)
            reference = reference_made(title)
            first = index_places({one.path: one.name for one in recipes})
            folder.begin([*first, *pages.values(), *reference], map(day_place, pages.values()))
            rows = []
            made = all_made([(one, pages[one.path]) for one in recipes], title, pool)
            if len(recipes) >= PARALLEL_FROM and sys.stderr.isatty():
                made = stack.enter_context(
                    click.progressbar(made, length=len(recipes), label="writing", file=sys.stderr)
                )
            for page, content, day_sheet, row in made:
                folder.put(page, content)
                if day_sheet is not None:
                    folder.put(day_place(page), day_sheet)
                rows.append(row)
            for page, content in (*reference.items(), *index_pages(rows, title)):
                folder.put(page, content)
            gone = folder.end()
    except (ConfigurationError, FolderError) as error:
        raise click.ClickException(str(error)) from None
    removed = f", {gone} removed" if gone else ""
    complain(f"{output}: {counted(folder.pages, 'page')}, {folder.written} of them written anew{removed}")
    return 0


def _is_house(path: str) -> bool:
    from mashwright.reviewing.files import BREWHOUSE_NAMES

    return path.rpartition("/")[2] in BREWHOUSE_NAMES
