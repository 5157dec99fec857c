"""Less carbonation: as much as the vessel holds with room to spare."""

from mashwright.brew import Brew
from mashwright.figures.package import Stress, priming_sugar, residual_co2
from mashwright.knobs import Knob, one_change, stated_instead
from mashwright.measures import Kind, Quantity, said
from mashwright.rule import Edit, Unknown

_WITHIN = 0.9  # of the rating, so that what a remedy names does not stand right at it; judgement


def borne_volumes(held: Stress, stated: Quantity) -> float:
    """Volumes that the vessel holds with room to spare."""
    limit = held.bearing.limit
    if held.bearing.in_bar:
        return _WITHIN * stated.range.typical * limit.low / max(held.value.high, limit.low)
    return _WITHIN * limit.low if limit.known else limit.low


def less_gas(brew: Brew, stated: Quantity, volumes: float) -> tuple[Knob, ...]:
    """Less carbonation, and as much less priming sugar where its weight is stated."""
    volumes = int(volumes * 10 + 1e-9) / 10
    package = brew.recipe.package
    priming = package.priming
    path = package.carbonation.path
    if not priming.weight.known:
        return (stated_instead(path, stated, volumes, "carbonate to"),)
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
    edits = (Edit(path, text), Edit(priming.weight.path, weight))
    words = f"carbonate to {text} instead of {stated.text}, with {weight} of {priming.name or 'priming sugar'}"
    return (one_change(edits, words),)
