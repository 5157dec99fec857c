"""The finding of a doubted gravity, and what mends it."""

from mashwright.brew import Brew
from mashwright.brewing.gravity import extract_kg, points
from mashwright.figures.mash import converted_share, deliveries, fermenter_volume, highest_og, og
from mashwright.knobs import Knob, another_text, stated_right
from mashwright.measures import Kind, Quantity, said
from mashwright.rule import Finding, Level, Say, row
from mashwright_rules.grist.original_gravity._sums import mashed_kg
from mashwright_rules.grist.original_gravity._units import meant_units


def doubt(brew: Brew, level: Level, message: Say) -> Finding:
    """What is said of the stated OG, with the unit that may be meant and the changes that mend it."""
    stated, given = brew.recipe.targets.og.need("a stated OG"), og(brew)
    path = stated.path
    if brew.of_mash is not None:  # how the runnings part the extract is no surer
        level = min(level, Level.WARNING)
    want, have = points(stated.range.typical), points(given.typical)
    meant, units = meant_units(brew, stated)
    return Finding(
        path,
        level,
        message.and_then(meant),
        gap=round(abs(want - have) / want, 4),
        evidence=(row(highest_og(brew), brew.recipe.batch.path), row(given, brew.recipe.batch.path)),
        related=(brew.recipe.batch.path,),
        knobs=(*units, *_of_the_largest(brew, stated), stated_right(path, stated, given.typical, "OG")),
    )


def _of_the_largest(brew: Brew, stated: Quantity) -> tuple[Knob, ...]:
    """As much of the largest mashed line as gives the stated OG."""
    lines = [one for one in deliveries(brew) if one.part.mashed and one.part.line.weight.known]
    largest = max(lines, key=lambda one: one.part.weight_kg, default=None)
    if largest is None or largest.typical_kg <= 0 or converted_share(brew).typical < 1:
        return ()
    want = stated.range.typical
    efficiency = brew.efficiency.share if brew.efficiency.stated else brew.unstated_efficiency(points(want))
    if efficiency.typical <= 0:  # however much of it there is, nothing arrives
        return ()
    given = sum(one.typical_kg for one in deliveries(brew) if not one.part.mashed)
    needed = (extract_kg(fermenter_volume(brew)[0].typical, want) - given) / efficiency.typical
    factor = 1 + (needed - mashed_kg(brew)) / largest.laboratory_kg.typical
    if not 0.1 < factor < 5:
        return ()
    part, weight = largest.part, largest.part.line.weight.need("its weight")
    text = said(weight.range.typical * factor, weight.unit, Kind.MASS)
    return (another_text(weight.path, text, f"use {text} of {part.name} instead of {weight.text}"),)
