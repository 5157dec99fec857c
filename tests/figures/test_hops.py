"""Bitterness of whole recipes, against sums made by hand and against the same recipe written otherwise."""

import pytest

from mashwright.brew.brew import Brew
from mashwright.brewing.bitterness import boil_minutes, cooling_minutes, ibu, rager_utilisation, utilisation
from mashwright.figures.figure import Figure
from mashwright.figures.kettle.alpha import months_since
from mashwright.figures.kettle.boil_volumes import pre_boil_volume
from mashwright.figures.kettle.hops import bitterness, bitterness_ratio, boiling_wort
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown

BATCH = "batch: 20 l"
GRIST = "grist: [{grain: pale malt, weight: 4.4 kg}]"


def brew(
    *hops: str, batch: str = BATCH, grist: str = GRIST, more: str = "", og: str = "1.050", house: str = ""
) -> Brew:
    lines = ["recipe: Tried", batch, grist, "hops:", *(f"  - {{{hop}}}" for hop in hops)]
    return Brew.of("\n".join([*lines, more, f"targets: {{og: {og}}}" if og else "", ""]), house)


HOUR = "hop: Fuggle, weight: 30 g, alpha: 6 %, boil: 60 min"


def test_one_hop_for_an_hour() -> None:
    figure = bitterness(brew(HOUR))
    assert figure.typical == pytest.approx(20.8, abs=0.05)
    assert figure.low == pytest.approx(0.8 * figure.typical)
    assert figure.high == pytest.approx(27.0)  # the older table
    assert figure.working() == (
        "weight × alpha acid × the share that is used, in wort of 1.050, for 20 l of beer:\n"
        "  30 g of Fuggle × 6 % × 0.231 = 20.8 IBU, 60 min\n"
        "  by other published models 17 to 27 IBU"
    )
    assert figure.paths == (("hops", 0),)
    assert figure.assumed == ()
    assert bitterness_ratio(brew(HOUR)).typical == pytest.approx(0.415, abs=0.001)


def test_pellets_give_a_tenth_more_where_the_older_table_gives_less() -> None:
    late = "hop: Fuggle, weight: 30 g, alpha: 6 %, boil: 15 min, form: "
    cone, pellet = bitterness(brew(late + "cone")), bitterness(brew(late + "pellet"))
    assert pellet.typical == cone.typical == pytest.approx(cone.high)
    assert pellet.high == pytest.approx(1.1 * cone.high)


@pytest.mark.parametrize("minutes", [10, 15, 20, 25])
def test_the_older_table_lies_within_the_range(minutes: int) -> None:
    """From 10 to 25 min it is the less generous one; the range is that of all the models that it names."""
    value = bitterness(brew(HOUR.replace("60 min", f"{minutes} min")))
    older = value.typical * rager_utilisation(1.05, minutes) / utilisation(1.05, minutes)
    assert value.low - 1e-9 <= older <= value.high + 1e-9


def test_two_halves_are_one_whole() -> None:
    half = HOUR.replace("30 g", "15 g")
    whole, halves = bitterness(brew(HOUR)), bitterness(brew(half, half))
    for end in ("low", "typical", "high"):
        assert getattr(halves, end) == pytest.approx(getattr(whole, end))


def test_order_does_not_matter() -> None:
    late = "hop: Saaz, weight: 20 g, whirlpool: 20 min, at: 80 °C"
    one, other = bitterness(brew(HOUR, late)), bitterness(brew(late, HOUR))
    for end in ("low", "typical", "high"):
        assert getattr(one, end) == pytest.approx(getattr(other, end))


def test_american_units_give_the_same() -> None:
    american = brew(
        "hop: Fuggle, weight: 1.0582189 oz, alpha: 6 %, boil: 1 h",
        batch="batch: 5.2834411 gal",
        grist="grist: [{grain: pale malt, weight: 9.7 lb}]",
    )
    assert bitterness(american).typical == pytest.approx(bitterness(brew(HOUR)).typical, rel=1e-6)


def test_alpha_units_are_ounces_times_per_cent() -> None:
    by_units = bitterness(brew("hop: Fuggle, alpha-units: 6.35 AAU, boil: 60 min"))
    by_weight = bitterness(brew("hop: Fuggle, weight: 1.27 oz, alpha: 5 %, boil: 60 min"))
    assert by_units.typical == pytest.approx(by_weight.typical)


