"""Names with one word misspelt, and parts of names."""

import pytest

from mashwright.ingredients.kinds import IngredientKind
from mashwright.ingredients.slips import kind_by_words, slips

ALL = frozenset(map(str, IngredientKind))


@pytest.mark.parametrize(
    ("name", "table", "meant"),
    [
        ("munic", "fermentables", ("Munich",)),
        ("munic malt", "fermentables", ("Munich malt",)),
        ("caramal munich malt", "fermentables", ()),
        ("goldng", "hops", ("Golding",)),
        ("sorachi", "hops", ("Sorachi Ace",)),
        ("sauvin", "hops", ("Nelson Sauvin",)),
        ("Lagr", "yeasts", ("lager",)),
        ("plantrum", "yeasts", ("plantarum",)),
        ("L. plantrum", "yeasts", ("L. plantarum",)),
        ("chalkk", "salts", ("chalk",)),
        ("lactc acid", "acids", ("lactic acid",)),
        ("glucoamylse", "enzymes", ("glucoamylase",)),
        ("munich hels", "styles", ("munich helles",)),
        ("heavy malt", "fermentables", ()),
        ("marsh malt", "fermentables", ()),
        ("hedge hop", "hops", ()),
        ("rye", "hops", ()),
        ("", "hops", ()),
        ("x" * 300, "hops", ()),
    ],
)
def test_a_slip_in_a_word(name: str, table: str, meant: tuple[str, ...]) -> None:
    assert slips(name, table) == meant


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("village crystal", "caramel malt"),
        ("flaked spelt", "flaked grain"),
        ("chapel malt", ""),
        ("moon dust", ""),
        ("", ""),
    ],
)
def test_the_kind_of_all_that_have_the_known_words(name: str, kind: str) -> None:
    assert kind_by_words(name, ALL) == kind


def test_only_the_kinds_that_are_possible() -> None:
    assert kind_by_words("village crystal", frozenset({"sugar"})) == ""
    assert kind_by_words("village caramel", frozenset({"caramel malt"})) == "caramel malt"
