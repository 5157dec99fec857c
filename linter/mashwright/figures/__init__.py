"""The figures of a brew: the list of all, in the order in which a brewer works them out."""

from mashwright.figures import conversion, gravity, grist, strength
from mashwright.figures.function import FigureFunction

ALL: tuple[FigureFunction, ...] = (
    grist.grist_weight,
    grist.mash_weight,
    grist.grist_diastatic_power,
    conversion.starch_released,
    conversion.conversion,
    conversion.conversion_time,
    grist.adjunct_share,
    grist.huskless_share,
    grist.caramel_share,
    grist.roast_share,
    grist.acidulated_share,
    gravity.sugar_share,
    gravity.potential_extract,
    gravity.highest_og,
    gravity.og,
    gravity.wort_limit,
    gravity.efficiency_needed,
    strength.apparent_attenuation,
    strength.real_attenuation,
    strength.fg,
    strength.abv,
)
