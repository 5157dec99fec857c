"""Figures of the steps of a mash: by infusion, decoction, heat, or a cereal mash."""

from collections.abc import Callable

from msgspec import Struct

from mashwright.brew.board import lines, number
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import degrees, litres_in, on_scale, scale_of
from mashwright.brew.parts import weighed
from mashwright.brew.plan import PlannedRest
from mashwright.brew.pours import weight_kg
from mashwright.brewing.heat import (
    decoction_share,
    decoction_temperature_c,
    heat_of_a_litre_kg,
    infusion_water_kg,
    mixed_temperature_c,
)
from mashwright.brewing.volumes import COOLED_SHARE, GRAIN_VOLUME_L_PER_KG, mash_volume_l
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.mash.heat import (
    at_dough_in,
    boils_at_c,
    grain_heat_of,
    mash_temperature,
)
from mashwright.ingredients.kinds import RestBy
from mashwright.measures.quantity import Kind, Quantity
from mashwright.measures.range import Range
from mashwright.recipe.model import Rest
from mashwright.recipe.stated import Unknown

_POURED_C = 1.5  # what mash and hot water lose in standing and pouring, at the cold end; judgement
_DECOCTION_LOSS = Range(1.0, 1.15, 1.20)  # common practice: 10-20 % more is drawn than the sum says
_THICK_L_PER_KG = 1.25  # a thick decoction, 0.6 qt/lb [decoction-forum]
_COOKER_C = 6.0  # what a boiled cereal mash may lose on its way, judgement
_HEATED_C_PER_MIN = 1.0  # common practice


class Step(Struct, frozen=True, gc=False):
    """One rest after the first, and what brings the mash there.

    Attributes:
        number: of the rest, from 1.
        rest: as the recipe has it.
        from_c: the rest before, at its end.
        target_c: as stated.
        value: what the step gives.
        how: infusion, decoction, cereal mash, heat.
        needed_l: water or pull that gives the stated rest; None where none does, or nothing is poured.
        sum: the working.
        assumed: what was taken where the recipe is silent.
        reckoned: whether the value was computed, and not only taken as stated.
        needed_share: of a decoction, the needed pull as a share of the mash, 0-1.
        needed: ``needed_l`` with its ends, by what the mash, the water and the way between them may lose, l.
    """

    number: int
    rest: Rest
    from_c: Range
    target_c: Range
    value: Range
    how: str
    needed_l: float | None
    sum: str
    assumed: tuple[str, ...]
    reckoned: bool
    needed_share: float | None = None
    needed: Range | None = None


class _Tun(Struct):
    """The mash as it grows from step to step."""

    grain_kg: float
    heat: float
    water: float
    takes: float

    @property
    def capacity_kg(self) -> float:
        return self.heat * self.grain_kg + self.water + self.takes

    @property
    def litres(self) -> float:
        return mash_volume_l(self.water, self.grain_kg, GRAIN_VOLUME_L_PER_KG.typical)


@once
def steps(brew: Brew) -> tuple[Step, ...]:
    """The steps of the mash that say how they are made.

    Raises:
        Unknown: there are no rests that can be followed, or nothing is mashed.
    """
    return tuple(_steps(brew))


def _steps(brew: Brew) -> list[Step]:
    mash = brew.recipe.mash
    planned = brew.plan.known()
    if not mash.known or not mash.rests:
        return []
    if mash.number > 1 and any(rest.water.known or rest.pull.known for rest in mash.rests):
        raise Unknown("how much of it each of the mashes gets", mash.rests.path)
    met = at_dough_in(brew)
    tun = _Tun(met.grain_kg, met.heat, met.water.typical, met.tun.typical)
    found = []
    for index, (rest, at) in enumerate(zip(mash.rests, planned, strict=True)):
        before = _before(brew, planned, index)
        how = rest.by or (RestBy.INFUSION if rest.water.known else RestBy.DECOCTION if rest.pull.known else "")
        if before is None or (how in ("", RestBy.HEAT) and index == 0):
            continue
        if how == RestBy.HEAT:
            step: Step | None = _by_heat(index + 1, rest, before, at.at_c)
        else:
            step = _MAKERS[how](brew, tun, index + 1, rest, before, at.at_c) if how in _MAKERS else None
        if step is not None:
            found.append(step)
    return found


