from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

HOUSE = """\
brewhouse: Tried
mash-tun: {volume: 30 l, dead-space: 1 l}
kettle: {volume: 35 l, loss: 1 l, boil-off: 4 l/h}
absorption: 1.0 l/kg
"""


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
        ("14 l", ["warning: the stated waters bring about 22.5 l to the kettle, not 26 l"]),
        ("9 l", ["error: the stated waters bring about 17.5 l to the kettle, not 26 l"]),
        ("21 l", ["note: the stated waters bring about 29.5 l to the kettle, not 26 l"]),
        ("30 l", ["warning: the stated waters bring about 38.5 l to the kettle, not 26 l"]),
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
        ("18 l", "error: 18 l before the boil leaves about 12.4 l"),
        ("30 l", "note: 30 l before the boil leaves about 24 l"),
    ],
)
def test_a_batch_that_does_not_come_from_the_boil(found: Found, volume: str, finding: str) -> None:
    text = recipe("water: 14 l", "", f"volume: {volume}, for: 60 min")
    expected = [f"5:16: {finding} for the fermenter, not 20 l; it takes about 25.9 l"] if finding else []
    assert found("volume_balance", text, HOUSE) == expected


def test_losses_that_are_not_stated_may_be_smaller(found: Found) -> None:
    text = recipe("water: 14 l", "", "volume: 20 l, for: 60 min")
    assert found("volume_balance", text) == [
        "5:16: warning: 20 l before the boil leaves about 14.2 l for the fermenter, not 20 l; it takes about 26.1 l"
    ]


def test_waters_against_the_batch_where_no_boil_is_stated(found: Found) -> None:
    assert found("volume_balance", recipe("water: 14 l", "by: batch, water: 17 l"), HOUSE) == []
    assert found("volume_balance", recipe("water: 14 l", "by: batch, water: 13 l"), HOUSE) == [
        "5:28: warning: the stated waters leave about 15.8 l for the fermenter, not 20 l"
    ]
    assert found("volume_balance", recipe("water: 14 l", "by: batch, water: 6 l"), HOUSE) == [
        "5:28: error: the stated waters leave about 9.1 l for the fermenter, not 20 l"
    ]


def test_a_batch_counted_in_the_kettle(found: Found) -> None:
    text = recipe("water: 14 l", "by: batch, water: 12 l", batch="{kettle: 22 l}")
    assert found("volume_balance", text, HOUSE) == [
        "5:28: warning: 22 l needs about 26 l before the boil, and there are 20.5 l"
    ]
    assert found("volume_balance", text.replace("12 l", "17 l"), HOUSE) == []


def test_top_up_counts_where_it_is_poured(found: Found) -> None:
    short = recipe("water: 14 l", "by: batch, water: 9 l")
    assert found("volume_balance", short + "top-up: {fermenter: 8 l}\n", HOUSE) == []
    assert found("volume_balance", short + "top-up: {kettle: 8 l}\n", HOUSE) == []
    assert found("volume_balance", short, HOUSE) == [
        "5:28: error: the stated waters leave about 12 l for the fermenter, not 20 l"
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
        "2:8: error: the stated waters leave about 5.2 l for the fermenter, not 20 l"
    ]
