"""A slip of the pen in the kind of a yeast is always told, whatever else is stated of it."""

from collections.abc import Callable

import pytest

Found = Callable[..., list[str]]

TEXT = "recipe: T\nbatch: 20 l\ngrist: [{grain: Pilsner malt, weight: 4.5 kg}]\nyeast: {kind: %s, attenuation: 80 %%}\n"


@pytest.mark.parametrize(("slip", "meant"), [("saisson", "saison"), ("American alle", "American ale")])
def test_a_stated_attenuation_hides_no_slip(found: Found, slip: str, meant: str) -> None:
    (told,) = found("unknown_ingredient", TEXT % slip)
    assert told.startswith("4:15: warning: nothing is known of")
    assert f"did you mean {meant}" in told


def test_a_name_of_its_own_is_none(found: Found) -> None:
    assert found("unknown_ingredient", TEXT % "village yeast") == []