def _before(brew: Brew, planned: tuple[PlannedRest, ...], index: int) -> Range | None:
    """The mash before a step: the rest before at its end, or dough-in before the first."""
    if index > 0:
        last = planned[index - 1]
        return last.to_c or last.at_c
    try:
        return mash_temperature(brew).range
    except Unknown:
        return None


def _by_heat(number_: int, rest: Rest, before: Range, target: Range) -> Step:
    minutes = max(0.0, target.typical - before.typical) / _HEATED_C_PER_MIN
    told = f"by heat, about {number(minutes, 2)} min at {number(_HEATED_C_PER_MIN)} °C a minute"
    return Step(number_, rest, before, target, target, RestBy.HEAT, None, told, (), reckoned=False)


def _by_infusion(brew: Brew, tun: _Tun, number_: int, rest: Rest, before: Range, target: Range) -> Step | None:
    if (rest.water.mentioned and not rest.water.known) or (rest.of.mentioned and not rest.of.known):
        return None
    if number_ == 1:
        return None  # dough-in itself, which has its own figure
    boils = boils_at_c(brew)
    of = rest.of.range if rest.of.known else Range(boils - 4, boils - 1, boils)
    assumed = () if rest.of.known else (f"nearly boiling water for rest {number_}, since its heat is not stated",)
    capacity, needed = tun.capacity_kg, None
    if of.typical > target.typical > before.typical:
        needed = infusion_water_kg(before.typical, target.typical, of.typical, capacity)
    band = _infusion_band(before, target, of, capacity, needed)
    if not rest.water.known:
        if needed is None:
            return None
        told = f"needs {litres_in(brew, needed)} of water at {degrees(brew, of.typical)}"
        tun.water += needed
        missing = (*assumed, f"as much water for rest {number_} as it needs, since none is stated")
        return Step(
            number_, rest, before, target, target, RestBy.INFUSION, needed, told, missing, reckoned=False, needed=band
        )
    water = rest.water.range
    typical = mixed_temperature_c(((capacity, before.typical), (water.typical, of.typical)))
    low = mixed_temperature_c(
        # measured hot, a litre weighs less
        ((capacity, before.low - _POURED_C), (water.low * COOLED_SHARE, of.low - _POURED_C))
    )
    high = mixed_temperature_c(((capacity, before.high), (water.high, of.high)))
    told = (
        f"({number(capacity, 3)} × {on_scale(brew, before.typical)} + {number(water.typical, 3)} ×"
        f" {on_scale(brew, of.typical)}) ÷ {number(capacity + water.typical, 3)}"
        f" = {on_scale(brew, typical)} {scale_of(brew)}"
    )
    tun.water += water.typical
    value = Range(min(low, typical), typical, max(high, typical))
    return Step(
        number_, rest, before, target, value, RestBy.INFUSION, needed, told, assumed, reckoned=True, needed=band
    )


def _by_decoction(brew: Brew, tun: _Tun, number_: int, rest: Rest, before: Range, target: Range) -> Step | None:
    boils = boils_at_c(brew)
    if (rest.pull.mentioned and not rest.pull.known) or before.typical >= boils:
        return None
    volume = tun.litres
    wanted = max(0.0, decoction_share(before.typical, target.typical, boils)) * _DECOCTION_LOSS.typical
    needed = wanted * volume if 0 < wanted < 1 else None
    band = _pull_band(tun, before, target, boils, needed)
    if not rest.pull.known:
        if needed is None:
            return None
        told = f"a decoction of {litres_in(brew, needed)}, {number(100 * wanted, 2)} % of the mash, brings it there"
        missing = (f"as much of a decoction for rest {number_} as it needs, since none is stated",)
        return Step(
            number_, rest, before, target, target, RestBy.DECOCTION, needed, told, missing, reckoned=False, needed=band
        )
    share = _share_of(rest.pull, volume)
    thick = _thick(tun)
    value = Range(
        decoction_temperature_c(before.low, min(1.0, share.low) * thick / _DECOCTION_LOSS.high, boils),
        decoction_temperature_c(before.typical, min(1.0, share.typical) / _DECOCTION_LOSS.typical, boils),
        decoction_temperature_c(before.high, min(1.0, share.high) / _DECOCTION_LOSS.low, boils),
    )
    told = (
        f"{on_scale(brew, before.typical)} + {number(100 * share.typical, 3)} % of the mash ÷"
        f" {_DECOCTION_LOSS.typical:g} for losses × ({on_scale(brew, boils)} - {on_scale(brew, before.typical)})"
        f" = {on_scale(brew, value.typical)} {scale_of(brew)}"
    )
    return Step(
        number_,
        rest,
        before,
        target,
        value,
        RestBy.DECOCTION,
        needed,
        told,
        (),
        reckoned=True,
        needed_share=wanted,
        needed=band,
    )


