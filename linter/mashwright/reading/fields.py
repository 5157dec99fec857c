"""What a schema says about one place of a document: its keys, its examples, and where else a key stands."""

from collections.abc import Iterator
from functools import cache
from typing import Any, TypeAlias

from mashwright.finding import Path
from mashwright_schema import load

Schema: TypeAlias = dict[str, Any]

ITEM = "*"
"""Stands in a place for any item of a list and any name of the user's own."""

OTHER_SPELLINGS = {
    "colour": "color",
    "sulfate": "sulphate",
    "grist": "grain-bill",
    "gelatinises": "gelatinizes",
    "analysed": "analyzed",
}
"""Fields, each with another spelling of it that is accepted, but not offered."""


def layers(root: Schema, subschema: Schema) -> list[Schema]:
    """A subschema, then what it refers to: the nearest to the field comes first."""
    found = [subschema]
    while (target := found[-1].get("$ref")) is not None:
        found.append(referred(root, target))
    return found


def referred(root: Schema, target: str) -> Schema:
    """What a ``$ref`` within a schema points to: a definition, or a field at the top of a document."""
    here: Any = root
    for step in target.split("/")[1:]:
        here = here[step]
    found: Schema = here
    return found


def at_path(root: Schema, path: Path) -> list[Schema]:
    """The layers that judge the value at a path; none where the schema has nothing to say."""
    here = layers(root, root)
    for step in path:
        inner = next((found for layer in here if (found := _inside(layer, step)) is not None), None)
        if inner is None:
            return []
        here = layers(root, inner)
    return here


def _inside(layer: Schema, step: str | int) -> Schema | None:
    if isinstance(step, int):
        found = layer.get("items")
    else:
        found = layer.get("properties", {}).get(step, layer.get("additionalProperties"))
    return found if isinstance(found, dict) else None


def keys(here: list[Schema]) -> tuple[str, ...]:
    """The keys that may stand in a mapping, in the schema's order; not ``$schema``, which is for editors alone."""
    return tuple(key for layer in here for key in layer.get("properties", ()) if key != "$schema")


def examples(here: list[Schema]) -> list[Any]:
    """Values that may stand here, the most fitting first."""
    return [example for layer in here for example in layer.get("examples", ())]


@cache
def choices(place: str, key: str) -> frozenset[str]:
    """The words that a field of a recipe takes, by the list, the section or the definition of the schema it is in."""
    root = load("recipe")
    owner: Schema = root["$defs"][place] if place in root["$defs"] else root["properties"][place]
    return frozenset(layers(root, owner)[-1]["properties"][key]["enum"])


def kinds(here: list[Schema]) -> tuple[str, ...]:
    """The JSON types that a value may have; none where only a list of values decides."""
    for layer in here:
        if "type" in layer:
            found = layer["type"]
            return (found,) if isinstance(found, str) else tuple(found)
    return ()


def needed(here: list[Schema]) -> set[str]:
    """The keys that a mapping may lack only if another stands in their place."""
    found: set[str] = set()
    rest = list(here)
    while rest:
        layer = rest.pop()
        found.update(layer.get("required", ()))
        rest.extend(layer.get("allOf", ()))
        if "else" in layer:
            rest.append(layer["else"])
    return found


def places(root: Schema, key: str) -> list[tuple[str, ...]]:
    """Where in a document a key may stand: the paths of its mappings, items as ITEM."""
    return [place for place, names in _all_mappings(root["title"].lower()) if key in names]


@cache
def _all_mappings(schema: str) -> tuple[tuple[tuple[str, ...], list[str]], ...]:
    root = load(schema)
    return tuple(_mappings(root, root, ()))


def _mappings(root: Schema, subschema: Schema, place: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], list[str]]]:
    for layer in layers(root, subschema):
        properties = layer.get("properties", {})
        if properties:
            yield place, list(properties)
        for name, inner in properties.items():
            # what a brew day measured has the names of the targets, which is where they belong first
            # and what one of several worts has of its own those of the top
            if name not in ("grain-bill", "measured", "worts"):
                yield from _mappings(root, inner, (*place, name))
        for keyword in ("items", "additionalProperties"):
            if isinstance(layer.get(keyword), dict):
                yield from _mappings(root, layer[keyword], (*place, ITEM))
