"""The settings of the rule, which each of its questions reads."""

from mashwright.measures.bounds import CONVERTS_FROM_C, ENZYMES_END_C, STARCH_OPENS_C
from mashwright.rule import Limit, Settings


class Limits(Settings):
    coolest_c = Limit.at(CONVERTS_FROM_C)
    hottest_c = Limit.at(ENZYMES_END_C)
    edge_c = Limit(0.5, "°C", difference=True, low=0, high=3, source="judgement")  # as thermometers show it
    cold_c = Limit.at(STARCH_OPENS_C)
    extract_c = Limit(30, "°C", low=10, high=45, source="judgement")
    scalding_c = Limit(85, "°C", low=75, high=95, source="judgement")
    hot_share_percent = Limit(25, "%", low=5, high=90, source="judgement")
    fall_c = Limit(5, "°C", difference=True, low=2, high=20, source="judgement")
    cooled_min = Limit(240, "min", low=60, high=1440, source="judgement")
    usual_min = Limit(60, "min", low=10, high=240, source="common-practice")
    enzyme_percent = Limit(10, "%", low=0, high=100, source="judgement")
    small_beer_percent = Limit(2, "% vol", low=0, high=5, source="judgement")
