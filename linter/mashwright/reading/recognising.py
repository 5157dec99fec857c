"""Whether a text is a recipe, however it is laid out: asked of each YAML file that a walk or a hook comes upon.

Most recipes show it at the start of a line and most other files have none of the words, so that few need the parser.
"""

import re
from typing import Any

from msgspec import Struct, field

from mashwright.patterns import pattern
from mashwright.reading.signs import ODD_BLANKS
from mashwright.reading.syntax import without_directives, without_forbidden

_NAMES = frozenset(
    ("recipe", "grist", "grainbill", "rezept", "recette", "receta", "ricetta", "recept", "schüttung", "schuettung")
)
"""Fields that only a recipe has at its top, as `_folded` gives them; in other tongues too, as slips are told."""
_GRAIN_OR_HOPS = frozenset(("hops", "fermentables", "malts", "grains", "hopfen", "houblons"))
_MASH = frozenset(("mash", "maische"))
"""One of these beside one of those makes a recipe too, whose name and grist may be misspelt; a stock has no mash."""
_DEEPEST = 3
"""Lists and mappings in each other in which a recipe is looked for that stands within something else."""
_LONGEST = 40
"""Characters of a key that may be one of them."""

_SPELT = r"recipe|grist|grain[-_ ]?bill|rezept|recette|receta|ricetta|recept|sch(?:ü|ue)ttung"
_AT_THE_MARGIN = pattern(rf"(?:^|(?<=\r))[\"']?(?:{_SPELT})[\"']?[ \t]*:", re.IGNORECASE | re.MULTILINE)
_WORD = pattern(rf"{_SPELT}|mash|maische", re.IGNORECASE)
_LINE = pattern(
    rf"(?:^|(?<=\r))[\s{ODD_BLANKS}?\"'{{&!,-]*+({_SPELT}|batch|hops|mash)[\"']?[ \t]*:", re.IGNORECASE | re.MULTILINE
)
_BETWEEN = pattern(rf"[\s{ODD_BLANKS}_\ufeff“”„‟‘’‚‛-]+")


def looks_like_recipe(text: str) -> bool:
    """Whether a text is a recipe or was meant as one: by its fields, wherever and however they are written."""
    text = text.lstrip("\ufeff")
    if text.startswith("recipe:") or "\nrecipe:" in text or _AT_THE_MARGIN().search(text) is not None:
        return True
    escaped = '"' in text and "\\" in text
    return (escaped or _WORD().search(text) is not None) and _has_a_recipe(text)


def _folded(key: str) -> str:
    return _BETWEEN().sub("", key).casefold()


def _is_recipe(names: set[str], depth: int) -> bool:
    """Whether a mapping is one; below the top, many a file has a field called recipe."""
    mashed = bool(names & _MASH and names & _GRAIN_OR_HOPS)
    if depth == 1:
        return mashed or not names.isdisjoint(_NAMES)
    return len(names & _NAMES) + ("batch" in names) + mashed > 1


class _Open(Struct):
    """A list or a mapping that is being read: the keys of it so far, and whether the next thing is one."""

    mapping: bool
    anchor: str | None
    names: set[str] = field(default_factory=set)
    at_key: bool = True
    merges: bool = False


def _has_a_recipe(text: str) -> bool:
    from _ruamel_yaml import CParser
    from ruamel.yaml.error import YAMLError

    parser = CParser(without_directives(without_forbidden(text)))
    looking = _Looking()
    try:
        while (event := parser.get_event()) is not None:
            if looking.take(event):
                return True
    except YAMLError:
        # what cannot be parsed to here may still be read by a person, who sees two of the fields start a line
        return _is_recipe({_folded(found[1]) for found in _LINE().finditer(text)}, depth=2)
    return False


class _Looking:
    """Follows the events of a text and knows the keys of each mapping that is not too deep."""

    def __init__(self) -> None:
        self.stack: list[_Open] = []
        self.texts: dict[str, str] = {}
        self.keys: dict[str, set[str]] = {}

    def take(self, event: Any) -> bool:
        """Whether the mapping that an event belongs to is a recipe, from here on."""
        kind = type(event).__name__
        if kind in ("MappingStartEvent", "SequenceStartEvent"):
            self.stack.append(_Open(kind[0] == "M", event.anchor))
        elif kind in ("MappingEndEvent", "SequenceEndEvent"):
            done = self.stack.pop()
            if done.anchor is not None:
                self.keys[done.anchor] = done.names
            self._step()
        elif kind in ("ScalarEvent", "AliasEvent") and 0 < len(self.stack) <= _DEEPEST:
            return self._value(event, is_alias=kind[0] == "A")
        return False

    def _value(self, event: Any, *, is_alias: bool) -> bool:
        here, depth = self.stack[-1], len(self.stack)
        text = self.texts.get(event.anchor, "") if is_alias else event.value
        if event.anchor is not None and not is_alias and len(text) <= _LONGEST:
            self.texts[event.anchor] = text
        if here.mapping and here.at_key:
            here.merges = text == "<<"
            if len(text) <= _LONGEST:
                here.names.add(_folded(text))
        elif is_alias and (around := self._merging()) is not None:
            around.names |= self.keys.get(event.anchor, set())
            here, depth = around, depth - (not here.mapping)
        self._step()
        return here.mapping and _is_recipe(here.names, depth)

    def _merging(self) -> _Open | None:
        """The mapping that an alias gives its fields to: the one it stands in, or the one around its list."""
        around = self.stack[-1] if self.stack[-1].mapping else self.stack[-2] if len(self.stack) > 1 else None
        return around if around is not None and around.merges else None

    def _step(self) -> None:
        if self.stack:
            self.stack[-1].at_key = not self.stack[-1].at_key
