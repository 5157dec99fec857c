"""The page of one recipe."""

from collections.abc import Iterable, Iterator
from string import ascii_uppercase
from typing import Any

from markupsafe import Markup
from msgspec import Struct
from msgspec.structs import replace

from mashwright.brewing.glass_colour import colour_word
from mashwright.finding import Level
from mashwright.ingredients.bibliography import sources
from mashwright.measures.range import Range
from mashwright.reporting.book.day_page import day_place
from mashwright.reporting.book.frame import render
from mashwright.reporting.book.pictures.enzymes import enzymes
from mashwright.reporting.book.pictures.gas import gas
from mashwright.reporting.book.pictures.glass import glass
from mashwright.reporting.book.pictures.hops import hops
from mashwright.reporting.book.pictures.ions import ions
from mashwright.reporting.book.pictures.mash import mash
from mashwright.reporting.book.pictures.ranges import bar
from mashwright.reporting.book.places import link
from mashwright.reporting.book.reference import links, rule_place
from mashwright.reviewing.account import Account, Beer, BeerRow, GristRow, HopRow, place_of
from mashwright.reviewing.brew_day import GAS, PRESSURE, SCALD, Step
from mashwright.reviewing.results import Result
from mashwright.reviewing.sheet import FigureRow, told

TEXT_LINES = 400
TEXT_CHARACTERS = 24_000
TABLE_ROWS = 60
WORKING_LINES = 40
DRAWN = 24
FINDINGS = 60
PAGE_BYTES = 150_000
"""What one page shows at most, so that none is too heavy for a phone; of more it says how many there are."""

LEFT_OUT = "The working of the figures is left out, since this recipe is very long; mashwright figures shows it."

MARKS = {Level.ERROR: "✕", Level.WARNING: "▲", Level.NOTE: "•"}


class FindingView(Struct, frozen=True):
    """One finding as a page shows it; ``evidence`` are label, value and unit in one text, and a line or 0."""

    number: int
    mark: str
    level: str
    rule: str
    message: str
    line: int
    mends: tuple[str, ...]
    evidence: tuple[tuple[str, int], ...]
    accepted: str


class RowView(Struct, frozen=True):
    """A figure of the beer in the table at the top."""

    word: str
    stated: str
    computed: str
    style: str
    bar: Markup | str
    missing: str


class BeerView(Struct, frozen=True):
    """One beer."""

    name: str
    rows: tuple[RowView, ...]


class HopView(Struct, frozen=True):
    """The hops of one beer."""

    name: str
    picture: Markup | str
    rows: tuple[tuple[str, HopRow, str], ...]
    more: int


class SectionView(Struct, frozen=True):
    """What a section has beside its own content: its findings, and the working of its figures."""

    findings: tuple[FindingView, ...] = ()
    working: tuple[FigureRow, ...] = ()


class RecipePage(Struct, frozen=True):
    """All of the page; a template only lays it out."""

    title: str
    account: Account
    verdict: str
    mark: str
    findings: tuple[FindingView, ...]
    more_findings: int
    glass: Markup | str
    colour: str
    beers: tuple[BeerView, ...]
    grist: tuple[tuple[str, GristRow, str, str, str], ...]
    more_grist: int
    enzymes: Markup | str
    mash: Markup | str
    minutes: tuple[tuple[str, str, str, str, str], ...]
    hops: tuple[HopView, ...]
    ions: Markup | str
    ion_rows: tuple[tuple[str, str, str, str], ...]
    sections: dict[str, SectionView]
    lines: tuple[str, ...]
    more_lines: int
    works: tuple[tuple[str, str], ...]
    cautions: dict[str, str]
    gas: Markup | str
    gas_rows: tuple[tuple[str, str], ...]
    cellar: tuple[Step, ...]
    package: tuple[Step, ...]
    left_out: str = ""


_SECTIONS = {
    "targets": "beer", "style": "beer", "grist": "grist", "steep": "mash", "mash": "mash",
    "cereal-mash": "mash", "sparge": "mash",
    "water": "water", "boil": "boil", "hops": "boil", "additions": "boil", "top-up": "boil", "chill": "boil",
    "yeast": "yeast", "aeration": "yeast", "ferment": "yeast", "souring": "yeast", "package": "package",
}  # fmt: skip
_STAGES = {"grist": "grist", "mash": "mash", "water": "water", "kettle": "boil", "beer": "yeast", "package": "package"}
"""The section in which the figures of a stage are worked out."""


def verdict(account: Account) -> tuple[str, str]:
    """What a review has to say of a recipe in a sentence, with its mark; never that it is sound, let alone safe."""
    if not account.is_recipe:
        return MARKS[Level.ERROR], "It could not be read."
    worst = account.worst
    if worst is None:
        return "○", "Nothing found that would not work."
    return {
        Level.NOTE: (MARKS[worst], "Nothing found that would not work; something worth knowing."),
        Level.WARNING: (MARKS[worst], "It may not come out as written."),
        Level.ERROR: (MARKS[worst], "Not to be brewed as it stands."),
    }[worst]


