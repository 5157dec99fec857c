from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

TUN = "brewhouse: Tried\nmash-tun: {volume: 25 l}\n"


def recipe(mash: str, kg: str = "8 kg", batch: str = "20 l", more: str = "") -> str:
    """A short recipe whose mash stands on line 4."""
    grist = f"grist: [{{grain: pale ale malt, weight: {kg}}}]"
    return f"recipe: Tried\nbatch: {batch}\n{grist}\nmash: {{{mash}}}\n{more}\n"


@pytest.mark.parametrize(
    ("water", "finding"),
    [
        ("19 l", []),
        (
            "19.7 l",
            [
                (
                    "note: 8 kg of grain with all the mash water fills 24.98 l;"
                    " the mash tun holds 25 l, and leaves no room to stir"
                )
            ],
        ),
        ("19.75 l", ["warning: 8 kg of grain with all the mash water fills 25.03 l; the mash tun holds 25 l"]),
        ("20 l", ["error: 8 kg of grain with all the mash water fills 25.3 l; the mash tun holds 25 l"]),
        ("24.7 l", ["error: 8 kg of grain with all the mash water fills 30 l; the mash tun holds 25 l"]),
    ],
)
def test_thirty_litres_in_a_tun_of_twenty_five(found: Found, water: str, finding: list[str]) -> None:
    assert found("mash_tun_volume", recipe(f"water: {water}"), TUN) == [f"4:15: {one}" for one in finding]


def test_infusions_count(found: Found) -> None:
    step = "rests: [{at: 62 °C, for: 40 min}, {at: 72 °C, for: 20 min, by: infusion, water: 6 l, of: 98 °C}]"
    assert found("mash_tun_volume", recipe(f"water: 15 l, {step}"), TUN) == [
        "4:15: error: 8 kg of grain with all the mash water fills 26.3 l; the mash tun holds 25 l"
    ]


def test_without_mash_water_only_what_no_thickness_mends(found: Found) -> None:
    assert found("mash_tun_volume", recipe("crush: fine", "7.5 kg"), TUN) == []
    assert found("mash_tun_volume", recipe("crush: fine", "9 kg"), TUN) == [
        "3:1: warning: 9 kg of grain with all the mash water fills 32.9 l; the mash tun holds 25 l"
    ]


def test_a_bag_hangs_in_the_kettle(found: Found) -> None:
    house = "brewhouse: Tried\nkettle: {volume: 30 l}\nmash-tun: {volume: 10 l}\n"
    assert found("mash_tun_volume", recipe("water: 26 l, bag: true", "4.5 kg"), house) == []
    assert found("mash_tun_volume", recipe("water: 30 l, bag: true", "4.5 kg"), house) == [
        "4:15: error: 4.5 kg of grain with all the mash water fills 33 l; the kettle holds 30 l"
    ]


def test_a_batch_sparge_in_two(found: Found) -> None:
    text = recipe("water: 12 l", "4.5 kg", more="sparge: {by: batch, water: 20 l, at: 76 °C}")
    assert found("mash_tun_volume", text, TUN) == [
        (
            "5:28: note: the drained grain with all the sparge water fills 27.7 l; the mash tun holds 25 l, so"
            " sparge in two steps"
        )
    ]


def test_silent_without_a_tun_and_for_another_house(found: Found) -> None:
    assert found("mash_tun_volume", recipe("water: 40 l")) == []
    assert found("mash_tun_volume", recipe("water: 140 l", "45 kg", "200 l"), TUN) == []
