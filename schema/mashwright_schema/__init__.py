"""The JSON Schemas (draft 2020-12) of a recipe and a brewhouse, and of the three documents that the program writes.

Beside the standard keywords a subschema may carry ``errorMessage``, an annotation that editors show: the sentence for
a value that breaks the keywords next to it.
"""

from functools import cache
from os.path import dirname
from typing import Any

from msgspec.json import decode

NAMES = ("recipe", "brewhouse", "review", "figures", "names", "comparison")


@cache
def load(name: str) -> dict[str, Any]:
    """A schema as parsed JSON; to be read only, since it is the same value at each call.

    Args:
        name: ``recipe``, ``brewhouse``, ``review``, ``figures`` or ``names``.

    Raises:
        ValueError: there is no schema of that name.
    """
    if name not in NAMES:
        raise ValueError(f"no schema is called {name}; there are {', '.join(NAMES)}")
    # not by importlib.resources, whose import takes longer than the reading
    with open(f"{dirname(__file__)}/{name}.schema.json", "rb") as file:
        schema: dict[str, Any] = decode(file.read())
    return schema
