"""What the vessel is asked to hold against what it bears, and the pressure that its gas makes."""

from typing import NamedTuple

from mashwright.brew.board import number, told
from mashwright.brew.brew import Brew
from mashwright.brew.own_units import degrees, own_unit
from mashwright.brewing.carbonation import pressure_bar
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.package.gas import all_gas
from mashwright.figures.package.packaged import co2_share, is_sealed, is_sort, packaging, vessel_of
from mashwright.finding import Level, Path
from mashwright.ingredients import vessels
from mashwright.ingredients.vessels import Vessel, VesselSort
from mashwright.measures.constants import CO2_G_PER_VOLUME
from mashwright.measures.quantity import Kind, from_canonical, said
from mashwright.measures.range import Range
from mashwright.recipe.stated import NOWHERE, Open, Unknown
from mashwright.words.plurals import possessive

_STORES_C = (5.0, 20.0, 30.0)  # a cellar, a room, a hot day
KEG_C = Range(3, 5, 8)  # where none is stated; common practice


class Bearing(NamedTuple):
    """What a vessel bears.

    Attributes:
        vessel: its kind.
        limit: usually up to, doubtful from, made for; where a rating is stated, that alone.
        in_bar: whether in bar at 20 °C; else in volumes.
        rating: the rating as it is stated, ``""`` where none is.
        path: where the recipe states it; () where the brewhouse does, or nobody.
        unit: of the recipe's own for a pressure.
    """

    vessel: Vessel
    limit: Range
    in_bar: bool
    rating: str
    path: Path
    unit: str

    @property
    def plain(self) -> str:
        """The vessel with its article: ``the keg``, ``the bottles``."""
        return f"the {self.vessel.words[0]}"

    @property
    def called(self) -> str:
        """The vessel with what it bears, as a message says it."""
        word = self.vessel.words[0]
        if self.rating:
            return f"{'' if self.vessel.sealed else 'a '}{word} rated {self.rating}"
        low = self.limit.low
        much = (
            said(low, self.unit, Kind.PRESSURE) if self.in_bar else f"{number(low, 2)} volume{'' if low == 1 else 's'}"
        )
        return f"{self.vessel.name}, good for about {much}"


class Stress(NamedTuple):
    """What a vessel is asked to hold against what it bears.

    Attributes:
        value: volumes; or where it bears so many bar: at 20 °C, and at 30 °C as the unfavourable end.
        bearing: what it bears, in the same unit.
        volumes: in words, ``4.5 volumes``, or ``3.4 to 3.6 volumes`` where only the high end is past what it bears.
        pressure: in words, where it bears so many bar; else ``""``.
    """

    value: Range
    bearing: Bearing
    volumes: str
    pressure: str = ""

    def does(self, level: Level) -> str:
        """The sentence that tells what so much gas does to the vessel, among those of whichever rule asks."""
        if self.bearing.vessel.sealed and level > Level.NOTE:
            return "can-burst" if level is Level.ERROR else "may-burst"
        return {Level.ERROR: "is-too-much", Level.WARNING: "may-be-too-much"}.get(level, "could-be-too-much")

    @property
    def rating_of(self) -> str:
        """Whose rating to keep to: ``the bottles' rating``, ``the rating of the keg``."""
        return f"the {possessive(self.bearing.vessel.words[0])} rating"

    @property
    def held(self) -> str:
        """All of it in words."""
        return f"{self.volumes}, {self.pressure}" if self.pressure else self.volumes


