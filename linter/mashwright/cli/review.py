"""``mashwright review``."""

import os
import sys
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import click

from mashwright.cli.output import opened, wants_colour, width

if TYPE_CHECKING:
    from collections.abc import Iterator

    from mashwright.reviewing.collection import Collection
    from mashwright.reviewing.results import Reviewed

FORMATS = ("text", "json", "sarif")


@click.command(short_help="Review recipes and report findings.")
@click.argument("paths", nargs=-1, metavar="[PATHS]...")
@click.option(
    "--format", "form", type=click.Choice(FORMATS), default="text", show_default=True, help="Form of the report."
)
@click.option("--output", metavar="FILE", help="Write the report to a file.")
@click.option("--notes", is_flag=True, help="Print notes too; otherwise they are only counted.")
@click.option(
    "--stop-at",
    type=click.Choice(["error", "warning", "note"]),
    help="Level from which a review fails; else the brewhouse's, or error.",
)
@click.option("--name", metavar="PATH", help="What a recipe from standard input (-) is called.")
@click.option("--skip-others", is_flag=True, help="Pass over named files that are no recipes, as a hook needs.")
@click.option("--today", metavar="DATE", help="The day by which acceptances end (YYYY-MM-DD); else today, UTC.")
@click.option("--quiet", is_flag=True, help="No closing line of counts.")
def review(
    paths: tuple[str, ...],
    form: str,
    output: str | None,
    notes: bool,
    stop_at: str | None,
    name: str | None,
    skip_others: bool,
    today: str | None,
    quiet: bool,
) -> int:
    """Review recipes: will each one work on brew day?

    PATHS are files, folders, or - for standard input; none means the current folder. In folders, YAML files with a line
    that starts recipe: or grist: are recipes. The nearest brewhouse.yaml above a recipe tells of vessels, lots and
    settings.

    Exit status: 0 nothing at or above --stop-at; 1 findings; 2 the work could not be done.
    """
    from mashwright.finding import Level
    from mashwright.reviewing.collection import Collection, ConfigurationError
    from mashwright.reviewing.settings import Run

    run = Run(_day(today), Level[stop_at.upper()] if stop_at else None, skip_others)
    try:
        collection = Collection(run)
    except ConfigurationError as error:
        raise click.ClickException(str(error)) from None
    with opened(output) as out:
        recipes = _recipes(collection, paths or (".",), name)
        if form == "text":
            from mashwright.reporting import text
            from mashwright.reviewing.results import Review

            for reviewed in recipes:
                one = Review((reviewed,))
                for line in text.findings(one, notes=notes, colour=wants_colour(out), width=width(out)):
                    print(line, file=out)
        else:
            from mashwright.reporting import write

            write(form, collection.finished(list(recipes)), out)
    _close(collection, paths, notes=notes, quiet=quiet)
    return _status(collection)


def _day(today: str | None) -> str:
    if today is None:
        return datetime.now(UTC).date().isoformat()
    try:
        return date.fromisoformat(today).isoformat()
    except ValueError:
        raise click.UsageError(f"--today {today} is no date; write it as 2027-12-31") from None


def _recipes(collection: "Collection", paths: tuple[str, ...], name: str | None) -> "Iterator[Reviewed]":
    if "-" in paths:
        if len(paths) > 1:
            raise click.UsageError("- reads one recipe from standard input; name no other paths beside it")
        from mashwright.reviewing.files import decode

        yield from collection.text(decode(sys.stdin.buffer.read(1 << 21)), name or "standard-input.yaml")
        return
    if name is not None:
        raise click.UsageError("--name goes with - (a recipe from standard input)")
    yield from collection.paths(paths)


def _close(collection: "Collection", paths: tuple[str, ...], *, notes: bool, quiet: bool) -> None:
    """What is said on standard error at the end."""
    from mashwright.reporting import text

    for path in collection.missing:
        print(f"mashwright: {path}: there is no such file or folder", file=sys.stderr)
    done = collection.finished(())
    for line in text.faults(done):
        print(line, file=sys.stderr)
    if quiet or (collection.missing and not collection.reviewed):
        return
    if collection.reviewed == 0 and collection.sound_houses and not collection.skipped:
        print(f"mashwright: {', '.join(collection.sound_houses)}: nothing to say of this brewhouse", file=sys.stderr)
        return
    if collection.reviewed == 0 and not collection.run.skip_others and not collection.wrong_houses:
        where = " ".join(paths) or os.path.basename(os.getcwd())
        others = f" (other YAML files: {collection.skipped})" if collection.skipped else ""
        looks = "a recipe is a .yaml file with a line that starts recipe: or grist:"
        print(f"mashwright: no recipe in {where}{others}; {looks}", file=sys.stderr)
        return
    print(text.closing(done, notes=notes), file=sys.stderr)


def _status(collection: "Collection") -> int:
    """2 beats 1: what could not be done must not pass for reviewed."""
    if collection.faults or collection.missing or collection.wrong_houses:
        return 2
    return 1 if collection.failing else 0