def test_a_claim_stands_for_hops_without_weight() -> None:
    figure = bitterness(brew("hop: Fuggle, bitterness: 20 IBU, boil: 60 min"))
    assert figure.range == Range(15, 20, 22)
    assert "Fuggle, counted as the recipe claims = 20 IBU" in figure.working()


def test_a_claim_does_not_replace_the_sum() -> None:
    assert bitterness(brew(HOUR + ", bitterness: 90 IBU")).typical == pytest.approx(20.8, abs=0.05)


def test_the_cultivars_alpha_acid_where_none_is_stated() -> None:
    figure = bitterness(brew("hop: Fuggle, weight: 30 g, boil: 60 min"))
    assert figure.typical == pytest.approx(ibu(utilisation(1.050, 60), 0.03 * 0.0425, 20))
    assert figure.low < 0.6 * figure.typical
    assert figure.high > 1.5 * figure.typical
    assert figure.assumed == ("2.4-6.1 % alpha acid for Fuggle, since none is stated",)
    assert "usda-19209" in figure.sources


def test_a_remembered_alpha_acid_serves_where_none_is_stated() -> None:
    figure = bitterness(brew("hop: Cashmere, weight: 30 g, boil: 60 min"))
    assert figure.typical == pytest.approx(ibu(utilisation(1.050, 60), 0.03 * 0.085, 20))
    assert figure.assumed == ("7.5-9.5 % alpha acid for Cashmere, since none is stated",)
    assert figure.memory


def test_a_name_without_a_figure_has_what_hops_have() -> None:
    tried = brew("hop: Styrian Fox, weight: 30 g, boil: 60 min")
    assert bitterness(tried).assumed == ("2-21.3 % alpha acid for Styrian Fox, whose own is not known",)
    assert [str(one.missing) for one in tried.unknown] == ["the alpha acid of Styrian Fox"]


def test_a_lot_pins_the_alpha_acid() -> None:
    house = "brewhouse: Tried\nlots: {F-2025: {of: Fuggle, alpha: 5 %}}\n"
    of_lot = bitterness(brew("hop: Fuggle, lot: F-2025, weight: 30 g, boil: 60 min", house=house))
    assert of_lot.range == bitterness(brew(HOUR.replace("6 %", "5 %"))).range


@pytest.mark.parametrize(
    ("hops", "missing", "path"),
    [
        ((), "the hops", ("hops",)),
        (("hop: Fuggle, alpha: 5 %, boil: 60 min",), "the weight of Fuggle", ("hops", 0, "weight")),
        (("hop: Fuggle, alpha: 5 %, weight: 30 g",), "when Fuggle goes in", ("hops", 0)),
        ((HOUR.replace("60 min", "an hour"),), "a readable boil of Fuggle", ("hops", 0, "boil")),
        ((HOUR.replace("6 %", "60 %"),), "a plausible alpha acid of Fuggle", ("hops", 0, "alpha")),
        ((HOUR.replace("30 g", "30 kg"),), "a plausible weight of Fuggle", ("hops", 0, "weight")),
    ],
)
def test_what_is_missing(hops: tuple[str, ...], missing: str, path: tuple[str | int, ...]) -> None:
    with pytest.raises(Unknown) as raised:
        bitterness(brew(*hops))
    assert (raised.value.missing, raised.value.path) == (missing, path)


def test_hopped_extract_is_bitter_already() -> None:
    grist = "grist: [{extract: hopped light malt extract, weight: 3 kg}]"
    with pytest.raises(Unknown, match="the bitterness of hopped light malt extract"):
        bitterness(brew(HOUR, grist=grist))
    assert bitterness(brew(HOUR, grist=grist.replace("hopped", "unhopped"))).typical > 20


