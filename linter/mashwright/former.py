"""Where that lives now which rules once took from `mashwright.rule`: for the sentence that such a rule ends in.

Imports nothing of ours until it is asked, and then looks from room to room.
"""

from importlib import import_module

_ROOMS = (
    "mashwright.brew",
    *(f"mashwright.figures.{stage}" for stage in ("grist", "mash", "water", "kettle", "beer", "package")),
    "mashwright.figures.figure",
    "mashwright.figures.function",
    "mashwright.measures",
    "mashwright.measures.bounds",
    "mashwright.recipe.model",
    "mashwright.recipe.stated",
    "mashwright.recipe.brewhouse",
    "mashwright.knobs",
    "mashwright.brew.parts",
    "mashwright.brew.pours",
    "mashwright.words.nearest",
    "mashwright.words.tokens",
    *(f"mashwright.ingredients.{table}" for table in ("lookup", "fermentables", "enzymes", "doses", "cautions")),
    *(f"mashwright.ingredients.{table}" for table in ("allergens", "minerals", "probable", "sulfite_limits")),
)
_RENAMED = {
    "degrees_in": ("mashwright.brew", "degrees"),
    "cells_needed": ("mashwright.figures.beer", "needed"),
    "cells_pitched": ("mashwright.figures.beer", "pitched"),
    "yeast_kinds": ("mashwright.brew", "kinds"),
    "AllergenGroup": ("mashwright.ingredients.allergens", "Group"),
    "known_enzyme": ("mashwright.ingredients.enzymes", "enzyme"),
    "known_fermentable": ("mashwright.ingredients.lookup", "fermentable"),
    "known_hop": ("mashwright.ingredients.lookup", "hop"),
    "known_style": ("mashwright.ingredients.lookup", "style"),
    "known_yeast": ("mashwright.ingredients.lookup", "yeast"),
    "known_acid": ("mashwright.ingredients.minerals", "acid"),
    "known_salt": ("mashwright.ingredients.minerals", "salt"),
    "nearest_mineral": ("mashwright.ingredients.minerals", "nearest"),
    "sulfite_contents": ("mashwright.ingredients.sulfite_limits", "contents"),
    "sulfite_label_mg_per_l": ("mashwright.ingredients.sulfite_limits", "label_mg_per_l"),
}


class NotThereError(ImportError):
    """A rule asks the contract for what it does not hold; the message is a sentence to the rule's makers."""


def not_there(name: str) -> NotThereError:
    """What to raise where ``mashwright.rule`` is asked for a name that it does not have.

    Args:
        name: as asked for.
    """
    room, now = _RENAMED.get(name) or (_room_of(name), name)
    if not room:
        return NotThereError(f"mashwright.rule has no {name}, nor has any of the modules that rules import from")
    renamed = f" as {name}" if now != name else ""
    return NotThereError(f"{name} is no longer in mashwright.rule; write from {room} import {now}{renamed}")


def _room_of(name: str) -> str:
    return next((room for room in _ROOMS if hasattr(import_module(room), name)), "")
