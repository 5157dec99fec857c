"""Is one recipe in the collection twice, under another name or in another size?

Recipes are copied, scaled and renamed, and mended in one place only. Two sheets with the same grist in the same
shares, as much of the same hops at the same times, and the same yeast are one beer.

Computed: the shares of each ingredient by weight, names as the tables know them; the hops, each addition by its
cultivar, its time and its weight to the kilogram of grist; the rests but mash-out; and the kind of yeast. Two recipes
are one where the ingredients, the hops and what is done with them are the same, no share differs by more than a point,
nor by more than a quarter of itself, no addition by more than 15 % of its weight (30 g and an ounce are one) or 5 min
of its time, no rest by more than 2 °C, and the yeasts are the same. A yeast, rests, water, package or
fermentation that only one of the two states does not tell them apart; water of which an ion differs by more than 20
mg/l and a quarter, bottles against cask, and more than 2 °C between the first steps of the fermentation (the middle of
one that rises) do. Shares that differ by more than rounding are told as almost the same. The finding stands in the
later file by path; it runs when a folder is reviewed. Recipes of a single malt are left out, since a pale malt alone
is in half of all of them.

On the day: nothing; decide which of the two is brewed, and keep that one.

Sources: what two copies may differ by is [judgement].
"""

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew import Brew, number
from mashwright.ingredients.lookup import hop as known_hop
from mashwright.ingredients.lookup import yeast as known_yeast
from mashwright.recipe.model import Hop
from mashwright.recipe.stated import NOWHERE
from mashwright.rule import ExampleOfTwo, Finding, Level, Limit, Settings


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


class Limits(Settings):
    """What is compared with."""

    apart_percent = Limit(1, "%", low=0, high=10, source="judgement")
    share_apart_percent = Limit(25, "%", low=0, high=100, source="judgement")
    rests_apart_c = Limit(2, "°C", difference=True, low=0, high=20, source="judgement")
    ferments_apart_c = Limit(2, "°C", difference=True, low=0, high=20, source="judgement")
    water_apart_percent = Limit(25, "%", low=0, high=100, source="judgement")
    hops_apart_percent = Limit(15, "%", low=0, high=100, source="judgement")
    times_apart_min = Limit(5, "min", low=0, high=60, source="judgement")


SOUND = """\
recipe: Harbour Wheat
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 2.5 kg}
  - {grain: wheat malt, weight: 2 kg}
yeast: {kind: English ale}
"""

FAULTY = ExampleOfTwo(
    SOUND,
    """\
recipe: Quayside Wheat
by: Saltmarsh Lane Mash Circle
batch: 10 gal
grist:
  - {grain: wheat malt, weight: 8 lb 13 oz}
  - {grain: American two-row, weight: 11 lb}
yeast: {kind: English ale}
""",
    "warning",
    4,
    1,
    "this is the recipe of first.yaml, twice as much: the same grist in the same shares and the same yeast",
)


def gather(brew: Brew) -> Sheet | None:
    weights: dict[str, float] = defaultdict(float)
    for part in brew.grist():
        weights[part.table_name] += part.weight_kg
    total = sum(weights.values())
    if len(weights) < 2 or total <= 0:
        return None
    names = tuple(sorted(weights))
    added = sorted(_addition(hop, total) for hop in brew.recipe.hops)
    return Sheet(
        names,
        tuple(round(100 * weights[name] / total, 2) for name in names),
        tuple((name, what) for name, what, _, _ in added),
        tuple((time, dose) for _, _, time, dose in added),
        tuple(sorted({_yeast(yeast.kind) for yeast in brew.recipe.yeast if yeast.kind})),
        total,
        _rests(brew),
        _water(brew),
        brew.recipe.package.vessel if brew.recipe.package.known else "",
        _ferments(brew),
    )


_MASH_OUT_C = 75.0  # a hotter rest ends a mash and makes no other beer; common practice
_IONS = ("calcium", "magnesium", "sodium", "chloride", "sulfate", "bicarbonate", "alkalinity")


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


def _addition(hop: Hop, grist_kg: float) -> tuple[str, str, float, float]:
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
    cultivar = known_hop(hop.name)
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


