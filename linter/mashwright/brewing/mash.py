"""What becomes of the starch in a mash, rest by rest, in steps of a minute; in longer ones where it lasts very long.

Heat makes starch ready (each cereal by itself), enzymes turn ready starch to sugar, and heat spends the enzymes: for
the released share R, the sugar V and the enzyme A, with C what the temperature can release at once and L what any can,

    dR/dt = k (C - R) + ks (L - C)        dV/dt = a A (R - V)        dA/dt = -kd A

Starch that was released stays so, and enzyme that was lost in a hot rest does not come back in a cooler one.
"""

from collections.abc import Sequence
from math import exp, expm1

from msgspec import Struct

from mashwright.brewing.mash_rates import (
    COLDEST_CONVERTING_C,
    FAVOURABLE,
    GELATINISATION_C,
    HOTTEST_CONVERTING_C,
    RELEASABLE,
    RELEASABLE_COOKED,
    TRADE,
    TYPICAL,
    UNFAVOURABLE,
    Conditions,
    added_rate_per_min,
    beta_amylase_loss_per_min,
    conversion_rate_per_min,
    enzyme_loss_per_min,
    gelatinised_share,
    minutes_on_the_board,
    release_rate_per_min,
    slow_release_rate_per_min,
)
from mashwright.measures.bounds import ENZYMES_END_C
from mashwright.measures.constants import MIN_PER_DAY

__all__ = [
    "FAVOURABLE",
    "GELATINISATION_C",
    "TRADE",
    "TYPICAL",
    "UNFAVOURABLE",
    "Conditions",
    "MashResult",
    "Minute",
    "Rest",
    "RestResult",
    "Starch",
    "course",
    "gelatinised_share",
    "mash",
    "minutes_counted",
    "minutes_on_the_board",
]

CONVERTED = 0.95  # of what the rests can release: a mash that is done; judgement
COOLEST_COUNTED_C = 60.0  # of a rest in the mean temperature of conversion; judgement
MASH_OUT_C = ENZYMES_END_C.usual  # a hotter rest ends a mash rather than serves it
LONGEST_MIN = 300.0  # how far a rest is drawn out in search of the end of conversion; judgement
_DAY_MIN = MIN_PER_DAY  # nothing in the model changes after a day
_INSTANT_MIN = 1e-6
# Whatever a recipe asks for, following it costs no more than this; judgement, twelve times finer changes no figure by
# 0.1 % in a mash that lasts up to a day.
_STEPS = 360  # of a whole mash, so that one of six hours is still followed minute by minute
_RAMP_STEPS = 60  # of one rise or fall, each a rest of its own


class Starch(Struct, frozen=True, gc=False):
    """The starch of one cereal in the mash.

    Attributes:
        cereal: a key of GELATINISATION_C.
        amount: in any unit, the same for all; 0 or more.
        cooked: flaked, torrefied, or boiled before it enters the mash.
        joins: index of the rest with which it enters; starch from a cereal cooker comes later than the malt.
        stony: raw grits or coarse meal of a cereal that gelatinises late.
    """

    cereal: str
    amount: float
    cooked: bool = False
    joins: int = 0
    stony: bool = False


class Rest(Struct, frozen=True, gc=False):
    """A stay at one temperature, or a steady rise or fall to another.

    Attributes:
        at_c: °C at its beginning.
        minutes: its length; counted as a day at most.
        to_c: °C at its end, where it is not the same.
    """

    at_c: float
    minutes: float
    to_c: float | None = None

    @property
    def end_c(self) -> float:
        """Temperature at its end, °C."""
        return self.at_c if self.to_c is None else self.to_c


class RestResult(Struct, frozen=True, gc=False):
    """What one rest did.

    Attributes:
        released: starch newly released in it, % of all starch.
        converted: starch turned to sugar in it, % of all starch.
        convert_c: mean temperature at which that was turned to sugar, °C; the rest's own where nothing was.
        enzyme_left: share of the first enzyme that is left at its end, 0-1: of alpha-amylase, which converts.
        beta_left: the same of beta-amylase, which makes what ferments.
    """

    released: float
    converted: float
    convert_c: float
    enzyme_left: float
    beta_left: float


