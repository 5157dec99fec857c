"""Measures of old recipes, each with its definition and where that comes from; plain rows, made into units by `units`.

A row: kind, name, spellings, factor to the canonical unit of the kind, what to tell the reader of the recipe.

Sources of the definitions:
    Weights and Measures Act 1985 (UK), schedule 1: pound 0.45359237 kg exactly, gallon 4.54609 l exactly, cwt 112 lb,
        stone 14 lb. The same pound: international yard and pound agreement, 1959.
    NIST Handbook 44, appendix C: US gallon 231 cubic inches, US hundredweight 100 lb, US barrel of beer 31 gallons
        (the last is also the tax definition, 26 USC 5051; from memory).
    Common practice of the British trade: quarter of malt 336 lb (8 bushels of 42 lb), quarter of brewing sugar 224 lb,
        casks as multiples of the 9 gallon firkin, brewer's pounds. The quarter is that of pale malt and of the ledgers;
        a measured one of blown brown malt weighed some 250 lb (from memory), which is told and not reckoned with.
    Common practice of the American trade: bushel of malt 34 lb.
    The German customs union's pound (Pfund, Zollpfund): 500 g by definition, in use from 1858; its Zentner is 100 of
        them (from memory).
"""

from mashwright.measures.constants import KG_PER_LB, L_PER_IMPERIAL_GALLON, L_PER_US_GALLON

QUARTER_OF_MALT_LB = 336
QUARTER_OF_SUGAR_LB = 224
BARREL_OF_WATER_LB = 360
"""36 imperial gallons of 10 lb: brewer's pounds are what a barrel of wort weighs above it."""

MASSES = (
    (
        "quarters of malt",
        ("quartermalt",),
        336 * KG_PER_LB,
        "British quarters of malt, 336 lb each (brown malt by measure was lighter, some 250 lb)",
    ),
    ("quarters of sugar", ("quartersugar",), 224 * KG_PER_LB, "British quarters of brewing sugar, 224 lb each"),
    (
        "bushels",
        ("bushel", "impbushel", "bushelmalt", "impbushelmalt"),
        42 * KG_PER_LB,
        "British bushels of malt, 42 lb each (brown malt by measure was lighter, some 31 lb)",
    ),
    ("US bushels", ("usbushel", "usbushelmalt"), 34 * KG_PER_LB, "American bushels of malt, 34 lb each"),
    ("cwt", ("cwt", "impcwt", "longcwt"), 112 * KG_PER_LB, "British hundredweights, 112 lb each"),
    ("US cwt", ("uscwt", "shortcwt"), 100 * KG_PER_LB, "American hundredweights, 100 lb each"),
    ("stone", ("stone", "st"), 14 * KG_PER_LB, "stones of 14 lb"),
    ("Pfund", ("pfund", "pfd", "zollpfund"), 0.5, "German pounds of 500 g"),
    ("Zentner", ("zentner", "ztr", "zollzentner"), 50, "German Zentner, 50 kg each"),
)

VOLUMES = (
    ("British barrels", ("impbbl",), 36 * L_PER_IMPERIAL_GALLON, "British barrels, 36 imperial gallons each"),
    ("US barrels", ("usbbl",), 31 * L_PER_US_GALLON, "American barrels of beer, 31 US gallons each"),
    ("pins", ("pin",), 4.5 * L_PER_IMPERIAL_GALLON, "pins, 4.5 imperial gallons each"),
    ("firkins", ("firkin",), 9 * L_PER_IMPERIAL_GALLON, "firkins, 9 imperial gallons each"),
    ("kilderkins", ("kilderkin", "kil"), 18 * L_PER_IMPERIAL_GALLON, "kilderkins, 18 imperial gallons each"),
    ("hogsheads", ("hogshead", "hhd"), 54 * L_PER_IMPERIAL_GALLON, "hogsheads of beer, 54 imperial gallons each"),
)

IMPERIAL = frozenset(
    {
        "quarters of malt",
        "quarters of sugar",
        "bushels",
        "cwt",
        "stone",
        "barrels",
        "British barrels",
        "pins",
        "firkins",
    }
    | {"kilderkins", "hogsheads", "imp gal", "imp qt", "imp pt", "imp fl oz", "lb/barrel", "imp gal/h", "imp qt/lb"}
    | {"imp pt/lb", "imp gal/lb", "oz/imp gal", "lb/British barrel", "grains/imp gal"}
)
"""Units that only a British recipe uses: beside them a bare gallon may be the imperial one."""

ASKED = {
    "gal": ("imp gal", "US gal"),
    "qt": ("imp qt", "US qt"),
    "pt": ("imp pt", "US pt"),
    "fl oz": ("imp fl oz", "US fl oz"),
    "gal/h": ("imp gal/h", "US gal/h"),
    "qt/lb": ("imp qt/lb", "US qt/lb"),
    "pt/lb": ("imp pt/lb", "US pt/lb"),
    "gal/lb": ("imp gal/lb", "US gal/lb"),
    "oz/gal": ("oz/imp gal", "oz/US gal"),
    "grains/gal": ("grains/imp gal", "grains/US gal"),
}
"""Bare American units that are asked about beside those, and the two ways to write them."""


def implies_imperial(unit: str) -> bool:
    """Whether a unit, as `Quantity.unit` names it, shows that a recipe is in British measures."""
    return unit in IMPERIAL
