"""Wort that is not boiled: the malt's enzymes live on in it, in the fermenter and in the package."""

from mashwright.brew.brew import Brew
from mashwright.finding import Path
from mashwright.recipe.stated import Unknown

# Mash and wort of the raw ales that went on fermenting were kept below 76 °C [raw-ale-answer]; with room for a
# thermometer, judgement.
ENZYMES_LIVE_TO_C = 78.0
UNBOILED_PERCENT = 95.0
"""Apparent attenuation at which raw ale usually ends, between its 99 and boiled wort's [raw-ale-answer]; judgement."""


def living_enzymes(brew: Brew) -> Path | None:
    """Where it stands that the wort is not boiled, if malt's enzymes outlive the mash; None where nothing says so."""
    recipe = brew.recipe
    boil = recipe.boil.time
    path: Path = recipe.boil.time.path
    if not boil.known:
        if any(hop.boil.known and hop.boil.range.high > 0 for hop in recipe.hops):
            return None
        where = brew.intent.unboiled
        if where is None:
            return None
        path = {"name": recipe.name, "style": recipe.style, "notes": recipe.notes}[where].path
    elif boil.range.high > 0:
        return None
    if any(hop.whirlpool.known and hop.at.known and hop.at.range.low > ENZYMES_LIVE_TO_C for hop in recipe.hops):
        return None
    try:
        rests = brew.plan.known()
        mashed = bool(brew.mashed()) and brew.has_enzymes
    except Unknown:
        return None
    return path if mashed and all(rest.hottest_c <= ENZYMES_LIVE_TO_C for rest in rests) else None
