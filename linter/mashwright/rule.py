"""The rule contract: everything that a rule imports, and nothing else.

A rule is a module: its docstring is its page, ``Limits`` its settings, ``check(brew, limits)`` yields findings, and
``SOUND`` and ``FAULTY`` are two short recipes that show it. Rules know no line numbers, no other rule, and nothing of
how findings are printed.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple, overload

from msgspec.structs import replace

from mashwright.figures.acidity import mash_acid_needed, mash_ph
from mashwright.figures.board import gravity, number, told
from mashwright.figures.boiling_wort import boiling_wort
from mashwright.figures.brew import Brew
from mashwright.figures.colour import colour
from mashwright.figures.conversion import conversion, conversion_time, follow, released_of, starch_released, starches_of
from mashwright.figures.enzymes import mash_enzymes
from mashwright.figures.figure import Figure
from mashwright.figures.function import figure
from mashwright.figures.gas import Gas, all_gas, gas_of, unfinished_co2
from mashwright.figures.gravity import (
    Delivery,
    converted_share,
    deliveries,
    efficiency_needed,
    fermenter_share,
    fermenter_volume,
    highest_og,
    is_fermentable_sugar,
    mash_water,
    og,
    potential_extract,
    sugar_share,
    wort_limit,
)
from mashwright.figures.grist import (
    acidulated_share,
    adjunct_share,
    caramel_share,
    grist_diastatic_power,
    grist_weight,
    huskless_share,
    mash_weight,
    roast_share,
)
from mashwright.figures.heat import (
    bed_temperature,
    boiling_point,
    mash_temperature,
    strike_temperature,
)
from mashwright.figures.hops import HopAddition, bitterness, bitterness_ratio, hop_additions
from mashwright.figures.kettle import from_waters, left_for_fermenter, pre_boil_volume
from mashwright.figures.liquor import Dose, Liquor, acid_meq, liquor, tap_water
from mashwright.figures.meant import meant_parti_gyle, meant_raw, meant_sour, meant_turbid, said_of, sours
from mashwright.figures.own_units import KINDS, grain_unit, litres_in, said_apart, thickness_unit, weight_in
from mashwright.figures.own_units import degrees as degrees_in
from mashwright.figures.package import carbonation, gas_of_sugars, priming_sugar, residual_co2
from mashwright.figures.packaged import fermented_days, is_sealed, is_sort, packaged_volume, vessel_of, warmest
from mashwright.figures.parts import (
    MALT_EXTRACTS,
    MALTS,
    PREGELATINISED,
    SUGARS,
    UNMALTED,
    Part,
    group_of,
    table_entry,
)
from mashwright.figures.pitch import DRY_UP_TO_G_PER_L, dry_g_per_l, wort_strength, yeast_class
from mashwright.figures.pitch import needed as cells_needed
from mashwright.figures.pitch import pitched as cells_pitched
from mashwright.figures.plan import PlannedRest
from mashwright.figures.pours import (
    Pour,
    boil_minutes,
    into_fermenter,
    kit,
    sparge_pour,
    strike_water,
)
from mashwright.figures.pressure import Stress, bearing, bottle_pressure, keg_pressure, stress
from mashwright.figures.priming import (
    Sugar,
    at_packaging,
    brings_sugar,
    priming_sugar_of,
    sugary_in_fermenter,
    unknown_sugars,
)
from mashwright.figures.steps import Step, step_temperature, steps
from mashwright.figures.strength import (
    ORDINARY_CEILING,
    abv,
    apparent_attenuation,
    apparent_ceiling,
    fermenting,
    fg,
    real_attenuation,
    splits_dextrins,
    still_splitting,
)
from mashwright.figures.sulfites import sulfite
from mashwright.figures.to_come import DRY_HOPS, FRUIT, READING, SPLITTING, UNFINISHED, ToCome, to_come
from mashwright.figures.volumes import drained_with_sparge, liquor_to_grist, mash_volume
from mashwright.figures.water import ions, ions_in_kettle, ions_in_mash, residual_alkalinity, sulfate_chloride_ratio
from mashwright.figures.yeasts import kinds as yeast_kinds
from mashwright.finding import Edit, Evidence, Finding, Level, Path, Range
from mashwright.ingredients.allergens import GLUTEN_CEREALS, gluten_claims, groups_of
from mashwright.ingredients.allergens import Group as AllergenGroup
from mashwright.ingredients.cautions import caution
from mashwright.ingredients.doses import usual_dose
from mashwright.ingredients.enzymes import Enzyme, nearest_enzyme
from mashwright.ingredients.enzymes import enzyme as known_enzyme
from mashwright.ingredients.fermentables import Fermentable
from mashwright.ingredients.lookup import fermentable as known_fermentable
from mashwright.ingredients.lookup import hop as known_hop
from mashwright.ingredients.lookup import keeps_words, most_guessed, nearest
from mashwright.ingredients.lookup import style as known_style
from mashwright.ingredients.lookup import yeast as known_yeast
from mashwright.ingredients.minerals import acid as known_acid
from mashwright.ingredients.minerals import nearest as nearest_mineral
from mashwright.ingredients.minerals import salt as known_salt
from mashwright.ingredients.probable import slip_of
from mashwright.ingredients.sulfite_limits import contents as sulfite_contents
from mashwright.ingredients.sulfite_limits import label_mg_per_l as sulfite_label_mg_per_l
from mashwright.knobs import (
    NOTHING,
    Knob,
    added_grain,
    another_text,
    as_written,
    in_its_place,
    less_of,
    less_of_amount,
    longer,
    more_of,
    one_change,
    other_size,
    rest_at,
    same_number,
    stated_instead,
    stated_temperature,
)
from mashwright.measures import bounds
from mashwright.measures.bounds import Bound
from mashwright.reading.quantity import Kind, Quantity, from_canonical, said, step_of, to_canonical
from mashwright.recipe.brewhouse import Lot
from mashwright.recipe.model import Addition, Amount, GristLine, Hop, Priming
from mashwright.recipe.stated import NOWHERE, Open, Stated, Unknown
from mashwright.words.nearest import close
from mashwright.words.tokens import words_of

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = [
    "DRY_HOPS",
    "DRY_UP_TO_G_PER_L",
    "FRUIT",
    "GLUTEN_CEREALS",
    "MALTS",
    "MALT_EXTRACTS",
    "NOTHING",
    "NOWHERE",
    "ORDINARY_CEILING",
    "PREGELATINISED",
    "READING",
    "SPLITTING",
    "SUGARS",
    "UNFINISHED",
    "UNMALTED",
    "Addition",
    "AllergenGroup",
    "Amount",
    "Brew",
    "Delivery",
    "Dose",
    "Edit",
    "Enzyme",
    "Evidence",
    "Example",
    "ExampleOfTwo",
    "Fermentable",
    "Figure",
    "Finding",
    "Gas",
    "GristLine",
    "Hop",
    "HopAddition",
    "Kind",
    "Knob",
    "Level",
    "Limit",
    "Liquor",
    "Lot",
    "Open",
    "Part",
    "Path",
    "PlannedRest",
    "Pour",
    "Priming",
    "Quantity",
    "Range",
    "Settings",
    "Stated",
    "Step",
    "Stress",
    "Sugar",
    "ToCome",
    "Unknown",
    "above",
    "abv",
    "acid_meq",
    "acidulated_share",
    "added_grain",
    "adjunct_share",
    "all_gas",
    "another_text",
    "apparent_attenuation",
    "apparent_ceiling",
    "as_written",
    "at_packaging",
    "bearing",
    "bed_temperature",
    "below",
    "bitterness",
    "bitterness_ratio",
    "boil_minutes",
    "boiling_point",
    "boiling_wort",
    "bottle_pressure",
    "bounds",
    "brings_sugar",
    "caramel_share",
    "carbonation",
    "caution",
    "cells_needed",
    "cells_pitched",
    "close",
    "colour",
    "conversion",
    "conversion_time",
    "converted_share",
    "degrees_in",
    "deliveries",
    "differs",
    "drained_with_sparge",
    "dry_g_per_l",
    "efficiency_needed",
    "fermented_days",
    "fermenter_share",
    "fermenter_volume",
    "fermenting",
    "fg",
    "figure",
    "follow",
    "from_canonical",
    "from_waters",
    "gap",
    "gas_of",
    "gas_of_sugars",
    "gluten_claims",
    "grain_unit",
    "gravity",
    "grist_diastatic_power",
    "grist_weight",
    "group_of",
    "groups_of",
    "highest_og",
    "hop_additions",
    "huskless_share",
    "in_its_place",
    "into_fermenter",
    "ions",
    "ions_in_kettle",
    "ions_in_mash",
    "is_fermentable_sugar",
    "is_sealed",
    "is_sort",
    "keeps_words",
    "keg_pressure",
    "kit",
    "known_acid",
    "known_enzyme",
    "known_fermentable",
    "known_hop",
    "known_salt",
    "known_style",
    "known_yeast",
    "left_for_fermenter",
    "less_of",
    "less_of_amount",
    "liquor",
    "liquor_to_grist",
    "litres_in",
    "longer",
    "mash_acid_needed",
    "mash_enzymes",
    "mash_ph",
    "mash_temperature",
    "mash_volume",
    "mash_water",
    "mash_weight",
    "meant_parti_gyle",
    "meant_raw",
    "meant_sour",
    "meant_turbid",
    "more_of",
    "most_guessed",
    "nearest",
    "nearest_enzyme",
    "nearest_mineral",
    "number",
    "og",
    "one_change",
    "other_size",
    "packaged_volume",
    "potential_extract",
    "pre_boil_volume",
    "priming_sugar",
    "priming_sugar_of",
    "real_attenuation",
    "released_of",
    "replace",
    "residual_alkalinity",
    "residual_co2",
    "rest_at",
    "roast_share",
    "row",
    "rows_of",
    "said",
    "said_apart",
    "said_of",
    "same_number",
    "slip_of",
    "sours",
    "sparge_pour",
    "splits_dextrins",
    "starch_released",
    "starches_of",
    "stated_instead",
    "stated_temperature",
    "step_of",
    "step_temperature",
    "steps",
    "still_splitting",
    "strained",
    "stress",
    "strike_temperature",
    "strike_water",
    "sugar_share",
    "sugary_in_fermenter",
    "sulfate_chloride_ratio",
    "sulfite",
    "sulfite_contents",
    "sulfite_label_mg_per_l",
    "table_entry",
    "tap_water",
    "thickness_unit",
    "to_canonical",
    "to_come",
    "told",
    "unfinished_co2",
    "unknown_sugars",
    "usual_dose",
    "vessel_of",
    "warmest",
    "weight_in",
    "words_of",
    "wort_limit",
    "wort_strength",
    "yeast_class",
    "yeast_kinds",
]


class Limit:
    """One setting of a rule.

    Args:
        default: in ``unit``.
        unit: as printed; "" for a bare number.
        low, high: bounds of what a brewhouse may set.
        source: key of the bibliography.
    """

    def __init__(self, default: float, unit: str, *, low: float, high: float, source: str) -> None:
        self.default = default
        self.unit = unit
        self.low = low
        self.high = high
        self.source = source
        self.attribute = ""
        self.bound = ""

    @classmethod
    def of(cls, bound: Bound) -> "Limit":
        """A bound of what can be meant: where a brewhouse moves it, the figures take it so too."""
        limit = cls(bound.usual, bound.unit, low=bound.low, high=bound.high, source=bound.source)
        limit.bound = bound.name
        return limit

    def __set_name__(self, owner: type, name: str) -> None:
        self.attribute = name

    @overload
    def __get__(self, owner: None, kind: type) -> "Limit": ...
    @overload
    def __get__(self, owner: "Settings", kind: type) -> float: ...
    def __get__(self, owner: "Settings | None", kind: type) -> "Limit | float":
        return self if owner is None else owner.values.get(self.attribute, self.default)

    @property
    def key(self) -> str:
        """The name in brewhouse.yaml: the attribute's without its unit."""
        words = self.attribute.removesuffix("_per_l").removesuffix("_per_kg").split("_")
        unit_words = {"lintner", "lovibond", "percent", "c", "min", "points", "plato", "kg", "g", "l", "share"}
        unit_words |= {"bar", "ibu", "srm", "volumes"}
        unit_words |= {"times", "years", "mg", "meq", "ph", "srm"}
        return "-".join(words[:-1] if words[-1] in unit_words and len(words) > 1 else words)


