"""Can the bottles, the keg or the cask hold the stated carbonation?

Glass that is asked for more gas than it was made for bursts, and it bursts in somebody's hand: in a warm room the
pressure is twice that of the cellar. Ordinary one-way bottles hold about 3 volumes (6 g/l) of carbon dioxide; wheat
beer and fruit lambic ask for heavy glass.

Computed: the stated volumes against the bottles' rating; a rating in bar against the pressure at 20 °C and, as the
unfavourable end, at 30 °C. Past the rating is an error, a range that reaches past it a warning. Bottles of unknown
rating: a note above 2.8 volumes, a warning above 3.3, an error above 4.0. Kegs have a relief valve and are exempt, but
a stated pressure and temperature must hold the stated volumes within half a volume, and more than 4 bar on a keg is
asked about. A cask is vented: more than 2 volumes are a note, 2.5 or more a warning.

On the day: weigh the sugar, use sound bottles that were made for pressure, and keep them boxed and cool; a gushing
bottle means chill and vent them all, with goggles and gloves. The vessel's rating and local code come before any
figure here.

Sources: [troester-carbonation] [co2-general] [bottle-pressure-forum] [home-brewery-hazards] [common-practice] 3 volumes
in ordinary bottles, [judgement] the steps around it
"""

from collections.abc import Iterator

from mashwright.brewing.carbonation import dissolved_volumes, pressure_bar
from mashwright.rule import (
    Brew,
    Edit,
    Evidence,
    Example,
    Finding,
    Kind,
    Knob,
    Level,
    Limit,
    Quantity,
    Range,
    Settings,
    Unknown,
    above,
    another_text,
    below,
    bottle_pressure,
    differs,
    gap,
    in_bottles,
    one_change,
    priming_sugar,
    residual_co2,
    said,
    same_number,
    stated_instead,
    stress,
)


class Limits(Settings):
    """What is compared with."""

    # about the 3 volumes of common practice: a note just below, a warning just above, an error a third above
    bottle_note_volumes = Limit(2.8, "volumes", low=1, high=6, source="judgement")
    bottle_warning_volumes = Limit(3.3, "volumes", low=1, high=6, source="judgement")
    bottle_error_volumes = Limit(4.0, "volumes", low=1, high=8, source="judgement")
    cask_note_volumes = Limit(2.0, "volumes", low=0.5, high=4, source="common-practice")
    cask_warning_volumes = Limit(2.5, "volumes", low=0.5, high=5, source="judgement")
    keg_distance_volumes = Limit(0.5, "volumes", low=0.1, high=3, source="judgement")
    keg_bar = Limit(4.0, "bar", low=1, high=10, source="from-memory")
    keg_error_bar = Limit(9.0, "bar", low=2, high=15, source="from-memory")


_PATH = ("package", "carbonation")
_WITHIN = 0.9  # of the rating, so that what a remedy names does not stand right at it; judgement


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    package = brew.recipe.package
    if package is None:
        return
    if package.vessel == "keg":
        yield from _keg(brew, limits)
    stated = package.carbonation
    if stated is None:
        return
    if in_bottles(package):
        yield from _bottles(brew, limits, stated)
    elif package.vessel == "cask":
        usual = limits.cask_note_volumes
        if above(stated.range, usual) is not None:
            # 2.5 volumes, which is what bottles are primed to, is the slip to catch: so the limit itself counts
            level = Level.NOTE if below(stated.range, limits.cask_warning_volumes) else Level.WARNING
            most = said(usual, stated.unit, Kind.CARBONATION)
            message = f"{stated.text} is lively for a cask, which seldom holds more than {most}; vent it with care"
            knob = stated_instead(_PATH, stated, usual, "carbonate to")
            yield Finding(_PATH, level, message, gap=gap(stated.range, usual), knobs=(knob,))


def _bottles(brew: Brew, limits: Limits, stated: Quantity) -> Iterator[Finding]:
    package = brew.recipe.package
    assert package is not None
    held = stress(stated.range, package)
    if held is not None:
        level = above(held.value, held.limit, harm=True)
        if level is None:
            return
        what = stated.text if not held.in_bar else f"{stated.text} ({held.held})"
        could = "can burst" if level is Level.ERROR else "may burst"
        message = f"{what} {could} bottles rated {held.rating}; keep to the bottles' rating"
        room = held.limit / held.value.high if held.value.high > 0 else 1.0
        mended = _WITHIN * (stated.range.typical * room if held.in_bar else held.limit)
        yield _bottled(brew, level, message, stated, gap(held.value, held.limit), mended)
        return
    if ("package", "bottle-rating") in brew.recipe.unreadable:
        return
    steps = (
        (limits.bottle_error_volumes, Level.ERROR),
        (limits.bottle_warning_volumes, Level.WARNING),
        (limits.bottle_note_volumes, Level.NOTE),
    )
    for limit, level in steps:
        if above(stated.range, limit, harm=True) is Level.ERROR:
            message = (
                f"{stated.text} asks for heavy bottles and no bottle-rating is stated;"
                f" ordinary ones hold about 3 volumes, so keep to your bottles' rating"
            )
            mended = limits.bottle_note_volumes
            yield _bottled(brew, level, message, stated, gap(stated.range, limit), mended)
            return


