"""Does this yeast ferment at this temperature?

Too warm, and yeast makes fusel alcohols and esters that no time mends; too cold, and it settles with the work half
done. A lager yeast at 22 °C and an ale yeast at 10 °C make another beer than the recipe means, or none.

Computed: the step in which the beer ferments first against the range of the yeast's kind; later ones only on the warm
side, since beer is let rise at the end and laid down cold afterwards. Old recipes (with a source, and a year before
1940 there or in the name) tell the heat at pitching, so what would be a note on the cold side is nothing for them. A
step that rises (from `at` to `to`) is cold
only where the middle of its rise is, since beer is pitched cool and warms itself. Up to 2 °C outside nothing is said,
beyond that is a note, and 6 °C a warning (4 °C on the cold side); a later step may be 6 °C above. Above 35 °C only
kveik feels well, so that is a warning with any other yeast, even one that is not known. Of several yeasts the widest
range counts. It is never an error: the ranges are those of whole kinds, and a strain's own packet knows better. What no
yeast lives in, and Fahrenheit read as Celsius, is asked elsewhere.

On the day: measure in the beer and not in the room; fermenting beer is 2 to 5 °C warmer than the air around it.

Sources: [yeast-supplier-pages] [ale-lager-temp] [kveik-mbaa] [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.rule import (
    Brew,
    Edit,
    Evidence,
    Example,
    Finding,
    Kind,
    Level,
    Limit,
    Path,
    Quantity,
    Range,
    Settings,
    from_canonical,
    one_change,
    said,
    yeast_kinds,
)


class Limits(Settings):
    """What is compared with."""

    slack_c = Limit(2.0, "°C", low=0, high=10, source="judgement")
    warm_c = Limit(6.0, "°C", low=1, high=15, source="judgement")
    cold_c = Limit(4.0, "°C", low=1, high=15, source="judgement")
    later_c = Limit(6.0, "°C", low=0, high=15, source="judgement")
    old_before = Limit(1940, "", low=1800, high=2000, source="judgement")
    hottest_c = Limit(35.0, "°C", low=25, high=45, source="common-practice")


_HOTTEST_MEANT_C, _COLDEST_MEANT_C = 50.0, -2.5  # outside a unit has slipped; common practice


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    kinds = [(one.kind, known) for one, known in zip(brew.recipe.yeast, yeast_kinds(brew), strict=True)]
    ranges = [known.temperature_c for _, known in kinds if known is not None]
    sour = any(
        known is None and any(word in kind.casefold() for word in ("lacto", "sour", "bacteri", "pedio"))
        for kind, known in kinds
    )
    all_known = bool(kinds) and len(ranges) == len(kinds)
    names = " and ".join(kind for kind, _ in kinds if kind)
    for number, (path, stated, rises_to) in enumerate(_stated(brew)):
        at_c = stated.range.typical
        if not _COLDEST_MEANT_C <= at_c <= _HOTTEST_MEANT_C:
            continue
        if all_known:
            low, high = min(one.low for one in ranges), max(one.high for one in ranges)
            found = _outside(path, stated, rises_to, Range(low, low, high), names, limits, later=number > 0)
            if found is not None:
                if not (found.level is Level.NOTE and at_c < low and _is_old(brew, limits)):
                    yield found
                return
        elif at_c > limits.hottest_c and not sour:
            most = said(limits.hottest_c, stated.unit, Kind.TEMPERATURE)
            message = f"{stated.text} is hotter than the {most} that brewing yeast stands, kveik apart"
            yield Finding(path, Level.WARNING, message, gap=round((at_c - limits.hottest_c) / 10, 4))
            return


def _is_old(brew: Brew, limits: Limits) -> bool:
    return min(brew.recipe.years, default=limits.old_before) < limits.old_before


def _stated(brew: Brew) -> Iterator[tuple[Path, Quantity, Quantity | None]]:
    """Temperatures in the order in which the beer comes to them, each with the warmer one that it rises to."""
    for step in brew.recipe.ferment:
        rises = step.at is not None and step.to is not None and step.to.range.typical > step.at.range.typical
        for key, stated, rises_to in (("at", step.at, step.to if rises else None), ("to", step.to, None)):
            if stated is not None:
                yield (*step.path, key), stated, rises_to


def _outside(
    path: Path, stated: Quantity, rises_to: Quantity | None, usual_c: Range, names: str, limits: Limits, *, later: bool
) -> Finding | None:
    at_c, low, high = stated.range.typical, usual_c.low, usual_c.high
    middle_c = (at_c + rises_to.range.typical) / 2 if rises_to is not None else at_c
    above, below = at_c - high - (limits.later_c if later else 0.0), 0.0 if later else low - middle_c
    if above <= limits.slack_c and below <= limits.slack_c and (at_c <= limits.hottest_c or high > limits.hottest_c):
        return None
    warm = above > 0 or at_c > limits.hottest_c
    sure = above > limits.warm_c or below > limits.cold_c or (at_c > limits.hottest_c >= high)
    usual = f"{said(low, stated.unit, Kind.TEMPERATURE).split(' ')[0]} to {said(high, stated.unit, Kind.TEMPERATURE)}"
    what = "warm" if warm else "cold"
    middle = round(from_canonical((low + high) / 2, stated.unit, Kind.TEMPERATURE))  # the edge suits no beer
    near = f"{middle} {stated.unit}"
    rising = f" rising to {rises_to.text}" if rises_to is not None and not warm else ""
    return Finding(
        path,
        Level.WARNING if sure else Level.NOTE,
        f"{stated.text}{rising} is {what} for {names} yeast, which ferments at {usual}",
        gap=round(max(above, below, 0.1) / 10, 4),
        evidence=tuple(
            Evidence(label, round(from_canonical(end_c, stated.unit, Kind.TEMPERATURE)), stated.unit)
            for label, end_c in (("usual from", low), ("usual to", high))
        ),
        related=(("yeast",),),
        knobs=(one_change((Edit(path, near),), f"{near} instead of {stated.text}"),),
    )


SOUND = """\
recipe: Lock House Lager
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.4 kg}
yeast: {kind: Bavarian lager}
ferment: [{at: 10 °C, for: 12 d}, {at: 16 °C, for: 2 d}, {at: 1 °C, for: 5 weeks}]
"""
FAULTY = Example(
    """\
recipe: Lock House Lager
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: Pilsner malt, weight: 4.4 kg}
yeast: {kind: Bavarian lager}
ferment: [{at: 24 °C, for: 12 d}]
""",
    "warning",
    7,
    16,
    "24 °C is warm for Bavarian lager yeast, which ferments at 7 to 15 °C",
)
