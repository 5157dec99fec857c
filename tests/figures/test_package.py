"""Gas and pressure of whole recipes: where each volume comes from, and what is taken where nothing is said."""

import contextlib

import pytest

import mashwright
from mashwright.brew.brew import Brew
from mashwright.brewing.alcohol import final_gravity
from mashwright.brewing.carbonation import dissolved_volumes, fermented_volumes, pressure_bar
from mashwright.figures import pitch
from mashwright.figures.beer.strength import apparent_attenuation
from mashwright.figures.figure import Figure
from mashwright.figures.mash.gravity import og
from mashwright.figures.package.carbonating import carbonation, priming_sugar, residual_co2
from mashwright.figures.package.filling import packaged_beer
from mashwright.figures.package.gas import all_gas, unfinished_co2
from mashwright.figures.package.pressure import bottle_pressure, keg_pressure
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown

BOTTLES = "package: {in: bottles, carbonation: 2.4 volumes}"


def brew(*more: str, batch: str = "{package: 20 l}", weight: str = "4.4 kg", house: str = "") -> Brew:
    lines = ["recipe: Tried", f"batch: {batch}", "grist:", f"  - {{grain: pale ale malt, weight: {weight}}}", *more]
    return Brew.of("\n".join([*lines, ""]), house)


def part(figure: Figure, name: str) -> Range:
    return dict(figure.parts)[name]


@pytest.mark.parametrize(
    ("ferment", "warmest_c"),
    [
        ("[{at: 19 °C, for: 10 d}]", 19),
        ("[{at: 19 °C, for: 10 d}, {at: 2 °C, for: 2 weeks}]", 19),  # gas that has gone does not come back
        ("[{at: 24 °C, for: 2 d}, {at: 18 °C, for: 8 d}]", 18),  # before it slowed
        ("[{at: 18 °C, to: 22 °C, for: 10 d}]", 22),
        ("[{at: 68 °F, for: 10 d}]", 20),
        ("[{at: 18 °C}, {at: 12 °C}]", 18),
    ],
)
def test_the_warmest_since_fermentation_slowed(ferment: str, warmest_c: float) -> None:
    figure = residual_co2(brew(BOTTLES, "yeast: {kind: English ale}", f"ferment: {ferment}"))
    assert figure.typical == pytest.approx(dissolved_volumes(0, warmest_c))
    assert figure.assumed == ()


TWO = """\
package:
  - {in: keg, carbonation: 2.4 volumes, gas: 60 % CO2, at: 4 °C}
  - {in: bottles, count: 24, size: 500 ml, carbonation: 2.4 volumes, priming: {sugar: table sugar, weight: 70 g}}"""


def test_each_package_has_its_own_beer_and_gas() -> None:
    keg, bottles = brew(TWO).by_package()
    assert packaged_beer(bottles).range == Range.exact(12)
    assert packaged_beer(keg).typical == pytest.approx(8)
    assert priming_sugar(bottles).typical == pytest.approx(priming_sugar(brew(BOTTLES)).typical * 12 / 20, rel=0.001)
    assert carbonation(bottles).typical == pytest.approx(
        carbonation(brew(BOTTLES.replace("}", ", priming: {sugar: table sugar, weight: 116.67 g}}"))).typical, abs=0.001
    )
    assert keg_pressure(keg).typical == pytest.approx(pressure_bar(2.4, 4, 0.6))
    assert carbonation(keg).range == Range.exact(2.4)


@pytest.mark.parametrize(
    ("packages", "litres"),
    [
        ("[{in: keg, share: 60 %}, {in: bottles}]", [12, 8]),
        ("[{in: pin, count: 1}, {in: bottles}]", None),  # a pin takes all and more
        ("[{in: keg, volume: 10 l}, {in: bottles}, {in: cans}]", [10, 5, 5]),
        ("{in: bottles, count: 10, size: 750 ml}", [7.5]),
        ("{in: bottles}", [20]),
    ],
)
def test_how_much_goes_into_each(packages: str, litres: list[float] | None) -> None:
    every = brew(f"package: {packages}").by_package()
    if litres is None:
        with pytest.raises(Unknown, match="beer that is left for this package"):
            packaged_beer(every[1])
        return
    assert [packaged_beer(one).typical for one in every] == pytest.approx(litres)


