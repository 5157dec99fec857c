"""The stated gravity against what the efficiency gives, stated or usual."""

from collections.abc import Iterator

from mashwright.brew import Brew, number, told
from mashwright.brewing.extract import usual_efficiency
from mashwright.brewing.gravity import points
from mashwright.figures.mash import converted_share, fermenter_share, og
from mashwright.measures import Kind, Quantity, Range, said
from mashwright.rule import Finding, Level, Say, say
from mashwright_rules.grist.original_gravity._doubt import doubt
from mashwright_rules.grist.original_gravity._limits import Limits
from mashwright_rules.grist.original_gravity._sums import efficiency_asked_for, mashed_kg, of_the_mash, og_between


def at_no_likely_efficiency(brew: Brew, limits: Limits, stated: Quantity) -> Iterator[Finding]:
    """A stated OG that the stated efficiency does not give; where none is stated, none that brewers get."""
    given, want = og(brew), points(stated.range.typical)
    late = fermenter_share(brew)
    without = points(given.typical) * (1 - late)
    allowed = max(want * limits.distance_percent / 100, limits.rounding_points)
    if want >= without - allowed and want <= points(given.typical) + allowed:
        return
    if want < without and brew.intent.parti_gyle and brew.of_mash is None:
        return
    known = brew.efficiency.stated or brew.brewhouse.efficiency.known or not mashed_kg(brew)
    if known:
        spread = given.range
        if points(spread.low) * (1 - late) <= want <= points(spread.high):
            return
        level = Level.ERROR if surely_another(brew, limits, stated) else Level.WARNING
        yield doubt(brew, level, _not_at_this_efficiency(brew, stated))
        return
    lost = 60 - usual_efficiency(want).low
    for level, low, high in (
        (Level.WARNING, limits.lowest_percent - lost, limits.highest_percent),
        (Level.NOTE, limits.usual_low_percent - lost, limits.usual_high_percent - lost),
    ):
        spread = og_between(brew, low, high)
        slack = limits.reading_points
        if not points(spread.low) * (1 - late) - slack <= want <= points(spread.high) + slack:
            usual = og_between(brew, limits.usual_low_percent - lost, limits.usual_high_percent - lost)
            if (of_mash := of_the_mash(brew)) is not None:
                gives = said(usual, stated.unit, Kind.GRAVITY)
                yield doubt(brew, level, say("wort-usually-gives", share=of_mash, og=gives, stated=stated))
                return
            asked = efficiency_asked_for(brew, want) if converted_share(brew).typical == 1 else None
            yield doubt(brew, level, _at_no_usual(stated, asked, usual, limits, lost))
            return


def surely_another(brew: Brew, limits: Limits, stated: Quantity) -> bool:
    """Whether even the favourable end of the recipe's own efficiency is too far from the stated OG."""
    given, want = og(brew), points(stated.range.typical)
    if not brew.efficiency.stated or given.memory or converted_share(brew).typical < 1:
        return False
    allowed = max(want * limits.distance_percent / 100, limits.rounding_points)
    lowest = points(given.low) * (1 - fermenter_share(brew))
    return not lowest - allowed <= want <= points(given.high) + allowed


def _not_at_this_efficiency(brew: Brew, stated: Quantity) -> Say:
    share = number(100 * brew.efficiency.share.typical, 3)
    gives = said(og(brew).typical, stated.unit, Kind.GRAVITY)
    if (of_mash := of_the_mash(brew)) is not None:
        return say("wort-gives", share=of_mash, og=gives, stated=stated)
    if not mashed_kg(brew):
        return say("grist-gives", og=gives, stated=stated)
    if brew.efficiency.stated:
        sentence = "at-stated-poorly" if converted_share(brew).typical < 1 else "at-stated"
        return say(sentence, share=share, og=gives, stated=stated)
    house = brew.brewhouse.efficiency.need("the brewhouse's efficiency")
    if brew.efficiency.share.typical < house.range.typical / 100 - 0.005:
        return say("at-house-strong", efficiency=house, share=share, og=gives, stated=stated)
    return say("at-house", efficiency=house, og=gives, stated=stated)


def _at_no_usual(stated: Quantity, asked: float | None, usual: Range, limits: Limits, lost: float) -> Say:
    gives = said(usual, stated.unit, Kind.GRAVITY)
    low, high = (number(one - lost, 2) for one in (limits.usual_low_percent, limits.usual_high_percent))
    if asked is None:
        return say("converts-little", stated=stated, least=low, most=high, og=gives)
    if asked <= 0:
        return say("less-than-sugars", stated=stated, least=low, most=high, og=gives)
    share = told(asked, limits.usual_high_percent - lost)
    return say("asks-for", stated=stated, share=share, least=low, most=high, og=gives)
