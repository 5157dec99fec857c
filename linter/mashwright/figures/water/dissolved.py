"""Figures of the water: residual alkalinity, and the ions in mash and kettle."""

from collections.abc import Callable

from mashwright.brew.board import lines, number, spread
from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.brew.own_units import volume_unit
from mashwright.brew.pours import has_mash
from mashwright.brewing.water import IONS
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.water.brewing_water import (
    Dose,
    acid_meq,
    liquor,
    per_litre,
    summed,
    tap_water,
    water_in_mash,
)
from mashwright.finding import Path
from mashwright.measures.constants import BICARBONATE_MG_PER_MEQ, CACO3_MG_PER_MEQ
from mashwright.measures.quantity import Kind, from_canonical, said
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown


@figure("residual-alkalinity", unit="mg/l CaCO3", sources=("palmer-15", "mebak-w-030-01-900"))
def residual_alkalinity(brew: Brew) -> Figure:
    """Residual alkalinity of the treated mash water."""
    if not has_mash(brew):
        raise Unknown("grain that is mashed", brew.recipe.grist.path)
    water = water_in_mash(brew)
    value = water.residual_meq_l * CACO3_MG_PER_MEQ
    parts: list[tuple[str, Range]] = []
    if water.residual_meq_l != water.of_tap_meq_l:
        parts.append(("of the water without salts", water.of_tap_meq_l * CACO3_MG_PER_MEQ))
    if water.acid_meq_l is not None:
        parts.append(("with the acid", value - water.acid_meq_l * CACO3_MG_PER_MEQ))

    def working() -> str:
        alkalinity = number(CACO3_MG_PER_MEQ * water.alkalinity_meq_l.typical, 3)
        calcium, magnesium = number(water.calcium_mg_l.typical, 3), number(water.magnesium_mg_l.typical, 3)
        meq, degrees = (
            number(value.typical / CACO3_MG_PER_MEQ, 3),
            number(from_canonical(value.typical, "°dH", Kind.ALKALINITY), 3),
        )
        return lines(
            [
                f"alkalinity {alkalinity} - calcium {calcium} ÷ 1.40 - magnesium {magnesium} ÷ 1.70, all in mg/l",
                f"  = {number(value.typical, 3)} mg/l as CaCO3 = {meq} mEq/l = {degrees} °dH",
            ]
        )

    return Figure(value, working, paths=_paths(brew), assumed=water.assumed, parts=tuple(parts))


def _paths(brew: Brew) -> tuple[Path, ...]:
    put_in = liquor(brew)
    doses = (*put_in.mash, *put_in.sparge, *put_in.kettle, *put_in.mash_acids, *put_in.sparge_acids)
    water = (brew.recipe.water.path,) if brew.recipe.water.known else ()
    return (*water, *(dose.amount.path for dose in doses))


@once
def ions_in_mash(brew: Brew) -> dict[str, Range]:
    """mg/l of each ion that is known in the mash water, salts and acid counted; bicarbonate never below 0.

    None of them where nothing is mashed.

    Raises:
        Unknown: nothing is known of the water.
    """
    if not has_mash(brew):
        return {}
    put_in = liquor(brew)
    return _ions(brew, put_in.in_mash, per_litre(acid_meq(put_in.mash_acids), put_in.mash_l))


@once
def ions_in_kettle(brew: Brew) -> dict[str, Range]:
    """mg/l of each ion that is known in all the water that gets into the kettle; as ``ions_in_mash``."""
    put_in = liquor(brew)
    together = summed(volume for volume in (put_in.mash_l, put_in.sparge_l) if volume is not None)
    acid = per_litre(acid_meq((*put_in.mash_acids, *put_in.sparge_acids)), together)
    return _ions(brew, put_in.in_kettle, acid)


def _ions(brew: Brew, added: Callable[[str], Range], acid: Range) -> dict[str, Range]:
    tap = tap_water(brew)
    found = {ion: summed((tap.ions[ion], added(ion))) for ion in IONS if ion in tap.ions}
    if tap.alkalinity_meq_l is not None:
        meq = summed((tap.alkalinity_meq_l, added("alkalinity"))) - acid
        found["bicarbonate"] = meq.not_below_0 * BICARBONATE_MG_PER_MEQ
    return found


@figure("ions", unit="mg/l", sources=("iupac-atomic-weights",))
def ions(brew: Brew) -> Figure:
    """Ions in the mash water (or the kettle)."""
    put_in, tap = liquor(brew), tap_water(brew)
    in_mash, in_kettle = ions_in_mash(brew), ions_in_kettle(brew)
    together = Range.weighted_sum([(value, 1.0) for value in (in_mash or in_kettle).values()])
    parts = [(f"{ion} in the mash", value) for ion, value in in_mash.items()]
    parts += [(f"{ion} in the kettle", value) for ion, value in in_kettle.items()]
    unsaid = [ion for ion in IONS if ion not in in_kettle]
    from_malt = "malt" if in_mash else "malt extract"
    assumed = [*tap.assumed, *put_in.assumed]
    if unsaid:
        assumed.append(f"nothing of {', '.join(unsaid)}, which the water does not state")

    def working() -> str:
        rows = ["each ion of the water, and what 1 g of a salt gives in 1 l × grams ÷ litres"]
        for where, doses, volume in (
            ("mash", put_in.mash, put_in.mash_l),
            ("sparge", put_in.sparge, put_in.sparge_l),
            ("kettle", put_in.kettle, put_in.kettle_l),
        ):
            rows += [f"  {_brings(brew, dose, volume)} of the {where}" for dose in doses if volume is not None]
        rows.append(f"what the {from_malt} brings and takes, and the boil leaves behind, is not counted")
        return lines(rows)

    return Figure(together, working, paths=_paths(brew), assumed=tuple(assumed), parts=tuple(parts))


def _brings(brew: Brew, dose: Dose, volume_l: Range) -> str:
    quantity = dose.quantity
    given = [
        f"{number(per_litre(one, volume_l).typical, 3)} {'mEq/l' if what == 'alkalinity' else 'mg/l'} {what}"
        for what, one in dose.gives.items()
    ]
    return f"{quantity.text} of {dose.amount.name}: {', '.join(given)} in {litres(brew, volume_l)}"


def litres(brew: Brew, volume_l: Range) -> str:
    """A volume in the unit in which the recipe states its batch."""
    return said(volume_l.typical, volume_unit(brew), Kind.VOLUME)


@figure("sulfate-chloride-ratio", unit="", sources=("common-practice",))
def sulfate_chloride_ratio(brew: Brew) -> Figure:
    """Sulfate to chloride ratio in the kettle."""
    found = ions_in_kettle(brew)
    for ion in ("sulfate", "chloride"):
        if ion not in found:
            raise Unknown(f"the {ion} of the water", ("water", ion))
    sulfate, chloride = found["sulfate"], found["chloride"]
    if chloride.low <= 0:
        raise Unknown("chloride in the water", brew.recipe.water.chloride.path)
    value = Range.span(lambda above, below: above / below, sulfate, chloride)
    little = min(sulfate.typical, chloride.typical) < 50

    def working() -> str:
        sum_ = f"{spread(sulfate)} mg/l of sulfate ÷ {spread(chloride)} mg/l of chloride = {number(value.typical, 2)}"
        says = "below about 50 mg/l of each it says little" if little else "above 2 dry and bitter, below 0.5 full"
        return lines([sum_, says])

    return Figure(value, working, paths=_paths(brew), assumed=tuple(liquor(brew).assumed))
