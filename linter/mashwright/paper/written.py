"""How values are written in YAML: plain where that is safe, else in quotes."""

import json
from collections.abc import Mapping

from mashwright.patterns import pattern
from mashwright.printable import harmless
from mashwright.reading.scalars import core_value

_PLAIN = pattern(r"[^\W_](?:[\w .%°/+()'’½¼¾-]*[\w.%°)'’½¼¾])?")


def flow(value: object) -> str:
    """A value of texts, numbers, lists and mappings on one line."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{key}: {flow(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(flow, value)) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    return text(value) if isinstance(value, str) else str(value)


def text(value: str) -> str:
    """A text as a scalar that is read as it is, whatever is in it; what cannot be printed as its escape."""
    value = harmless(value)
    number_of_its_own = not isinstance(core_value(value), str) and value[:1].isdigit()  # a gravity: 1.048
    if _PLAIN().fullmatch(value) and (isinstance(core_value(value), str) or number_of_its_own):
        return value
    return json.dumps(value, ensure_ascii=False)
