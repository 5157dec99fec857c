"""The lines of a grist as parts: where each goes, and what it weighs where the recipe gives shares."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from mashwright.brew.parts import MASHED_PLACES, NO_ENZYMES, Part, group_of, resolve, table_entry
from mashwright.brewing.gravity import extract_kg
from mashwright.ingredients.fermentables import Fermentable
from mashwright.ingredients.kinds import Group, IngredientKind, NeedsMash, Place
from mashwright.measures.bounds import Bounds
from mashwright.measures.quantity import Kind, Quantity, said
from mashwright.measures.range import Range
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.recipe.model import GristLine, Recipe
from mashwright.recipe.stated import Open, Unknown

# Up to this share of the grist an unknown grain cannot change much: it is taken for a kilned malt; judgement.
GUESSED_SHARE = 0.10
GUESSED_KIND = IngredientKind.KILNED_MALT


class Wort(NamedTuple):
    """What weights are reckoned from where a recipe gives shares: litres, and the efficiency of what is mashed, 0-1."""

    litres: float
    efficiency: float


def parts_of(
    recipe: Recipe, house: Brewhouse, wort: Callable[[], Wort], bounds: Bounds, guess: str
) -> tuple[Part, ...]:
    """All that goes in, in the recipe's order.

    Args:
        recipe: with its grist.
        house: its brewhouse, for lots and ingredients of its own.
        wort: asked only where shares are to be turned into weights.
        bounds: past which a weight cannot be meant.
        guess: the kind that a grain of which nothing is known is taken for.

    Raises:
        Unknown: the recipe has no grist, or a line has no weight that can be read or meant.
    """
    lines = recipe.grist
    if not lines:
        raise Unknown("the grist", recipe.grist.path)
    places = _places(recipe, house)
    weights = _weights(recipe, house, places, wort, bounds, guess)
    little = GUESSED_SHARE * sum(weight.range.typical for weight in weights)
    parts = tuple(
        resolve(line, weight, place, recipe, house, bounds, GUESSED_KIND if weight.range.typical <= little else guess)
        for line, weight, place in zip(lines, weights, places, strict=True)
    )
    return _small_mash(parts)


def _places(recipe: Recipe, house: Brewhouse) -> list[str]:
    """Where each line goes; unsaid, by its kind."""
    lines = recipe.grist
    entries = [table_entry(line, house) for line in lines]
    groups = [group_of(line, entry) for line, entry in zip(lines, entries, strict=True)]
    # beside malt extract, grain that no mash is written for is steeped, unless there is base malt in it
    enzymes = any(
        _may_convert(entry)
        for line, entry, group in zip(lines, entries, groups, strict=True)
        if group == Group.GRAIN and not line.add
    )
    extract_beer = Group.EXTRACT in groups and (not enzymes or any(line.add == Place.STEEP for line in lines))
    steep = not recipe.mash.known and (recipe.steep.known or extract_beer)
    usual: dict[str, str] = {Group.GRAIN: Place.STEEP if steep else Place.MASH, Group.FRUIT: Place.FERMENTER}
    # potatoes and bread are starch, which goes where the grain goes
    starchy = [entry is not None and entry.needs_mash == NeedsMash.YES for entry in entries]
    goes = [
        Group.GRAIN if starch and group == Group.FRUIT else group for group, starch in zip(groups, starchy, strict=True)
    ]
    return [line.add or usual.get(group, Place.KETTLE) for line, group in zip(lines, goes, strict=True)]


def _may_convert(entry: Fermentable | None) -> bool:
    """Whether a grain may have enzymes; what no table knows may."""
    power = entry.power_lintner if entry is not None else None
    return entry is None or (power is not None and power.high > 0 and entry.kind not in NO_ENZYMES)


def _small_mash(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Base malt that is steeped with starchy grain is a small mash, and judged as one; beside crystal it is steeped."""
    steeped = [part for part in parts if part.place == Place.STEEP]
    enzymes = any(part.power_lintner is not None and part.power_lintner.typical > 0 for part in steeped)
    starchy = any(
        part.needs_mash == NeedsMash.YES and part.power_lintner is not None and part.power_lintner.high <= 0
        for part in steeped
    )
    if not (enzymes and starchy) or any(part.place == Place.MASH for part in parts):
        return parts
    return tuple(replace(part, place=Place.MASH) if part.place == Place.STEEP else part for part in parts)


def _weights(
    recipe: Recipe, house: Brewhouse, places: list[str], wort: Callable[[], Wort], bounds: Bounds, guess: str
) -> Sequence[Quantity]:
    """The weight of each line; without a target OG shares stay shares."""
    lines, targets = recipe.grist, recipe.targets
    only_shares = all(not line.weight.known for line in lines) and any(line.share.known for line in lines)
    if only_shares:
        shares = [line.share for line in lines if line.share.known]
        og_said = targets.og.mentioned
        return (
            shares
            if not og_said and len(shares) == len(lines)
            else _weights_of_shares(recipe, house, places, wort, bounds, guess)
        )
    weights = []
    for line in lines:
        weight = line.weight.need(f"the weight of {line.name or 'a line of the grist'}")
        if weight.range.low <= 0:
            raise Open(f"a weight of more than nothing of {line.name}", weight.path)
        _refuse_slip(recipe, line, weight, bounds)
        weights.append(weight)
    return weights


def _refuse_slip(recipe: Recipe, line: GristLine, weight: Quantity, bounds: Bounds) -> None:
    """A weight that cannot be meant is no basis for a sum: one slip of a unit would put every figure out."""
    volume = recipe.batch.said
    if volume is not None and weight.range.typical * 1000 > bounds.heaviest_g_per_l * volume.range.typical:
        raise Open(f"a plausible weight of {line.name}", line.weight.path)


def _weights_of_shares(
    recipe: Recipe, house: Brewhouse, places: list[str], wort: Callable[[], Wort], bounds: Bounds, guess: str
) -> list[Quantity]:
    """Weights that give the stated OG in these shares."""
    lines, og = recipe.grist, recipe.targets.og
    if not og.known:
        raise Unknown("the target OG, without which shares cannot be turned into weights", recipe.targets.path)
    if any(not line.share.known for line in lines):
        line = next(line for line in lines if not line.share.known)
        raise Unknown(f"the share of {line.name or 'a line of the grist'}", line.share.path)
    shares = [line.share.range.typical / 100 for line in lines if line.share.known]
    token = Quantity(Kind.MASS, Range.exact(1.0), "kg", "1 kg")
    litres, efficiency = wort()
    yields = []
    for line, place in zip(lines, places, strict=True):
        extract = resolve(line, token, place, recipe, house, bounds, guess).extract_share().typical
        yields.append(extract * (efficiency if place in MASHED_PLACES else 1.0))
    needed = extract_kg(litres, og.range.typical)
    given = sum(share * share_yield for share, share_yield in zip(shares, yields, strict=True))
    if given <= 0 or min(shares) <= 0:
        raise Open("extract in every share of the grist", recipe.grist.path)
    if needed <= 0:
        raise Open("a target OG above that of water", recipe.targets.og.path)
    total = needed / given
    unit = _weight_unit(recipe)
    return [
        Quantity(Kind.MASS, Range.exact(share * total), unit, said(share * total, unit, Kind.MASS)) for share in shares
    ]


def _weight_unit(recipe: Recipe) -> str:
    return "kg" if recipe.batch.unit in ("l", "ml", "hl") else "lb"
