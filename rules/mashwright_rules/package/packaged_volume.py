"""Is there as much beer as the packages take?

Bottles are counted before they are washed, and priming sugar is weighed for
what goes into them. If the packages take more than there is, the last ones stay
empty and the others get too much sugar. Beer that no package takes is often a
keg that someone forgot to write down.

What is checked: what the packages take, by `share`, `volume`, or `count` and
`size`, against the beer that there is: the batch less what stays with the
yeast. A package that states none of these takes the rest.

- error: the shares come to more than 100 %
- warning: more than 10 % too little beer, or nothing left for a package that
  takes the rest
- note: more than 20 % of the beer goes into no package
- note: a `count` without a `size`, which says nothing of how much goes in

On the day: measure the beer in the bottling vessel, then count the bottles,
then weigh the sugar for what there is. Leave two or three fingers of air in a
bottle: one filled to the brim bursts when it warms.

Sources: [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import Brew, litres_in, number
from mashwright.figures.package import beer_volume, stated_volume, taken_by
from mashwright.knobs import Knob, another_text
from mashwright.measures import Range
from mashwright.recipe.model import Package
from mashwright.recipe.stated import Stated
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Settings, above, below, gap, say


class Limits(Settings):
    """What is compared with."""

    short_percent = Limit(10, "%", low=2, high=50, source="judgement")
    left_percent = Limit(20, "%", low=5, high=100, source="judgement")


SAYS = {
    "shares-past-all": "the shares of the packages come to {share} %; they cannot be more than 100 %",
    "too-much": "the packages take about {takes}, and there is about {beer} of beer; fill fewer or smaller ones",
    "nothing-left": "the other packages take about {takes} of about {beer}, so nothing is left for this one",
    "left-over": "about {left} of {beer} goes into no package; is this on purpose?",
    "no-size": "a count without a size does not say how much beer goes in; add `size`, such as size: 500 ml",
}


ASKS_ABOUT = ("package", "worts")


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    packages = [one for one in brew.recipe.packages if one.known]
    yield from _without_a_size(packages)
    stating = [one for one in packages if one.share.known or stated_volume(one) is not None]
    if not stating:
        return
    shares = sum(one.share.range.typical for one in stating if one.share.known)
    if shares > 100:
        last = [one for one in stating if one.share.known][-1]
        yield Finding(
            last.share.path, Level.ERROR, say("shares-past-all", share=number(shares, 3)), gap=shares / 100 - 1
        )
        return
    takes, beer = taken_by(brew, stating), beer_volume(brew)
    rest = [one for one in packages if one not in stating and not one.count.known]
    part = Range(takes.low / beer.high, takes.typical / beer.typical, takes.high / max(beer.low, 1e-6))
    if above(part, 1 + limits.short_percent / 100):
        yield _too_much(brew, stating, takes, beer, gap(part, 1 + limits.short_percent / 100))
    elif rest and part.typical >= 1:
        message = say("nothing-left", takes=litres_in(brew, takes.typical), beer=litres_in(brew, beer.typical))
        yield Finding(rest[0].path, Level.WARNING, message, gap=1.0, evidence=_rows(takes, beer))
    elif len(stating) == len(packages) and below(part, 1 - limits.left_percent / 100):
        left = litres_in(brew, beer.typical - takes.typical)
        message = say("left-over", left=left, beer=litres_in(brew, beer.typical))
        path = _amount_of(stating[-1]).path
        yield Finding(path, Level.NOTE, message, gap=round(1 - part.typical, 4), evidence=_rows(takes, beer))


def _without_a_size(packages: list[Package]) -> Iterator[Finding]:
    for one in packages:
        if one.count.known and stated_volume(one) is None and not one.size.mentioned:
            yield Finding(one.count.path, Level.NOTE, say("no-size"))


def _too_much(brew: Brew, stating: list[Package], takes: Range, beer: Range, past: float) -> Finding:
    message = say("too-much", takes=litres_in(brew, takes.typical), beer=litres_in(brew, beer.typical))
    most = max(stating, key=lambda one: taken_by(brew, [one]).typical)
    return Finding(
        _amount_of(most).path,
        Level.WARNING,
        message,
        gap=past,
        evidence=_rows(takes, beer),
        related=(brew.recipe.batch.path,),
        knobs=_fewer(brew, most, beer.typical - (takes.typical - taken_by(brew, [most]).typical)),
    )


def _fewer(brew: Brew, package: Package, left_l: float) -> tuple[Knob, ...]:
    """As many of a counted vessel as there is beer for."""
    if not package.count.known:
        return ()
    each = taken_by(brew, [package]).typical / max(package.count.range.typical, 1.0)
    many = int(left_l / each) if each > 0 else 0
    if many < 1:
        return ()
    text = f"{many}"
    return (
        another_text(package.count.path, text, f"use {text} instead of {package.count.text} {package.vessel}".rstrip()),
    )


def _amount_of(package: Package) -> Stated:
    return next((one for one in (package.share, package.volume, package.count) if one.known), package.share)


def _rows(takes: Range, beer: Range) -> tuple[Evidence, ...]:
    return Evidence("the packages take", takes.typical, "l"), Evidence("beer to be packaged", beer.typical, "l")


SOUND = """\
recipe: Two Ferries Ale
by: Saltmarsh Lane Mash Circle
batch: {package: 20 l}
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
package:
  - {in: keg, carbonation: 2.2 volumes}
  - {in: bottles, count: 24, size: 330 ml, carbonation: 2.4 volumes}
"""
FAULTY = Example(
    """\
recipe: Two Ferries Ale
by: Saltmarsh Lane Mash Circle
batch: {package: 20 l}
grist:
  - {grain: pale ale malt, weight: 4.4 kg}
package:
  - {in: keg, volume: 19 l, carbonation: 2.2 volumes}
  - {in: bottles, count: 24, size: 330 ml, carbonation: 2.4 volumes}
""",
    "warning",
    7,
    23,
    "the packages take about 26.9 l, and there is about 20 l of beer; fill fewer or smaller ones",
)
