"""The table of units: of each kind of quantity, its units, their spellings and how each turns into the canonical unit.

Exact definitions: international yard and pound agreement 1959 (lb), US gallon of 231 cubic inches, Weights and Measures
Act 1985 (imperial gallon), SI brochure (bar, time). Others carry their source beside them.
"""

from enum import StrEnum
from typing import NamedTuple

from mashwright.measures import archaic
from mashwright.measures.constants import (
    ATMOSPHERE_BAR,
    BAR_PER_PSI,
    CACO3_MG_PER_MEQ,
    CO2_G_PER_VOLUME,
    EBC_BELOW_LOVIBOND,
    EBC_PER_LOVIBOND,
    KG_PER_LB,
    KG_PER_OZ,
    L_PER_IMPERIAL_GALLON,
    L_PER_US_GALLON,
    MG_PER_GRAIN,
    MIN_PER_DAY,
    MIN_PER_MONTH,
    MIN_PER_YEAR,
    SRM_BELOW_LOVIBOND,
    SRM_PER_EBC,
    SRM_PER_LOVIBOND,
)


class Kind(StrEnum):
    """What a field holds; the comment names the canonical unit."""

    MASS = "mass"  # kg
    VOLUME = "volume"  # l
    TEMPERATURE = "temperature"  # °C
    TIME = "time"  # min
    GRAVITY = "gravity"  # SG
    DIASTATIC_POWER = "diastatic power"  # °Lintner
    MALT_COLOUR = "malt colour"  # °Lovibond
    SUGAR_COLOUR = "sugar colour"  # °Lovibond
    BEER_COLOUR = "beer colour"  # SRM
    BITTERNESS = "bitterness"  # IBU
    SHARE = "share"  # %
    CARBONATION = "carbonation"  # volumes
    PRESSURE = "pressure"  # bar
    CONCENTRATION = "concentration"  # mg/l
    ALKALINITY = "alkalinity"  # mg/l as CaCO3
    EXTRACT = "extract"  # %
    THICKNESS = "thickness"  # l/kg
    ABSORPTION = "absorption"  # l/kg
    RATE = "rate"  # l/h
    DOSE = "dose"  # g/l
    CELLS = "cells"  # 10^9
    PACKS = "packs"  # packs
    ALPHA_UNITS = "alpha units"  # AAU, ounces times per cent
    ALTITUDE = "altitude"  # m
    PH = "pH"
    COUNT = "count"
    NUMBER = "number"
    PITCH = "pitch"  # one of those in EITHER
    BOTTLE_RATING = "bottle rating"  # the same
    # what settings of rules hold besides, and no field of a recipe
    TEMPERATURE_DIFFERENCE = "difference of temperature"  # °C
    GRAVITY_DIFFERENCE = "difference of gravity"  # points
    MALT_COLOUR_DIFFERENCE = "difference of malt colour"  # °Lovibond
    BEER_COLOUR_DIFFERENCE = "difference of beer colour"  # SRM
    EQUIVALENTS = "acid or charge"  # mEq/l
    EQUIVALENTS_TO_GRAIN = "acid to the grain"  # mEq/kg
    FACTOR = "factor"  # times


DIFFERENCES: dict[Kind, Kind] = {
    Kind.TEMPERATURE: Kind.TEMPERATURE_DIFFERENCE,
    Kind.GRAVITY: Kind.GRAVITY_DIFFERENCE,
    Kind.MALT_COLOUR: Kind.MALT_COLOUR_DIFFERENCE,
    Kind.BEER_COLOUR: Kind.BEER_COLOUR_DIFFERENCE,
}
"""Kinds of which a difference is read otherwise than a value, since a scale starts elsewhere or bends."""
OF_SETTINGS = frozenset({*DIFFERENCES.values(), Kind.EQUIVALENTS, Kind.EQUIVALENTS_TO_GRAIN, Kind.FACTOR})
"""Kinds that no field of a recipe takes: nothing in a recipe is told that it is one of them."""


