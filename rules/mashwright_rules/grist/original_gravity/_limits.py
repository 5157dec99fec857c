"""The settings of the rule, which each of its questions reads."""

from mashwright.rule import Limit, Settings


class Limits(Settings):
    """What is compared with."""

    distance_percent = Limit(10, "%", low=3, high=50, source="judgement")
    # own reading of 66 published recipes that were brewed: 10th and 90th percentile, lowest and highest
    usual_low_percent = Limit(60, "%", low=40, high=75, source="judgement")
    usual_high_percent = Limit(81, "%", low=70, high=100, source="judgement")
    lowest_percent = Limit(48, "%", low=20, high=70, source="judgement")
    highest_percent = Limit(87, "%", low=75, high=100, source="judgement")
    reading_points = Limit(1, "points", difference=True, low=0, high=5, source="judgement")
    rounding_points = Limit(2, "points", difference=True, low=0, high=10, source="judgement")
    weakest_points = Limit(10, "points", low=2, high=20, source="common-practice")
    strongest_points = Limit(160, "points", low=100, high=200, source="common-practice")
