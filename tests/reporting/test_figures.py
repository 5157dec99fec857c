import json
from pathlib import Path

import jsonschema
import pytest
from msgspec.structs import replace

import mashwright_schema
from mashwright.brew.brew import Brew
from mashwright.figures import ALL
from mashwright.finding import Level
from mashwright.ingredients.bibliography import sources
from mashwright.measures.range import Range
from mashwright.reading.document import Place
from mashwright.reporting.figures import figures_document, figures_text
from mashwright.reporting.machine import dump
from mashwright.reviewing.results import Result
from mashwright.reviewing.sheet import FigureRow, Sheet, sheet_of

HARBOUR = """\
recipe: Harbour Wheat
batch: 20 l
efficiency: 70 %
grist:
  - grain: two-row pale malt
    weight: 2.9 kg
  - grain: raw wheat
    weight: 1.35 kg
mash:
  rests:
    - {at: 66 °C, for: 60 min}
"""


def sheet(text: str, path: str = "house/harbour.yaml") -> Sheet:
    return sheet_of(Brew.of(text), path)


def row(of: Sheet, figure_id: str) -> FigureRow:
    return next(one for one in of.rows if one.id == figure_id)


BOARD = """\
Harbour Wheat, house/harbour.yaml

line 12, column 3: note: 2 tsp is read as a wide range; a weight would be surer

Readings that were chosen
    line 7: "1 bushel" is read as British bushels of malt, 42 lb each (brown
        malt by measure was lighter, some 31 lb): 19.05 kg

In short
    OG             1.050 SG (1.048 to 1.051), 12.3 °P (12 to 12.7)

Total weight of grist and sugars
    grist-weight = 4.75 kg
    2.9 kg + 1.35 kg + 300 g + 200 g = 4.75 kg
    from lines 6, 8, 10 and 12

Original gravity: what this grist gives on this brewhouse
    og = 1.050 SG (1.048 to 1.051), 12.3 °P (12 to 12.7)
    together 2.59 kg in 20 l (20 l into the fermenter), which is the batch as
        the recipe states it
      = 12.3 °P = 1.050
    assumed: an efficiency of 72 % (60 % to 81 %), since none is stated
    from line 6
    sources: nbs-c440, palmer-2001, jcgm-100-2008, common-practice

Temperature of each rest
    step-temperature = 66 °C
        rest 2: 72 °C (71 to 73)
    sources: those of og, a-key-that-no-table-has

Not worked out; missing: the mash water (`water` at line 15)
    wort-limit: Strongest wort before the boil that this grain can give with
        this mash water
    liquor-to-grist: Water to grain

Sources
    a-key-that-no-table-has
    common-practice: rule of thumb of the trade, no single authority
    jcgm-100-2008: JCGM 100:2008, Evaluation of measurement data: guide to the
        expression of uncertainty in measurement (GUM)
    nbs-c440: NBS Circular C440 (1942), Brix and density of sucrose solutions,
        as tabulated by C. S. Chen, Brix and Pounds Solids Tables, 4th printing
        1992; cubic fit of brix-tables
    palmer-2001: J. J. Palmer, How to Brew, 1st ed. (2001), section 2, chapter
        12, Table 9, typical malt yields; taken as fine grind of dry matter, the
        table does not say

What no file can show: sanitation, the crush, how true the thermometer and the
hydrometer are, oxygen, the freshness of malt, hops and yeast, and the health of
the yeast.
All figures are estimates: on the day, go by what you measure.
"""