EITHER: dict[Kind, tuple[Kind, ...]] = {
    Kind.PITCH: (Kind.MASS, Kind.CELLS, Kind.PACKS, Kind.VOLUME, Kind.DOSE),
    Kind.BOTTLE_RATING: (Kind.PRESSURE, Kind.CARBONATION),
}
"""Kinds of field that take a quantity of one of several kinds; the quantity read is of one of these."""


class Unit(NamedTuple):
    """One unit: canonical = value × scale + offset.

    Attributes:
        name: its usual spelling.
        digits: decimals that a brewer writes.
        step: the smallest step that can be weighed or set, in this unit.
        meaning: for archaic or doubtful units, the definition that was chosen.
        spread: how far the conversion itself may be out, as a share.
    """

    name: str
    scale: float
    offset: float = 0.0
    digits: int = 1
    step: float = 1.0
    meaning: str = ""
    spread: float = 0.0


_EXTRACT_PPG = 46.2
"""Points of 1 lb sucrose made up to 1 US gal, from the cubic in gravity_scale: 11.47 °P, SG 1.0462."""
_LITRE_DEGREES_PPG = L_PER_US_GALLON / KG_PER_LB

_POINTS_A_PLATO = 4
"""Points of gravity in one degree Plato, as brewers reckon in their heads: common practice."""

_COLOUR_DEGREES = (
    (("SRM", "srm asbc"), 1 / SRM_PER_LOVIBOND, SRM_BELOW_LOVIBOND / SRM_PER_LOVIBOND, 1, 1),
    (("EBC", "ebc"), 1 / EBC_PER_LOVIBOND, EBC_BELOW_LOVIBOND / EBC_PER_LOVIBOND, 1, 1),
)
_WATER_TO_GRAIN = (
    (("l/kg", "l/kg ml/g"), 1, 0, 2, 0.05),
    (("qt/lb", "qt/lb"), L_PER_US_GALLON / 4 / KG_PER_LB, 0, 2, 0.05),
    (("US qt/lb", "usqt/lb"), L_PER_US_GALLON / 4 / KG_PER_LB, 0, 2, 0.05),
    (("imp qt/lb", "impqt/lb"), L_PER_IMPERIAL_GALLON / 4 / KG_PER_LB, 0, 2, 0.05),
    (("pt/lb", "pt/lb"), L_PER_US_GALLON / 8 / KG_PER_LB, 0, 2, 0.1),
    (("US pt/lb", "uspt/lb"), L_PER_US_GALLON / 8 / KG_PER_LB, 0, 2, 0.1),
    (("imp pt/lb", "imppt/lb"), L_PER_IMPERIAL_GALLON / 8 / KG_PER_LB, 0, 2, 0.1),
    (("gal/lb", "gal/lb"), L_PER_US_GALLON / KG_PER_LB, 0, 3, 0.01),
    (("US gal/lb", "usgal/lb"), L_PER_US_GALLON / KG_PER_LB, 0, 3, 0.01),
    (("imp gal/lb", "impgal/lb"), L_PER_IMPERIAL_GALLON / KG_PER_LB, 0, 3, 0.01),
)

_Row = tuple[tuple[str, str], float, float, int, float]

