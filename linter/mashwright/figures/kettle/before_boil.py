"""The figure of the wort's strength before the boil, which a brewer can still mend by water, malt extract or time."""

from mashwright.brew.board import gravity, lines, number
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import litres_in, weight_in
from mashwright.brew.pours import top_up
from mashwright.brewing.gravity import extract_kg, gravity_of, plato
from mashwright.brewing.volumes import COOLED_SHARE
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.kettle.boil_volumes import KETTLE_SOURCES, kettle
from mashwright.figures.mash import deliveries, extract_of, fermenter_volume, og
from mashwright.ingredients.kinds import Place
from mashwright.measures.range import Range
from mashwright.recipe.stated import Open, Unknown


@figure("pre-boil-gravity", unit="SG", sources=("nbs-c440", *KETTLE_SOURCES))
def pre_boil_gravity(brew: Brew) -> Figure:
    """Gravity before the boil."""
    start, reckoned, extract = og(brew), kettle(brew), extract_of(brew)
    efficiency = brew.efficiency
    later = _placed(brew, Place.FERMENTER)
    kept = 1.0
    if not efficiency.in_kettle:
        arrives = fermenter_volume(brew)[0].typical - top_up(brew, "fermenter").typical
        if arrives <= 0:
            raise Open("wort that is boiled", brew.recipe.top_up.fermenter.path)
        # the extract is counted in the fermenter; what stays in the kettle holds as much of it to the litre
        kept = (reckoned.wort.typical + reckoned.loss.typical) / arrives
    boil = brew.recipe.boil
    stated = boil.volume
    if stated.known:
        if stated.range.low <= 0:
            raise Open("a volume before the boil of more than nothing", brew.recipe.boil.volume.path)
        # a kettle is filled hot; the thin end is for a volume that was measured cold
        cold = Range(stated.range.low * COOLED_SHARE, stated.range.typical * COOLED_SHARE, stated.range.high)
        text = stated.text
    else:
        cold = reckoned.pre * COOLED_SHARE
        text = litres_in(brew, reckoned.pre.typical)
    if cold.low <= 0:
        raise Unknown("wort that is boiled", brew.recipe.boil.volume.path)

    def strength(mashed: float, share: float, other: float, volume: float) -> float:
        return gravity_of(max(0.0, mashed * share + other - later) * kept, volume)

    value = Range.along(strength, (extract.mashed, extract.arriving, extract.other), (cold,))
    in_kettle = max(0.0, extract.mashed.typical * extract.arriving.typical + extract.other.typical - later) * kept
    added = _placed(brew, Place.KETTLE) * kept
    parts: tuple[tuple[str, Range], ...] = (("in °P", value.map(plato)),)
    if added > 0:
        before = Range(
            *(
                gravity_of(max(0.0, one - added), volume)
                for one, volume in (
                    (extract_kg(cold.high, value.low), cold.high),
                    (in_kettle, cold.typical),
                    (extract_kg(cold.low, value.high), cold.low),
                )
            )
        )
        parts += (("before sugar and extract go in", before),)

    def working() -> str:
        rows = [f"{weight_in(brew, in_kettle)} of extract in {text} of hot wort, × {COOLED_SHARE:g} when cooled"]
        if kept > 1.005:
            rows[0] += f" ({number(100 * (1 - 1 / kept), 2)} % of it stays in the kettle)"
        rows.append(f"  = {number(plato(value.typical), 3)} °P = {gravity(value.typical)}")
        return lines(rows)

    return Figure(
        value,
        working,
        paths=(*start.paths, *((brew.recipe.boil.volume.path,) if stated.known else ())),
        assumed=tuple(dict.fromkeys((*start.assumed, *reckoned.assumed))),
        sources=start.sources,
        parts=parts,
        memory=start.memory,
    )


def _placed(brew: Brew, place: str) -> float:
    """Typical extract, kg, of what goes into one vessel."""
    return sum(one.typical_kg for one in deliveries(brew) if one.part.place == place)
