"""Brewing water: what salts bring, residual alkalinity, and whether an analysis balances.

Alkalinity is counted in mEq/l throughout; as bicarbonate it is 61.017 mg, as calcium carbonate 50.04 mg to 1 mEq.
"""

from collections.abc import Mapping
from typing import NamedTuple

from mashwright.measures.constants import (
    BICARBONATE_G_MOL,
    CALCIUM_CARBONATE_G_MOL,
    CALCIUM_G_MOL,
    CHLORIDE_G_MOL,
    MAGNESIUM_G_MOL,
    SODIUM_G_MOL,
    SULFATE_G_MOL,
)
from mashwright.measures.range import Range

ION_G_MOL = {
    "calcium": CALCIUM_G_MOL,
    "magnesium": MAGNESIUM_G_MOL,
    "sodium": SODIUM_G_MOL,
    "chloride": CHLORIDE_G_MOL,
    "sulfate": SULFATE_G_MOL,
    "bicarbonate": BICARBONATE_G_MOL,
}
CHARGE = {"calcium": 2, "magnesium": 2, "sodium": 1, "chloride": 1, "sulfate": 2, "bicarbonate": 1}
IONS = tuple(ION_G_MOL)


class Salt(NamedTuple):
    """A brewing salt.

    Attributes:
        formula: as chemists write it.
        g_mol: its molar mass.
        ions: how many of each ion one mole gives, carbonate and hydroxide left out.
        alkalinity: mEq of alkalinity that one mmol gives.
    """

    formula: str
    g_mol: float
    ions: tuple[tuple[str, int], ...]
    alkalinity: int = 0


SALTS = {
    "gypsum": Salt("CaSO4·2H2O", 172.17, (("calcium", 1), ("sulfate", 1))),
    "calcium chloride dihydrate": Salt("CaCl2·2H2O", 147.01, (("calcium", 1), ("chloride", 2))),
    "anhydrous calcium chloride": Salt("CaCl2", 110.98, (("calcium", 1), ("chloride", 2))),
    "Epsom salt": Salt("MgSO4·7H2O", 246.47, (("magnesium", 1), ("sulfate", 1))),
    "magnesium chloride": Salt("MgCl2·6H2O", 203.30, (("magnesium", 1), ("chloride", 2))),
    "table salt": Salt("NaCl", 58.44, (("sodium", 1), ("chloride", 1))),
    "baking soda": Salt("NaHCO3", 84.01, (("sodium", 1),), 1),
    "washing soda": Salt("Na2CO3", 105.99, (("sodium", 2),), 2),
    "chalk": Salt("CaCO3", CALCIUM_CARBONATE_G_MOL, (("calcium", 1),), 2),
    "slaked lime": Salt("Ca(OH)2", 74.09, (("calcium", 1),), 2),
    "potassium chloride": Salt("KCl", 74.55, (("chloride", 1),)),
}
CALCIUM_CHLORIDE = "calcium chloride"
"""As sold it lies between the dihydrate, which is usual, and the anhydrous salt; common practice."""

CHALK_DISSOLVED = Range(0.0, 0.3, 1.0)
"""Share of chalk that acts. Source: [troester-mash-ph], hardly any where it is stirred in; the typical is judgement."""

LEAST_CALCIUM_MG_L = 50.0
"""Calcium that a mash is usually given at the least. Source: [water-report-article] [water-101]."""

# Magnesium that is missing in an analysis: a few mg/l in most tap water; judgement.
USUAL_MAGNESIUM_MG_L = Range(0.0, 5.0, 20.0)


def salt_gives(name: str) -> dict[str, Range]:
    """What 1 g of a salt in 1 l gives.

    Args:
        name: a key of ``SALTS``, or ``calcium chloride``.

    Returns:
        mg/l by ion, and ``alkalinity`` in mEq/l.

    Raises:
        KeyError: no such salt.

    Source: molar masses.
    """
    if name == CALCIUM_CHLORIDE:
        usual, strongest = salt_gives("calcium chloride dihydrate"), salt_gives("anhydrous calcium chloride")
        return {ion: Range(one.typical, one.typical, strongest[ion].typical) for ion, one in usual.items()}
    salt = SALTS[name]
    mmol = 1000 / salt.g_mol
    given = {ion: Range.exact(count * mmol * ION_G_MOL[ion]) for ion, count in salt.ions}
    if salt.alkalinity:
        given["alkalinity"] = Range.exact(salt.alkalinity * mmol)
    if name == "chalk":
        given = {what: CHALK_DISSOLVED * one.typical for what, one in given.items()}
    return given


def milliequivalents(ion: str, mg_l: float) -> float:
    """An ion's mEq/l from its mg/l.

    Raises:
        KeyError: no such ion.

    Source: molar masses.
    """
    return mg_l * CHARGE[ion] / ION_G_MOL[ion]


def residual_alkalinity_meq_l(alkalinity_meq_l: float, calcium_mg_l: float, magnesium_mg_l: float) -> float:
    """Alkalinity left when calcium and magnesium have met the phosphate of the malt, mEq/l; may be below 0.

    Args:
        alkalinity_meq_l: below 0 where acid is in excess.
        calcium_mg_l: from 0.
        magnesium_mg_l: from 0.

    Source: [palmer-15] [mebak-w-030-01-900], after Kolbach 1953.
    """
    calcium = milliequivalents("calcium", calcium_mg_l)
    magnesium = milliequivalents("magnesium", magnesium_mg_l)
    return alkalinity_meq_l - calcium / 3.5 - magnesium / 7


def imbalance_meq_l(ions_mg_l: Mapping[str, float], alkalinity_meq_l: float) -> float:
    """Cations less anions of an analysis, mEq/l; near 0 where it is whole, potassium and nitrate apart.

    Args:
        ions_mg_l: calcium, magnesium, sodium, chloride and sulfate.
        alkalinity_meq_l: taken for the bicarbonate.

    Raises:
        KeyError: one of the five is missing.

    Source: every water is electrically neutral.
    """
    meq = {ion: milliequivalents(ion, ions_mg_l[ion]) for ion in IONS if ion != "bicarbonate"}
    return meq["calcium"] + meq["magnesium"] + meq["sodium"] - meq["chloride"] - meq["sulfate"] - alkalinity_meq_l
