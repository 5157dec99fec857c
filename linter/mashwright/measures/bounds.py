"""Bounds of what can be meant: past them a number is a slip, and no basis for a sum; and what several rules believe.

Each bound lives here alone. The figures end as open past it, and the rule that tells of the slip has it among its
settings, so a club that moves one moves both.
"""

from typing import NamedTuple

from msgspec import Struct


class Bound(NamedTuple):
    """One bound: its name in ``Bounds``, its usual value in ``unit``, how far a brewhouse may move it, its source."""

    name: str
    usual: float
    unit: str
    low: float
    high: float
    source: str


# A wort of 1.130 takes about 700 g of grist to a litre of beer.
HEAVIEST_G_PER_L = Bound("heaviest_g_per_l", 1200, "g/l", 800, 10000, "judgement")
# At the sea; where a brewhouse is lower or the kettle closed, a little more.
BOIL_C = Bound("boil_c", 100.5, "°C", 90, 125, "by-definition")
# A mash is mostly water, and below this it is ice; all that is warmer is followed as it is written.
COLDEST_REST_C = Bound("coldest_rest_c", 0, "°C", -2, 30, "by-definition")
DEAD_YEAST_C = Bound("dead_yeast_c", 50, "°C", 40, 60, "common-practice")
FROZEN_C = Bound("frozen_c", -2.5, "°C", -10, 0, "common-practice")
# More alpha acid no hops have, and more of it no extract.
MOST_ALPHA_PERCENT = Bound("most_alpha_percent", 30, "%", 18, 40, "common-practice")
MOST_ALPHA_IN_EXTRACT_PERCENT = Bound("most_alpha_in_extract_percent", 75, "%", 50, 100, "common-practice")
# More hops to a litre would soak up all of it, since a kg of hops keeps 6 l of wort.
SOAKED_UP_G_PER_L = Bound("soaked_up_g_per_l", 150, "g/l", 60, 300, "catalogue-conversions")
# No malt is stronger than about this; the strongest distiller's malts stay below it.
MOST_LINTNER = Bound("most_lintner", 240, "°Lintner", 150, 400, "common-practice")
# Twice what the strongest bottles of sparkling drinks are made for: a rating that is a slip must hide no danger.
STRONGEST_BOTTLE_VOLUMES = Bound("strongest_bottle_volumes", 13, "volumes", 8, 30, "judgement")
HIGHEST_RATING_BAR = Bound("highest_rating_bar", 20, "bar", 10, 60, "judgement")

# What several rules and figures believe, each once: `Limit.at` makes a setting of it in each rule that asks.
# Malt's enzymes are spent in minutes above it: a rest that is hotter converts nothing any more.
ENZYMES_END_C = Bound("enzymes_end_c", 75, "°C", 68, 85, "kunze-1998 common-practice")
# Below it starch is hardly opened; a rest is one for protein.
STARCH_OPENS_C = Bound("starch_opens_c", 57, "°C", 45, 65, "rittenauer-2021")
GUM_REST_COOLEST_C = Bound("gum_rest_coolest_c", 37, "°C", 30, 45, "mashing-encyclopaedia")
GUM_REST_HOTTEST_C = Bound("gum_rest_hottest_c", 48, "°C", 40, 55, "kettunen-1996")
# From here on a rest converts: below, starch is opened too slowly to count on.
CONVERTS_FROM_C = Bound("converts_from_c", 60, "°C", 50, 65, "rittenauer-2021")
# Below it a mash converts next to nothing, however long it rests.
HOPELESS_LINTNER = Bound("hopeless_lintner", 20, "°Lintner", 5, 100, "judgement")
STRONG_LINTNER = Bound("strong_lintner", 70, "°Lintner", 20, 200, "diastatic-power-article")
# Expected apparent attenuation; what ends lower was no mash, and its wort is not judged by this.
NO_WORT_PERCENT = Bound("no_wort_percent", 35, "%", 0, 60, "judgement")
LEAST_WATER_L_PER_KG = Bound("least_water_l_per_kg", 1, "l/kg", 0.5, 1.5, "judgement")
MOST_WATER_L_PER_KG = Bound("most_water_l_per_kg", 15, "l/kg", 10, 30, "judgement")
LAXATIVE_MAGNESIUM_MG_PER_L = Bound("laxative_magnesium_mg_per_l", 125, "mg/l", 50, 125, "water-101")
# A recipe that names its source and is older was brewed with other malt, hops and yeast than ours.
OLD_BEFORE = Bound("old_before", 1940, "", 1800, 2000, "judgement")


class Bounds(Struct, frozen=True, gc=False):
    """The bounds of one brewhouse."""

    heaviest_g_per_l: float = HEAVIEST_G_PER_L.usual
    boil_c: float = BOIL_C.usual
    coldest_rest_c: float = COLDEST_REST_C.usual
    dead_yeast_c: float = DEAD_YEAST_C.usual
    frozen_c: float = FROZEN_C.usual
    most_alpha_percent: float = MOST_ALPHA_PERCENT.usual
    most_alpha_in_extract_percent: float = MOST_ALPHA_IN_EXTRACT_PERCENT.usual
    soaked_up_g_per_l: float = SOAKED_UP_G_PER_L.usual
    most_lintner: float = MOST_LINTNER.usual
    strongest_bottle_volumes: float = STRONGEST_BOTTLE_VOLUMES.usual
    highest_rating_bar: float = HIGHEST_RATING_BAR.usual


USUAL = Bounds()
