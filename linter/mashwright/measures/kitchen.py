"""Kitchen measures: what a spoon or a cup of a brewer's salt, sugar, acid or hulls weighs, as a wide range.

A level US teaspoon holds 4.92892159375 ml, a tablespoon 3 and a cup 48 of them (NIST Handbook 44, appendix C). Spoons
are heaped or level, grains coarse or fine, and cups American, metric or British, so each value is a range.
"""

from functools import cache

from mashwright.measures.range import Range
from mashwright.words.tokens import plain

TEASPOONS = {"tsp": 1.0, "tbsp": 3.0, "cup": 48.0}
"""US teaspoons to a measure."""

WORD = {"tsp": "teaspoon", "tbsp": "tablespoon", "cup": "cup"}

VOLUME_ML = {
    # US measure at the low and typical end; imperial teaspoon of 1/24 gill, Australian tablespoon, imperial half pint
    # at the high end (from memory)
    "tsp": Range(4.93, 4.93, 5.92),
    "tbsp": Range(14.79, 14.79, 20.0),
    "cup": Range(236.6, 236.6, 284.1),
}

_GRAMS = {
    # substance: grams to a level US teaspoon (low, typical, high). Low and high are from memory throughout, about a
    # third to either side; the typical value's source stands beside it.
    "gypsum": (2.8, 4.0, 5.2),  # Palmer, How to Brew, 1st ed. (2001), table of water salts, from memory
    "calcium chloride": (2.5, 3.4, 5.0),  # the same
    "epsom salt": (3.3, 4.5, 6.0),  # the same
    "baking soda": (3.3, 4.4, 6.0),  # the same
    "chalk": (1.2, 1.8, 3.0),  # the same
    "table salt": (4.5, 6.0, 7.5),  # USDA SR28 household weight, from memory
    "slaked lime": (1.5, 2.3, 3.5),  # from memory
    "table sugar": (3.3, 4.2, 5.5),  # USDA SR28 household weight, 200 g a cup, from memory
    "dextrose": (2.6, 3.3, 4.4),  # common practice: three quarters of a cup of priming sugar weigh 4 to 4.5 oz
    "brown sugar": (2.9, 4.2, 5.5),  # USDA SR28, 145 g loose to 220 g packed a cup, from memory
    "lactose": (2.3, 3.0, 4.2),  # from memory
    "maltodextrin": (1.8, 2.6, 3.6),  # from memory
    "dry malt extract": (2.0, 2.9, 4.0),  # from memory
    "honey": (6.3, 7.1, 8.5),  # USDA SR28, 339 g a cup, from memory
    "treacle": (6.2, 7.0, 8.5),  # USDA SR28, 337 g a cup of molasses, from memory
    "syrup": (5.8, 6.8, 8.3),  # from memory
    "lactic acid": (5.4, 5.9, 7.2),  # 88 % has 1.206 g/ml, from memory
    "phosphoric acid": (4.7, 5.2, 8.3),  # 10 % has 1.05, 85 % 1.69 g/ml, from memory
    "citric acid": (3.2, 4.5, 5.8),  # from memory
    "tartaric acid": (3.2, 4.5, 5.8),  # from memory
    "malic acid": (3.0, 4.2, 5.5),  # from memory
    "irish moss": (1.2, 2.0, 3.5),  # flakes to powder, from memory
    "yeast nutrient": (2.5, 4.0, 5.5),  # from memory
    "gelatin": (2.3, 3.0, 4.0),  # from memory
    "coriander seed": (1.2, 1.8, 2.4),  # USDA SR28 household weight, from memory
    "cinnamon": (1.8, 2.6, 3.4),  # USDA SR28, ground, from memory
    "ginger": (1.3, 1.8, 2.6),  # USDA SR28, ground, from memory
    "cocoa powder": (1.3, 1.8, 2.6),  # USDA SR28, 5.4 g a tablespoon, from memory
    "vanilla extract": (3.8, 4.2, 5.0),  # USDA SR28, from memory
    "rice hulls": (0.35, 0.55, 0.8),  # bulk density about 110 g/l, from memory
    "oat hulls": (0.3, 0.6, 1.0),  # from memory
}

_ALSO = {
    "calcium sulfate": "gypsum",
    "calcium sulphate": "gypsum",
    "magnesium sulfate": "epsom salt",
    "magnesium sulphate": "epsom salt",
    "sodium bicarbonate": "baking soda",
    "bicarbonate of soda": "baking soda",
    "calcium carbonate": "chalk",
    "sodium chloride": "table salt",
    "salt": "table salt",
    "calcium hydroxide": "slaked lime",
    "pickling lime": "slaked lime",
    "sugar": "table sugar",
    "cane sugar": "table sugar",
    "white sugar": "table sugar",
    "sucrose": "table sugar",
    "corn sugar": "dextrose",
    "brewing sugar": "dextrose",
    "glucose": "dextrose",
    "dextrose monohydrate": "dextrose",
    "priming sugar": "dextrose",
    "molasses": "treacle",
    "golden syrup": "syrup",
    "maple syrup": "syrup",
    "invert syrup": "syrup",
    "candi syrup": "syrup",
    "dme": "dry malt extract",
    "spray malt": "dry malt extract",
    "carrageen": "irish moss",
    "gelatine": "gelatin",
    "yeast energiser": "yeast nutrient",
    "yeast energizer": "yeast nutrient",
    "yeast food": "yeast nutrient",
    "nutrient": "yeast nutrient",
    "diammonium phosphate": "yeast nutrient",
    "coriander": "coriander seed",
    "ground coriander": "coriander seed",
    "crushed coriander": "coriander seed",
    "ground cinnamon": "cinnamon",
    "ground ginger": "ginger",
    "cocoa": "cocoa powder",
    "cacao powder": "cocoa powder",
    "vanilla": "vanilla extract",
    "rice husks": "rice hulls",
    "hulls": "rice hulls",
    "oat husks": "oat hulls",
}


_ANYTHING_G_PER_ML = Range(0.1, 0.5, 1.5)  # dried petals to syrup and salts, from memory


def grams_of_anything(measure: str) -> Range:
    """What one measure of a spice, an herb or the like weighs, g: whatever it is.

    Args:
        measure: ``tsp``, ``tbsp`` or ``cup``.
    """
    held = VOLUME_ML[measure]
    light, usual, heavy = _ANYTHING_G_PER_ML.low, _ANYTHING_G_PER_ML.typical, _ANYTHING_G_PER_ML.high
    return Range(light * held.low, usual * held.typical, heavy * held.high)


def grams_in(measure: str, substance: str) -> Range | None:
    """What one measure of a substance weighs.

    Args:
        measure: ``tsp``, ``tbsp`` or ``cup``.
        substance: its name as a recipe writes it; case, hyphens and a plural are forgiven.

    Returns:
        g, a wide range; None where the substance is not in the table.

    Source: beside each row of the table.
    """
    row = _grams_by_name().get(plain(substance))
    return Range(*row) * TEASPOONS[measure] if row is not None else None


@cache
def _grams_by_name() -> dict[str, tuple[float, float, float]]:
    """The rows by each of their names, in the common form of its words."""
    return {plain(name): _GRAMS[_ALSO.get(name, name)] for name in (*_GRAMS, *_ALSO)}
