"""Is one recipe in the collection twice, under another name or in another size?

Recipes are copied, scaled and renamed, and mended in one place only. Two sheets with the same grist in the same
shares, as much of the same hops at the same times, and the same yeast are one beer.

Computed: the shares of each ingredient by weight, names as the tables know them; the hops, each addition by its
cultivar, its time and its weight to the kilogram of grist; and the kind of yeast. Two recipes are one where the
ingredients, the hops and what is done with them are the same, no share differs by more than a point, no addition by
more than 15 % of its weight (30 g and an ounce are one) or 5 min of its time, and the yeasts are the same; a yeast that
only one of the two states does not tell them apart. The finding stands in the later file by path; it runs when a
folder is reviewed. Recipes of a single malt are left out, since a pale malt alone is in half of all of them.

On the day: nothing; decide which of the two is brewed, and keep that one.

Sources: what two copies may differ by is [judgement].
"""

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from mashwright.rule import (
    Brew,
    ExampleOfTwo,
    Finding,
    Hop,
    Level,
    Limit,
    Settings,
    known_hop,
    known_yeast,
    number,
)


class Sheet(NamedTuple):
    """What makes a recipe this recipe and no other.

    Attributes:
        names: of the ingredients, in order.
        shares: theirs, % of the grist.
        hops: of each addition, its cultivar and what is done with it, in order.
        doses: of each addition, min (days of dry hops) and g to the kg of grist; 0 where it is not stated.
        yeast: the kinds of yeast, in order; none where the recipe does not say.
        total_kg: weight of the grist.
    """

    names: tuple[str, ...]
    shares: tuple[float, ...]
    hops: tuple[tuple[str, str], ...]
    doses: tuple[tuple[float, float], ...]
    yeast: tuple[str, ...]
    total_kg: float


class Limits(Settings):
    """What is compared with."""

    apart_percent = Limit(1, "%", low=0, high=10, source="judgement")
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
    )


def _addition(hop: Hop, grist_kg: float) -> tuple[str, str, float, float]:
    """Cultivar, what is done with it, for how long, and how much of it to the kg of grist."""
    what, time = next(
        (
            (what, time.range.typical if time is not None else 0.0)
            for what, done, time in (
                ("mash", hop.mash, None),
                ("first wort", hop.first_wort, None),
                ("boil", hop.boil is not None, hop.boil),
                ("stand", hop.whirlpool is not None, hop.whirlpool),
            )
            if done
        ),
        ("dry", 0.0) if hop.dry is not None else ("", 0.0),  # some days more or less make no other beer
    )
    cultivar = known_hop(hop.name)
    name = cultivar.name if cultivar is not None else hop.name.casefold()
    if hop.weight is not None:
        dose, measure = 1000 * hop.weight.range.typical / grist_kg, ""
    elif hop.alpha_units is not None:
        dose, measure = hop.alpha_units.range.typical / grist_kg, " by alpha units"
    elif hop.bitterness is not None:
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
            if all(abs(one - two) <= apart for one, two in zip(shares, other_shares, strict=True)) and _same_beer(
                sheet, other_sheet, limits
            ):
                early, late = sorted([(other, other_sheet), (path, sheet)])
                yield late[0], Finding(("grist",), Level.WARNING, _told(early[0], early[1], late[1]), gap=1.0)
                break


def _same_beer(one: Sheet, two: Sheet, limits: Limits) -> bool:
    """Whether two sheets of one grist have as much of the same hops, at the same times, and the same yeast."""
    if one.yeast and two.yeast and one.yeast != two.yeast:
        return False
    share = limits.hops_apart_percent / 100
    return all(
        abs(time - other_time) <= limits.times_apart_min and abs(dose - other_dose) <= share * max(dose, other_dose)
        for (time, dose), (other_time, other_dose) in zip(one.doses, two.doses, strict=True)
    )


def _told(early: str, first: Sheet, late: Sheet) -> str:
    scaled = late.total_kg / first.total_kg
    times = "twice" if abs(scaled - 2) < 0.06 else f"{number(scaled, 2)} times"
    size = "" if abs(scaled - 1) < 0.06 else f", {times} as much"
    same = ["the same grist in the same shares"]
    same += ["the same hops"] if late.hops else []
    same += ["the same yeast"] if late.yeast and first.yeast else []
    listed = f"{', '.join(same[:-1])} and {same[-1]}" if len(same) > 1 else same[0]
    return f"this is the recipe of {early}{size}: {listed}"
