"""What a brewer says is not so."""

import pytest

from mashwright.words.negation import claim_taken_back, lacks, says_free, taken_back
from mashwright.words.tokens import plain


@pytest.mark.parametrize(
    "before",
    ["not a very ", "never ", "isn't meant as a ", "without any ", "it is no ", "nor is it a ", "non-"],
)
def test_it_is_taken_back(before: str) -> None:
    text = plain(f"{before}gose")
    assert taken_back(text, text.index("gose"))


@pytest.mark.parametrize(
    "before",
    ["not pale, but a ", "brew no. 12: a ", "no boil ", "no 3 ", "not so long ago that one would forget a ", "a ", ""],
)
def test_it_is_not_taken_back(before: str) -> None:
    text = plain(f"{before}gose")
    assert not taken_back(text, text.index("gose"))


def test_a_claim_to_be_free_is_not_taken_back_by_another() -> None:
    for before, back in [
        ("no nuts and", False),
        ("not", True),
        ("non", True),
        ("no longer", True),
        ("not to be called", True),
        ("without milk or", False),
    ]:
        text = plain(f"{before} gluten-free")
        assert claim_taken_back(text, text.index("gluten")) is back, before


def test_free_follows_a_thing() -> None:
    for text, free in [
        ("smoke free", True),
        ("smoke free of charge", False),
        ("smoke freely", False),
        ("smoke", False),
    ]:
        assert says_free(text, len("smoke")) is free, text


@pytest.mark.parametrize(
    "name", ["cherries, stones removed", "peaches without stones", "non-diastatic saison", "nut-free"]
)
def test_a_name_says_what_is_left_out(name: str) -> None:
    assert lacks(name)


@pytest.mark.parametrize("name", ["cherries with stones", "saison no. 3", "saison No 12", "pale malt"])
def test_a_name_says_nothing_of_the_kind(name: str) -> None:
    assert not lacks(name)
