"""What is dissolved in the water, and the pH of the mash."""

from mashwright.figures.water.acidity import mash_acid_needed, mash_ph
from mashwright.figures.water.brewing_water import Dose, Liquor, acid_meq, liquor, tap_water
from mashwright.figures.water.dissolved import (
    ions,
    ions_in_kettle,
    ions_in_mash,
    residual_alkalinity,
    sulfate_chloride_ratio,
)

__all__ = [
    "Dose",
    "Liquor",
    "acid_meq",
    "ions",
    "ions_in_kettle",
    "ions_in_mash",
    "liquor",
    "mash_acid_needed",
    "mash_ph",
    "residual_alkalinity",
    "sulfate_chloride_ratio",
    "tap_water",
]
