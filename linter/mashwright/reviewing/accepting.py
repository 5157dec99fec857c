"""Suppressions: findings that somebody accepts with a reason, and what is wrong with such acceptances."""

from collections.abc import Iterable
from dataclasses import replace

from mashwright.finding import Level
from mashwright.reading.document import Document
from mashwright.recipe.model import Accepted, Recipe
from mashwright.reviewing.files import glob_matches
from mashwright.reviewing.plugins import READING_RULES, installed
from mashwright.reviewing.results import Acceptance, Result, pointer
from mashwright.reviewing.settings import House, unknown_rule


def accept(
    results: Iterable[Result], recipe: Recipe, house: House, today: str, in_house: str, document: Document
) -> list[Result]:
    """Mark what is accepted, and add what is wrong with the recipe's own acceptances.

    Args:
        today: YYYY-MM-DD; an acceptance holds up to and with its day.
        in_house: the recipe's path seen from the brewhouse's folder, for the brewhouse's acceptances.
    """
    own = [item for item in recipe.accepted if item.rule and item.reason]
    house_wide = [
        item
        for item in house.brewhouse.accepted
        if item.rule and item.reason and (not item.where or glob_matches(in_house, item.where))
    ]
    valid = [item for item in (*own, *house_wide) if not (item.until and item.until < today)]
    if not own and not house_wide:
        return list(results)
    used: set[Accepted] = set()
    marked = []
    for result in results:
        item = next((one for one in valid if _covers(one, result)), None)
        if item is not None:
            used.add(item)
            result = replace(result, accepted=Acceptance(item.reason, item.until))  # noqa: PLW2901
        marked.append(result)
    if any(result.rule in READING_RULES and result.level is Level.ERROR for result in marked):
        # what cannot be read may be what the accepted finding is about
        used.update(item for item in valid if installed().aliases.get(item.rule, item.rule) in installed().rules)
    return [*marked, *(_told(item, today, document) for item in own if _wrong(item, used, today))]


def _covers(item: Accepted, result: Result) -> bool:
    rule = installed().aliases.get(item.rule, item.rule)
    return result.rule == rule and rule not in READING_RULES


def _wrong(item: Accepted, used: set[Accepted], today: str) -> bool:
    return item not in used or bool(item.until and item.until < today)


def _told(item: Accepted, today: str, document: Document) -> Result:
    found = installed()
    rule = found.aliases.get(item.rule, item.rule)
    path = (*item.path, "rule")
    if rule not in found.rules:
        message = unknown_rule(item.rule, found)
    elif item.until and item.until < today:
        path = (*item.path, "until")
        message = f"this acceptance of {rule} ended on {item.until}; look again, then set a new date or take it out"
    else:
        message = f"nothing here is found by {rule} any more; take this acceptance out"
    place = document.place(document.span_of(path))
    return Result("accepted", Level.WARNING, pointer(path), place, message, identity=f"accepted /accepted/{item.rule}")
