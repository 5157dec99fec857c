"""What gives a mash more enzyme, or more time for the little there is."""

from mashwright.brew import Brew, Part, PlannedRest
from mashwright.figures.grist import grist_diastatic_power
from mashwright.ingredients.kinds import Cereal, IngredientKind
from mashwright.knobs import NOTHING, Knob, in_its_place, less_of, longer, more_of
from mashwright.measures import Kind, Range, said
from mashwright.rule import Edit, above, below
from mashwright_rules.grist.enzyme_sufficiency._limits import Limits


def changes(brew: Brew, limits: Limits) -> tuple[Knob, ...]:
    """Stronger malt in place of weak, or of some of what has no enzymes; a longer rest where it would do; else less."""
    parts = brew.mashed()
    strongest = max(parts, key=lambda part: brew.power_of(part).typical)
    idle = max((part for part in parts if brew.power_of(part).high <= 0), key=lambda part: part.amount, default=None)
    knobs: list[Knob] = []
    if brew.power_of(strongest).typical < limits.strong_lintner:
        weak = max(
            (part for part in parts if part.kind == IngredientKind.BASE_MALT),
            key=lambda part: part.amount,
            default=None,
        )
        knobs += [_stronger(brew, part, limits) for part in (weak, idle) if part is not None]
    knobs.append(more_of(strongest, most=2))
    if idle is not None:
        knobs.append(_in_place_of(strongest, idle))
    rests = converting_rests(brew, limits)
    if rests and not below(grist_diastatic_power(brew), limits.too_little_lintner):
        knobs.append(longer(rests[-1], least_min=rests[-1].minutes.typical + _short_by(brew, limits)))
    return tuple(knobs) if idle is None else (*knobs, less_of(idle, least=0.5))


def converting_rests(brew: Brew, limits: Limits) -> list[PlannedRest]:
    """Rests with a stated length at which malt converts."""
    return [
        rest
        for rest in brew.plan.rests
        if rest.minutes_path is not None
        and not below(rest.at_c, limits.coldest_c)
        and not above(rest.at_c, limits.hottest_c)
    ]


def _short_by(brew: Brew, limits: Limits) -> float:
    """How much longer the rests must be to count as long, min."""
    return limits.long_rest_min - sum(rest.minutes.typical for rest in converting_rests(brew, limits))


def _stronger(brew: Brew, part: Part, limits: Limits) -> Knob:
    """Two-row malt in place of some of a part, enough for an easy conversion; none where barley is kept out."""
    barley = Range.exact(
        100 * sum(one.amount for one in brew.mashed() if one.cereal in (Cereal.BARLEY, Cereal.WHEAT, Cereal.RYE))
    )
    if not above(barley, 0):
        return NOTHING
    total = sum(one.amount for one in brew.mashed())
    missing = (limits.comfortable_lintner - grist_diastatic_power(brew).typical) * total
    name, power_lintner = "two-row pale malt", 125.0  # its usual power; what is offered is reckoned again
    share = missing / (part.amount * (power_lintner - brew.power_of(part).typical))
    most = 0.5 if brew.power_of(part).high <= 0 else 0.9
    return in_its_place(brew, part, name, least=min(share, most), most=most)


def _in_place_of(strongest: Part, idle: Part) -> Knob:
    """The same weight in all, with more of one part and less of the other, down to half of it."""
    if not strongest.line.weight.known or not idle.line.weight.known:
        return NOTHING
    step_kg = 0.05 if strongest.weight.unit in ("kg", "g") else 0.0566990463  # 2 oz

    def texts(step: int) -> tuple[str, str]:
        moved_kg = (step + 1) * step_kg
        more = said(strongest.weight_kg + moved_kg, strongest.weight.unit, Kind.MASS)
        return more, said(idle.weight_kg - moved_kg, idle.weight.unit, Kind.MASS)

    def edits(step: int) -> tuple[Edit, ...]:
        more, less = texts(step)
        return Edit(strongest.line.weight.path, more), Edit(idle.line.weight.path, less)

    def words(step: int) -> str:
        more, less = (text.removesuffix(" of malt") for text in texts(step))  # quarters of malt of pale malt
        return (
            f"use {more} of {strongest.name} instead of {strongest.weight.text},"
            f" and {less} of {idle.name} instead of {idle.weight.text}"
        )

    return Knob(int(idle.weight_kg / 2 / step_kg + 1e-9), edits, words)
