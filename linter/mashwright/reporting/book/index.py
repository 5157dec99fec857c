"""The first page of a book: all recipes in a table that needs no script."""

from collections.abc import Iterable, Iterator, Mapping
from unicodedata import normalize

from markupsafe import Markup
from msgspec import Struct
from msgspec.structs import replace

from mashwright.brew.board import number
from mashwright.brewing.glass_colour import colour_word
from mashwright.finding import Level
from mashwright.reporting.book.frame import render
from mashwright.reporting.book.pictures.collection import density, scatter
from mashwright.reporting.book.pictures.glass import swatch
from mashwright.reporting.book.places import link, of_its_own, page_of
from mashwright.reporting.book.recipe_page import MARKS, PAGE_BYTES
from mashwright.reporting.book.reference import links
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
        _short(account.name or account.path.rsplit("/", 1)[-1]),
        _short(account.style),
        _short(account.house),
        worst,
        (open_.count(Level.ERROR), open_.count(Level.WARNING), open_.count(Level.NOTE)),
        typical.get("og"),
        typical.get("abv"),
        typical.get("bitterness"),
        typical.get("colour"),
    )


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}..."


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
    """The whole page; ``states`` are what the filter offers, each with its word.

    Attributes:
        shelves: link, name, recipes, and of them with an error and with a warning; where rows stand on shelves.
        pictures: each with its caption.
    """

    title: str
    told: str
    rows: tuple[RowView, ...] = ()
    states: tuple[tuple[str, str], ...] = ()
    houses: bool = False
    folders: bool = False
    shelves: tuple[tuple[str, str, int, int, int], ...] = ()
    pictures: tuple[tuple[Markup, str], ...] = ()


_LONGEST = 60
"""Characters of a name in the index; the page has it whole."""
ON_ONE_PAGE = 120
ON_A_SHELF = 80
"""Recipes; each takes about a kilobyte of a page."""
DOTS = "Each dot is a beer in its own colour; a cross marks one with an error. The table below has them all."
SQUARES = "The larger a square, the more beers stand there. The shelves have them all."
_WARNING, _ERROR = 2, 3
_STATES = ("nothing found", "a note", "a warning", "an error", "not read")


def by_name(rows: Iterable[IndexRow]) -> list[IndexRow]:
    """The recipes by name, whatever the order of their files."""
    return sorted(rows, key=lambda row: (normalize("NFKD", row.name).casefold(), row.path))


def index_pages(rows: Iterable[IndexRow], title: str) -> Iterator[tuple[str, bytes]]:
    """The first page, and where there are many recipes the shelves that they stand on; each with its place.

    Args:
        rows: of all recipes.
        title: of the book.
    """
    sorted_ = by_name(rows)
    if len(sorted_) <= ON_ONE_PAGE:
        yield "index.html", _table(sorted_, title, "index.html")
        return
    shelves = []
    for page, name, some in _shelves(sorted_):
        wrong = sum(row.worst >= _ERROR for row in some)
        shelves.append((link("index.html", page), name, len(some), wrong, sum(row.worst == _WARNING for row in some)))
        yield page, _table(some, f"{title}: {name}", page)
    view = IndexPage(title, _counts(sorted_), shelves=tuple(shelves), pictures=_pictures(sorted_))
    yield "index.html", render("index.html", script=True, p=view, **links("index.html"))


def index_places(folders: Mapping[str, str]) -> list[str]:
    """Where the pages will lie that ``index_pages`` gives.

    Args:
        folders: path and name of each recipe.
    """
    rows = [IndexRow(path, "", name, "", "", 0, (0, 0, 0)) for path, name in folders.items()]
    if len(rows) <= ON_ONE_PAGE:
        return ["index.html"]
    return ["index.html", *(page for page, _, _ in _shelves(by_name(rows)))]


def _shelves(rows: list[IndexRow]) -> Iterator[tuple[str, str, list[IndexRow]]]:
    """The recipes by folder, of large folders in parts; place, name and recipes of each shelf."""
    by_folder: dict[str, list[IndexRow]] = {}
    for row in rows:
        by_folder.setdefault(_folder(row.path), []).append(row)
    taken: set[str] = set()
    for folder, some in sorted(by_folder.items()):
        parts = [some[first : first + ON_A_SHELF] for first in range(0, len(some), ON_A_SHELF)]
        for at, part in enumerate(parts, 1):
            name = folder or "this folder"
            shown = f"{name}, {at} of {len(parts)}" if len(parts) > 1 else name
            place = page_of(f"{folder or 'all'}{f', {at}' if len(parts) > 1 else ''}").removeprefix("recipes/")
            yield of_its_own(f"shelves/{place}", taken), shown, part


def _table(rows: list[IndexRow], title: str, page: str) -> bytes:
    states = {row.worst for row in rows}
    folders = {_folder(row.path) for row in rows}
    common = "/".join(_common([folder.split("/") for folder in sorted(folders)]))
    view = IndexPage(
        title,
        _counts(rows),
        tuple(_view(row, page, common) for row in rows),
        tuple((str(at), word) for at, word in enumerate(_STATES) if at in states),
        len({row.house for row in rows if row.house}) > 1,
        len(folders) > 1,
        pictures=_pictures(rows),
    )
    made = render("index.html", script=True, p=view, **links(page))
    if len(made) <= PAGE_BYTES:
        return made
    return render("index.html", script=True, p=replace(view, pictures=()), **links(page))


def _counts(rows: list[IndexRow]) -> str:
    states = [row.worst for row in rows]
    some = [(states.count(at), word) for at, word in enumerate(_STATES) if at in states]
    said = ", ".join(
        f"{how_many} {word}" if word == "not read" else f"{how_many} with {word}" for how_many, word in some
    )
    houses = sorted({row.house for row in rows if row.house})
    on = f", on {houses[0]}" if len(houses) == 1 else ""
    return f"{counted(len(rows), 'recipe')}{on}: {said}."


def _pictures(rows: list[IndexRow]) -> tuple[tuple[Markup, str], ...]:
    """Bitterness against gravity, and colour against alcohol: dots, or squares where they would crowd."""
    draw, caption = (scatter, DOTS) if len(rows) <= ON_ONE_PAGE else (density, SQUARES)
    bitter = [(one.og, one.ibu, one.srm, one.worst >= _ERROR) for one in rows if one.og and one.ibu is not None]
    strong = [(one.abv, one.srm, one.srm, one.worst >= _ERROR) for one in rows if one.abv and one.srm is not None]
    found = []
    if len(bitter) > 1:
        found.append((draw("bitter", "Bitterness and gravity", "OG", "bitterness, IBU", bitter), caption))
    if len(strong) > 1:
        found.append((draw("strong", "Colour and strength", "alcohol, % vol", "colour, SRM", strong), caption))
    return tuple(found)


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
        _short(_folder(row.path)[len(common) :].lstrip("/")),
    )


def _key(value: float | None) -> str:
    return f"{value:.6g}" if value is not None else ""
