"""Figures of the yeast: the cells that the wort needs, those that are pitched, and as how much yeast they come."""

from msgspec.structs import replace

from mashwright.brew.board import lines, number, spread
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import litres_in
from mashwright.brew.pours import into_fermenter
from mashwright.brew.yeasts import kinds
from mashwright.brewing.gravity import plato
from mashwright.brewing.yeast import (
    ALE_RATE,
    DRY_PER_GRAM,
    GENERAL_RATE,
    LAGER_RATE,
    LIQUID_PACK,
    PRESSED_PER_GRAM,
    SLURRY_PER_ML,
    STARTER_GROWTH,
    STARTER_PLATO,
    cells_needed,
    starter_growth,
    starter_litres,
    viable,
)
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.mash import og
from mashwright.finding import Path
from mashwright.ingredients.kinds import YeastSort
from mashwright.measures.quantity import Kind, Quantity, said
from mashwright.measures.range import Range
from mashwright.recipe.model import Yeast
from mashwright.recipe.stated import NOWHERE, Unknown

# More than so many grams to a litre are no dry yeast but barm or pressed yeast; judgement.
DRY_UP_TO_G_PER_L = 3.0
# A lager yeast that starts as warm as this is pitched like an ale, °C; judgement.
COLD_UP_TO_C = 15.5
# A starter that grows less than this of what it could is called crowded; judgement.
_CROWDED_SHARE = 0.99
_RATES: dict[str, Range] = {YeastSort.ALE: ALE_RATE, YeastSort.LAGER: LAGER_RATE}


def yeast_class(brew: Brew) -> str:
    """``ale``, ``lager``, or ``""`` where the recipe names no yeast that is known or several sorts."""
    found = set[str]()
    for known in kinds(brew):
        if known is None:
            return ""
        lager = known.sort is YeastSort.LAGER
        if not known.of_beer:
            return ""
        found.add(YeastSort.LAGER if lager and _cold(brew) else YeastSort.ALE)
    return found.pop() if len(found) == 1 else ""


def _cold(brew: Brew) -> bool:
    first = next((step.at for step in brew.recipe.ferment if step.at.known), None)
    return first is None or first.range.low <= COLD_UP_TO_C


def wort_strength(brew: Brew) -> tuple[Range, str]:
    """Gravity of the wort: as stated, else as this grist gives it; and how it reads.

    Raises:
        Unknown: neither can be had.
    """
    stated = brew.recipe.targets.og
    if stated.known:
        return stated.range, stated.text
    value = og(brew).range
    return value, said(value.typical, "SG", Kind.GRAVITY)


@figure("cells-needed", unit="billion cells", sources=("fix-pitching", "pitching-articles"))
def needed(brew: Brew) -> Figure:
    """Yeast cells needed."""
    strength, text = wort_strength(brew)
    volume = into_fermenter(brew)
    kind = yeast_class(brew)
    rate = _RATES.get(kind, GENERAL_RATE)
    value = Range.span(lambda r, v, sg: cells_needed(r, v, plato(sg)), rate, volume, strength)
    typical = f"{number(rate.typical)} million to each ml and °P × {number(volume.typical, 3)} l × {text}"
    return Figure(
        value,
        lambda: (
            f"{typical}, which is {number(plato(strength.typical), 3)} °P,"
            f" = {number(value.typical, 3)} billion; from {number(rate.low)} to {number(rate.high)} million are advised"
        ),
        paths=(brew.recipe.batch.path, *(one.path for one in brew.recipe.yeast)),
        assumed=() if kind else ("the general rate of 1 million to each ml and °P, since no ale or lager is named",),
    )


@figure("cells-pitched", unit="billion cells", sources=("starter-trials", "troester-yeast-growth", "common-practice"))
def pitched(brew: Brew) -> Figure:
    """Yeast cells pitched."""
    yeasts = brew.recipe.yeast
    if not yeasts:
        raise Unknown("the yeast", brew.recipe.yeast.path)
    for one in yeasts:
        one.pitch.readable("a readable pitch of the yeast")
        one.starter.readable("a readable starter of the yeast")
        one.viability.readable("a readable viability of the yeast")
    rows = [_one(brew, one) for one in yeasts if one.pitch.known or one.starter.known]
    if not rows:
        raise Unknown("how much yeast is pitched", yeasts[0].pitch.path)
    total = sum([cells for cells, _, _ in rows], Range.exact(0.0))
    return Figure(
        total,
        lambda: "\n".join([*(text for _, text, _ in rows), f"  = {number(total.typical, 3)} billion"]),
        paths=tuple(one.pitch.path if one.pitch.known else one.path for one in yeasts),
        assumed=tuple(text for _, _, text in rows if text),
        sources=("from-memory",),
        memory=True,
    )


def _one(brew: Brew, yeast: Yeast) -> tuple[Range, str, str]:
    """Cells of one yeast, the sum, and what was assumed."""
    pitch, assumed = yeast.pitch, ""
    if not pitch.known:
        cells, text, assumed = LIQUID_PACK, f"1 pack × {spread(LIQUID_PACK)}", "one liquid pack in the starter"
    else:
        cells, text = _pitched(brew, pitch)
    if yeast.viability.known:
        share = yeast.viability.range
        cells = Range.span(viable, cells, share)
        text += f" × {yeast.viability.text} that live"
    if yeast.starter.known:
        grown = _grown(yeast.starter.range, cells)
        grows = f"{yeast.starter.text} of starter × {number(STARTER_PLATO.typical)} °P × {spread(STARTER_GROWTH)}"
        if grown.typical < _uncrowded(yeast.starter.range).typical * _CROWDED_SHARE:
            grows += ", less since it is crowded,"
        if pitch.known and pitch.kind is Kind.CELLS:
            assumed = (
                f"{pitch.text} as what the starter brings; if they go into it, it grows"
                f" {number(grown.typical, 2)} billion more"
            )
            return Range(cells.low, cells.typical, cells.high + grown.high), text, assumed
        cells = cells + grown
        text += f" + {grows} to each litre and °P"
        assumed = ", ".join(
            filter(
                None, (assumed, f"a starter of {number(STARTER_PLATO.typical)} °P, since its strength is not stated")
            )
        )
    return cells, text, assumed


