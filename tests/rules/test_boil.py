from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]


def recipe(boil: str, line: str = "grain: pale ale malt, weight: 4.5 kg", hops: str = "") -> str:
    """A short recipe whose boil stands on line 4, hops on line 5."""
    listed = f"hops: [{hops}]\n" if hops else ""
    return f"recipe: Tried\nbatch: 20 l\ngrist: [{{{line}}}]\nboil: {{{boil}}}\n{listed}"


PILSNER = "grain: Pilsner malt, weight: 4.5 kg"


@pytest.mark.parametrize("boil", ["for: 60 min", "for: 1.5 h", "volume: 26 l"])
def test_long_enough_for_pilsner_malt(found: Found, boil: str) -> None:
    assert found("boil", recipe(boil, PILSNER)) == []


@pytest.mark.parametrize("minutes", ["59 min", "30 min", "15 min"])
def test_pilsner_malt_boiled_short_is_a_note(found: Found, minutes: str) -> None:
    reason = "may leave a taste of cooked maize (dimethyl sulfide); 60 min is usual"
    assert found("boil", recipe(f"for: {minutes}", PILSNER)) == [
        f"4:13: note: {minutes} is a short boil for Pilsner malt and {reason}"
    ]


def test_other_malt_may_boil_shorter(found: Found) -> None:
    assert found("boil", recipe("for: 30 min")) == []
    assert found("boil", recipe("for: 15 min")) == [
        "4:13: note: a boil of 15 min is short for wort from a mash, which wants 20 min or more: is it meant"
    ]


def test_a_third_of_pilsner_malt_is_not_most_of_it(found: Found) -> None:
    line = "grain: pale ale malt, weight: 3 kg}, {grain: Pilsner malt, weight: 1.5 kg"
    assert found("boil", recipe("for: 30 min", line)) == []


def test_extract_may_boil_as_short_as_it_likes(found: Found) -> None:
    assert found("boil", recipe("for: 15 min", "extract: light dry malt extract, weight: 2.5 kg")) == []


def test_hops_boiled_longer_than_the_boil(found: Found) -> None:
    hops = "{hop: Fuggle, weight: 30 g, boil: 60 min}, {hop: Golding, weight: 30 g, boil: 75 min}"
    assert found("boil", recipe("for: 60 min", hops=hops)) == [
        "5:86: error: Golding cannot boil for 75 min in a boil of 60 min"
    ]
    assert found("boil", recipe("for: 75 min", hops=hops)) == []


@pytest.mark.parametrize(
    ("boil", "hops"),
    [
        ("for: 60-90 min", "{hop: Fuggle, weight: 30 g, boil: 90 min}"),
        ("for: 60 min", "{hop: Fuggle, weight: 30 g, first-wort: true}"),
        ("for: 60 min", "{hop: Fuggle, weight: 30 g, whirlpool: 90 min}"),
        ("volume: 26 l", "{hop: Fuggle, weight: 30 g, boil: 90 min}"),
    ],
)
def test_hops_that_fit(found: Found, boil: str, hops: str) -> None:
    assert found("boil", recipe(boil, hops=hops)) == []
