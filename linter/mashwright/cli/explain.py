"""``mashwright explain``."""

import sys

import click


@click.command(short_help="Show a rule's page, or the list of rules.")
@click.argument("rule", required=False)
@click.option("--sources", is_flag=True, help="Show the bibliography instead.")
def explain(rule: str | None, sources: bool) -> int:
    """Show the page of RULE: what it asks, why it matters, how it is computed, its settings, and two recipes that
    show it.

    Without a name: the list of all rules. With --sources: the works behind every number.
    """
    from mashwright.reporting import pages
    from mashwright.reviewing.collection import ConfigurationError, rule_infos
    from mashwright.reviewing.plugins import installed
    from mashwright.reviewing.settings import unknown_rule

    if sources:
        _print(pages.bibliography())
        return 0
    try:
        found, infos = installed(), {info.id: info for info in rule_infos()}
    except ConfigurationError as error:
        raise click.ClickException(str(error)) from None
    for fault in found.faults:
        print(f"mashwright: {fault.message}", file=sys.stderr)
    if rule is None:
        _print(pages.list_of(infos.values()))
        return 2 if found.faults else 0
    rule_id = found.aliases.get(rule, rule)
    if rule_id not in infos:
        raise click.ClickException(unknown_rule(rule, found))
    _print(pages.page(infos[rule_id], found.rules.get(rule_id)))
    return 0


def _print(text: str) -> None:
    print(text, end="" if text.endswith("\n") else "\n")
