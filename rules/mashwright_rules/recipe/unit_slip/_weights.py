"""Weights and the batch, mash water and grain: what no mash can be, and what another unit makes of it."""

from collections.abc import Iterator

from mashwright.brew import Brew, group_of, number, table_entry, thickness_unit
from mashwright.figures.mash import mash_water
from mashwright.ingredients.kinds import Group
from mashwright.knobs import Knob, another_text, other_size, same_number
from mashwright.measures import Kind, Quantity, said, to_canonical
from mashwright.recipe.model import GristLine
from mashwright.rule import Finding, Level, Path, say
from mashwright.words.sentences import Measure
from mashwright_rules.recipe.unit_slip._asked import is_it
from mashwright_rules.recipe.unit_slip._limits import Limits

# Bounds of the ordinary in this module, such as 0.05-0.8 kg of grist to a litre of beer or 1.2-12 l of water to a kg of
# grain, are common practice; they only decide whether another unit is offered.


def weights(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Weights against the batch, and the batch against the weights."""
    batch = brew.recipe.batch
    volume = batch.stated
    weighed = [(line, line.weight) for line in brew.recipe.grist if line.weight.known]
    for line, weight in weighed:
        if weight.range.low <= 0:
            message = say("nothing", weight=weight, name=line.name)
            yield Finding(line.weight.path, Level.WARNING, message, gap=1.0)
    if volume.known and volume.range.low <= 0:
        yield Finding(brew.recipe.batch.path, Level.ERROR, say("no-beer", batch=volume), gap=1.0)
    if not volume.known or volume.range.low <= 0 or not weighed:
        return
    litres = volume.range.typical
    total = sum(weight.range.typical for _, weight in weighed)
    heavy = [pair for pair in weighed if pair[1].range.typical > limits.heaviest_g_per_l / 1000 * litres]
    thin = total * 1000 / litres < 10 * limits.lightest_g_per_l
    if (heavy and litres < 1) or (thin and litres >= 200):
        yield _batch(brew, volume, total)
        return
    for line, weight in heavy:
        path = line.weight.path
        per_litre = weight.range.typical / litres
        others = total / litres - per_litre
        meant, knobs = other_size(path, weight, max(0.0003, 0.05 - others) * litres, 0.8 * litres)
        message = say("too-heavy", weight=weight, name=line.name, rate=number(per_litre, 3)).and_then(is_it(meant))
        yield Finding(path, Level.ERROR, message, gap=round(1000 * per_litre / limits.heaviest_g_per_l, 3), knobs=knobs)
    for line, weight in weighed:
        grams = weight.range.typical * 1000 / litres
        if grams >= limits.lightest_g_per_l or grams <= 0 or _group(brew, line) == Group.FRUIT:
            continue
        path = line.weight.path
        meant, knobs = other_size(path, weight, 0.002 * litres, 0.6 * litres)
        if meant is not None:
            message = say("next-to-nothing", weight=weight, name=line.name, batch=volume).and_then(is_it(meant))
            level = Level.ERROR if thin else Level.WARNING  # with no more in all, no beer
            yield Finding(path, level, message, gap=1.0, knobs=knobs)


def _group(brew: Brew, line: GristLine) -> str:
    return group_of(line, table_entry(line, brew.brewhouse))


def _batch(brew: Brew, volume: Quantity, total_kg: float) -> Finding:
    meant, knobs = other_size(brew.recipe.batch.path, volume, total_kg / 0.8, total_kg / 0.05)
    per_litre = number(total_kg / volume.range.typical, 2)
    message = say("another-batch", batch=volume, rate=per_litre).and_then(is_it(meant))
    scalar = brew.recipe.batch.known and brew.recipe.batch.fermenter is volume
    return Finding(brew.recipe.batch.path, Level.ERROR, message, gap=1.0, knobs=knobs if scalar else ())


def water_of_mash(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """Water to grain that no mash can have; what is only thick or thin is another question."""
    mash = brew.recipe.mash
    if not mash.known:
        return
    for key, stated in (("thickness", mash.thickness), ("water", mash.water)):
        if not stated.known:
            continue
        path = (*mash.path, key)
        if stated.range.typical <= 0:
            yield Finding(path, Level.ERROR, say("no-mash", water=stated), gap=1.0)
            return
        grain_kg = sum(part.weight_kg for part in brew.mashed()) if key == "water" else 1.0
        litres = stated.range.typical if key == "thickness" else _all_water(brew)
        per_kg = litres / grain_kg
        if limits.thickest_l_per_kg <= per_kg <= limits.thinnest_l_per_kg:
            continue
        thick = per_kg < limits.thickest_l_per_kg
        if key == "water":
            thickness = said(per_kg, thickness_unit(brew), Kind.THICKNESS)
            message = say("too-little-water" if thick else "too-much-water", water=stated, thickness=thickness)
        else:
            message = say("too-thick" if thick else "too-thin", thickness=stated)
        meant, knobs = _meant_water(path, stated, grain_kg, litres - stated.range.typical)
        cannot_be = per_kg < limits.thickest_l_per_kg / 2 or per_kg > 2 * limits.thinnest_l_per_kg
        level = Level.ERROR if cannot_be else Level.WARNING
        yield Finding(path, level, message.and_then(is_it(meant)), gap=1.0, knobs=knobs)
        return


def _all_water(brew: Brew) -> float:
    water = mash_water(brew)
    return water[0].typical if water is not None else 0.0


def _meant_water(
    path: Path, stated: Quantity, grain_kg: float, others: float
) -> tuple[Measure | None, tuple[Knob, ...]]:
    """Another unit, or a shifted decimal point, with which it would be an ordinary mash."""
    low, high = 2 * grain_kg - others, 6 * grain_kg - others
    if path[-1] == "water":
        meant, knobs = other_size(path, stated, low, high)
        if meant is not None:
            return meant, knobs
    elif stated.unit == "l/kg" and low <= to_canonical(stated.range.typical, "qt/lb", Kind.THICKNESS) <= high:
        meant = same_number(stated, "qt/lb")
        text = meant or stated.text
        return meant, (another_text(path, text, f"use {text} instead of {stated.text}"),)
    for factor in (0.1, 10, 0.01, 100):
        if stated.range.known and low <= stated.range.typical * factor <= high:
            text = said(stated.range.typical * factor, stated.unit, stated.kind)
            return text, (another_text(path, text, f"use {text} instead of {stated.text}"),)
    return None, ()
