"""What stands in the grist: weights, shares and enzymes."""

from mashwright.figures.grist.shares import (
    acidulated_share,
    adjunct_share,
    caramel_share,
    grist_converting_power,
    grist_diastatic_power,
    grist_weight,
    huskless_share,
    mash_weight,
    roast_share,
)

__all__ = [
    "acidulated_share",
    "adjunct_share",
    "caramel_share",
    "grist_converting_power",
    "grist_diastatic_power",
    "grist_weight",
    "huskless_share",
    "mash_weight",
    "roast_share",
]
