"""How a brewer's free text is cut into words."""

import pytest

from mashwright.words.singular import singular
from mashwright.words.tokens import clauses, in_order, plain, sentences, words_of, written


@pytest.mark.parametrize(
    ("text", "cut"),
    [
        ("Goses, well-salted (1.5 g/l)", "gose , well salted ( 1.5 g / l )"),
        ("brewer’s yeast; don’t stir", "brewer yeast ; don't stir"),
        ("raw - never boiled", "raw \u2013 never boiled"),
        ("0.0% and 4,5 %", "0.0 % and 4,5 %"),
        ("nochill_cube", "nochill cube"),
        ("Cafe\u0301 noir", "café noir"),
        ("60ºL", "60 ° l"),
        ("  \t ", ""),
    ],
)
def test_a_text_is_cut(text: str, cut: str) -> None:
    assert plain(text) == cut


def test_a_line_that_was_wrapped_goes_on_and_a_short_one_ends() -> None:
    assert plain("no hops\ngose") == "no hop \n gose"
    assert "\n" not in plain("this is a long line of notes that was wrapped where\nthe page ended")
    assert "\n" in plain("this is a long line of notes, and an item follows it now\n- not sour")


def test_words_have_no_order_and_no_marks() -> None:
    assert words_of("Elder leaves, (dried)") == {"elder", "leaf", "dried"}
    assert in_order("three weeks before bottling!") == ["three", "week", "before", "bottling"]
    assert written("Elder Leaves, dried") == ["elder", "leaves", "dried"]


def test_clauses_end_at_a_comma_and_sentences_do_not() -> None:
    text = plain("contains milk, and nuts. OG 1.050: no sulfite")
    assert [one.strip() for one in clauses(text)] == ["contain milk", "and nut", "og 1.050", "no sulfite"]
    assert [one.strip() for one in sentences(text)] == ["contain milk , and nut", "og 1.050 : no sulfite"]


@pytest.mark.parametrize(
    ("several", "one"),
    [
        ("leaves", "leaf"),
        ("berries", "berry"),
        ("potatoes", "potato"),
        ("peaches", "peach"),
        ("goses", "gose"),
        ("molasses", "molasses"),
        ("hibiscus", "hibiscus"),
        ("saccharomyces", "saccharomyces"),
        ("gas", "gas"),
        ("its", "its"),
    ],
)
def test_the_singular(several: str, one: str) -> None:
    assert singular(several) == one


def test_a_long_text_costs_no_more_than_its_length() -> None:
    words = "not sour ale " * 40_000
    assert plain(words).startswith("not sour ale not")
    assert len(in_order(words)) == 120_000
