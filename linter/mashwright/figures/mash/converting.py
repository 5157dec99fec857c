"""Figures of the mash: what its rests release, what its enzymes convert, how long that takes."""

from collections.abc import Callable
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from mashwright.brew.board import lines, number
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import degrees
from mashwright.brew.parts import Part
from mashwright.brew.plan import PlannedRest
from mashwright.brew.pours import of_one_mash
from mashwright.brewing.mash import (
    FAVOURABLE,
    LONGEST_MIN,
    TYPICAL,
    UNFAVOURABLE,
    Conditions,
    MashResult,
    Minute,
    Rest,
    Starch,
    course,
    mash,
    minutes_on_the_board,
)
from mashwright.brewing.mash_rates import (
    ADDED_LINTNER,
    COLDEST_CONVERTING_C,
    GELATINISATION_C,
    HOTTEST_CONVERTING_C,
    LATE_CEREALS,
    conversion_rate_per_min,
    release_rate_per_min,
    thickness_shift_c,
)
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.grist import grist_converting_power, grist_diastatic_power
from mashwright.finding import Path
from mashwright.ingredients.kinds import Cereal, IngredientKind, NeedsMash, RestBy
from mashwright.measures.bounds import ENZYMES_END_C
from mashwright.measures.quantity import Kind
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown

CRUSH = {"fine": 1.0, "medium": 0.5, "coarse": 0.25}  # as in Conditions.crush; common practice
RUN_OFF_MIN = 15.0  # in which a mash without mash-out goes on; common practice
_NO_STARCH = (
    IngredientKind.CARAMEL_MALT,
    IngredientKind.ROASTED_MALT,
    IngredientKind.ACIDULATED_MALT,
    IngredientKind.HULLS,
    IngredientKind.SUGAR,
    IngredientKind.SYRUP,
)


class Mashed(Struct, frozen=True, dict=True):
    """A mash followed with the usual of what no recipe says, and, when asked for, with the worst and the best of it.

    Attributes:
        typical: as it will mostly go.
        follow_worst, follow_best: how to have the other two.
    """

    typical: MashResult
    follow_worst: Callable[[], MashResult]
    follow_best: Callable[[], MashResult]

    @cached_property
    def worst(self) -> MashResult:
        """With little enzyme, a coarse crush and a thick mash."""
        return self.follow_worst()

    @cached_property
    def best(self) -> MashResult:
        """With much enzyme, a fine crush and a thin mash."""
        return self.follow_best()

    def spread(self, low: float, typical: float, high: float) -> Range:
        """Three values in numeric order, whichever end is the better one."""
        return Range(min(low, typical, high), typical, max(low, typical, high))


def starches_of(brew: Brew) -> tuple[tuple[Part, Starch], ...]:
    """The parts of the mash that bring starch, with it.

    Raises:
        Unknown: nothing in the mash holds starch.
    """
    found = []
    for part in brew.mashed():
        if part.kind in _NO_STARCH or (part.kind == IngredientKind.FRUIT_OR_OTHER and part.needs_mash != NeedsMash.YES):
            continue
        cereal = (
            part.cereal
            if part.cereal in GELATINISATION_C
            else "potato"
            if part.cereal == Cereal.NONE
            else Cereal.BARLEY
        )
        joins = _joins(brew) if part.line.cereal_mash else 0
        amount = part.amount * part.extract_share().typical
        stony = part.stony and not part.cooked
        found.append((part, Starch(cereal, amount, cooked=part.cooked, joins=joins, stony=stony)))
    if not found:
        raise Unknown("starch in the mash: nothing there can be converted", brew.recipe.grist.path)
    return tuple(found)


@once
def follow(brew: Brew) -> Mashed:
    """The mash, rest by rest.

    Raises:
        Unknown: nothing is mashed, it holds no starch, or a rest cannot be read.
    """
    return _followed(brew, brew.rests())


def follow_to_run_off(brew: Brew) -> Mashed:
    """The mash and its run-off, in which the enzymes go on where no mash-out has ended them.

    Raises:
        Unknown: as for the mash alone.
    """
    rests = brew.rests()
    if brew.plan.mash_out:
        return follow(brew)
    last = rests[-1].to_c or rests[-1].at_c
    return _followed(brew, (*rests, PlannedRest(None, last, Range.exact(RUN_OFF_MIN))))


