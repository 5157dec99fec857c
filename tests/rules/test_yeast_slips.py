"""A slip of the pen in the kind of a yeast is always told, and hides nothing that can hurt, whatever else is stated."""

from collections.abc import Callable

import pytest

from mashwright.ingredients.probable import probable_yeast, slip_of

Found = Callable[..., list[str]]

TEXT = "recipe: T\nbatch: 20 l\ngrist: [{grain: Pilsner malt, weight: 4.5 kg}]\nyeast: {kind: %s, attenuation: 80 %%}\n"


@pytest.mark.parametrize(
    ("slip", "meant"),
    [
        ("saisson", "saison"),
        ("American alle", "American ale"),
        ("laager", "lager"),
        ("kviek", "kveik"),
        ("Bretanomyces", "Brettanomyces"),
        ("German laager", "german lager"),
    ],
)
def test_a_stated_attenuation_hides_no_slip(found: Found, slip: str, meant: str) -> None:
    (told,) = found("unknown_ingredient", TEXT % slip)
    assert told.startswith("4:15: warning: nothing is known of")
    assert f"did you mean {meant}?" in told


@pytest.mark.parametrize("name", ["village yeast", "house ale", "Mexican lager", "the old jar's", "wine yeast"])
def test_a_name_of_its_own_is_none(found: Found, name: str) -> None:
    assert found("unknown_ingredient", TEXT % name) == []
    assert slip_of(name) is None


@pytest.mark.parametrize("kind", ["saisson", "saizon", "French saisson", "my saison", "saison blend", "diastaticus"])
def test_what_bursts_bottles_is_seen_behind_a_slip(found: Found, kind: str) -> None:
    text = TEXT % kind + "package: {in: bottles, carbonation: 2.8 volumes}\ntargets: {og: 1.050, fg: 1.010}\n"
    (told,) = found("diastatic_yeast", text)
    assert ": error: diastatic " in told


def test_what_is_said_not_to_be_diastatic_is_not(found: Found) -> None:
    text = TEXT % "non-diastatic house saison"
    text += "package: {in: bottles, carbonation: 2.8 volumes}\ntargets: {og: 1.050, fg: 1.010}\n"
    assert found("diastatic_yeast", text) == []
    text = text.replace("attenuation: 80 %", "diastatic: false").replace("non-diastatic house saison", "my saison")
    assert found("diastatic_yeast", text) == []


def test_the_heat_is_judged_behind_a_slip(found: Found) -> None:
    (told,) = found("fermentation_temperature", TEXT % "laager" + "ferment: [{at: 24 °C, for: 12 d}]\n")
    assert ": warning: 24 °C is warm for laager yeast, which ferments at 7 to 15 °C" in told


def test_brettanomyces_and_lager_are_seen_too(found: Found) -> None:
    text = TEXT % "bretanomyces" + "package: {in: bottles, carbonation: 2.4 volumes}\ntargets: {og: 1.050, fg: 1.010}\n"
    assert ": warning: bretanomyces can ferment from 1.010" in found("diastatic_yeast", text)[0]
    text = TEXT % "laager" + "ferment: [{at: 9 °C, for: 6 d}]\npackage: {in: bottles}\ntargets: {og: 1.048}\n"
    assert (
        ": warning: 6 d is too short; a wort of 1.048 at 9 °C needs at least 7 d" in found("unfinished_beer", text)[0]
    )


def test_the_kind_that_is_known_is_itself() -> None:
    for kind in ("saison", "American ale", "kveik", "Brett"):
        assert slip_of(kind) is None
        assert probable_yeast(kind) is not None
    assert probable_yeast("") is None