def test_dry_hops_bitter_by_what_a_laboratory_reads() -> None:
    """Below 30 IBU up to 1.5 IBU for each g/l, above 50 IBU none or less [maye-2016]; the formulas count nothing."""
    dry = "hop: Cascade, weight: 100 g, dry: 3 d"
    alone, beside = bitterness(brew(HOUR)), bitterness(brew(HOUR, dry))
    assert beside.typical == alone.typical
    assert beside.low == pytest.approx(alone.low)
    assert beside.high == pytest.approx(alone.high + 1.5 * 5)
    assert dict(beside.parts)["Cascade, dry, 3 d"] == Range(0, 0, 7.5)
    assert "a laboratory may read +0 to +8 IBU of it" in beside.working()
    much = HOUR.replace("30 g", "90 g")
    bitter, with_dry = bitterness(brew(much)), bitterness(brew(much, dry))
    assert with_dry.high == pytest.approx(bitter.high)
    assert with_dry.low < bitter.low


HIGH = "brewhouse: Tried\naltitude: 1500 m\n"


def test_wort_that_boils_cooler_takes_less() -> None:
    """At 1500 m the boil is at 94.8 °C, where an hour forms 0.75 and a quarter of an hour 0.67 of it."""
    for text, share in ((HOUR, 0.75), (HOUR.replace("60 min", "15 min"), 0.67)):
        sea, high = bitterness(brew(text)), bitterness(brew(text, house=HIGH))
        assert high.typical == pytest.approx(share * sea.typical, rel=0.02)
        assert high.low <= 1.02 * share * sea.low
        assert share * sea.high < high.high < sea.high
    assert "this wort boils at about 95 °C, which forms less" in high.working()
    assert "sub-boiling-hops" in high.sources
    assert bitterness(brew(HOUR, house="brewhouse: Tried\naltitude: 0 m\n")).range == bitterness(brew(HOUR)).range


def test_a_stand_begins_at_the_local_boil() -> None:
    for stand in ("whirlpool: 20 min", "whirlpool: 20 min, at: 100 °C"):
        text = f"hop: Fuggle, weight: 30 g, alpha: 6 %, {stand}"
        assert bitterness(brew(text, house=HIGH)).typical < 0.8 * bitterness(brew(text)).typical


def test_a_stand_that_is_held() -> None:
    figure = bitterness(brew("hop: Fuggle, weight: 30 g, alpha: 6 %, whirlpool: 30 min, at: 80 °C"))
    minutes = 5.0  # of boil, by the rates of isomerisation
    assert figure.typical == pytest.approx(ibu(utilisation(1.050, minutes), 0.0018, 20), rel=0.02)
    assert figure.low == pytest.approx(figure.typical / 3)
    # measured bitterness falls less below the boil than isomerisation does
    assert figure.high == pytest.approx(ibu((0.5 + 0.5 * 17 / 37) * utilisation(1.050, 30), 0.0018, 20))
    assert "malowicki-2005" in figure.sources


def test_a_stand_that_cools() -> None:
    figure = bitterness(brew("hop: Fuggle, weight: 30 g, alpha: 6 %, whirlpool: 20 min"))
    assert figure.typical == pytest.approx(ibu(utilisation(1.050, boil_minutes(99, 83, 20)), 0.0018, 20))
    assert figure.high == pytest.approx(
        max(1.5 * figure.typical, ibu(utilisation(1.050, boil_minutes(99, 99, 20)), 0.0018, 20))
    )
    assert figure.assumed == ("a stand of Fuggle that cools by 0.8 °C a minute, since none is stated",)


def test_hops_at_the_end_of_the_boil() -> None:
    figure = bitterness(brew("hop: Fuggle, weight: 30 g, alpha: 6 %, boil: 0 min"))
    assert (figure.low, figure.typical) == (0, 0)
    assert figure.high == pytest.approx(ibu(rager_utilisation(1.050, 0), 0.0018, 20))


def test_first_wort_hops_are_like_a_somewhat_longer_boil() -> None:
    first = bitterness(brew("hop: Fuggle, weight: 30 g, alpha: 6 %, first-wort: true", more="boil: {for: 60 min}"))
    boiled = bitterness(brew(HOUR))
    assert 1.0 < first.typical / boiled.typical < 1.1
    unsaid = bitterness(brew("hop: Fuggle, weight: 30 g, alpha: 6 %, first-wort: true"))
    assert unsaid.typical == first.typical
    assert unsaid.assumed == ("a boil of 60 min, since its length is not stated",)


