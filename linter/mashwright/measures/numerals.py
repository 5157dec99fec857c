"""How numbers are written: typographic spellings made plain, and the separators that are refused."""

import re
from functools import cache
from typing import NamedTuple

_PATTERNS = {
    "comma": r"(?<![\d.,])[\d.,]*\d,\d[\d.,]*",
    "grouped": r"(?<![\d.,/])\d{1,3}(?:[ _']\d{3})+(?![\d/])",
    "underscore": r"(?<!\d)\d+(?:_+\d+)+",
    "dots": r"(?<!\d)\d+(?:\.\d+){2,}",
}
_TIDY = str.maketrans(
    dict.fromkeys("\u00a0\u2007\u2009\u202f\u2002\u2003\t", " ")
    | dict.fromkeys("−–—‑‒‐", "-")
    | {"º": "°", "˚": "°", "⁄": "/", "℃": "°C", "℉": "°F", "⁹": "9", "’": "'"}
    | {
        "½": " 1/2",
        "¼": " 1/4",
        "¾": " 3/4",
        "⅓": " 1/3",
        "⅔": " 2/3",
        "⅛": " 1/8",
        "⅜": " 3/8",
        "⅝": " 5/8",
        "⅞": " 7/8",
    }
)

QUOTES = "“”„‟‘’‚‛«»‹›'"
"""Quotes that are none for YAML; the last is what `tidy` makes of one of them."""


class Separators(NamedTuple):
    """Why a number's separators are refused, and the whole text without them.

    Two texts where it could mean either, none where no sense can be made of it.
    """

    fault: str
    mended: tuple[str, ...]


@cache
def _pattern(name: str) -> re.Pattern[str]:
    return re.compile(_PATTERNS[name], re.ASCII)


def tidy(text: str) -> str:
    """Dashes, spaces, degree signs and vulgar fractions in their plain ASCII spelling, the degree sign apart."""
    return text.translate(_TIDY).strip()


def separators(text: str) -> Separators | None:
    """The decimal comma or thousands separator in a tidied text, if there is one."""
    if "," in text and (comma := _pattern("comma").search(text)):
        return _commas(text, comma[0].rstrip(".,"))
    if "'" in text or "_" in text or " " in text:
        plain = _pattern("underscore").sub(lambda found: found[0].replace("_", ""), text)
        plain = _pattern("grouped").sub(lambda found: re.sub(r"\D", "", found[0]), plain)
        if plain != text:
            return Separators("has a thousands separator", (plain,))
    if text.count(".") > 1 and (dots := _pattern("dots").search(text)):
        if _grouped(dots[0].split(".")):
            return Separators("has a thousands separator", (text.replace(dots[0], dots[0].replace(".", "")),))
        return Separators("has more than one decimal point in a number", ())
    return None


def _grouped(groups: list[str]) -> bool:
    return 1 <= len(groups[0]) <= 3 and all(len(group) == 3 for group in groups[1:])


def _commas(text: str, token: str) -> Separators:
    commas, dots = token.count(","), token.count(".")
    if commas == 1 and token.rfind(".") < token.find(","):
        whole, rest = token.split(",")
        if dots and not _grouped(whole.split(".")):
            return Separators("has more than one decimal sign in a number", ())
        plain = _pattern("comma").sub(lambda found: found[0].replace(".", "").replace(",", "."), text)
        if len(rest) == 3 and not dots and len(whole) <= 3 and not whole.startswith("0"):
            fault = "has a comma that could be a decimal or a thousands one"
            return Separators(fault, (plain, _pattern("comma").sub(lambda found: found[0].replace(",", ""), text)))
        return Separators("has a decimal comma", (plain,))
    whole, _, _ = token.partition(".")
    if dots > 1 or not _grouped(whole.split(",")) or "," in token[len(whole) :]:
        return Separators("has more than one comma in a number", ())
    return Separators(
        "has a thousands separator", (_pattern("comma").sub(lambda found: found[0].replace(",", ""), text),)
    )