# (usual name, keys as unit_key gives them), scale, offset, digits, step
ROWS: dict[Kind, tuple[_Row, ...]] = {
    Kind.MASS: (
        (("kg", "kg"), 1, 0, 2, 0.01),
        (("g", "g"), 1e-3, 0, 0, 1),
        (("lb", "lb #"), KG_PER_LB, 0, 2, 0.0625),
        (("oz", "oz"), KG_PER_OZ, 0, 2, 0.25),
        (("lb oz", "lboz"), KG_PER_LB, 0, 2, 0.0625),
        (("mg", "mg"), 1e-6, 0, 0, 1),
        (("t", "t tonne"), 1000, 0, 3, 0.001),
    ),
    Kind.VOLUME: (
        (("l", "l"), 1, 0, 1, 0.1),
        (("ml", "ml"), 1e-3, 0, 0, 1),
        (("gal", "gal"), L_PER_US_GALLON, 0, 2, 0.05),
        (("qt", "qt"), L_PER_US_GALLON / 4, 0, 2, 0.1),
        (("pt", "pt"), L_PER_US_GALLON / 8, 0, 2, 0.25),
        (("fl oz", "floz"), L_PER_US_GALLON / 128, 0, 1, 0.5),
        (("hl", "hl"), 100, 0, 2, 0.01),
        (("US gal", "usgal"), L_PER_US_GALLON, 0, 2, 0.05),
        (("US qt", "usqt"), L_PER_US_GALLON / 4, 0, 2, 0.1),
        (("US pt", "uspt"), L_PER_US_GALLON / 8, 0, 2, 0.25),
        (("US fl oz", "usfloz"), L_PER_US_GALLON / 128, 0, 1, 0.5),
        (("imp gal", "impgal"), L_PER_IMPERIAL_GALLON, 0, 2, 0.05),
        (("imp qt", "impqt"), L_PER_IMPERIAL_GALLON / 4, 0, 2, 0.1),
        (("imp pt", "imppt"), L_PER_IMPERIAL_GALLON / 8, 0, 2, 0.25),
        (("imp fl oz", "impfloz"), L_PER_IMPERIAL_GALLON / 160, 0, 1, 0.5),
        (("barrels", "bbl"), 36 * L_PER_IMPERIAL_GALLON, 0, 3, 0.01),
    ),
    Kind.TEMPERATURE: (
        (("°C", "c"), 1, 0, 1, 0.5),
        (("°F", "f"), 5 / 9, -160 / 9, 0, 1),
        (("°Réaumur", "re r"), 1.25, 0, 1, 0.5),  # 0-80 from melting ice to the boil, by definition
    ),
    Kind.TIME: (
        (("min", "min"), 1, 0, 0, 1),
        (("h", "h"), 60, 0, 2, 0.25),
        (("d", "d"), MIN_PER_DAY, 0, 1, 1),
        (("weeks", "week wk w"), 10080, 0, 1, 1),
        (("s", "s sec"), 1 / 60, 0, 0, 10),
        (("months", "month"), MIN_PER_MONTH, 0, 1, 1),
        (("years", "year yr y"), MIN_PER_YEAR, 0, 1, 0.25),
        (("h min", "hmin"), 60, 0, 2, 1 / 60),
    ),
    Kind.GRAVITY: (
        (("SG", "sg og fg"), 1, 0, 3, 0.001),
        (("°P", "p"), 1, 0, 1, 0.1),
        (("°Brix", "brix bx"), 1, 0, 1, 0.1),
        (("°Balling", "balling blg"), 1, 0, 1, 0.1),
        (("points", "point"), 1e-3, 1, 0, 1),
        # gravity of a 36 gallon barrel: pounds above the 360 lb of water
        (("lb/barrel", "lb/bbl lb/impbbl brewerlb lbgravity"), 1 / archaic.BARREL_OF_WATER_LB, 1, 1, 0.1),
    ),
    Kind.DIASTATIC_POWER: (
        (("°Lintner", "lintner l"), 1, 0, 0, 1),
        (("°WK", "wk"), 1 / 3.5, 16 / 3.5, 0, 1),  # Oxford Companion to Beer, "Lintner"
        (("°IoB", "iob"), 1, 0, 0, 1),  # from memory: Lintner's scale by another method
    ),
    Kind.MALT_COLOUR: ((("°Lovibond", "lovibond l lov"), 1, 0, 1, 1), *_COLOUR_DEGREES),
    Kind.SUGAR_COLOUR: (
        (("°Lovibond", "lovibond l lov"), 1, 0, 1, 1),
        (("SRM", "srm asbc"), 1, 0, 1, 1),  # a dissolved colour, measured as beer is
        (("EBC", "ebc"), SRM_PER_EBC, 0, 1, 1),
    ),
    Kind.BEER_COLOUR: (
        (("SRM", "srm asbc"), 1, 0, 1, 0.5),
        (("EBC", "ebc"), SRM_PER_EBC, 0, 1, 1),
        (("°Lovibond", "lovibond l lov"), SRM_PER_LOVIBOND, -SRM_BELOW_LOVIBOND, 1, 0.5),
    ),
    Kind.BITTERNESS: ((("IBU", "ibu bu ebu"), 1, 0, 0, 1),),
    Kind.SHARE: ((("%", "% %abv %vol %aa %alpha %byvolume %byweight"), 1, 0, 1, 0.5),),
    Kind.CARBONATION: (
        (("volumes", "vol v"), 1, 0, 2, 0.1),
        (("g/l", "g/l"), 1 / CO2_G_PER_VOLUME, 0, 1, 0.1),
    ),
    Kind.PRESSURE: (
        (("bar", "bar"), 1, 0, 2, 0.05),
        (
            ("psi", "psi psig"),
            BAR_PER_PSI,
            0,
            1,
            0.5,
        ),  # lbf/in², from the exact pound, inch and standard gravity
        (("kPa", "kpa"), 0.01, 0, 0, 5),
        (("mbar", "mbar"), 1e-3, 0, 0, 50),
        (("atm", "atm"), ATMOSPHERE_BAR, 0, 2, 0.05),
    ),
    Kind.CONCENTRATION: (
        (("mg/l", "mg/l"), 1, 0, 0, 1),
        (("ppm", "ppm"), 1, 0, 0, 1),  # of water, 1 kg to the litre
        (("g/l", "g/l"), 1000, 0, 3, 0.01),
        (("grains/gal", "gr/gal gpg"), MG_PER_GRAIN / L_PER_US_GALLON, 0, 1, 0.1),
        (("grains/US gal", "gr/usgal"), MG_PER_GRAIN / L_PER_US_GALLON, 0, 1, 0.1),
        (("grains/imp gal", "gr/impgal"), MG_PER_GRAIN / L_PER_IMPERIAL_GALLON, 0, 1, 0.1),
    ),
    Kind.ALKALINITY: (
        (("mg/l", "mg/l"), 1, 0, 0, 1),
        (("ppm", "ppm"), 1, 0, 0, 1),
        # equivalents by molar masses: CaCO3 100.09, CaO 56.077
        (("mEq/l", "meq/l mval/l mmol/l mval"), CACO3_MG_PER_MEQ, 0, 2, 0.1),
        (("°dH", "dh"), 17.848, 0, 1, 0.1),
        (("°fH", "fh"), 10, 0, 1, 0.1),
        (("grains/gal", "gr/gal gpg"), MG_PER_GRAIN / L_PER_US_GALLON, 0, 1, 0.1),
        (("grains/US gal", "gr/usgal"), MG_PER_GRAIN / L_PER_US_GALLON, 0, 1, 0.1),
        (("grains/imp gal", "gr/impgal clark"), MG_PER_GRAIN / L_PER_IMPERIAL_GALLON, 0, 1, 0.1),
    ),
    Kind.EXTRACT: (
        (("%", "%"), 1, 0, 1, 0.1),
        (("l°/kg", "l/kg litredegree/kg hwe"), 100 / (_EXTRACT_PPG * _LITRE_DEGREES_PPG), 0, 0, 1),
        (("ppg", "ppg pppg point/lb/gal pointgal/lb"), 100 / _EXTRACT_PPG, 0, 1, 0.1),
    ),
    Kind.THICKNESS: _WATER_TO_GRAIN,
    Kind.ABSORPTION: _WATER_TO_GRAIN,
    Kind.RATE: (
        (("l/h", "l/h"), 1, 0, 1, 0.1),
        (("gal/h", "gal/h gph"), L_PER_US_GALLON, 0, 2, 0.05),
        (("US gal/h", "usgal/h"), L_PER_US_GALLON, 0, 2, 0.05),
        (("imp gal/h", "impgal/h"), L_PER_IMPERIAL_GALLON, 0, 2, 0.05),
        (("qt/h", "qt/h"), L_PER_US_GALLON / 4, 0, 2, 0.1),
        (("l/min", "l/min"), 60, 0, 2, 0.1),
        (("ml/min", "ml/min"), 0.06, 0, 0, 10),
    ),
    Kind.DOSE: (
        (("g/l", "g/l"), 1, 0, 1, 0.1),
        (("oz/gal", "oz/gal"), KG_PER_OZ * 1000 / L_PER_US_GALLON, 0, 2, 0.05),
        (("oz/US gal", "oz/usgal"), KG_PER_OZ * 1000 / L_PER_US_GALLON, 0, 2, 0.05),
        (("oz/imp gal", "oz/impgal"), KG_PER_OZ * 1000 / L_PER_IMPERIAL_GALLON, 0, 2, 0.05),
        (("g/hl", "g/hl"), 0.01, 0, 0, 1),
        (("mg/l", "mg/l"), 1e-3, 0, 0, 1),
        (("lb/US barrel", "lb/usbbl"), KG_PER_LB * 1000 / (31 * L_PER_US_GALLON), 0, 2, 0.05),
        (("lb/British barrel", "lb/impbbl"), KG_PER_LB * 1000 / (36 * L_PER_IMPERIAL_GALLON), 0, 2, 0.05),
    ),
    Kind.CELLS: (
        (("billion cells", "billioncell billion bncell bn bcell b"), 1, 0, 0, 10),
        (("million cells", "millioncell million"), 1e-3, 0, 0, 1000),
        (("trillion cells", "trillioncell"), 1000, 0, 3, 0.01),
        (("cells", "cell"), 1e-9, 0, 0, 1e9),
    ),
    Kind.PACKS: ((("packs", "pack packet sachet vial pouch smackpack pkg pkt pck pk tube"), 1, 0, 1, 1),),
    Kind.ALPHA_UNITS: ((("AAU", "aau hbu alphaunit"), 1, 0, 1, 0.1),),
    Kind.ALTITUDE: ((("m", "m"), 1, 0, 0, 1), (("ft", "ft"), 0.3048, 0, 0, 1)),
    Kind.PH: ((("pH", "ph"), 1, 0, 2, 0.05),),
    Kind.COUNT: ((("", "each piece tablet pod bag"), 1, 0, 0, 1),),
    Kind.NUMBER: ((("", ""), 1, 0, 4, 0.01),),
    Kind.TEMPERATURE_DIFFERENCE: (
        (("°C", "c"), 1, 0, 1, 0.5),
        (("°F", "f"), 5 / 9, 0, 1, 1),
        (("K", "k kelvin"), 1, 0, 1, 0.5),
        (("°Réaumur", "re r"), 1.25, 0, 1, 0.5),
    ),
    Kind.GRAVITY_DIFFERENCE: (
        (("points", "point"), 1, 0, 1, 1),
        (("°P", "p"), _POINTS_A_PLATO, 0, 2, 0.1),
        (("°Brix", "brix bx"), _POINTS_A_PLATO, 0, 2, 0.1),
        (("°Balling", "balling"), _POINTS_A_PLATO, 0, 2, 0.1),
        (("SG", "sg"), 1000, 0, 4, 0.001),
        (("lb/barrel", "lb/bbl lb/impbbl brewerlb lbgravity"), 1000 / archaic.BARREL_OF_WATER_LB, 0, 2, 0.1),
    ),
    Kind.MALT_COLOUR_DIFFERENCE: (
        (("°Lovibond", "lovibond l lov"), 1, 0, 1, 1),
        *((names, scale, 0.0, digits, step) for names, scale, _, digits, step in _COLOUR_DEGREES),
    ),
    Kind.BEER_COLOUR_DIFFERENCE: (
        (("SRM", "srm asbc"), 1, 0, 1, 0.5),
        (("EBC", "ebc"), SRM_PER_EBC, 0, 1, 1),
        (("°Lovibond", "lovibond l lov"), SRM_PER_LOVIBOND, 0, 1, 0.5),
    ),
    Kind.EQUIVALENTS: ((("mEq/l", "meq/l mval/l mval"), 1, 0, 2, 0.1), (("Eq/l", "eq/l val/l"), 1000, 0, 4, 0.001)),
    Kind.EQUIVALENTS_TO_GRAIN: (
        (("mEq/kg", "meq/kg mval/kg"), 1, 0, 1, 1),
        (("mEq/lb", "meq/lb mval/lb"), 1 / KG_PER_LB, 0, 1, 1),
    ),
    Kind.FACTOR: ((("times", "times time x × fold"), 1, 0, 2, 0.01),),
}

