"""The words by which what can poison, and what some must avoid, is found."""

import pytest

from mashwright.ingredients.allergens import GROUPS, groups_of, is_sulfite
from mashwright.ingredients.cautions import caution, listed, words_of


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("Elder leaves", {"elder", "leaf"}),
        ("cherries, stones removed", {"cherry", "stone", "removed"}),
        ("Lily-of-the-valley", {"lily", "of", "the", "valley"}),
        ("potatoes (green)", {"potato", "green"}),
        ("peaches", {"peach"}),
        ("isinglass", {"isinglass"}),
        ("colchicum bulbs", {"colchicum", "bulb"}),
        ("Maud's tansy", {"maud", "tansy"}),
        ("", set()),
    ],
)
def test_words_of_a_name(name: str, words: set[str]) -> None:
    assert words_of(name) == words


def test_every_row_is_found_by_its_own_words() -> None:
    for one in listed():
        for alternative in one.words:
            found = caution(" ".join(sorted(alternative)))
            assert found is not None, alternative
            assert alternative.isdisjoint(one.unless), alternative


def test_the_words_of_the_table_are_in_the_singular() -> None:
    for one in listed():
        for word in {*one.unless, *(word for alternative in one.words for word in alternative)}:
            assert words_of(word) == {word}


def test_the_worst_is_told() -> None:
    mixed = caution("yarrow and henbane")
    assert mixed is not None
    assert mixed.harm == "poison"


@pytest.mark.parametrize(
    ("name", "groups"),
    [
        ("lactose", ["milk"]),
        ("milk chocolate with hazelnuts", ["milk", "nut"]),
        ("coconut milk", []),
        ("oyster shells", ["shellfish"]),
        ("isinglass finings", ["fish"]),
        ("honey malt", []),
        ("two-row pale malt", []),
    ],
)
def test_groups_of_a_name(name: str, groups: list[str]) -> None:
    assert [group.name for group in groups_of(name)] == groups


def test_a_group_is_told_by_its_own_name() -> None:
    for group in GROUPS:
        assert group.name in group.told
        assert group.words
        assert group.words.isdisjoint(group.unless)


@pytest.mark.parametrize("name", ["Campden tablets", "potassium metabisulphite", "Sodium Metabisulfite", "sulfite"])
def test_sulfite_by_any_name(name: str) -> None:
    assert is_sulfite(name)
    assert not is_sulfite(name.replace("ite", "ate").replace("phite", "phate").replace("Campden tablets", "gypsum"))