def test_dry_hops_are_counted_in_all_of_the_beer() -> None:
    hops = "hops: [{hop: Cascade, weight: 120 g, alpha: 6 %, dry: 3 d}]"
    alone = brew(hops, "package: {in: bottles}", "targets: {og: 1.050, fg: 1.010}")
    several = brew(
        hops, "package: [{in: bottles, share: 10 %}, {in: keg}]", "targets: {og: 1.050, fg: 1.010}"
    ).by_package()[0]
    assert unfinished_co2(several).range == unfinished_co2(alone).range


CLOSED = ("ferment: [{at: 10 °C, for: 14 d}]", "targets: {og: 1.048, fg: 1.012}")


def test_beer_that_is_closed_early_keeps_what_it_makes_since() -> None:
    figure = carbonation(brew("package: {in: keg, spund: {gravity: 1.014}}", *CLOSED))
    assert figure.typical == pytest.approx(dissolved_volumes(0, 10) + fermented_volumes(1.048, 1.014, 1.012))
    assert figure.low < figure.typical < figure.high


@pytest.mark.parametrize(
    ("spund", "volumes"),
    [
        ("{pressure: 1 bar}", dissolved_volumes(1, 10)),
        ("{pressure: 1 bar, at: 4 °C}", dissolved_volumes(1, 4)),
        ("{gravity: 1.014, pressure: 3 bar}", dissolved_volumes(0, 10) + fermented_volumes(1.048, 1.014, 1.012)),
        ("{gravity: 1.030, pressure: 1 bar}", dissolved_volumes(1, 10)),
        ("{gravity: 1.012}", dissolved_volumes(0, 10)),  # it has ended
    ],
)
def test_a_valve_lets_out_what_is_past_its_pressure(spund: str, volumes: float) -> None:
    assert carbonation(brew(f"package: {{in: keg, spund: {spund}}}", *CLOSED)).typical == pytest.approx(volumes)


def test_what_is_closed_in_counts_once() -> None:
    closed = brew("package: {in: keg, spund: {gravity: 1.020}}", *CLOSED)
    assert all_gas(closed).typical == pytest.approx(carbonation(closed).typical)
    packaged = brew("package: {in: keg, gravity: 1.016, spund: {gravity: 1.020}}", *CLOSED)
    assert all_gas(packaged).typical == pytest.approx(all_gas(closed).typical, abs=0.02)


def test_beer_that_is_closed_before_it_begins() -> None:
    with pytest.raises(Unknown, match="a gravity below that of the wort"):
        carbonation(brew("package: {in: keg, spund: {gravity: 1.060}}", *CLOSED))


def test_wort_for_the_fizz_ferments_as_far_as_it_says() -> None:
    def gas(priming: str) -> float:
        return carbonation(brew(f"package: {{in: bottles, priming: {priming}}}", *CLOSED)).typical

    of_this_beer = gas("{wort: speise, volume: 1 l, gravity: 1.048}")
    assert gas("{wort: speise, volume: 1 l, gravity: 1.048, attenuation: 75 %}") == pytest.approx(of_this_beer)
    assert gas("{wort: speise, volume: 1 l, gravity: 1.048, attenuation: 60 %}") < of_this_beer
    assert gas("{wort: wort of another beer, volume: 1 l, gravity: 1.048, attenuation: 75 %}") == of_this_beer
    assert gas("{extract: speise, volume: 1 l, gravity: 1.048}") == of_this_beer
    made = fermented_volumes(1.048, 1.048, 1.012) * 1 / 21
    assert of_this_beer == pytest.approx(dissolved_volumes(0, 10) + made, rel=0.01)