class MashResult(Struct, frozen=True, gc=False):
    """What a mash did.

    Attributes:
        releasable: what the best rest for each cereal can release of it but for what follows slowly, % of all starch.
        released: what was released, % of all starch.
        converted: what was turned to sugar, % of all starch.
        by_starch: released of each starch, % of that starch, in the order given.
        rests: one a rest, in order.
        converting_rest: index of the rest that a brewer would draw out: the last that is neither mash-out nor too
            cool to release starch; None where no rest converts.
        minutes_given: minutes of the rests up to and with that one.
        minutes_needed: minutes from the first dough-in until 95 % of what these rests can release is sugar, that rest
            drawn out to 300 min in all if need be; None where that is never.
    """

    releasable: float
    released: float
    converted: float
    by_starch: tuple[float, ...]
    rests: tuple[RestResult, ...]
    converting_rest: int | None
    minutes_given: float
    minutes_needed: float | None

    @property
    def converted_of_releasable(self) -> float:
        """Turned to sugar, % of what the rests can release, 100 at most; 0 where they release nothing."""
        return min(100.0, 100 * self.converted / self.releasable) if self.releasable > 0 else 0.0

    @property
    def convert_c(self) -> float | None:
        """Rest temperatures weighted by the starch turned to sugar in each, °C; None where nothing was.

        A rest below 60 °C counts as one at 60: flakes are ready there, but what it does to attenuation was not
        measured.
        """
        weight = sum(rest.converted for rest in self.rests)
        if weight <= 0:
            return None
        return sum(rest.converted * max(rest.convert_c, COOLEST_COUNTED_C) for rest in self.rests) / weight


def minutes_counted(rests: Sequence[Rest]) -> float:
    """Minutes of these rests in which time adds to what ferments: wholly from 60 to 70 °C, fading out down to 55.

    Source: judgement; they fade, since no enzyme begins at one degree.
    """
    total = 0.0
    for rest in rests:
        low, high = sorted((rest.at_c, rest.end_c))
        if high > low:
            total += _counted(rest.minutes) * (_counting_up_to(high) - _counting_up_to(low)) / (high - low)
        elif low < _NO_LONGER_COUNTED_C:
            total += _counted(rest.minutes) * min(max((low - _FIRST_COUNTED_C) / _COUNTING_C, 0.0), 1.0)
    return total


_FIRST_COUNTED_C, _NO_LONGER_COUNTED_C = 55.0, 70.0
_COUNTING_C = COOLEST_COUNTED_C - _FIRST_COUNTED_C


def _counting_up_to(temperature_c: float) -> float:
    """The weight of a degree, added up from the coldest to this temperature."""
    up_c = min(max(temperature_c, _FIRST_COUNTED_C), COOLEST_COUNTED_C) - _FIRST_COUNTED_C
    wholly_c = min(max(temperature_c, COOLEST_COUNTED_C), _NO_LONGER_COUNTED_C) - COOLEST_COUNTED_C
    return up_c * up_c / (2 * _COUNTING_C) + wholly_c


def mash(
    starches: Sequence[Starch],
    rests: Sequence[Rest],
    power_lintner: float,
    conditions: Conditions = TYPICAL,
    added: Sequence[tuple[float, float]] = (),
) -> MashResult:
    """Follow a mash through its rests.

    Args:
        starches: one a cereal and state.
        rests: in order.
        power_lintner: average, over all that enters the mash, of what each malt counts for (converting_power of
            mash_rates), malt that was boiled counted as 0; 0 or more.
        conditions: what the recipe does not say.
        added: of each enzyme that is added, the °C between which it works; hotter it is lost for good.

    Returns:
        Per cent of all starch in the mash; zeros, and never done, where there is none.

    Raises:
        ValueError: an unknown cereal.

    Source: form [potter-coulter] and [kjeldahl-1880]; rates as at each function of mash_rates.
    """
    tun = _Tun(starches, power_lintner, conditions)
    tun.added = list(added)
    tun.step_min = _step_min(rests)
    potentials = []
    for tun.rest, rest in enumerate(rests):
        potentials.append(tun.potential(max(rest.at_c, rest.end_c)))
    last = _rest_to_draw_out(rests, [sum(potential) for potential in potentials])
    if last is not None:
        tun.goal = CONVERTED * _best(potentials[: last + 1])
    results = []
    given, needed = 0.0, None
    for tun.rest, rest in enumerate(rests):
        results.append(tun.follow(rest))
        if tun.rest == last:
            given, needed = tun.elapsed_min, tun.minutes_to_goal(rest.end_c)
            tun.goal = 0.0
    return MashResult(
        releasable=100 * _best(potentials),
        released=100 * sum(tun.released),
        converted=100 * tun.converted,
        by_starch=tuple(100 * r / share if share else 0.0 for r, share in zip(tun.released, tun.shares, strict=True)),
        rests=tuple(results),
        converting_rest=last,
        minutes_given=given,
        minutes_needed=needed,
    )


