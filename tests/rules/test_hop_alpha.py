from collections.abc import Callable

import pytest

import mashwright

Found = Callable[..., list[str]]


def recipe(*hops: str) -> str:
    """A short recipe whose hops begin on line 5."""
    lines = ["recipe: Tried", "batch: 20 l", "grist: [{grain: pale malt, weight: 4.4 kg}]", "hops:"]
    return "\n".join([*lines, *(f"  - {{{hop}}}" for hop in hops), ""])


def one(alpha: str, hop: str = "Cascade", more: str = "boil: 60 min") -> str:
    return recipe(f"alpha: {alpha}, hop: {hop}, weight: 20 g, {more}")


@pytest.mark.parametrize("alpha", ["3.5 %", "5.2 %", "8.9 %", "12 %", "4-9 %"])
def test_what_a_cultivar_has(found: Found, alpha: str) -> None:
    assert found("hop_alpha", one(alpha)) == []


def test_ten_times_too_much(found: Found) -> None:
    assert found("hop_alpha", one("52 %")) == [
        "5:13: error: 52 % alpha acid is more than any hop has, about 2 to 20 %; did you mean 5.2 %?"
    ]
    assert found("hop_alpha", one("52 %", "Golding")) == [
        "5:13: error: 52 % alpha acid is more than any hop has, about 2 to 20 %; did you mean 5.2 %?"
    ]
    assert found("hop_alpha", one("52 %", more="boil: 60 min, form: cone")) == [
        "5:13: error: 52 % alpha acid is more than any hop has, about 2 to 20 %; did you mean 5.2 %?"
    ]
    assert found("hop_alpha", one("78 %")) == [
        "5:13: error: 78 % alpha acid is more than any hop or hop extract has, at most 75 %; did you mean 7.8 %?"
    ]


def test_where_no_point_has_slipped_the_form_is_asked_for(found: Found) -> None:
    assert found("hop_alpha", one("38 %", "Magnum")) == [
        "5:13: error: 38 % alpha acid is more than any hop has, about 2 to 20 %; for an extract, add form: extract"
    ]
    assert found("hop_alpha", one("38 %", "Magnum", "boil: 60 min, form: pellet")) == [
        "5:13: error: 38 % alpha acid is more than any hop has, about 2 to 20 %"
    ]


def test_a_range_that_begins_among_hops_is_doubted(found: Found) -> None:
    assert found("hop_alpha", one("26-38 %", "hedge hop")) == [
        (
            "5:13: warning: 26-38 % alpha acid is more than any hop has, about 2 to 20 %; for an extract, add"
            " form: extract"
        )
    ]


@pytest.mark.parametrize("name", ["Magnum extract", "CO2 extract", "isomerised hop extract", "Magnum CO2"])
def test_an_extract_by_its_name(found: Found, name: str) -> None:
    assert found("hop_alpha", one("52 %", name)) == []


def test_enriched_pellets_are_hops(found: Found) -> None:
    assert found("hop_alpha", one("26 %", "enriched pellets")) == []


def test_the_recipes_own_word_for_the_hop(found: Found) -> None:
    for name in ("Golding", "Goldings", "East Kent Golding", "EKG"):
        assert found("hop_alpha", one("13 %", name)) == [
            f"5:13: warning: 13 % alpha acid is far above the 4-6 % of {name}"
        ]
        assert found("hop_alpha", one("6 %", name)) == []


def test_an_extract_has_it(found: Found) -> None:
    assert found("hop_alpha", one("52 %", more="boil: 60 min, form: extract")) == []
    assert found("hop_alpha", one("80 %", more="boil: 60 min, form: extract")) == [
        "5:13: error: 80 % alpha acid is more than any hop or hop extract has, at most 75 %; did you mean 8 %?"
    ]


def test_ten_times_too_little(found: Found) -> None:
    assert found("hop_alpha", one("0.5 %")) == [
        "5:13: warning: 0.5 % alpha acid is less than fresh hops have, about 2 to 20 %; did you mean 5 %?"
    ]


@pytest.mark.parametrize("more", ["boil: 60 min, age: 2 years", "boil: 60 min, harvest: 2021"])
def test_old_hops_may_have_hardly_any(found: Found, more: str) -> None:
    more = more.replace("2 years", "24 months")
    assert found("hop_alpha", one("0.5 %", more=more)) == []
    assert found("hop_alpha", one("0.5 %", hop="aged Cascade")) == []