def test_one_boil_for_all_figures() -> None:
    """Unstated, a boil is as long as the longest hop, for the bitterness as for what boils away."""
    hops = "hop: Fuggle, weight: 10 g, alpha: 6 %, boil: 90 min}\n  - {hop: Fuggle, weight: 30 g, alpha: 6 %, "
    tried = brew(hops + "first-wort: true")
    said = "a boil of 90 min, since its length is not stated"
    assert said in bitterness(tried).assumed
    assert said in pre_boil_volume(tried).assumed
    assert not [text for text in bitterness(tried).assumed if "60 min" in text]
    stated = brew(hops + "first-wort: true", more="boil: {for: 90 min}")
    assert bitterness(tried).typical == bitterness(stated).typical


def test_mash_hops_give_little() -> None:
    more = "mash: {rests: [{at: 66 °C, for: 60 min}]}"
    figure = bitterness(brew("hop: Fuggle, weight: 30 g, alpha: 6 %, mash: true", more=more))
    assert figure.typical == pytest.approx(ibu(utilisation(1.050, boil_minutes(66, 66, 60)), 0.0018, 20))
    assert figure.high < 0.31 * bitterness(brew(HOUR)).typical


def test_a_partial_boil_uses_less() -> None:
    whole = brew(HOUR, more="boil: {volume: 24 l, for: 60 min}")
    part = brew(HOUR, more="boil: {volume: 10 l, for: 60 min}\ntop-up: {fermenter: 11 l}")
    assert boiling_wort(whole).gravity_sg.high == pytest.approx(1.050)
    assert boiling_wort(whole).gravity_sg.low == pytest.approx(1 + 0.050 * 20 / 24)
    assert boiling_wort(part).gravity_sg.high == pytest.approx(1 + 0.050 * 20 / 9)
    assert boiling_wort(part).partial
    mean = (1.100 + 1 + 1 / 9) / 2  # 10 l at the beginning, 9 l at the end
    assert boiling_wort(part).gravity_sg.typical == pytest.approx(mean)
    assert bitterness(part).typical == pytest.approx(ibu(utilisation(mean, 60), 0.0018, 20))
    assert "boiled at 1.106" in bitterness(part).working()


def test_a_kettle_that_holds_less_than_the_batch_thickens_to_the_end_without_a_stated_top_up() -> None:
    part = brew(HOUR, more="boil: {volume: 11 l, for: 60 min}")
    wort = boiling_wort(part)
    # in an hour 4 l boil away of 22 l, less of a smaller pot; hot wort shrinks by 4 %, and 6 % stays in the kettle
    after = 11 - 4 * (11 / 22) ** (2 / 3)
    left = after * 0.96 * 0.94
    assert wort.partial
    assert wort.gravity_sg.low == pytest.approx(1 + 0.050 * 20 / 11)
    assert wort.gravity_sg.high == pytest.approx(1 + 0.050 * 20 / left, abs=0.001)  # the hops keep a little more
    left = 0.050 * 20 / (wort.gravity_sg.high - 1)
    mean = (wort.gravity_sg.low + wort.gravity_sg.high) / 2
    assert wort.gravity_sg.typical == pytest.approx(mean)
    assert bitterness(part).typical == pytest.approx(ibu(utilisation(mean, 60), 0.0018, 20))
    assert wort.assumed[0] == f"{20 - left:.3g} l of water added after the boil, since the kettle holds 11 l"
    # who writes the water down gets much the same
    told = boiling_wort(
        brew(HOUR, more=f"boil: {{volume: 11 l, for: 60 min}}\ntop-up: {{fermenter: {20 - left:.2f} l}}")
    )
    assert told.gravity_sg.typical == pytest.approx(mean, abs=0.001)


def test_sugar_in_the_fermenter_is_not_in_the_kettle() -> None:
    grist = "grist: [{grain: pale malt, weight: 3 kg}, {sugar: table sugar, weight: 1 kg, add: fermenter}]"
    assert boiling_wort(brew(HOUR, grist=grist)).gravity_sg.typical < 1.040


