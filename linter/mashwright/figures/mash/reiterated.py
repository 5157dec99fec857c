"""A reiterated mash: the wort of each mash is the water of the next. It grows stronger, and each bed keeps some."""

from typing import NamedTuple

from mashwright.brew.board import number, share
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import litres_in
from mashwright.brew.parts import weighed
from mashwright.brew.pours import absorption, dead_space, in_the_tun, mash_pours, sparge_pour, total, weight_kg
from mashwright.brewing.gravity import gravity_of, plato, specific_gravity
from mashwright.brewing.runnings import RunOff, run_offs
from mashwright.figures.figure import Figure
from mashwright.ingredients.kinds import SpargeBy
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown

USUALLY_WASHED = 0.85
"""Of the extract that a mash dissolved, what a usual sparge brings to the kettle, so that a usual efficiency contains
this much; judgement."""


class Reiterated(NamedTuple):
    """What comes of such a mash, with the grain keeping much, as usual, and little.

    Attributes:
        offs: in these three cases, the last wort and then what is rinsed out of the last bed.
        extract_kg: of all the grain, by the laboratory.
    """

    offs: tuple[tuple[RunOff, ...], ...]
    extract_kg: float

    @property
    def share(self) -> Range:
        """Extract that runs off, of all that the mashes dissolved, 0-1."""
        much, usual, little = (sum(off.share for off in case) for case in self.offs)
        return Range(min(much, usual), usual, max(little, usual))


@once
def reiterated(brew: Brew) -> Reiterated:
    """The balance of a reiterated mash.

    Raises:
        Unknown: nothing is mashed, or a weight or a water cannot be read; or no wort runs off.
    """
    mashed = weighed(brew.mashed())
    extract_kg = sum(part.weight_kg * part.extract_share().typical for part in mashed)
    moisture_kg = sum(part.weight_kg * part.moisture.typical / 100 for part in mashed)
    grain_kg, water = weight_kg(in_the_tun(brew)), total(mash_pours(brew)).typical
    kept, dead, sparge = absorption(brew)[0], dead_space(brew)[0], sparge_pour(brew)
    later = () if sparge is None else ((sparge.litres.typical, brew.recipe.sparge.by == SpargeBy.FLY),)
    mashes = brew.recipe.mash.number
    losses = [a * grain_kg + b for a, b in ((kept.high, dead.high), (kept.typical, dead.typical), (kept.low, dead.low))]
    found = Reiterated(
        tuple(run_offs(water, loss, extract_kg, later, moisture_kg, mashes) for loss in losses), extract_kg
    )
    if found.offs[1][0].litres <= 0:
        raise Unknown("wort that is left after all mashes", brew.recipe.mash.path)
    return found


def kept_by_the_beds(brew: Brew) -> Range | None:
    """What an efficiency that is not the recipe's own is cut to, 0-1; None where that does not apply.

    Each bed keeps wort, and it grows stronger from one to the next.

    Source: mass balance; that a usual efficiency contains a usual sparge, judgement.
    """
    if not brew.recipe.mash.reiterated or brew.of_mash is not None or brew.efficiency.stated:
        return None
    try:
        washed = reiterated(brew).share
    except Unknown:
        return None
    return washed.map(lambda one: min(1.0, one / USUALLY_WASHED))


def efficiency_of_beds(brew: Brew) -> Range | None:
    """The efficiency of such a mash, 0-1: what a strong wort leaves behind is counted by its beds, and not twice."""
    cut = kept_by_the_beds(brew)
    return None if cut is None else brew.unstated_efficiency(0.0).times(cut)


def told_of_beds(brew: Brew) -> tuple[str, ...]:
    """What is assumed of that."""
    cut = kept_by_the_beds(brew)
    if cut is None or cut.typical >= 1:
        return ()
    return (f"{share(cut.typical)} of the efficiency, since {brew.recipe.mash.number} grain beds keep wort",)


def reiterated_limit(brew: Brew) -> Figure:
    """The strongest wort of a reiterated mash: the last, if each mash dissolves all of its extract."""
    made = reiterated(brew)
    ends = [gravity_of(made.extract_kg * case[0].share, case[0].litres) for case in made.offs if case[0].litres > 0]
    usual = gravity_of(made.extract_kg * made.offs[1][0].share, made.offs[1][0].litres)
    value = Range(min(*ends, usual), usual, max(*ends, usual)).map(plato)

    def working() -> str:
        last = made.offs[1][0]
        return (
            f"{brew.recipe.mash.number} mashes, the wort of each the water of the next: {litres_in(brew, last.litres)}"
            f" run off in the end with {share(last.share)} of the extract = {number(value.typical, 3)} °P"
        )

    parts = (("as SG", value.map(specific_gravity)),)
    return Figure(value, working, paths=(brew.recipe.mash.path,), parts=parts)
