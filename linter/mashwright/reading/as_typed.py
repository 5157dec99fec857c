"""The schema of a recipe or a brewhouse as people type them: with short forms, other names of fields, words for values.

For editors, which complete and check by it; what is checked here are the written-out forms. It is made from the schema
of those and the tables of the short forms, so that the two cannot drift apart.
"""

from collections.abc import Iterator
from copy import deepcopy
from typing import Any, cast

from mashwright.finding import Path
from mashwright.longhand.lexicon import values_of
from mashwright.reading.fields import Schema, layers
from mashwright.reading.gathering import NAMES
from mashwright.reading.short_forms import EXAMPLES, VALUES
from mashwright.reading.wording import other_names
from mashwright_schema import load


def as_typed(name: str) -> Schema:
    """The schema for editors.

    Args:
        name: ``recipe`` or ``brewhouse``.
    """
    root = deepcopy(load(name))
    root["title"] = f"{root['title']} as it is typed"
    for place, examples in sorted(EXAMPLES[name].items(), key=lambda entry: -len(entry[0])):  # the inner ones first
        _also_a_text(root, place, list(examples))
    for owner in [root, *root["$defs"].values()]:
        _also_named(owner)
    if name == "recipe":
        known = {*root["properties"], *(one for names in root.get("patternProperties", ()) for one in _names(names))}
        moved = sorted(one.replace("-", "[ _-]") for one in NAMES if one not in known)
        root.setdefault("patternProperties", {})[f"^({'|'.join(moved)})$"] = {}
        for (definition, key), table in VALUES.items():
            _also_valued(root, definition, key, table)
    return cast("Schema", _offered(root))


def _offered(one: Any) -> Any:
    """The same without what an editor would offer as nonsense.

    Conditions become bans, which mean the same: from ``then`` and ``else`` an editor takes fields of which nothing is
    said there, and offers ``weight: weight``. Of an example that is no plain value it shows the type.
    """
    if isinstance(one, list):
        return [_offered(inner) for inner in one]
    if not isinstance(one, dict):
        return one
    found = {key: _offered(inner) for key, inner in one.items() if key not in ("examples", "allOf")}
    if "examples" in one:
        plain = [example for example in one["examples"] if not isinstance(example, dict | list)]
        if isinstance(one["examples"], dict) or plain:
            found["examples"] = _offered(one["examples"]) if isinstance(one["examples"], dict) else plain
    if "allOf" in one:
        found["allOf"] = [ban for inner in one["allOf"] for ban in _bans(inner)]
    if "if" in found and isinstance(one["if"], dict) and ("then" in one or "else" in one):
        bans = list(_bans(one))
        found = {key: inner for key, inner in found.items() if key not in ("if", "then", "else")}
        found["allOf"] = [*found.get("allOf", ()), *bans]
    return found


def _bans(one: Schema) -> Iterator[Schema]:
    """What a condition forbids, each with the sentence for it; anything else as it is."""
    condition = one.get("if")
    if condition is None:
        yield _offered(one)
        return
    for met, keyword in ((condition, "then"), ({"not": condition}, "else")):
        asked = dict(one.get(keyword, {}))
        for name, inner in asked.pop("properties", {}).items():
            if inner.get("not") == {}:
                yield _ban(met, {"type": "object", "required": [name]}, inner.get("errorMessage"))
            else:
                wrong = {
                    "type": "object",
                    "required": [name],
                    "properties": {name: {"not": _without_a_sentence(inner)}},
                }
                yield _ban(met, wrong, inner.get("errorMessage"))
        if "if" in asked:
            inner = {name: asked.pop(name) for name in ("if", "then", "else") if name in asked}
            for ban in _bans(inner):
                yield _ban(met, ban["not"], ban.get("errorMessage"))
        sentence = asked.pop("errorMessage", None)
        if asked:
            yield _ban(met, {"not": asked}, sentence)


def _ban(met: Schema, wrong: Schema, sentence: str | None) -> Schema:
    ban: Schema = {"not": {"allOf": [met, wrong]}}
    return ban if sentence is None else {**ban, "errorMessage": sentence}


def _without_a_sentence(one: Schema) -> Schema:
    return {key: inner for key, inner in one.items() if key != "errorMessage"}


def _names(expression: str) -> list[str]:
    return expression.removeprefix("^(").removesuffix(")$").split("|")


def _holder(root: Schema, place: Path) -> tuple[dict[str, Any], str]:
    """The mapping of the schema in which the subschema of a place stands, and its key there."""
    here: Schema = root
    for step in place[:-1]:
        layer = next(one for one in reversed(layers(root, here)) if _inner(one, step) is not None)
        found = _inner(layer, step)
        assert found is not None
        here = found
    owner = next(one for one in reversed(layers(root, here)) if _inner(one, place[-1]) is not None)
    if isinstance(place[-1], int):
        return owner, "items"
    if place[-1] not in owner.get("properties", {}):  # a name of the user's own
        return owner, "additionalProperties"
    return owner["properties"], place[-1]


def _inner(layer: Schema, step: str | int) -> Schema | None:
    if isinstance(step, int):
        found = layer.get("items")
    else:
        found = layer.get("properties", {}).get(step, layer.get("additionalProperties"))
    return found if isinstance(found, dict) else None


def _also_a_text(root: Schema, place: Path, examples: list[str]) -> None:
    owner, key = _holder(root, place)
    fields = owner[key]
    if "anyOf" in fields:
        return
    told = {name: fields[name] for name in ("title", "description") if name in fields}
    owner[key] = {**told, "anyOf": [fields, {"type": "string", "examples": examples}]}


def _also_named(owner: Schema) -> None:
    """Other names as patterns, which editors take but do not offer; what has them need not have its own name."""
    for holder in _mappings(owner):
        properties = holder["properties"]
        if holder.get("additionalProperties") is not False:
            continue
        patterns = {}
        for field in properties:
            if names := other_names(field, tuple(properties)):
                patterns[f"^({'|'.join(names)})$"] = properties[field]
                holder["required"] = [one for one in holder.get("required", ()) if one != field]
        if patterns:
            holder["patternProperties"] = patterns
        if not holder.get("required", ["some"]):
            del holder["required"]


def _mappings(owner: object) -> "list[Schema]":
    if isinstance(owner, list):
        return [found for one in owner for found in _mappings(one)]
    if not isinstance(owner, dict):
        return []
    inner = [found for key, one in owner.items() if key != "$defs" for found in _mappings(one)]
    return [owner, *inner] if isinstance(owner.get("properties"), dict) and "additionalProperties" in owner else inner


def _also_valued(root: Schema, definition: str, key: str, table: str) -> None:
    words = sorted(word.replace(" ", "[ -]") for word in values_of(table))
    owner: Any = root["$defs"].get(definition) or root["properties"][definition]
    owner = next((one for one in owner.get("anyOf", ()) if "properties" in one), owner)  # a section that may be a text
    field = owner["properties"][key]
    choice = {"enum": field.pop("enum")}
    field["anyOf"] = [choice, {"type": "string", "pattern": f"^({'|'.join(words)})$"}]
