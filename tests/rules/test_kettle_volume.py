from collections.abc import Callable
from pathlib import Path

import pytest

import mashwright

Found = Callable[..., list[str]]

KETTLE = "brewhouse: Tried\nkettle: {volume: 30 l}\n"


def recipe(volume: str = "", batch: str = "20 l") -> str:
    """A short recipe; its boil, if one is given, stands on line 4."""
    boil = f"boil: {{volume: {volume}, for: 60 min}}\n" if volume else ""
    return f"recipe: Tried\nbatch: {batch}\ngrist: [{{grain: pale ale malt, weight: 4.5 kg}}]\n{boil}"


@pytest.mark.parametrize("volume", ["26 l", "27 l"])
def test_room_for_the_foam(found: Found, volume: str) -> None:
    assert found("kettle_volume", recipe(volume), KETTLE) == []


def test_a_stated_boil_that_is_too_full_is_an_error(found: Found) -> None:
    assert found("kettle_volume", recipe("27.1 l"), KETTLE) == [
        "4:16: error: 27.1 l before the boil in a kettle of 30 l may boil over and scald; fill it to at most 27 l, 90 %"
    ]
    assert found("kettle_volume", recipe("31 l", batch="22 l"), KETTLE) == [
        (
            "4:16: error: 31 l before the boil does not fit in a kettle of 30 l, which boils at most 27 l without"
            " boiling over; this batch needs about 28.6 l, so brew less of it or top up the fermenter"
        )
    ]


# 18 l and the litre that stays, 4 % more of it hot, and 4 l boiled away
KNOWN = "brewhouse: Tried\nkettle: {volume: 30 l, loss: 1 l, boil-off: 4 l/h}\n"


def test_a_slip_is_told_by_what_the_batch_takes(found: Found) -> None:
    assert found("kettle_volume", recipe("29 l", batch="18 l"), KNOWN) == [
        (
            "4:16: error: 29 l before the boil in a kettle of 30 l may boil over and scald; fill it to at most 27"
            " l, 90 %; this batch needs about 23.8 l"
        )
    ]
    assert found("kettle_volume", recipe("31 l", batch="18 l"), KNOWN) == [
        (
            "4:16: error: 31 l before the boil does not fit in a kettle of 30 l, which boils at most 27 l without"
            " boiling over; this batch needs about 23.8 l"
        )
    ]
    assert found("kettle_volume", recipe("27.5 l", batch="20.5 l"), KNOWN) == [
        "4:16: error: 27.5 l before the boil in a kettle of 30 l may boil over and scald; fill it to at most 27 l, 90 %"
    ]


def test_a_batch_that_needs_more_than_the_kettle_boils(found: Found) -> None:
    """22 l and one that stays are 24 l hot, and 28 l before the boil."""
    assert found("kettle_volume", recipe("29 l", batch="22 l"), KNOWN) == [
        (
            "4:16: error: 29 l before the boil in a kettle of 30 l may boil over and scald; fill it to at most 27"
            " l, 90 %; this batch needs about 28 l, so brew less of it or top up the fermenter"
        )
    ]


def test_extract_boiled_small_is_filled_less(tmp_path: Path) -> None:
    (tmp_path / "brewhouse.yaml").write_text(KNOWN.replace("30 l", "12 l"), encoding="utf-8")
    text = "recipe: Tried\nbatch: 20 l\ngrist: [{extract: light dry malt extract, weight: 2.5 kg}]\n"
    text += "boil: {volume: 11 l, for: 60 min}\n"
    results = mashwright.review_text(text, str(tmp_path / "recipe.yaml")).recipes[0].results
    (finding,) = [one for one in results if one.rule == "kettle-volume"]
    assert (
        finding.message == "11 l before the boil in a kettle of 12 l may boil over and scald; fill it to at most"
        " 10.8 l, 90 %"
    )
    assert [remedy.text for remedy in finding.remedies] == ["boil 10.8 l instead of 11 l"]


def with_waters(volume: str) -> str:
    """31 l of water, of which 4.5 kg of malt keep a litre each."""
    mash = "mash: {water: 14 l, rests: [{at: 66 °C, for: 60 min}]}\nsparge: {by: batch, water: 17 l, at: 76 °C}\n"
    return recipe(volume) + mash


def test_a_volume_that_contradicts_the_sum_is_mended_by_the_sum(found: Found) -> None:
    house = "brewhouse: Tried\nkettle: {volume: 32 l, loss: 1 l, boil-off: 4 l/h}\nmash-tun: {dead-space: 1 l}\n"
    text = with_waters("32 l")
    assert found("kettle_volume", text, house + "absorption: 1 l/kg\n") == [
        (
            "4:16: error: 32 l before the boil in a kettle of 32 l may boil over and scald; fill it to at most"
            " 28.8 l, 90 %; the stated water gives about 25.5 l"
        )
    ]


def test_one_number_has_one_mend(tmp_path: Path) -> None:
    house = "brewhouse: Tried\nkettle: {volume: 32 l, loss: 1 l, boil-off: 4 l/h}\nabsorption: 1 l/kg\n"
    (tmp_path / "brewhouse.yaml").write_text(house, encoding="utf-8")
    results = mashwright.review_text(with_waters("32 l"), str(tmp_path / "recipe.yaml")).recipes[0].results
    texts = {remedy.text for one in results if one.place.line == 4 for remedy in one.remedies}
    assert len(texts) == 1
    assert any(one.rule == "kettle-volume" and one.remedies for one in results)


def test_a_range_is_a_warning_at_its_full_end(found: Found) -> None:
    assert found("kettle_volume", recipe("25-28 l"), KETTLE) == [
        (
            "4:16: warning: 25-28 l before the boil in a kettle of 30 l may boil over and scald; fill it to at most"
            " 27 l, 90 %"
        )
    ]


def test_what_is_only_reckoned_is_a_warning_unless_nothing_makes_it_fit(found: Found) -> None:
    assert found("kettle_volume", recipe(batch="20 l"), KETTLE) == []
    assert found("kettle_volume", recipe(batch="21.5 l"), KETTLE) == [
        (
            "2:8: warning: 27.9 l that the batch needs before the boil in a kettle of 30 l may boil over and"
            " scald; fill it to at most 27 l, 90 %"
        )
    ]
    assert found("kettle_volume", recipe(batch="24 l"), KETTLE) == [
        (
            "2:8: error: 31 l that the batch needs before the boil does not fit in a kettle of 30 l, which boils"
            " at most 27 l without boiling over"
        )
    ]


def test_the_house_may_know_its_kettle(found: Found) -> None:
    assert found("kettle_volume", recipe("28 l"), KETTLE, full_percent=95) == []


def test_silent_without_a_kettle_and_for_another_house(found: Found) -> None:
    assert found("kettle_volume", recipe("40 l")) == []
    assert found("kettle_volume", recipe(batch="200 l"), KETTLE) == []
