"""``mashwright explain``."""

import sys

import click

from mashwright.printable import complain, publish


def _rules_for_a_shell(_context: click.Context, _parameter: click.Parameter, begun: str) -> list[str]:
    from mashwright.reporting.format_pages import topics
    from mashwright.reviewing.collection import ConfigurationError, rule_infos

    try:
        known = [*(info.id for info in rule_infos()), *topics()]
        return [name for name in dict.fromkeys(known) if name.startswith(begun)]
    except ConfigurationError:  # nobody wants to read about it in the middle of a line; the command tells it
        return []


@click.command(short_help="Show the page of a rule or of a section of a recipe, or the list of rules.")
@click.argument("name", required=False, shell_complete=_rules_for_a_shell)
@click.option("--section", is_flag=True, help="Show the section of that name, where a rule has it too.")
@click.option("--sources", is_flag=True, help="Show the published works behind the numbers.")
def explain(name: str | None, section: bool, sources: bool) -> int:
    """Show the page of NAME.

    A rule: its question, why it matters, what is checked, its settings, a recipe that passes and one that does not. A
    section of a recipe, such as mash or hops, or brewhouse or names: its fields, short forms, what is assumed without
    it, an example. A unit or a word of the trade: what it means.

    Without NAME: the list of all rules by the stages of the brew day. With --sources: the published works behind every
    number.
    """
    from mashwright.cli.output import width
    from mashwright.reporting import format_pages, pages
    from mashwright.reviewing.collection import ConfigurationError, rule_infos
    from mashwright.reviewing.plugins import installed
    from mashwright.reviewing.settings import unknown_rule

    if sources:
        publish(pages.bibliography(width(sys.stdout)), sys.stdout)
        return 0
    try:
        found, infos = installed(), {info.id: info for info in rule_infos()}
    except ConfigurationError as error:
        raise click.ClickException(str(error)) from None
    for fault in found.faults:
        complain(fault.message)
    if name is None:
        publish(pages.list_of(infos.values(), width(sys.stdout), format_pages.topics()), sys.stdout)
        return 2 if found.faults else 0
    rule_id = found.aliases.get(name, name)
    told = format_pages.topic(name, width(sys.stdout)) if section or rule_id not in infos else None
    if told is not None:
        publish(told, sys.stdout)
        return 0
    if rule_id not in infos or section:
        near = format_pages.near(name, list(infos))
        raise click.ClickException(
            f"nothing is called {name}; did you mean {near}?" if near is not None else unknown_rule(name, found)
        )
    if name in format_pages.topics():
        say_also = f"the section of this name: mashwright explain {name} --section"
        publish(say_also + "\n", sys.stdout)
    publish(pages.page(infos[rule_id], found.rules.get(rule_id), width(sys.stdout)), sys.stdout)
    return 0
