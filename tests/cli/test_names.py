"""``mashwright names``: what is known, the brewhouse's own among it, and the nearest names for a miss."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from mashwright.ingredients import bibliography, tables
from mashwright.ingredients.lookup import fermentable, hop, yeast
from mashwright.reviewing.catalogue import KINDS
from mashwright_schema import load

Call = Callable[..., Any]

HOUSE = """\
brewhouse: Saltmarsh Lane
ingredients:
  net store pale: {kind: pale ale malt, diastatic-power: 62 °Lintner, also: [the pale]}
  chapel candy: {kind: syrup, extract: 70 %}
  wall hop: {kind: hop, alpha: 3.5-5 %}
  lane yeast: {kind: English ale, attenuation: 74-78 %, diastatic: false, also: [no. 3]}
  drier: {kind: glucoamylase, temperature: 20-65 °C}
"""


@pytest.fixture
def house(folder: Path) -> Path:
    (folder / "brewhouse.yaml").write_text(HOUSE)
    return folder


@pytest.mark.usefixtures("house")
def test_the_overview_counts_each_kind(mashwright: Call) -> None:
    status, out, err = mashwright("names")
    assert (status, err) == (0, "")
    grist = len(tables.blocks("fermentables")) + 2
    rows = [line.split() for line in out.splitlines() if line.startswith("  ") and line[2] != " "]
    counted = {row[0]: int(row[1]) for row in rows}
    assert list(counted) == list(KINDS)
    assert counted["malts"] + counted["sugars"] + counted["fruit"] == grist
    assert counted["hops"] == len(tables.blocks("hops")) + 1
    assert counted["styles"] == len(tables.blocks("styles"))
    assert "  hops      289  cultivars, with the letters that brewers write for them; 1 of\n" in out
    assert "Your own are those of brewhouse.yaml; * stands before them.\n" in out


def test_without_a_brewhouse_nothing_is_of_ones_own(mashwright: Call) -> None:
    status, out, err = mashwright("names")
    assert (status, err) == (0, "")
    assert "your own" not in out.lower()
    assert "  yeasts     23  kinds of yeast and other cultures\n" in out


@pytest.mark.usefixtures("house")
@pytest.mark.parametrize("kind", KINDS)
def test_a_list_has_every_name_in_eighty_columns(kind: str, mashwright: Call) -> None:
    status, out, err = mashwright("names", kind)
    assert (status, err) == (0, "")
    lines = out.splitlines()
    assert [line for line in lines if len(line) > 80 or line != line.rstrip()] == []
    document = json.loads(mashwright("names", kind, "--format", "json").out)
    rows = [line.removeprefix("* ") for line in lines if not line.startswith("   ")]
    assert [row for row, one in zip(rows, document["names"], strict=True) if not row.startswith(one["name"])] == []


@pytest.mark.usefixtures("house")
def test_the_brewhouses_own_stand_first_and_are_marked(mashwright: Call) -> None:
    assert mashwright("names", "hops").out.splitlines()[:2] == [
        "* wall hop                      alpha 3.5-5 %",
        "Cascade                         United States, alpha 4.5-8.9 %",
    ]
    assert mashwright("names", "yeast").out.splitlines()[:2] == [
        "* lane yeast                    attenuation 74-78 %, 18-22 °C, 8-10 % ABV",
        "American ale                    attenuation 73-80 %, 15-23 °C, 10-12 % ABV",
    ]
    assert mashwright("names", "sugars").out.splitlines()[0] == "* chapel candy                  syrup, extract 70 %"
    first = mashwright("names", "enzymes").out.splitlines()[0]
    assert first == "* drier                         dextrins and starch, 20-65 °C"


@pytest.mark.usefixtures("house")
def test_one_of_the_brewhouses_own_whole(mashwright: Call) -> None:
    status, out, err = mashwright("names", "no. 3")
    assert (status, err) == (0, "")
    assert out.startswith(
        "lane yeast, yeast, * of brewhouse.yaml\n"
        "    also: no. 3\n"
        "    kind: English ale\n"
        "    attenuation: 74-78 %\n"
        "    diastatic: no\n"
        "    species: Saccharomyces cerevisiae [by-definition]\n"
        "    sort: ale [by-definition]\n"
        "    tolerance: 8-10 % ABV [yeast-supplier-pages]\n"
        "    temperature: 18-22 °C [ale-lager-temp, yeast-supplier-pages]\n"
    )
    assert "ferments dextrins" not in out
    assert f"yeast-supplier-pages: {bibliography.source('yeast-supplier-pages').citation}"[:60] in out


@pytest.mark.usefixtures("house")
def test_the_brewhouses_own_is_what_a_recipe_here_means(mashwright: Call) -> None:
    document = json.loads(mashwright("names", "the pale", "--format", "json").out)
    assert (document["names"][0]["name"], document["names"][0]["own"]) == ("net store pale", True)
    assert mashwright("names", "the", "pale").out.startswith("net store pale, malt or grain, * of brewhouse.yaml\n")


def test_one_name_whole_with_its_sources(mashwright: Call) -> None:
    status, out, err = mashwright("names", "hops", "banner")
    assert (status, err) == (0, "")
    assert out == (
        "Banner, hop\n"
        "    origin: United States [by-definition]\n"
        "    status: public breeding programme [from-memory]\n"
        "    alpha acids: 8.4-13 % [usda-21287]\n"
        "    beta acids: 5.3-8 % [usda-21287]\n"
        "    alpha acids lost in six months at 20 °C: 57 % [usda-21287]\n"
        "\n"
        "Sources\n"
        "    by-definition: follows from what the thing is: a sugar carries no enzyme,\n"
        "        dextrose monohydrate holds 9.1 % and lactose monohydrate 5.0 % of\n"
        "        crystal water, a malt sold as 40 has nominally 40 °Lovibond\n"
        "    from-memory: written down from memory, no page was seen that confirms it\n"
        "    usda-21287: USDA Agricultural Research Service, hop cultivar description,\n"
        "        accession 21287 (Banner)\n"
    )


def test_a_word_of_several_names(mashwright: Call) -> None:
    out = mashwright("names", "munich").out
    assert out.startswith("light Munich malt, malt or grain\n")
    also = out.partition("With this word too:\n\n")[2].splitlines()
    assert (
        also[:2]
        == ["malts", "  dark Munich malt              kilned malt, 7-12 °Lovibond, 15-40 °Lintner"][:1] + also[1:2]
    )
    assert also[1].startswith("  dark Munich malt")
    assert "styles" in also


def test_a_salt_and_a_unit(mashwright: Call) -> None:
    assert "    calcium from 1 g in 1 l: 233 mg/l [by-definition]\n" in mashwright("names", "CaSO4").out
    assert "    pressure: 1 psi = 0.068948 bar [by-definition]\n" in mashwright("names", "units", "psi").out
    assert "    gravity: 12 °P = 1.048\n" in mashwright("names", "units", "°P").out


@pytest.mark.usefixtures("house")
@pytest.mark.parametrize(
    ("words", "meant"),
    [
        (("municc",), "; did you mean Munich"),
        (("plantrum",), "; did you mean plantarum (yeasts)?"),
        (("Lagr",), "; did you mean lager (yeasts), lager malt (malts), "),
        (("chalkk",), "; did you mean chalk (salts)?"),
        (("lactc acid",), "; did you mean lactic acid (salts) or "),
        (("salts", "gypsun"), " among the salts; did you mean gypsum?"),
        (("cascde",), "; did you mean Cascade (hops)?"),
        (("hops", "sorachy"), " among the hops; did you mean Sorachi Ace?"),
        (("glucoamylse",), "; did you mean glucoamylase (enzymes)?"),
        (("saisn",), "; did you mean saison (yeasts)"),
        (("duble",), "; did you mean double IPA (styles), "),
        (("Belgian duble",), "; did you mean Belgian double (styles), Belgian dubbel (styles)"),
        (("firkn",), "; did you mean firkins (units)?"),
        (("hony",), "; did you mean honey (sugars)?"),
        (("raspbery",), "; did you mean raspberry (fruit)"),
        (("wlal hop",), "; did you mean wall hop (hops)?"),
        (("qqqqq",), ""),
        (("hops", "qqqqq"), " among the hops"),
    ],
)
def test_the_nearest_names_for_a_miss(words: tuple[str, ...], meant: str, mashwright: Call) -> None:
    status, out, err = mashwright("names", *words)
    assert (status, out) == (1, "")
    assert err.startswith(f"mashwright: nothing is known of {words[-1]}{meant}")
    document = json.loads(mashwright("names", *words, "--format", "json").out)
    assert document["names"] == []
    assert bool(document["near"]) is ("did you mean" in meant)


@pytest.mark.usefixtures("house")
@pytest.mark.parametrize("words", ["", "malts", "hops", "styles", "units", "salts", "pale", "no. 3", "municc"])
def test_the_document_is_as_its_schema_says(words: str, mashwright: Call) -> None:
    document = json.loads(mashwright("names", *words.split(), "--format", "json").out)
    assert [error.message for error in Draft202012Validator(load("names")).iter_errors(document)] == []
    cited = {key for one in document["names"] for value in one["values"] for key in value["sources"]}
    assert cited <= {one.key for one in bibliography.sources()}


def test_a_style_with_its_ranges_by_several_guidelines(mashwright: Call) -> None:
    out = mashwright("names", "American pale ale").out
    assert "    OG: 1.045-1.060 [judge-2021-text, judge-2021-data, judge-2021-pt]\n" in out
    assert "    bitterness: 30-50 IBU [" in out
    assert "    og in trade association 2026: 1.044-1.050 [trade-2026]\n" in out


def test_what_a_brewhouse_is_only_warned_of_is_no_matter_here(folder: Path, mashwright: Call) -> None:
    (folder / "brewhouse.yaml").write_text("lots: {A: {of: zzyzx}}\n")
    assert mashwright("names", "yeasts").err == ""


def test_every_name_of_a_table_is_listed_once_and_found(mashwright: Call) -> None:
    for kind, look_up in (("hops", hop), ("yeasts", yeast), ("malts", fermentable)):
        names = [one["name"] for one in json.loads(mashwright("names", kind, "--format", "json").out)["names"]]
        assert len(names) == len(set(names)) > 20
        found = [look_up(name) for name in names]
        assert [one.name for one in found if one is not None] == names


def test_a_faulty_brewhouse_is_told(folder: Path, mashwright: Call) -> None:
    (folder / "brewhouse.yaml").write_text("ingredients: {lane yeast: {kind: yeasst of ours}}\n")
    status, out, err = mashwright("names", "hops", "banner")
    assert status == 2
    assert out.startswith("Banner, hop\n")
    assert err.startswith("brewhouse.yaml:1:34: error: field: nothing is known of yeasst of ours; write a kind")


def test_a_name_cannot_steer_the_terminal(folder: Path, mashwright: Call) -> None:
    (folder / "brewhouse.yaml").write_text('ingredients: {"a\\x1b[31mb": {kind: hop, alpha: 5 %}}\n')
    for form in ("text", "json"):
        status, out, _ = mashwright("names", "hops", "--format", form)
        assert "\x1b" not in out
        assert (status, "[31mb" in out) == (0, True)
