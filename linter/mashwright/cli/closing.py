"""What a review says at its end on standard error, and the status that it ends with."""

import os
import sys
from typing import TYPE_CHECKING

from msgspec.structs import replace

from mashwright.printable import complain, say

if TYPE_CHECKING:
    from mashwright.reviewing.collection import Collection


def close(collection: "Collection", *, notes: bool, quiet: bool) -> None:
    """What is said on standard error at the end."""
    from mashwright.reporting import text

    for path in collection.search.missing:
        complain(f"{path}: there is no such file or folder")
    done = replace(collection.finished(()), faults=tuple(collection.faults))  # what is missing is no fault of a rule
    for line in (*text.faults(done), *text.remarks(done)):
        say(line, sys.stderr)
    _empty(collection, quiet=quiet)
    found = collection.sum
    if quiet or (collection.search.missing and not found.reviewed):
        return
    if found.reviewed == 0 and collection.sound_houses and not found.skipped:
        complain(f"{', '.join(collection.sound_houses)}: nothing to say of this brewhouse")
    elif found.reviewed or collection.run.skip_others or collection.wrong_houses:
        say(text.closing(done, notes=notes), sys.stderr)


def _empty(collection: "Collection", *, quiet: bool) -> None:
    """Folders without any recipe; where they may be so, that is no more than a count."""
    if quiet and collection.run.allow_empty:
        return
    found = collection.sum
    others = f" (other YAML files: {found.skipped})" if found.skipped and not found.reviewed else ""
    way = "" if collection.run.allow_empty else "; if none need be there, add --allow-empty"
    for path in collection.empty:
        where = os.path.basename(os.getcwd()) if path == "." else path
        looks = "a recipe is a .yaml file with a line that starts recipe: or grist:"
        complain(f"no recipe in {where}{others}; {looks}{way}")


def status(collection: "Collection", *, accepting: bool) -> int:
    """2 beats 1: what could not be done must not pass for reviewed. What was just written down as known fails not."""
    empty = collection.empty and not collection.run.allow_empty
    if collection.faults or collection.search.missing or collection.wrong_houses or empty:
        return 2
    return 1 if collection.sum.failing and not accepting else 0
