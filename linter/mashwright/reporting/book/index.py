"""The first page of a book: all recipes in a table that needs no script."""

from collections.abc import Iterable, Sequence
from unicodedata import normalize

from markupsafe import Markup
from msgspec import Struct

from mashwright.brew.board import number
from mashwright.brewing.glass_colour import colour_word
from mashwright.finding import Level
from mashwright.reporting.book.frame import render
from mashwright.reporting.book.pictures.glass import swatch
from mashwright.reporting.book.places import link
from mashwright.reporting.book.recipe_page import MARKS
from mashwright.reviewing.account import Account
from mashwright.words.plurals import counted


class IndexRow(Struct, frozen=True):
    """What the book keeps of a recipe; small, since it is kept of each.

    Attributes:
        worst: 0 for nothing found, up to 3 for an error; 4 where it could not be read.
        og, abv, ibu, srm: typical values; None where they are not known.
        counts: errors, warnings and notes that are not accepted.
    """

    path: str
    page: str
    name: str
    style: str
    house: str
    worst: int
    counts: tuple[int, int, int]
    og: float | None = None
    abv: float | None = None
    ibu: float | None = None
    srm: float | None = None


def row_of(account: Account, page: str) -> IndexRow:
    """What the index tells of a recipe."""
    typical = {one.row.id: one.row.typical for beer in account.beers[:1] for one in beer.rows}
    open_ = [one.level for one in account.results if one.accepted is None]
    worst = 4 if not account.is_recipe else 0
    if account.is_recipe and account.worst is not None:
        worst = {Level.NOTE: 1, Level.WARNING: 2, Level.ERROR: 3}[account.worst]
    return IndexRow(
        account.path,
        page,
        account.name or account.path.rsplit("/", 1)[-1],
        account.style,
        account.house,
        worst,
        (open_.count(Level.ERROR), open_.count(Level.WARNING), open_.count(Level.NOTE)),
        typical.get("og"),
        typical.get("abv"),
        typical.get("bitterness"),
        typical.get("colour"),
    )


class RowView(Struct, frozen=True):
    """A row of the table; the keys are what the script sorts by, "" for what is not known."""

    href: str
    name: str
    style: str
    og: str
    og_key: str
    abv: str
    abv_key: str
    ibu: str
    ibu_key: str
    swatch: Markup | str
    colour: str
    srm_key: str
    mark: str
    counts: str
    worst: int
    state: str
    house: str
    folder: str


class IndexPage(Struct, frozen=True):
    """The whole page; ``states`` are what the filter offers, each with its word."""

    title: str
    told: str
    rows: tuple[RowView, ...]
    states: tuple[tuple[str, str], ...]
    houses: bool
    folders: bool
    unread: tuple[tuple[str, str], ...] = ()


_STATES = ("nothing found", "a note", "a warning", "an error", "not read")


def by_name(rows: Iterable[IndexRow]) -> list[IndexRow]:
    """The recipes by name, whatever the order of their files."""
    return sorted(rows, key=lambda row: (normalize("NFKD", row.name).casefold(), row.path))


def index_page(
    rows: Iterable[IndexRow], title: str, unread: Sequence[tuple[str, str]] = (), page: str = "index.html"
) -> bytes:
    """The first page.

    Args:
        rows: of all recipes.
        title: of the book.
        unread: path and message of what could not be read at all.
        page: where it lies.
    """
    sorted_ = by_name(rows)
    states = [_STATES[row.worst] for row in sorted_]
    count = ", ".join(
        f"{counted(states.count(one), 'recipe')} with {one}" if one != "not read" else f"{states.count(one)} not read"
        for one in _STATES
        if one in states
    )
    houses = sorted({row.house for row in sorted_ if row.house})
    on = f", on {houses[0]}" if len(houses) == 1 else ""
    folders = {_folder(row.path) for row in sorted_}
    common = "/".join(_common([folder.split("/") for folder in sorted(folders)]))
    view = IndexPage(
        title,
        f"{counted(len(sorted_), 'recipe')}{on}: {count}." if sorted_ else "No recipe.",
        tuple(_view(row, page, common) for row in sorted_),
        tuple((str(at), word) for at, word in enumerate(_STATES) if word in states),
        len(houses) > 1,
        len(folders) > 1,
        tuple(unread),
    )
    return render("index.html", script=True, p=view)


def _folder(path: str) -> str:
    return path.rpartition("/")[0]


def _common(folders: list[list[str]]) -> list[str]:
    """The steps that all folders begin with."""
    first = folders[0] if folders else []
    same = next((at for at, step in enumerate(first) if any(one[at : at + 1] != [step] for one in folders)), len(first))
    return first[:same]


def _view(row: IndexRow, page: str, common: str) -> RowView:
    errors, warnings, notes = row.counts
    words = [counted(n, word) for n, word in ((errors, "error"), (warnings, "warning"), (notes, "note")) if n]
    marks = ("○", MARKS[Level.NOTE], MARKS[Level.WARNING], MARKS[Level.ERROR], MARKS[Level.ERROR])
    return RowView(
        link(page, row.page),
        row.name,
        row.style,
        f"{row.og:.3f}" if row.og is not None else "",
        _key(row.og),
        f"{number(row.abv, 2)} %" if row.abv is not None else "",
        _key(row.abv),
        f"{number(row.ibu, 2)}" if row.ibu is not None else "",
        _key(row.ibu),
        swatch(row.srm) if row.srm is not None else "",
        f"{colour_word(row.srm)}, {number(row.srm, 2)} SRM" if row.srm is not None else "",
        _key(row.srm),
        marks[row.worst],
        ("not read" if row.worst == 4 else "nothing found") if not words else ", ".join(words),
        row.worst,
        str(row.worst),
        row.house,
        _folder(row.path)[len(common) :].lstrip("/"),
    )


def _key(value: float | None) -> str:
    return f"{value:.6g}" if value is not None else ""
