"""Asks one rule about one brew; what it yields is taken as the contract says, with its name, under its ceiling."""

from functools import partial
from itertools import islice

from mashwright.brew.brew import Brew
from mashwright.budgets import RULE_FINDINGS
from mashwright.finding import Finding
from mashwright.recipe.stated import Unknown
from mashwright.reviewing.readings import found_in_all
from mashwright.reviewing.settings import RunRule
from mashwright.reviewing.taking import UnfitError, taken

_ENOUGH = RULE_FINDINGS + 1


def found_by(run_rule: RunRule, brew: Brew) -> list[Finding]:
    """What one rule finds; a figure that cannot be had ends it, and what it found before that stays.

    Raises:
        UnfitError: what it yields is not as the contract says.
    """
    if run_rule.rule.check is None:
        return []
    return found_in_all(brew, partial(found_in, run_rule)) if brew.unknown else found_in(run_rule, brew)


def found_in(run_rule: RunRule, brew: Brew) -> list[Finding]:
    """What it finds in one reading of what nothing is known of; otherwise as ``found_by``."""
    found: list[Finding] = []
    check = run_rule.rule.check
    assert check is not None
    if brew.recipe.worts:
        from mashwright.reviewing.of_worts import found_of_worts  # most recipes give one beer

        return _named(run_rule, found_of_worts(check, run_rule.limits, brew))
    try:
        found.extend(islice(check(brew, run_rule.limits), _ENOUGH))
    except Unknown as unknown:
        brew.refused(unknown)
    return _named(run_rule, found) if found else found


def check_one(run_rule: RunRule, brew: Brew) -> list[Finding]:
    """What one rule finds in a brew of which all that it asks for can be had.

    Raises:
        Unknown: a figure that it asks for cannot be had.
        UnfitError: what it yields is not as the contract says.
    """
    check = run_rule.rule.check
    if brew.recipe.worts:
        return found_in(run_rule, brew) if check is not None else []
    return _named(run_rule, list(islice(check(brew, run_rule.limits), _ENOUGH))) if check is not None else []


def _named(run_rule: RunRule, found: list[Finding]) -> list[Finding]:
    if len(found) == _ENOUGH:
        raise UnfitError(f"it yields more than {RULE_FINDINGS} findings of one recipe")
    if not found:
        return found
    rule, ceiling, says = run_rule.rule.id, run_rule.ceiling, run_rule.rule.says
    return [taken(finding, rule, ceiling, says) for finding in found]
