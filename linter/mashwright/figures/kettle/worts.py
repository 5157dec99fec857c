"""Where one mash gives several worts: each wort as a brew of its own, with its part of the extract."""

from collections.abc import Iterator

from mashwright.brew.board import lines, number, share
from mashwright.brew.brew import Brew, Efficiency, OfMash
from mashwright.brew.once import once
from mashwright.brew.own_units import litres_in, weight_in
from mashwright.brew.pours import absorption, dead_space
from mashwright.brew.worts import number_of_worts, own_brew
from mashwright.brewing.gravity import gravity_of
from mashwright.budgets import WORTS
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.kettle.runnings import Piece, Runnings, Taken, extract_in, runnings, taken
from mashwright.figures.mash.reiterated import USUALLY_WASHED
from mashwright.finding import Path
from mashwright.measures.range import Range
from mashwright.recipe.model import ORDER
from mashwright.recipe.stated import Unknown

_LITTLE = 0.005  # of the extract: what is not told; judgement
_NONE = Range.exact(0.0)


@once
def worts_of(brew: Brew) -> tuple[Brew, ...]:
    """Each wort of a whole recipe as a brew of its own, with what it has of the mash."""
    if not brew.recipe.worts:
        return ()
    numbers = range(number_of_worts(brew))
    try:
        efficiency: Efficiency | Unknown = brew.efficiency
    except Unknown as unknown:
        efficiency = unknown.again()
    try:
        whole = washed(brew)
    except Unknown as unknown:
        why = unknown.again()
        return tuple(own_brew(brew, OfMash(brew.recipe, one, why, None, why, efficiency)) for one in numbers)
    return tuple(_of_mash(brew, one, whole, efficiency) for one in numbers)


def _of_mash(brew: Brew, which: int, whole: tuple[float, ...], efficiency: Efficiency | Unknown) -> Brew:
    run, pieces = runnings(brew), taken(brew).parts[which]
    shares = [extract_in(case, pieces) / all_ for case, all_ in zip(run.offs, whole, strict=True)]
    litres = sum((run.litres(one.number) * one.size for one in pieces), _NONE)
    of_mash = OfMash(
        brew.recipe,
        which,
        Range(min(shares), shares[1], max(shares)) if shares[1] > 0 else _no_wort(brew),
        litres if run.stated else None,
        _strongest(brew, run, pieces),
        efficiency,
        run.assumed,
    )
    return own_brew(brew, of_mash)


def washed(brew: Brew) -> tuple[float, ...]:
    """What an efficiency is of, as a share of what the mash dissolved, with the grain keeping little, usual or much.

    A stated one is of what these worts hold together. Any other is that of a usual sparge, and where less is sparged
    less arrives.

    Raises:
        Unknown: as ``taken``; or no wort takes anything.
    """
    least = 0.0 if brew.efficiency.stated else USUALLY_WASHED
    together = [sum(extract_in(case, pieces) for pieces in taken(brew).parts) for case in runnings(brew).offs]
    if min(together) <= 0:
        raise _no_wort(brew)
    return tuple(max(least, one) for one in together)


def _no_wort(brew: Brew) -> Unknown:
    return Unknown("wort that runs off", brew.recipe.worts.path)


def _strongest(brew: Brew, run: Runnings, pieces: tuple[Piece, ...]) -> Range | Unknown:
    """The wort as it runs off, SG, if the mash dissolves all of its extract."""
    ends = []
    for case in run.offs:
        litres = sum(one.size * case[one.number].litres for one in pieces)
        if litres <= 0:
            return _no_wort(brew)
        ends.append(gravity_of(run.extract_kg * extract_in(case, pieces), litres))
    return Range(min(ends), ends[1], max(ends))


def wort_at(brew: Brew, path: Path) -> Brew:
    """The brew that a place belongs to: a wort's own, or the whole one."""
    if path[:1] == ("worts",) and len(path) > 1:
        return next((one for one in worts_of(brew) if one.of_mash and one.of_mash.number == path[1]), brew)
    return brew


@figure("runnings-extract", unit="% of extract", sources=("brix-tables", "grain-absorption-page", "judgement"))
def runnings_extract(brew: Brew) -> Figure:
    """Extract in all worts of this mash."""
    run, takes = runnings(brew), taken(brew)
    ends = [100 * sum(extract_in(case, pieces) for pieces in takes.parts) for case in run.offs]
    shares = [[100 * case[one].share for case in run.offs] for one in range(len(run.usual))]
    parts = tuple(
        (f"in the {name} runnings", Range(min(three), three[1], max(three)))
        for name, three in zip(ORDER, shares, strict=False)
    )
    return Figure(
        Range(min(ends), ends[1], max(ends)),
        lambda: lines(_account(brew, run, takes)),
        paths=(*(wort.path for wort in brew.recipe.worts[:WORTS]),),
        assumed=(*run.assumed, *(one for one in (absorption(brew)[1], dead_space(brew)[1]) if one)),
        parts=parts,
    )


def _account(brew: Brew, run: Runnings, takes: Taken) -> Iterator[str]:
    """What runs off and who takes it, a line each."""
    first = run.usual[0]
    yield (
        f"{weight_in(brew, run.extract_kg)} of extract in {litres_in(brew, first.litres + first.held_l)} of wort in the"
        f" mash; {litres_in(brew, first.litres)} run off with {share(first.share)} of it"
    )
    for name, off in zip(ORDER[1:], run.usual[1:], strict=False):
        how = "poured on while it runs off" if off.steps > 1 else f"mixed with the {litres_in(brew, off.held_l)} kept"
        yield f"{name}: {litres_in(brew, off.litres)} of water {how}; as much runs off with {share(off.share)}"
    together = 0.0
    for wort, pieces in zip(brew.recipe.worts, takes.parts, strict=False):
        held = extract_in(run.usual, pieces)
        together += held
        litres = sum(one.size * run.usual[one.number].litres for one in pieces)
        yield f"  {wort.name}: {litres_in(brew, litres)} with {share(held)}"
    unused = sum(off.share for off in run.usual) - together
    rest = f", {share(unused)} runs off into no wort" if unused > _LITTLE else ""
    yield f"  together {share(together)}{rest}; {share(1 - sum(off.share for off in run.usual))} stays in the grain"


@figure("wort-share", unit="%", sources=("brix-tables", "grain-absorption-page", "judgement"))
def wort_share(brew: Brew) -> Figure:
    """Part of the mash's extract in this wort."""
    of_mash = brew.of_mash
    if of_mash is None:
        raise Unknown("several worts", ("worts",))
    if isinstance(of_mash.share, Unknown):
        raise of_mash.share.again()
    value = of_mash.share * 100
    litres = of_mash.litres
    run_off = f"{litres_in(brew, litres.typical)} of the run-off" if litres is not None else "its part of the run-off"
    return Figure(
        value,
        lambda: f"{run_off} holds {number(value.typical, 3)} % of what arrives of the mashed extract",
        paths=((*of_mash.path, "runnings"),),
        assumed=of_mash.assumed,
    )