def test_a_lager_slows_later() -> None:
    ferment = "ferment: [{at: 14 °C, for: 6 d}, {at: 10 °C, for: 8 d}]"
    lager, ale = (brew(BOTTLES, f"yeast: {{kind: {kind}}}", ferment) for kind in ("Bavarian lager", "English ale"))
    assert residual_co2(lager).typical == pytest.approx(dissolved_volumes(0, 10))
    assert residual_co2(ale).typical == pytest.approx(dissolved_volumes(0, 14))


def test_no_temperature_is_a_wide_range() -> None:
    figure = residual_co2(brew(BOTTLES))
    assert figure.assumed == ("20 °C (16 to 24) at the end of fermentation, since no temperature is stated",)
    assert figure.low == pytest.approx(0.9 * dissolved_volumes(0, 24))
    assert figure.high == pytest.approx(1.06 * dissolved_volumes(0, 16))


def test_fahrenheit_read_as_celsius_is_no_basis() -> None:
    with pytest.raises(Unknown, match="a temperature at which beer ferments"):
        residual_co2(brew(BOTTLES, "ferment: [{at: 68 °C}]"))


@pytest.mark.parametrize(
    ("sugar", "grams"),
    [("table sugar", 120), ("dextrose", 139), ("corn sugar", 139), ("anhydrous dextrose", 126), ("honey", 162)],
)
def test_priming_by_any_sugar(sugar: str, grams: float) -> None:
    figure = priming_sugar(
        brew(
            f"package: {{in: bottles, carbonation: 2.4 volumes, priming: {{sugar: {sugar}, weight: 100 g}}}}",
            "ferment: [{at: 20 °C}]",
        )
    )
    assert figure.typical == pytest.approx(grams, abs=2)


def test_priming_by_malt_extract() -> None:
    figure = priming_sugar(
        brew(
            "package: {in: bottles, carbonation: 2.4 volumes, priming: {extract: light dry malt extract}}",
            "ferment: [{at: 20 °C}]",
        )
    )
    assert figure.typical == pytest.approx(120 * 1.4, abs=2)


def gas(priming: str) -> float:
    """Volumes that a priming adds to 20 l of beer of 1.050 that ends at 1.012."""
    rest = ("ferment: [{at: 20 °C}]", "targets: {og: 1.050, fg: 1.012}")
    primed = brew(f"package: {{in: bottles, priming: {priming}}}", *rest)
    return carbonation(primed).typical - residual_co2(primed).typical


def test_priming_by_wort() -> None:
    """By hand: 12.4 °P × 1.050 kg/l, 62 % of it really fermented, 0.463 g of gas to a gram, in 21 l."""
    by_hand = 0.124 * 1050 * 0.62 * 0.463 / 1.977 / 21
    assert gas("{extract: wort, volume: 1 l}") == pytest.approx(by_hand, rel=0.04)


def test_what_stays_with_the_yeast_is_said() -> None:
    left = "5 % of the batch stays with the yeast"
    package = "package: {in: bottles, carbonation: 2.4 volumes, priming: {sugar: table sugar, weight: 110 g}}"
    for figure in (carbonation, priming_sugar):
        assert left in figure(brew(package, batch="20 l")).assumed
        assert left not in figure(brew(package)).assumed
        assert left not in figure(brew(package, batch="20 l", house="fermenter: {loss: 1 l}\n")).assumed
    assert left not in carbonation(brew(package.replace("weight: 110 g", "rate: 6 g/l"), batch="20 l")).assumed


def test_priming_by_krausen_is_less_than_by_wort_and_as_its_gravity_says() -> None:
    fresh = gas("{extract: wort, volume: 1 l}")
    assert gas("{extract: kräusen, volume: 1 l}") == pytest.approx(0.7 * fresh)
    assert gas("{extract: kräusen, volume: 1 l, gravity: 1.031}") == pytest.approx(fresh / 2, rel=0.03)
    assert gas("{extract: wort, volume: 1 l, gravity: 1.031}") == pytest.approx(fresh / 2, rel=0.06)


def test_what_does_not_ferment_any_more_is_no_priming() -> None:
    with pytest.raises(Unknown, match="wort that still ferments"):
        gas("{extract: krausen, volume: 1 l, gravity: 1.012}")


