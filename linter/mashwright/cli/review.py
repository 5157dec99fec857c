"""``mashwright review``."""

import os
import sys
from contextlib import ExitStack
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import click
from msgspec.structs import replace

from mashwright.cli.arguments import TakesFiles
from mashwright.cli.closing import close, status
from mashwright.cli.known import alone, known_of, tell_known, write_known
from mashwright.cli.output import STANDARD_INPUT, from_standard_input
from mashwright.cli.places import keep_clear
from mashwright.cli.processes import PARALLEL_FROM, executor
from mashwright.cli.reports import FORMATS, ORDER, Reports, pairs
from mashwright.printable import complain

if TYPE_CHECKING:
    from collections.abc import Iterable

    from mashwright.reviewing.collection import Collection
    from mashwright.reviewing.files import Candidate
    from mashwright.reviewing.results import Reviewed
    from mashwright.reviewing.trusted import Trusted


class _InOrder(TakesFiles):
    """Keeps the order of --format and --output, which tells what belongs together."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """As click does it."""
        given = self.make_parser(ctx).parse_args(self.told_apart(ctx, args))[2]
        ctx.meta[ORDER] = [one.name for one in given if one.name in ("forms", "outputs")]
        return super().parse_args(ctx, args)


@click.command(cls=_InOrder, short_help="Review recipes and report findings.")
@click.argument("paths", nargs=-1, metavar="[PATHS]...", type=click.Path())
@click.option(
    "--format",
    "forms",
    type=click.Choice(FORMATS),
    multiple=True,
    help="Report format; text by default.",
)
@click.option(
    "--output",
    "outputs",
    metavar="FILE",
    type=click.Path(),
    multiple=True,
    help="Write the report to this file; put it after its --format.",
)
@click.option("--notes", is_flag=True, help="Print notes too; otherwise they are only counted.")
@click.option(
    "--stop-at",
    type=click.Choice(["error", "warning", "note"]),
    help="Lowest level that fails the review; else the one of the brewhouse, or error.",
)
@click.option("--baseline", metavar="FILE", type=click.Path(), help="Known findings; only new ones fail.")
@click.option(
    "--trusted",
    metavar="FOLDER",
    type=click.Path(),
    help="A copy of the repository that the change under review cannot touch; its brewhouses and baseline count.",
)
@click.option("--write-baseline", is_flag=True, help="Write the findings into the baseline.")
@click.option("--prune", is_flag=True, help="Delete from the baseline what is no longer found.")
@click.option(
    "--audit",
    is_flag=True,
    help="Show each recipe as a story, with all findings and notes, accepted and known ones too.",
)
@click.option(
    "--jobs", type=click.IntRange(min=1), metavar="NUMBER", help="Number of processes; else by cores and files."
)
@click.option("--name", metavar="PATH", help="File name to show for a recipe from standard input (-).")
@click.option("--allow-empty", is_flag=True, help="Accept a folder without recipes; otherwise exit status 2.")
@click.option("--skip-others", is_flag=True, help="Skip named files that are not recipes, as a hook needs.")
@click.option(
    "--today", metavar="DATE", help="Date to use as today, for entries that end (YYYY-MM-DD); else today, UTC."
)
@click.option("--quiet", is_flag=True, help="Leave out the closing counts.")
def review(
    paths: tuple[str, ...],
    forms: tuple[str, ...],
    outputs: tuple[str, ...],
    notes: bool,
    stop_at: str | None,
    baseline: str | None,
    trusted: str | None,
    write_baseline: bool,
    prune: bool,
    audit: bool,
    jobs: int | None,
    name: str | None,
    allow_empty: bool,
    skip_others: bool,
    today: str | None,
    quiet: bool,
) -> int:
    """Review recipes: will each one work on brew day?

    PATHS are files, folders, or - for standard input; with none, the current folder. In folders, YAML files with a line
    that starts recipe: or grist: are recipes. Vessels, lots and settings come from the nearest brewhouse.yaml above a
    recipe.

    Exit status: 0 nothing at or above --stop-at; 1 findings; 2 the review could not be done, a brewhouse.yaml is wrong,
    or no recipe was found.
    """
    from mashwright.finding import Level
    from mashwright.reviewing.collection import Collection, ConfigurationError
    from mashwright.reviewing.settings import Run
    from mashwright.words.plurals import counted

    if (write_baseline or prune) and baseline is None:
        raise click.ClickException("say with --baseline FILE which baseline is meant")
    if audit and (write_baseline or prune):
        raise click.ClickException("--audit looks at no baseline; leave out --audit, or what changes the baseline")
    if trusted is not None and (write_baseline or prune):
        raise click.ClickException("--trusted changes nothing; leave out --trusted, or what changes the baseline")
    notes = notes or audit
    level = Level[stop_at.upper()] if stop_at else None
    run = Run(day(today), level, skip_others, audit=audit, allow_empty=allow_empty)
    with ExitStack() as stack:
        if (write_baseline or prune) and baseline is not None:
            stack.enter_context(alone(baseline))
        try:
            if trusted is not None:
                run = replace(run, trusted=_trusted(trusted, paths, name))
            looked_at = None if audit else baseline
            known, remarks = known_of(looked_at, run.trusted, fresh=write_baseline)
            collection = Collection(run, known, remarks=remarks)
            places = pairs(forms or ("text",), outputs, click.get_current_context().meta[ORDER])
            found = _found(collection, paths or (".",), name)
            _keep_clear(outputs, found, name, baseline, run.trusted, writes=write_baseline or prune)
            with ExitStack() as reporting:
                reports = Reports(reporting, places, notes=notes)
                reports.take(_recipes(reporting, collection, found, name, jobs), collection)
        except ConfigurationError as error:
            raise click.ClickException(str(error)) from None
        if known is not None:
            tell_known(known, pruned=prune or write_baseline)
            if (write_baseline or prune) and baseline is not None:
                records = known.refreshed() if write_baseline else known.kept()
                write_known(records, baseline)
                if not quiet:
                    complain(f"{baseline}: {counted(len(records), 'finding')} written down")
    close(collection, notes=notes, quiet=quiet)
    return status(collection, accepting=write_baseline)


def day(today: str | None) -> str:
    """The date to take as today.

    Raises:
        click.ClickException: it is no date.
    """
    if today is None:
        return datetime.now(UTC).date().isoformat()
    try:
        return date.fromisoformat(today).isoformat()
    except ValueError:
        raise click.ClickException(f"--today {today} is no date; write it as 2027-12-31") from None


def _found(collection: "Collection", paths: tuple[str, ...], name: str | None) -> "list[Candidate] | None":
    """The files to look at; None where one recipe comes from standard input."""
    if "-" in paths:
        if len(paths) > 1:
            raise click.ClickException("- reads one recipe from standard input; name no other paths beside it")
        return None
    if name is not None:
        raise click.ClickException("--name goes with - (a recipe from standard input)")
    return collection.find(paths)


def _keep_clear(
    outputs: tuple[str, ...],
    found: "list[Candidate] | None",
    name: str | None,
    baseline: str | None,
    trusted: "Trusted | None",
    *,
    writes: bool,
) -> None:
    """See that nothing that is written takes the place of what is read.

    Args:
        writes: the baseline is written too.
    """
    written = [*outputs, *([baseline] if writes and baseline is not None else [])]
    if not written:
        return
    from mashwright.reviewing.files import houses_above

    files = [one.path for one in found] if found is not None else [name or STANDARD_INPUT]
    twins = [trusted.twin(one) for one in files] if trusted is not None else []
    houses = list(houses_above((*files, *twins)))
    for places, what in ((outputs, "report"), (written[len(outputs) :], "baseline")):
        keep_clear(places, files, "under review", what)
        keep_clear(places, twins, "in the trusted copy", what)
        keep_clear(places, houses, "a brewhouse", what)
    if baseline is not None:
        both = (baseline,) if trusted is None else (baseline, trusted.twin(baseline), trusted.back(baseline))
        keep_clear(outputs, both, "the baseline")


def _recipes(
    stack: ExitStack, collection: "Collection", found: "list[Candidate] | None", name: str | None, jobs: int | None
) -> "Iterable[Reviewed]":
    if found is None:
        from mashwright.reviewing.files import decode

        return collection.text(decode(from_standard_input()), name or STANDARD_INPUT)
    recipes = collection.files(found, executor(stack, len(found), jobs))
    if len(found) < PARALLEL_FROM or not sys.stderr.isatty() or sys.stdout.isatty():
        return recipes
    bar = click.progressbar(recipes, length=len(found), label="reviewing", file=sys.stderr)
    return stack.enter_context(bar)


def _trusted(folder: str, paths: tuple[str, ...], name: str | None) -> "Trusted":
    """What the folder is a copy of, by what is reviewed; what is not there is told of later."""
    from mashwright.reviewing.trusted import trusted_of

    if "-" in paths:
        return trusted_of(folder, (name or STANDARD_INPUT,))
    return trusted_of(folder, tuple(path for path in paths if os.path.lexists(path)) or (".",))
