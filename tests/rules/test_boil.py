from collections.abc import Callable

import pytest

import mashwright

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
        f"4:13: note: a boil of {minutes} is short for Pilsner malt and {reason}"
    ]


def test_other_malt_may_boil_shorter(found: Found) -> None:
    assert found("boil", recipe("for: 30 min")) == []
    assert found("boil", recipe("for: 15 min")) == [
        "4:13: note: a boil of 15 min is short for wort from a mash, which needs at least 20 min; is this on purpose?"
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


UNBOILED = "the wort is not sterile, so it may spoil; is this on purpose?"


def test_no_boil_at_all(found: Found) -> None:
    assert found("boil", recipe("for: 0 min")) == [f"4:13: warning: with a boil of 0 min {UNBOILED}"]
    for hops in ("{hop: Fuggle, weight: 30 g, whirlpool: 30 min}", "{hop: Fuggle, weight: 30 g, mash: true}"):
        assert found("boil", recipe("for: 0 h", PILSNER, hops)) == [
            f"4:13: warning: with a boil of 0 h the hops give hardly any bitterness and {UNBOILED}"
        ]


def test_dry_hops_alone_were_not_to_bitter(found: Found) -> None:
    hops = "{hop: Fuggle, weight: 30 g, dry: 3 d}"
    assert found("boil", recipe("for: 0 min", hops=hops)) == [f"4:13: warning: with a boil of 0 min {UNBOILED}"]


def test_hops_that_boil_without_a_boil_are_the_one_finding(found: Found) -> None:
    assert found("boil", recipe("for: 0 min", hops="{hop: Fuggle, weight: 30 g, boil: 60 min}")) == [
        "5:42: error: Fuggle cannot boil for 60 min in a boil of 0 min"
    ]


@pytest.mark.parametrize(
    "more",
    [
        "style: Berliner Weisse",
        "style: Norwegian raw ale",
        "style: sahti",
        "style: farmhouse ale",
        "notes: soured, then pitched without a boil",
        "notes: an unboiled beer of the coast",
        "yeast: {kind: kveik}",
        "yeast: {kind: lactobacillus}",
        "style: no-boil sour ale",
        "notes: never boiled, as on the farms",
        "source: housekeeper's book of 1761",
        "source: old brewing book",
    ],
)
def test_where_raw_ale_is_meant_it_is_asked(found: Found, more: str) -> None:
    assert found("boil", recipe("for: 0 min") + f"{more}\n") == [f"4:13: note: with a boil of 0 min {UNBOILED}"]


@pytest.mark.parametrize(
    "more",
    [
        "source: our book of 1986",
        "source: an old friend",
        "style: pale ale",
        "notes: straw hat beer",
        "notes: water from another source",
        "notes: contains lactose",
        "notes: sour cherries in the secondary",
        "notes: no boil-over this time",
        "notes: not a sour beer",
        "style: raw wheat ale",
    ],
)
def test_other_words_do_not_mean_it(found: Found, more: str) -> None:
    assert found("boil", recipe("for: 0 min") + f"{more}\n") == [f"4:13: warning: with a boil of 0 min {UNBOILED}"]


def test_malt_extract_need_not_boil(found: Found) -> None:
    assert found("boil", recipe("for: 0 min", "extract: light dry malt extract, weight: 2.5 kg")) == []


def test_mash_hops_and_no_boil_stated_are_asked_about(found: Found, printed: Found) -> None:
    text = recipe("for: 60 min", hops="{hop: Fuggle, weight: 30 g, mash: true}, {hop: Fuggle, weight: 9 g, dry: 3 d}")
    silent = text.replace("boil: {for: 60 min}\n", "")
    assert found("boil", text) == []
    assert found("boil", silent) == [
        (
            "4:1: note: these hops go into the mash or onto the beer, and no boil is stated; unboiled wort is not"
            " sterile, and its hops give hardly any bitterness; is the wort boiled?"
        )
    ]
    assert printed("boil", silent)[-1] == "    misses by 1"


@pytest.mark.parametrize(
    "hops",
    [
        "",
        "hops: [{hop: Fuggle, weight: 30 g, boil: 60 min}]\n",
        "hops: [{hop: Fuggle, weight: 30 g, mash: true}, {hop: Fuggle, weight: 9 g, boil: 60 min}]\n",
        "hops: [{hop: Fuggle, weight: 30 g, mash: true}, {hop: Fuggle, weight: 9 g, whirlpool: 20 min}]\n",
        "hops: [{hop: Fuggle, weight: 30 g, dry: 3 d}]\n",
    ],
)
def test_a_boil_that_nobody_mentions_is_not_asked_about(found: Found, hops: str) -> None:
    text = f"recipe: Tried\nbatch: 20 l\ngrist: [{{grain: pale ale malt, weight: 4.5 kg}}]\n{hops}"
    assert found("boil", text) == []


def test_an_hours_boil_mends_it() -> None:
    (finding,) = [one for one in mashwright.review_text(recipe("for: 0 min")).recipes[0].results if one.rule == "boil"]
    assert [remedy.text for remedy in finding.remedies] == [
        "boil for 60 min instead of 0 min; ABV goes from 6.2 to 5.3 %"
    ]