def recipe_page(account: Account, page: str, title: str, rules: Iterable[str] = ()) -> bytes:
    """The page of a recipe.

    Args:
        account: what there is to tell.
        page: where it will lie in the book.
        title: of the book.
        rules: that have a page in it.
    """
    view = _view(account)
    beside: dict[str, Any] = {"book": title, **links(page)}
    beside["day_link"] = link(page, day_place(page)) if account.day is not None else ""
    beside["rule_links"] = {one: link(page, rule_place(one)) for one in rules}
    made = render("recipe.html", p=view, **beside)
    if len(made) <= PAGE_BYTES:
        return made
    sections = {name: replace(one, working=()) for name, one in view.sections.items()}
    short = replace(view, sections=sections, works=(), left_out=LEFT_OUT)
    return render("recipe.html", p=short, **beside)


def _view(account: Account) -> RecipePage:
    mark, sentence = verdict(account)
    findings = tuple(_finding(number, one) for number, one in enumerate(account.results[:FINDINGS], 1))
    colour = next((row.row for beer in account.beers[:1] for row in beer.rows if row.row.id == "colour"), None)
    srm = _range(colour) if colour is not None else None
    letters = _letters(account.grist)
    lines, more_lines = _lines(account.text)
    drawn = [(letter, row.of_mash, row.adds) for letter, row in letters if row.of_mash is not None]
    power = next((row for _, rows in account.figures for row in rows if row.id == "grist-diastatic-power"), None)
    return RecipePage(
        title=account.name or "A recipe without a name",
        account=account,
        verdict=sentence,
        mark=mark,
        findings=findings,
        more_findings=len(account.results) - len(findings),
        glass=glass(srm, colour.shown) if srm is not None and colour is not None else "",
        colour=f"{colour_word(srm.typical)}: {colour.shown}" if srm is not None and colour is not None else "",
        beers=tuple(_beer(number, beer) for number, beer in enumerate(account.beers)),
        grist=tuple(
            (letter, row, _told(row.power, "°Lintner"), _told(row.adds, "°Lintner"), _told(row.colour, "°Lovibond"))
            for letter, row in letters[:TABLE_ROWS]
        ),
        more_grist=max(0, len(letters) - TABLE_ROWS),
        enzymes=enzymes(drawn[:DRAWN], _range(power) if power else None, account.floors) if drawn else "",
        mash=mash(account.course, account.converted_at) if account.course else "",
        minutes=tuple(_minutes(account)),
        hops=tuple(_hops(number, beer) for number, beer in enumerate(account.beers) if beer.hops),
        ions=ions([(one.name, one.mash, one.kettle, one.least, one.most) for one in account.ions])
        if account.ions
        else "",
        ion_rows=tuple(
            (one.name, _told(one.mash, "mg/l"), _told(one.kettle, "mg/l"), _usual(one.least, one.most))
            for one in account.ions
        ),
        sections=_sections(account, findings),
        lines=lines,
        more_lines=more_lines,
        works=tuple(_works(account)),
        gas=gas(account.gas.value, account.gas.limits, account.gas.unit, account.gas.called) if account.gas else "",
        gas_rows=tuple(_gas_rows(account)),
        cellar=_steps(account, "Cool and pitch", "Cellar"),
        package=_steps(account, "Package"),
        cautions={"mash": SCALD, "yeast": GAS, "package": PRESSURE},
    )


def _gas_rows(account: Account) -> Iterator[tuple[str, str]]:
    held = account.gas
    if held is not None:
        yield "all gas in the beer", told(held.value, held.unit)
        for word, value in held.limits:
            yield f"{held.called}: {word}", f"{value:.3g} {held.unit}"


def _steps(account: Account, *titles: str) -> tuple[Step, ...]:
    """What is done in some parts of the brew day, of each wort."""
    parts = account.day.parts if account.day is not None else ()
    return tuple(step for part in parts if part.title.endswith(titles) for step in part.steps)[:TABLE_ROWS]


def _range(row: FigureRow | None) -> Range | None:
    if row is None or row.low is None or row.typical is None or row.high is None:
        return None
    return Range(row.low, row.typical, row.high)


def _told(value: Range | None, unit: str) -> str:
    return told(value, unit) if value is not None else ""


def _usual(least: float | None, most: float | None) -> str:
    if most is None:
        return ""
    return f"{least:g} to {most:g} mg/l" if least else f"up to {most:g} mg/l"


