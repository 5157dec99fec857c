"""What an ingredient, a place or a step of a brew can be: the words of the format and of the tables, each once."""

from enum import StrEnum


class IngredientKind(StrEnum):
    """What an ingredient is, as malting and milling made it."""

    BASE_MALT = "base malt"
    KILNED_MALT = "kilned malt"
    CARAMEL_MALT = "caramel malt"
    ROASTED_MALT = "roasted malt"
    ACIDULATED_MALT = "acidulated malt"
    MALTED_ADJUNCT = "malted adjunct grain"
    RAW_GRAIN = "raw grain"
    GRITS = "grits"
    FLAKED_GRAIN = "flaked grain"
    TORREFIED_GRAIN = "torrefied grain"
    HULLS = "hulls"
    SUGAR = "sugar"
    SYRUP = "syrup"
    DRY_EXTRACT = "dry extract"
    LIQUID_EXTRACT = "liquid extract"
    FRUIT_OR_OTHER = "fruit or other"


class Sort(StrEnum):
    """What a thing is to a recipe: where its name may stand."""

    GRIST = "grist"
    HOP = "hop"
    YEAST = "yeast"
    ENZYME = "enzyme"


class Group(StrEnum):
    """The field that names an ingredient of the grist."""

    GRAIN = "grain"
    SUGAR = "sugar"
    EXTRACT = "extract"
    FRUIT = "fruit"


class Chilling(StrEnum):
    """How wort is cooled."""

    CHILLER = "chiller"
    WATER_BATH = "water bath"
    NO_CHILL = "no-chill"


class Oxygen(StrEnum):
    """How wort is aerated."""

    AIR = "air"
    OXYGEN = "oxygen"
    NONE = "none"


class Souring(StrEnum):
    """Where wort or beer is soured."""

    MASH = "mash"
    KETTLE = "kettle"
    FERMENTER = "fermenter"


PRIMING_WORT = "wort"
"""The field that names the wort which primes the beer, in place of a sugar or an extract."""


class Place(StrEnum):
    """Where an ingredient of the grist goes in."""

    MASH = "mash"
    LATE_MASH = "late mash"
    STEEP = "steep"
    KETTLE = "kettle"
    FERMENTER = "fermenter"


class NeedsMash(StrEnum):
    """Whether what an ingredient holds has to be mashed, or may be steeped."""

    YES = "yes"
    NO = "no"
    STEEP = "steep"


class Cereal(StrEnum):
    """What an ingredient was grown as, of those that something is known of; a recipe may name others."""

    BARLEY = "barley"
    WHEAT = "wheat"
    SPELT = "spelt"
    RYE = "rye"
    OAT = "oat"
    MAIZE = "maize"
    RICE = "rice"
    MILLET = "millet"
    SORGHUM = "sorghum"
    BUCKWHEAT = "buckwheat"
    NONE = "none"
    UNKNOWN = "unknown"


class RestBy(StrEnum):
    """How a rest of the mash is reached."""

    INFUSION = "infusion"
    DECOCTION = "decoction"
    HEAT = "heat"
    CEREAL_MASH = "cereal mash"


class SpargeBy(StrEnum):
    """How the grain is rinsed."""

    FLY = "fly"
    BATCH = "batch"
    NONE = "none"


class HopForm(StrEnum):
    """What hops were made into."""

    CONE = "cone"
    PELLET = "pellet"
    EXTRACT = "extract"


class YeastSort(StrEnum):
    """What ferments: a yeast of ale or lager, a wild one, bacteria, a mixture of the last two, or another thing."""

    ALE = "ale"
    LAGER = "lager"
    WILD = "wild"
    BACTERIA = "bacteria"
    MIXED = "mixed"
    OTHER = "other"