class Minute(Struct, frozen=True, gc=False):
    """How a mash stands at one time.

    Attributes:
        minute: since the grain was stirred in.
        at_c: °C then.
        released: starch released up to then, % of all starch.
        converted: starch turned to sugar up to then, % of all starch.
        enzyme_left: alpha-amylase that is left, % of the first.
    """

    minute: float
    at_c: float
    released: float
    converted: float
    enzyme_left: float


def course(
    starches: Sequence[Starch],
    rests: Sequence[Rest],
    power_lintner: float,
    conditions: Conditions = TYPICAL,
    added: Sequence[tuple[float, float]] = (),
) -> tuple[Minute, ...]:
    """A mash minute by minute: its beginning, each minute, and the beginning and end of each rest.

    Its last is where ``mash`` ends. Arguments and source are those of ``mash``.

    Raises:
        ValueError: an unknown cereal.
    """
    tun = _Told(starches, power_lintner, conditions)
    tun.added = list(added)
    tun.step_min = _step_min(rests)
    for tun.rest, rest in enumerate(rests):
        tun.tell(rest.at_c)
        tun.follow(rest)
        tun.tell(rest.end_c)
    return tuple(dict.fromkeys(tun.minutes))


def _step_min(rests: Sequence[Rest]) -> float:
    return max(1.0, sum(_counted(rest.minutes) for rest in rests) / _STEPS)


