"""From the run-off to the end of the boil: volumes and hops."""

from mashwright.figures.kettle.boil_volumes import from_waters, left_for_fermenter, pre_boil_volume
from mashwright.figures.kettle.hops import (
    HopAddition,
    bitterness,
    bitterness_ratio,
    hop_additions,
    souring_bitterness,
)
from mashwright.figures.kettle.volumes import drained_with_sparge, liquor_to_grist, mash_volume, total_liquor
from mashwright.figures.kettle.wort_in_boil import boiling_wort

__all__ = [
    "HopAddition",
    "bitterness",
    "bitterness_ratio",
    "boiling_wort",
    "drained_with_sparge",
    "from_waters",
    "hop_additions",
    "left_for_fermenter",
    "liquor_to_grist",
    "mash_volume",
    "pre_boil_volume",
    "souring_bitterness",
    "total_liquor",
]
