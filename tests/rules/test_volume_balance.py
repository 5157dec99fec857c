from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

HOUSE = """\
brewhouse: Tried
mash-tun: {volume: 30 l, dead-space: 1 l}
kettle: {volume: 35 l, loss: 1 l, boil-off: 4 l/h}
absorption: 1.0 l/kg
"""
UNSAID = "; if more water goes in, state `top-up`"


def recipe(mash: str, sparge: str = "", boil: str = "", more: str = "", batch: str = "20 l") -> str:
    """A short recipe: mash on line 4, sparge on 5, boil after it."""
    sections = [f"mash: {{{mash}}}"]
    sections += [f"sparge: {{{sparge}}}"] if sparge else []
    sections += [f"boil: {{{boil}}}"] if boil else []
    grist = "grist: [{grain: pale ale malt, weight: 4.5 kg}]"
    return "\n".join(["recipe: Tried", f"batch: {batch}", grist, *sections, more, ""])


def test_waters_boil_and_batch_agree(found: Found) -> None:
    text = recipe("water: 14 l", "by: batch, water: 17 l", "volume: 26 l, for: 60 min")
    assert found("volume_balance", text) == []
    assert found("volume_balance", text, HOUSE) == []


@pytest.mark.parametrize(
    ("sparge", "finding"),
    [
        ("15 l", []),
        ("14 l", [f"warning: the stated water gives about 22.5 l in the kettle, not 26 l{UNSAID}"]),
        ("9 l", [f"warning: the stated water gives about 17.5 l in the kettle, not 26 l{UNSAID}"]),
        ("21 l", ["note: the stated water gives about 29.5 l in the kettle, not 26 l"]),
        ("30 l", ["warning: the stated water gives about 38.5 l in the kettle, not 26 l"]),
    ],
)
def test_a_boil_that_does_not_come_from_the_waters(found: Found, sparge: str, finding: list[str]) -> None:
    text = recipe("water: 14 l", f"by: batch, water: {sparge}", "volume: 26 l, for: 60 min")
    assert found("volume_balance", text, HOUSE) == [f"6:16: {one}" for one in finding]


@pytest.mark.parametrize(
    ("volume", "finding"),
    [
        ("25 l", ""),
        ("21.5 l", "warning: 21.5 l before the boil leaves about 15.8 l"),
        ("18 l", "warning: 18 l before the boil leaves about 12.4 l"),
        ("30 l", "note: 30 l before the boil leaves about 24 l"),
    ],
)
def test_a_batch_that_does_not_come_from_the_boil(found: Found, volume: str, finding: str) -> None:
    text = recipe("water: 14 l", "", f"volume: {volume}, for: 60 min")
    unsaid = "" if "note" in finding else UNSAID
    expected = [f"5:16: {finding} for the fermenter, not 20 l; it needs about 25.9 l{unsaid}"] if finding else []
    assert found("volume_balance", text, HOUSE) == expected


def test_losses_that_are_not_stated_may_be_smaller(found: Found) -> None:
    text = recipe("water: 14 l", "", "volume: 20 l, for: 60 min")
    assert found("volume_balance", text) == [
        "5:16: warning: 20 l before the boil leaves about 14.2 l for the fermenter, not 20 l; it needs about 26.1 l"
        + UNSAID
    ]


def test_waters_against_the_batch_where_no_boil_is_stated(found: Found) -> None:
    assert found("volume_balance", recipe("water: 14 l", "by: batch, water: 17 l"), HOUSE) == []
    assert found("volume_balance", recipe("water: 14 l", "by: batch, water: 13 l"), HOUSE) == [
        f"5:28: warning: the stated water leaves about 15.8 l for the fermenter, not 20 l{UNSAID}"
    ]
    assert found("volume_balance", recipe("water: 14 l", "by: batch, water: 6 l"), HOUSE) == [
        f"5:28: warning: the stated water leaves about 9.1 l for the fermenter, not 20 l{UNSAID}"
    ]


def test_a_batch_counted_in_the_kettle(found: Found) -> None:
    text = recipe("water: 14 l", "by: batch, water: 12 l", batch="{kettle: 22 l}")
    assert found("volume_balance", text, HOUSE) == [
        f"5:28: warning: 22 l needs about 26 l before the boil; there are 20.5 l{UNSAID}"
    ]
    assert found("volume_balance", text.replace("12 l", "17 l"), HOUSE) == []


def test_what_a_recipe_may_have_left_unsaid_is_no_error(found: Found) -> None:
    """Only where the top-up is stated is all of the water known."""
    short = recipe("water: 14 l", "by: batch, water: 4 l", "volume: 26 l, for: 60 min")
    assert [one.split(": ")[1] for one in found("volume_balance", short, HOUSE)] == ["warning"]
    stated = short + "top-up: {kettle: 1 l}\n"
    assert [one.split(": ")[1] for one in found("volume_balance", stated, HOUSE)] == ["error"]
    assert UNSAID not in found("volume_balance", stated, HOUSE)[0]


