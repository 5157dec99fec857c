"""The figures of a brew: the list of all, in the order in which a brewer works them out."""

from mashwright.figures.beer import beer_colour, measured, pitch, stated, strength
from mashwright.figures.function import FigureFunction
from mashwright.figures.grist import shares
from mashwright.figures.kettle import before_boil, boil_volumes, hops, volumes
from mashwright.figures.mash import converting, gravity, heat, step_heat
from mashwright.figures.package import carbonating, filling, gas, pressure
from mashwright.figures.water import acidity, dissolved

OF_THE_PACKAGE: tuple[FigureFunction, ...] = (
    filling.packaged_beer,
    carbonating.residual_co2,
    carbonating.carbonation,
    carbonating.priming_sugar,
    gas.unfinished_co2,
    gas.all_gas,
    pressure.bottle_pressure,
    pressure.keg_pressure,
)
"""The figures that are told of each package, where the beer goes into several."""

ALL: tuple[FigureFunction, ...] = (
    shares.grist_weight,
    shares.mash_weight,
    shares.grist_diastatic_power,
    converting.starch_released,
    converting.conversion,
    converting.conversion_time,
    shares.adjunct_share,
    shares.huskless_share,
    shares.caramel_share,
    shares.roast_share,
    shares.acidulated_share,
    gravity.sugar_share,
    gravity.potential_extract,
    gravity.highest_og,
    gravity.og,
    gravity.wort_limit,
    before_boil.pre_boil_gravity,
    gravity.efficiency_needed,
    strength.apparent_attenuation,
    strength.real_attenuation,
    strength.fg,
    strength.abv,
    stated.stated_attenuation,
    stated.stated_abv,
    heat.mash_temperature,
    heat.strike_temperature,
    step_heat.step_temperature,
    step_heat.infusion_needed,
    step_heat.decoction_needed,
    heat.bed_temperature,
    volumes.liquor_to_grist,
    volumes.mash_volume,
    volumes.run_off_volume,
    boil_volumes.pre_boil_volume,
    boil_volumes.post_boil_volume,
    volumes.total_liquor,
    heat.boiling_point,
    dissolved.residual_alkalinity,
    dissolved.ions,
    dissolved.sulfate_chloride_ratio,
    acidity.mash_ph,
    acidity.mash_acid_needed,
    acidity.mash_soda_needed,
    acidity.calcium_salt_needed,
    hops.bitterness,
    hops.bitterness_ratio,
    hops.souring_bitterness,
    beer_colour.colour,
    pitch.needed,
    pitch.pitched,
    pitch.starter_needed,
    pitch.dry_yeast_needed,
    pitch.packs_needed,
    pitch.slurry_needed,
    *OF_THE_PACKAGE,
    measured.measured_efficiency,
    measured.measured_attenuation,
    measured.measured_abv,
)

_OF_A_WORT: tuple[FigureFunction, ...] = (
    gravity.sugar_share,
    gravity.potential_extract,
    gravity.highest_og,
    gravity.og,
    gravity.wort_limit,
    before_boil.pre_boil_gravity,
    gravity.efficiency_needed,
    strength.apparent_attenuation,
    strength.real_attenuation,
    strength.fg,
    strength.abv,
    stated.stated_attenuation,
    stated.stated_abv,
    boil_volumes.pre_boil_volume,
    boil_volumes.post_boil_volume,
    hops.bitterness,
    hops.bitterness_ratio,
    beer_colour.colour,
    pitch.needed,
    pitch.pitched,
    pitch.starter_needed,
    pitch.dry_yeast_needed,
    pitch.packs_needed,
    pitch.slurry_needed,
    *OF_THE_PACKAGE,
    measured.measured_efficiency,
    measured.measured_attenuation,
    measured.measured_abv,
)
_OF_BOTH = (gravity.potential_extract, gravity.wort_limit)


def of_the_mash() -> tuple[FigureFunction, ...]:
    """Those of a mash that gives several worts: of it, its waters, and of all worts together."""
    from mashwright.figures.kettle.worts import runnings_extract  # most recipes give one beer

    return (*(one for one in ALL if one not in _OF_A_WORT or one in _OF_BOTH), runnings_extract)


def of_a_wort() -> tuple[FigureFunction, ...]:
    """Those of one of its worts."""
    from mashwright.figures.kettle.worts import wort_share  # as above

    return (wort_share, *(one for one in ALL if one in _OF_A_WORT))
