"""``mashwright schema``."""

import sys

import click

from mashwright.printable import publish

_WRITTEN = ("review", "figures", "names")


@click.command(short_help="Show the JSON Schema of a recipe, for editors that complete and check by one.")
@click.argument("what", type=click.Choice(["recipe", "brewhouse", *_WRITTEN]), default="recipe")
@click.option("--names", is_flag=True, help="With all known names, those of the nearest brewhouse.yaml too.")
@click.option("--in-full", is_flag=True, help="Without short forms and other names of fields.")
def schema(what: str, names: bool, in_full: bool) -> int:
    """Show the JSON Schema (draft 2020-12) of a recipe or a brewhouse as one is typed, short forms and all; or of a
    document that Mashwright writes: a review, the figures, the names.

    Exit status: 0 shown; 2 nothing could be shown, or the brewhouse is faulty.
    """
    from mashwright.reporting.machine import dump
    from mashwright_schema import load

    if (names or in_full) and what in _WRITTEN:
        raise click.UsageError(f"--{'names' if names else 'in-full'} is for the schema of a recipe or a brewhouse")
    if names and in_full:
        raise click.UsageError("--names goes with the short forms; leave --in-full out")
    faulty = False
    if names:
        from mashwright.cli.nearest import nearest, told
        from mashwright.reviewing.schema_of_names import with_names

        file, house = nearest()
        faulty, shown = told(file), with_names(what, house)
    elif in_full or what in _WRITTEN:
        shown = load(what)
    else:
        from mashwright.reading.as_typed import as_typed

        shown = as_typed(what)
    publish(dump(shown), sys.stdout)
    return 2 if faulty else 0