def test_a_batch_counted_in_kettle_or_package() -> None:
    kettle = bitterness(brew(HOUR, batch="batch: {kettle: 22 l}"))
    package = bitterness(brew(HOUR, batch="batch: {package: 19 l}"))
    assert kettle.typical == pytest.approx(20.8 * 20 / (22 * 0.96 * 0.94), rel=0.02)
    assert package.typical == pytest.approx(20.8, rel=0.02)


def test_wort_outside_the_table_says_so() -> None:
    figure = bitterness(brew(HOUR, og="1.140"))
    assert figure.assumed == ("1.140 wort, though the formula was measured for worts of 1.030 to 1.130",)
    long = bitterness(brew(HOUR.replace("60 min", "3 h")))
    assert long.assumed == ("3 h of boil, though the formula was measured to 120 min",)


def test_a_stated_alpha_acid_is_that_of_its_age() -> None:
    fresh, old = bitterness(brew(HOUR)), bitterness(brew(HOUR + ", age: 12 months"))
    assert old.typical == fresh.typical
    assert old.high == pytest.approx(fresh.high)
    assert old.low < fresh.low
    assert old.assumed == ("the stated alpha acid of Fuggle as that of its age, and not aged again",)
    units = "hop: Fuggle, alpha-units: 6.35 AAU, boil: 60 min"
    assert bitterness(brew(units + ", age: 2 years")).typical == bitterness(brew(units)).typical


OF_A_LOT = "hop: Fuggle, weight: 30 g, lot: F-1, boil: 60 min"
LOT = "brewhouse: Tried\nlots: {F-1: {of: Fuggle, alpha: 6 %}}\n"


def test_age_takes_alpha_acid() -> None:
    fresh = bitterness(brew(OF_A_LOT, house=LOT))
    old = bitterness(brew(OF_A_LOT + ", age: 12 months", house=LOT))
    # Fuggle loses 25 % in six months at 20 °C; half as fast in a refrigerator
    assert old.typical == pytest.approx(0.75 * fresh.typical, rel=0.001)
    assert old.low < 0.75**2 * fresh.typical
    assert fresh.typical < old.high < fresh.high
    assert old.assumed == ("75 (56 to 96) % of the alpha acid of Fuggle left at its age, kept cool",)


def test_a_harvest_is_aged_to_the_brew_day() -> None:
    measured = "measured: [{date: 2026-09-12, og: 1.050}]"
    by_date = bitterness(brew(OF_A_LOT + ", harvest: 2025-09-10", more=measured, house=LOT))
    by_age = bitterness(brew(OF_A_LOT + ", age: 12 months", house=LOT))
    assert by_date.typical == pytest.approx(by_age.typical)
    unsaid = bitterness(brew(OF_A_LOT + ", harvest: 2025", house=LOT))
    assert by_date.low < unsaid.high
    assert unsaid.typical > by_date.typical


def test_an_alpha_acid_that_is_stated_beside_a_harvest_is_not_aged_again() -> None:
    fresh = bitterness(brew(HOUR))
    old = bitterness(brew(HOUR + ", harvest: 2025-09-10", more="measured: [{date: 2026-09-12, og: 1.050}]"))
    assert old.typical == pytest.approx(fresh.typical)
    assert old.low < fresh.low
    assert old.high == pytest.approx(fresh.high)
    assert old.assumed == ("the stated alpha acid of Fuggle as that of the brew day, and not aged again",)
    units = HOUR.replace("weight: 30 g, alpha: 6 %", "alpha-units: 6 AAU")
    counted, fresh_ones = bitterness(brew(units + ", harvest: 2025-09-10")), bitterness(brew(units))
    assert counted.typical == pytest.approx(fresh_ones.typical)


@pytest.mark.parametrize(
    ("harvest", "day", "months"),
    [
        ("2025", "2026-03-01", Range(6, 6, 12)),
        ("2025", "2025-05-01", Range(0, 0, 2)),
        ("2025-09", "2026-01-15", Range.exact(4)),
        ("last year", "2026-01-15", None),
        ("2027-09", "2026-01-15", None),
        ("1025", "2326-01-15", None),
        ("2025-09-12", "2026-01-15", Range.exact(4)),
        ("2025-13", "2026-01-15", None),
        ("2025-02-30", "2026-01-15", None),
        ("20250912", "2026-01-15", None),
        ("2025", "2026-02-30", None),
    ],
)
def test_months_since_a_harvest(harvest: str, day: str, months: Range | None) -> None:
    assert months_since(harvest, day) == months