USUAL: dict[Kind, int] = {Kind.MASS: 4, Kind.VOLUME: 5, Kind.TEMPERATURE: 2, Kind.TIME: 4, Kind.GRAVITY: 2}
USUAL |= {Kind.PRESSURE: 3, Kind.CONCENTRATION: 2, Kind.ALKALINITY: 5, Kind.THICKNESS: 2, Kind.ABSORPTION: 2}
USUAL |= {Kind.RATE: 2, Kind.DOSE: 2, Kind.CELLS: 1}
USUAL |= {Kind.TEMPERATURE_DIFFERENCE: 2, Kind.GRAVITY_DIFFERENCE: 2, Kind.EQUIVALENTS: 1}
"""How many of a kind's rows stand in messages; all where none is named."""

_MEANING = {
    (Kind.TEMPERATURE, "°Réaumur"): "degrees Réaumur, 80 from melting ice to the boil",
    (Kind.GRAVITY, "°Balling"): "degrees Balling, the same as °P within 0.005",
    (Kind.GRAVITY, "lb/barrel"): "brewer's pounds, above the 360 lb of a 36 gallon barrel of water",
    (Kind.CONCENTRATION, "grains/gal"): "grains to the US gallon, 17.1 mg/l each",
    (Kind.CONCENTRATION, "grains/imp gal"): "grains to the imperial gallon, 14.3 mg/l each",
    (Kind.ALKALINITY, "grains/gal"): "grains to the US gallon, 17.1 mg/l each",
    (Kind.ALKALINITY, "grains/imp gal"): "grains to the imperial gallon, 14.3 mg/l each",
    (Kind.DIASTATIC_POWER, "°IoB"): "degrees of the Institute of Brewing, like °Lintner within 10 %",
}
_IOB_SPREAD = 0.10
"""The published relation of °WK and °IoB was found up to 10 % out when EBC revised method 4.12 in 2007."""

_ARCHAIC = {Kind.MASS: archaic.MASSES, Kind.VOLUME: archaic.VOLUMES}


def _tables() -> dict[Kind, dict[str, Unit]]:
    tables: dict[Kind, dict[str, Unit]] = {}
    for kind, rows in ROWS.items():
        table = tables[kind] = {}
        for (name, keys), scale, offset, digits, step in rows:
            spread = _IOB_SPREAD if name == "°IoB" else 0.0
            unit = Unit(name, scale, offset, digits, step, _MEANING.get((kind, name), ""), spread)
            table[name] = unit
            table.update(dict.fromkeys(keys.split(), unit))
        for name, spellings, factor, meaning in _ARCHAIC.get(kind, ()):
            unit = Unit(name, factor, 0.0, 3, 0.01, meaning)
            table[name] = unit
            table.update(dict.fromkeys(spellings, unit))
    return tables


TABLES = _tables()
"""Of each kind: its units by usual name and by key."""
