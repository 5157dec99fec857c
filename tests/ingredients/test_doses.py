"""Usual doses of spices and finings, and the names that they are found by."""

import pytest

from mashwright.ingredients.bibliography import source
from mashwright.ingredients.doses import doses, usual_dose
from mashwright.words.tokens import words_of


@pytest.mark.parametrize(
    ("name", "high"),
    [
        ("coriander", 1.5),
        ("Crushed coriander seeds", 1.5),
        ("bitter orange peel", 3),
        ("fresh orange peel", 8),
        ("Cloves (whole)", 0.3),
        ("star anise", 0.5),
        ("aniseed", 1),
        ("cinnamon sticks", 1),
        ("grains of paradise", 0.6),
        ("fresh ginger root", 20),
        ("dried ginger", 2),
        ("Irish moss", 0.2),
        ("leaf gelatine", 0.3),
    ],
)
def test_named_plainly(name: str, high: float) -> None:
    found = usual_dose(name)
    assert found is not None
    assert found.high == high


@pytest.mark.parametrize(
    "name",
    [
        "",
        "coriander leaves",
        "cinnamon syrup",
        "clove honey",
        "vanilla sugar",
        "vanilla extract",
        "ginger biscuits",
        "ginger ale",
        "coriander, orange peel",
        "bell pepper",
        "orange",
        "clover",
        "Iceland moss",
    ],
)
def test_another_thing_or_more_than_one(name: str) -> None:
    assert usual_dose(name) is None


def test_every_alternative_is_found_by_its_own_words() -> None:
    for words, dose in doses():
        assert usual_dose(" ".join(sorted(words))) == dose, words


def test_the_table_agrees_with_itself() -> None:
    assert len({words for words, _ in doses()}) == len(doses()) > 30
    for words, dose in doses():
        assert words
        assert {word for one in words for word in words_of(one)} == words
        assert 0 < dose.low < dose.high / 2, words
        assert source(dose.source).key in ("common-practice", "from-memory")
