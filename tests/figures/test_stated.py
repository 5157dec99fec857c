"""Gravities that somebody states or measures, beside those of the model; and the wort before the boil."""

import pytest

from mashwright.brew.brew import Brew
from mashwright.brewing.gravity import extract_kg
from mashwright.figures.beer.measured import measured_abv
from mashwright.figures.beer.stated import stated_abv, stated_attenuation
from mashwright.figures.function import FigureFunction
from mashwright.figures.kettle.before_boil import pre_boil_gravity
from mashwright.measures.range import Range
from mashwright.recipe.stated import Open, Unknown

RECIPE = """\
recipe: Test Brew
batch: 20 l
efficiency: 70 %
grist:
  - {grain: two-row pale malt, weight: 4 kg, extract: 80 %, moisture: 5 %}
mash: {rests: [{at: 66 °C, for: 60 min}]}
yeast: {kind: English ale, attenuation: 75 %}
"""


def brew(text: str) -> Brew:
    return Brew.of(text)


def test_stated_gravities_have_an_attenuation_and_an_alcohol_of_their_own() -> None:
    said = brew(RECIPE + "targets: {og: 1.050, fg: 1.010, abv: 5.2 %, attenuation: 79 %}\n")
    attenuation, abv = stated_attenuation(said), stated_abv(said)
    assert attenuation.range == Range.exact(pytest.approx(80.0))
    assert attenuation.parts == (("as stated", Range.exact(79.0)), ("the yeast English ale", Range.exact(75.0)))
    assert attenuation.working() == "(1.050 - 1.010) ÷ (1.050 - 1) × 100 = 80 %"
    assert abv.typical == pytest.approx(5.32, abs=0.01)
    assert abv.parts == (("as stated", Range.exact(5.2)),)
    assert abv.working() == "Balling's balance from 1.050 to 1.010 = 5.32 % by volume"
    assert abv.paths == (("targets", "og"), ("targets", "fg"))


def test_an_attenuation_that_is_stated_serves_for_a_final_gravity_that_is_not() -> None:
    said = brew(RECIPE + "targets: {og: 1.050, attenuation: 78-82 %}\n")
    abv = stated_abv(said)
    assert abv.typical == pytest.approx(5.32, abs=0.01)
    assert abv.low < abv.typical < abv.high
    assert abv.working() == "Balling's balance from 1.050 to 1.010 by an attenuation of 78-82 % = 5.32 % by volume"
    assert stated_attenuation(said).range == Range(78.0, 80.0, 82.0)


def test_measured_days_have_their_alcohol() -> None:
    days = "measured:\n  - {date: 2026-03-14, og: 1.050, fg: 1.010}\n  - {date: 2026-05-02, abv: 5 %}\n"
    abv = measured_abv(brew(RECIPE + days))
    assert abv.typical == pytest.approx((5.32 + 5) / 2, abs=0.01)
    assert (abv.low, abv.high) == pytest.approx((5.0, 5.32), abs=0.01)
    assert abv.working().splitlines() == [
        "2026-03-14: Balling's balance from 1.050 to 1.010 = 5.32 % by volume",
        "2026-05-02: 5 % as measured",
        "on average (5.32 + 5) ÷ 2 = 5.16 % vol",
    ]


@pytest.mark.parametrize(
    ("figure", "more", "missing"),
    [
        (stated_abv, "", "a stated OG and FG"),
        (stated_attenuation, "targets: {og: 1.050}\n", "a stated OG and FG"),
        (measured_abv, "measured: [{og: 1.050}]\n", "a measured brew day with its OG and FG"),
    ],
)
def test_what_is_missing_is_said(figure: FigureFunction, more: str, missing: str) -> None:
    with pytest.raises(Unknown) as unknown:
        figure(brew(RECIPE + more))
    assert unknown.value.missing == missing


def test_gravities_the_wrong_way_round_are_open_and_give_no_alcohol_below_nothing() -> None:
    with pytest.raises(Open):
        stated_abv(brew(RECIPE + "targets: {og: 1.010, fg: 1.050}\n"))
    with pytest.raises(Unknown):
        measured_abv(brew(RECIPE + "measured: [{og: 1.010, fg: 1.050}]\n"))


def test_the_wort_before_the_boil_holds_what_the_fermenter_gets_and_what_the_kettle_keeps() -> None:
    figure = pre_boil_gravity(brew(RECIPE + "boil: {volume: 27 l, for: 60 min}\n"))
    in_fermenter = 4 * 0.8 * 0.95 * 0.7
    # 6 % of the wort stays in the kettle where no brewhouse says it, beside 20 l
    assert extract_kg(27 * 0.96, figure.typical) == pytest.approx(in_fermenter * 1.06, rel=1e-3)
    assert ("boil", "volume") in figure.paths
    assert figure.working().splitlines()[0] == (
        "2.26 kg of extract in 27 l of hot wort, × 0.96 when cooled (5.7 % of it stays in the kettle)"
    )


def test_an_efficiency_counted_in_the_kettle_holds_that_already() -> None:
    in_kettle = RECIPE.replace("efficiency: 70", "mash-efficiency: 70")
    figure = pre_boil_gravity(brew(in_kettle + "boil: {volume: 27 l, for: 60 min}\n"))
    assert extract_kg(27 * 0.96, figure.typical) == pytest.approx(4 * 0.8 * 0.95 * 0.7, rel=1e-3)


def test_sugar_in_the_kettle_may_go_in_after_the_reading_and_that_in_the_fermenter_never_counts() -> None:
    kettle = RECIPE.replace("mash: ", "  - {sugar: table sugar, weight: 500 g, add: kettle}\nmash: ")
    fermenter = kettle.replace("add: kettle", "add: fermenter")
    plain, sweet, late = (pre_boil_gravity(brew(text)) for text in (RECIPE, kettle, fermenter))
    assert sweet.typical > plain.typical + 0.005
    assert dict(sweet.parts)["before sugar and extract go in"].typical == pytest.approx(plain.typical, abs=3e-4)
    assert late.typical == pytest.approx(plain.typical, abs=1e-6)
