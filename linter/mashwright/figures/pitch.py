"""Figures of the yeast: the cells that the wort needs, and those that are pitched."""

from mashwright.brewing.gravity import plato
from mashwright.brewing.yeast import (
    ALE_RATE,
    DRY_PER_GRAM,
    GENERAL_RATE,
    LAGER_RATE,
    LIQUID_PACK,
    PRESSED_PER_GRAM,
    SLURRY_PER_ML,
    STARTER_PER_LITRE,
    cells_needed,
    viable,
)
from mashwright.figures.board import number, spread
from mashwright.figures.brew import Brew
from mashwright.figures.figure import Figure, Open, Unknown
from mashwright.figures.function import figure
from mashwright.figures.gravity import og
from mashwright.figures.pours import into_fermenter
from mashwright.figures.yeasts import kinds
from mashwright.finding import Range
from mashwright.reading.quantity import Kind, Quantity, said
from mashwright.recipe.model import Yeast

# More than so many grams to a litre are no dry yeast but barm or pressed yeast; judgement.
DRY_UP_TO_G_PER_L = 3.0
# A lager yeast that starts as warm as this is pitched like an ale, °C; judgement.
COLD_UP_TO_C = 15.5


def yeast_class(brew: Brew) -> str:
    """``ale``, ``lager``, or ``""`` where the recipe names no yeast that is known or several sorts."""
    found = set()
    for known in kinds(brew):
        if known is None:
            return ""
        lager = known.species == "Saccharomyces pastorianus"
        if not lager and not known.species.startswith("Saccharomyces"):
            return ""
        found.add("lager" if lager and _cold(brew) else "ale")
    return found.pop() if len(found) == 1 else ""


def _cold(brew: Brew) -> bool:
    first = next((step.at for step in brew.recipe.ferment if step.at is not None), None)
    return first is None or first.range.low <= COLD_UP_TO_C


def wort_strength(brew: Brew) -> tuple[Range, str]:
    """Gravity of the wort: as stated, else as this grist gives it; and how it reads.

    Raises:
        Unknown: neither can be had.
    """
    stated = brew.recipe.targets.og
    if stated is not None:
        return stated.range, stated.text
    value = og(brew).range
    return value, said(value.typical, "SG", Kind.GRAVITY)


@figure("cells-needed", unit="billion cells", sources=("fix-pitching", "pitching-articles"))
def needed(brew: Brew) -> Figure:
    """Yeast cells that the wort needs."""
    strength, text = wort_strength(brew)
    volume = into_fermenter(brew)
    kind = yeast_class(brew)
    rate = {"ale": ALE_RATE, "lager": LAGER_RATE}.get(kind, GENERAL_RATE)
    value = Range.span(lambda r, v, sg: cells_needed(r, v, plato(sg)), rate, volume, strength)
    typical = f"{number(rate.typical)} million to each ml and °P × {number(volume.typical, 3)} l × {text}"
    return Figure(
        value,
        lambda: (
            f"{typical}, which is {number(plato(strength.typical), 3)} °P,"
            f" = {number(value.typical, 3)} billion; from {number(rate.low)} to {number(rate.high)} million are advised"
        ),
        paths=(("batch",), *(one.path for one in brew.recipe.yeast)),
        assumed=() if kind else ("the general rate of 1 million to each ml and °P, since no ale or lager is named",),
    )


@figure("cells-pitched", unit="billion cells", sources=("common-practice",))
def pitched(brew: Brew) -> Figure:
    """Yeast cells that are pitched."""
    yeasts = brew.recipe.yeast
    if not yeasts:
        raise Unknown("the yeast", ("yeast",))
    for one in yeasts:
        for key in ("pitch", "starter", "viability"):
            if (*one.path, key) in brew.recipe.unreadable:
                raise Open(f"a readable {key} of the yeast", (*one.path, key))
    rows = [_one(brew, one) for one in yeasts if one.pitch is not None or one.starter is not None]
    if not rows:
        raise Unknown("how much yeast is pitched", (*yeasts[0].path, "pitch"))
    total = sum([cells for cells, _, _ in rows], Range.exact(0.0))
    return Figure(
        total,
        lambda: "\n".join([*(text for _, text, _ in rows), f"  = {number(total.typical, 3)} billion"]),
        paths=tuple((*one.path, "pitch") if one.pitch is not None else one.path for one in yeasts),
        assumed=tuple(text for _, _, text in rows if text),
        sources=("from-memory",),
        memory=True,
    )


def _one(brew: Brew, yeast: Yeast) -> tuple[Range, str, str]:
    """Cells of one yeast, the sum, and what was assumed."""
    pitch, assumed = yeast.pitch, ""
    if pitch is None:
        cells, text, assumed = LIQUID_PACK, f"1 pack × {spread(LIQUID_PACK)}", "one liquid pack in the starter"
    else:
        cells, text = _pitched(brew, pitch)
    if yeast.viability is not None:
        share = yeast.viability.range
        cells = Range.span(viable, cells, share)
        text += f" × {yeast.viability.text} that live"
    if yeast.starter is not None and (pitch is None or pitch.kind is not Kind.CELLS):
        cells = cells + yeast.starter.range.times(STARTER_PER_LITRE)
        text += f" + {yeast.starter.text} of starter × {spread(STARTER_PER_LITRE)} to the litre"
    return cells, text, assumed


def _pitched(brew: Brew, pitch: Quantity) -> tuple[Range, str]:
    amount = pitch.range
    if pitch.kind is Kind.CELLS:
        return amount, pitch.text
    if pitch.kind is Kind.PACKS:
        return amount.times(LIQUID_PACK), f"{pitch.text} × {spread(LIQUID_PACK)}"
    if pitch.kind is Kind.VOLUME:
        return (amount * 1000).times(SLURRY_PER_ML), f"{pitch.text} of slurry × {spread(SLURRY_PER_ML)} to the ml"
    volume = into_fermenter(brew)
    per_litre = dry_g_per_l(brew, pitch)
    grams = amount * 1000 if pitch.kind is Kind.MASS else amount.times(volume)
    each = DRY_PER_GRAM if per_litre.typical <= DRY_UP_TO_G_PER_L else PRESSED_PER_GRAM
    sort = "dry yeast" if each is DRY_PER_GRAM else "barm or pressed yeast"
    return grams.times(each), f"{pitch.text} of {sort} × {spread(each)} to the gram"


def dry_g_per_l(brew: Brew, pitch: Quantity) -> Range:
    """Yeast that is weighed, g to a litre of wort."""
    if pitch.kind is Kind.DOSE:
        return pitch.range
    volume = into_fermenter(brew)
    return Range.span(lambda kg, v: 1000 * kg / v, pitch.range, volume)