def _followed(brew: Brew, rests: tuple[PlannedRest, ...]) -> Mashed:
    starches = _merged([starch for _, starch in starches_of(brew)])
    power = grist_converting_power(brew)
    return Mashed(
        mash(starches, rests_at(rests, "typical"), power.typical, _crushed(brew, TYPICAL), _added(brew)),
        lambda: _extreme(brew, starches, rests, power.low, UNFAVOURABLE),
        lambda: _extreme(brew, starches, rests, power.high, FAVOURABLE),
    )


def mash_course(brew: Brew) -> tuple[Minute, ...]:
    """The mash minute by minute, with the usual of what no recipe says; its end is that of ``follow``.

    Raises:
        Unknown: as for ``follow``.
    """
    starches = _merged([starch for _, starch in starches_of(brew)])
    power = grist_converting_power(brew)
    return course(starches, rests_at(brew.rests(), "typical"), power.typical, _crushed(brew, TYPICAL), _added(brew))


def _merged(starches: list[Starch]) -> list[Starch]:
    """One starch a cereal and state, since each costs a pass through all rests."""
    amounts: dict[tuple[str, bool, int, bool], float] = {}
    for starch in starches:
        amounts[_state(starch)] = amounts.get(_state(starch), 0.0) + starch.amount
    return [Starch(cereal, amount, cooked, joins, stony) for (cereal, cooked, joins, stony), amount in amounts.items()]


def _state(starch: Starch) -> tuple[str, bool, int, bool]:
    return starch.cereal, starch.cooked, starch.joins, starch.stony


def released_of(brew: Brew, part: Part) -> Range:
    """Starch of one part of the mash that the rests release, % of its own.

    Raises:
        Unknown: the part brings no starch, or the mash cannot be followed.
    """
    starches = starches_of(brew)
    own = next((starch for one, starch in starches if one.path == part.path), None)
    if own is None:
        raise Unknown(f"starch in {part.name}", part.path)
    mashed = follow(brew)
    at = [_state(starch) for starch in _merged([starch for _, starch in starches])].index(_state(own))
    return mashed.spread(mashed.worst.by_starch[at], mashed.typical.by_starch[at], mashed.best.by_starch[at])


def _joins(brew: Brew) -> int:
    """The rest to which the mash is raised by the cooked cereal; the first where no rest says so."""
    mash = brew.recipe.mash
    rests = mash.rests if mash.known else ()
    return next((index for index, rest in enumerate(rests) if rest.by == RestBy.CEREAL_MASH), 0)


def _extreme(
    brew: Brew, starches: list[Starch], rests: tuple[PlannedRest, ...], power: float, conditions: Conditions
) -> MashResult:
    """The best or worst mash over the ends of what the rests may be."""
    crushed = _crushed(brew, conditions)
    best = conditions is FAVOURABLE
    ends = ["typical"] if all(rest.at_c.known and rest.minutes.known for rest in rests) else ["low", "typical", "high"]
    added = _added(brew)
    results = [mash(starches, rests_at(rests, end, longest=best), power, crushed, added) for end in ends]
    return max(results, key=lambda result: result.converted if best else -result.converted)


def _added(brew: Brew) -> list[tuple[float, float]]:
    """Where each enzyme that is added for starch works, °C."""
    return [(one.low_c, one.high_c) for one in brew.added("starch")]


def _with_added(brew: Brew) -> tuple[str, ...]:
    dose = f"in its maker's dose, which converts as {ADDED_LINTNER:g} °Lintner do"
    return tuple(f"{one.name} {dose}" for one in brew.added("starch"))


def rests_at(rests: tuple[PlannedRest, ...], end: str, *, longest: bool | None = None) -> list[Rest]:
    def chosen(value: Range) -> float:
        found: float = getattr(value, end)
        return found

    def minutes(value: Range) -> float:
        return value.typical if longest is None else value.high if longest else value.low

    return [
        Rest(chosen(rest.at_c), minutes(rest.minutes), chosen(rest.to_c) if rest.to_c is not None else None)
        for rest in rests
    ]


