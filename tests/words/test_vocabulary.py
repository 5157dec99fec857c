"""The table of what brewers say: each phrase is found where it says it, and what it must not mean silences it."""

import pytest

from mashwright.ingredients import bibliography
from mashwright.words.tokens import plain
from mashwright.words.vocabulary import PLACES, Entry, listed, mentions, speaks_of

SENTENCES = {
    "name": "Harbour {} of the Lane",
    "style": "the old {} of our street",
    "notes": "brewed in March; this one is {} as ever, and kept",
    "source": "from an {} that somebody lent us",
    "ingredient": "our own {} of last year",
    "when": "{} at the end of the week",
}


def spoken(phrase: str, letters: str = "e") -> str:
    """A phrase with letters in place of its stars."""
    return phrase.replace("*", letters)


@pytest.mark.parametrize("entry", listed(), ids=lambda entry: f"{entry.tag}: {entry.phrase} ({' '.join(entry.where)})")
def test_a_phrase_is_found_and_its_unless_silences_it(entry: Entry) -> None:
    for where in entry.where:
        for text in (
            spoken(entry.phrase),
            spoken(entry.phrase, "ere"),
            spoken(entry.phrase).upper(),
            spoken(entry.phrase).replace(" ", "-"),
        ):
            assert speaks_of(entry.tag, where, SENTENCES[where].format(text)), (where, text)
        for other in entry.unless:
            assert plain(spoken(entry.phrase, "")) in plain(other), other
            assert not speaks_of(entry.tag, where, other), other


def test_a_not_silences_every_phrase() -> None:
    for entry in listed():
        for where in entry.where:
            assert not speaks_of(entry.tag, where, f"this was never {spoken(entry.phrase)}"), (entry, where)


def test_the_rows_are_whole() -> None:
    keys = {one.key for one in bibliography.sources()}
    for entry in listed():
        assert entry.tag, entry
        assert entry.phrase == entry.phrase.strip().casefold(), entry
        assert entry.where, entry
        assert set(entry.where) <= set(PLACES), entry
        assert entry.source in keys, entry


def test_no_row_stands_twice() -> None:
    seen = [
        (entry.tag, plain(entry.phrase) if "*" not in entry.phrase else entry.phrase, where)
        for entry in listed()
        for where in entry.where
    ]
    assert len(seen) == len(set(seen)), [one for one in seen if seen.count(one) > 1]


def test_what_a_thing_is_called_is_heard_through_a_not() -> None:
    for tag, name in [("splits-dextrins", "non-GMO glucoamylase"), ("sugary", "non-fermented juice")]:
        assert mentions(tag, "ingredient", name)
        assert not speaks_of(tag, "ingredient", name)
    assert not mentions("sugary", "ingredient", "baking soda")


def test_an_unknown_tag_is_no_silence() -> None:
    with pytest.raises(KeyError):
        speaks_of("no such tag", "name", "gose")


@pytest.mark.parametrize(
    ("tag", "where", "text"),
    [
        ("sour", "name", "Sour Cherry Ale"),
        ("sour", "name", "Acid Rain"),
        ("sour", "notes", "a sour taste is a fault here"),
        ("no-chill", "notes", "no chill haze at all"),
        ("unboiled", "notes", "must not boil over"),
        ("sugary", "ingredient", "baking soda"),
        ("wort", "ingredient", "mugwort"),
    ],
)
def test_what_sounds_alike_means_nothing(tag: str, where: str, text: str) -> None:
    assert not speaks_of(tag, where, text)


def test_many_phrases_in_a_long_text_cost_no_more_than_its_length() -> None:
    assert not speaks_of("sour", "notes", "never a gose and " * 30_000)
