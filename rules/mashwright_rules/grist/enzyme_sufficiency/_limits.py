"""The settings of the rule, which each of its questions reads."""

from mashwright.measures.bounds import ENZYMES_END_C, HOPELESS_LINTNER, STARCH_OPENS_C, STRONG_LINTNER
from mashwright.rule import Limit, Settings


class Limits(Settings):
    floor_lintner = Limit(30, "°Lintner", low=10, high=100, source="diastatic-power-article")
    hopeless_lintner = Limit.at(HOPELESS_LINTNER)
    comfortable_lintner = Limit(40, "°Lintner", low=10, high=120, source="degree-lintner")
    converted_percent = Limit(90, "%", low=50, high=99, source="judgement")
    long_rest_min = Limit(90, "min", low=30, high=600, source="common-practice")
    strong_lintner = Limit.at(STRONG_LINTNER)
    malt_lintner = Limit(27, "°Lintner", low=10, high=60, source="tgl-17756")
    too_little_lintner = Limit(25, "°Lintner", low=5, high=100, source="judgement")
    self_converting_percent = Limit(85, "%", low=50, high=100, source="judgement")
    coldest_c = Limit.at(STARCH_OPENS_C)
    hottest_c = Limit.at(ENZYMES_END_C)