def _crushed(brew: Brew, conditions: Conditions) -> Conditions:
    crush = CRUSH.get(brew.recipe.mash.crush) if brew.recipe.mash.known else None
    conditions = conditions if crush is None else replace(conditions, crush=crush)
    litres_per_kg = _stated_thickness(brew)
    if litres_per_kg is None:
        return conditions
    shift_c = thickness_shift_c(litres_per_kg) + conditions.shift_c - TYPICAL.shift_c
    return replace(conditions, shift_c=max(FAVOURABLE.shift_c, shift_c))


def _stated_thickness(brew: Brew) -> float | None:
    """Water at dough-in to grain, l/kg; None where it is not stated or can only be a slip."""
    mash = brew.recipe.mash
    if not mash.known or mash.thickness.known:
        found = mash.thickness.range.typical if mash.thickness.known else 0.0
    elif not mash.water.known or any(part.weight.kind is not Kind.MASS for part in brew.mashed()):
        return None
    else:
        # of all of the grain, also where this is one of several worts and has but a share of it
        stated = [(part.line.weight, part.weight_kg) for part in brew.mashed()]
        grain_kg = sum(weight.range.typical if weight.known else own for weight, own in stated)
        grain, poured_in = of_one_mash(brew)
        found = mash.water.range.typical * poured_in / (grain_kg * grain)
    return found if 1 <= found <= 15 else None


_SOURCES = ("lintner-1890", "paccaud-1890", "kjeldahl-1880", "potter-coulter", "tgl-17756", "judgement")


@figure("starch-released", unit="%", sources=_SOURCES)
def starch_released(brew: Brew) -> Figure:
    """Starch released in the rests."""
    mashed = follow(brew)
    value = mashed.spread(mashed.worst.released, mashed.typical.released, mashed.best.released)

    def working() -> str:
        rows = [
            f"  {_rest_said(brew, number_, rest)}: {number(round(result.released, 1), 3)} % newly released"
            for number_, (rest, result) in enumerate(zip(brew.plan.rests, mashed.typical.rests, strict=True), 1)
        ]
        return lines(["minute by minute, each cereal at its own gelatinisation temperature:", *rows])

    return Figure(value, working, _mash_paths(brew), brew.plan.assumed)


@figure("conversion", unit="%", sources=_SOURCES)
def conversion(brew: Brew) -> Figure:
    """Starch converted in the rests."""
    mashed = follow(brew)
    value = mashed.spread(mashed.worst.converted, mashed.typical.converted, mashed.best.converted)

    def working() -> str:
        rows = []
        pairs = zip(brew.plan.rests, mashed.typical.rests, strict=True)
        for number_, (rest, result) in enumerate(pairs, 1):
            rows.append(
                f"  {_rest_said(brew, number_, rest)}: {number(round(result.converted, 1), 3)} % converted,"
                f" {_left(result.enzyme_left)} of the alpha- and {_left(result.beta_left)} of the beta-amylase left"
            )
            ends = degrees(brew, Range(COLDEST_CONVERTING_C, COLDEST_CONVERTING_C, HOTTEST_CONVERTING_C))
            if not COLDEST_CONVERTING_C <= rest.at_c.typical <= HOTTEST_CONVERTING_C:
                rows.append(f"    outside {ends}, where the sum holds: assumed 0")
        return lines([f"at {_power_said(brew)}, minute by minute:", *rows])

    assumed = (*brew.plan.assumed, *_with_added(brew))
    return Figure(value, working, _mash_paths(brew), assumed, memory=grist_diastatic_power(brew).memory)


