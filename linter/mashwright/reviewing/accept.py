"""Suppressions: findings that somebody accepts with a reason, and what is wrong with such acceptances."""

from collections.abc import Collection

from msgspec.structs import replace

from mashwright.finding import Level, Path
from mashwright.reading.document import Document
from mashwright.reading.editing import removed
from mashwright.recipe.model import Accepted
from mashwright.reviewing.files import glob_matches
from mashwright.reviewing.place import Placed
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.read import Read
from mashwright.reviewing.results import READING_RULES, Acceptance, EditRow, RemedyRow, Result, pointer
from mashwright.reviewing.settings import House, unknown_rule


def accept(
    placed: Placed, read: Read, house: House, today: str, in_house: str
) -> tuple[tuple[Result, ...], tuple[Path, ...]]:
    """Mark what is accepted, and add what is wrong with the recipe's own acceptances.

    Args:
        placed: what was found. What a rule that crashed here would have found nobody knows.
        read: the recipe, in which there is something to judge.
        today: YYYY-MM-DD; an acceptance holds up to and with its day.
        in_house: the recipe's path seen from the brewhouse's folder, for the brewhouse's acceptances.

    Returns:
        The findings, and the places of those acceptances of the brewhouse that are of use here.
    """
    recipe, results = read.recipe, placed.results
    assert recipe is not None
    own = [item for item in recipe.accepted if item.rule and item.reason]
    valid = _valid(recipe.accepted, house, today, in_house)
    if not own and not valid:
        return results, ()
    used: set[Accepted] = set()
    by_rule = _by_rule(valid)
    marked = [_marked(result, by_rule, used) for result in results]
    if any(result.rule in READING_RULES and result.level is Level.ERROR for result in marked):
        # what cannot be read may be what the accepted finding is about
        used.update(item for item in valid if installed().aliases.get(item.rule, item.rule) in installed().rules)
    failed = {fault.rule for fault in placed.faults}
    used.update(item for item in valid if installed().aliases.get(item.rule, item.rule) in failed)
    told = (_told(item, today, read.document) for item in own if _wrong(item, used, today))
    return (*marked, *told), tuple(item.path for item in house.brewhouse.accepted if item in used)


def house_acceptances(
    house: House, used: Collection[Path], today: str, document: Document, *, whole: bool
) -> list[Result]:
    """What is wrong with a brewhouse's acceptances, once its recipes are through.

    Args:
        used: places of those that were of use to a recipe.
        document: the brewhouse's.
        whole: whether every recipe under it was reviewed; otherwise only those that have ended are told of.
    """
    by_use = {item for item in house.brewhouse.accepted if item.path in used or not whole}
    known = (item for item in house.brewhouse.accepted if item.rule and item.reason and _is_rule(item))
    return [_told(item, today, document) for item in known if _wrong(item, by_use, today)]


def _is_rule(item: Accepted) -> bool:
    """Whether its rule is installed; a brewhouse that names another is told so as it is read."""
    return installed().aliases.get(item.rule, item.rule) in installed().rules


def accepted(result: Result, own: tuple[Accepted, ...], house: House, today: str, in_house: str) -> Result:
    """One finding, marked if it is accepted; ``own`` is what the recipe itself accepts; otherwise as ``accept``."""
    return _marked(result, _by_rule(_valid(own, house, today, in_house)), set())


def _valid(own: tuple[Accepted, ...], house: House, today: str, in_house: str) -> list[Accepted]:
    """What is accepted in a recipe today, by itself or by its brewhouse."""
    house_wide = (item for item in house.brewhouse.accepted if not item.where or glob_matches(in_house, item.where))
    every = (*own, *house_wide)
    return [item for item in every if item.rule and item.reason and not (item.until and item.until < today)]


def _by_rule(valid: list[Accepted]) -> dict[str, Accepted]:
    """The first acceptance of each rule that can be accepted; what reading finds cannot."""
    aliases = installed().aliases
    first: dict[str, Accepted] = {}
    for item in valid:
        rule = aliases.get(item.rule, item.rule)
        if rule not in READING_RULES:
            first.setdefault(rule, item)
    return first


def _marked(result: Result, by_rule: dict[str, Accepted], used: set[Accepted]) -> Result:
    item = by_rule.get(result.rule)
    if item is None:
        return result
    used.add(item)
    return replace(result, accepted=Acceptance(item.reason, item.until))


def _wrong(item: Accepted, used: set[Accepted], today: str) -> bool:
    rule = installed().rules.get(installed().aliases.get(item.rule, item.rule))
    elsewhere = rule is not None and rule.check is None  # what it accepts is only found in the whole collection
    return (item not in used and not elsewhere) or bool(item.until and item.until < today)


def _told(item: Accepted, today: str, document: Document) -> Result:
    found = installed()
    rule = found.aliases.get(item.rule, item.rule)
    path = (*item.path, "rule")
    if rule not in found.rules:
        message = unknown_rule(item.rule, found)
    elif item.until and item.until < today:
        path = (*item.path, "until")
        message = f"this entry for {rule} ended on {item.until}; look again, then set a new date or delete the entry"
    else:
        where = f"in {item.where}" if item.where else "here"
        message = f"{rule} finds nothing {where} now; delete this entry"
    place = document.place(document.span_of(path))
    identity = f"accepted /accepted/{item.rule}" + (f" {item.where}" if item.where else "")
    remedies = _deletion(item, document) if rule in found.rules else ()
    return Result("accepted", Level.WARNING, pointer(path), place, message, remedies=remedies, identity=identity)


def _deletion(item: Accepted, document: Document) -> tuple[RemedyRow, ...]:
    """The change that takes an entry out, where it can be told apart from what stands beside it."""
    piece = removed(document.text, document.root, item.path) if document.root is not None else None
    if piece is None:
        return ()
    edit = EditRow(pointer(item.path), "", piece, document.place(piece.span))
    return (RemedyRow(f"delete the entry for {item.rule}", (edit,)),)
