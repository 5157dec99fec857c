"""The tables agree with themselves."""

from pathlib import Path

import pytest

from mashwright.edited_tables import resaved
from mashwright.ingredients import bibliography, fermentables, hops, styles, tables, yeasts
from mashwright.ingredients.lookup import normalised
from mashwright.measures.range import Range
from mashwright.words import vocabulary

TABLES = ("fermentables", "hops", "yeasts", "styles", "carbonation")
UNITS = {
    "extract": "% of dry matter",
    "moisture": "%",
    "diastatic-power": "°Lintner",
    "colour": "°Lovibond",
    "gelatinises": "°C",
    "fermentable": "% of dissolved solids",
    "max-share": "%",
    "protein": "%",
    "alpha": "%",
    "beta": "%",
    "storage-loss": "%",
    "attenuation": "%",
    "tolerance": "% ABV",
    "temperature": "°C",
    "co2": "volumes",
    "og": "SG",
    "fg": "SG",
    "abv": "% ABV",
    "ibu": "IBU",
    "srm": "SRM",
}
FERMENTABLE_TEXTS = {
    "kind": {
        "base malt",
        "kilned malt",
        "caramel malt",
        "roasted malt",
        "acidulated malt",
        "malted adjunct grain",
        "raw grain",
        "grits",
        "flaked grain",
        "torrefied grain",
        "sugar",
        "syrup",
        "dry extract",
        "liquid extract",
        "fruit or other",
        "hulls",
    },
    "malted": {"yes", "no"},
    "pregelatinised": {"yes", "no"},
    "husk": {"yes", "no"},
    "needs-mash": {"yes", "no", "steep"},
}


@pytest.mark.parametrize(
    ("table", "entries", "lines"),
    [
        ("fermentables", 200, 2531),
        ("hops", 288, 1131),
        ("yeasts", 23, 184),
        ("styles", 134, 1106),
        ("carbonation", 54, 215),
    ],
)
def test_nothing_was_lost(table: str, entries: int, lines: int) -> None:
    assert (len(tables.blocks(table)), len(tables.lines(table))) == (entries, lines)


@pytest.mark.parametrize(
    ("table", "lines"),
    [("allergens", 16), ("cautions", 77), ("doses", 25), ("enzymes", 14), ("sulfite", 7), ("vessels", 18)],
)
def test_no_row_was_lost_of_what_keeps_people_whole(table: str, lines: int) -> None:
    assert len(tables.lines(table)) == lines


@pytest.mark.parametrize("table", TABLES)
def test_each_row_is_whole(table: str) -> None:
    for line in tables.lines(table):
        assert len(line.split(",")) == 7, line
        assert '"' not in line, line
    assert sum(map(len, tables.blocks(table).values())) == len(tables.lines(table)), "rows of one name stand together"


@pytest.mark.parametrize("table", TABLES)
def test_each_value_is_in_order_and_has_its_unit_and_sources(table: str) -> None:
    for name in tables.blocks(table):
        for row in tables.rows(table, name):
            figure = row.what.partition(" in ")[0]
            assert row.unit == UNITS.get(figure, ""), (name, row)
            if row.unit:
                numbers = [float(number) for number in (row.low, row.typical, row.high) if number]
                assert numbers, (name, row)
                assert numbers == sorted(numbers), (name, row)
                assert min(numbers) >= 0, (name, row)
                assert not row.unit.startswith("%") or max(numbers) <= 100, (name, row)
            else:
                assert (row.low, bool(row.typical), row.high) == ("", True, ""), (name, row)
            assert row.keys, (name, row)
            for key in row.keys:
                assert bibliography.source(key).key == key


@pytest.mark.parametrize("table", ["fermentables", "hops", "yeasts", "styles"])
def test_no_two_names_are_one(table: str) -> None:
    names = list(tables.blocks(table))
    assert len({normalised(name) for name in names}) == len(names)


def test_fermentables_keep_to_their_words() -> None:
    for name in tables.blocks("fermentables"):
        row = tables.only(name, tables.rows("fermentables", name))
        assert not set(row) - {*UNITS, *FERMENTABLE_TEXTS, "cereal"}, name
        for text, allowed in FERMENTABLE_TEXTS.items():
            assert row[text].typical in allowed, (name, text)
    assert set(fermentables.kinds()) == FERMENTABLE_TEXTS["kind"]


def test_fermentables_make_sense() -> None:
    for one in fermentables.everything():
        assert one.extract_dry is not None, one.name
        assert one.moisture is not None, one.name
        assert one.power_lintner is not None, one.name
        assert one.colour_lovibond is not None, one.name
        if one.kind in {
            "caramel malt",
            "roasted malt",
            "raw grain",
            "grits",
            "flaked grain",
            "sugar",
        }:
            assert one.power_lintner == Range.exact(0), one.name
        if one.kind in {"raw grain", "grits"}:
            assert not one.malted, one.name
            assert not one.pregelatinised, one.name
            assert one.gelatinises_c is not None, one.name
        if one.kind in {"sugar", "syrup", "dry extract", "liquid extract"}:
            assert one.fermentable is not None, one.name
            assert one.needs_mash == "no", one.name
        if one.kind == "base malt":
            assert one.power_lintner.low > 0, one.name
            assert one.needs_mash == "yes", one.name


