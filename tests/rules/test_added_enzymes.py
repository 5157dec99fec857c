"""Enzymes from a packet: known, dosed, and used where they work."""

from collections.abc import Callable

import pytest

from mashwright.ingredients.enzymes import enzyme

Found = Callable[..., list[str]]


def recipe(enzymes: str, at: str = "66 °C", ferment: str = "") -> str:
    return f"""\
recipe: Tried
batch: 20 l
grist:
  - {{grain: two-row pale malt, weight: 1 kg}}
  - {{grain: raw wheat, weight: 3.5 kg}}
mash: {{enzymes: {{{enzymes}}}, rests: [{{at: {at}, for: 60 min}}]}}
{ferment}
"""


@pytest.mark.parametrize("name", ["alpha-amylase", "Amylase, alpha", "glucoamylase", "AMG", "beta-glucanase enzyme"])
def test_known_however_it_is_written(found: Found, name: str) -> None:
    text = recipe(f"'{name}': 4 g")
    assert found("added_enzymes", text) == []


def test_any_word_is_no_enzyme(found: Found) -> None:
    assert found("added_enzymes", recipe("blubb: 4 ml")) == [
        (
            "6:25: warning: nothing is known of an enzyme called blubb, so it is not counted; name it by what it"
            " is, such as alpha-amylase"
        )
    ]


def test_nothing_of_it_does_nothing(found: Found) -> None:
    assert found("added_enzymes", recipe("alpha-amylase: 0 g")) == [
        "6:33: warning: 0 g of alpha-amylase does nothing; write the dose, or leave the line out"
    ]


def test_where_heat_has_destroyed_it(found: Found) -> None:
    assert found("added_enzymes", recipe("glucoamylase: 4 g", "78 °C")) == [
        "6:32: warning: glucoamylase works at 15-70 °C; no step of the mash is in that range, so it may do nothing"
    ]
    assert found("added_enzymes", recipe("glucoamylase: 4 g", "158 °F")) == []


def test_in_the_fermenter(found: Found) -> None:
    steps = "ferment: [{at: 20 °C, for: 10 d, enzymes: {%s: 2 ml}}]"
    assert found("added_enzymes", recipe("alpha-amylase: 4 g", ferment=steps % "glucoamylase")) == []
    assert len(found("added_enzymes", recipe("alpha-amylase: 4 g", ferment=steps % "blubb"))) == 1


@pytest.mark.parametrize(("enzymes", "helps"), [("alpha-amylase: 4 g", True), ("blubb: 4 ml", False)])
@pytest.mark.parametrize("rule", ["enzyme_sufficiency"])
def test_only_what_converts_starch_lowers_the_warning(found: Found, rule: str, enzymes: str, helps: bool) -> None:
    without = found(rule, recipe("papain: 1 g"))
    assert [one.split(": ")[1] for one in without] == ["warning"]
    assert (found(rule, recipe(enzymes)) != without) is helps
    assert found(rule, recipe("alpha-amylase: 0 g")) == without


def test_each_row_of_the_table_is_found_by_its_name() -> None:
    glucoamylase = enzyme("amyloglucosidase")
    assert glucoamylase is not None
    assert glucoamylase.works_on == {"starch", "dextrins"}
    assert enzyme("blubb") is None


def test_an_enzyme_in_the_beer_works_in_later_steps_too(found: Found) -> None:
    head = "recipe: A\nbatch: 20 l\ngrist: [4 kg pale ale malt]\nferment:\n"
    hot = "  - {at: 85 °C, for: 1 h, enzymes: {glucoamylase: 2 ml}}\n"
    warm = "  - {at: 20 °C, for: 10 d}\n"
    assert found("added-enzymes", head + hot + warm) == []
    assert len(found("added-enzymes", head + warm + hot)) == 1