@pytest.fixture
def by_hand() -> Sheet:
    missing = "the mash water (`water` at line 15)"
    return Sheet(
        "house/harbour.yaml",
        "Harbour Wheat",
        (
            FigureRow(
                "grist-weight", "Total weight of grist and sugars", "kg", 4.75, 4.75, 4.75, "4.75 kg",
                working="2.9 kg + 1.35 kg + 300 g + 200 g = 4.75 kg",
                pointers=("/grist/0", "/grist/1", "/grist/2", "/grist/3"), lines=(6, 8, 10, 12),
            ),
            FigureRow(
                "og", "Original gravity: what this grist gives on this brewhouse", "SG", 1.0482986, 1.0498251, 1.051374,
                "1.050 SG (1.048 to 1.051), 12.3 °P (12 to 12.7)",
                parts=(("in °P", Range(11.98, 12.35, 12.71)),),
                working="together 2.59 kg in 20 l (20 l into the fermenter), which is the batch as the recipe states it"
                "\n  = 12.3 °P = 1.050",
                assumed=("an efficiency of 72 % (60 % to 81 %), since none is stated",),
                sources=("nbs-c440", "palmer-2001", "jcgm-100-2008", "common-practice"),
                pointers=("/grist/0",), lines=(6,),
            ),
            FigureRow(
                "step-temperature", "Temperature of each rest", "°C", 66, 66, 66, "66 °C",
                parts=(("rest 2", Range(71, 72, 73)),),
                sources=("nbs-c440", "palmer-2001", "jcgm-100-2008", "common-practice", "a-key-that-no-table-has"),
            ),
            FigureRow("wort-limit", "Strongest wort before the boil that this grain can give with this mash water",
                      "°P", missing=missing),
            FigureRow("liquor-to-grist", "Water to grain", "l/kg", missing=missing),
        ),
        readings=((7, '"1 bushel" is read as British bushels of malt, 42 lb each (brown malt by measure was lighter, some 31 lb): 19.05 kg'),),  # noqa: E501
        problems=(
            Result("quantity", Level.NOTE, "/salts", Place(12, 3, 12, 9),
                   "2 tsp is read as a wide range; a weight would be surer"),
        ),
    )  # fmt: skip


def test_the_board(by_hand: Sheet) -> None:
    assert "".join(f"{line}\n" for line in figures_text(by_hand)) == BOARD


def test_the_board_is_harmless(by_hand: Sheet) -> None:
    named = replace(by_hand, name="\x1b[2JHarbour", path="a\nb.yaml")
    assert next(iter(figures_text(named))) == "\\x1b[2JHarbour, a\\nb.yaml"


def test_a_real_sheet_keeps_within_the_page_and_shows_every_figure() -> None:
    lines = list(figures_text(sheet(HARBOUR)))
    assert max(map(len, lines)) <= 80
    shown = "\n".join(lines)
    assert [
        figure.id for figure in ALL if f"    {figure.id} = " not in shown and f"    {figure.id}: " not in shown
    ] == []


def test_rows_of_a_sheet() -> None:
    of = sheet(HARBOUR)
    assert [one.id for one in of.rows] == [figure.id for figure in ALL]
    assert row(of, "mash-weight") == FigureRow(
        "mash-weight",
        "Weight of grain in the mash, no hulls",
        "kg",
        4.25,
        4.25,
        4.25,
        "4.25 kg",
        working="2.9 kg + 1.35 kg = 4.25 kg",
        pointers=("/grist/0", "/grist/1"),
        lines=(5, 7),
    )
    assert row(of, "efficiency-needed").missing == "a stated OG (`targets: og`)"
    assert row(of, "wort-limit").missing == "the mash water (`water` at line 9)"


def test_weights_are_in_the_recipes_own_unit() -> None:
    american = HARBOUR.replace("2.9 kg", "6 lb 6 oz").replace("1.35 kg", "3 lb").replace("20 l", "5 gal")
    assert row(sheet(american), "grist-weight").shown == "9 lb 6 oz"
    assert row(sheet(american), "grist-weight").typical == pytest.approx(9.375 * 0.45359237)


AMERICAN = """\
recipe: Harbour Pale
batch: 5 gal
grist: [{grain: two-row pale malt, weight: 9 lb}]
mash:
  thickness: 1.5 qt/lb
  strike: 163 °F
  rests:
    - {at: 151 °F, for: 60 min}
    - {at: 168 °F, for: 10 min, by: infusion, water: 6 qt, of: 208 °F}
sparge: {by: batch, water: 3.5 gal, at: 170 °F}
boil: {volume: 6.5 gal, for: 60 min}
package: {in: bottles, carbonation: 2.4 volumes, priming: {sugar: corn sugar, weight: 4.2 oz}, bottle-rating: 60 psi}
"""