def _thick(tun: _Tun) -> float:
    """The heat of a litre of a thick decoction as a share of that of the mash, up to 1."""
    thin = heat_of_a_litre_kg(max(0.1, tun.water / tun.grain_kg), tun.heat)
    return min(1.0, heat_of_a_litre_kg(_THICK_L_PER_KG, tun.heat) / thin)


def _pull_band(tun: _Tun, before: Range, target: Range, boil_c: float, typical: float | None) -> Range | None:
    """A pull with its ends: least of a warm mash without losses, most of a cool one drawn thick; never all of it."""
    if typical is None:
        return None

    def litres(from_c: float, to_c: float, loss: float) -> float:
        return min(1.0, max(0.0, decoction_share(min(from_c, boil_c - 1), to_c, boil_c)) * loss) * tun.litres

    least = litres(before.high, target.low, _DECOCTION_LOSS.low)
    most = litres(before.low, target.high, _DECOCTION_LOSS.high / _thick(tun))
    return Range(min(least, typical), typical, max(most, typical))


def _infusion_band(before: Range, target: Range, of: Range, capacity: float, typical: float | None) -> Range | None:
    """Infusion water with its ends: more where mash and water lose heat on the way, less where they are hot."""
    if typical is None:
        return None
    least = infusion_water_kg(min(before.high, target.low), target.low, max(of.high, of.typical), capacity)
    cool = of.low - _POURED_C
    most = typical
    if cool > target.high:
        # measured hot, a litre weighs less
        most = infusion_water_kg(before.low - _POURED_C, target.high, cool, capacity) / COOLED_SHARE
    return Range(min(least, typical), typical, max(most, typical))


def _share_of(pull: Quantity, mash_l: float) -> Range:
    return pull.range * (0.01 if pull.kind is Kind.SHARE else 1 / mash_l)


def _by_cereal_mash(brew: Brew, tun: _Tun, number_: int, rest: Rest, before: Range, target: Range) -> Step | None:
    cooker = brew.recipe.cereal_mash
    cooked = tuple(part for part in weighed(brew.mashed()) if part.line.cereal_mash)
    if not cooker.water.known or not cooked:
        return None
    boils = boils_at_c(brew)
    hottest = brew.cooker_hottest
    if cooker.boil.known or hottest is None:
        comes = Range(boils - _COOKER_C, boils - _COOKER_C / 3, boils)
    else:
        comes = Range(hottest.range.low - _COOKER_C, hottest.range.typical, hottest.range.high)
    added = grain_heat_of(cooked) * weight_kg(cooked) + cooker.water.range.typical
    capacity = tun.capacity_kg
    value = Range(
        *(
            mixed_temperature_c(((capacity, start), (added, hot)))
            for start, hot in (
                (before.low - _POURED_C, comes.low),
                (before.typical, comes.typical),
                (before.high, comes.high),
            )
        )
    )
    told = (
        f"({number(capacity, 3)} × {on_scale(brew, before.typical)} + {number(added, 3)} ×"
        f" {on_scale(brew, comes.typical)}) ÷ {number(capacity + added, 3)}"
        f" = {on_scale(brew, value.typical)} {scale_of(brew)}"
    )
    tun.grain_kg += weight_kg(cooked)
    tun.water += cooker.water.range.typical
    return Step(number_, rest, before, target, value, RestBy.CEREAL_MASH, None, told, (), reckoned=True)


