"""Figures of the grist: its weights, its shares, its enzymes."""

from collections.abc import Callable

from mashwright.brew.board import lines, number
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import weight_in
from mashwright.brew.parts import Part, weighed
from mashwright.brewing.mash_rates import converting_power
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.ingredients.kinds import Group, IngredientKind, Place
from mashwright.measures.quantity import Kind
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown


def _sum(brew: Brew, parts: tuple[Part, ...], total: Range) -> str:
    """Weights added up; a single one is its own sum."""
    texts = [part.weight.text for part in parts]
    return f"{' + '.join(texts)} = {weight_in(brew, total.typical)}" if len(texts) > 1 else texts[0]


def _all_said(brew: Brew, total: float) -> str:
    """The whole of several parts, as a weight, or as a share where only shares are known."""
    if brew.grist()[0].weight.kind is Kind.MASS:
        return weight_in(brew, total)
    return f"{number(total, 3)} %"


@figure("grist-weight", unit="kg")
def grist_weight(brew: Brew) -> Figure:
    """Total weight of grist and sugars."""
    parts = weighed(brew.grist())
    total = Range.weighted_sum([(part.weight.range, 1.0) for part in parts])
    return Figure(
        total,
        working=lambda: _sum(brew, parts, total),
        paths=tuple(part.path for part in parts),
    )


@figure("mash-weight", unit="kg")
def mash_weight(brew: Brew) -> Figure:
    """Weight of grain in the mash, no hulls."""
    parts = tuple(part for part in brew.grist() if part.mashed and not part.hulls)
    if not parts:
        raise Unknown("grain that is mashed", brew.recipe.grist.path)
    total = Range.weighted_sum([(part.weight.range, 1.0) for part in weighed(parts)])
    return Figure(
        total,
        working=lambda: _sum(brew, parts, total),
        paths=tuple(part.path for part in parts),
    )


@figure("grist-diastatic-power", unit="°Lintner", sources=("common-practice", "jcgm-100-2008"))
def grist_diastatic_power(brew: Brew) -> Figure:
    """Average diastatic power of the mash."""
    parts = brew.converting()
    powers = [brew.power_of(part) for part in parts]
    mean = Range.weighted_mean([(power, part.amount) for power, part in zip(powers, parts, strict=True)])
    boiled = [part for part in parts if part.line.cereal_mash and brew.cooker_boils and part.power().typical > 0]
    late = [part for part in brew.placed(Place.LATE_MASH) if not part.hulls]
    assumed = [f"the enzymes of {part.name} lost, since it is boiled in the cereal mash" for part in boiled]
    assumed += [f"{part.name} left out, since it enters when conversion is over" for part in late]

    def working() -> str:
        rows = [
            f"  {part.weight.text} × {number(power.typical)} °Lintner, {part.name}"
            for part, power in zip(parts, powers, strict=True)
        ]
        total = sum(part.amount for part in parts)
        return lines(
            [
                "each weight × its °Lintner, added up, divided by all that is mashed:",
                *rows,
                f"  ÷ {_all_said(brew, total)} = {number(mean.typical, 3)} °Lintner",
            ]
        )

    return Figure(
        mean,
        working,
        paths=tuple(part.path for part in parts),
        assumed=tuple(assumed),
        sources=tuple(key for part in parts for key in part.sources),
        memory=all(
            "diastatic-power" in part.memory for part, power in zip(parts, powers, strict=True) if power.typical > 0
        )
        and any(power.typical > 0 for power in powers),
    )


def grist_converting_power(brew: Brew) -> Range:
    """What the enzymes of the mash count for when it converts, °Lintner: of each malt, averaged by weight.

    Raises:
        Unknown: nothing is mashed, or the power of a part is not known.
    """
    counted = [(brew.power_of(part), part.amount) for part in brew.converting()]
    return Range.weighted_mean((power.map(converting_power), amount) for power, amount in counted)


def share_of_mash(brew: Brew, wanted: Callable[[Part], bool], what: str) -> Figure:
    """What share some of the grain has of all grain and malt extract, hulls left out, %.

    Raises:
        Unknown: there is no grain.
    """
    groups = (Group.GRAIN, Group.EXTRACT)
    grain = tuple(part for part in brew.grist() if part.group in groups and not part.hulls)
    total = sum(part.amount for part in grain)
    if total <= 0:
        raise Unknown("grain", brew.recipe.grist.path)
    chosen = tuple(part for part in grain if wanted(part))
    value = 100 * sum(part.amount for part in chosen) / total

    def working() -> str:
        if not chosen:
            return f"there is no {what}"
        top = " + ".join(part.weight.text for part in chosen)
        return f"({top}) ÷ {_all_said(brew, total)} × 100 = {number(value, 3)} %"

    return Figure(Range.exact(value), working, paths=tuple(part.path for part in chosen))


@figure("adjunct-share", unit="% of grist")
def adjunct_share(brew: Brew) -> Figure:
    """Share of unmalted grain: raw, flaked or torrefied."""
    return share_of_mash(brew, lambda part: part.unmalted, "unmalted grain")


@figure("huskless-share", unit="% of grist")
def huskless_share(brew: Brew) -> Figure:
    """Share of the mash without husk."""
    return share_of_mash(brew, lambda part: part.mashed and not part.husk, "huskless grain that is mashed")


@figure("caramel-share", unit="% of grist")
def caramel_share(brew: Brew) -> Figure:
    """Share of caramel (crystal) malt."""
    return share_of_mash(brew, lambda part: part.kind == IngredientKind.CARAMEL_MALT, "caramel malt")


@figure("roast-share", unit="% of grist")
def roast_share(brew: Brew) -> Figure:
    """Share of roasted malt and roasted grain."""
    return share_of_mash(brew, lambda part: part.kind == IngredientKind.ROASTED_MALT, "roasted malt")


@figure("acidulated-share", unit="% of grist")
def acidulated_share(brew: Brew) -> Figure:
    """Share of acidulated malt."""
    return share_of_mash(brew, lambda part: part.kind == IngredientKind.ACIDULATED_MALT, "acidulated malt")
