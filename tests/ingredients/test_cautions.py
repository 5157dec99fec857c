"""The words by which what can poison, and what some must avoid, is found."""

import os
from pathlib import Path

import pytest

from mashwright.ingredients.allergens import groups, groups_of, is_sulfite
from mashwright.ingredients.cautions import HARMS, caution, listed
from mashwright.words.plurals import agreed, is_plural
from mashwright.words.tokens import words_of


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("Elder leaves", {"elder", "leaf"}),
        ("cherries, stones removed", {"cherry", "stone", "removed"}),
        ("Lily-of-the-valley", {"lily", "of", "the", "valley"}),
        ("potatoes (green)", {"potato", "green"}),
        ("peaches", {"peach"}),
        ("isinglass", {"isinglass"}),
        ("azaleas and bananas", {"azalea", "and", "banana"}),
        ("copperas", {"copperas"}),
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
            name = " ".join(sorted(alternative))
            found = caution(name, sealed=True, g_per_l=lambda: 1e6)
            assert found is not None, alternative
            assert HARMS.index(found.harm) <= HARMS.index(one.harm), alternative
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
    "name",
    [
        "elder leaves",
        "elderberries, raw",
        "hazelnuts (roasted)",
        "lily bulbs from the garden",
        "oats",
        "bananas",
        "wild fungi",
        "nettles gathered by the river",
        "raspberries pitted 2",
        "yarrow and henbane",
        "wild mushrooms and henbane",
        "Campden tablets",
        "sloes with stones",
    ],
)
def test_they(name: str) -> None:
    assert is_plural(name)


@pytest.mark.parametrize(
    "name",
    [
        "elder leaf",
        "oil of cloves",
        "lily of the valley",
        "isinglass",
        "molasses",
        "hibiscus",
        "cannabis",
        "copperas",
        "Irish moss",
        "caramel malt 40",
        "sweet and bitter orange peel",
        "milk chocolate with hazelnuts",
        "linseed",
        "St John's wort",
        "",
        "(?)",
    ],
)
def test_it(name: str) -> None:
    assert not is_plural(name)


def test_a_sentence_agrees_with_its_thing() -> None:
    text = "{it} {holds} much, {has} killed, {carries} germs and {is} no food; {does} harm, so leave {them} out"
    assert (
        agreed(text, plural=False)
        == "it holds much, has killed, carries germs and is no food; does harm, so leave it out"
    )
    assert (
        agreed(text, plural=True)
        == "they hold much, have killed, carry germs and are no food; do harm, so leave them out"
    )


def test_what_is_asked_of_the_amount_is_asked_only_where_it_matters() -> None:
    def never() -> float:
        raise AssertionError

    assert caution("coriander seed", g_per_l=never) is None
    assert caution("henbane", g_per_l=never) is not None


@pytest.mark.parametrize(
    ("name", "groups"),
    [
        ("lactose", ["milk"]),
        ("milk chocolate with hazelnuts", ["milk", "nut"]),
        ("coconut milk", []),
        ("oyster shells", ["mollusc"]),
        ("isinglass finings", ["isinglass"]),
        ("honey malt", []),
        ("two-row pale malt", []),
    ],
)
def test_groups_of_a_name(name: str, groups: list[str]) -> None:
    assert [group.name for group in groups_of(name)] == groups


@pytest.mark.parametrize(
    ("name", "harm"),
    [("oil of vitriol", "risk"), ("sulphuric acid", "risk"), ("salt of steel", "risk"), ("quassia chips", "care")],
)
def test_what_the_old_books_put_in(name: str, harm: str) -> None:
    found = caution(name, g_per_l=lambda: 5.0)
    assert found is not None
    assert found.harm == harm
    assert caution("quassia chips", g_per_l=lambda: 0.1) is None
    assert caution("lactic acid", g_per_l=lambda: 5.0) is None


@pytest.mark.parametrize(
    ("name", "behind"),
    [
        ("isinglass", "isinglass comes from fish"),
        ("isinglass finings", "isinglass finings come from fish"),
        ("gelatine sheets", "gelatine sheets come from animals"),
        ("oysters", "oysters are molluscs"),
        ("lobster", "lobster is a crustacean"),
        ("egg whites", "egg whites come from eggs"),
    ],
)
def test_what_a_thing_is_made_of(name: str, behind: str) -> None:
    (group,) = groups_of(name)
    assert group.behind(name) == behind


def test_a_group_is_told_by_its_own_name() -> None:
    for group in groups():
        assert group.name in group.told
        assert group.words
        assert group.own_words.isdisjoint(group.unless)


@pytest.mark.parametrize("name", ["Campden tablets", "potassium metabisulphite", "Sodium Metabisulfite", "sulfite"])
def test_sulfite_by_any_name(name: str) -> None:
    assert is_sulfite(name)
    assert not is_sulfite(name.replace("ite", "ate").replace("phite", "phate").replace("Campden tablets", "gypsum"))


DANGERS = Path(__file__).parent.parent / "golden" / "dangers.txt"


def test_each_dangerous_thing_is_told_of_as_it_was() -> None:
    """By each of its names, boiled and raw. Renewed by RENEW_GOLDEN=1, which still fails where anything changed."""
    before = DANGERS.read_text(encoding="utf-8").splitlines()
    every = {" ".join(sorted(words)) for one in listed() for words in one.words}
    kept = {line.partition(": ")[0] for line in before}
    now = []
    for name in sorted(every | kept):
        for how, boiled in (("raw", False), ("boiled", True)):
            found = caution(name, boiled=boiled, sealed=True, g_per_l=lambda: 1e6)
            now.append(f"{name}: {how}: {f'{found.harm}: {found.told(name)}' if found is not None else 'nothing'}")
    if os.environ.get("RENEW_GOLDEN"):
        DANGERS.write_text("".join(f"{line}\n" for line in now), encoding="utf-8")
    assert now == before
