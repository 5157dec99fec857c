"""Bottles, keg and cask: gas, priming and pressure."""

from mashwright.figures.package.carbonating import carbonation, gas_of_sugars, priming_sugar, residual_co2
from mashwright.figures.package.gas import Gas, all_gas, gas_of, unfinished_co2
from mashwright.figures.package.held import is_spunded, open_residual, packaged_at, spunded
from mashwright.figures.package.packaged import (
    beer_volume,
    co2_share,
    fermented_days,
    is_sealed,
    is_sort,
    packaged_volume,
    stated_volume,
    taken_by,
    vessel_of,
    warmest,
)
from mashwright.figures.package.pressure import KEG_C, Stress, bearing, bottle_pressure, keg_pressure, stress
from mashwright.figures.package.priming import (
    Sugar,
    at_packaging,
    brings_sugar,
    priming_sugar_of,
    sugary_in_fermenter,
    unknown_sugars,
)
from mashwright.figures.package.still_to_come import (
    DRY_HOPS,
    FRUIT,
    READING,
    SPLITTING,
    UNFINISHED,
    ToCome,
    to_come,
)

__all__ = [
    "DRY_HOPS",
    "FRUIT",
    "KEG_C",
    "READING",
    "SPLITTING",
    "UNFINISHED",
    "Gas",
    "Stress",
    "Sugar",
    "ToCome",
    "all_gas",
    "at_packaging",
    "bearing",
    "beer_volume",
    "bottle_pressure",
    "brings_sugar",
    "carbonation",
    "co2_share",
    "fermented_days",
    "gas_of",
    "gas_of_sugars",
    "is_sealed",
    "is_sort",
    "is_spunded",
    "keg_pressure",
    "open_residual",
    "packaged_at",
    "packaged_volume",
    "priming_sugar",
    "priming_sugar_of",
    "residual_co2",
    "spunded",
    "stated_volume",
    "stress",
    "sugary_in_fermenter",
    "taken_by",
    "to_come",
    "unfinished_co2",
    "unknown_sugars",
    "vessel_of",
    "warmest",
]
