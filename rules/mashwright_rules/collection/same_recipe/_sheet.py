"""What of a recipe is compared with that of others."""

from collections import defaultdict
from typing import NamedTuple

from mashwright.brew import Brew, hop_of, yeast_of
from mashwright.measures.bounds import ENZYMES_END_C
from mashwright.recipe.model import Hop
from mashwright.recipe.stated import NOWHERE

_MASH_OUT_C = ENZYMES_END_C.usual  # a hotter rest ends a mash and makes no other beer
_IONS = ("calcium", "magnesium", "sodium", "chloride", "sulfate", "bicarbonate", "alkalinity")


class Sheet(NamedTuple):
    """What makes a recipe this recipe and no other.

    Attributes:
        names: of the ingredients, in order.
        shares: theirs, % of the grist.
        hops: of each addition, its cultivar and what is done with it, in order.
        doses: of each addition, min (days of dry hops) and g to the kg of grist; 0 where it is not stated.
        yeast: the kinds of yeast, in order; none where the recipe does not say.
        total_kg: weight of the grist.
        rests_c: temperatures of the stated rests, mash-out left out, °C; none where the recipe does not say.
        water: each stated ion of the recipe's own water and its mg/l, in order.
        package: bottles, keg or cask; "" where the recipe does not say.
        ferments_c: middle of the first step of the fermentation, °C; none where the recipe does not say.
    """

    names: tuple[str, ...]
    shares: tuple[float, ...]
    hops: tuple[tuple[str, str], ...]
    doses: tuple[tuple[float, float], ...]
    yeast: tuple[str, ...]
    total_kg: float
    rests_c: tuple[float, ...] = ()
    water: tuple[tuple[str, float], ...] = ()
    package: str = ""
    ferments_c: tuple[float, ...] = ()


def sheet_of(brew: Brew) -> Sheet | None:
    """The sheet of a recipe; None of a single malt."""
    weights: dict[str, float] = defaultdict(float)
    for part in brew.grist():
        weights[part.table_name] += part.weight_kg
    total = sum(weights.values())
    if len(weights) < 2 or total <= 0:
        return None
    names = tuple(sorted(weights))
    beers = brew.recipe.worts or (brew.recipe,)
    added = sorted(_addition(brew, hop, total) for beer in beers for hop in beer.hops)
    return Sheet(
        names,
        tuple(round(100 * weights[name] / total, 2) for name in names),
        tuple((name, what) for name, what, _, _ in added),
        tuple((time, dose) for _, _, time, dose in added),
        tuple(sorted({_yeast(brew, yeast.kind) for beer in beers for yeast in beer.yeast if yeast.kind})),
        total,
        _rests(brew),
        _water(brew),
        " and ".join(sorted({one.vessel for one in brew.recipe.packages if one.known})),
        _ferments(brew),
    )


def _rests(brew: Brew) -> tuple[float, ...]:
    if not brew.plan.stated:
        return ()
    return tuple(round(rest.at_c.typical, 1) for rest in brew.plan.rests if rest.at_c.typical <= _MASH_OUT_C)


def _ferments(brew: Brew) -> tuple[float, ...]:
    """The first step, as one temperature: what follows it is a matter of cellars."""
    first = next(iter(brew.recipe.ferment), None)
    ends = [] if first is None else [end.range.typical for end in (first.at, first.to) if end.known]
    return (round(sum(ends) / len(ends), 1),) if ends else ()


def _water(brew: Brew) -> tuple[tuple[str, float], ...]:
    water = brew.recipe.water
    if not water.known:
        return ()
    stated = ((ion, getattr(water, ion)) for ion in _IONS)
    return tuple((ion, round(quantity.range.typical, 1)) for ion, quantity in stated if quantity.known)


def _addition(brew: Brew, hop: Hop, grist_kg: float) -> tuple[str, str, float, float]:
    """Cultivar, what is done with it, for how long, and how much of it to the kg of grist."""
    what, time = next(
        (
            (what, time.range.typical if time.known else 0.0)
            for what, done, time in (
                ("mash", hop.mash, NOWHERE),
                ("first wort", hop.first_wort, NOWHERE),
                ("boil", hop.boil.known, hop.boil),
                ("stand", hop.whirlpool.known, hop.whirlpool),
            )
            if done
        ),
        ("dry", 0.0) if hop.dry.known else ("", 0.0),  # some days more or less make no other beer
    )
    cultivar = hop_of(brew.brewhouse, hop.name)
    name = cultivar.name if cultivar is not None else hop.name.casefold()
    if hop.weight.known:
        dose, measure = 1000 * hop.weight.range.typical / grist_kg, ""
    elif hop.alpha_units.known:
        dose, measure = hop.alpha_units.range.typical / grist_kg, " by alpha units"
    elif hop.bitterness.known:
        dose, measure = hop.bitterness.range.typical, " by bitterness"
    else:
        dose, measure = 0.0, ""
    return name, f"{what}{measure}", round(time, 1), round(dose, 6)


def _yeast(brew: Brew, kind: str) -> str:
    known = yeast_of(brew.brewhouse, kind)
    return known.name if known is not None else kind.casefold()