def test_volumes_and_temperatures_are_in_the_recipes_own_unit() -> None:
    of = sheet(AMERICAN)
    shown = {one.id: one.shown for one in of.rows if one.shown_in}
    assert shown == {
        "mash-temperature": "152 °F (147 to 156)",
        "strike-temperature": "162 °F (157 to 167)",
        "step-temperature": "167 °F (164 to 167)",
        "bed-temperature": "169 °F (167 to 169)",
        "packaged-beer": "4.75 gal (4.5 to 4.9)",
        "liquor-to-grist": "1.5 qt/lb",
        "mash-volume": "5.59 gal (5.58 to 5.6)",
        "run-off-volume": "7.23 gal (6.86 to 7.51)",
        "pre-boil-volume": "6.54 gal (5.85 to 7.52)",
        "post-boil-volume": "5.52 gal (5.34 to 5.73)",
        "total-liquor": "8.38 gal",
        "boiling-point": "212 °F",
        "priming-sugar": "4.41 oz (3.73 to 5.6), 125 g (106 to 159)",
        "bottle-pressure": "26.1 psi (19.8 to 30.4), 1.8 bar (1.36 to 2.1)",
        "infusion-needed": "1.62 gal (1.62 to 2.09)",
        "starter-needed": "0.316 gal (0 to 1.25)",
    }
    board = "\n".join(figures_text(of))
    for line in (
        "    as stated: 6.5 gal\n",
        "rest 2: 167 °F (164 to 167)",
        "in the end: 2.17 qt/lb",
        "at 5 °C: 10.5 psi (6.6 to 13.2)",
    ):
        assert line in board


def test_a_document_keeps_the_canonical_units() -> None:
    entries = {entry["id"]: entry for entry in figures_document(sheet(AMERICAN))["figures"]}
    assert (entries["total-liquor"]["unit"], entries["total-liquor"]["typical"]) == ("l", pytest.approx(31.7, abs=0.05))
    assert (entries["mash-temperature"]["unit"], entries["liquor-to-grist"]["unit"]) == ("°C", "l/kg")
    assert entries["pre-boil-volume"]["parts"][0] == {
        "name": "as stated",
        "low": 24.6052,
        "typical": 24.6052,
        "high": 24.6052,
    }


def test_metric_recipes_are_shown_as_before() -> None:
    of = sheet(HARBOUR)
    assert {one.id for one in of.rows if one.shown_in} == set()
    assert row(of, "boiling-point").shown == "100 °C"


def test_old_units_of_volume_and_heat_stand_beside_todays() -> None:
    old = sheet(HARBOUR.replace("20 l", "3 firkins").replace("66 °C", "53 °R").replace("kg", "lb"))
    assert row(old, "total-liquor").shown.startswith("3.")
    assert row(old, "total-liquor").shown.split(", ")[1].endswith(" l (134 to 179)")
    assert row(old, "strike-temperature").shown.count("°Réaumur") == 1
    assert " °C (" in row(old, "strike-temperature").shown


def test_no_more_than_three_digits_of_what_is_reckoned() -> None:
    large = sheet(HARBOUR.replace("20 l", "2000 l").replace("2.9 kg", "290 kg").replace("1.35 kg", "135.5 kg"))
    assert row(large, "grist-weight").shown == "426 kg"
    assert row(large, "total-liquor").shown == "2840 l (2500 to 3220)"
    pounds = sheet(HARBOUR.replace("2.9 kg", "2900 lb").replace("1.35 kg", "1355 lb").replace("20 l", "20 hl"))
    assert row(pounds, "grist-weight").shown == "4255 lb"
    assert row(pounds, "potential-extract").shown.startswith("3200 lb (")


def test_old_measures_are_told_with_their_line_and_in_kilograms_too() -> None:
    old = sheet(HARBOUR.replace("2.9 kg", "1 bushel"))
    assert old.readings == (
        (
            6,
            '"1 bushel" is read as British bushels of malt, 42 lb each (brown malt by measure was lighter, some 31 lb): 19.05 kg',  # noqa: E501
        ),
    )
    assert row(old, "grist-weight").shown == "44.98 lb"


def test_gravities_have_degrees_plato_beside_them() -> None:
    of = sheet(HARBOUR + "yeast: {kind: English ale}\n")
    og, fg = row(of, "og"), row(of, "fg")
    assert og.typical is not None
    assert og.shown.startswith(f"{og.typical:.3f} SG (")
    assert [one.count(" °P (") for one in (og.shown, fg.shown)] == [1, 1]