_MAKERS: dict[str, Callable[[Brew, _Tun, int, Rest, Range, Range], Step | None]] = {
    RestBy.INFUSION: _by_infusion,
    RestBy.DECOCTION: _by_decoction,
    RestBy.CEREAL_MASH: _by_cereal_mash,
}


@figure("step-temperature", unit="°C", sources=("palmer-16", "decoction-forum", "common-practice"))
def step_temperature(brew: Brew) -> Figure:
    """Temperature reached at each later rest."""
    made = steps(brew)
    if not made:
        raise Unknown("rests after the first that say how the mash is brought there", brew.recipe.mash.rests.path)

    def working() -> str:
        rows = [f"  rest {step.number}, {step.how}: {step.sum}" for step in made]
        return lines(["heat capacity in kg of water × temperature, from the rest before:", *rows])

    return Figure(
        made[-1].value,
        working,
        tuple(step.rest.path for step in made),
        tuple(sentence for step in made for sentence in step.assumed),
        parts=tuple((f"rest {step.number}", step.value) for step in made),
    )


@figure("infusion-needed", unit="l", sources=("palmer-16", "common-practice", "judgement"))
def infusion_needed(brew: Brew) -> Figure:
    """Hot water needed for the infusions."""
    return _of_steps(brew, RestBy.INFUSION, "rests after the first that are reached by infusion")


@figure("decoction-needed", unit="l", sources=("palmer-16", "decoction-forum", "common-practice", "judgement"))
def decoction_needed(brew: Brew) -> Figure:
    """Mash to draw and boil for the decoctions."""
    return _of_steps(brew, RestBy.DECOCTION, "rests after the first that are reached by decoction")


def _of_steps(brew: Brew, how: str, missing: str) -> Figure:
    """What the steps of one sort need, l: all together, and each by its rest.

    Raises:
        Unknown: there are none, or heat cannot be reckoned for them.
    """
    made = [step for step in steps(brew) if step.how == how and step.needed is not None]
    if not made:
        raise Unknown(missing, brew.recipe.mash.rests.path)
    amounts = [(step, step.needed) for step in made if step.needed is not None]
    value = sum((one for _, one in amounts), Range.exact(0.0))

    def working() -> str:
        rows = []
        for step, one in amounts:
            stated = step.rest.water if how == RestBy.INFUSION else step.rest.pull
            said_ = f", the recipe has {stated.text}" if stated.known else ""
            temperatures = f"from {degrees(brew, step.from_c.typical)} to {degrees(brew, step.target_c.typical)}"
            rows.append(f"  rest {step.number}, {temperatures}: {litres_in(brew, one.typical)}{said_}")
        if len(amounts) > 1:
            rows.append(f"  together {litres_in(brew, value.typical)}")
        return lines([_SUMS[how], *rows])

    return Figure(
        value,
        working,
        tuple(step.rest.path for step in made),
        tuple(dict.fromkeys(sentence for step in made for sentence in step.assumed)),
        parts=tuple((f"rest {step.number}", one) for step, one in amounts),
    )


_SUMS: dict[str, str] = {
    RestBy.INFUSION: "rise × heat capacity of the mash in kg of water ÷ (infusion - rest), in degrees:",
    RestBy.DECOCTION: "rise ÷ (boil - rest before) of the mash, 15 % more for what a decoction loses:",
}


def water_of_open_steps(brew: Brew) -> float:
    """Water of infusions that the recipe leaves open, l."""
    mash = brew.recipe.mash
    if not mash.known or not any(rest.by == RestBy.INFUSION and not rest.water.known for rest in mash.rests):
        return 0.0
    try:
        return sum(
            step.needed_l or 0.0 for step in steps(brew) if step.how == RestBy.INFUSION and not step.rest.water.known
        )
    except Unknown:
        return 0.0
