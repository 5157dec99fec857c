from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]


def recipe(mash: str, grain: str = "pale ale malt, weight: 4.5 kg", batch: str = "20 l") -> str:
    """A short recipe whose mash stands on line 5."""
    return f"recipe: Tried\nbatch: {batch}\ngrist:\n  - {{grain: {grain}}}\nmash: {{{mash}}}\n"


def struck(strike: str) -> str:
    rest = "rests: [{at: 66 °C, for: 60 min}]"
    return recipe(f"water: 14 l, strike: {strike}, grain-temperature: 18 °C, {rest}")


@pytest.mark.parametrize("strike", ["72 °C", "73 °C", "73.9 °C", "70-74 °C", "163 °F"])
def test_within_two_degrees(found: Found, strike: str) -> None:
    assert found("strike_water", struck(strike)) == []


@pytest.mark.parametrize(
    ("strike", "finding"),
    [
        ("75 °C", "note: strike water of 75 °C makes a mash of about 68.5 °C"),
        ("77 °C", "warning: strike water of 77 °C makes a mash of about 70.3 °C"),
        ("82 °C", "error: strike water of 82 °C makes a mash of about 74.7 °C"),
        ("66 °C", "warning: strike water of 66 °C makes a mash of about 60.5 °C"),
        ("62 °C", "error: strike water of 62 °C makes a mash of about 57 °C"),
    ],
)
def test_note_from_two_warning_from_four_error_from_eight(found: Found, strike: str, finding: str) -> None:
    expected = f"5:29: {finding}, not 66 °C; the first rest needs about 72.2 °C"
    assert found("strike_water", struck(strike)) == [expected]


def test_a_rest_that_is_reached_by_heat_is_no_question(found: Found) -> None:
    """Malt goes into water of 40-45 °C, and the first rest is reached with the burner."""
    cold = recipe("water: 14 l, strike: 45 °C, rests: [{at: 66 °C, for: 60 min, by: heat}]")
    assert found("strike_water", cold) == []
    assert found("strike_water", cold.replace(", by: heat", "")) != []
    assert found("strike_water", cold.replace("strike: 45 °C, ", "").replace("14 l", "5 l")) == []


def test_in_american_units(found: Found) -> None:
    text = recipe(
        "water: 4 gal, strike: 175 °F, rests: [{at: 152 °F, for: 1 h}]", "pale ale malt, weight: 10 lb", "5 gal"
    )
    assert found("strike_water", text) == [
        (
            "5:30: warning: strike water of 175 °F makes a mash of about 164 °F, not 152 °F;"
            " the first rest needs about 162 °F"
        )
    ]


def test_a_cold_tun_takes_heat_and_a_bag_does_not_hang_in_it(found: Found) -> None:
    """Nobody says whether the tun was preheated: where that would be enough, it is a note."""
    tun = "brewhouse: Tried\nmash-tun: {heat: 2 l}\n"
    comes = "strike water of 73 °C makes a mash of about 61.3 °C, not 66 °C; the first rest needs about 79 °C"
    preheated = "; a preheated tun gives about 66.7 °C"
    assert found("strike_water", struck("73 °C"), tun) == [f"5:29: note: {comes}{preheated}"]
    assert found("strike_water", struck("68 °C"), tun) == [
        f"5:29: warning: {comes.replace('73', '68').replace('61.3', '57.3')}{preheated.replace('66.7', '62.3')}"
    ]
    assert found("strike_water", struck("73 °C").replace("water: 14", "bag: true, water: 14"), tun) == []


def test_a_tun_that_is_not_what_is_missing_is_not_spoken_of(found: Found) -> None:
    """Too hot a mash, a light tun, and a batch far too large for it."""
    heavy = "brewhouse: Tried\nmash-tun: {volume: 30 l, heat: 2 l}\n"
    light = heavy.replace("2 l", "0.2 l")
    assert found("strike_water", struck("69 °C"), light) == [
        "5:29: note: strike water of 69 °C makes a mash of about 62.6 °C, not 66 °C; the first rest needs about 72.9 °C"
    ]
    assert found("strike_water", struck("84 °C"), heavy) == [
        "5:29: note: strike water of 84 °C makes a mash of about 69.9 °C, not 66 °C; the first rest needs about 79 °C"
    ]
    cask = struck("69 °C").replace("4.5 kg", "45 kg").replace("14 l", "140 l").replace("20 l", "200 l")
    assert "preheated" not in found("strike_water", cask, heavy)[0]


def test_hotter_than_water_boils_at_the_altitude(found: Found) -> None:
    assert found("strike_water", struck("97 °C"), "brewhouse: Tried\naltitude: 2000 m\n") == [
        "5:29: error: strike water of 97 °C is not possible: water boils at 93.3 °C at 2000 m"
    ]


def test_boiling_water_may_be_called_a_hundred_degrees(found: Found) -> None:
    text = recipe("water: 6 l, strike: 100 °C, grain-temperature: 0 °C, rests: [{at: 76 °C, for: 60 min}]")
    assert found("strike_water", text, "brewhouse: Tried\naltitude: 120 m\n") == []


def test_no_water_is_hot_enough_for_so_little_of_it(found: Found) -> None:
    text = recipe("water: 4.6 l, grain-temperature: -5 °C, rests: [{at: 76 °C, for: 60 min}]")
    assert found("strike_water", text) == [
        "5:15: error: with so little water a first rest of 76 °C needs strike water of 107.7 °C; water boils at 100 °C"
    ]


def test_without_mash_water_only_what_no_thickness_mends(found: Found) -> None:
    assert found("strike_water", recipe("strike: 78 °C, rests: [{at: 66 °C, for: 60 min}]")) == []
    assert found("strike_water", recipe("strike: 90 °C, rests: [{at: 66 °C, for: 60 min}]")) == [
        (
            "5:16: warning: strike water of 90 °C makes a mash of about 81.8 °C, not 66 °C;"
            " the first rest needs about 72.1 °C"
        )
    ]


@pytest.mark.parametrize(
    "mash",
    [
        "water: 140 l, strike: 90 °C, rests: [{at: 66 °C, for: 60 min}]",
        "water: 14 l, strike: 165 °C, rests: [{at: 66 °C, for: 60 min}]",
        "water: 14 l, strike: 90 °C",
        "water: 14 l, strike: 90 °C, rests: [{for: 60 min}]",
        "water: 14 l, rests: [{at: 66 °C, for: 60 min}]",
        "water: 14 l, strike: 60 °C, rests: [{at: 66 °C, by: cereal mash}]",
    ],
)
def test_silent_on_slips_and_on_what_is_not_said(found: Found, mash: str) -> None:
    assert found("strike_water", recipe(mash)) == []


def test_no_brewhouse_altitude_is_sea_level(found: Found) -> None:
    sea = "brewhouse: Tried\naltitude: 0 m\n"
    assert found("strike_water", struck("82 °C"), sea) == found("strike_water", struck("82 °C"))
