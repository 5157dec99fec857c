"""What was measured on brew days, as figures: what those days say of the brewhouse and of the yeast."""

from collections.abc import Callable
from typing import NamedTuple

from msgspec.structs import replace

from mashwright.brew.board import gravity, lines, number
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import weight_in
from mashwright.brewing.alcohol import apparent_attenuation as attenuation_of
from mashwright.brewing.gravity import extract_kg
from mashwright.figures.beer.stated import by_balance, fermented
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.mash import extract_of, fermenter_volume
from mashwright.finding import Path
from mashwright.measures.range import Range
from mashwright.recipe.model import BrewDay
from mashwright.recipe.stated import Unknown


class _Day(NamedTuple):
    """What one brew day gave.

    Attributes:
        sum: how it was reckoned, one line.
    """

    name: str
    value: Range
    sum: str
    assumed: str
    paths: tuple[Path, ...]


@figure("measured-efficiency", unit="%", sources=("nbs-c440",))
def measured_efficiency(brew: Brew) -> Figure:
    """Efficiency measured on brew days."""
    stated = brew.recipe.efficiency or brew.recipe.mash_efficiency
    return _averaged(brew, _efficiency_of, "its OG", stated.text if stated.known else "")


@figure("measured-attenuation", unit="%")
def measured_attenuation(brew: Brew) -> Figure:
    """Apparent attenuation measured on brew days."""
    return _averaged(brew, _attenuation_of, "its OG and FG")


@figure("measured-abv", unit="% vol", sources=("balling-nielsen", "cutaia-2009", "oiml-r22"))
def measured_abv(brew: Brew) -> Figure:
    """Alcohol by volume measured on brew days."""
    return _averaged(brew, _abv_of, "its OG and FG", unit="% vol")


def day_name(brew: Brew, day: BrewDay) -> str:
    """A brew day by its date, or by its number in the list; of two on one date the second is told apart."""
    days = brew.recipe.measured
    index = days.index(day)
    if not day.date:
        return f"day {index + 1}"
    same = sum(one.date == day.date for one in days[:index])
    return f"{day.date} ({same + 1})" if same else day.date


def _averaged(
    brew: Brew, of_day: Callable[[Brew, BrewDay], _Day | None], needs: str, stated: str = "", unit: str = "%"
) -> Figure:
    """The mean of the days that can be reckoned, from the lowest to the highest of them."""
    if not brew.recipe.measured:
        raise Unknown("a measured brew day", brew.recipe.measured.path)
    found = [day for day in (of_day(brew, day) for day in brew.recipe.measured) if day is not None]
    if not found:
        raise Unknown(f"a measured brew day with {needs}", ("measured", 0))
    mean = sum(day.value.typical for day in found) / len(found)
    value = Range(min(day.value.low for day in found), mean, max(day.value.high for day in found))

    def working() -> str:
        rows = [day.sum for day in found]
        if len(found) > 1:
            top = " + ".join(number(day.value.typical, 3) for day in found)
            rows.append(f"on average ({top}) ÷ {len(found)} = {number(mean, 3)} {unit}")
        return lines([*rows, f"the recipe says {stated}"] if stated else rows)

    return Figure(
        value,
        working,
        paths=tuple(path for day in found for path in day.paths),
        assumed=tuple(dict.fromkeys(day.assumed for day in found if day.assumed)),
        parts=tuple((day.name, day.value) for day in found) if len(found) > 1 else (),
    )


def _efficiency_of(brew: Brew, day: BrewDay) -> _Day | None:
    """What part of the mashed lines' extract arrived, counted where the recipe counts its own efficiency."""
    start = day.measured.og
    if not start.known:
        return None
    extract = extract_of(brew)
    if extract.mashed.typical <= 0:
        raise Unknown("mashed grain that gives extract", brew.recipe.grist.path)
    name = day_name(brew, day)
    batch = day.batch if day.batch.stated.known else brew.recipe.batch
    assumed = "" if batch is day.batch else f"the recipe's own batch on {name}, since no other was measured"
    on_the_day = replace(brew, recipe=replace(brew.recipe, batch=batch), computed={})
    volume, counted = fermenter_volume(on_the_day)
    value = Range.span(
        lambda sg, v, o, m: 100 * (extract_kg(v, sg) - o) / m, start.range, volume, extract.other, extract.mashed
    )
    held = extract_kg(volume.typical, start.range.typical)
    of_it = f", {weight_in(brew, held - extract.other.typical)} of it mashed" if extract.other.typical > 0 else ""
    sum_ = (
        f"{name}: {start.text}, {counted}, is {weight_in(brew, held)} of extract{of_it};"
        f" ÷ {weight_in(brew, extract.mashed.typical)} in the mashed grain = {number(value.typical, 3)} %"
    )
    return _Day(name, value, sum_, assumed, (start.path,))


def _attenuation_of(brew: Brew, day: BrewDay) -> _Day | None:
    start, end, stated = day.measured.og, day.measured.fg, day.measured.attenuation
    name = day_name(brew, day)
    if start.known and end.known and start.range.low > 1:
        value = attenuation_of(start.range.typical, end.range.typical)
        first, last = gravity(start.range.typical), gravity(end.range.typical)
        sum_ = f"{name}: ({first} - {last}) ÷ ({first} - 1) × 100 = {number(value, 3)} %"
        return _Day(name, Range.exact(value), sum_, "", (start.path, end.path))
    if stated.known:
        return _Day(name, stated.range, f"{name}: {stated.text} as measured", "", (stated.path,))
    return None


def _abv_of(brew: Brew, day: BrewDay) -> _Day | None:
    """Alcohol of one day: by its gravities, else as it was written down."""
    name, found, stated = day_name(brew, day), fermented(day.measured), day.measured.abv
    if found is not None:
        value = found.abv
        return _Day(name, value, f"{name}: {by_balance(found, value)}", "", found.paths)
    if stated.known:
        return _Day(name, stated.range, f"{name}: {stated.text} as measured", "", (stated.path,))
    return None