def _yeast(kind: str) -> str:
    known = known_yeast(kind)
    return known.name if known is not None else kind.casefold()


def check_collection(gathered: list[tuple[str, Sheet]], limits: Limits) -> Iterator[tuple[str, Finding]]:
    alike: dict[tuple[object, ...], list[tuple[tuple[float, ...], str, Sheet]]] = defaultdict(list)
    for path, sheet in gathered:
        alike[sheet.names, sheet.hops].append((sheet.shares, path, sheet))
    for group in alike.values():
        yield from _twice(sorted(group), limits)


def _twice(group: list[tuple[tuple[float, ...], str, Sheet]], limits: Limits) -> Iterator[tuple[str, Finding]]:
    """Recipes of the same things, sorted by share: only neighbours can be the same, so this stays near linear."""
    apart = limits.apart_percent
    for index, (shares, path, sheet) in enumerate(group):
        for other_shares, other, other_sheet in reversed(group[max(0, index - 50) : index]):
            if shares[0] - other_shares[0] > apart:
                break
            if _near(shares, other_shares, apart, limits.share_apart_percent) and _same_beer(
                sheet, other_sheet, limits
            ):
                early, late = sorted([(other, other_sheet), (path, sheet)])
                yield late[0], Finding(("grist",), Level.WARNING, _told(early[0], early[1], late[1]), gap=1.0)
                break


def _near(shares: tuple[float, ...], others: tuple[float, ...], points: float, percent: float) -> bool:
    """Whether no share differs by more than some points, nor by more than some part of itself."""
    return all(
        (apart := abs(one - two)) <= points and 100 * apart <= percent * max(one, two)
        for one, two in zip(shares, others, strict=True)
    )


def _same_beer(one: Sheet, two: Sheet, limits: Limits) -> bool:
    """Whether two sheets of one grist have as much of the same hops, at the same times, and nothing else apart."""
    if one.yeast and two.yeast and one.yeast != two.yeast:
        return False
    if one.package and two.package and one.package != two.package:
        return False
    if not _same_degrees(one.rests_c, two.rests_c, limits.rests_apart_c):
        return False
    if not _same_degrees(one.ferments_c, two.ferments_c, limits.ferments_apart_c):
        return False
    if not _same_water(dict(one.water), dict(two.water), limits.water_apart_percent):
        return False
    share = limits.hops_apart_percent / 100
    return all(
        abs(time - other_time) <= limits.times_apart_min and abs(dose - other_dose) <= share * max(dose, other_dose)
        for (time, dose), (other_time, other_dose) in zip(one.doses, two.doses, strict=True)
    )


def _same_degrees(one: tuple[float, ...], two: tuple[float, ...], apart_c: float) -> bool:
    if not one or not two:
        return True
    return len(one) == len(two) and all(abs(first - other) <= apart_c for first, other in zip(one, two, strict=True))


_TRACE_MG_PER_L = 20.0  # waters differ by so much from month to month; judgement


def _same_water(one: dict[str, float], two: dict[str, float], percent: float) -> bool:
    return all(
        abs(one[ion] - two[ion]) <= max(_TRACE_MG_PER_L, percent / 100 * max(one[ion], two[ion]))
        for ion in one.keys() & two.keys()
    )


_ROUNDED_POINTS, _ROUNDED_PERCENT = 0.5, 7.0  # what weights in ounces and in grams differ by; judgement


def _told(early: str, first: Sheet, late: Sheet) -> str:
    scaled = late.total_kg / first.total_kg
    times = "twice" if abs(scaled - 2) < 0.06 else f"{number(scaled, 2)} times"
    size = "" if abs(scaled - 1) < 0.06 else f", {times} as much"
    equal = _near(first.shares, late.shares, _ROUNDED_POINTS, _ROUNDED_PERCENT)
    same = [f"the same grist in {'' if equal else 'almost '}the same shares"]
    same += ["the same hops"] if late.hops else []
    same += ["the same yeast"] if late.yeast and first.yeast else []
    listed = f"{', '.join(same[:-1])} and {same[-1]}" if len(same) > 1 else same[0]
    return f"this is {'' if equal else 'nearly '}the recipe of {early}{size}: {listed}"
