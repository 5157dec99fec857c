"""What share of an addition's alpha acids bitters the beer, by when it goes in and how hot the wort is."""

from collections.abc import Iterator

from mashwright.brew.board import number
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.pours import boil_minutes as length_of_boil
from mashwright.brewing.bitterness import (
    TABLE_MIN,
    boil_minutes,
    boiled_share,
    cooling_minutes,
    formed_per_min,
    measured_share,
    rager_utilisation,
    sub_boiling_share,
    utilisation,
)
from mashwright.brewing.boiling import boiling_point_c
from mashwright.figures.kettle.wort_in_boil import BoilingWort
from mashwright.figures.mash import boiling_point
from mashwright.ingredients.kinds import Chilling, HopForm
from mashwright.measures.quantity import Quantity
from mashwright.measures.range import Range
from mashwright.recipe.model import Hop
from mashwright.recipe.stated import Unknown

# Bounds of the published models about that of [tinseth-1997], as shares of it. Pellets give up to a tenth more than
# cones, common practice; how much more a beer may lose by yeast and foam, judgement.
PELLETS = 1.10
LOSSES = 0.80
# What equivalent boil minutes of hops beside the boil are good for: there is no agreed standard [whirlpool-bitterness],
# and claims go from 5 to 15 % used (common practice). Up by half, judgement; down to a third, since a stand that ended
# at 95 °C after 15 min was reckoned to use 3.2 % [stand-estimate].
BESIDE_THE_BOIL = 0.5
LEAST_BESIDE_THE_BOIL = 1 / 3
# Hops in the first wort: so long in the run-off, then so long until it boils; °C and min, common practice.
RUN_OFF = (72.0, 72.0, 40.0)
TO_THE_BOIL = (72.0, 100.0, 25.0)
# A stand of which no temperature is stated: cooling of covered wort at home, °C a minute, slow to quick; judgement.
COOLING_C_PER_MIN = Range(0.0, 0.8, 2.0)
# Wort that cools in a closed vessel: hops bitter as in so many minutes more of boil. 15 to 20 are counted, common
# practice; the high end is what [malowicki-2005] gives for a cube that is cool after 8 h.
NO_CHILL_MIN = Range(15.0, 17.5, 35.0)
# A bath of cold water of which no time is stated; judgement.
WATER_BATH_MIN = Range(30.0, 60.0, 120.0)
_NOTHING = Range.exact(0.0)
HOTTEST_C = 100.0  # wort at the boil at the sea, common practice
OFF_THE_BOIL_C = 1.0  # by which a stand begins below it; judgement
COOLEST_STAND_C = 20.0  # cooled; nothing isomerises there, judgement
# The part of a mash hop's alpha acids that may still come through to the boil, at the most; common practice.
FROM_MASH = 0.3


def cooler_boil_c(brew: Brew) -> float:
    """By how much wort boils below 100 °C since the brewhouse lies high; 0 where it states no altitude.

    Raises:
        Open: the altitude cannot be read.
    """
    if not brew.brewhouse.altitude.mentioned:
        return 0.0
    return boiling_point_c() - boiling_point(brew).typical


@once
def after_the_boil(brew: Brew) -> Range:
    """Minutes of boil that form as much as the hops do while the wort is cooled slowly; none where nothing says so."""
    chill = brew.recipe.chill
    if not chill.known:
        return _NOTHING
    chill.readable("a readable way of chilling")
    start = min([HOTTEST_C - cooler_boil_c(brew), *_stands_end(brew)])
    if chill.by == Chilling.NO_CHILL:
        return NO_CHILL_MIN * (formed_per_min(start) / formed_per_min(HOTTEST_C))
    if chill.time.known:
        typical = cooling_minutes(start, chill.time.range.typical)
        low, high = (cooling_minutes(start, end) for end in (chill.time.range.low, chill.time.range.high))
        return Range(LEAST_BESIDE_THE_BOIL * low, typical, _more(high))
    if chill.by == Chilling.WATER_BATH:
        return WATER_BATH_MIN.map(lambda minutes: cooling_minutes(start, minutes))
    return _NOTHING


def _stands_end(brew: Brew) -> Iterator[float]:
    """Temperatures at which hop stands end, after which the wort is cooled."""
    for hop in brew.recipe.hops:
        end = hop.to if hop.to.known else hop.at
        if hop.whirlpool.known and end.known:
            yield end.range.typical


def chilling_in_words(brew: Brew) -> str:
    """What the slow cooling adds, for the working; "" where it adds nothing."""
    minutes = after_the_boil(brew)
    if minutes.high <= 0:
        return ""
    how = brew.recipe.chill.by or f"{brew.recipe.chill.time.need('the time of chilling').text} of chilling"
    return f"{how}: the hops bitter as in {number(minutes.typical, 2)} min more of boil"


def used_of(brew: Brew, hop: Hop, wort: BoilingWort) -> tuple[str, Range, tuple[str, ...]]:
    """When an addition goes in, the share of its alpha acids that is used, and what was assumed."""
    if hop.boil.known:
        minutes = hop.boil.range + after_the_boil(brew)
        over = minutes.typical > TABLE_MIN[1]
        doubt = f"{hop.boil.text} of boil, though the formula was measured to {TABLE_MIN[1]:g} min"
        return hop.boil.text, _boiled(brew, hop, wort, minutes), (doubt,) if over else ()
    if hop.first_wort:
        minutes, text = length_of_boil(brew)
        before = boil_minutes(*RUN_OFF) + boil_minutes(*TO_THE_BOIL)
        band = Range(minutes.low, minutes.typical + before, minutes.high + (1 + BESIDE_THE_BOIL) * before)
        band = band + after_the_boil(brew)
        return "first wort", _boiled(brew, hop, wort, band), (text,) if text else ()
    if hop.whirlpool.known:
        return _stand(brew, hop, hop.whirlpool, wort)
    if hop.mash:
        return _mash_hops(brew, wort)
    raise Unknown(f"when {hop.name} goes in", hop.path)


