"""The schema for editors with the names that are known: of the tables, and those of the brewhouse.

Any other text stays valid, since a recipe may describe what nobody knows; the names are there to be offered.
"""

from copy import deepcopy
from typing import Any

from mashwright.ingredients.kinds import Cereal, IngredientKind
from mashwright.reading.as_typed import as_typed
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.reviewing.catalogue import Known, known

_EXTRACTS = (IngredientKind.DRY_EXTRACT, IngredientKind.LIQUID_EXTRACT)
_FIELDS: dict[str, dict[tuple[str, str], tuple[str, ...]]] = {
    "recipe": {
        ("grist-line", "grain"): ("malts",),
        ("grist-line", "sugar"): ("sugars",),
        ("grist-line", "extract"): ("extracts",),
        ("grist-line", "fruit"): ("fruit",),
        ("grist-line", "lot"): ("lots",),
        ("grist-line", "cereal"): ("cereals",),
        ("hop", "hop"): ("hops",),
        ("hop", "lot"): ("lots",),
        ("yeast-fields", "kind"): ("yeasts",),
        ("priming", "sugar"): ("sugars",),
        ("priming", "extract"): ("extracts",),
        ("", "style"): ("styles",),
    },
    "brewhouse": {
        ("lot", "of"): ("malts", "hops"),
        ("ingredient", "kind"): ("malts", "sugars", "fruit", "hops", "yeasts", "enzymes"),
        ("ingredient", "cereal"): ("cereals",),
    },
}
"""Fields that name something known, by the definition that they stand in."""


def with_names(name: str, house: Brewhouse) -> dict[str, Any]:
    """The schema of a recipe or a brewhouse as it is typed, with all known names.

    Args:
        name: ``recipe`` or ``brewhouse``.
        house: whose own names and lots are among them.
    """
    root = as_typed(name)
    for (definition, field), kinds in _FIELDS[name].items():
        owner = root["$defs"][definition] if definition else root
        owner = next((one for one in owner.get("anyOf", ()) if "properties" in one), owner)
        names = list(dict.fromkeys(one for kind in kinds for one in _names(kind, house)))
        before = deepcopy(owner["properties"][field])
        told = {key: before.pop(key) for key in ("title", "description", "examples") if key in before}
        if names:
            owner["properties"][field] = {**told, "anyOf": [{"enum": names}, before]}
    return root


def _names(kind: str, house: Brewhouse) -> list[str]:
    if kind == "lots":
        return [str(name) for name in house.lots]
    if kind == "cereals":
        return [str(cereal.value) for cereal in Cereal]
    if kind in ("sugars", "extracts"):
        extracts = kind == "extracts"
        return [one.name for one in known("sugars", house) if (_sort(one) in _EXTRACTS) is extracts]
    return [one.name for one in known(kind, house)]


def _sort(one: Known) -> str:
    return next((value.text for value in one.values if value.what == "kind"), "")
