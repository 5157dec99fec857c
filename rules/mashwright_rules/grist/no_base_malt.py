"""Is there nothing in the mash that can convert starch?

Caramel (crystal) malt was mashed in its husk and then dried hot, roasted malt
hotter still: neither has enzymes left. Flaked and raw grain never had any. In a
mash without base malt, caramel and roasted malt give part of their extract, as
in a steep. Starch stays starch: it makes haze and feeds no yeast.

What is checked: the diastatic power of everything in the mash, malt extract
with enzymes included. Malt that is boiled in the cereal mash has none left.

- error: nothing in the mash has enzymes
- warning: so too, but the best lots could average 20 °Lintner
- warning: starchy grain is mashed in a recipe with malt extract
- note: a drink of bread, such as kvass, without malt extract; the bread is
  steeped for its taste, and sugar ferments
- skipped: enzymes are added to the mash
- skipped: only caramel and roasted malt beside malt extract; they are steeped

On the day: do not wait for this mash; a drop of iodine would stay black for
hours.

Sources: [palmer-steeping] measured yields, [diastatic-power-article] malts
without enzymes, [common-practice] 10-15 %
"""

from collections.abc import Iterator

from mashwright.brew import MALT_EXTRACTS, UNMALTED, Brew, Part, grain_unit, mash_enzymes, number
from mashwright.brewing.extract import steeped_share
from mashwright.ingredients.kinds import IngredientKind, NeedsMash
from mashwright.knobs import NOTHING, Knob, added_grain, one_change
from mashwright.measures import Kind, Range, said
from mashwright.measures.bounds import HOPELESS_LINTNER
from mashwright.rule import Edit, Example, Finding, Level, Limit, Say, Settings, below, rows_of, say


class Limits(Settings):
    hopeless_lintner = Limit.at(HOPELESS_LINTNER)


SOUND = """\
recipe: Lamplighter's Red
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: pale malt, weight: 4 kg}
  - {grain: caramel malt 60, weight: 400 g}
mash:
  rests:
    - {at: 67 °C, for: 60 min}
"""

FAULTY = Example(
    """\
recipe: Lamplighter's Red
by: Saltmarsh Lane Mash Circle
batch: 20 l
grist:
  - {grain: caramel malt 60, weight: 5 kg}
mash:
  rests:
    - {at: 67 °C, for: 60 min}
""",
    "error",
    5,
    6,
    "nothing in this mash can convert starch: caramel malt 60 has no enzymes and gives only about 50 % of its extract,"
    " as in a steep",
)


SAYS = {
    "boiled-away": "nothing in this mash can convert starch: the enzymes of {malt} are lost, as all of it is boiled"
    " in the"
    " cereal mash",
    "only-steeped": "nothing in this mash can convert starch: {malt} has no enzymes and gives only about {share} %"
    " of its extract, as in a steep",
    "all-without": "nothing in this mash can convert starch: all of it is {grain}, with no enzymes to convert its"
    " starch",
    "mostly-without": "nothing in this mash can convert starch: {share} % of it is {grain}, with no enzymes to"
    " convert its starch",
}


def check(brew: Brew, limits: Limits) -> Iterator[Finding]:
    parts = brew.converting()
    powers = [brew.power_of(part) for part in parts]
    if any(power.typical > 0 for power in powers) or mash_enzymes(brew.recipe, brew.brewhouse):
        return
    steeping = all(part.needs_mash == NeedsMash.STEEP for part in parts)
    extract_beer = any(part.kind in MALT_EXTRACTS for part in brew.grist())
    if steeping and extract_beer:
        return
    best = Range.weighted_mean([(power, part.amount) for power, part in zip(powers, parts, strict=True)])
    level = below(best, limits.hopeless_lintner) or Level.WARNING
    if extract_beer:
        level = min(level, Level.WARNING)
    elif brew.intent.of_bread:
        level = Level.NOTE
    yield Finding(
        parts[0].path if len(parts) == 1 else brew.recipe.grist.path,
        level,
        _message(parts),
        gap=1.0,
        evidence=rows_of(parts, lambda part: brew.power_of(part).typical, "°Lintner"),
        knobs=(_beside(brew, parts, 1.25), _beside(brew, parts, 3)) if extract_beer else (_instead(brew, parts),),
    )


"""Drinks in which bread is steeped for its taste, and the yeast lives of sugar."""


def _message(parts: tuple[Part, ...]) -> Say:
    largest = max(parts, key=lambda part: part.amount)
    boiled = next((part for part in parts if part.line.cereal_mash and part.power().typical > 0), None)
    if boiled is not None:
        return say("boiled-away", malt=boiled.name)
    if largest.needs_mash == NeedsMash.STEEP:
        kind = "caramel" if largest.kind == IngredientKind.CARAMEL_MALT else "roasted"
        colour = largest.colour_lovibond
        share = steeped_share(kind, colour.typical if colour is not None else None)
        return say("only-steeped", malt=largest.name, share=number(100 * share.typical, 2))
    share_percent = number(100 * largest.weight_kg / sum(part.amount for part in parts), 2)
    return say("all-without" if len(parts) == 1 else "mostly-without", grain=largest.name, share=share_percent)


def _beside(brew: Brew, parts: tuple[Part, ...], least: float) -> Knob:
    """Base malt beside what is in the small mash, from so many times its weight."""
    if not parts[0].line.weight.known:
        return NOTHING
    total = sum(part.amount for part in parts)
    return added_grain("two-row pale malt", grain_unit(brew), least * total, 4 * total)


def _instead(brew: Brew, parts: tuple[Part, ...]) -> Knob:
    """Base malt in place of most of it: the same weight in all, and shares that are brewed.

    30 % unmalted grain [allaboutbeer-grain]; caramel malt 15 %, below the 20 of [oxford-crystal]; roasted malt 5 %
    [oxford-black]; 40 % of it in all, judgement.
    """
    total = sum(part.amount for part in parts)
    kept = 0.4
    by_kind: dict[str, float] = {}
    for part in parts:
        by_kind[part.kind] = by_kind.get(part.kind, 0.0) + part.amount
    for kind, amount in by_kind.items():
        usual = 0.3 if kind in UNMALTED else 0.05 if kind == IngredientKind.ROASTED_MALT else 0.15
        kept = min(kept, usual * total / amount)
    if any(not part.line.weight.known for part in parts):
        return NOTHING
    unit = grain_unit(brew)
    malt = said((1 - kept) * total, unit, Kind.MASS)
    weights = [said(kept * part.amount, part.weight.unit, Kind.MASS) for part in parts]
    edits = [Edit(part.line.weight.path, weight) for part, weight in zip(parts, weights, strict=True)]
    edits.append(Edit((*brew.recipe.grist.path, "-"), f"{{grain: two-row pale malt, weight: {malt}}}"))
    changed = [
        f"use {weight} of {part.name} instead of {part.weight.text}"
        for part, weight in zip(parts, weights, strict=True)
    ]
    return one_change(tuple(edits), f"add {malt} of two-row pale malt, and {', '.join(changed)}")
