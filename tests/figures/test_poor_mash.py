"""What comes of a mash that converts poorly, and what counts as starch and as enzymes in it."""

from itertools import pairwise

import pytest

from mashwright.brew.brew import Brew
from mashwright.brewing.mash import Rest, minutes_counted
from mashwright.brewing.mash_rates import ADDED_LINTNER, thickness_shift_c
from mashwright.figures.beer.strength import apparent_attenuation, fermenting, fg, malt_degree
from mashwright.figures.grist.shares import grist_diastatic_power
from mashwright.figures.mash.converting import conversion
from mashwright.figures.mash.gravity import converted_share, deliveries, og

MALT = "grain: two-row pale malt, weight: 3.5 kg"
HOUR = "{at: 66 °C, for: 60 min}"


def brew(*grist: str, rests: str = HOUR, mash: str = "", more: str = "") -> Brew:
    lines = "".join(f"  - {{{line}}}\n" for line in grist)
    text = f"recipe: Lane Trial\nbatch: 20 l\ngrist:\n{lines}mash: {{rests: [{rests}]{mash}}}\n{more}"
    return Brew.of(text)


def points(gravity: float) -> float:
    return 1000 * (gravity - 1)


def test_a_mash_that_converts_gives_all_that_its_efficiency_says() -> None:
    assert converted_share(brew(MALT)).typical == 1
    assert points(og(brew(MALT)).typical) == pytest.approx(37.6, abs=0.5)


def test_og_and_fg_follow_what_is_converted() -> None:
    """Cold water dissolves a fifth of malt's extract; half of the paste that is not converted runs off too."""
    cold, whole = brew(MALT, rests="{at: 12 °C, for: 60 min}"), brew(MALT)
    assert conversion(cold).typical < 0.5
    assert converted_share(cold).typical == pytest.approx(0.2, abs=0.01)
    assert points(og(cold).typical) == pytest.approx(0.2 * points(og(whole).typical), abs=0.5)
    half = brew(MALT, rests="{at: 57 °C, for: 30 min}")
    assert 0.4 < converted_share(half).typical < 0.8
    assert points(og(half).low) < points(og(half).typical) < points(og(half).high) < points(og(whole).high)
    assert points(fg(half).typical) < points(fg(whole).typical)


def test_the_run_off_counts_where_no_mash_out_ends_the_enzymes() -> None:
    short = "{at: 66 °C, for: 10 min}"
    assert converted_share(brew(MALT, rests=short)).typical == 1
    assert converted_share(brew(MALT, rests=f"{short}, {{at: 78 °C, for: 1 min}}")).typical < 1


def test_a_stated_efficiency_is_cut_to_what_is_set_free_and_no_further() -> None:
    half = "{at: 57 °C, for: 30 min}"
    free = converted_share(brew(MALT, rests=half)).typical
    assert converted_share(brew(MALT, rests=half, more="efficiency: 40 %\n")).typical == 1
    assert converted_share(brew(MALT, rests=half, more="efficiency: 90 %\n")).typical == pytest.approx(free / 0.9)


@pytest.mark.parametrize(
    "line", ["grain: potatoes", "fruit: potatoes", "grain: tapioca starch", "fruit: chestnuts", "fruit: bread"]
)
def test_starch_of_no_grain_ferments_as_converted_malt(line: str) -> None:
    with_it = brew(MALT, f"{line}, weight: 800 g")
    assert {one.part.place for one in deliveries(with_it)} == {"mash"}
    assert apparent_attenuation(with_it).typical == pytest.approx(apparent_attenuation(brew(MALT)).typical, abs=0.05)