def _bottled(brew: Brew, level: Level, message: str, stated: Quantity, past: float, mended_volumes: float) -> Finding:
    return Finding(
        _PATH,
        level,
        message,
        gap=past,
        evidence=(Evidence("stated carbonation", stated.range.typical, "volumes", _PATH), *_pressures(brew)),
        related=(("package", "bottle-rating"),),
        knobs=_less_gas(brew, stated, mended_volumes),
    )


def _pressures(brew: Brew) -> tuple[Evidence, ...]:
    """The pressures at each temperature, where they can be had."""
    try:
        figure = bottle_pressure(brew)
    except Unknown:
        return ()
    return tuple(Evidence(f"pressure {name}", value.typical, "bar") for name, value in figure.parts)


def _less_gas(brew: Brew, stated: Quantity, volumes: float) -> tuple[Knob, ...]:
    """Less carbonation, and as much less priming sugar where its weight is stated."""
    volumes = int(volumes * 10 + 1e-9) / 10
    package = brew.recipe.package
    priming = package.priming if package is not None else None
    if priming is None or priming.weight is None:
        return (stated_instead(_PATH, stated, volumes, "carbonate to"),)
    try:
        sugar, held = priming_sugar(brew), residual_co2(brew)
    except Unknown:
        return ()
    if stated.range.typical <= held.typical:
        return ()
    share = (volumes - held.typical) / (stated.range.typical - held.typical)
    if not 0 < share < 1:
        return ()
    text = said(volumes, stated.unit, Kind.CARBONATION)
    weight = said(sugar.typical / 1000 * share, priming.weight.unit, Kind.MASS)
    edits = (Edit(_PATH, text), Edit((*priming.path, "weight"), weight))
    say = f"carbonate to {text} instead of {stated.text}, with {weight} of {priming.name or 'priming sugar'}"
    return (one_change(edits, say),)


def _keg(brew: Brew, limits: Limits) -> Iterator[Finding]:
    package = brew.recipe.package
    assert package is not None
    bar, at, stated = package.pressure, package.at, package.carbonation
    path = ("package", "pressure")
    if bar is not None and above(bar.range, limits.keg_bar) is not None:
        most = said(limits.keg_bar, bar.unit, Kind.PRESSURE)
        message = f"{bar.text} is more than the {most} that many kegs and lines take; keep to the lowest rating of them"
        far = above(bar.range, limits.keg_error_bar, harm=True) is not None
        psi = same_number(bar, "psi") if bar.unit == "bar" else None
        knobs: tuple[Knob, ...] = ()
        if far and psi is not None:
            message += f"; did you mean {psi}?"
            knobs = (another_text(path, psi, f"{psi} instead of {bar.text}"),)
        how = Level.ERROR if far else Level.WARNING
        yield Finding(path, how, message, gap=gap(bar.range, limits.keg_bar), knobs=knobs)
        return
    if bar is None or at is None or stated is None or package.priming is not None:
        return
    holds = Range.span(dissolved_volumes, bar.range, at.range)
    if (level := differs(holds, stated.range, limits.keg_distance_volumes)) is None:
        return
    shown = said(holds.typical, stated.unit, Kind.CARBONATION)
    target = Range.span(pressure_bar, stated.range, at.range)
    needs = said(max(target.typical, 0.0), bar.unit, Kind.PRESSURE)
    yield Finding(
        path,
        min(level, Level.WARNING),
        f"{bar.text} at {at.text} holds {shown} in the beer, not {stated.text}, which takes {needs}",
        gap=round(abs(holds.typical - stated.range.typical) / max(stated.range.typical, 0.1), 4),
        evidence=(Evidence("carbonation at that pressure", holds.typical, "volumes", path),),
        related=(_PATH, ("package", "at")),
        knobs=(stated_instead(path, bar, target.typical, "set"),) if target.typical > 0 else (),
    )


SOUND = """\
recipe: Weir Wheat
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: wheat malt, weight: 2.5 kg}
  - {grain: Pilsner malt, weight: 2 kg}
package: {in: bottles, carbonation: 3.3 volumes, bottle-rating: 4.5 volumes}
"""
FAULTY = Example(
    """\
recipe: Weir Wheat
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: wheat malt, weight: 2.5 kg}
  - {grain: Pilsner malt, weight: 2 kg}
package: {in: bottles, carbonation: 4.5 volumes, bottle-rating: 3.5 volumes}
""",
    "error",
    7,
    37,
    "4.5 volumes can burst bottles rated 3.5 volumes; keep to the bottles' rating",
)
