"""The units in which a recipe is told: its own, whatever the sums are done in."""

from mashwright.brew.board import number
from mashwright.brew.brew import Brew
from mashwright.brew.scale import METRIC, scale_of_recipe
from mashwright.measures.quantity import Kind, from_canonical, said, to_canonical
from mashwright.measures.range import Range
from mashwright.measures.units import counted
from mashwright.recipe.stated import Unknown
from mashwright.words.sentences import Measure

_MANY = 100.0
_BESIDE_A_WEIGHT = ("l", "gal", "qt", "pt", "oz")  # ends of units in which a volume is told to the weight
_POUNDS = ("lb", "oz", "lb oz")


def grain_unit(brew: Brew) -> str:
    """The unit of the heaviest line of the grist; pounds where that is a measure of malt only, such as a quarter."""
    unit = max(brew.grist(), key=lambda part: part.amount).weight.unit
    if unit == "%":
        return "kg" if volume_unit(brew) in METRIC else "lb"
    return unit if unit in ("kg", "g", "lb", "oz", "lb oz") else "lb"


def weight_in(brew: Brew, kg: float) -> Measure:
    """A weight in the unit in which the recipe weighs its grain."""
    unit = grain_unit(brew)
    if unit != "lb oz" and (value := from_canonical(kg, unit, Kind.MASS)) >= 100:
        return Measure(f"{value:.0f} {unit}", value, unit)
    return said(kg, unit, Kind.MASS)


def litres_in(brew: Brew, litres: Range | float) -> Measure:
    """A volume in the unit in which the recipe states its batch; barrels as they are.

    What is large for its unit has three digits: no brewer measures a barrel to the thousandth.
    """
    unit = volume_unit(brew)
    if isinstance(litres, float):
        there = from_canonical(litres, unit, Kind.VOLUME)
        if there >= _MANY or (there >= 1 and not unit.endswith(_BESIDE_A_WEIGHT)) or unit == "hl":
            return Measure(counted(number(float(f"{there:.3g}"), 3), unit), there, unit)
    return said(litres, unit, Kind.VOLUME)


def volume_unit(brew: Brew) -> str:
    """The unit in which the recipe states its batch; l where it states none."""
    return brew.recipe.batch.unit


def to_the_weight(brew: Brew, litres_per_kg: float) -> tuple[float, str, str]:
    """A volume to the weight of grain in the recipe's own units, gallons for barrels: 0.12, gal and lb.

    Raises:
        Unknown: the grist cannot be read.
    """
    volume, weight = volume_unit(brew), "lb" if grain_unit(brew) in _POUNDS else "kg"
    if not volume.endswith(_BESIDE_A_WEIGHT):
        volume = "gal" if volume == "US barrels" else "imp gal"
    elif volume in ("hl", "ml"):
        volume = "l"
    one = from_canonical(litres_per_kg * to_canonical(1, weight, Kind.MASS), volume, Kind.VOLUME)
    return one, volume, weight


def thickness_unit(brew: Brew) -> str:
    """The unit of a mash's thickness: as the recipe states it, quarts to the pound beside gallons and pounds.

    Raises:
        Unknown: the grist cannot be read.
    """
    if stated := brew.recipe.mash.thickness.unit_or(""):
        return stated
    if grain_unit(brew) not in _POUNDS:
        return "l/kg"
    return _QUARTS.get(volume_unit(brew), "l/kg")


_QUARTS = {"gal": "qt/lb", "qt": "qt/lb", "US gal": "US qt/lb", "US qt": "US qt/lb", "imp gal": "imp qt/lb"}


def thickness_in(brew: Brew, litres_per_kg: float) -> str:
    """A thickness in the recipe's own unit. Raises as ``thickness_unit``."""
    unit = thickness_unit(brew)
    return f"{number(from_canonical(litres_per_kg, unit, Kind.THICKNESS), 3)} {unit}"


def degrees(brew: Brew, celsius: Range | float) -> Measure:
    """A temperature in the recipe's own unit, as ``scale_of`` tells it."""
    return said(celsius, scale_of(brew), Kind.TEMPERATURE)


def scale_of(brew: Brew) -> str:
    """The unit in which the recipe states temperatures, those of its mash first; °F beside gallons else."""
    return scale_of_recipe(brew.recipe)


def warmer(brew: Brew, rise_c: float) -> str:
    """By how much something is warmer, in degrees of the recipe's own scale."""
    unit = scale_of(brew)
    zero, up = (from_canonical(celsius, unit, Kind.TEMPERATURE) for celsius in (0.0, rise_c))
    return f"{number(up - zero, 2)} {unit}"


def on_scale(brew: Brew, celsius: float) -> str:
    """A temperature as a bare number of the recipe's own scale; heat balances hold on any."""
    return number(from_canonical(celsius, scale_of(brew), Kind.TEMPERATURE), 3)


KINDS = {"l": Kind.VOLUME, "°C": Kind.TEMPERATURE, "l/kg": Kind.THICKNESS, "bar": Kind.PRESSURE}
"""Canonical units of figures that are shown in the recipe's own, and what they measure."""


def own_unit(brew: Brew, unit: str) -> str:
    """The unit in which the recipe itself writes what a figure tells in ``unit``; the same where it has no other."""
    if unit == "l":
        return volume_unit(brew)
    if unit == "°C":
        return scale_of(brew)
    if unit == "l/kg":
        try:
            return thickness_unit(brew)
        except Unknown:
            return unit
    package = brew.recipe.package
    if unit == "bar" and package.known:
        stated = (package.pressure, package.bottle_rating)
        return next((one.unit for one in stated if one.known and one.kind is Kind.PRESSURE), unit)
    return unit


def said_apart(value: float, other: float, unit: str, kind: Kind) -> Measure:
    """A canonical value in a unit, with as many digits as tell it from another that is not the same."""
    text = said(value, unit, kind)
    if text != said(other, unit, kind):
        return text
    here, there = (from_canonical(one, unit, kind) for one in (value, other))
    digits = next((many for many in range(2, 10) if number(here, many) != number(there, many)), 9)
    return Measure(f"{number(here, digits)} {unit}", here, unit)