def test_outside_the_cultivars_range(found: Found) -> None:
    assert found("hop_alpha", one("6 %", "Saaz")) == []
    assert found("hop_alpha", one("7 %", "Saaz")) == ["5:13: note: 7 % alpha acid is above the 2.5-4.5 % of Saaz"]
    assert found("hop_alpha", one("12 %", "Saaz")) == [
        "5:13: warning: 12 % alpha acid is far above the 2.5-4.5 % of Saaz"
    ]
    assert found("hop_alpha", one("25 %", "Saaz")) == [
        "5:13: warning: 25 % alpha acid is far above the 2.5-4.5 % of Saaz; did you mean 2.5 %?"
    ]
    assert found("hop_alpha", one("8 %", "Magnum")) == ["5:13: note: 8 % alpha acid is below the 12-17 % of Magnum"]
    assert found("hop_alpha", one("5 %", "Magnum")) == [
        "5:13: warning: 5 % alpha acid is far below the 12-17 % of Magnum"
    ]


def test_a_range_from_memory_doubts_nothing(found: Found) -> None:
    assert found("hop_alpha", one("20 %", "Progress")) == []
    assert found("hop_alpha", one("5 %", "Cashmere")) == []
    assert found("hop_alpha", one("5 %", "Banner")) == ["5:13: note: 5 % alpha acid is below the 8.4-13 % of Banner"]


def test_what_no_hop_has_is_doubted_of_a_remembered_one_too(found: Found) -> None:
    assert found("hop_alpha", one("52 %", "Bohemie")) == [
        "5:13: error: 52 % alpha acid is more than any hop has, about 2 to 20 %; did you mean 5.2 %?"
    ]


def test_a_name_without_a_figure(found: Found) -> None:
    assert found("hop_alpha", one("11 %", "Styrian Fox")) == []
    assert found("hop_alpha", recipe("hop: Styrian Fox, weight: 20 g, boil: 60 min")) == [
        "5:11: note: the alpha acid of Styrian Fox hops is not known; state it here"
    ]
    assert found("hop_alpha", recipe("hop: Styrian Fox, weight: 20 g, dry: 3 d")) == []


def test_dry_hops_bitter_hardly(found: Found) -> None:
    assert found("hop_alpha", one("52 %", more="dry: 3 d")) == [
        "5:13: note: 52 % alpha acid is more than any hop has, about 2 to 20 %; did you mean 5.2 %?"
    ]


def test_a_hop_that_no_table_knows(found: Found) -> None:
    assert found("hop_alpha", one("7 %", "hedge hop")) == []
    assert found("hop_alpha", one("52 %", "hedge hop")) == [
        "5:13: error: 52 % alpha acid is more than any hop has, about 2 to 20 %; did you mean 5.2 %?"
    ]
    assert found("hop_alpha", recipe("hop: hedge hop, weight: 20 g, boil: 60 min")) == [
        "5:11: note: nothing is known of hedge hop hops; state their alpha acid here"
    ]
    assert found("hop_alpha", recipe("hop: Cascde, weight: 20 g, boil: 60 min")) == [
        "5:11: note: nothing is known of Cascde hops; state their alpha acid here, or did you mean Cascade?"
    ]


@pytest.mark.parametrize(
    "hop",
    [
        "hop: Cascade, weight: 20 g, boil: 60 min",
        "hop: hedge hop, weight: 20 g, dry: 3 d",
        "hop: hedge hop, alpha-units: 5 AAU, boil: 60 min",
        "hop: hedge hop, bitterness: 20 IBU, boil: 60 min",
    ],
)
def test_nothing_to_say(found: Found, hop: str) -> None:
    assert found("hop_alpha", recipe(hop)) == []


def test_an_alpha_that_cannot_be_read(found: Found) -> None:
    text = recipe("hop: hedge hop, weight: 20 g, alpha: 5, boil: 60 min")
    assert found("hop_alpha", text) == ["5:43: open: a readable alpha of hedge hop"]


def test_the_lots_cultivar_counts(found: Found) -> None:
    house = "brewhouse: Tried\nlots: {H-1: {of: Saaz, alpha: 3 %}}\n"
    assert found("hop_alpha", recipe("hop: H-1, weight: 20 g, boil: 60 min"), house) == []
    assert found("hop_alpha", one("12 %", "noble hop", "boil: 60 min, lot: H-1"), house) == [
        "5:13: warning: 12 % alpha acid is far above the 2.5-4.5 % of Saaz"
    ]


def test_the_point_put_right_mends_it() -> None:
    (finding,) = mashwright.review_text(one("52 %")).recipes[0].results
    assert [remedy.text for remedy in finding.remedies] == ["use 5.2 % instead of 52 %"]


def test_settings(found: Found) -> None:
    assert found("hop_alpha", one("10 %"), outside_times=1.1) == [
        "5:13: note: 10 % alpha acid is above the 4.5-8.9 % of Cascade"
    ]