def _grown(litres: Range, cells: Range) -> Range:
    """New cells of a starter that begins with some; more yeast in a starter is more crowded."""
    typical = starter_growth(litres.typical, cells.typical, STARTER_PLATO.typical, STARTER_GROWTH.typical)
    low = starter_growth(litres.low, cells.high, STARTER_PLATO.low, STARTER_GROWTH.low)
    high = starter_growth(litres.high, cells.low, STARTER_PLATO.high, STARTER_GROWTH.high)
    return Range(min(low, typical), typical, max(high, typical))


def _uncrowded(litres: Range) -> Range:
    return _grown(litres, Range.exact(0.0))


@figure("starter-needed", unit="l", sources=("starter-trials", "troester-yeast-growth", "common-practice"))
def starter_needed(brew: Brew) -> Figure:
    """Starter needed."""
    want = needed(brew)
    begins, text, assumed, paths = _without_starter(brew)
    if begins.typical <= 0:
        raise Unknown("yeast to begin a starter with", brew.recipe.yeast.path)

    value = Range(
        starter_litres(want.low, begins.high, STARTER_PLATO.high, STARTER_GROWTH.high),
        starter_litres(want.typical, begins.typical, STARTER_PLATO.typical, STARTER_GROWTH.typical),
        starter_litres(want.high, begins.low, STARTER_PLATO.low, STARTER_GROWTH.low),
    )
    missing = want.typical - begins.typical

    def working() -> str:
        rows = [f"{number(want.typical, 3)} billion needed - {text} = {number(missing, 3)} billion"]
        if missing <= 0:
            return lines([f"{rows[0]}: enough without one"])
        rows.append(
            f"  ÷ {number(STARTER_GROWTH.typical)} billion to each litre and °P ÷ {number(STARTER_PLATO.typical)} °P"
            f" = {litres_in(brew, value.typical)}"
        )
        if (
            _grown(Range.exact(value.typical), begins).typical
            < _CROWDED_SHARE * _uncrowded(Range.exact(value.typical)).typical
        ):
            rows[-1] += ", more than that since it would be crowded"
        return lines(rows)

    return Figure(
        value,
        working,
        paths=(*want.paths, *paths),
        assumed=(*want.assumed, *assumed, f"a starter of {spread(STARTER_PLATO)} °P"),
        sources=("from-memory",),
        memory=True,
    )


def _without_starter(brew: Brew) -> tuple[Range, str, tuple[str, ...], tuple[Path, ...]]:
    """The living cells that a starter would begin with, 10^9; one liquid pack where the recipe states no amount.

    Raises:
        Unknown: an amount or a share that lives cannot be read.
    """
    cells, texts, assumed = Range.exact(0.0), list[str](), list[str]()
    for one in brew.recipe.yeast:
        one.pitch.readable("a readable pitch of the yeast")
        one.viability.readable("a readable viability of the yeast")
    stated = [one for one in brew.recipe.yeast if one.pitch.known]
    for one in stated:
        begins, text, _ = _one(brew, replace(one, starter=NOWHERE))
        cells, texts = cells + begins, [*texts, text]
    if not stated:
        cells, texts = LIQUID_PACK, [f"1 pack × {spread(LIQUID_PACK)}"]
        assumed.append("one liquid pack, since no amount of yeast is stated")
    return cells, " - ".join(texts), tuple(assumed), tuple(one.pitch.path for one in stated)


@figure("dry-yeast-needed", unit="g", sources=("common-practice",))
def dry_yeast_needed(brew: Brew) -> Figure:
    """Dry yeast needed."""
    return _as_yeast(brew, DRY_PER_GRAM, "g", "the gram of dry yeast")


@figure("packs-needed", unit="packs", sources=("common-practice",))
def packs_needed(brew: Brew) -> Figure:
    """Fresh liquid packs needed."""
    return _as_yeast(brew, LIQUID_PACK, "packs", "the pack")


@figure("slurry-needed", unit="ml", sources=("from-memory",))
def slurry_needed(brew: Brew) -> Figure:
    """Settled slurry needed."""
    return replace(_as_yeast(brew, SLURRY_PER_ML, "ml", "the ml of slurry"), memory=True)


def _as_yeast(brew: Brew, each: Range, unit: str, to_the: str) -> Figure:
    """The cells needed as an amount of one sort of yeast; more cells to the gram make it less."""
    want = needed(brew)
    value = Range.along(lambda cells, one: cells / one, (want.range,), (each,))
    return Figure(
        value,
        lambda: (
            f"{number(want.typical, 3)} billion ÷ {spread(each)} billion to {to_the}"
            f" = {number(value.typical, 3)} {unit}"
        ),
        paths=want.paths,
        assumed=want.assumed,
        sources=want.sources,
    )


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
