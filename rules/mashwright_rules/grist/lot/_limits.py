"""The settings of the rule, and what each of its questions gives."""

from mashwright.rule import Level, Limit, Say, Settings


class Limits(Settings):
    """What is compared with."""

    alike_percent = Limit(60, "%", low=30, high=100, source="judgement")
    dark_lintner = Limit(20, "°Lintner", low=1, high=60, source="common-practice")
    wettest_percent = Limit(15, "%", low=8, high=30, source="common-practice")
    dampest_malt_percent = Limit(6, "%", low=4, high=12, source="byo-specs")
    damper_percent = Limit(2, "%", low=0.5, high=6, source="judgement")
    driest_malt_percent = Limit(1, "%", low=0, high=2.5, source="judgement")
    extract_above_percent = Limit(3, "%", low=1, high=10, source="judgement")
    extract_below_percent = Limit(8, "%", low=2, high=30, source="judgement")
    reading_percent = Limit(1.5, "%", low=0.5, high=5, source="judgement")
    coarse_percent = Limit(0.5, "%", low=0, high=3, source="judgement")
    past_range_times = Limit(1.6, "times", low=1.1, high=5, source="judgement")
    strongest_alpha_percent = Limit(25, "%", low=15, high=40, source="common-practice")


Fault = tuple[Level, Say]
