"""The colour of a beer in a glass, by the published relation and the colour-science package."""

import warnings
from math import exp

import pytest

from mashwright.brewing.glass_colour import PATH_CM, STEP_SRM, colour_word, srgb_of_srm

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # of parts of it that need more packages
    colour = pytest.importorskip("colour", reason="colour-science is not installed")


def transmission(srm: float, wavelength: float) -> float:
    """Of light of a wavelength in nm. A. J. deLange, in Bamforth, Brewing Materials and Processes."""
    at = wavelength - 430
    return float(10 ** (-srm / 12.7 * PATH_CM * (0.02465 * exp(-at / 17.591) + 0.97535 * exp(-at / 82.122))))


@pytest.mark.parametrize("row", range(101))
def test_each_row_of_the_table_is_what_the_relation_gives(row: int) -> None:
    srm = row * STEP_SRM
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        spectrum = colour.SpectralDistribution({at: transmission(srm, at) for at in range(380, 781, 5)})
        observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
        xyz = colour.sd_to_XYZ(spectrum, observer, colour.SDS_ILLUMINANTS["D65"]) / 100
        found = [min(max(float(one), 0.0), 1.0) for one in colour.XYZ_to_sRGB(xyz)]
    ours = srgb_of_srm(srm)
    for at, one in enumerate(found):
        assert abs(int(ours[1 + 2 * at : 3 + 2 * at], 16) - 255 * one) <= 0.51


def test_what_stands_beside_the_colour() -> None:
    assert [colour_word(one) for one in (2, 6, 10, 12, 40)] == ["straw", "gold", "amber", "copper", "black"]
    assert srgb_of_srm(50) == srgb_of_srm(90)
    with pytest.raises(ValueError, match="0 or more"):
        srgb_of_srm(-1)
    with pytest.raises(ValueError, match="0 or more"):
        srgb_of_srm(float("nan"))
