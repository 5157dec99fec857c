"""The units in which a recipe is told: its own, whatever the sums are done in."""

from mashwright.figures.board import number
from mashwright.figures.brew import Brew
from mashwright.finding import Range
from mashwright.reading.quantity import Kind, from_canonical, said, to_canonical
from mashwright.reading.units import counted

_MANY = 100.0
_BESIDE_A_WEIGHT = ("l", "gal", "qt", "pt", "oz")  # ends of units in which a volume is told to the weight
_POUNDS = ("lb", "oz", "lb oz")
_METRIC = ("l", "ml", "hl")


def grain_unit(brew: Brew) -> str:
    """The unit of the heaviest line of the grist; pounds where that is a measure of malt only, such as a quarter."""
    unit = max(brew.grist(), key=lambda part: part.amount).weight.unit
    if unit == "%":
        batch = brew.recipe.batch
        volume = batch.stated if batch is not None else None
        return "kg" if volume is None or volume.unit in _METRIC else "lb"
    return unit if unit in ("kg", "g", "lb", "oz", "lb oz") else "lb"


def weight_in(brew: Brew, kg: float) -> str:
    """A weight in the unit in which the recipe weighs its grain."""
    unit = grain_unit(brew)
    if unit != "lb oz" and (value := from_canonical(kg, unit, Kind.MASS)) >= 100:
        return f"{value:.0f} {unit}"
    return said(kg, unit, Kind.MASS)


def litres_in(brew: Brew, litres: Range | float) -> str:
    """A volume in the unit in which the recipe states its batch; barrels as they are.

    What is large for its unit has three digits: no brewer measures a barrel to the thousandth.
    """
    unit = volume_unit(brew)
    if isinstance(litres, float):
        there = from_canonical(litres, unit, Kind.VOLUME)
        if there >= _MANY or (there >= 1 and not unit.endswith(_BESIDE_A_WEIGHT)) or unit == "hl":
            return counted(number(float(f"{there:.3g}"), 3), unit)
    return said(litres, unit, Kind.VOLUME)


def volume_unit(brew: Brew) -> str:
    """The unit in which the recipe states its batch; l where it states none."""
    batch = brew.recipe.batch
    stated = batch.stated if batch is not None else None
    return stated.unit if stated is not None else "l"


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
    mash = brew.recipe.mash
    if mash is not None and mash.thickness is not None:
        return mash.thickness.unit
    if grain_unit(brew) not in _POUNDS:
        return "l/kg"
    return _QUARTS.get(volume_unit(brew), "l/kg")


_QUARTS = {"gal": "qt/lb", "qt": "qt/lb", "US gal": "US qt/lb", "US qt": "US qt/lb", "imp gal": "imp qt/lb"}


def thickness_in(brew: Brew, litres_per_kg: float) -> str:
    """A thickness in the recipe's own unit. Raises as ``thickness_unit``."""
    unit = thickness_unit(brew)
    return f"{number(from_canonical(litres_per_kg, unit, Kind.THICKNESS), 3)} {unit}"


def degrees(brew: Brew, celsius: Range | float) -> str:
    """A temperature in the unit in which the recipe states those of its mash; °F beside pounds."""
    return said(celsius, scale_of(brew), Kind.TEMPERATURE)


def scale_of(brew: Brew) -> str:
    """The unit in which the recipe states the temperatures of its mash; °F beside gallons where it states none."""
    mash, steep = brew.recipe.mash, brew.recipe.steep
    stated = [rest.at for rest in mash.rests] + [mash.strike] if mash is not None else []
    for quantity in (*stated, steep.at if steep is not None else None):
        if quantity is not None:
            return quantity.unit
    batch = brew.recipe.batch
    volume = batch.stated if batch is not None else None
    return "°C" if volume is None or volume.unit in _METRIC else "°F"


def warmer(brew: Brew, rise_c: float) -> str:
    """By how much something is warmer, in degrees of the recipe's own scale."""
    unit = scale_of(brew)
    zero, up = (from_canonical(celsius, unit, Kind.TEMPERATURE) for celsius in (0.0, rise_c))
    return f"{number(up - zero, 2)} {unit}"


def on_scale(brew: Brew, celsius: float) -> str:
    """A temperature as a bare number of the recipe's own scale; heat balances hold on any."""
    return number(from_canonical(celsius, scale_of(brew), Kind.TEMPERATURE), 3)
