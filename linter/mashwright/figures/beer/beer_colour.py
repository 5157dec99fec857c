"""The figure of the beer's colour."""

from math import hypot

from mashwright.brew.board import lines, number
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import volume_unit
from mashwright.brew.parts import Part, described_by, table_entry, weighed
from mashwright.brewing.colour import SRM_LIMIT, daniels_srm, malt_colour_units, morey_srm, mosher_srm
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.mash import fermenter_volume
from mashwright.measures.constants import EBC_PER_SRM
from mashwright.measures.quantity import Kind, said
from mashwright.measures.range import Range
from mashwright.recipe.stated import Unknown

# How far a beer strays from the formula, as a share; common practice.
SPREAD = 0.20
# A boil past this many minutes darkens a beer beyond the formula, by this share an hour; judgement.
USUAL_BOIL_MIN = 90.0
DARKENS_AN_HOUR = 0.10


@figure("colour", unit="SRM", sources=("morey-1995", "common-practice"))
def colour(brew: Brew) -> Figure:
    """Beer colour from this grist."""
    parts = tuple(part for part in weighed(brew.grist()) if not part.hulls)
    volume, counted = fermenter_volume(brew)
    tints = [(_lovibond(part), part.weight_kg) for part in parts]
    behind = [_sources(brew, part) for part in parts]
    remembered = sum(
        tint.typical * kg for (tint, kg), keys in zip(tints, behind, strict=True) if keys == ("from-memory",)
    )
    summed = Range.weighted_sum(tints)
    summed = Range(max(0.0, summed.low), summed.typical, summed.high)
    mcu = Range.span(malt_colour_units, summed, volume)
    by_morey = mcu.map(morey_srm)
    typical = by_morey.typical
    down = hypot(typical - by_morey.low, SPREAD * typical)
    up = hypot(by_morey.high - typical, (SPREAD + _darkening(brew)) * typical)
    value = Range(max(0.0, typical - down), typical, typical + up)

    def working() -> str:
        rows = [
            f"  {part.weight.text} × {number(tint.typical)} °Lovibond, {part.name}"
            for part, (tint, _) in zip(parts, tints, strict=True)
        ]
        ebc = number(EBC_PER_SRM * typical, 3)
        litres = said(volume.typical, volume_unit(brew), Kind.VOLUME)
        return lines(
            [
                "each weight × its °Lovibond, added up, in lb to the gallon:",
                *rows,
                f"  in {litres} ({counted}) = {number(mcu.typical, 3)} MCU",
                f"1.4922 × {number(mcu.typical, 3)}^0.6859 = {number(typical, 3)} SRM = {ebc} EBC",
                *_limits(value),
            ]
        )

    others = [("by Mosher's line", mosher_srm(mcu.typical)), ("by Daniels' line", daniels_srm(mcu.typical))]
    return Figure(
        value,
        working,
        paths=tuple(part.path for part in parts),
        assumed=("20 % either way for what the formula leaves out: the boil, the kettle, the age of the malt",),
        sources=tuple(key for keys in behind for key in keys),
        parts=(
            ("in EBC", value * EBC_PER_SRM),
            *((name, Range.exact(srm)) for name, srm in others if srm is not None),
        ),
        memory=remembered > 0.5 * summed.typical,
    )


def _limits(value: Range) -> list[str]:
    if value.typical <= SRM_LIMIT:
        return []
    return [f"past {number(SRM_LIMIT)} SRM the formula is not meant to go; such a beer is black"]


def _sources(brew: Brew, part: Part) -> tuple[str, ...]:
    """Where the colour of a part is from; nothing where the recipe, a lot or the brewhouse says it."""
    lot, described = brew.brewhouse.lots.get(part.line.lot), described_by(part.line, brew.brewhouse)
    if any(owner is not None and owner.colour.known for owner in (part.line, lot, described)):
        return ()
    entry = table_entry(part.line, brew.brewhouse)
    return next((keys for what, keys in entry.sources if what == "colour"), ()) if entry is not None else ("judgement",)


def _lovibond(part: Part) -> Range:
    if part.colour_lovibond is None:
        raise Unknown(f"the colour of {part.name}", part.line.colour.path)
    return part.colour_lovibond


def _darkening(brew: Brew) -> float:
    boil = brew.recipe.boil
    minutes = boil.time.range.typical if boil.time.known else 0.0
    return DARKENS_AN_HOUR * max(0.0, minutes - USUAL_BOIL_MIN) / 60
