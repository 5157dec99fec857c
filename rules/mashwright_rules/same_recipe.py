"""Is one recipe in the collection twice, under another name or in another size?

Recipes are copied, scaled and renamed, and mended in one place only. Two sheets with the same grist in the same
shares and the same hops are one beer.

Computed: the shares of each ingredient by weight, names as the tables know them, and the kinds of hops. Two recipes
are one where the ingredients and hops are the same and no share differs by more than a point. The finding stands in
the later file by path; it runs when a folder is reviewed. Recipes of a single malt are left out, since a pale malt
alone is in half of all of them.

On the day: nothing; decide which of the two is brewed, and keep that one.

Sources: a point of share is [judgement].
"""

from collections import defaultdict
from collections.abc import Iterator

from mashwright.rule import Brew, ExampleOfTwo, Finding, Level, Limit, Settings, number

Grist = tuple[tuple[str, ...], tuple[float, ...], tuple[str, ...], float]
"""Names in order, their shares in per cent, hops in order, kg in all."""


class Limits(Settings):
    """What is compared with."""

    apart_percent = Limit(1, "%", low=0, high=10, source="judgement")


SOUND = """\
recipe: Harbour Wheat
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: two-row pale malt, weight: 2.5 kg}
  - {grain: wheat malt, weight: 2 kg}
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
""",
    "warning",
    4,
    1,
    "this is the recipe of first.yaml, twice as much: the same grist in the same shares, and the same hops",
)


def gather(brew: Brew) -> Grist | None:
    weights: dict[str, float] = defaultdict(float)
    for part in brew.grist():
        weights[part.table_name] += part.weight_kg
    total = sum(weights.values())
    if len(weights) < 2 or total <= 0:
        return None
    names = tuple(sorted(weights))
    hops = tuple(sorted({hop.name.casefold() for hop in brew.recipe.hops}))
    return names, tuple(round(100 * weights[name] / total, 2) for name in names), hops, total


def check_collection(gathered: list[tuple[str, Grist]], limits: Limits) -> Iterator[tuple[str, Finding]]:
    alike: dict[tuple[tuple[str, ...], tuple[str, ...]], list[tuple[tuple[float, ...], str, float]]] = defaultdict(list)
    for path, (names, shares, hops, total) in gathered:
        alike[names, hops].append((shares, path, total))
    for group in alike.values():
        yield from _twice(sorted(group), limits.apart_percent)


def _twice(group: list[tuple[tuple[float, ...], str, float]], apart: float) -> Iterator[tuple[str, Finding]]:
    """Recipes of the same things, sorted by share: only neighbours can be the same, so this stays near linear."""
    for index, (shares, path, total) in enumerate(group):
        for other_shares, other, other_total in reversed(group[max(0, index - 50) : index]):
            if shares[0] - other_shares[0] > apart:
                break
            if all(abs(one - two) <= apart for one, two in zip(shares, other_shares, strict=True)):
                early, late = sorted([(other, other_total), (path, total)])
                scaled = late[1] / early[1]
                times = "twice" if abs(scaled - 2) < 0.06 else f"{number(scaled, 2)} times"
                size = "" if abs(scaled - 1) < 0.06 else f", {times} as much"
                message = (
                    f"this is the recipe of {early[0]}{size}: the same grist in the same shares, and the same hops"
                )
                yield late[0], Finding(("grist",), Level.WARNING, message, gap=1.0)
                break