class _Tun:
    """The state of a mash while it is followed; amounts are shares of all starch."""

    __slots__ = (
        "added", "beta", "conditions", "converted", "elapsed_min", "enzyme", "goal", "power_lintner",
        "reached_min", "released", "rest", "shares", "slowly", "starches", "step_min",
    )  # fmt: skip

    def __init__(self, starches: Sequence[Starch], power_lintner: float, conditions: Conditions) -> None:
        total = sum(starch.amount for starch in starches)
        self.starches = starches
        self.shares = [starch.amount / total if total > 0 else 0.0 for starch in starches]
        self.power_lintner = power_lintner
        self.added: list[tuple[float, float]] = []
        self.conditions = conditions
        self.released = [0.0] * len(starches)
        self.slowly = [0.0] * len(starches)  # of that, what came slowly
        self.converted = 0.0
        self.enzyme = self.beta = 1.0
        self.elapsed_min = 0.0
        self.rest = 0
        self.goal = 0.0
        self.reached_min: float | None = None
        self.step_min = 1.0

    def potential(self, temperature_c: float) -> list[float]:
        """What a temperature can release at once of each starch that is in the tun."""
        shift_c = self.conditions.shift_c
        return [
            share * (RELEASABLE_COOKED if starch.cooked else gelatinised_share(starch.cereal, temperature_c, shift_c))
            if starch.joins <= self.rest
            else 0.0
            for starch, share in zip(self.starches, self.shares, strict=True)
        ]

    def potential_in_the_end(self) -> list[float]:
        """What can be released of each starch that is in the tun, however slowly."""
        return [
            share * (RELEASABLE_COOKED if starch.cooked else RELEASABLE) if starch.joins <= self.rest else 0.0
            for starch, share in zip(self.starches, self.shares, strict=True)
        ]

    def added_rate_per_min(self, temperature_c: float) -> float:
        """What the added enzymes that work at a temperature do there, 1/min."""
        works = sum(low_c <= temperature_c <= high_c for low_c, high_c in self.added)
        return works * added_rate_per_min(temperature_c, self.conditions.theta) if works else 0.0

    def follow(self, rest: Rest) -> RestResult:
        """Go through one rest."""
        minutes = _counted(rest.minutes)
        released, converted = sum(self.released), self.converted
        if rest.end_c == rest.at_c:
            self.hold(rest.at_c, minutes)
            convert_c = rest.at_c
        else:
            convert_c = self._change(rest, minutes)
        newly = 100 * (sum(self.released) - released), 100 * (self.converted - converted)
        return RestResult(*newly, convert_c, self.enzyme, self.beta)

    def _change(self, rest: Rest, minutes: float) -> float:
        """Rise or fall in steps; gives the mean temperature of conversion."""
        before = converted = self.converted
        heat = gone = 0.0
        longest = max(self.step_min, minutes / _RAMP_STEPS)
        while gone < minutes:
            step = min(longest, minutes - gone)
            step_c = rest.at_c + (rest.end_c - rest.at_c) * (gone + step / 2) / minutes
            self.hold(step_c, step)
            heat += step_c * (self.converted - converted)
            converted = self.converted
            gone += step
        return heat / (converted - before) if converted > before else (rest.at_c + rest.end_c) / 2

    def hold(self, temperature_c: float, minutes: float, until_goal: bool = False) -> None:
        """Stay at one temperature; with until_goal only as long as the goal is not reached.

        Starch of one state nears its potential at one rate, so it is followed as one gap. In a step both enzyme and
        released starch are taken at their means; each of them is exact by itself.
        """
        gaps, slow_gaps = [], []
        for c, end, r, slow in zip(
            self.potential(temperature_c), self.potential_in_the_end(), self.released, self.slowly, strict=True
        ):
            gaps.append(max(0.0, min(c, end - slow) - (r - slow)))
            slow_gaps.append(max(0.0, end - slow - max(c, r - slow)))
        paces = [
            release_rate_per_min(temperature_c, self.conditions.crush, cooked=starch.cooked, stony=starch.stony)
            for starch in self.starches
        ]
        slow_paces = [
            0.0
            if starch.cooked
            else slow_release_rate_per_min(starch.cereal, temperature_c, self.conditions.shift_c, stony=starch.stony)
            for starch in self.starches
        ]
        open_gaps: dict[float, float] = {}
        for gap, pace in zip([*gaps, *slow_gaps], [*paces, *slow_paces], strict=True):
            if gap > 0:
                open_gaps[pace] = open_gaps.get(pace, 0.0) + gap
        still = list(open_gaps.values())
        ready = sum(self.released) + sum(still)
        rate = conversion_rate_per_min(temperature_c, self.power_lintner, self.conditions.theta)
        loss = enzyme_loss_per_min(temperature_c)
        self.added = [band for band in self.added if temperature_c <= band[1]]
        added_rate = self.added_rate_per_min(temperature_c)
        converted, enzyme, goal = self.converted, self.enzyme, self.goal
        gone = 0.0
        step = 0.0
        while gone < minutes:
            left = min(self.step_min, minutes - gone)
            if left != step:
                step = left
                enzyme_kept = exp(-loss * step)
                step_rate = rate * expm1(-loss * step) / -loss
                kept = [(exp(-k * step), expm1(-k * step) / (-k * step)) for k in open_gaps]
            released = ready
            for index, (kept_share, mean) in enumerate(kept):
                released -= still[index] * mean
                still[index] *= kept_share
            converted += (released - converted) * -expm1(-step_rate * enzyme - added_rate * step)
            enzyme *= enzyme_kept
            gone += step
            if goal and converted >= goal:
                self.reached_min = self.elapsed_min + gone
                goal = self.goal = 0.0
                if until_goal:
                    break
        self.converted, self.enzyme = converted, enzyme
        self.beta *= exp(-beta_amylase_loss_per_min(temperature_c) * gone)
        self.elapsed_min += gone
        slowly = [gap * -expm1(-pace * gone) for gap, pace in zip(slow_gaps, slow_paces, strict=True)]
        self.slowly = [slow + more for slow, more in zip(self.slowly, slowly, strict=True)]
        self.released = [
            r + gap * -expm1(-pace * gone) + more
            for r, gap, pace, more in zip(self.released, gaps, paces, slowly, strict=True)
        ]

    def minutes_to_goal(self, temperature_c: float) -> float | None:
        """Minutes until the goal was reached, or would be if the mash stayed as it is; changes nothing."""
        if self.reached_min is not None or not self.goal or not self._can_reach(temperature_c):
            return self.reached_min
        drawn_out = _Tun(self.starches, self.power_lintner, self.conditions)
        drawn_out.shares, drawn_out.released, drawn_out.slowly = self.shares, list(self.released), list(self.slowly)
        drawn_out.converted, drawn_out.enzyme, drawn_out.rest = self.converted, self.enzyme, self.rest
        drawn_out.elapsed_min, drawn_out.goal, drawn_out.added = self.elapsed_min, self.goal, self.added
        drawn_out.hold(temperature_c, LONGEST_MIN - self.elapsed_min, until_goal=True)
        return drawn_out.reached_min

    def _can_reach(self, temperature_c: float) -> bool:
        """Whether what enzyme is left could do it even if all starch were released at once."""
        rate = conversion_rate_per_min(temperature_c, self.power_lintner, self.conditions.theta)
        loss = enzyme_loss_per_min(temperature_c)
        minutes = max(0.0, LONGEST_MIN - self.elapsed_min)
        work = rate * self.enzyme * expm1(-loss * minutes) / -loss + self.added_rate_per_min(temperature_c) * minutes
        ready = sum(max(c, r) for c, r in zip(self.potential_in_the_end(), self.released, strict=True))
        return ready - (ready - self.converted) * exp(-work) >= self.goal


