"""``mashwright names``."""

import sys

import click

from mashwright.printable import complain, publish, say


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
    from mashwright.cli.nearest import nearest, told
    from mashwright.cli.output import width
    from mashwright.reporting import names as pages
    from mashwright.reporting.machine import dump
    from mashwright.reviewing.catalogue import KINDS, known
    from mashwright.reviewing.search import Search, kind_named, search

    file, house = nearest()
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
    return 2 if told(file) else 1 if missed else 0