def test_no_gravity_no_ratio() -> None:
    with pytest.raises(Unknown, match="an original gravity above that of water"):
        bitterness_ratio(brew(HOUR, og="1.000"))


LATE = "hop: Saaz, weight: 40 g, alpha: 4 %, boil: 5 min"


def test_wort_in_a_closed_vessel_bitters_on() -> None:
    cube, boiled = bitterness(brew(LATE, grist=f"{GRIST}\nchill: {{by: no-chill}}")), bitterness(brew(LATE))
    longer = bitterness(brew(LATE.replace("5 min", "22.5 min")))
    assert cube.typical == pytest.approx(longer.typical)
    assert boiled.typical < cube.low < cube.typical < cube.high
    assert "  no-chill: the hops bitter as in 18 min more of boil" in cube.working()


@pytest.mark.parametrize(
    ("chill", "more_min"),
    [
        ("{by: chiller}", 0.0),
        ("{for: 45 min}", cooling_minutes(100, 45)),
        ("{by: water bath}", cooling_minutes(100, 60)),
    ],
)
def test_slow_chilling_counts_by_its_time(chill: str, more_min: float) -> None:
    slow = bitterness(brew(LATE, grist=f"{GRIST}\nchill: {chill}"))
    assert slow.typical == pytest.approx(bitterness(brew(LATE.replace("5 min", f"{5 + more_min:.6f} min"))).typical)


def test_a_cube_that_is_filled_after_a_stand_bitters_less() -> None:
    stand = "hop: Saaz, weight: 1 g, alpha: 4 %, whirlpool: 20 min, at: 80 °C"
    warm, hot = (
        bitterness(brew(*hops, grist=f"{GRIST}\nchill: {{by: no-chill}}")) for hops in ((LATE, stand), (LATE,))
    )
    assert dict(warm.parts)["Saaz, 5 min"].typical < 0.8 * hot.typical


def test_a_stand_that_cools_lies_between_its_ends() -> None:
    def stands(text: str) -> float:
        return bitterness(brew(f"hop: Saaz, weight: 40 g, alpha: 4 %, whirlpool: 30 min{text}")).typical

    assert stands(", at: 70 °C") < stands(", at: 90 °C, to: 70 °C") < stands(", at: 90 °C")
    assert stands(", at: 90 °C, to: 90 °C") == pytest.approx(stands(", at: 90 °C"))
    assert stands(", at: 99 °C, to: 70 °C") == pytest.approx(stands(", to: 70 °C"))
    figure = bitterness(brew("hop: Saaz, weight: 40 g, alpha: 4 %, whirlpool: 30 min, at: 90 °C, to: 70 °C"))
    assert "30 min at 90 °C to 70 °C" in figure.working()


KIT = "grist: [{extract: hopped light malt extract, weight: 1.7 kg, bitterness: %s}, {sugar: dextrose, weight: 1 kg}]"


def of_a_kit(stated: str, *hops: str) -> Figure:
    return bitterness(brew(*hops, batch="batch: 23 l", grist=KIT % stated, og="1.040"))


def test_a_kit_brings_what_its_line_states() -> None:
    figure = of_a_kit("22 IBU", HOUR)
    assert figure.typical == pytest.approx(22 + bitterness(brew(HOUR, batch="batch: 23 l", og="1.040")).typical)
    assert dict(figure.parts)["hopped light malt extract, as stated"].typical == 22


def test_the_bitterness_of_the_extract_itself_is_thinned() -> None:
    figure = of_a_kit("390 IBU", "hop: Saaz, weight: 1 g, alpha: 3 %, dry: 3 d")
    assert figure.typical == pytest.approx(390 * 1.7 / 23)
    assert figure.low < 0.75 * figure.typical
    assert "390 IBU × 1.7 kg in 23 l" in figure.working()


def test_a_kit_alone_is_bitter_too() -> None:
    house = f"recipe: Kit\nbatch: 23 l\n{KIT % '22 IBU'}\ntargets: {{og: 1.040}}\n"
    assert bitterness(Brew.of(house)).typical == 22