def test_syrup_by_volume_and_other_sugar_beside_it() -> None:
    assert gas("{sugar: honey, volume: 100 ml}") == pytest.approx(gas("{sugar: honey, weight: 140 g}"), rel=0.01)


def test_the_batch_loses_some_on_the_way() -> None:
    ferment = "ferment: [{at: 20 °C}]"
    whole = priming_sugar(brew(BOTTLES, ferment)).typical
    assert priming_sugar(brew(BOTTLES, ferment, batch="20 l")).typical == pytest.approx(0.95 * whole)
    house = "fermenter: {loss: 2 l}\n"
    assert priming_sugar(brew(BOTTLES, ferment, batch="20 l", house=house)).typical == pytest.approx(0.9 * whole)


@pytest.mark.parametrize("priming", ["weight: 120 g", "rate: 6 g/l", "{each: 3 g, bottle: 500 ml}".strip("{}")])
def test_one_amount_stated_in_three_ways(priming: str) -> None:
    figure = carbonation(
        brew(
            f"package: {{in: bottles, carbonation: 2.4 volumes, priming: {{sugar: table sugar, {priming}}}}}",
            "ferment: [{at: 20 °C}]",
        )
    )
    assert figure.typical == pytest.approx(2.4, abs=0.01)
    assert figure.parts == (("stated", Range.exact(2.4)),)
    assert "0.839 left by fermentation + 6 g/l of table sugar × 0.514 ÷ 1.977 = 2.4" in figure.working()


def test_pounds_and_gallons_give_the_same() -> None:
    ours = carbonation(
        brew("package: {in: bottles, priming: {sugar: corn sugar, weight: 5 oz}}", batch="5 gal", weight="9.7 lb")
    )
    theirs = carbonation(
        brew("package: {in: bottles, priming: {sugar: corn sugar, weight: 141.7476 g}}", batch="18.927 l")
    )
    assert ours.typical == pytest.approx(theirs.typical, abs=0.001)


def test_a_keg_by_its_pressure() -> None:
    figure = carbonation(brew("package: {in: keg, pressure: 11.2 psi, at: 38 °F}"))
    assert figure.typical == pytest.approx(2.53, abs=0.01)


@pytest.mark.parametrize(("carbonated", "bar"), [("2.4 volumes", 0.778), ("4.745 g/l", 0.778)])
def test_pressure_for_a_keg(carbonated: str, bar: float) -> None:
    figure = keg_pressure(brew(f"package: {{in: keg, carbonation: {carbonated}, at: 5 °C}}"))
    assert figure.typical == pytest.approx(bar, abs=0.002)
    assert figure.assumed == ()


def test_pressure_of_a_bottle_at_three_temperatures() -> None:
    figure = bottle_pressure(brew("package: {in: bottles, carbonation: 2.5 volumes}"))
    parts = [part(figure, f"at {at_c} °C").typical for at_c in (5, 20, 30)]
    assert parts == pytest.approx([0.853, 2.007, 3.041], abs=0.001)
    assert figure.typical == parts[1]
    assert figure.assumed == ("that fermentation has ended, since no gravity at packaging is stated",)


def test_what_is_left_of_a_stated_gravity() -> None:
    tried = brew("package: {in: bottles, carbonation: 2.4 volumes, gravity: 1.014}", "targets: {og: 1.050, fg: 1.010}")
    figure = unfinished_co2(tried)
    assert figure.typical == pytest.approx(fermented_volumes(1.050, 1.014, 1.010))
    assert figure.typical == pytest.approx(2.1, abs=0.05)
    assert bottle_pressure(tried).typical > 3.5


def test_a_finished_beer_has_nothing_left() -> None:
    stated = "package: {in: bottles, carbonation: 2.4 volumes, gravity: 1.010}"
    figure = unfinished_co2(brew(stated, "yeast: {kind: American ale}", "targets: {og: 1.050, fg: 1.010}"))
    assert figure.range == Range(0, 0, 0)


