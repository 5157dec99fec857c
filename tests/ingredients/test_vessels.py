"""The vessels: one table, the same words in the formats, no limit beside it."""

import re
from pathlib import Path

import pytest

import mashwright_schema
from mashwright.ingredients.bibliography import source
from mashwright.ingredients.vessels import VesselSort, listed, size_l, vessel

RULES = Path(__file__).parents[2] / "rules" / "mashwright_rules"


def test_each_row_is_whole() -> None:
    for one in listed():
        assert one.sort in VesselSort
        assert 0 < one.bears.low <= one.bears.typical <= one.bears.high
        assert one.in_bar == (one.sort == "keg")
        assert one.sources
        for key in one.sources:
            assert source(key)


def test_each_word_means_one_vessel() -> None:
    words = [word for one in listed() for word in one.words]
    assert len(words) == len(set(words))
    for one in listed():
        for word in one.words:
            assert vessel(word) is one
            assert vessel(word.upper().replace(" ", "-")) is one


def test_the_recipe_takes_the_words_of_the_table() -> None:
    package = mashwright_schema.load("recipe")["$defs"]["package-fields"]
    assert set(package["properties"]["in"]["enum"]) == {word for one in listed() for word in one.words}


def test_the_brewhouse_takes_each_kind() -> None:
    known = mashwright_schema.load("brewhouse")["properties"]["vessels"]["properties"]
    rated = [vessel(key) for key in known]
    assert None not in rated
    assert len(set(rated)) == len(rated)
    assert set(rated) == {one for one in listed() if one.words[0] != "demijohn"}


def test_the_page_of_the_rule_says_what_the_table_says() -> None:
    """The table on the page of the rule carbonation."""
    page = (RULES / "package" / "carbonation" / "__init__.py").read_text("utf-8")
    told = dict(re.findall(r"^  (\w[^\d\n]*?) +([\d.]+ +[\d.]+ +[\d.]+)", page, re.MULTILINE))
    names = {
        "heavy, Belgian bottles": "heavy bottles",
        "growlers, jars": "growlers",
        "keg of unknown make": "keg",
        "polypin, bag in box": "polypin",
    }
    assert len(told) == len(listed()) - 1  # all but what nobody would fill for its gas
    for name, numbers in told.items():
        found = vessel(names.get(name, name))
        assert found is not None, name
        assert [float(one) for one in numbers.split()] == [found.bears.low, found.bears.typical, found.bears.high], name


@pytest.mark.parametrize(
    ("word", "litres"),
    [("pin", 20.46), ("Firkins", 40.91), ("kilderkin", 81.83), ("sixtel", 19.56), ("cask", None), ("tankard", None)],
)
def test_a_name_that_is_a_size_too(word: str, litres: float | None) -> None:
    """4.5, 9 and 18 imperial gallons, a sixth of a US beer barrel of 31 US gallons; by definition of the trade."""
    assert size_l(word) == litres


@pytest.mark.parametrize("rule", ["carbonation", "priming", "unfinished_beer", "diastatic_yeast"])
def test_no_rule_about_gas_has_a_limit_of_its_own_for_a_vessel(rule: str) -> None:
    paths = [*RULES.glob(f"*/{rule}.py"), *RULES.glob(f"*/{rule}/*.py")]
    text = "\n".join(path.read_text("utf-8") for path in paths)
    assert "Limit(" in text
    settings = re.findall(r"^    (\w+) = Limit\(", text, re.MULTILINE)
    assert not [one for one in settings if re.match("bottle|keg_bar|keg_pressure|cask", one)]
