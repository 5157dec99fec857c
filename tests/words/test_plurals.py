"""The grammar of our own sentences."""

import pytest

from mashwright.words.plurals import counted, in_a_row, possessive, with_article, with_noun


def test_a_count_and_its_noun() -> None:
    assert [counted(1, "recipe"), counted(2, "recipe"), counted(0, "fault")] == ["1 recipe", "2 recipes", "0 faults"]
    assert counted(2, "more finding", "more findings") == "2 more findings"


@pytest.mark.parametrize(("noun", "said"), [("weight", "a weight"), ("efficiency", "an efficiency")])
def test_the_article(noun: str, said: str) -> None:
    assert with_article(noun) == said


def test_whose_it_is_and_what_it_is_called() -> None:
    assert [possessive("keg"), possessive("bottles")] == ["keg's", "bottles'"]
    assert [with_noun("Fuggle", "hops"), with_noun("aged Hops", "hops")] == ["Fuggle hops", "aged Hops"]


def test_names_in_a_row() -> None:
    assert in_a_row(["wheat"]) == "wheat"
    assert in_a_row(["wheat", "rye"]) == "wheat and rye"
    assert in_a_row(["wheat", "rye", "oats"], "or") == "wheat, rye or oats"
