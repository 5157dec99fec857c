"""What the grist gives at an efficiency, and the efficiency that a gravity needs."""

from mashwright.brew import Brew, number
from mashwright.brewing.gravity import gravity_of, points
from mashwright.figures.mash import converted_share, deliveries, fermenter_volume
from mashwright.measures import Range


def mashed_kg(brew: Brew) -> float:
    return sum(one.laboratory_kg.typical for one in deliveries(brew) if one.part.mashed)


def og_between(brew: Brew, low_percent: float, high_percent: float) -> Range:
    """OG at two efficiencies of the mashed grain, everything else as in the figure."""
    given, volume = deliveries(brew), fermenter_volume(brew)[0].typical
    mashed, free = mashed_kg(brew), converted_share(brew).typical
    other = [one.laboratory_kg * 1.0 for one in given if not one.part.mashed]
    shares = [one.share for one in given if not one.part.mashed]
    low, high = (
        gravity_of(
            mashed * free * percent / 100 + sum(kg.typical * share for kg, share in zip(other, ends, strict=True)),
            volume,
        )
        for percent, ends in (
            (low_percent, [share.low for share in shares]),
            (high_percent, [share.high for share in shares]),
        )
    )
    return Range(low, (low + high) / 2, high)


def efficiency_asked_for(brew: Brew, want_points: float) -> float:
    """Efficiency of the mashed grain that gives so many points, %; below 0 where the rest gives more already."""
    low, high = (points(end) for end in (og_between(brew, 50, 50).typical, og_between(brew, 90, 90).typical))
    return 50 + 40 * (want_points - low) / (high - low)


def of_the_mash(brew: Brew) -> str | None:
    """The part of the mash's extract that one of several worts has, %; None where there is but the one."""
    of_mash = brew.of_mash
    if of_mash is None or not isinstance(of_mash.share, Range):
        return None
    return number(100 * of_mash.share.typical, 2)