def test_a_gravity_without_an_fg_is_held_against_the_band() -> None:
    mash = "mash: {rests: [{at: 66 °C, for: 60 min}]}"
    stated = "package: {in: bottles, carbonation: 2.4 volumes, gravity: 1.014}"
    tried = brew(stated, mash, "yeast: {kind: American ale}")
    figure = unfinished_co2(tried)
    start = og(tried).typical
    band, slowest = apparent_attenuation(tried), 73.0  # of the yeast itself
    surely = fermented_volumes(start, 1.014, final_gravity(start, min(band.low, slowest)))
    assert (figure.low, figure.typical) == pytest.approx((surely, surely))
    assert figure.high == pytest.approx(fermented_volumes(start, 1.014, final_gravity(start, band.typical)))


def test_brew_days_say_where_the_beer_ends() -> None:
    stated = "package: {in: bottles, carbonation: 2.4 volumes, gravity: 1.012}"
    days = "measured: [{date: 2026-03-01, fg: 1.010}, {date: 2026-04-01, fg: 1.012}]"
    figure = unfinished_co2(brew(stated, days, "targets: {og: 1.050}"))
    assert (figure.low, figure.high) == (0.0, fermented_volumes(1.050, 1.012, 1.010))
    assert figure.typical == 0.0, "a hydrometer is not read closer"


def test_dry_hops_count_at_the_unfavourable_end() -> None:
    hops = "hops: [{hop: Cascade, weight: 160 g, alpha: 6 %, dry: 4 d}]"
    figure = unfinished_co2(brew(BOTTLES, hops, "targets: {og: 1.050, fg: 1.010}"))
    assert figure.typical == 0
    assert figure.high == pytest.approx(fermented_volumes(1.050, 1.010, 1.005))


def test_bottled_early_on_purpose_is_not_counted_twice() -> None:
    tried = brew(
        "package: {in: bottles, carbonation: 2.4 volumes, gravity: 1.013}",
        "ferment: [{at: 20 °C}]",
        "targets: {og: 1.050, fg: 1.010}",
    )
    assert (
        bottle_pressure(tried).typical
        < bottle_pressure(brew("package: {in: bottles, carbonation: 2.6 volumes}")).typical
    )


@pytest.mark.parametrize(
    ("figure", "package", "missing"),
    [
        (carbonation, "package: {in: bottles}", "the carbonation or the priming sugar"),
        (carbonation, "yeast: {kind: English ale}", "what the beer is packaged in"),
        (priming_sugar, "package: {in: bottles}", "the carbonation"),
        (
            priming_sugar,
            "package: {in: keg, carbonation: 2.4 volumes}",
            "priming; a keg takes its gas from the cylinder",
        ),
        (bottle_pressure, "package: {in: keg, carbonation: 2.4 volumes}", "bottles"),
        (keg_pressure, BOTTLES, "a keg"),
        (keg_pressure, "package: {in: keg}", "the carbonation"),
        (
            carbonation,
            "package: {in: bottles, priming: {sugar: lactose, weight: 100 g}}",
            "a priming sugar that yeast ferments",
        ),
    ],
)
def test_what_is_missing_is_named(figure: object, package: str, missing: str) -> None:
    with pytest.raises(Unknown) as unknown:
        figure(brew(package))  # type: ignore[operator]
    assert unknown.value.missing == missing


@pytest.mark.parametrize(
    ("yeast", "cells"),
    [
        ("pitch: 11 g", (66, 132, 220)),
        ("pitch: 2 packs", (140, 200, 400)),
        ("pitch: 2 packs, viability: 50 %", (70, 100, 200)),
        ("pitch: 100 ml", (50, 120, 250)),
        ("pitch: 200 billion cells", (200, 200, 200)),
        ("pitch: 0.55 g/l", (66, 132, 220)),
        ("starter: 2 l", (70 + 2 * 9 * 7.2, 100 + 2 * 9.5 * 10.4, 200 + 2 * 10 * 14.5)),
        ("pitch: 1 pack, starter: 2 l", (70 + 2 * 9 * 7.2, 100 + 2 * 9.5 * 10.4, 200 + 2 * 10 * 14.5)),
        ("pitch: 100 g", (100, 300, 1000)),
    ],
)
def test_cells_pitched(yeast: str, cells: tuple[float, float, float]) -> None:
    figure = pitch.pitched(brew(f"yeast: {{kind: English ale, {yeast}}}", batch="20 l"))
    assert (figure.low, figure.typical, figure.high) == pytest.approx(cells)


