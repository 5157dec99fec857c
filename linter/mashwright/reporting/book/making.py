"""Makes the pages of a book, one recipe after the other or by several processes; the same pages either way."""

from collections import deque
from collections.abc import Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING

from mashwright.reporting.book.index import IndexRow, row_of
from mashwright.reporting.book.recipe_page import recipe_page
from mashwright.reviewing.account import account_of
from mashwright.reviewing.houses import Houses
from mashwright.reviewing.plugins import installed
from mashwright.reviewing.results import Reviewed

if TYPE_CHECKING:
    from concurrent.futures import Executor

BATCH = 20
"""Recipes that a process gets at a time: some 200 ms of work."""
WINDOW = 8
"""Batches on the way at once; what a batch gives is held in memory until it is written."""

Made = tuple[str, bytes, IndexRow]
"""A page's place, its bytes, and what the index tells of the recipe."""


def made_of(batch: Sequence[tuple[Reviewed, str]], title: str) -> list[Made]:
    """The pages of some recipes; a plain function, so that another process can be asked for it.

    Args:
        batch: reviews, each with the place of its page.
        title: of the book.
    """
    houses = Houses(installed())
    found = []
    for reviewed, page in batch:
        account = account_of(reviewed, houses)
        found.append((page, recipe_page(account, page, title), row_of(account, page)))
    return found


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