class _Told(_Tun):
    """A mash that tells how it stands, each minute."""

    __slots__ = ("minutes",)

    def __init__(self, starches: Sequence[Starch], power_lintner: float, conditions: Conditions) -> None:
        super().__init__(starches, power_lintner, conditions)
        self.minutes: list[Minute] = []

    def tell(self, at_c: float) -> None:
        """Tell how it stands now."""
        self.minutes.append(
            Minute(self.elapsed_min, at_c, 100 * sum(self.released), 100 * self.converted, 100 * self.enzyme)
        )

    def hold(self, temperature_c: float, minutes: float, until_goal: bool = False) -> None:
        """Stay at one temperature, in the steps in which it is followed anyway; of a rise not every step is told."""
        gone = 0.0
        while gone < minutes:
            step = min(self.step_min, minutes - gone)
            super().hold(temperature_c, step, until_goal)
            gone += step
            if self.elapsed_min - self.minutes[-1].minute >= self.step_min - _INSTANT_MIN:
                self.tell(temperature_c)


def _rest_to_draw_out(rests: Sequence[Rest], potentials: Sequence[float]) -> int | None:
    """The last rest that is no mash-out, of those that serve conversion; the last of these where all are that hot.

    A rest serves conversion where enzymes work and at least half of what the best rest can release is released: a
    protein rest is never drawn out in place of a hot rest after it.
    """
    working = [i for i, rest in enumerate(rests) if COLDEST_CONVERTING_C <= rest.end_c <= HOTTEST_CONVERTING_C]
    best = max((potentials[i] for i in working), default=0.0)
    serving = [i for i in working if potentials[i] >= best / 2]
    cooler = [i for i in serving if rests[i].end_c <= MASH_OUT_C]
    return max(cooler or serving, default=None)


def _best(potentials: list[list[float]]) -> float:
    """What the best rest for each starch can release, summed."""
    best: float = sum(max(of_one_starch) for of_one_starch in zip(*potentials, strict=True))
    return best


def _counted(minutes: float) -> float:
    return min(minutes, _DAY_MIN) if minutes > _INSTANT_MIN else 0.0