def test_malt_extract_that_keeps_its_enzymes_brings_them() -> None:
    flakes = "grain: flaked wheat, weight: 1.5 kg"
    extract = "extract: diastatic malt extract, weight: 1.5 kg, add: mash"
    assert grist_diastatic_power(brew(flakes, f"{extract}, diastatic-power: 60 °Lintner")).typical == 30
    assert conversion(brew(flakes, f"{extract}, diastatic-power: 60 °Lintner")).typical > 90
    assert grist_diastatic_power(brew(flakes, extract.replace("diastatic", "light"))).typical == 0
    boiled = brew(MALT, flakes, f"{extract.replace('mash', 'kettle')}, diastatic-power: 60 °Lintner")
    assert grist_diastatic_power(boiled).typical == grist_diastatic_power(brew(MALT, flakes)).typical


def test_an_added_enzyme_converts_in_its_own_heat() -> None:
    rice = "grain: flaked rice, weight: 3.5 kg"
    assert conversion(brew(rice)).typical == 0
    with_it = brew(rice, mash=", enzymes: {alpha amylase: 10 g}")
    assert conversion(with_it).typical > 95
    assert apparent_attenuation(with_it).typical > 70
    assert any("as 40 °Lintner" in text for text in conversion(with_it).assumed)
    assert ADDED_LINTNER == 40
    assert conversion(brew(rice, mash=", enzymes: {alpha amylase: 0 g}")).typical == 0
    assert conversion(brew(rice, mash=", enzymes: {beta glucanase: 10 g}")).typical == 0
    hot = "{at: 90 °C, for: 40 min}"
    assert conversion(brew(rice, rests=hot, mash=", enzymes: {heat stable alpha amylase: 10 g}")).typical > 95
    assert conversion(brew(rice, rests=f"{hot}, {HOUR}", mash=", enzymes: {fungal amylase: 10 g}")).typical == 0
    sorghum = brew(
        "grain: sorghum, weight: 4 kg",
        rests="{at: 50 °C, for: 50 min}, {at: 95 °C, for: 40 min}, {at: 60 °C, for: 30 min}",
        mash=", enzymes: {heat stable alpha amylase: 10 g}",
    )
    degree, _ = malt_degree(sorghum, fermenting(sorghum))
    assert 0.55 < degree < 0.7  # as a mash at usual heat, and not as malt at 95 °C


def test_attenuation_does_not_jump_at_60_c() -> None:
    """It fell by seven points between 59.9 and 60 °C, below which no minute of a rest was counted."""
    found = [
        apparent_attenuation(brew(MALT, rests=f"{{at: {tenth / 10} °C, for: 60 min}}")).typical
        for tenth in range(540, 710)
    ]
    assert max(abs(later - sooner) for sooner, later in pairwise(found)) < 0.5


def test_minutes_counted() -> None:
    """Wholly from 60 °C on, half at 57.5; a rise from 55 to 70 °C as its mean."""
    assert minutes_counted([Rest(52, 20), Rest(57.5, 20), Rest(60, 20), Rest(72, 30)]) == 30
    assert minutes_counted([Rest(55, 15, to_c=70)]) == pytest.approx(2.5 + 10)
    assert minutes_counted([Rest(66, 60, to_c=64)]) == 60
    assert minutes_counted([Rest(40, 30, to_c=50)]) == 0


def test_a_stated_thickness_moves_gelatinisation() -> None:
    """N. De Schepper, C. Courtin 2022: the thicker, the later; half of theirs is taken, so 1.8 °C for 12 to 21 g."""
    rest = "{at: 60 °C, for: 30 min}"
    thin, usual, thick = (
        conversion(brew(MALT, rests=rest, mash=f", thickness: {stated} l/kg")).typical for stated in (6, 3, 2)
    )
    assert thin > usual + 5 > thick + 5
    assert usual == pytest.approx(conversion(brew(MALT, rests=rest)).typical)
    assert conversion(brew(MALT, rests=rest, mash=", water: 10.5 l")).typical == pytest.approx(usual)
    assert thickness_shift_c(6) == pytest.approx(0.15, abs=0.02)
    assert thickness_shift_c(50) == 0
