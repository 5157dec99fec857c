"""The settings of the rule, which each of its questions reads."""

from mashwright.rule import Limit, Settings


class Limits(Settings):
    """What is compared with."""

    reading_percent = Limit(3, "%", low=0, high=20, source="judgement")  # a mark on a stick, a reading
    unused_percent = Limit(10, "%", low=2, high=60, source="judgement")
