from collections.abc import Callable

import pytest

import mashwright

Found = Callable[..., list[str]]


def recipe(*hops: str, batch: str = "20 l", weight: str = "4.4 kg") -> str:
    """A short recipe whose hops begin on line 5."""
    lines = ["recipe: Tried", f"batch: {batch}", f"grist: [{{grain: pale malt, weight: {weight}}}]"]
    lines += ["hops:"] if hops else []
    return "\n".join([*lines, *(f"  - {{{hop}}}" for hop in hops), ""])


def boiled(weight: str) -> str:
    return f"weight: {weight}, hop: Fuggle, boil: 10 min"


@pytest.mark.parametrize("weight", ["2 g", "30 g", "120 g", "400 g"])
def test_what_beers_take(found: Found, weight: str) -> None:
    assert found("hop_rate", recipe(boiled(weight))) == []
    assert found("hop_rate", recipe(f"hop: Fuggle, weight: {weight}, dry: 3 d")) == []


def test_three_hundred_kilograms(found: Found) -> None:
    soak = "that many hops would soak up all of the wort"
    assert found("hop_rate", recipe(boiled("300 kg"))) == [
        f"5:14: error: 300 kg of Fuggle is 15000 g to each litre of beer; {soak}; did you mean 300 g?"
    ]
    assert found("hop_rate", recipe(boiled("30 lb"), batch="5 gal", weight="9.7 lb")) == [
        f"5:14: error: 30 lb of Fuggle is 96 oz to each gallon of beer; {soak}"
    ]
    assert found("hop_rate", recipe(boiled("3 lb"), batch="5 gal", weight="9.7 lb")) == [
        (
            "5:14: warning: 3 lb of Fuggle is 9.6 oz to each gallon of beer, more than any beer is hopped with; did"
            " you mean 3 oz?"
        )
    ]


def test_more_than_others(found: Found) -> None:
    assert found("hop_rate", recipe(boiled("401 g"))) == [
        "4:1: note: 20.1 g to each litre of beer in kettle and mash is more than most hoppy beers have"
    ]
    assert found("hop_rate", recipe(boiled("801 g"))) == [
        "5:14: warning: 801 g of Fuggle is 40.05 g to each litre of beer, more than any beer is hopped with"
    ]
    assert found("hop_rate", recipe(boiled("3001 g"))) == [
        "5:14: error: 3001 g of Fuggle is 150.1 g to each litre of beer; that many hops would soak up all of the wort"
    ]


def test_additions_are_added_up_kettle_and_dry_apart(found: Found) -> None:
    assert found("hop_rate", recipe(boiled("300 g"), "hop: Fuggle, weight: 300 g, dry: 3 d")) == []
    assert found("hop_rate", recipe(boiled("500 g"), boiled("500 g"))) == [
        "4:1: warning: 50 g to each litre of beer in kettle and mash is more than any beer is hopped with"
    ]
    assert found("hop_rate", recipe("hop: Fuggle, weight: 250 g, dry: 3 d", "hop: Saaz, weight: 250 g, dry: 3 d")) == [
        "4:1: note: 25 g to each litre of beer of dry hops is more than most hoppy beers have"
    ]


def test_next_to_nothing(found: Found) -> None:
    assert found("hop_rate", recipe(boiled("1 g"))) == ["5:14: note: 1 g of Fuggle does almost nothing in 20 l of beer"]
    assert found("hop_rate", recipe(boiled("0.1 g"))) == [
        "5:14: warning: 0.1 g of Fuggle does almost nothing in 20 l of beer; did you mean 0.1 kg?"
    ]
    assert found("hop_rate", recipe(boiled("1 g"), "hop: Saaz, weight: 30 g, dry: 3 d")) == []


@pytest.mark.parametrize(
    "hops",
    [
        (),
        ("hop: Fuggle, alpha-units: 5 AAU, boil: 60 min",),
        ("hop: Fuggle, weight: 0.5 g, form: extract, alpha: 50 %, boil: 60 min",),
        (boiled("1 g"), "hop: Fuggle, alpha-units: 5 AAU, boil: 60 min"),
        (boiled("0 g"),),
    ],
)
def test_nothing_to_weigh(found: Found, hops: tuple[str, ...]) -> None:
    assert found("hop_rate", recipe(*hops)) == []


def test_no_batch(found: Found) -> None:
    assert found("hop_rate", recipe(boiled("300 kg"), batch="0 l")) == []
    assert found("hop_rate", recipe(boiled("300 kg"), batch="many")) == ["2:8: open: a readable batch"]


def test_a_weight_that_cannot_be_read(found: Found) -> None:
    assert found("hop_rate", recipe(boiled("many"))) == ["5:14: open: a readable weight of Fuggle"]


def test_the_other_unit_mends_it() -> None:
    findings = mashwright.review_text(recipe(boiled("30 kg"))).recipes[0].results
    assert [(finding.rule, finding.level.word) for finding in findings if finding.level.value > 1] == [
        ("hop-rate", "error")
    ]
    assert [remedy.text for finding in findings for remedy in finding.remedies] == ["use 30 g instead of 30 kg"]


def test_settings(found: Found) -> None:
    assert found("hop_rate", recipe(boiled("300 g")), much_g_per_l=10) == [
        "4:1: note: 15 g to each litre of beer in kettle and mash is more than most hoppy beers have"
    ]


def test_an_old_keeping_beer_took_more(found: Found) -> None:
    text = recipe(boiled("450 g"))
    note = "22 g to each litre of beer in kettle and mash is more than most hoppy beers have"
    assert found("hop_rate", text) == [f"4:1: note: {note}"]
    assert found("hop_rate", f"{text}source: still-room book, 1784\n") == []
    assert found("hop_rate", f"{text}source: old brewing book\n") == []
    assert found("hop_rate", f"{text}source: the club's book, 1986\n") == [f"4:1: note: {note}"]
    assert found("hop_rate", f"{text.replace('Tried', 'Stout 1784')}") == [f"4:1: note: {note}"]
    more = recipe(boiled("900 g"))
    assert found("hop_rate", f"{more}source: still-room book, 1784\n") == found("hop_rate", more)
