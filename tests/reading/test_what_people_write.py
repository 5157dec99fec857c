"""What people write, a row each (what_people_write.tsv): read as what is meant, asked with a way out, or refused.

A way out is followed to the letter: the text behind "write" or "did you mean" goes where the message points, and is
then read without an error.
"""

import csv
import re
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from msgspec import Struct

from mashwright.finding import Level
from mashwright.measures.quantity import Quantity
from mashwright.reading import gathering, where_it_goes
from mashwright.reading.document import read_document
from mashwright.reading.schema import check_fields
from mashwright.reviewing.read import Misread, read


class Row(NamedTuple):
    where: str
    typed: str
    meant: str
    says: str


def _rows() -> list[Row]:
    with (Path(__file__).parent / "what_people_write.tsv").open(encoding="utf-8") as table:
        lines = csv.reader(table, delimiter="\t", quoting=csv.QUOTE_NONE)
        next(lines)
        return [Row(*(cell.replace("\\n", "\n") for cell in line)) for line in lines]


ROWS = _rows()

NAME, BATCH = "recipe: Ferry Bitter\n", "batch: 20 l\n"
GRIST = "grist:\n  - {grain: pale ale malt, weight: 4 kg}\n"
PLACES = {
    "grist": "grist:\n  - {}\n",
    "hops": GRIST + "hops:\n  - {}\n",
    "additions": GRIST + "additions:\n  - {}\n",
    "rests": GRIST + "mash:\n  rests:\n    - {}\n",
    "ferment": GRIST + "ferment:\n  - {}\n",
    "packages": GRIST + "package:\n  - {}\n",
    "grain weight": "grist:\n  - grain: pale ale malt\n    weight: {}\n",
    "grain share": "grist:\n  - grain: pale ale malt\n    share: {}\n",
    "grain colour": "grist:\n  - grain: pale ale malt\n    weight: 4 kg\n    colour: {}\n",
    "grain kind": "grist:\n  - grain: dusk malt\n    weight: 4 kg\n    kind: {}\n",
    "sugar weight": "grist:\n  - {{grain: pale ale malt, weight: 4 kg}}\n  - sugar: molasses\n    weight: {}\n",
    "sugar add": "grist:\n  - {{grain: rye, weight: 4 kg}}\n  - sugar: honey\n    weight: 1 kg\n    add: {}\n",
    "hop weight": GRIST + "hops:\n  - hop: Saaz\n    weight: {}\n    boil: 60 min\n",
    "hop alpha": GRIST + "hops:\n  - hop: Saaz\n    weight: 30 g\n    alpha: {}\n    boil: 60 min\n",
    "hop boil": GRIST + "hops:\n  - hop: Saaz\n    weight: 30 g\n    boil: {}\n",
    "hop dry": GRIST + "hops:\n  - hop: Saaz\n    weight: 30 g\n    dry: {}\n",
    "hop whirlpool": GRIST + "hops:\n  - hop: Saaz\n    weight: 30 g\n    whirlpool: {}\n",
    "hop first-wort": GRIST + "boil: 75 min\nhops:\n  - hop: Saaz\n    weight: 30 g\n    first-wort: {}\n",
    "hop form": GRIST + "hops:\n  - hop: Saaz\n    weight: 30 g\n    boil: 60 min\n    form: {}\n",
    "hop when": GRIST + "hops:\n  - hop: Saaz\n    weight: 30 g\n    when: {}\n",
    "a field of a hop": GRIST + "hops:\n  - hop: Saaz\n    weight: 30 g\n    {}\n",
    "a field of an addition": GRIST + "additions:\n  - what: coriander seed\n    weight: 15 g\n    {}\n",
    "a field of a rest": GRIST + "mash:\n  rests:\n    - at: 66 °C\n      {}\n",
    "a field of the mash": GRIST + "mash:\n  rests:\n    - {{at: 66 °C, for: 60 min}}\n  {}\n",
    "a field of the ferment": GRIST + "ferment:\n  - at: 19 °C\n    {}\n",
    "a field of the package": GRIST + "package:\n  {}\n",
    "a field of the yeast": GRIST + "yeast:\n  kind: English ale\n  {}\n",
    "a field of the targets": GRIST + "targets:\n  {}\n",
    "rest at": GRIST + "mash:\n  rests:\n    - at: {}\n      for: 60 min\n",
    "rest at, in °F": GRIST + "mash:\n  strike: 165 °F\n  rests:\n    - at: {}\n      for: 60 min\n",
    "rest for": GRIST + "mash:\n  rests:\n    - at: 66 °C\n      for: {}\n",
    "rest by": GRIST + "mash:\n  rests:\n    - at: 52 °C\n      for: 10 min\n    - at: 66 °C\n      by: {}\n",
    "mash water": GRIST + "mash:\n  water: {}\n  rests:\n    - at: 66 °C\n      for: 60 min\n",
    "sparge by": GRIST + "sparge:\n  by: {}\n  water: 10 l\n",
    "boil for": GRIST + "boil:\n  for: {}\n",
    "yeast pitch": GRIST + "yeast:\n  kind: English ale\n  pitch: {}\n",
    "ferment for": GRIST + "ferment:\n  - at: 19 °C\n    for: {}\n",
    "carbonation": GRIST + "package:\n  in: bottles\n  carbonation: {}\n",
    "gypsum": GRIST + "mash:\n  salts:\n    gypsum: {}\n",
    "og": GRIST + "targets:\n  og: {}\n",
    "abv": GRIST + "targets:\n  abv: {}\n",
    "batch": GRIST + "batch: {}\n",
    "batch, imperial": GRIST + "mash:\n  water: 20 imp pt\nbatch: {}\n",
}
"""Where a row's text stands; ``top`` is a recipe that has a name, a batch and a grist already, unless the row has."""