def test_hops_and_yeasts_load_whole() -> None:
    assert {hops.entry(name).origin for name in tables.blocks("hops")} == {
        "United States", "Germany", "United Kingdom", "Czechia", "Poland", "Slovenia", "France", "Australia", "Serbia",
        "Belgium", "Russia", "New Zealand", "South Africa", "Japan", "China", "Canada",
    }  # fmt: skip
    assert {hops.entry(name).status for name in tables.blocks("hops")} == {
        "landrace or old farm selection", "public breeding programme", "long-established and freely grown",
        "privately owned name",
    }  # fmt: skip
    for name in tables.blocks("yeasts"):
        kind = yeasts.entry(name)
        assert kind.splits in {"yes", "slowly", "no", "some"}, name
        assert kind.flocculation in {"low", "low to medium", "medium", "medium to high", "high", "variable"}, name


def test_styles_and_carbonation_load_whole() -> None:
    for name in tables.blocks("styles"):
        one = styles.entry(name)
        assert one.fg.low < one.og.low, name
        assert {"judge", "trade", "Japanese"} & set(one.edition.split()), name
    told = [name for kind in styles.carbonations() for name in kind.styles]
    assert len(told) == len(set(told)), "a style stands in one kind at most"
    assert set(told) <= set(tables.blocks("styles"))


def test_a_value_with_only_its_ends_has_its_middle() -> None:
    assert fermentables.entry("two-row pale malt").gelatinises_c == Range(61, 63, 65)


def test_memory_alone_is_told_from_memory_beside_a_source() -> None:
    rye = fermentables.entry("rye malt")
    assert dict(rye.sources)["diastatic-power"] == ("brewing-dp-page", "trade-dp-list", "from-memory")
    assert not rye.from_memory("diastatic-power")
    wheat = fermentables.entry("torrefied wheat")
    assert wheat.from_memory("extract")
    assert not wheat.from_memory("no such property")


PLAIN = "name,low,high\npale malt,2,4\nblack malt,400,600\n"


def test_a_table_as_it_is_edited() -> None:
    assert resaved(PLAIN) == ""
    assert resaved(PLAIN.replace("\n", "\r\n")) == ""  # read alike
    assert resaved(PLAIN.replace("pale malt", "malt, pale"), free=True) == ""
    assert resaved(PLAIN.replace("pale malt", '"malt, pale"'), free=True, quoted=True) == ""


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("\ufeff" + PLAIN, "begins with a byte order mark"),
        (PLAIN.replace(",", ";"), "has no columns parted by ',' in its first line"),
        (PLAIN.replace(",", "\t"), "has no columns parted by ',' in its first line"),
        (PLAIN.replace("\n", ",,\n"), "has columns without a name in its first line"),
        (PLAIN.replace("pale malt", '"pale malt"'), "has quotes in line 2"),
        (PLAIN.replace("2,4", "2,4,"), "has not 3 columns in line 2"),
        (PLAIN.replace("400,600", '"400,5",600'), "has quotes in line 3"),
        (PLAIN + "\n", "has not 3 columns in line 4"),
        ("", "has no columns parted by ',' in its first line"),
    ],
)
def test_what_a_spreadsheet_makes_of_it(text: str, told: str) -> None:
    assert resaved(text) == told


@pytest.mark.parametrize("free", [False, True])
def test_a_citation_that_was_quoted_once_more(free: bool) -> None:
    text = 'key,citation,where\nbook,"""a book""",\n'
    assert resaved(text, free=free, quoted=True) == "has quotes in line 2"


def test_a_table_that_was_saved_anew_is_refused(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    plain = Path(tables.__file__).with_name("doses.csv").read_text("utf-8")
    (tmp_path / "doses.csv").write_text(plain.replace(",", ";"), encoding="utf-8")
    monkeypatch.setattr(tables, "_FOLDER", str(tmp_path))
    with pytest.raises(ValueError, match=r"^doses\.csv has no columns parted by .* edit it as plain text$"):
        tables.lines.__wrapped__("doses")


def test_no_table_has_line_ends_of_windows() -> None:
    """They would be read alike, but each line of the file would have changed."""
    files = sorted(Path(tables.__file__).parent.glob("*.csv"))
    assert len(files) > 10
    assert b"\r" not in Path(vocabulary.__file__).with_name("vocabulary.csv").read_bytes()
    assert [file.name for file in files if b"\r" in file.read_bytes()] == []
    for file in files:
        tables.lines(file.stem)
