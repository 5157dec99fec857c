"""The brew day of one recipe as a page to print and write on."""

from mashwright.reporting.book.frame import render
from mashwright.reporting.book.places import link
from mashwright.reporting.book.reference import links
from mashwright.reporting.brew_day import DEFER
from mashwright.reviewing.account import Account


def day_place(page: str) -> str:
    """Where the brew day of a recipe lies, whose own page lies at ``page``."""
    return f"brew-days/{page.removeprefix('recipes/')}"


def day_page(account: Account, page: str, title: str) -> bytes:
    """The brew day of a recipe.

    Args:
        account: what there is to tell; ``day`` is not None.
        page: where the page of the recipe lies in the book.
        title: of the book.
    """
    here = day_place(page)
    day = account.day
    assert day is not None
    return render("day.html", day=day, account=account, defer=DEFER, book=title, recipe=link(here, page), **links(here))
