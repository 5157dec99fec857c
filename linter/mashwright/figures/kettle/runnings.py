"""What runs off a mash that gives several worts, water after water, and which wort takes what of it."""

from typing import NamedTuple

from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import litres_in
from mashwright.brew.parts import weighed
from mashwright.brew.pours import (
    absorption,
    dead_space,
    in_the_tun,
    mash_pours,
    sparge_pour,
    strike_water,
    top_up,
    total,
    unstated_water,
    weight_kg,
)
from mashwright.brew.worts import bare_worts
from mashwright.brewing.runnings import RunOff, run_offs
from mashwright.budgets import WORTS
from mashwright.figures.kettle.boil_volumes import kettle
from mashwright.figures.mash import converted_share, deliveries
from mashwright.ingredients.kinds import SpargeBy
from mashwright.measures.quantity import Kind
from mashwright.measures.range import Range
from mashwright.recipe.model import ORDER, Take


class Runnings(NamedTuple):
    """What runs off a mash, in the usual case and with the grain keeping little or much.

    Attributes:
        offs: in these three cases (little, usual, much kept), one for each water.
        extract_kg: that the mash dissolved, kg.
        stated: whether the recipe states all of the waters.
        assumed: of them, where it does not.
    """

    offs: tuple[tuple[RunOff, ...], ...]
    extract_kg: float
    stated: bool
    assumed: tuple[str, ...]

    @property
    def usual(self) -> tuple[RunOff, ...]:
        """In the usual case."""
        return self.offs[1]

    def litres(self, number: int) -> Range:
        """Wort of one of them, l."""
        ends = [case[number].litres for case in self.offs]
        return Range(min(ends), ends[1], max(ends))


@once
def runnings(brew: Brew) -> Runnings:
    """What runs off the mash of a whole recipe, water after water.

    Raises:
        Unknown: nothing is mashed, or a weight or a water cannot be read.
    """
    grain_kg, water = weight_kg(in_the_tun(brew)), total(mash_pours(brew)).typical
    mashed = [one for one in deliveries(brew) if one.part.mashed]
    extract_kg = sum(one.laboratory_kg.typical for one in mashed) * converted_share(brew).typical
    moisture_kg = sum(part.weight_kg * part.moisture.typical / 100 for part in weighed(brew.mashed()))
    kept, dead = absorption(brew)[0], dead_space(brew)[0]
    strike = strike_water(brew)
    assumed = [] if strike.stated else [unstated_water(brew, water / grain_kg)]
    losses = [one * grain_kg + two for one, two in zip(_ends(kept), _ends(dead), strict=True)]
    later, stated = _later_waters(brew, max(0.0, water - losses[1]))
    if not stated:
        litres = litres_in(brew, sum(one for one, _ in later))
        assumed.append(f"{litres} of sparge water, as the worts need, since none is stated")
    mash = brew.recipe.mash
    mashes = mash.number if mash.reiterated else 1
    offs = tuple(run_offs(water, loss, extract_kg, later, moisture_kg, mashes) for loss in losses)
    return Runnings(offs, extract_kg, strike.stated and stated, tuple(assumed))


def _ends(value: Range) -> tuple[float, float, float]:
    return value.low, value.typical, value.high


def _later_waters(brew: Brew, first_l: float) -> tuple[tuple[tuple[float, bool], ...], bool]:
    """The waters after the mash, l and whether it is a fly sparge; and whether the recipe says them."""
    sparge = sparge_pour(brew)
    if sparge is not None and brew.recipe.sparges:
        each = [(one.water, one.by == SpargeBy.FLY) for one in brew.recipe.sparges]
        return tuple((water.range.typical, fly) for water, fly in each if water.known), True
    if sparge is not None:
        litres = sparge.litres.typical
        return (((litres, brew.recipe.sparge.by == SpargeBy.FLY),) if litres > 0 else ()), True
    wanted = 0.0
    for own in bare_worts(brew):
        wanted += max(0.0, kettle(own).pre.typical - top_up(own, "kettle").typical)
    return (((wanted - first_l, False),) if wanted > first_l else ()), False


