"""What becomes of the wort: fermentation, strength, colour."""

from mashwright.figures.beer.beer_colour import colour
from mashwright.figures.beer.measured import day_name
from mashwright.figures.beer.pitch import DRY_UP_TO_G_PER_L, dry_g_per_l, needed, pitched, wort_strength, yeast_class
from mashwright.figures.beer.strength import (
    ORDINARY_CEILING,
    abv,
    apparent_attenuation,
    apparent_ceiling,
    fermenting,
    fg,
    real_attenuation,
    splits_dextrins,
    still_splitting,
)
from mashwright.figures.beer.sulfites import sulfite
from mashwright.figures.beer.unboiled import UNBOILED_PERCENT

__all__ = [
    "DRY_UP_TO_G_PER_L",
    "ORDINARY_CEILING",
    "UNBOILED_PERCENT",
    "abv",
    "apparent_attenuation",
    "apparent_ceiling",
    "colour",
    "day_name",
    "dry_g_per_l",
    "fermenting",
    "fg",
    "needed",
    "pitched",
    "real_attenuation",
    "splits_dextrins",
    "still_splitting",
    "sulfite",
    "wort_strength",
    "yeast_class",
]
