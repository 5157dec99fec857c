"""Wort that is not boiled: the malt's enzymes live on in it, in the fermenter and in the package."""

from mashwright.figures.brew import Brew
from mashwright.figures.figure import Unknown
from mashwright.figures.meant import said_unboiled
from mashwright.finding import Path

# Mash and wort of the raw ales that went on fermenting were kept below 76 °C [raw-ale-answer]; with room for a
# thermometer, judgement.
ENZYMES_LIVE_TO_C = 78.0
UNBOILED_PERCENT = 95.0
"""Apparent attenuation at which raw ale usually ends, between its 99 and boiled wort's [raw-ale-answer]; judgement."""


def living_enzymes(brew: Brew) -> Path | None:
    """Where it stands that the wort is not boiled, if malt's enzymes outlive the mash; None where nothing says so."""
    recipe = brew.recipe
    boil = recipe.boil.time if recipe.boil is not None else None
    path: Path = ("boil", "for")
    if boil is None:
        if any(hop.boil is not None and hop.boil.range.high > 0 for hop in recipe.hops):
            return None
        said = said_unboiled(brew)
        if said is None:
            return None
        path = said
    elif boil.range.high > 0:
        return None
    if any(
        hop.whirlpool is not None and hop.at is not None and hop.at.range.low > ENZYMES_LIVE_TO_C for hop in recipe.hops
    ):
        return None
    try:
        rests = brew.plan.known()
        mashed = bool(brew.mashed()) and brew.has_enzymes
    except Unknown:
        return None
    return path if mashed and all(rest.hottest_c <= ENZYMES_LIVE_TO_C for rest in rests) else None