class Settings:
    """Base of a rule's ``Limits``; each setting is a class attribute made by ``Limit``."""

    def __init__(self, values: "Mapping[str, float] | None" = None) -> None:
        self.values = dict(values or {})

    @classmethod
    def limits(cls) -> dict[str, Limit]:
        """The settings by their names in brewhouse.yaml."""
        found = (value for owner in reversed(cls.__mro__) for value in vars(owner).values() if isinstance(value, Limit))
        return {limit.key: limit for limit in found}


class Example(NamedTuple):
    """A short faulty recipe and the one finding that it gives: level, line, column, message.

    Where a rule asks for vessels, ``brewhouse`` is the text of the brewhouse.yaml that lies beside it.
    """

    recipe: str
    level: str
    line: int
    column: int
    message: str
    brewhouse: str = ""


_PAST = 1e-9  # share of a limit that a sum of weights may be past it by rounding alone


class ExampleOfTwo(NamedTuple):
    """Two recipes of a collection, and the one finding that they give, in the second."""

    first: str
    second: str
    level: str
    line: int
    column: int
    message: str


def below(value: Figure | Range, limit: float, *, doubt: bool = False, harm: bool = False) -> Level | None:
    """How surely a value is below a limit; its high end is the favourable one.

    Args:
        value: a figure, or its range.
        limit: in the same unit.
        doubt: whether to make a note where only the low end is below.
        harm: people can be hurt, so it is an error at the typical value and a warning at the unfavourable end.

    Returns:
        None where it holds. A figure that rests on memory alone makes no error.
    """
    bar = limit - _PAST * abs(limit)
    if harm:
        return _harmful(value.typical < bar, value.low < bar)
    return _level(value, value.high < bar, value.typical < bar, doubt and value.low < bar)


