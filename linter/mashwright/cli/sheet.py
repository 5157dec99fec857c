"""``mashwright sheet``."""

import re
import sys

import click

from mashwright.cli.arguments import TakesFiles
from mashwright.cli.output import STANDARD_INPUT, from_standard_input, opened, width
from mashwright.cli.places import keep_clear
from mashwright.printable import complain, say


@click.command(cls=TakesFiles, short_help="Show the brew day of a recipe, in the order of work.")
@click.argument("recipe", type=click.Path())
@click.option(
    "--format", "form", type=click.Choice(["text", "markdown"]), default="text", show_default=True, help="Sheet format."
)
@click.option("--output", metavar="FILE", type=click.Path(), help="Write the sheet to this file.")
@click.option("--start", metavar="CLOCK", help="When the grain is stirred in, such as 08:30; fills the mash's clock.")
@click.option("--corrections", is_flag=True, help="Add what to do when the wort before the boil is not as planned.")
@click.option("--name", metavar="PATH", help="File name to show for a recipe from standard input (-).")
def sheet(recipe: str, form: str, output: str | None, start: str | None, corrections: bool, name: str | None) -> int:
    """Show the brew day of RECIPE in the order of work: what to weigh, heat, rest, add and measure, with room to write.

    What the recipe does not state is a figure, with what was assumed; what the review objects to stands at its step.
    RECIPE is a file, or - for standard input.

    Exit status: 0 shown; 1 part of the recipe could not be read; 2 nothing could be shown.
    """
    import os

    from mashwright.brew.brew import Brew
    from mashwright.reviewing.brew_day import brew_day
    from mashwright.reviewing.collection import Collection, ConfigurationError
    from mashwright.reviewing.figuring import sheet_of_loaded
    from mashwright.reviewing.files import decode, houses_above, load
    from mashwright.reviewing.houses import Houses
    from mashwright.reviewing.plugins import installed
    from mashwright.reviewing.read import read
    from mashwright.reviewing.settings import Run

    begun = _minutes(start)
    if recipe != "-" and not os.path.isfile(recipe):
        raise click.ClickException(f"{recipe}: there is no such file; name one recipe")
    path = (name or STANDARD_INPUT) if recipe == "-" else recipe
    if output is not None:
        keep_clear((output,), (path,), "the recipe", "sheet")
        keep_clear((output,), houses_above((path,)), "a brewhouse", "sheet")
    loaded = decode(from_standard_input()) if recipe == "-" else load(recipe)
    try:
        figures = sheet_of_loaded(loaded, path)
        reviewed = next(iter(Collection(Run("")).text(loaded, path)), None)
        houses = Houses(installed())
        file = houses.nearest(path)
    except ConfigurationError as error:
        raise click.ClickException(str(error)) from None
    document = read(loaded, figures.path)
    if document.judgeable is None:
        for result in figures.problems:
            complain(f"{figures.path}:{result.place.line}: {result.message}")
        return 2
    house = (file.house if file is not None else houses.plain()).brewhouse
    brew = Brew(document.judgeable, house, document.document)
    day = brew_day(brew, figures, reviewed.results if reviewed is not None else (), corrections=corrections)
    from mashwright.reporting.brew_day import day_markdown, day_text

    with opened(output, "sheet") as out:
        lines = day_markdown(day, begun) if form == "markdown" else day_text(day, width(out), begun)
        for line in lines:
            say(line, out)
    for problem in figures.problems:
        say(f"{figures.path}:{problem.place.line}: {problem.message}", sys.stderr)
    return 1 if figures.problems else 0


def _minutes(start: str | None) -> float | None:
    if start is None:
        return None
    found = re.fullmatch(r"([01]?\d|2[0-3])[:.h]([0-5]\d)", start.strip())
    if found is None:
        raise click.ClickException(f"--start {start} is not a time of day; write it as 08:30")
    return int(found[1]) * 60.0 + int(found[2])