@figure("conversion-time", unit="min", sources=_SOURCES)
def conversion_time(brew: Brew) -> Figure:
    """Time to convert (usual, best case)."""
    mashed = follow(brew)
    needed = [_minutes(result) for result in (mashed.best, mashed.typical, mashed.worst)]
    lasts = f"{number(needed[1], 3)} min" if needed[1] < LONGEST_MIN else f"more than {LONGEST_MIN:g} min, or never"

    def working() -> str:
        index = mashed.typical.converting_rest
        if index is None:
            return "no rest is at a temperature at which malt converts starch"
        rest = brew.plan.rests[index]
        power = grist_converting_power(brew).typical
        at_c = number(rest.at_c.typical, 3)
        at = degrees(brew, rest.at_c.typical)
        rows = [f"minute by minute, the rest at {at} drawn out if need be: {lasts}"]
        conditions = _crushed(brew, TYPICAL)
        board = minutes_on_the_board(rest.at_c.typical, power, conditions)
        if board is not None and power > 0:
            crush = conditions.crush
            k, f = (
                number(rate, 2)
                for rate in (
                    release_rate_per_min(rest.at_c.typical, crush),
                    conversion_rate_per_min(rest.at_c.typical, 40, 3),  # fresh enzyme of 40 °Lintner: f alone
                )
            )
            warm = number(min(rest.at_c.typical, ENZYMES_END_C.usual), 3)
            rows.append(f"a quick estimate on the board, at {_power_said(brew)},")
            rows.append("one step after the other and no enzyme lost, in °C:")
            rows.append(
                f"  k = {number(crush)} × 0.35 × 2^(({at_c} - 65) ÷ 6) = {k} a minute, f = 2^(({warm} - 67) ÷ 10) = {f}"
            )
            rows.append(
                f"  3 ÷ {k} to release + {conditions.theta:g} × 40 ÷ ({number(power, 3)} × {f}) to convert"
                f" = about {number(board, 2)} min"
            )
            if abs(board - needed[1]) > _APART_MIN:
                rows.append(
                    f"  it parts from the time above, since {_why_apart(brew, index, sooner=board > needed[1])}"
                )
        return lines(rows)

    return Figure(
        mashed.spread(*needed), working, _mash_paths(brew), brew.plan.assumed, memory=grist_diastatic_power(brew).memory
    )


_APART_MIN = 10.0  # up to which the two times of a conversion are the same to a brewer; judgement


def _why_apart(brew: Brew, index: int, *, sooner: bool) -> str:
    """What the sum on the board leaves out of a mash whose rest at an index converts, sooner or later than it says."""
    if index > 0:
        return "it counts this rest alone, not the rests before it"
    if brew.adds("starch"):
        return "it leaves out the added enzymes"
    late = next((part.name for part, starch in starches_of(brew) if not starch.cooked and _is_late(starch)), "")
    if late and not sooner:
        return f"it counts barley malt alone, and the starch of {late} comes later"
    if sooner:
        return "starch converts while more of it is released"
    return "the enzymes fade in so long a mash"


def _is_late(starch: Starch) -> bool:
    return starch.stony or starch.cereal in LATE_CEREALS


def _power_said(brew: Brew) -> str:
    """The power of the mash, and what it counts for where weak malt makes that more."""
    power, counts = grist_diastatic_power(brew).typical, grist_converting_power(brew).typical
    said = f"{number(power, 3)} °Lintner"
    if number(counts, 3) == number(power, 3):
        return said
    return f"{said}, which convert as {number(counts, 3)} (malt below 62 counts as 62 × (its own ÷ 62)^0.6)"


def _left(share: float) -> str:
    """A share 0-1 that is left, in words where it is too little to count."""
    return f"{number(100 * share, 2)} %" if share >= _COUNTS else "none"


_COUNTS = 0.0005  # 0.05 % of the enzymes does nothing in any mash; judgement


def _minutes(result: MashResult) -> float:
    return LONGEST_MIN if result.minutes_needed is None else min(LONGEST_MIN, result.minutes_needed)


def _rest_said(brew: Brew, number_: int, rest: PlannedRest) -> str:
    to = f" to {degrees(brew, rest.to_c.typical)}" if rest.to_c is not None else ""
    return f"rest {number_}, {degrees(brew, rest.at_c.typical)}{to} for {number(rest.minutes.typical, 3)} min"


def _mash_paths(brew: Brew) -> tuple[Path, ...]:
    return tuple(rest.path for rest in brew.plan.rests if rest.path is not None)