def text_of(where: str, typed: str) -> str:
    if where == "top":
        has = {line.split(":")[0].strip().casefold() for line in typed.splitlines()}
        head = "" if has & {"name", "recipe", "title", "beer"} else NAME
        head += "" if has & {"batch", "batch size", "batch_size", "worts"} else BATCH
        return f"{head}{'' if has & _GRISTS else GRIST}{typed}\n"
    inside = PLACES[where].replace("{{", "\x00").replace("}}", "\x01")
    inside = inside.replace("{}", typed).replace("\x00", "{").replace("\x01", "}")
    return f"{NAME}{'' if 'batch: ' in inside else BATCH}{inside}"


_GRISTS = frozenset(("grist", "grain", "malts", "malt", "grains", "fermentables", "grain bill"))


def problems(text: str) -> list[Misread]:
    return [one for one in read(text, "a.yaml").misread if one.rule in ("field", "quantity", "unreadable")]


def errors(text: str) -> list[str]:
    return [one.message for one in problems(text) if one.level is Level.ERROR]


_LEFT_OUT = frozenset(("path", "text", "unit", "reading", "note", "readings", "units"))


def facts(value: Any) -> Any:
    """What a recipe states, whatever its words: quantities by their values, the rest as it is."""
    if isinstance(value, Quantity):
        ends = (value.range.low, value.range.typical, value.range.high)
        return (value.kind.value, *(round(end, 6) for end in ends))
    if isinstance(value, Struct):
        return {
            name: facts(getattr(value, name))
            for name in value.__struct_fields__
            if name not in _LEFT_OUT or not isinstance(getattr(value, name), str | tuple) or _is_a_text(value, name)
        }
    if isinstance(value, tuple | list):
        return [facts(one) for one in value]
    return value if isinstance(value, str | int | float | bool | type(None)) else repr(value)


def _is_a_text(value: Struct, name: str) -> bool:
    return name == "text" and type(value).__name__ == "Text"


def stated(text: str) -> Any:
    found = read(text, "a.yaml").recipe
    assert found is not None
    return facts(found)