def test_top_up_counts_where_it_is_poured(found: Found) -> None:
    short = recipe("water: 14 l", "by: batch, water: 9 l")
    assert found("volume_balance", short + "top-up: {fermenter: 8 l}\n", HOUSE) == []
    assert found("volume_balance", short + "top-up: {kettle: 8 l}\n", HOUSE) == []
    assert found("volume_balance", short, HOUSE) == [
        f"5:28: warning: the stated water leaves about 12 l for the fermenter, not 20 l{UNSAID}"
    ]


EVENING = """\
recipe: Tried
batch: 5 imp gal
grist: [{grain: pale ale malt, weight: 7 lb}, {grain: crystal malt 60, weight: 12 oz}]
mash: {water: 2.25 imp gal}
sparge: {by: fly, water: 4.5 imp gal}
boil: {volume: 6.25 imp gal, for: 90 min}
"""


def test_a_shortfall_hidden_in_two_halves_is_said_once(found: Found) -> None:
    """Each half is less than a tenth short, the whole is nearly a fifth."""
    assert found("volume_balance", EVENING, HOUSE) == [
        (
            "6:16: warning: the stated water gives about 5.76 imp gal in the kettle, not 6.25 imp gal,"
            f" and leaves about 4.04 imp gal for the fermenter, not 5 imp gal{UNSAID}"
        )
    ]
    first_half = EVENING.replace("for: 90 min", "for: 45 min")
    assert found("volume_balance", first_half.replace("4.5 imp gal}", "4.7 imp gal}"), HOUSE) == []
    mended = EVENING.replace("4.5 imp gal}", "5.5 imp gal}").replace("6.25", "6.75")
    assert found("volume_balance", mended, HOUSE) == []


def test_two_halves_that_are_both_off_are_one_finding(found: Found) -> None:
    text = recipe("water: 14 l", "by: batch, water: 11 l", "volume: 22.5 l, for: 60 min")
    assert found("volume_balance", text, HOUSE) == [
        (
            "6:16: warning: the stated water gives about 19.5 l in the kettle, not 22.5 l,"
            f" and leaves about 13.9 l for the fermenter, not 20 l{UNSAID}"
        )
    ]
    much = recipe("water: 14 l", "by: batch, water: 22.5 l", "volume: 28 l, for: 60 min")
    assert found("volume_balance", much, HOUSE) == [
        (
            "6:16: note: the stated water gives about 31 l in the kettle, not 28 l, and leaves about 24.9 l for"
            " the fermenter, not 20 l"
        )
    ]


def test_a_boil_between_waters_and_batch_that_agree(found: Found) -> None:
    text = recipe("water: 14 l", "by: batch, water: 17 l", "volume: 32 l, for: 60 min")
    assert found("volume_balance", text, HOUSE) == [
        "6:16: warning: the stated water gives about 25.5 l in the kettle and the batch needs about 25.9 l, not 32 l"
    ]


def test_the_whole_where_the_batch_is_counted_in_the_kettle(found: Found) -> None:
    text = recipe("water: 14 l", "by: batch, water: 13.5 l", "volume: 24 l, for: 60 min", batch="{kettle: 22 l}")
    assert found("volume_balance", text, HOUSE) == [
        (
            "6:16: warning: the stated water gives about 22 l in the kettle, not 24 l;"
            f" 22 l needs about 26 l before the boil{UNSAID}"
        )
    ]


def test_a_boil_off_that_nobody_states_is_given_the_benefit_of_the_doubt(found: Found) -> None:
    long = recipe("water: 14 l", "", "volume: 24 l, for: 90 min")
    assert found("volume_balance", long) == [
        (
            "5:16: note: 24 l before the boil leaves about 16.1 l for the fermenter, not 20 l; at most 19.7 l if"
            " boil-off is low; state `boil-off`"
        )
    ]
    assert found("volume_balance", long, HOUSE) == [
        "5:16: warning: 24 l before the boil leaves about 16.3 l for the fermenter, not 20 l; it needs about 27.9 l"
        + UNSAID
    ]
    kettle = recipe("water: 14 l", "", "volume: 24.5 l, for: 90 min", batch="{kettle: 22 l}")
    assert found("volume_balance", kettle) == [
        (
            "5:16: note: 22 l needs about 28 l before the boil; there are 24.5 l; 25 l is enough if boil-off is"
            " low; state `boil-off`"
        )
    ]
    assert found("volume_balance", recipe("water: 14 l", "by: batch, water: 13.5 l")) == []
    waters = recipe("water: 14 l", "by: batch, water: 12.5 l")
    assert found("volume_balance", waters) == [
        (
            "5:28: note: the stated water leaves about 15.8 l for the fermenter, not 20 l; at most 19.6 l if"
            " boil-off is low; state `boil-off`"
        )
    ]


