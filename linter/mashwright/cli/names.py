"""``mashwright names``."""

import sys
from typing import TYPE_CHECKING

import click

from mashwright.printable import complain, publish, say

if TYPE_CHECKING:
    from mashwright.recipe.brewhouse import Brewhouse
    from mashwright.reviewing.houses import HouseFile


def _kinds_for_a_shell(context: click.Context, _parameter: click.Parameter, begun: str) -> list[str]:
    from mashwright.reviewing.catalogue import KINDS

    return [] if context.params.get("words") else [kind for kind in KINDS if kind.startswith(begun)]


@click.command(short_help="Show what is known: malts, hops, yeasts, units and more.")
@click.argument("words", nargs=-1, metavar="[KIND] [WORD]", shell_complete=_kinds_for_a_shell)
@click.option(
    "--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True, help="Output format."
)
def names(words: tuple[str, ...], form: str) -> int:
    """Show what is known of names: malts, sugars, fruit, hops, yeasts, enzymes, salts, styles, units, with values and
    sources. KIND lists one of these; WORD looks for a name in it, or in all of them. Those of the nearest
    brewhouse.yaml count, and are marked.

    Exit status: 0 shown; 1 nothing of that name is known; 2 nothing could be shown, or the brewhouse is faulty.
    """
    from mashwright.cli.output import width
    from mashwright.reporting import names as pages
    from mashwright.reporting.machine import dump
    from mashwright.reviewing.catalogue import KINDS, known
    from mashwright.reviewing.search import Search, kind_named, search

    file, house = _nearest()
    kind = kind_named(words[0]) if words else ""
    word = " ".join(words[1:] if kind else words)
    listed = tuple(one for each in ((kind,) if kind else KINDS) for one in known(each, house))
    found = search(word, listed) if word else Search((), listed if kind else (), ())
    shown, columns = file.path if file is not None else "", width(sys.stdout)
    missed = bool(word) and not (found.whole or found.others)
    if form == "json":
        publish(dump(pages.names_document(listed, (*found.whole, *found.others), found.near, shown)), sys.stdout)
    elif not missed:
        lines = (
            pages.found_text(found, shown, columns)
            if word
            else pages.list_of(listed, columns)
            if kind
            else pages.overview(listed, shown, columns)
        )
        for line in lines:
            say(line, sys.stdout)
    if missed:
        complain(pages.near_text(word, found.near, kind))
    return 2 if _told(file) else 1 if missed else 0


def _nearest() -> "tuple[HouseFile | None, Brewhouse]":
    """The brewhouse of the current folder.

    Raises:
        click.ClickException: the rules that are installed contradict each other, or the program cannot take it.
    """
    from mashwright.reviewing.files import BREWHOUSE_NAMES
    from mashwright.reviewing.houses import Houses
    from mashwright.reviewing.plugins import ConfigurationError, installed

    try:
        houses = Houses(installed())
    except ConfigurationError as error:
        raise click.ClickException(str(error)) from None
    file = houses.nearest(BREWHOUSE_NAMES[0])
    for fault in file.faults if file is not None else ():
        raise click.ClickException(f"{fault.path}: {fault.message}")
    return file, (file.house if file is not None else houses.plain()).brewhouse


def _told(file: "HouseFile | None") -> bool:
    """Whether the brewhouse has errors, which are told."""
    from mashwright.finding import Level

    if file is None or file.reviewed is None:
        return False
    errors = [result for result in file.reviewed.results if result.level is Level.ERROR]
    for result in errors:
        where = f"{file.path}:{result.place.line}:{result.place.column}"
        say(f"{where}: {result.level.word}: {result.rule}: {result.message}", sys.stderr)
    return bool(errors)