def ways_out(message: str) -> list[str]:
    """The texts that a message offers, the units alone where it asks for one of them."""
    said = re.split(r"\b(?:write (?:for instance )?|did you mean |is about (?=\d))", message)[1:]
    units = re.fullmatch(r"it in (.*)", said[-1]) if said else None
    if units is not None and "`" not in units[1]:
        return [f"unit {one}" for one in re.split(r", | or ", units[1])]
    return [one for part in said[-1:] for one in re.split(r",? or (?=[\d`A-Za-z])", part.rstrip("?"))]


def followed(row: Row, message: str, way: str) -> str:
    """The text of the document in which a way out has been taken."""
    listed = re.match(r"it (?:in a line|as a step) of `([a-z]+)`: - (.*)", way)
    if listed is not None:
        return text_of(listed[1], listed[2])
    key, _, value = row.typed.partition(":")
    wrong, quoted = re.match(r"`([^`]+)`", message), re.search(r'"([^"]+)"', message)
    if way.startswith("unit "):
        assert quoted is not None
        return text_of(row.where, row.typed.replace(quoted[1], f"{quoted[1].split()[0]} {way[5:]}"))
    if wrong is not None and way.startswith("`"):  # another name of the field
        return text_of(row.where, row.typed.replace(wrong[1], way.strip("`"), 1))
    if way.startswith("- "):
        return text_of(row.where, way.removeprefix("- "))
    if re.match(r"[a-z-]+: ", way):
        return text_of(row.where, way)
    if quoted is not None and quoted[1] in row.typed:
        return text_of(row.where, row.typed.replace(quoted[1], way, 1))
    return text_of(row.where, f"{key}: {way}" if value else way)


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row.meant == "read"], ids=lambda row: f"{row.where}-{row.typed}"
)
def test_it_is_read_as_what_is_meant(row: Row) -> None:
    typed, plain = text_of(row.where, row.typed), text_of(row.where, row.says)
    assert errors(typed) == errors(plain) == []
    assert stated(typed) == stated(plain)


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row.meant == "asked"], ids=lambda row: f"{row.where}-{row.typed}"
)
def test_it_is_asked_about_and_the_way_out_is_one(row: Row) -> None:
    message = problems(text_of(row.where, row.typed))[0].message
    assert row.says in message
    house = re.search(r"brewhouse\.yaml: (.*)", message)
    if house is not None:
        document = read_document(f"brewhouse: A\n{house[1]}\n", "brewhouse")
        assert check_fields(document, "brewhouse") == []
        return
    ways = ways_out(message)
    assert ways
    for way in ways:
        text = followed(row, message, way)
        assert errors(text) == [], text


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row.meant == "refused"], ids=lambda row: f"{row.where}-{row.typed}"
)
def test_it_is_refused(row: Row) -> None:
    assert row.says in " ".join(one.message for one in problems(text_of(row.where, row.typed)))


def test_there_are_enough_rows_and_each_once() -> None:
    assert len(ROWS) >= 300
    assert len({(row.where, row.typed) for row in ROWS}) == len(ROWS)
    assert {row.meant for row in ROWS} == {"read", "asked", "refused"}


def test_whatever_is_known_to_belong_elsewhere_has_a_row() -> None:
    names = {
        re.sub(r"[ _]", "-", line.split(":")[0].strip().casefold())
        for row in ROWS
        if row.where == "top"
        for line in row.typed.splitlines()
    }
    assert where_it_goes.AT_THE_TOP - names == set()
    assert gathering.NAMES - names == set()
    inside = {(row.where, row.typed.split(":")[0].replace(" ", "-")) for row in ROWS}
    assert {(_OF[owner], key) for owner, key in where_it_goes.IN_A_LINE} - inside == set()


_OF = {
    "hops": "a field of a hop",
    "additions": "a field of an addition",
    "package": "a field of the package",
    "rests": "a field of a rest",
    "ferment": "a field of the ferment",
    "yeast": "a field of the yeast",
    "targets": "a field of the targets",
}
