"""What in a certificate contradicts the kind of thing."""

from collections.abc import Iterator

from mashwright.brew import MALTS, UNMALTED, number
from mashwright.ingredients.fermentables import Fermentable
from mashwright.ingredients.kinds import IngredientKind
from mashwright.ingredients.lookup import fermentable as known_fermentable
from mashwright.ingredients.lookup import hop as known_hop
from mashwright.measures import Kind, Range, from_canonical, said
from mashwright.measures.constants import EBC_BELOW_LOVIBOND, EBC_PER_LOVIBOND
from mashwright.recipe.brewhouse import Lot
from mashwright.rule import Level, say
from mashwright.words.sentences import Measure
from mashwright_rules.grist.lot._extract import contradictions, no_such_yield
from mashwright_rules.grist.lot._limits import Fault, Limits


def analysis(lot: Lot, limits: Limits, most_lintner: float) -> Iterator[Fault]:
    """What in a certificate contradicts the kind of thing, or itself."""
    entry = known_fermentable(lot.of)
    if entry is None:
        yield from _of_hops(lot, limits)
    else:
        if lot.alpha.known:
            yield Level.WARNING, say("alpha-of-grain", alpha=lot.alpha)
        if entry.kind in MALTS or entry.kind in UNMALTED:
            yield from _enzymes(lot, entry, limits, most_lintner)
            yield from _moisture(lot, entry, limits)
            yield from _colour(lot, entry, limits)
            yield from no_such_yield(lot, entry, limits)
    yield from contradictions(lot, limits)


def _of_hops(lot: Lot, limits: Limits) -> Iterator[Fault]:
    if not (cultivar := known_hop(lot.of)):
        return
    if lot.diastatic_power.known:
        yield Level.WARNING, say("power-of-hops", power=lot.diastatic_power)
    if not lot.alpha.known:
        return
    alpha, usual = lot.alpha.range.typical, cultivar.alpha_to_compare
    if alpha > limits.strongest_alpha_percent:
        yield Level.WARNING, say("more-alpha-than-any", alpha=lot.alpha)
    elif usual is not None and _outside(alpha, usual, limits):
        between = Measure(f"{number(usual.low, 3)}-{number(usual.high, 3)} %", usual.typical, "%")
        yield Level.WARNING, say("other-alpha", alpha=lot.alpha, of=lot.of, usual=between)


def _enzymes(lot: Lot, entry: Fermentable, limits: Limits, most_lintner: float) -> Iterator[Fault]:
    power = lot.diastatic_power
    if not power.known:
        return
    value = power.range.typical
    dark = entry.kind in (IngredientKind.CARAMEL_MALT, IngredientKind.ROASTED_MALT)
    if dark or entry.kind in UNMALTED:
        if value > limits.dark_lintner:
            is_it = say("is-it-colour") if dark else None
            yield Level.WARNING, say("power-of-dark", power=power, kind=entry.kind).and_then(is_it)
    elif value > most_lintner:
        written = from_canonical(value, power.unit, Kind.DIASTATIC_POWER)
        meant = Measure(f"{number(written, 4)} °WK", written, "°WK")
        yield Level.WARNING, say("more-power-than-any", power=power, meant=meant)
    elif entry.power_lintner is not None and entry.power_lintner.low > limits.dark_lintner:
        usual = entry.power_lintner
        if _outside(value, usual, limits):
            between = said(usual, power.unit, Kind.DIASTATIC_POWER)
            yield Level.WARNING, say("other-power", power=power, of=lot.of, usual=between)


def _moisture(lot: Lot, entry: Fermentable, limits: Limits) -> Iterator[Fault]:
    moisture = lot.moisture
    if not moisture.known:
        return
    value = moisture.range.typical
    malted = entry.kind in MALTS
    most = max(limits.dampest_malt_percent, entry.dampness.high)
    if value > limits.wettest_percent:
        yield Level.WARNING, say("mouldy", moisture=moisture, most=number(limits.wettest_percent, 6))
    elif malted and value > most + limits.damper_percent:
        yield Level.WARNING, say("damp", moisture=moisture, most=number(most))
    elif malted and value < limits.driest_malt_percent:
        yield Level.WARNING, say("too-dry", moisture=moisture)


def _colour(lot: Lot, entry: Fermentable, limits: Limits) -> Iterator[Fault]:
    colour, usual = lot.colour, entry.colour_lovibond
    if not colour.known or usual is None:
        return
    if not _outside(colour.range.typical, Range(usual.low, usual.typical, usual.high + 1), limits):
        return
    written = from_canonical(colour.range.typical, colour.unit, Kind.MALT_COLOUR)
    as_ebc = (written + EBC_BELOW_LOVIBOND) / EBC_PER_LOVIBOND
    fits = colour.unit != "EBC" and usual.low * 0.8 <= as_ebc <= usual.high * 1.2
    is_it = say("is-it", meant=Measure(f"{number(written, 4)} EBC", written, "EBC")) if fits else None
    between = said(usual, colour.unit, Kind.MALT_COLOUR)
    yield Level.WARNING, say("other-colour", colour=colour, of=lot.of, usual=between).and_then(is_it)


def _outside(value: float, usual: Range, limits: Limits) -> bool:
    """Far past what the tables know, either way."""
    return value > usual.high * limits.past_range_times or value < usual.low / limits.past_range_times
