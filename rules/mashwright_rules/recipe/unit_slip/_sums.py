"""Shares against their sum, gravities and ratings against what there is."""

from collections.abc import Iterator

from mashwright.brew import Brew, number
from mashwright.knobs import Knob, another_text, stated_instead
from mashwright.measures import Kind, from_canonical, said
from mashwright.rule import Finding, Level, gap, say
from mashwright_rules.recipe.unit_slip._asked import is_it
from mashwright_rules.recipe.unit_slip._limits import Limits


def shares_of_grist(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Shares that are not all of the grist, or of which nothing can be weighed."""
    lines = brew.recipe.grist
    shares = [line.share.range for line in lines if line.share.known]
    if not shares:
        return
    weighed = next((line for line in lines if line.weight.known), None)
    if weighed is not None:
        yield Finding(brew.recipe.grist.path, Level.WARNING, say("weights-and-shares"), gap=1.0)
        return
    if len(shares) < len(lines):
        return
    if not brew.recipe.targets.og.mentioned:
        yield Finding(brew.recipe.grist.path, Level.WARNING, say("shares-without-og"), gap=1.0)
    low, total, high = (sum(ends) for ends in zip(*((one.low, one.typical, one.high) for one in shares), strict=True))
    if high < 100 - limits.share_sum_percent or low > 100 + limits.share_sum_percent:
        message = say("shares-not-100", total=number(total, 4))
        missed = round(abs(total - 100) / 100, 4)
        yield Finding(brew.recipe.grist.path, Level.WARNING, message, gap=missed, knobs=_rest_of_it(brew, 100 - total))


def _rest_of_it(brew: Brew, missing: float) -> tuple[Knob, ...]:
    """The largest line made what the others leave."""
    largest = max(brew.recipe.grist, key=lambda line: line.share.range.typical if line.share.known else 0.0)
    stated = largest.share
    if not stated.known or not stated.range.known or not 0 < stated.range.typical + missing <= 100:
        return ()
    return (stated_instead(largest.share.path, stated, stated.range.typical + missing, f"use {largest.name} at"),)


def gravities(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Worts that are next to water, or stronger than any."""
    targets = brew.recipe.targets
    for key, stated in (
        ("og", targets.og),
        ("pre-boil-gravity", targets.pre_boil_gravity),
        ("first-wort-gravity", targets.first_wort_gravity),
    ):
        if not stated.known:
            continue
        points = (stated.range.typical - 1) * 1000
        weak, strong = points < limits.weakest_points, points > limits.strongest_points
        if not weak and not strong:
            continue
        degrees = points if stated.unit == "SG" else from_canonical(stated.range.typical, stated.unit, Kind.GRAVITY)
        factors = ((10.0, 100.0) if weak else (0.1,)) if stated.unit == "SG" else ((1.0,) if strong else ())
        meant = next((1 + degrees * factor / 1000 for factor in factors if 15 <= degrees * factor <= 130), None)
        path = (*targets.path, key)
        text = said(meant, "SG", Kind.GRAVITY) if meant is not None and stated.range.known else None
        knobs = (another_text(path, text, f"use {text} instead of {stated.text}"),) if text else ()
        yield Finding(
            path,
            Level.WARNING if weak else Level.ERROR,
            say("weak-wort" if weak else "strong-wort", gravity=stated).and_then(is_it(text)),
            gap=1.0,
            knobs=knobs,
        )


def ratings(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """A rating that no bottle has would hide that the beer can burst those that there are."""
    for package in brew.recipe.packages:
        rating = package.bottle_rating
        if not package.known or not rating.known:
            continue
        most = limits.highest_rating_bar if rating.kind is Kind.PRESSURE else limits.strongest_bottle_volumes
        if rating.range.typical > most:
            bound = said(most, rating.unit, rating.kind)
            message = say("no-such-bottle", rating=rating, most=bound)
            yield Finding(rating.path, Level.ERROR, message, gap=gap(rating.range, most))
