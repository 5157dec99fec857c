"""The lines that name a lot, and whether the lot is of what the line names."""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.brew import Brew, described_by
from mashwright.ingredients.fermentables import Fermentable
from mashwright.ingredients.kinds import IngredientKind
from mashwright.ingredients.lookup import fermentable as known_fermentable
from mashwright.ingredients.lookup import hop as known_hop
from mashwright.recipe.brewhouse import Lot
from mashwright.rule import Level, Path, say
from mashwright.words.vocabulary import mentions
from mashwright_rules.grist.lot._limits import Fault, Limits


class Line(NamedTuple):
    """A line that names a lot."""

    path: Path
    key: str
    name: str
    lot: str
    described: bool
    hop: bool


def lines_with_lots(brew: Brew) -> Iterator[Line]:
    """Of the grist, then of the hops."""
    for one in brew.recipe.grist:
        if one.lot:
            described = bool(one.kind) or described_by(one, brew.brewhouse) is not None
            yield Line(one.path, one.group, one.name, one.lot, described, hop=False)
    for hop in brew.recipe.hops:
        if hop.lot:
            yield Line(hop.path, "hop", hop.name, hop.lot, described=False, hop=True)


def of_another(line: Line, lot: Lot, limits: Limits) -> Fault | None:
    """What to say where the lot is of something else than the line names."""
    if not lot.of or lot.of.casefold() == line.name.casefold():
        return None
    if of_the_other_sort(line, lot):
        return Level.WARNING, say("of-another", of=lot.of, name=line.name)
    if line.described:
        return None
    text = say("of-another", of=lot.of, name=line.name)
    if line.hop:
        theirs, ours = known_hop(lot.of), known_hop(line.name)
        same = theirs and ours and theirs.name == ours.name
        unsure = not (theirs or known_fermentable(lot.of))
        return None if same or unsure else (Level.WARNING, text)
    mine, its = known_fermentable(line.name), known_fermentable(lot.of)
    if not mine or not (its or known_hop(lot.of)):
        return None  # a name of the house's own, that the lot explains
    if its and its.name == mine.name:
        return None
    return Level.NOTE if its and _takes_its_place(mine, its, limits) else Level.WARNING, text


def of_the_other_sort(line: Line, lot: Lot) -> bool:
    """Whether a lot is of hops and the line of grain, or the other way round; nothing can make one of the other."""
    as_hop, as_grain = bool(known_hop(lot.of)), bool(known_fermentable(lot.of))
    return (as_hop and not as_grain) if not line.hop else (as_grain and not as_hop)


def _takes_its_place(mine: Fermentable, its: Fermentable, limits: Limits) -> bool:
    """Whether two base malts are so alike that the beer is hardly another: about as pale, and neither smoked."""
    if not mine.kind == its.kind == IngredientKind.BASE_MALT or mine.cereal != its.cereal:
        return False
    smoked = [mentions("smoked", "ingredient", one.name) for one in (mine, its)]
    if smoked[0] is not smoked[1] or mine.colour_lovibond is None or its.colour_lovibond is None:
        return False
    paler, darker = sorted((mine.colour_lovibond, its.colour_lovibond), key=lambda colour: colour.typical)
    return darker.low <= paler.high * limits.past_range_times
