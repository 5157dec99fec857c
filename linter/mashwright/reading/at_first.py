"""Whether a document is as its schema wants it, for the first document of a run, which mostly is the only one.

The quick checker takes 10 ms to be loaded and made ready, and then microseconds a document; this one is ready at once,
and takes a millisecond. It knows the keywords that our schemas use; what it is not sure of is left to the other.

Source: JSON Schema, draft 2020-12, core and validation.
"""

import re
from typing import Any

from mashwright.reading.fields import Schema, referred

_TYPES: dict[str, type | tuple[type, ...]] = {
    "object": dict,
    "array": list,
    "string": str,
    "boolean": bool,
    "number": (int, float),
}
_SILENT = frozenset(("title", "description", "examples", "errorMessage", "$schema", "$id", "$defs", "then", "else"))
"""Keywords that ask for nothing, or are read with another."""


class UnsureError(Exception):
    """The schema or the value has something in it that is not known here."""


def is_valid(value: Any, schema: Schema, root: Schema) -> bool:
    """Whether a value is as a schema wants it.

    Args:
        value: plain Python values.
        schema: of that value.
        root: the whole schema, for what it refers to.

    Raises:
        UnsureError: it cannot be said here.
    """
    return all(keyword in _SILENT or _holds(keyword, value, schema, root) for keyword in schema)


def _holds(keyword: str, value: Any, schema: Schema, root: Schema) -> bool:
    asked = schema[keyword]
    match keyword:
        case "$ref":
            return is_valid(value, referred(root, asked), root)
        case "type":
            return any(_is_a(value, name) for name in ([asked] if isinstance(asked, str) else asked))
        case "not":
            return not is_valid(value, asked, root)
        case "allOf":
            return all(is_valid(value, one, root) for one in asked)
        case "if":
            return is_valid(value, schema.get("then" if is_valid(value, asked, root) else "else", {}), root)
        case "const" if isinstance(asked, str):
            return bool(value == asked)
        case "enum" if all(isinstance(one, str) for one in asked):
            return value in asked
        case "pattern" | "minLength":
            return not isinstance(value, str) or _holds_of_text(keyword, value, asked)
        case "minItems" | "maxItems":
            return not isinstance(value, list) or _holds_of_length(keyword, len(value), asked)
        case "items":
            return not isinstance(value, list) or all(is_valid(one, asked, root) for one in value)
        case "properties" | "additionalProperties" | "required" | "minProperties":
            return not isinstance(value, dict) or _holds_of_mapping(keyword, value, schema, root)
    raise UnsureError


def _holds_of_length(keyword: str, length: int, asked: int) -> bool:
    return length >= asked if keyword == "minItems" else length <= asked


def _is_a(value: Any, name: str) -> bool:
    if name not in _TYPES:
        raise UnsureError
    return isinstance(value, _TYPES[name]) and (name == "boolean" or not isinstance(value, bool))


def _holds_of_text(keyword: str, value: str, asked: Any) -> bool:
    if keyword == "minLength":
        return len(value) >= int(asked)
    if "\n" in value:  # which ends a text for some patterns, and not for all
        raise UnsureError
    return re.search(asked, value) is not None


def _holds_of_mapping(keyword: str, value: dict[str, Any], schema: Schema, root: Schema) -> bool:
    asked = schema[keyword]
    match keyword:
        case "properties":
            return all(is_valid(value[key], asked[key], root) for key in asked if key in value)
        case "additionalProperties":
            others = [value[key] for key in value if key not in schema.get("properties", {})]
            return not others if asked is False else all(is_valid(one, asked, root) for one in others)
        case "required":
            return all(key in value for key in asked)
        case _:
            return len(value) >= int(asked)
