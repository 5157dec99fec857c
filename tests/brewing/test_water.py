import pytest
from hypothesis import given
from hypothesis import strategies as st

from mashwright.brewing.acids import ACIDS, density_kg_l, equivalents_per_mol, meq_per_g
from mashwright.brewing.colour import malt_colour_units, morey_srm
from mashwright.brewing.mash_ph import Shift, distilled_water_ph, grain_of, mash_ph_band, slope_ph_per_meq_l
from mashwright.brewing.water import SALTS, imbalance_meq_l, residual_alkalinity_meq_l, salt_gives
from mashwright.measures.range import Range

KINDS = [
    "base malt",
    "kilned malt",
    "caramel malt",
    "roasted malt",
    "malted adjunct grain",
    "raw grain",
    "flaked grain",
]
GRAINS = st.lists(
    st.tuples(st.sampled_from(KINDS), st.sampled_from(["barley", "wheat", "maize"]), st.floats(0.5, 600)),
    min_size=1,
    max_size=6,
)


@pytest.mark.parametrize("name", [*SALTS, "calcium chloride"])
def test_every_salt_is_neutral(name: str) -> None:
    """What it gives balances, carbonate and hydroxide counted as alkalinity; potassium is not counted."""
    given_ = {what: value.high for what, value in salt_gives(name).items()}
    ions = {ion: given_.get(ion, 0.0) for ion in ("calcium", "magnesium", "sodium", "chloride", "sulfate")}
    off = imbalance_meq_l(ions, given_.get("alkalinity", 0.0))
    assert off == pytest.approx(-1000 / 74.55 if name == "potassium chloride" else 0.0, abs=0.01)


def test_unknown_salt() -> None:
    with pytest.raises(KeyError):
        salt_gives("stardust")


def test_an_analysis_with_a_hole() -> None:
    with pytest.raises(KeyError):
        imbalance_meq_l({"calcium": 60}, 2.0)


@given(st.floats(-5, 10), st.floats(0, 400), st.floats(0, 100))
def test_hardness_lowers_residual_alkalinity(alkalinity: float, calcium: float, magnesium: float) -> None:
    here = residual_alkalinity_meq_l(alkalinity, calcium, magnesium)
    assert here <= alkalinity
    assert residual_alkalinity_meq_l(alkalinity, calcium + 10, magnesium) < here


@given(st.sampled_from(sorted(ACIDS)), st.floats(2, 9))
def test_an_acid_gives_off_more_in_a_weaker_mash(name: str, ph: float) -> None:
    pkas = ACIDS[name].pkas
    assert 0 <= equivalents_per_mol(pkas, ph) <= equivalents_per_mol(pkas, ph + 0.5) <= len(pkas)


def test_weighed_acids_have_no_density() -> None:
    with pytest.raises(ValueError, match="citric acid is weighed"):
        density_kg_l("citric acid", 50)
    assert meq_per_g("citric acid", 100) == pytest.approx(9.8, abs=0.3)


@pytest.mark.parametrize(
    ("name", "percent", "kg_l"),
    [
        ("lactic acid", 80, 1.187),
        ("phosphoric acid", 10, 1.053),
        ("phosphoric acid", 85, 1.685),
        ("hydrochloric acid", 37, 1.18),
        ("sulfuric acid", 96, 1.84),
    ],
)
def test_densities(name: str, percent: float, kg_l: float) -> None:
    """From memory; the coefficients were fitted to these, all but lactic acid of 80 %, which lies on their line."""
    assert density_kg_l(name, percent) == pytest.approx(kg_l, abs=0.01)


@given(GRAINS)
def test_distilled_water_ph_lies_among_its_grains(parts: list[tuple[str, str, float]]) -> None:
    grains = [(grain_of(*part), 1.0) for part in parts]
    ph = distilled_water_ph(grains)
    assert min(grain.ph.low for grain, _ in grains) - 1e-9 <= ph.low <= ph.typical <= ph.high
    assert ph.high <= max(grain.ph.high for grain, _ in grains) + 1e-9


@pytest.mark.parametrize("shift", [-2.0, -9.0, 9.0])
def test_the_band_is_as_wide_where_it_ends(shift: float) -> None:
    """Roasted malt alone at pH 4.5, 2 lower, came to 2.5 and was told as known to be no lower."""
    ph = distilled_water_ph([(grain_of("roasted malt", "barley", 450), 1.0)])
    band = mash_ph_band(ph, [Shift("acid", Range.exact(shift))])
    assert band.high - band.typical >= 0.15 - 1e-9
    assert band.typical - band.low >= 0.15 - 1e-9
    assert (band.low == 2.5) is (shift < 0)


@given(GRAINS, st.floats(-2, 2))
def test_the_band_is_never_narrower_than_can_be_known(parts: list[tuple[str, str, float]], shift: float) -> None:
    ph = distilled_water_ph([(grain_of(*part), 1.0) for part in parts])
    band = mash_ph_band(ph, [Shift("acid", Range.exact(shift))])
    assert band.high - band.typical >= 0.15 - 1e-9
    assert band.typical - band.low >= 0.15 - 1e-9


def test_no_grain() -> None:
    with pytest.raises(ValueError, match="no grain, no pH"):
        distilled_water_ph([])


@given(st.floats(1, 10))
def test_slope_is_in_order(thickness: float) -> None:
    slope = slope_ph_per_meq_l(thickness)
    assert 0 < slope.low < slope.typical <= slope.high


@given(st.floats(0, 500), st.floats(0, 100))
def test_more_malt_is_darker(mcu: float, more: float) -> None:
    assert morey_srm(mcu) <= morey_srm(mcu + more)


def test_no_volume_no_colour() -> None:
    with pytest.raises(ValueError, match="volume_l must be above 0"):
        malt_colour_units(10, 0)