def above(value: Figure | Range, limit: float, *, doubt: bool = False, harm: bool = False) -> Level | None:
    """How surely a value is above a limit; its low end is the favourable one. Otherwise as ``below``."""
    bar = limit + _PAST * abs(limit)
    if harm:
        return _harmful(value.typical > bar, value.high > bar)
    return _level(value, value.low > bar, value.typical > bar, doubt and value.high > bar)


def differs(value: Figure | Range, stated: Range, allowed: float) -> Level | None:
    """How surely a value and a stated one are further apart than is allowed; the nearest ends are the favourable ones.

    Args:
        value: a figure, or its range.
        stated: what the recipe says, in the same unit.
        allowed: the distance that is still no fault.
    """
    nearest_ends = max(stated.low - value.high, value.low - stated.high, 0.0)
    return _level(value, nearest_ends > allowed, abs(value.typical - stated.typical) > allowed, perhaps=False)


def _level(value: Figure | Range, surely: bool, typically: bool, perhaps: bool) -> Level | None:
    if surely:
        return Level.WARNING if isinstance(value, Figure) and value.memory else Level.ERROR
    if typically:
        return Level.WARNING
    return Level.NOTE if perhaps else None


def _harmful(typically: bool, perhaps: bool) -> Level | None:
    return Level.ERROR if typically else Level.WARNING if perhaps else None