EXTRACT = """\
recipe: Tried
batch: 20 l
grist: [{extract: light dry malt extract, weight: 2.5 kg}]
boil: {volume: 10 l, for: 60 min}
"""


@pytest.mark.parametrize(
    "text",
    [
        recipe("water: 14 l"),
        recipe("water: 14 l", "by: fly, at: 76 °C"),
        recipe("water: 16 l, bag: true"),
        recipe("crush: fine", "by: batch, water: 4 l"),
        EXTRACT,
    ],
)
def test_silent_where_a_water_is_not_stated(found: Found, text: str) -> None:
    assert found("volume_balance", text) == []


def test_a_mash_that_is_said_not_to_be_sparged(found: Found) -> None:
    assert found("volume_balance", recipe("water: 31 l", "by: none"), HOUSE) == []
    assert found("volume_balance", recipe("water: 16 l", "by: none"), HOUSE) == [
        f"2:8: warning: the stated water leaves about 5.2 l for the fermenter, not 20 l{UNSAID}"
    ]


FULL = """\
recipe: Tried
batch: 20 l
grist:
  - {extract: light liquid malt extract, weight: 3 kg}
  - {grain: caramel malt 80, weight: 500 g, add: steep}
steep: {water: 3 l, at: 67 °C, for: 30 min}
top-up: {kettle: 21 l}
boil: {volume: 26 l, for: 60 min}
"""


def test_malt_extract_boiled_full_is_checked_from_steep_to_fermenter(found: Found) -> None:
    assert found("volume_balance", FULL, HOUSE) == []
    assert found("volume_balance", FULL) == []
    assert found("volume_balance", FULL.replace("kettle: 21 l", "kettle: 16 l"), HOUSE) == [
        "8:16: warning: the stated water gives about 20.6 l in the kettle, not 26 l"
    ]
    assert found("volume_balance", FULL.replace("kettle: 21 l", "kettle: 30 l").replace("26 l", "35 l"), HOUSE) == [
        "8:16: warning: 35 l before the boil leaves about 28.8 l for the fermenter, not 20 l; it needs about 25.9 l"
    ]


def test_malt_extract_boiled_full_and_short_is_a_note_since_it_can_be_topped_up(found: Found) -> None:
    text = FULL.replace("kettle: 21 l", "kettle: 16 l").replace("26 l", "20.5 l")
    topped = "; top up with about 5.2 l"
    assert found("volume_balance", text, HOUSE) == [
        f"8:16: note: 20.5 l before the boil leaves about 14.8 l for the fermenter, not 20 l{topped}"
    ]
    assert found("volume_balance", text.replace("boil: {volume: 20.5 l, ", "boil: {"), HOUSE) == [
        "2:8: note: the stated water leaves about 14.9 l for the fermenter, not 20 l; top up with about 5.1 l"
    ]
    assert found("volume_balance", text.replace("kettle: 16 l", "kettle: 16 l, fermenter: 5 l"), HOUSE) == []


def test_a_top_up_in_the_fermenter_that_is_stated_must_suffice(found: Found) -> None:
    small = EXTRACT + "top-up: {fermenter: %s}\n"
    assert found("volume_balance", small % "14.5 l", HOUSE) == []
    assert found("volume_balance", small % "11 l", HOUSE) == [
        "4:16: warning: 10 l before the boil leaves about 15.8 l for the fermenter, not 20 l; it needs about 14.4 l"
    ]


LEFT_OUT = """\
recipe: Tried
batch: 20 l
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
mash: {water: 12 l, rests: [{at: 66 °C, for: 60 min}]}
sparge: {water: %s}
boil: {volume: %s, for: 60 min}
"""


@pytest.mark.parametrize("words", ["as needed", "As Required", "to volume", "to the mark"])
def test_water_that_is_left_out_on_purpose_is_not_missing(words: str, found: Callable[..., list[str]]) -> None:
    short = LEFT_OUT % ("5 l", "26 l")
    assert len(found("volume_balance", short)) == 1
    assert found("volume_balance", f"{short}top-up: {{kettle: {words}}}\n") == []
    assert found("volume_balance", LEFT_OUT % (words, "26 l")) == []
    assert found("volume_balance", f"{LEFT_OUT % ('5 l', '12.5 l')}top-up: {{fermenter: {words}}}\n") == []


def test_the_fermenter_fills_no_kettle(found: Callable[..., list[str]]) -> None:
    text = f"{LEFT_OUT % ('5 l', '26 l')}top-up: {{fermenter: as needed}}\n"
    assert [told.split(";")[0] for told in found("volume_balance", text)] == [
        "7:16: error: the stated water gives about 12.4 l in the kettle, not 26 l"
    ]


def test_too_much_is_too_much_all_the_same(found: Callable[..., list[str]]) -> None:
    text = f"{LEFT_OUT % ('40 l', '26 l')}top-up: {{kettle: as needed}}\n"
    assert len(found("volume_balance", text)) == 1
