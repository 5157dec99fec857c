"""Times that nothing on a brew day or in a cellar takes."""

from collections.abc import Iterator

from mashwright.brew import Brew, number
from mashwright.knobs import another_text, same_number
from mashwright.measures import Quantity
from mashwright.measures.constants import MIN_PER_YEAR
from mashwright.recipe.stated import NOWHERE, Stated
from mashwright.rule import Finding, Level, Path, Say, say
from mashwright_rules.recipe.unit_slip._asked import is_it
from mashwright_rules.recipe.unit_slip._limits import Limits


def times(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Hours for minutes, minutes for days, and longer than anybody waits."""
    recipe = brew.recipe
    mash, boil = recipe.mash, recipe.boil
    hot = [("rest", rest.time.path, rest.time) for rest in (mash.rests if mash.known else ()) if _warm(rest.at)]
    if boil.known:
        hot.append(("boil", boil.time.path, boil.time))
    hot += [("hop addition", hop.boil.path, hop.boil) for hop in recipe.hops]
    hot += [("hop stand", hop.whirlpool.path, hop.whirlpool) for hop in recipe.hops]
    for what, path, stated in hot:
        if stated.known and stated.range.typical > limits.longest_hot_min:
            yield _time(path, stated, say("longer-than-a-day", step=what, time=stated), "min")
    cold = [("fermentation step", step.time.path, step.time) for step in recipe.ferment]
    cold += [("dry hopping", hop.dry.path, hop.dry) for hop in recipe.hops]
    cold += [("rest of the fruit", line.time.path, line.time) for line in recipe.grist]
    for what, path, stated in cold:
        if stated.known and stated.range.typical > limits.longest_cold_years * MIN_PER_YEAR:
            message = say("longer-than-years", step=what, time=stated, most=number(limits.longest_cold_years, 3))
            yield Finding(path, Level.WARNING, message, gap=1.0)
            continue
        if stated.known and stated.range.typical < limits.shortest_ferment_min and not _warm(_step_at(brew, path)):
            yield _time(path, stated, say("over-at-once", step=what, time=stated), "d")


def _step_at(brew: Brew, path: Path) -> Stated:
    return next((step.at for step in brew.recipe.ferment if step.time.path == path), NOWHERE)


def _warm(at: Stated) -> bool:
    """Above the heat of a sour mash, in which grain may stand for days."""
    return at.known and at.range.typical > 50


def _time(path: Path, stated: Quantity, message: Say, unit: str) -> Finding:
    meant = same_number(stated, unit)
    knobs = (another_text(path, meant, f"use {meant} instead of {stated.text}"),) if meant is not None else ()
    return Finding(path, Level.WARNING, message.and_then(is_it(meant)), gap=1.0, knobs=knobs)