def strained(held: Stress) -> Level | None:
    """How bad it is that a vessel is to hold so much gas, for people can be hurt; None where it bears it.

    A stated rating: an error past it at the usual value, a warning at the unfavourable end. By the kind of vessel: an
    error past what it is made for, a warning from where doubt begins, a note past what it is commonly used for. The
    unfavourable end makes a warning only where nothing lets the gas out.
    """
    value, limit, vessel = held.value, held.bearing.limit, held.bearing.vessel
    level = above(value, limit.high, harm=True)
    if level is Level.ERROR or limit.known or (level is not None and vessel.sealed):
        return level
    usual = Range.exact(value.typical)
    if above(usual, limit.typical) is not None:
        return Level.WARNING
    return Level.NOTE if above(usual, limit.low) is not None else None


def gap(value: Figure | Range, limit: float) -> float:
    """How far past a limit the typical value lies, as a share of the limit; 1 where the limit is 0."""
    return round(abs(value.typical - limit) / abs(limit), 4) if limit else 1.0


def row(value: Figure, path: Path | None = None) -> Evidence:
    """A figure as one row of evidence, in the recipe's own unit."""
    unit = value.own_unit() if value.own_unit is not None else value.unit
    there = from_canonical(value.typical, unit, KINDS[value.unit]) if unit != value.unit else value.typical
    return Evidence(value.title, there, unit, path or (value.paths[0] if value.paths else None))


def rows_of(parts: "tuple[Part, ...] | list[Part]", value: Callable[[Part], float], unit: str) -> tuple[Evidence, ...]:
    """One row for each part, with its weight and one of its values."""
    return tuple(Evidence(f"{part.name}, {part.weight.text}", value(part), unit, part.path) for part in parts)