class Piece(NamedTuple):
    """A part of one of the runnings.

    Attributes:
        number: of the runnings, from 0.
        start, end: where it begins and ends, as shares of its litres; past 1 there is none left.
        mixed: taken of all of it, mixed, and not as it runs off.
    """

    number: int
    start: float
    end: float
    mixed: bool

    @property
    def size(self) -> float:
        """As a share of the runnings."""
        return self.end - self.start

    def extract(self, off: RunOff) -> float:
        """Extract in it, of all that the mash dissolved."""
        if self.mixed or self.start >= 1:
            return self.size * off.share
        beyond = max(0.0, self.end - 1) * off.share
        return off.until(min(self.end, 1.0) * off.litres) - off.until(self.start * off.litres) + beyond


class Taken(NamedTuple):
    """What the worts take of the runnings.

    Attributes:
        parts: for each wort.
        missing: of which takings there are no such runnings.
    """

    parts: tuple[tuple[Piece, ...], ...]
    missing: tuple[Take, ...]

    def share_of(self, number: int) -> float:
        """How much of one of the runnings is taken in all, as a share of it."""
        return sum(one.size for wort in self.parts for one in wort if one.number == number)


@once
def taken(brew: Brew) -> Taken:
    """Who takes what of the runnings.

    A share or a volume of named runnings is of their mixed wort; an amount without a name is what runs off next.

    Raises:
        Unknown: as ``runnings``; or an amount cannot be read.
    """
    offs = runnings(brew).usual
    whole_l = sum(off.litres for off in offs)
    missing: list[Take] = []
    parts: list[list[Piece]] = []
    gone_l, rests = 0.0, []
    for which, wort in enumerate(brew.recipe.worts[:WORTS]):
        parts.append([])
        for take in wort.runnings:
            if take.name == "rest":
                rests.append(which)
            elif take.name:
                there = _named(take, offs)
                missing += [take] if not there else []
                size = _share(take, sum(offs[one].litres for one in there))
                parts[-1] += [Piece(one, 0.0, size, mixed=True) for one in there]
            else:
                litres = _share(take, whole_l) * whole_l
                parts[-1] += _next(offs, gone_l, gone_l + litres)
                gone_l += litres
    for number in rests:
        parts[number] += _left(offs, parts, len(rests))
    return Taken(tuple(tuple(own) for own in parts), tuple(missing))


def _named(take: Take, offs: tuple[RunOff, ...]) -> list[int]:
    """The runnings of a name, as far as there are such."""
    which = range(len(offs)) if take.name == "all" else [ORDER.index(take.name)]
    return [one for one in which if one < len(offs) and offs[one].litres > 0]


def _left(offs: tuple[RunOff, ...], parts: list[list[Piece]], among: int) -> list[Piece]:
    """What nobody has taken yet, or the part of one wort where several take the rest."""
    gone = [[one for own in parts for one in own if one.number == number] for number in range(len(offs))]
    found = []
    for number, others in enumerate(gone):
        left = 1 - sum(one.size for one in others)
        if left > 0:
            found.append(Piece(number, 1 - left, 1 - left + left / among, mixed=all(one.mixed for one in others)))
    return found


def _share(take: Take, litres: float) -> float:
    """How much of so much wort is taken, as a share of it; more than all of it can be asked for."""
    take.amount.readable("a readable amount of the runnings")
    if not take.amount.known:
        return 1.0
    value = take.amount.range.typical
    return value / 100 if take.amount.kind is Kind.SHARE else value / litres if litres > 0 else 0.0


def _next(offs: tuple[RunOff, ...], start_l: float, end_l: float) -> list[Piece]:
    """The parts of the runnings between two marks of the whole run-off; past its end it is of the last."""
    found, at_l = [], 0.0
    for number, off in enumerate(offs):
        last = number == len(offs) - 1
        low = max(0.0, start_l - at_l)
        high = end_l - at_l if last else min(off.litres, end_l - at_l)
        if off.litres > 0 and high > low:
            found.append(Piece(number, low / off.litres, high / off.litres, mixed=False))
        at_l += off.litres
    return found


def extract_in(case: tuple[RunOff, ...], pieces: tuple[Piece, ...]) -> float:
    """Extract in parts of the runnings, of all that the mash dissolved, 0-1."""
    return sum(one.extract(case[one.number]) for one in pieces)
