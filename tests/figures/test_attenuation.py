"""How far a wort ferments: cool first rests, extracts, enzymes, wild yeast, and the ceiling of ordinary ones."""

import pytest

from mashwright.brew.brew import Brew
from mashwright.figures.beer.strength import apparent_attenuation, apparent_ceiling, fermenting, splits_dextrins
from mashwright.measures.range import Range

HALF_FLAKED = "grist: [{grain: Pilsner malt, weight: 2.5 kg}, {grain: flaked wheat, weight: 2.5 kg}]"
MALT = "grist: [{grain: Pilsner malt, weight: 4.5 kg}]"
ALE = "yeast: {kind: American ale}"


def brew(*lines: str) -> Brew:
    return Brew.of("\n".join(["batch: 20 l", *lines]))


def attenuation(*lines: str) -> Range:
    return apparent_attenuation(brew(*lines)).range


def test_a_cool_first_rest_does_not_make_a_dry_beer_of_flakes() -> None:
    """Flakes are ready in it, but what ferments well is made where enzymes are quick."""
    alone = attenuation(HALF_FLAKED, "mash: {rests: [{at: 69 °C, for: 60 min}]}", ALE)
    first = attenuation(HALF_FLAKED, "mash: {rests: [{at: 45 °C, for: 20 min}, {at: 69 °C, for: 60 min}]}", ALE)
    assert first.typical == pytest.approx(alone.typical, abs=3.5)


def test_kit_and_kilo_ends_where_such_beers_end() -> None:
    """1.004-1.006 from 1.040 at most of them: 85 to 90 %; common practice."""
    kit = "grist: [{extract: liquid malt extract, weight: 1.7 kg}, {sugar: dextrose, weight: 1 kg}]"
    assert attenuation(kit, ALE).low < 88 < attenuation(kit, ALE).high
    assert attenuation(kit, ALE).typical == pytest.approx(91, abs=1)


def test_sugar_that_lifts_the_whole_wort_above_its_yeast_is_explained() -> None:
    mash, sugar = "mash: {rests: [{at: 65 °C, for: 60 min}]}", MALT.replace("]", ", {sugar: %s, weight: 800 g}]")
    yeast = "yeast: {kind: Belgian ale, attenuation: 80 %}"
    lifted = apparent_attenuation(brew(sugar % "table sugar", mash, yeast))
    alone = apparent_attenuation(brew(MALT, mash, yeast))
    assert lifted.typical > 85
    last = lifted.working().split("\n")[-1]
    assert last == (
        f"  without its sugar {alone.typical:.1f} %: sugar ferments completely, so the wort ferments further"
        " than its malt alone, and further than the 80 % of its yeast"
    )
    strong = apparent_attenuation(brew(sugar % "table sugar", mash, "yeast: {kind: saison, attenuation: 99 %}"))
    assert strong.working().endswith("the wort ferments further than its malt alone")
    for quiet in (alone, apparent_attenuation(brew(sugar % "lactose", mash, yeast))):
        assert "without its sugar" not in quiet.working()


def test_band_ends_at_the_ceiling_of_ordinary_worts() -> None:
    cool = "mash: {rests: [{at: 62 °C, for: 90 min}]}"
    assert attenuation(MALT, cool, ALE).high == 88
    assert attenuation(MALT, cool, "yeast: {kind: saison}").high == 100
    assert attenuation(MALT, cool, "yeast: {kind: house ale, attenuation: 90 %}").high > 88


@pytest.mark.parametrize(
    ("said", "splits", "typical"),
    [
        ("mash: {enzymes: {amyloglucosidase: 5 ml}}", True, 92),
        ("ferment: [{enzymes: {glucoamylase: 2 ml}}]", True, 92),
        ("ferment: [{enzymes: {brut enzyme: 2 ml}}]", True, 92),
        ("mash: {enzymes: {beta-glucanase: 2 g}}", False, None),
        ("ferment: [{enzymes: {proline protease: 2 ml}}]", False, None),
        ("ferment: [{enzymes: {proteinase: 2 ml}}]", False, None),
        ("ferment: [{enzymes: {glucoamylase and protease: 2 ml}}]", True, 92),
        ("mash: {enzymes: {alpha-amylase: 2 g}}", True, None),
    ],
)
def test_added_enzymes(said: str, splits: bool, typical: float | None) -> None:
    plain = attenuation(MALT, ALE).typical
    tried = brew(MALT, ALE, said)
    assert splits_dextrins(tried) is splits
    assert apparent_attenuation(tried).typical == pytest.approx(plain if typical is None else typical, abs=0.5)


def test_what_the_boil_ends_and_what_goes_on() -> None:
    mash = "mash: {enzymes: {amyloglucosidase: 5 ml}}"
    ended = fermenting(brew(MALT, ALE, mash))
    assert (ended.dextrins, ended.splitter, ended.mash_enzyme) == (False, None, "amyloglucosidase")
    assert apparent_attenuation(brew(MALT, ALE, mash)).assumed[-1] == (
        "dextrins fermented too, by amyloglucosidase in the mash"
    )
    unboiled = fermenting(brew(MALT, ALE, mash, "boil: {for: 0 min}"))
    assert unboiled.splitter is not None
    assert unboiled.splitter[:2] == (
        "amyloglucosidase in wort that was not boiled",
        ("mash", "enzymes", "amyloglucosidase"),
    )
    added = fermenting(brew(MALT, ALE, "ferment: [{enzymes: {papain: 1 g, some enzyme: 1 g, glucoamylase: 2 ml}}]"))
    assert added.splitter is not None
    assert added.splitter[:2] == ("glucoamylase in the fermenter", ("ferment", 0, "enzymes", "glucoamylase"))
    diastatic = fermenting(brew(MALT, "yeast: {kind: saison}", "ferment: [{enzymes: {glucoamylase: 2 ml}}]"))
    assert diastatic.splitter is not None
    assert diastatic.splitter[:2] == ("diastatic saison yeast", ("yeast", "kind"))


def test_brettanomyces_goes_on() -> None:
    wild = brew(MALT, "yeast: [{kind: Belgian ale}, {kind: Brett}]")
    assert apparent_ceiling(wild) is None
    assert (apparent_attenuation(wild).typical, apparent_attenuation(wild).range.high) == (88, 100)


def test_bacteria_that_sour_do_not_say_how_far_it_ferments() -> None:
    assert attenuation(MALT, "yeast: [{kind: American ale}, {kind: lactobacillus}]") == attenuation(MALT, ALE)
    assert attenuation(MALT, "yeast: {kind: lactobacillus}") == attenuation(MALT)
