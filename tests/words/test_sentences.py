"""Sentences with places for values, filled in one way."""

import pickle

import pytest

from mashwright.measures import Kind, Range, said
from mashwright.recipe.stated import Said, UnreadableText
from mashwright.rule import say
from mashwright.words.sentences import Measure, spoken

SAYS = {
    "cold": "the mash is at {at}; below {limit} it does not convert",
    "longer": "rest {time} longer",
    "of": ", {share} of it {name:a}",
    "lots": "{count:lot} of {name}",
    "field": "state `targets: {{og: ...}}`",
}


def test_values_are_told_as_they_are_written_or_worked_out() -> None:
    at = Said(Kind.TEMPERATURE, Range.exact(55.0), "°C", "55 °C", path=("mash", "rests", 0, "at"))
    assert spoken(SAYS, say("cold", at=at, limit=said(60.0, "°C", Kind.TEMPERATURE))) == (
        "the mash is at 55 °C; below 60 °C it does not convert"
    )


def test_a_text_that_cannot_be_read_was_asked_for_where_a_sentence_names_it() -> None:
    asked: list[tuple[str | int, ...]] = []
    name = UnreadableText.at(("hops", 0, "hop"), asked)
    spoken(SAYS, say("lots", count=2, name=name))
    spoken(SAYS, say("of", share="half", name=name))
    assert asked == [("hops", 0, "hop")] * 2


def test_parts_follow_behind_semicolons_and_one_that_begins_with_a_comma_without() -> None:
    whole = say("lots", count=2, name="oats").and_then(
        None, say("of", share="half", name="oat"), say("longer", time="5 min")
    )
    assert spoken(SAYS, whole) == "2 lots of oats, half of it an oat; rest 5 min longer"
    assert [part.id for part in whole] == ["lots", "of", "longer"]


def test_a_count_has_its_noun_and_a_brace_is_a_brace() -> None:
    assert spoken(SAYS, say("lots", count=1, name="oats")) == "1 lot of oats"
    assert spoken(SAYS, say("field")) == "state `targets: {og: ...}`"


@pytest.mark.parametrize("wrong", [say("none"), say("longer"), say("longer", times=3)])
def test_what_is_not_there_is_an_error(wrong: object) -> None:
    with pytest.raises(KeyError):
        spoken(SAYS, wrong)  # type: ignore[arg-type]


def test_a_number_that_is_told_is_still_a_number() -> None:
    told = said(1.5, "kg", Kind.MASS)
    assert (told, told.value, told.unit) == ("1.5 kg", 1.5, "kg")
    again = pickle.loads(pickle.dumps(told))
    assert isinstance(again, Measure)
    assert (again, again.value, again.unit) == ("1.5 kg", 1.5, "kg")