def _finding(number: int, one: Result) -> FindingView:
    accepted = ""
    if one.accepted is not None:
        until = f", until {one.accepted.until}" if one.accepted.until else ""
        accepted = f"{one.accepted.reason or 'without a reason'}{until}"
    return FindingView(
        number,
        MARKS[one.level],
        one.level.word,
        one.rule,
        one.message,
        one.place.line,
        tuple(remedy.text for remedy in one.remedies),
        tuple((_evidence(row.label, row.value, row.unit), row.line or 0) for row in one.evidence[:TABLE_ROWS]),
        accepted,
    )


def _evidence(label: str, value: float | str, unit: str) -> str:
    shown = value if isinstance(value, str) else f"{value:.4g}"
    return f"{label}: {shown} {unit}".rstrip()


def _letters(grist: tuple[GristRow, ...]) -> list[tuple[str, GristRow]]:
    """A letter for each line, by which picture and table know it: A to Z, AA to AZ and on."""
    found = []
    for number, row in enumerate(grist):
        first, second = divmod(number, 26)
        found.append(((ascii_uppercase[(first - 1) % 26] if first else "") + ascii_uppercase[second], row))
    return found


def _beer(number: int, beer: Beer) -> BeerView:
    rows = [_row(f"b{number}-{at}", row) for at, row in enumerate(beer.rows)]
    return BeerView(beer.name, tuple(row for row in rows if row is not None))


def _row(number: str, one: BeerRow) -> RowView | None:
    value = _range(one.row)
    if value is None:
        return RowView(one.word, one.stated, "", "", "", one.row.missing)
    style = ""
    if one.low is not None:
        upto = f"{_plain(one.low, one.row.unit)} to {_plain(one.high, one.row.unit)}" if one.high is not None else ""
        style = upto or f"{_plain(one.low, one.row.unit)} and more"
    describes = f"computed {one.row.shown}" + (f"; stated {one.stated}" if one.stated else "")
    describes += f"; style {style}" if style else ""
    drawn = bar(number, f"{one.word}: its range", describes, value, one.stated_at, one.low, one.high)
    return RowView(one.word, one.stated, one.row.shown, style, drawn, "")


def _plain(value: float | None, unit: str) -> str:
    if value is None:
        return ""
    return f"{value:.3f}" if unit == "SG" else f"{value:g}"


def _minutes(account: Account) -> Iterator[tuple[str, str, str, str, str]]:
    """Some of the minutes of the mash as a table: the first, the last, and about ten between."""
    course = account.course
    every = max(1, len(course) // 10)
    for index, one in enumerate(course):
        if index % every and index != len(course) - 1:
            continue
        yield (
            f"{one.minute:.0f}",
            f"{one.at_c:.4g} °C",
            f"{one.released:.1f} %",
            f"{one.converted:.1f} %",
            f"{one.enzyme_left:.1f} %",
        )


def _hops(number: int, beer: Beer) -> HopView:
    letters = [chr(ord("a") + at % 26) * (1 + at // 26) for at in range(len(beer.hops))]
    counted = [
        (letter, row.place, row.minutes, row.ibu)
        for letter, row in zip(letters, beer.hops, strict=True)
        if row.ibu is not None and row.place
    ]
    rows = tuple((letter, row, _told(row.ibu, "IBU")) for letter, row in zip(letters, beer.hops, strict=True))
    return HopView(
        beer.name, hops(counted[:DRAWN], number) if counted else "", rows[:TABLE_ROWS], max(0, len(rows) - TABLE_ROWS)
    )


def _sections(account: Account, findings: tuple[FindingView, ...]) -> dict[str, SectionView]:
    found: dict[str, list[FindingView]] = {one: [] for one in ("all", "beer", *_STAGES.values())}
    for view, one in zip(findings, account.results, strict=False):
        section = _SECTIONS.get(place_of(one), "all")
        found["package" if section == "boil" and "before bottling" in view.message else section].append(view)
    working: dict[str, list[FigureRow]] = {one: [] for one in found}
    for stage, rows in account.figures:
        working[_STAGES[stage]] += rows
    return {
        section: SectionView(tuple(some), tuple(_cut(row) for row in working[section]))
        for section, some in found.items()
    }


def _cut(row: FigureRow) -> FigureRow:
    lines = row.working.split("\n")
    if len(lines) <= WORKING_LINES:
        return row
    return replace(row, working="\n".join([*lines[:WORKING_LINES], f"and {len(lines) - WORKING_LINES} lines more"]))


def _lines(text: str) -> tuple[tuple[str, ...], int]:
    lines = text.replace("\r\n", "\n").removesuffix("\n").split("\n")
    kept: list[str] = []
    size = 0
    for line in lines[:TEXT_LINES]:
        size += len(line) + 1
        if size > TEXT_CHARACTERS:
            break
        kept.append(line)
    return tuple(kept), len(lines) - len(kept)


def _works(account: Account) -> Iterator[tuple[str, str]]:
    wanted = {key for _, rows in account.figures for row in rows for key in row.sources}
    for one in sources():
        if one.key in wanted:
            yield one.key, one.citation
