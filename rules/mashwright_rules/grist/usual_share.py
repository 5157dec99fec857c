"""Is one ingredient far above its usual share?

Some malts are spices. Black malt colours a beer at 2 % and turns it to ash at
15 %. A third of caramel (crystal) malt makes it sticky and hard to ferment. A
little peated malt goes a long way. None of it is forbidden, and old recipes
used more. But a share far above the usual one is often a slip of the pen.

What is checked: each malt's share of all grain, without hulls, against its
usual upper share in the table. Malt extract counts as the grain that it was
made from. Lines of one ingredient count together.

- warning: above twice the usual share, for caramel and roasted malt, which
  also act on fermentation and mash pH
- note: above 1.5 times the usual share, for any malt
- caramel malts all together: usual is at most 25 %; roasted malt and grain:
  15 %. Asked of two lines or more, where none of them is too much alone.
- skipped: acidulated malt (see acidulated-malt); unmalted grain (see
  adjunct-share); malt without husk (see run-off)
- skipped: nothing in the mash has enzymes (see no-base-malt)

On the day: chew the grain. Steep a spoonful of the same grist in a cup of hot
water like tea, and taste it.

Sources: [oxford-crystal] [oxford-black] [byo-roast] [oxford-smoked]
[uk-typical-spec] [common-practice] [judgement]
"""

from collections.abc import Iterator

from mashwright.brew import MALT_EXTRACTS, Brew, Part, number, told
from mashwright.ingredients.kinds import Group, IngredientKind
from mashwright.knobs import Knob, less_of
from mashwright.measures import Range
from mashwright.rule import Evidence, Example, Finding, Level, Limit, Settings, Unknown, above, gap, say


class Limits(Settings):
    note_times = Limit(1.5, "times", low=1, high=10, source="judgement")
    warning_times = Limit(2, "times", low=1, high=20, source="judgement")
    caramel_percent = Limit(25, "% of grist", low=5, high=100, source="common-practice")
    roast_percent = Limit(15, "% of grist", low=3, high=100, source="common-practice")


SOUND = """\
recipe: Coalhouse Porter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale malt, weight: 4 kg}
  - {grain: caramel malt 80, weight: 400 g}
  - {grain: chocolate malt, weight: 250 g}
  - {grain: black malt, weight: 100 g}
"""

FAULTY = Example(
    """\
recipe: Coalhouse Porter
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale malt, weight: 4 kg}
  - {grain: caramel malt 80, weight: 400 g}
  - {grain: black malt, weight: 1 kg}
""",
    "warning",
    7,
    6,
    "19 % of the grist is black malt; more than 5 % is unusual",
)


SAYS = {
    "much": "{share} % of the grist is {name}; more than {most} % is unusual",
    "much-together": "{share} % of the grist is {kind} in all; more than {most} % is unusual",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    grain = [part for part in brew.grist() if part.group == Group.GRAIN and not part.hulls]
    total = sum(part.amount for part in grain) + _grain_of_extracts(brew)
    if total <= 0 or _converts_nothing(brew):
        return
    spoken: set[str] = set()
    for alike in _by_ingredient(grain):
        first = max(alike, key=lambda part: part.amount)
        if first.max_share is None:
            continue
        share = Range.exact(100 * sum(part.amount for part in alike) / total)
        level = _level(share, first.max_share, first.kind, limits)
        if not level:
            continue
        spoken.add(first.kind)
        yield Finding(
            first.path,
            level,
            say("much", share=told(share.typical, first.max_share), name=first.name, most=number(first.max_share)),
            gap=gap(share, first.max_share),
            evidence=(Evidence(first.name, share.typical, "% of grist", first.path),),
            knobs=(_less(first, alike, first.max_share, total),) if level > Level.NOTE else (),
        )
    for kind, most in (
        (IngredientKind.CARAMEL_MALT, limits.caramel_percent),
        (IngredientKind.ROASTED_MALT, limits.roast_percent),
    ):
        alike = [part for part in grain if part.kind == kind]
        if kind in spoken or len(alike) < 2:
            continue
        share = Range.exact(100 * sum(part.amount for part in alike) / total)
        level = _level(share, most, kind, limits)
        if level:
            yield _together(alike, kind, share, most, level, total)


def _together(alike: list[Part], kind: str, share: Range, most: float, level: Level, total: float) -> Finding:
    word = "caramel malt" if kind == IngredientKind.CARAMEL_MALT else "roasted malt and grain"
    return Finding(
        ("grist",),
        level,
        say("much-together", share=told(share.typical, most), kind=word, most=number(most)),
        gap=gap(share, most),
        evidence=tuple(Evidence(part.name, 100 * part.amount / total, "% of grist", part.path) for part in alike),
        knobs=(_less(max(alike, key=lambda part: part.amount), alike, most, total),) if level > Level.NOTE else (),
    )


def _less(largest: Part, alike: list[Part], most_percent: float, total: float) -> Knob:
    """As much less of the largest line as brings the share to the usual one."""
    others = sum(part.amount for part in alike if part is not largest)
    rest = total - others - largest.amount
    usual = most_percent / (100 - most_percent) * rest if most_percent < 100 else total
    return less_of(largest, first_kg=max(0.0, usual - others))


def _level(share: Range, most: float, kind: str, limits: Limits) -> Level | None:
    if kind in (IngredientKind.CARAMEL_MALT, IngredientKind.ROASTED_MALT) and above(share, limits.warning_times * most):
        return Level.WARNING
    return Level.NOTE if above(share, limits.note_times * most) else None


def _by_ingredient(grain: list[Part]) -> list[list[Part]]:
    """Lines of one ingredient together; what other questions are asked about is left out.

    Acidulated malt has its own question; unmalted grain is weighed by the adjunct share, grain without husk by its
    run-off.
    """
    groups: dict[str, list[Part]] = {}
    for part in grain:
        coloured = part.kind in (IngredientKind.KILNED_MALT, IngredientKind.CARAMEL_MALT, IngredientKind.ROASTED_MALT)
        if coloured or (part.kind in (IngredientKind.BASE_MALT, IngredientKind.MALTED_ADJUNCT) and part.husk):
            groups.setdefault(part.table_name, []).append(part)
    return list(groups.values())


def _grain_of_extracts(brew: Brew) -> float:
    """Grain that malt extract stands for: malt gives about 60 % of its weight as extract; common practice."""
    extracts = [part for part in brew.grist() if part.kind in MALT_EXTRACTS]
    return sum(part.amount * (part.extract_share().typical / 0.6) for part in extracts)


def _converts_nothing(brew: Brew) -> bool:
    """A mash without any enzyme has a worse trouble than its shares."""
    try:
        return all(brew.power_of(part).typical <= 0 for part in brew.mashed())
    except Unknown:
        return not any(part.kind in MALT_EXTRACTS for part in brew.grist())