def used_before_boil(brew: Brew, hop: Hop, wort: BoilingWort) -> Range:
    """The share of a mash hop's or first-wort hop's alpha acids that has turned when the wort is run off."""
    if hop.mash:
        return _mash_hops(brew, wort)[1]
    typical = utilisation(wort.gravity_sg.typical, boil_minutes(*RUN_OFF))
    return Range(LEAST_BESIDE_THE_BOIL * typical, typical, _more(typical))


def _boiled(brew: Brew, hop: Hop, wort: BoilingWort, minutes: Range) -> Range:
    typical = utilisation(wort.gravity_sg.typical, minutes.typical)
    # the older table is the more generous one at the ends only: from 10 to 25 min it gives less
    low = min(
        LOSSES * utilisation(wort.gravity_sg.typical, minutes.low), rager_utilisation(wort.gravity_sg.high, minutes.low)
    )
    form = 1.0 if hop.form == HopForm.CONE else PELLETS
    high = max(
        rager_utilisation(wort.gravity_sg.low, minutes.high), form * utilisation(wort.gravity_sg.low, minutes.high)
    )
    share = _of_a_cool_boil(cooler_boil_c(brew), minutes.typical)
    return Range(share.low * low, share.typical * typical, share.high * high)


def _of_a_cool_boil(cooler_c: float, minutes: float) -> Range:
    """What hops bitter in a boil cooler than at the sea, as a share of what they do there."""
    if cooler_c == 0:
        return Range.exact(1.0)
    boil_c = HOTTEST_C - cooler_c
    share = boiled_share(boil_c, minutes)
    by_heat_alone = sub_boiling_share(boil_c) / sub_boiling_share(HOTTEST_C)
    return Range(min(share, by_heat_alone), share, max(share, measured_share(boil_c)))


def _stand(brew: Brew, hop: Hop, time: Quantity, wort: BoilingWort) -> tuple[str, Range, tuple[str, ...]]:
    """Hops in hot wort after the boil, by the minutes of boil that would form as much."""

    def used(minutes: float) -> float:
        return utilisation(wort.gravity_sg.typical, minutes)

    minutes, assumed, later = time.range, list[str](), after_the_boil(brew)
    hottest = HOTTEST_C - cooler_boil_c(brew)
    if hop.at.known:
        at, to = hop.at.range, hop.to.range if hop.to.known else hop.at.range
        held, warm = min(hottest, at.typical), min(hottest, at.high)
        typical = used(boil_minutes(held, min(hottest, to.typical), minutes.typical) + later.typical)
        low = used(boil_minutes(at.low, to.low, minutes.low) + later.low)
        high = used(boil_minutes(warm, min(hottest, to.high), minutes.high) + later.high)
        measured = measured_share((warm + min(hottest, to.high)) / 2)
        high = max(high, measured * used(minutes.high + later.high))
        when = f"{time.text} at {hop.at.text}{f' to {hop.to.text}' if hop.to.known else ''}"
    elif hop.to.known:
        to, start = hop.to.range, hottest - OFF_THE_BOIL_C
        low, typical, high = (
            used(boil_minutes(start, min(start, end), length) + more)
            for end, length, more in (
                (to.low, minutes.low, later.low),
                (to.typical, minutes.typical, later.typical),
                (to.high, minutes.high, later.high),
            )
        )
        when = f"{time.text} down to {hop.to.text}"
    else:
        start = hottest - OFF_THE_BOIL_C
        low, typical, high = (
            used(boil_minutes(start, max(COOLEST_STAND_C, start - fall * length), length) + more)
            for fall, length, more in (
                (COOLING_C_PER_MIN.high, minutes.low, later.low),
                (COOLING_C_PER_MIN.typical, minutes.typical, later.typical),
                (COOLING_C_PER_MIN.low, minutes.high, later.high),
            )
        )
        when = f"{time.text} after the boil"
        rate = number(COOLING_C_PER_MIN.typical)
        assumed.append(f"a stand of {hop.name} that cools by {rate} °C a minute, since none is stated")
    return when, Range(min(low, LEAST_BESIDE_THE_BOIL * typical), typical, max(high, _more(typical))), tuple(assumed)


def _more(typical: float) -> float:
    """The high end of what hops beside the boil use."""
    return (1 + BESIDE_THE_BOIL) * typical


def _mash_hops(brew: Brew, wort: BoilingWort) -> tuple[str, Range, tuple[str, ...]]:
    rests = brew.plan.known()
    minutes = sum(
        boil_minutes(rest.at_c.typical, (rest.to_c or rest.at_c).typical, rest.minutes.typical) for rest in rests
    )
    typical = utilisation(wort.gravity_sg.typical, minutes)
    boiled = utilisation(wort.gravity_sg.typical, length_of_boil(brew)[0].typical)
    high = max(_more(typical), FROM_MASH * boiled)
    return "in the mash", Range(LEAST_BESIDE_THE_BOIL * typical, typical, high), brew.plan.assumed
