"""Colour and enzymes of malts, which are taken for one another, and colours that no malt of the name has."""

from collections.abc import Iterator

from mashwright.brew import MALTS, Brew, number, table_entry
from mashwright.ingredients.fermentables import Fermentable
from mashwright.ingredients.kinds import IngredientKind
from mashwright.knobs import another_text, as_written, one_change, same_number
from mashwright.measures import Kind, Quantity, Range, from_canonical, said, to_canonical
from mashwright.recipe.model import GristLine
from mashwright.rule import Edit, Finding, Level, say
from mashwright.words.sentences import Measure
from mashwright_rules.recipe.unit_slip._asked import is_it
from mashwright_rules.recipe.unit_slip._limits import Limits


def malts(brew: Brew, limits: Limits) -> Iterator[Finding]:
    """°Lintner and °Lovibond, which the trade both writes °L."""
    for line in brew.recipe.grist:
        entry = table_entry(line, brew.brewhouse)
        kind = line.kind or (entry.kind if entry else "")
        power, colour = line.diastatic_power, line.colour
        if power.known and power.range.typical > limits.most_lintner:
            yield _too_strong(line, power, limits.most_lintner)
            continue
        if power.known and entry and (found := _too_weak(line, power, entry)) is not None:
            yield found
            continue
        dark = kind in (IngredientKind.CARAMEL_MALT, IngredientKind.ROASTED_MALT)
        if dark and power.known and power.range.typical > limits.caramel_lintner:
            yield _no_enzymes(line, power)
        if kind == IngredientKind.BASE_MALT and colour.known and colour.range.typical > limits.base_malt_lovibond:
            yield _dark_malt(line, colour, entry)
        elif colour.known and entry and entry.colour_lovibond is not None and kind in MALTS:
            yield from _another_colour(brew, line, colour, entry.colour_lovibond, kind, limits)


def _no_enzymes(line: GristLine, power: Quantity) -> Finding:
    """Power of a malt that has none: the number may be that of its colour."""
    path = line.diastatic_power.path
    message = say("no-enzymes", name=line.name, power=power)
    meant = same_number(power, "°Lovibond") if power.unit == "°Lintner" and not line.colour.known else None
    if meant is None:
        return Finding(path, Level.WARNING, message, gap=1.0)
    edits = (Edit(path, "0 °Lintner"), Edit(line.colour.path, meant))
    knobs = (one_change(edits, f"write colour: {meant}, and no diastatic power"),)
    return Finding(path, Level.WARNING, message.and_then(say("is-it-its-colour", meant=meant)), gap=1.0, knobs=knobs)


def _dark_malt(line: GristLine, colour: Quantity, entry: Fermentable | None) -> Finding:
    """The colour of a roast on base malt: the number may be that of its power."""
    path = line.colour.path
    message = say("dark-malt", colour=colour, name=line.name)
    power = line.diastatic_power
    meant = same_number(colour, "°Lintner") if not power.known and colour.range.typical <= 250 else None
    if meant is None:
        return Finding(path, Level.WARNING, message, gap=1.0)
    message = message.and_then(say("is-it-its-power", meant=meant))
    usual = entry.colour_lovibond if entry else None
    if usual is None:
        return Finding(path, Level.WARNING, message, gap=1.0)
    pale = said(usual.typical, colour.unit, colour.kind)
    edits = (Edit(path, pale), Edit(power.path, meant))
    knobs = (one_change(edits, f"write diastatic-power: {meant}, and a colour of {pale}"),)
    return Finding(path, Level.WARNING, message, gap=1.0, knobs=knobs)


def _too_weak(line: GristLine, power: Quantity, entry: Fermentable) -> Finding | None:
    """A malt with next to no enzymes whose stated power is the number of its colour."""
    usual, colour = entry.power_lintner, entry.colour_lovibond
    if usual is None or colour is None or entry.kind != IngredientKind.BASE_MALT or line.colour.known:
        return None
    if not power.range.known or power.unit != "°Lintner" or power.range.typical * _FAR_WEAKER > usual.low:
        return None
    if not colour.low / _FAR_WEAKER <= power.range.typical <= colour.high * 2:
        return None
    path = line.diastatic_power.path
    message = say("too-weak-malt", power=power, name=line.name)
    meant = same_number(power, "°Lovibond")
    if meant is None:
        return Finding(path, Level.WARNING, message, gap=1.0)
    usually = said(usual.typical, "°Lintner", Kind.DIASTATIC_POWER)
    edits = (Edit(path, usually), Edit(line.colour.path, meant))
    message = message.and_then(say("did-you-mean-its-colour", meant=meant))
    knobs = (one_change(edits, f"write colour: {meant}, and diastatic-power: {usually}"),)
    return Finding(path, Level.WARNING, message, gap=1.0, knobs=knobs)


