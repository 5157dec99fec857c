"""Notices where somebody asks a recipe for what stands there but could not be read.

Such a place is None, as one that the recipe does not have. Whoever finds nothing after asking for it has not looked,
and this tells which of the two it was, whatever way the question took through figures.
"""

from collections.abc import Callable
from dataclasses import fields
from typing import Any, Self, cast

from mashwright.finding import Path
from mashwright.reading.fields import OTHER_SPELLINGS
from mashwright.recipe.cursor import FIELD_WORDS
from mashwright.recipe.model import Amount, Batch, Recipe

_ATTRIBUTES = {
    "for": "time", "in": "vessel", "recipe": "name", "hop": "name", "prepare": "cereal_mash", "grain": "name",
    "sugar": "name", "extract": "name", "fruit": "name",
}  # fmt: skip
"""Keys of the format, and the attribute that holds each, where the two have different names."""

_KEYS = {other: key for key, other in OTHER_SPELLINGS.items()}
_WORDS = {**FIELD_WORDS, "og": "OG", "fg": "FG", "abv": "ABV", "ph": "pH"}


def noticing(recipe: Recipe, met: list[Path]) -> Recipe:
    """The same recipe, which adds to ``met`` each unreadable place that it is asked for."""
    made: Recipe = _noticing(recipe, recipe.unreadable, met)[0]
    object.__setattr__(made, "unreadable", _Unreadable(recipe.unreadable, met))
    return made


def unnoticed(recipe: Recipe) -> Recipe:
    """The recipe as it was before it was made to notice: for what asks for a unit alone, and hangs on no number."""
    origin: Recipe = getattr(recipe, "_origin", recipe)
    return origin


def wanted(recipe: Recipe, path: Path) -> str:
    """What an unreadable place lacks, as a brewer would say it: ``a readable weight of Fuggle``."""
    key = next((step for step in reversed(path) if isinstance(step, str)), "recipe")
    word = _WORDS.get(key, key.replace("-", " "))
    if len(path) > 2 and isinstance(path[-2], str) and path[-2] in ("salts", "acid", "enzymes"):
        return f"a readable amount of {word}"
    named = [line.name for line in recipe.grist if line.path == path[:-1] and line.name]
    named += [hop.name for hop in recipe.hops if hop.path == path[:-1] and hop.name]
    return f"a readable {word}{f' of {named[0]}' if named else ''}"


def _noticing(thing: Any, unread: frozenset[Path], met: list[Path]) -> tuple[Any, set[Path]]:
    """A part of a recipe, made to notice, and the unreadable places that it notices; itself where it has none."""
    path: Path = getattr(thing, "path", ())
    here = frozenset(one for one in unread if one[: len(path)] == path)
    if not here:
        return thing, set()
    values = {field.name: getattr(thing, field.name) for field in fields(thing)}
    covered: set[Path] = set()
    for name, value in values.items():
        if isinstance(value, tuple) and any(hasattr(one, "path") for one in value):
            pairs = [_noticing(one, here, met) for one in value]
            values[name] = tuple(one for one, _ in pairs)
            covered.update(*(found for _, found in pairs))
        elif hasattr(value, "path"):
            values[name], found = _noticing(value, here, met)
            covered |= found
    watched = {name: place for place in here - covered if (name := _attribute(thing, place[len(path) :]))}
    return _made(thing, values, watched, met), covered | set(watched.values())


def _attribute(thing: object, below: Path) -> str:
    """The attribute that holds what stands at a place below a thing; "" where it holds nothing of it."""
    if not below:
        return "quantity" if isinstance(thing, Amount) else "fermenter" if isinstance(thing, Batch) else ""
    key = str(below[0])
    key = _KEYS.get(key, key)
    for name in (key.replace("-", "_"), _ATTRIBUTES.get(key, "")):
        if name and hasattr(thing, name):
            return name
    return ""


def _made(thing: Any, values: dict[str, Any], watched: dict[str, Path], met: list[Path]) -> Any:
    made: Any = object.__new__(_kind(type(thing)))
    for name, value in values.items():
        object.__setattr__(made, name, value)
    object.__setattr__(made, "_watched", (watched, met))
    object.__setattr__(made, "_origin", thing)
    return made


def _kind(kind: type) -> type:
    """The class with an eye on its attributes; still one of its kind for all that ask."""
    if (made := _KINDS.get(kind)) is None:
        more = {"__slots__": ("_watched", "_origin"), "__getattribute__": _asked}
        made = _KINDS[kind] = type(kind.__name__, (kind,), more)
    return made


_KINDS: dict[type, type] = {}


class _Unreadable(frozenset[Path]):
    """The unreadable places, which notice too where somebody asks after one of them."""

    met: list[Path]

    def __new__(cls, places: frozenset[Path], met: list[Path]) -> Self:
        made = super().__new__(cls, places)
        made.met = met
        return made

    def __contains__(self, place: object) -> bool:
        found = super().__contains__(place)
        if found:
            self.met.append(cast("Path", place))
        return found


_plain: Callable[[object, str], Any] = object.__getattribute__


def _asked(self: object, name: str) -> Any:
    try:
        watched, met = _plain(self, "_watched")
    except AttributeError:  # made anew of this one by somebody
        return _plain(self, name)
    if name in watched:
        met.append(watched[name])
    return _plain(self, name)
