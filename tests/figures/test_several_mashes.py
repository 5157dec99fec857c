"""Several mashes of one grist for one kettle: of a double batch, or reiterated in the wort of the one before."""

import pytest

import mashwright
from mashwright.brew import Brew
from mashwright.figures.kettle import from_waters, liquor_to_grist, mash_volume
from mashwright.figures.mash import bed_temperature, conversion, og, strike_temperature, wort_limit
from mashwright.figures.water.acidity import mash_ph
from mashwright.recipe.stated import Unknown

RECIPE = """\
recipe: Doubled
batch: 10 l
grist: [{grain: pale ale malt, weight: 8 kg}]
mash: {water: 20 l, rests: [{at: 66 °C, for: 60 min}]FIELDS}
sparge: {by: batch, water: 6 l, at: 78 °C}
water: {calcium: 60 mg/l, alkalinity: 100 mg/l}
"""
DOUBLE = ", mashes: 2"
REITERATED = ", mashes: 2, reiterated: true"


def brew(fields: str = "") -> Brew:
    return Brew.of(RECIPE.replace("FIELDS", fields))


@pytest.mark.parametrize("figure", [og, conversion, wort_limit, strike_temperature, liquor_to_grist, mash_ph])
def test_a_double_batch_is_the_same_wort(figure: object) -> None:
    assert callable(figure)
    assert figure(brew(DOUBLE)).range == figure(brew()).range


def test_each_of_two_fills_half_of_the_tun() -> None:
    assert mash_volume(brew(DOUBLE)).typical == pytest.approx(mash_volume(brew()).typical / 2)
    assert bed_temperature(brew(DOUBLE)).typical == pytest.approx(bed_temperature(brew()).typical)


def test_a_reiterated_mash_has_all_of_the_water_on_its_first_part() -> None:
    made = brew(REITERATED)
    assert liquor_to_grist(made).typical == pytest.approx(5.0)
    assert mash_volume(made).typical == pytest.approx(20 + 0.66 * 4)
    given, once = from_waters(made), from_waters(brew())
    assert given is not None
    assert once is not None
    assert given[0] == once[0]  # as much wort: each bed keeps its part
    assert strike_temperature(made).typical < strike_temperature(brew()).typical


def test_its_wort_is_stronger_and_less_of_the_extract_arrives() -> None:
    assert wort_limit(brew(REITERATED)).typical > wort_limit(brew()).typical + 3
    with_six = brew(", mashes: 4, reiterated: true")
    assert wort_limit(with_six).typical > wort_limit(brew(REITERATED)).typical
    told = og(brew(REITERATED)).assumed
    assert [one for one in told if "grain beds keep wort" in one] == [
        "82.8 % of the efficiency, since 2 grain beds keep wort"
    ]


def test_a_stated_efficiency_is_believed() -> None:
    stated = RECIPE.replace("batch: 10 l", "batch: 10 l\nefficiency: 50 %").replace("FIELDS", REITERATED)
    plain = RECIPE.replace("batch: 10 l", "batch: 10 l\nefficiency: 50 %").replace("FIELDS", "")
    assert og(Brew.of(stated)).range == og(Brew.of(plain)).range


def test_its_ph_is_not_computed_and_says_so() -> None:
    with pytest.raises(Unknown, match="pH of a mash whose water is wort"):
        mash_ph(brew(REITERATED))


def test_reiterated_alone_is_two_mashes() -> None:
    assert brew(", reiterated: true").recipe.mash.number == 2
    assert og(brew(", reiterated: true")).range == og(brew(REITERATED)).range


def told(text: str) -> list[tuple[str, int, str]]:
    reviewed = mashwright.review_text(text, "a.yaml").recipes[0]
    return [(one.rule, one.place.line, one.message) for one in reviewed.results]


@pytest.mark.parametrize("number", ["0", "7", "2.5"])
def test_a_number_of_mashes_that_cannot_be_is_refused(number: str) -> None:
    assert told(RECIPE.replace("FIELDS", f", mashes: {number}"))[0] == (
        "quantity",
        4,
        f"{number} mashes of one grist are not possible here; write a number from 1 to 6",
    )


def test_each_mash_has_to_fit_the_tun() -> None:
    house = "brewhouse: A\nmash-tun: {volume: 20 l}\n"
    once = mashwright.review_text(RECIPE.replace("FIELDS", ""), "a.yaml", brewhouse=house).recipes[0]
    twice = mashwright.review_text(RECIPE.replace("FIELDS", DOUBLE), "a.yaml", brewhouse=house).recipes[0]
    assert "mash-tun-volume" in {one.rule for one in once.results}
    assert "mash-tun-volume" not in {one.rule for one in twice.results}


def test_an_infusion_in_several_mashes_is_left_open() -> None:
    rests = "rests: [{at: 52 °C, for: 15 min}, {at: 66 °C, for: 60 min, by: infusion, water: 5 l}]"
    text = RECIPE.replace("rests: [{at: 66 °C, for: 60 min}]", rests).replace("FIELDS", DOUBLE)
    sheet = mashwright.figures_of(text, brewhouse="{}")
    missing = {row.id: row.missing for row in sheet.rows}
    assert missing["step-temperature"].startswith("how much of it each of the mashes gets")
