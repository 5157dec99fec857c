"""Plain values by the YAML 1.2 core schema, read by ourselves: ``no`` and ``2027-12-31`` stay text."""

import re
from functools import cache
from math import isfinite

_WORDS: dict[str, bool | None] = {
    "": None,
    "~": None,
    "null": None,
    "Null": None,
    "NULL": None,
    "true": True,
    "True": True,
    "TRUE": True,
    "false": False,
    "False": False,
    "FALSE": False,
}


@cache
def _number() -> re.Pattern[str]:
    return re.compile(
        r"(?P<int>[-+]?[0-9]+)|0o(?P<octal>[0-7]+)|0x(?P<hex>[0-9a-fA-F]+)"
        r"|[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?|(?P<special>[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN))"
    )


def core_value(text: str) -> str | int | float | bool | None:
    """The value of an unquoted scalar.

    Source: [yaml-1-2-2], section 10.3.2.
    """
    if text in _WORDS:
        return _WORDS[text]
    if text[0] not in "0123456789-+." or " " in text:
        return text
    whole, point, parts = text.partition(".")
    if text.isascii() and whole.isdigit() and (parts.isdigit() or not point):  # nearly all, without a pattern
        return float(text) if point or len(text) >= 300 else int(text)
    if (match := _number().fullmatch(text)) is None:
        return text
    if match["int"] is not None:
        # Python refuses to read very long whole numbers; as a float they end as infinite, which the caller refuses
        return int(text) if len(text) < 300 else float(text)
    for base, digits in ((8, match["octal"]), (16, match["hex"])):
        if digits is not None:
            return int(digits, base) if len(digits) < 200 else float("inf")
    return float(text) if match["special"] is None else float(text.lower().replace(".", ""))


def is_finite(value: object) -> bool:
    """False for infinite and not-a-number."""
    return not isinstance(value, float) or isfinite(value)