def test_what_is_missing_is_told_with_its_place() -> None:
    no_weight = HARBOUR.replace("    weight: 1.35 kg\n", "")
    assert row(sheet(no_weight), "grist-weight").missing == "the weight of raw wheat (`weight` at line 7)"
    assert row(sheet("recipe: Nothing\n"), "og").missing == "the grist (`grist`)"
    unreadable = sheet(HARBOUR.replace("1.35 kg", "1.35"))
    assert row(unreadable, "grist-weight").missing == "the weight of raw wheat (line 8)"
    nothing = sheet("")
    assert nothing.rows
    assert [one.id for one in nothing.rows if not one.missing] == ["boiling-point"]  # water boils without a recipe
    assert next(iter(figures_text(nothing))) == "A recipe without a name, house/harbour.yaml"


def test_figures_document(by_hand: Sheet) -> None:
    document = figures_document(by_hand)
    assert {key: value for key, value in document.items() if key != "figures"} == {
        "format": "mashwright-figures",
        "version": 1,
        "path": "house/harbour.yaml",
        "name": "Harbour Wheat",
    }
    assert document["figures"][1] == {
        "id": "og",
        "title": "Original gravity: what this grist gives on this brewhouse",
        "unit": "SG",
        "low": 1.0483,
        "typical": 1.04983,
        "high": 1.05137,
        "parts": [{"name": "in °P", "low": 11.98, "typical": 12.35, "high": 12.71}],
        "working": "together 2.59 kg in 20 l (20 l into the fermenter), which is the batch as the recipe states it"
        "\n  = 12.3 °P = 1.050",
        "assumed": ["an efficiency of 72 % (60 % to 81 %), since none is stated"],
        "sources": ["nbs-c440", "palmer-2001", "jcgm-100-2008", "common-practice"],
        "pointers": ["/grist/0"],
        "missing": None,
    }
    assert document["figures"][4] == {
        "id": "liquor-to-grist",
        "title": "Water to grain",
        "unit": "l/kg",
        "low": None,
        "typical": None,
        "high": None,
        "parts": [],
        "working": "",
        "assumed": [],
        "sources": [],
        "pointers": [],
        "missing": "the mash water (`water` at line 15)",
    }


@pytest.mark.parametrize("text", [HARBOUR, "recipe: Nothing\n", "", HARBOUR.replace("2.9 kg", "6 lb 6 oz")])
def test_figures_documents_are_valid(text: str) -> None:
    schema = json.loads(Path(mashwright_schema.__file__).with_name("figures.schema.json").read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    document = figures_document(sheet(text))
    jsonschema.Draft202012Validator(schema).validate(document)
    assert json.loads(dump(document)) == document
    document["figures"][0] |= {"missing": "something", "typical": 1.0}
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(schema).validate(document)


def test_every_source_of_a_sum_is_in_the_bibliography() -> None:
    keys = {(function.id, key) for function in ALL for key in function.sources}
    assert len(keys) > 50
    known = {one.key for one in sources()}
    assert sorted(pair for pair in keys if pair[1] not in known) == []


def test_a_title_is_a_short_noun_phrase() -> None:
    titles = [function.title for function in ALL]
    assert len(titles) > 50
    assert [title for title in titles if len(title) > 50 or " that " in title or not title[0].isupper()] == []


def test_only_the_figures_that_are_named_are_shown() -> None:
    of = sheet(HARBOUR)
    lines = list(figures_text(of, only=frozenset({"og"})))
    assert next(line for line in lines if " = " in line and line.startswith("    ") and line[4] != " ").startswith(
        "    og = "
    )
    assert "In short" not in lines
    assert "    fg = " not in "\n".join(lines)
    assert [one["id"] for one in figures_document(of, frozenset({"og", "fg"}))["figures"]] == ["og", "fg"]


def test_the_short_sheet_stands_on_top() -> None:
    lines = list(figures_text(sheet(HARBOUR)))
    top = lines[lines.index("In short") :]
    top = top[: top.index("")]
    assert len(top) <= 12
    assert top[1].startswith("    OG  ")
