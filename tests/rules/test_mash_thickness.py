from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]


def recipe(mash: str, sparge: str = "sparge: {by: fly, at: 76 °C}") -> str:
    """A short recipe whose mash stands on line 4."""
    grist = "grist: [{grain: pale ale malt, weight: 4.5 kg}]"
    return f"recipe: Tried\nbatch: 20 l\n{grist}\nmash: {{{mash}}}\n{sparge}\n"


@pytest.mark.parametrize("thickness", ["2 l/kg", "2.6 l/kg", "4 l/kg", "1.25 qt/lb"])
def test_practical(found: Found, thickness: str) -> None:
    assert found("mash_thickness", recipe(f"thickness: {thickness}")) == []


@pytest.mark.parametrize(
    ("thickness", "level", "words"),
    [
        ("1.8 l/kg", "note", "a stiff mash"),
        ("1.4 l/kg", "warning", "a mash too stiff to stir"),
        ("4.5 l/kg", "note", "thin for a mash that is sparged, and leaves little sparge water"),
        ("6.5 l/kg", "warning", "thin for a mash that is sparged, and leaves little sparge water"),
    ],
)
def test_outside(found: Found, thickness: str, level: str, words: str) -> None:
    assert found("mash_thickness", recipe(f"thickness: {thickness}")) == [
        f"4:19: {level}: {thickness} of water to grain is {words}; 2 to 4 l/kg is usual"
    ]


@pytest.mark.parametrize(("mash", "sparge"), [("bag: true, ", ""), ("", ""), ("", "sparge: {by: none}")])
def test_all_the_water_at_once(found: Found, mash: str, sparge: str) -> None:
    assert found("mash_thickness", recipe(f"{mash}thickness: 7.5 l/kg", sparge)) == []


def test_very_thin_even_for_that(found: Found) -> None:
    assert found("mash_thickness", recipe("thickness: 9 l/kg", "")) == [
        "4:19: note: 9 l/kg of water to grain is a very thin mash; 2 to 8 l/kg is usual"
    ]


def test_by_the_water(found: Found) -> None:
    assert found("mash_thickness", recipe("water: 6.5 l")) == [
        "4:15: warning: 1.44 l/kg of water to grain is a mash too stiff to stir; 2 to 4 l/kg is usual"
    ]


def test_in_quarts(found: Found) -> None:
    text = "recipe: Tried\nbatch: 5 gal\ngrist: [{grain: pale ale malt, weight: 12 lb}]\nmash: {water: 2 gal}\n"
    assert found("mash_thickness", text) == [
        "4:15: warning: 0.67 qt/lb of water to grain is a mash too stiff to stir; 0.96 to 3.83 qt/lb is usual"
    ]


@pytest.mark.parametrize(
    ("batch", "weight", "mash", "said"),
    [
        ("5 imp gal", "12 lb", "water: 1.5 imp gal", "0.5 imp qt/lb"),
        ("20 l", "10 lb", "water: 6.5 l", "1.43 l/kg"),
        ("20 l", "4.5 kg", "thickness: 0.7 qt/lb", "0.7 qt/lb"),
    ],
)
def test_in_the_recipes_own_unit_as_the_figure_is(found: Found, batch: str, weight: str, mash: str, said: str) -> None:
    text = f"recipe: Tried\nbatch: {batch}\ngrist: [{{grain: pale ale malt, weight: {weight}}}]\nmash: {{{mash}}}\n"
    (told,) = found("mash_thickness", text)
    assert told.split(": ", 2)[2].startswith(f"{said} of water to grain is a mash too stiff to stir")
    assert told.endswith(f"{said.split(' ', 1)[1]} is usual")


@pytest.mark.parametrize("mash", ["thickness: 0.5 l/kg", "thickness: 16 l/kg", "water: 140 l", "crush: fine"])
def test_silent_on_slips_and_on_what_is_not_said(found: Found, mash: str) -> None:
    assert found("mash_thickness", recipe(mash)) == []
