"""``mashwright explain``."""

import sys

import click

from mashwright.printable import complain, publish


def _rules_for_a_shell(_context: click.Context, _parameter: click.Parameter, begun: str) -> list[str]:
    from mashwright.reviewing.collection import ConfigurationError, rule_infos

    try:
        return [info.id for info in rule_infos() if info.id.startswith(begun)]
    except ConfigurationError:  # nobody wants to read about it in the middle of a line; the command tells it
        return []


@click.command(short_help="Show a rule's page, or the list of rules.")
@click.argument("rule", required=False, shell_complete=_rules_for_a_shell)
@click.option("--sources", is_flag=True, help="Show the published works behind the numbers.")
def explain(rule: str | None, sources: bool) -> int:
    """Show the page of RULE: its question, why it matters, what is checked, its settings, a recipe that passes and one
    that does not.

    Without RULE: the list of all rules. With --sources: the published works behind every number.
    """
    from mashwright.cli.output import width
    from mashwright.reporting import pages
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
    if rule is None:
        publish(pages.list_of(infos.values(), width(sys.stdout)), sys.stdout)
        return 2 if found.faults else 0
    rule_id = found.aliases.get(rule, rule)
    if rule_id not in infos:
        raise click.ClickException(unknown_rule(rule, found))
    publish(pages.page(infos[rule_id], found.rules.get(rule_id), width(sys.stdout)), sys.stdout)
    return 0
