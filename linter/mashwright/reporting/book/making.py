"""Makes the pages of a book, one recipe after the other or by several processes; the same pages either way."""

from collections import deque
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import islice
from typing import TYPE_CHECKING

from mashwright.reporting.book.day_page import day_page
from mashwright.reporting.book.index import IndexRow, row_of
from mashwright.reporting.book.recipe_page import recipe_page
from mashwright.reporting.book.reference import (
    FORMAT,
    RULES,
    WORDS,
    format_page,
    rule_page,
    rule_place,
    rules_page,
    words_page,
)
from mashwright.reviewing.account import account_of
from mashwright.reviewing.collection import rule_infos
from mashwright.reviewing.houses import Houses
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.results import Reviewed

if TYPE_CHECKING:
    from concurrent.futures import Executor

BATCH = 20
"""Recipes that a process gets at a time: some 200 ms of work."""
WINDOW = 8
"""Batches on the way at once; what a batch gives is held in memory until it is written."""

Made = tuple[str, bytes, bytes | None, IndexRow]
"""A page's place, its bytes, those of its brew day, and what the index tells of the recipe."""


def made_of(batch: Sequence[tuple[Reviewed, str]], title: str) -> list[Made]:
    """The pages of some recipes; a plain function, so that another process can be asked for it.

    Args:
        batch: reviews, each with the place of its page.
        title: of the book.
    """
    houses = Houses(installed())
    rules = _rules()
    found = []
    for reviewed, page in batch:
        account = account_of(reviewed, houses)
        day = day_page(account, page, title) if account.day is not None else None
        found.append((page, recipe_page(account, page, title, rules), day, row_of(account, page)))
    return found


@cache
def _rules() -> tuple[str, ...]:
    return tuple(info.id for info in rule_infos())


def reference_made(title: str) -> dict[str, bytes]:
    """The pages that tell of the rules, the format and the words, by their places."""
    infos, rules = rule_infos(), installed().rules
    pages = {RULES: rules_page(infos, title), FORMAT: format_page(title), WORDS: words_page(title)}
    pages.update((rule_place(info.id), rule_page(info, rules.get(info.id), title)) for info in infos)
    return pages


def all_made(recipes: Sequence[tuple[Reviewed, str]], title: str, executor: "Executor | None" = None) -> Iterator[Made]:
    """The pages of all recipes in their order.

    Args:
        executor: of concurrent.futures; None makes them here.
    """
    left = iter(recipes)
    batches = iter(lambda: list(islice(left, BATCH)), [])
    if executor is None:
        for batch in batches:
            yield from made_of(batch, title)
        return
    waiting = deque(executor.submit(made_of, batch, title) for batch in islice(batches, WINDOW))
    while waiting:
        done = waiting.popleft().result()
        waiting.extend(executor.submit(made_of, batch, title) for batch in islice(batches, 1))
        yield from done
