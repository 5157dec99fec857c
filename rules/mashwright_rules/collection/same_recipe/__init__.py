"""Is one recipe in the collection twice, under another name or in another size?

Recipes are copied, scaled and renamed, and then mended in one place only. Two
sheets are one beer if grist, hops and yeast are the same.

What is checked: each pair of recipes of the same ingredients, by the names that
the tables use. They are one recipe where all of this fits:

  what                    may differ by
  share of an ingredient  1 point and 25 % of itself
  hop addition            15 % of its weight to the kg of grist (30 g and 1 oz
                          are one); 5 min; not its cultivar or its use
  rest (mash-outs apart)  2 °C
  first ferment step      2 °C, by its middle if it rises
  ion in the water        20 mg/l, or 25 % if that is more
  yeast, package          not at all

- warning: in the later file by path; `nearly` and `almost` where the shares
  differ by more than rounding
- no difference: a yeast, rests, water, package or fermentation that only one
  of the two states; the days of dry hops
- skipped: recipes of one ingredient, since half of all of them have a pale
  malt alone; a review of one file, not of a folder

On the day: nothing; decide which of the two is brewed, and keep that one.

Sources: what two copies may differ by is [judgement].
"""

from collections import defaultdict
from collections.abc import Iterator

from mashwright.brew import Brew, number
from mashwright.rule import ExampleOfTwo, Finding, Level, Limit, Say, Settings, say
from mashwright_rules.collection.same_recipe._sheet import Sheet, sheet_of


class Limits(Settings):
    """What is compared with."""

    apart_percent = Limit(1, "%", low=0, high=10, source="judgement")
    share_apart_percent = Limit(25, "%", low=0, high=100, source="judgement")
    rests_apart_c = Limit(2, "°C", difference=True, low=0, high=20, source="judgement")
    ferments_apart_c = Limit(2, "°C", difference=True, low=0, high=20, source="judgement")
    water_apart_percent = Limit(25, "%", low=0, high=100, source="judgement")
    hops_apart_percent = Limit(15, "%", low=0, high=100, source="judgement")
    times_apart_min = Limit(5, "min", low=0, high=60, source="judgement")


SAYS = {
    "same": "this is the recipe of {other}",
    "nearly-same": "this is nearly the recipe of {other}",
    "twice": ", twice as much",
    "times": ", {times} times as much",
    "same-shares": ": the same grist in the same shares",
    "almost-same-shares": ": the same grist in almost the same shares",
    "and-hops": " and the same hops",
    "and-yeast": " and the same yeast",
    "and-hops-and-yeast": ", the same hops and the same yeast",
}


def gather(brew: Brew) -> Sheet | None:
    return sheet_of(brew)


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


def _told(early: str, first: Sheet, late: Sheet) -> Say:
    scaled = late.total_kg / first.total_kg
    equal = _near(first.shares, late.shares, _ROUNDED_POINTS, _ROUNDED_PERCENT)
    hops, yeast = bool(late.hops), bool(late.yeast and first.yeast)
    size = None
    if abs(scaled - 1) >= 0.06:
        size = say("twice") if abs(scaled - 2) < 0.06 else say("times", times=number(scaled, 2))
    also = {(True, False): "and-hops", (False, True): "and-yeast", (True, True): "and-hops-and-yeast"}.get(
        (hops, yeast)
    )
    return say("same" if equal else "nearly-same", other=early).and_then(
        size, say("same-shares" if equal else "almost-same-shares"), say(also) if also else None
    )


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