_FAR_WEAKER = 4  # times; judgement: no lot of base malt is so far below its kind


def _another_colour(
    brew: Brew, line: GristLine, colour: Quantity, usual: Range, kind: str, limits: Limits
) -> Iterator[Finding]:
    """A colour that no malt of this name has."""
    if kind == IngredientKind.CARAMEL_MALT and not any(sign.isdigit() for sign in line.name):
        return  # the name says no colour, so the table's is no more than the usual one
    have, times, apart = colour.range, limits.other_colour_times, limits.colour_apart_lovibond
    dark = have.low > max(times * usual.high, usual.high + apart) or _ebc_for_lovibond(colour, usual)
    pale = have.high * times < usual.low and have.high + apart < usual.low
    if not dark and not pale:
        return
    path = as_written(brew, line.colour.path)
    meant = _ordinary_colour(colour, usual)
    low, high = (from_canonical(end, colour.unit, colour.kind) for end in (usual.low, usual.high))
    typical = from_canonical(usual.typical, colour.unit, colour.kind)
    band = Measure(f"{number(low, 3)}-{number(high, 3)} {colour.unit}", typical, colour.unit)
    message = say("darker" if dark else "paler", colour=colour, name=line.name, usual=band).and_then(is_it(meant))
    instead = meant or Measure(f"{number(typical, 3)} {colour.unit}", typical, colour.unit)
    yield Finding(
        path,
        Level.WARNING,
        message,
        gap=round(abs(have.typical - usual.typical) / usual.typical, 4),
        knobs=(another_text(path, instead, f"use {instead} instead of {colour.text}"),),
    )


def _ebc_for_lovibond(colour: Quantity, usual: Range) -> bool:
    """Whether the number is too dark in °Lovibond and right in EBC, which is about twice as many."""
    if colour.unit != "°Lovibond" or not colour.range.known:
        return False
    if colour.range.low <= max(usual.high * _DARKER, usual.high + _DARKER_LOVIBOND):
        return False
    return usual.low <= to_canonical(colour.range.typical, "EBC", colour.kind) <= usual.high


_DARKER, _DARKER_LOVIBOND = 1.4, 50.0  # times and degrees; judgement: lots of one malt differ by less


def _ordinary_colour(colour: Quantity, usual: Range) -> Measure | None:
    """The number in another unit, or with its point shifted, where that is this malt's colour; else None."""
    if not colour.range.known:
        return None
    written = from_canonical(colour.range.typical, colour.unit, colour.kind)
    for factor, unit in ((0.1, colour.unit), (10, colour.unit), (1, "°Lovibond"), (1, "EBC")):
        if usual.low <= to_canonical(written * factor, unit, colour.kind) <= usual.high:
            return Measure(f"{number(written * factor, 6)} {unit}", written * factor, unit)
    return None


def _too_strong(line: GristLine, power: Quantity, most: float) -> Finding:
    path = line.diastatic_power.path
    message = say("too-strong-malt", power=power, most=number(most))
    written = from_canonical(power.range.typical, power.unit, power.kind)
    lintner = to_canonical(written, "°WK", Kind.DIASTATIC_POWER)
    meant = same_number(power, "°WK") if power.unit != "°WK" and 20 <= lintner <= most else None
    if meant is None:
        return Finding(path, Level.ERROR, message, gap=1.0)
    message = message.and_then(say("is-it-in-wk", meant=meant, lintner=number(lintner, 2)))
    knobs = (another_text(path, meant, f"use {meant} instead of {power.text}"),)
    return Finding(path, Level.ERROR, message, gap=1.0, knobs=knobs)