def bearing(brew: Brew) -> Bearing | None:
    """What the vessel bears: by the recipe, else by the brewhouse, else by its kind; None where no vessel is known.

    Raises:
        Unknown: the package cannot be read.
    """
    package = packaging(brew)
    vessel = vessel_of(package)
    if vessel is None:
        return None
    stated = package.bottle_rating
    path: Path = brew.recipe.package.bottle_rating.path
    if not stated.known:
        path = ()
        stated = next((one for key, one in brew.brewhouse.ratings.items() if vessels.vessel(key) is vessel), NOWHERE)
    unit = own_unit(brew, "bar")
    if not stated.known:
        return Bearing(vessel, vessel.bears, vessel.in_bar, "", path, unit)
    in_bar = stated.kind is Kind.PRESSURE
    most = brew.bounds.highest_rating_bar if in_bar else brew.bounds.strongest_bottle_volumes
    if path and stated.range.typical > most:
        raise brew.refused(Open("a rating that a bottle can have", path))
    return Bearing(vessel, Range.exact(stated.range.low), in_bar, stated.text, path, unit)


def stress(brew: Brew, gas: Range) -> Stress | None:
    """So much gas, in volumes, against what the vessel bears; None where no vessel is known.

    Raises:
        Unknown: the package cannot be read.
    """
    bears = bearing(brew)
    if bears is None:
        return None
    limit = bears.limit
    if bears.in_bar:
        bar = Range(pressure_bar(gas.low, 20), pressure_bar(gas.typical, 20), pressure_bar(gas.high, 30))
        pressure = f"{told(bar.typical, _past(bar.typical, limit))} bar at 20 °C"
        if bears.vessel.sealed:
            pressure += f", {number(bar.high, 2)} at 30 °C"
        return Stress(bar, bears, f"{number(gas.typical, 2)} volumes", pressure)
    volumes = f"{told(gas.typical, _past(gas.typical, limit))} volumes"
    if gas.typical <= limit.high < gas.high:
        volumes = f"{number(gas.typical, 2)} to {told(gas.high, limit.high)} volumes"
    return Stress(gas, bears, volumes)


def _past(value: float, limit: Range) -> float:
    """The step that a value is past, else the first."""
    return next((step for step in (limit.high, limit.typical) if value > step), limit.low)


@figure("bottle-pressure", unit="bar", sources=("troester-carbonation",))
def bottle_pressure(brew: Brew) -> Figure:
    """Pressure in the bottle at 20 °C."""
    package = packaging(brew)
    if not is_sealed(package):
        raise Unknown("bottles", brew.recipe.package.vessel.path)
    gas = all_gas(brew)
    parts = tuple((f"at {at:g} °C", Range.span(pressure_bar, gas.range, Range.exact(at))) for at in _STORES_C)
    return Figure(
        parts[1][1],
        lambda: (
            f"{number(gas.typical, 3)} volumes in all × {CO2_G_PER_VOLUME:g} g/l"
            " against what beer holds at each temperature, above the air's pressure"
        ),
        paths=gas.paths,
        assumed=gas.assumed,
        parts=parts,
    )


@figure("keg-pressure", unit="bar", sources=("troester-carbonation", "co2-charts"))
def keg_pressure(brew: Brew) -> Figure:
    """Keg pressure for the stated carbonation."""
    package = packaging(brew)
    if not is_sort(package, VesselSort.KEG):
        raise Unknown("a keg", brew.recipe.package.vessel.path)
    wanted, at = package.carbonation.need("the carbonation"), package.at
    at_c, gas = at.range if at.known else KEG_C, package.gas
    if gas.known and gas.range.low <= 0:
        raise Unknown("a gas with carbon dioxide in it", gas.path)
    value = Range.span(pressure_bar, wanted.range, at_c, co2_share(package))
    of_gas = f" of {gas.text}" if gas.known else ""
    return Figure(
        value,
        lambda: (
            f"{wanted.text} at {degrees(brew, at_c.typical)} stay in the beer under {number(value.typical, 3)} bar"
            f"{of_gas} ({number(from_canonical(value.typical, 'psi', Kind.PRESSURE), 3)} psi)"
        ),
        paths=(brew.recipe.package.carbonation.path, *((gas.path,) if gas.known else ())),
        sources=("mixed-gas-manual",) if gas.known else (),
        assumed=() if at.known else (f"{degrees(brew, KEG_C.typical)} in the keg, since none is stated",),
    )
