"""Every spelling that the table was gathered with finds its own entry, whole."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from mashwright.edited_tables import resaved
from mashwright.ingredients import lookup, tables
from mashwright.ingredients.lookup import fermentable, hop, style, yeast

LOOK_UP = {"fermentables": fermentable, "hops": hop, "yeasts": yeast, "styles": style}
TEXT = Path(__file__).with_name("spellings.csv").read_text("utf-8")
SPELLINGS = [line.split(";") for line in TEXT.splitlines()[1:]]


def test_no_spreadsheet_has_saved_the_spellings() -> None:
    assert resaved(TEXT, parting=";") == ""


def found(table: str, spelling: str) -> str | None:
    entry = LOOK_UP[table](spelling)
    return None if entry is None else entry.name


@pytest.mark.parametrize("table", LOOK_UP)
def test_each_spelling_finds_its_entry(table: str) -> None:
    expected = {spelling: name for of, spelling, name in SPELLINGS if of == table}
    assert len(expected) > 60
    assert {spelling: found(table, spelling) for spelling in expected} == expected


@pytest.mark.parametrize("table", LOOK_UP)
def test_each_spelling_is_found_however_it_is_written(table: str) -> None:
    """Capitals, reversed words, a hyphen for each blank, blanks around; "/-" is a price and no word."""
    for of, spelling, name in SPELLINGS:
        if of != table or "/-" in spelling:
            continue
        parted = spelling.replace("(", " ").replace(")", " ").replace(",", " ").split()
        for written in (spelling.upper(), " ".join(reversed(parted)), "-".join(parted), f"  {spelling}\t"):
            assert found(table, written) == name, (spelling, written)


@pytest.fixture
def forgotten() -> Iterator[None]:
    forget()
    yield
    forget()


def forget() -> None:
    of_tables = (lookup._found, lookup._written, lookup._exact, lookup._malt_left_out, lookup._shortened)
    for remembered in (*of_tables, lookup.fermentable, lookup.hop, lookup.yeast, lookup.style):
        remembered.cache_clear()


@pytest.mark.usefixtures("forgotten")
@pytest.mark.parametrize("table", LOOK_UP)
def test_each_alias_is_necessary(table: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without it, the spelling would find nothing, or something else."""
    every = tables.aliases(table)
    spelled = {name: [spelling for _, spelling, of in SPELLINGS if of == name] for _, name in every}
    needless = []
    for alias, name in every:
        left = [pair for pair in every if pair != (alias, name)]
        monkeypatch.setattr(tables, "aliases", lambda _, left=left: left)
        forget()
        if all(found(table, spelling) == name for spelling in (alias, *spelled[name])):
            needless.append(alias)
    assert needless == []


def test_each_alias_stands_once_and_for_an_entry() -> None:
    rows = [line.split(",") for line in tables.lines("aliases")]
    assert {len(row) for row in rows} == {3}
    said = [(table, lookup.normalised(alias)) for table, alias, _ in rows]
    assert len(said) == len(set(said))
    assert [row for row in rows if row[2] not in tables.blocks(row[0])] == []
    own = {(table, lookup.normalised(name)) for table in LOOK_UP for name in tables.blocks(table)}
    assert [one for one in said if one in own] == []
