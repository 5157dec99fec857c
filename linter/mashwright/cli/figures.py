"""``mashwright figures``."""

import sys

import click

from mashwright.cli.arguments import TakesFiles
from mashwright.cli.output import STANDARD_INPUT, from_standard_input, opened, width
from mashwright.cli.places import keep_clear
from mashwright.printable import complain, publish, say


@click.command(cls=TakesFiles, short_help="Show every figure of a recipe with its working.")
@click.argument("recipe", type=click.Path())
@click.argument("only", metavar="[FIGURE]...", nargs=-1)
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json"]),
    default="text",
    show_default=True,
    help="Sheet format.",
)
@click.option("--output", metavar="FILE", type=click.Path(), help="Write the sheet to this file.")
@click.option("--name", metavar="PATH", help="File name to show for a recipe from standard input (-).")
def figures(recipe: str, only: tuple[str, ...], form: str, output: str | None, name: str | None) -> int:
    """Show every figure of RECIPE: value and range, the sum with its numbers, what was assumed, the sources, and the
    lines it comes from. RECIPE is a file, or - for standard input. With FIGURE, such as og or mash-ph: only those.

    Exit status: 0 shown; 1 part of the recipe could not be read; 2 nothing could be shown.
    """
    import os

    from mashwright.reviewing.figuring import sheet_of_loaded
    from mashwright.reviewing.files import decode, houses_above, load
    from mashwright.reviewing.plugins import ConfigurationError

    if recipe != "-" and not os.path.lexists(recipe):
        raise click.ClickException(f"{recipe}: there is no such file")
    if recipe != "-" and os.path.isdir(recipe):
        raise click.ClickException(f"{recipe} is a folder; name one recipe in it")
    path = (name or STANDARD_INPUT) if recipe == "-" else recipe
    if output is not None:
        keep_clear((output,), (path,), "the recipe", "sheet")
        keep_clear((output,), houses_above((path,)), "a brewhouse", "sheet")
    loaded = decode(from_standard_input()) if recipe == "-" else load(recipe)
    try:
        sheet = sheet_of_loaded(loaded, path)
    except ConfigurationError as error:
        raise click.ClickException(str(error)) from None
    wanted = frozenset(_known(one) for one in only)
    with opened(output, "sheet") as out:
        if form == "json":
            from mashwright.reporting.figures import figures_document
            from mashwright.reporting.machine import dump

            publish(dump(figures_document(sheet, wanted)), out)
            for problem in sheet.problems:
                complain(f"{sheet.path}:{problem.place.line}: {problem.message}")
        else:
            from mashwright.reporting.figures import figures_text

            for line in figures_text(sheet, width(out), wanted):
                say(line, out)
    house = sheet.wrong_house
    for result in house.results if house is not None else ():
        where = f"{house.path}:{result.place.line}:{result.place.column}" if house is not None else ""
        say(f"{where}: {result.level.word}: {result.rule}: {result.message}", sys.stderr)
    return 2 if house is not None else 1 if sheet.problems else 0


def _known(figure: str) -> str:
    """The id of a figure as it was typed.

    Raises:
        click.ClickException: there is no such figure.
    """
    from mashwright.figures import ALL, of_a_wort, of_the_mash
    from mashwright.words.nearest import nearest

    ids = list(dict.fromkeys(one.id for one in (*ALL, *of_the_mash(), *of_a_wort())))
    if figure in ids:
        return figure
    near = nearest(figure, ids, 0.5)
    hint = f"did you mean {near}?" if near is not None else f"there are {', '.join(ids)}"
    raise click.ClickException(f"no figure is called {figure}; {hint}")
