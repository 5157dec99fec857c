"""The settings of the rule, which each of its questions reads."""

from mashwright.measures import bounds
from mashwright.rule import Limit, Settings


class Limits(Settings):
    """What is compared with."""

    heaviest_g_per_l = Limit.of(bounds.HEAVIEST_G_PER_L)
    lightest_g_per_l = Limit(0.3, "g/l", low=0.01, high=5, source="judgement")
    boil_c = Limit.of(bounds.BOIL_C)
    dead_yeast_c = Limit.of(bounds.DEAD_YEAST_C)
    frozen_c = Limit.of(bounds.FROZEN_C)
    coldest_rest_c = Limit.of(bounds.COLDEST_REST_C)
    coldest_c = Limit(-10, "°C", low=-40, high=-5, source="judgement")
    coldest_mash_c = Limit(30, "°C", low=10, high=40, source="judgement")
    longest_hot_min = Limit(1440, "min", low=300, high=10000, source="judgement")
    longest_cold_years = Limit(10, "years", low=1, high=100, source="judgement")
    shortest_ferment_min = Limit(60, "min", low=5, high=1440, source="judgement")
    weakest_points = Limit(10, "points", low=2, high=20, source="common-practice")
    strongest_points = Limit(180, "points", low=120, high=300, source="common-practice")
    base_malt_lovibond = Limit(30, "°Lovibond", low=15, high=100, source="common-practice")
    other_colour_times = Limit(3, "times", low=1.5, high=10, source="judgement")
    colour_apart_lovibond = Limit(10, "°Lovibond", difference=True, low=1, high=100, source="judgement")
    most_lintner = Limit.of(bounds.MOST_LINTNER)
    strongest_bottle_volumes = Limit.of(bounds.STRONGEST_BOTTLE_VOLUMES)
    highest_rating_bar = Limit.of(bounds.HIGHEST_RATING_BAR)
    caramel_lintner = Limit(5, "°Lintner", low=1, high=40, source="common-practice")
    thickest_l_per_kg = Limit(1.0, "l/kg", low=0.5, high=1.5, source="common-practice")
    thinnest_l_per_kg = Limit(15, "l/kg", low=8, high=50, source="common-practice")
    share_sum_percent = Limit(2, "%", low=0.1, high=10, source="judgement")