@pytest.mark.parametrize(
    ("kind", "ferment", "million"),
    [
        ("English ale", "", 0.75),
        ("Bavarian lager", "", 1.5),
        ("Bavarian lager", "ferment: [{at: 10 °C}]", 1.5),
        ("Bavarian lager", "ferment: [{at: 19 °C}]", 0.75),
        ("something of ours", "", 1.0),
    ],
)
def test_cells_needed(kind: str, ferment: str, million: float) -> None:
    figure = pitch.needed(brew(f"yeast: {{kind: {kind}}}", ferment, "targets: {og: 12 °P}", batch="20 l"))
    assert figure.typical == pytest.approx(million * 20 * 12, rel=0.001)


def test_of_several_yeasts_all_count() -> None:
    figure = pitch.pitched(
        brew("yeast: [{kind: English ale, pitch: 11 g}, {kind: American ale, pitch: 1 pack}]", batch="20 l")
    )
    assert figure.typical == 232


ODD = ("0", "0.001", "900000", "-5")


@pytest.mark.parametrize("odd", ODD)
@pytest.mark.parametrize(
    "package",
    [
        "{{in: bottles, carbonation: {odd} volumes, priming: {{weight: {odd} g}}, bottle-rating: {odd} bar}}",
        "{{in: bottles, priming: {{each: 3 g, bottle: {odd} ml}}, pressure: {odd} bar, at: {odd} °C}}",
        "{{in: keg, carbonation: 2 volumes, pressure: {odd} psi, at: {odd} °F}}",
        "{{in: bottles, carbonation: 2 volumes, gravity: {odd}}}",
        "{{in: bottles, carbonation: 2 volumes, bottle-rating: {odd} volumes}}",
    ],
)
@pytest.mark.parametrize("yeast", ["{{kind: saison, pitch: {odd} g}}", "{{kind: Bavarian lager, pitch: {odd} packs}}"])
def test_odd_numbers_are_no_fault_of_the_program(odd: str, package: str, yeast: str) -> None:
    more = f"ferment: [{{at: {odd} °C}}]\ntargets: {{og: 1.050, fg: 1.010}}\n"
    text = (
        f"recipe: Odd\nbatch: {{package: {odd} l}}\ngrist: [{{grain: pale ale malt, weight: 4 kg}}]\n"
        f"yeast: {yeast.format(odd=odd)}\npackage: {package.format(odd=odd)}\n{more}"
    )
    ours = {"carbonation", "priming", "unfinished-beer", "diastatic-yeast", "pitching-rate", "fermentation-temperature"}
    for tried in (text, text.replace(f"package: {odd} l", "package: 20 l")):
        assert [fault for fault in mashwright.review_text(tried).faults if fault.rule in ours] == []
        one = Brew.of(tried)
        for figure in (residual_co2, carbonation, priming_sugar, unfinished_co2, bottle_pressure, keg_pressure):
            with contextlib.suppress(Unknown):
                figure(one).working()


def test_so_much_speise_gives_what_is_wanted() -> None:
    """Put into the recipe, what the figure asks for gives the stated carbonation."""
    asked = "package: {in: bottles, carbonation: 2.5 volumes, priming: {wort: speise, gravity: 1.048%s}}"
    needed = priming_sugar(brew(asked % "", *CLOSED))
    litres = needed.typical / 1048
    primed = brew(asked % f", volume: {litres:.6f} l", *CLOSED)
    assert carbonation(primed).typical == pytest.approx(2.5, abs=0.001)
    assert f"= {litres:.3g} l" in needed.working()
