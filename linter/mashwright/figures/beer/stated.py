"""What the author's own gravities make: attenuation and alcohol of the targets, beside those of the model."""

from typing import NamedTuple

from mashwright.brew.board import gravity, lines, number
from mashwright.brew.brew import Brew
from mashwright.brewing.alcohol import alcohol_by_volume, final_gravity
from mashwright.brewing.alcohol import apparent_attenuation as attenuation_of
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.finding import Path
from mashwright.measures.range import Range
from mashwright.recipe.model import Targets
from mashwright.recipe.stated import Open, Unknown


class Fermented(NamedTuple):
    """From where to where a beer fermented, by somebody's own word.

    Attributes:
        start, end: specific gravities; ``end`` runs from the driest to the sweetest.
        how: of the end, where it was not stated itself; "" else.
        paths: where both stand.
    """

    start: Range
    end: Range
    how: str
    paths: tuple[Path, ...]

    @property
    def attenuation(self) -> Range:
        """Apparent attenuation, %."""
        return Range.along(attenuation_of, (self.start,), (self.end,))

    @property
    def abv(self) -> Range:
        """Alcohol, % by volume."""
        return Range.along(alcohol_by_volume, (self.start,), (self.end,))


def fermented(said: Targets) -> Fermented | None:
    """The gravities of targets or of a brew day; the final gravity by a stated attenuation where it is not stated.

    Returns:
        None where one of them is missing, or where nothing could have fermented: a slip that rules ask about.
    """
    start, end, attenuation = said.og, said.fg, said.attenuation
    if not start.known or start.range.low <= 1:
        return None
    path = said.og.path
    if end.known:
        if end.range.high > start.range.low:
            return None
        return Fermented(start.range, end.range, "", (path, said.fg.path))
    if not attenuation.known:
        return None
    sweet, usual, dry = (
        final_gravity(start.range.typical, percent)
        for percent in (attenuation.range.low, attenuation.range.typical, attenuation.range.high)
    )
    how = f" by an attenuation of {attenuation.text}"
    return Fermented(start.range, Range(dry, usual, sweet), how, (path, said.attenuation.path))


@figure("stated-attenuation", unit="%", sources=("common-practice",))
def stated_attenuation(brew: Brew) -> Figure:
    """Apparent attenuation from the stated OG and FG."""
    targets = brew.recipe.targets
    stated = targets.attenuation
    of_yeast = tuple(
        (f"the yeast {one.kind}".rstrip(), one.attenuation.range) for one in brew.recipe.yeast if one.attenuation.known
    )
    beside = of_yeast if not stated.known else (("as stated", stated.range), *of_yeast)
    found = _of_targets(brew) if targets.fg.known or not stated.known else None
    if found is None:
        if not stated.known:
            raise Unknown("a stated OG and FG", targets.fg.path)
        path = targets.attenuation.path
        return Figure(stated.range, lambda: f"{stated.text} as stated", (path,), parts=of_yeast)
    value = found.attenuation
    first, last = gravity(found.start.typical), gravity(found.end.typical)
    return Figure(
        value,
        lambda: f"({first} - {last}) ÷ ({first} - 1) × 100 = {number(value.typical, 3)} %",
        found.paths,
        parts=beside,
    )


@figure("stated-abv", unit="% vol", sources=("balling-nielsen", "cutaia-2009", "oiml-r22"))
def stated_abv(brew: Brew) -> Figure:
    """Alcohol by volume from the stated OG and FG."""
    targets = brew.recipe.targets
    found = _of_targets(brew)
    if found is None:
        raise Unknown("a stated OG and FG", (targets.fg if targets.og.known else targets.og).path)
    value, stated = found.abv, targets.abv
    parts = (("as stated", stated.range),) if stated.known else ()
    return Figure(value, lambda: lines([by_balance(found, value)]), found.paths, parts=parts)


def by_balance(found: Fermented, value: Range) -> str:
    """The sum of an ABV in a line."""
    first, last = gravity(found.start.typical), gravity(found.end.typical)
    return f"Balling's balance from {first} to {last}{found.how} = {number(value.typical, 3)} % by volume"


def _of_targets(brew: Brew) -> Fermented | None:
    """The targets' own gravities.

    Raises:
        Open: one of them cannot be read, or the final one lies above the original.
    """
    targets = brew.recipe.targets
    targets.og.readable("a readable og among the targets")
    targets.fg.readable("a readable fg among the targets")
    targets.attenuation.readable("a readable attenuation among the targets")
    if targets.og.known and targets.fg.known and targets.fg.range.high > targets.og.range.low:
        raise Open("a final gravity below the original", targets.fg.path)
    return fermented(targets)
