from collections.abc import Callable

import pytest

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
        "4:16: error: 27.1 l before the boil in a kettle of 30 l may boil over and scald: fill it to 27 l, 90 %"
    ]
    assert found("kettle_volume", recipe("31 l"), KETTLE) == [
        "4:16: error: 31 l before the boil does not fit in a kettle of 30 l, which boils 27 l without boiling over"
    ]


def test_a_range_is_a_warning_at_its_full_end(found: Found) -> None:
    assert found("kettle_volume", recipe("25-28 l"), KETTLE) == [
        "4:16: warning: 25-28 l before the boil in a kettle of 30 l may boil over and scald: fill it to 27 l, 90 %"
    ]


def test_what_is_only_reckoned_is_a_warning_unless_nothing_makes_it_fit(found: Found) -> None:
    assert found("kettle_volume", recipe(batch="20 l"), KETTLE) == []
    assert found("kettle_volume", recipe(batch="21.5 l"), KETTLE) == [
        (
            "2:8: warning: 27.9 l that the batch needs before the boil in a kettle of 30 l may boil over and scald:"
            " fill it to 27 l, 90 %"
        )
    ]
    assert found("kettle_volume", recipe(batch="24 l"), KETTLE) == [
        (
            "2:8: error: 31 l that the batch needs before the boil does not fit in a kettle of 30 l,"
            " which boils 27 l without boiling over"
        )
    ]


def test_the_house_may_know_its_kettle(found: Found) -> None:
    assert found("kettle_volume", recipe("28 l"), KETTLE, full_percent=95) == []


def test_silent_without_a_kettle_and_for_another_house(found: Found) -> None:
    assert found("kettle_volume", recipe("40 l")) == []
    assert found("kettle_volume", recipe(batch="200 l"), KETTLE) == []
