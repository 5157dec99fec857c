"""The settled brew: what a brewer would settle first, on which figures and rules build."""

from mashwright.brew.board import number, told
from mashwright.brew.brew import Brew
from mashwright.brew.enzymes import mash_enzymes
from mashwright.brew.intent import sours
from mashwright.brew.own import enzyme_of, fermentable_of, has_alpha, hop_of, kind_of, own_names, yeast_of
from mashwright.brew.own_units import degrees, grain_unit, litres_in, said_apart, thickness_unit, weight_in
from mashwright.brew.parts import MALT_EXTRACTS, MALTS, UNMALTED, Part, described_by, group_of, table_entry
from mashwright.brew.plan import PlannedRest
from mashwright.brew.pours import Pour, into_fermenter, kit, strike_water
from mashwright.brew.yeasts import kinds

__all__ = [
    "MALTS",
    "MALT_EXTRACTS",
    "UNMALTED",
    "Brew",
    "Part",
    "PlannedRest",
    "Pour",
    "degrees",
    "described_by",
    "enzyme_of",
    "fermentable_of",
    "grain_unit",
    "group_of",
    "has_alpha",
    "hop_of",
    "into_fermenter",
    "kind_of",
    "kinds",
    "kit",
    "litres_in",
    "mash_enzymes",
    "number",
    "own_names",
    "said_apart",
    "sours",
    "strike_water",
    "table_entry",
    "thickness_unit",
    "told",
    "weight_in",
    "yeast_of",
]
