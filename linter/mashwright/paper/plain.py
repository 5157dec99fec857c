"""A page in plain lines: bullets and marks of layout gone, numbers with a decimal point, words of number as numbers."""

import re
from typing import NamedTuple

from mashwright.measures.numerals import tidy
from mashwright.measures.spellings import WORDS, unit_key
from mashwright.patterns import pattern


class Line(NamedTuple):
    """One line of a page.

    Attributes:
        raw: as it stands there, without its end.
        text: as it is read; "" for a line of blanks and marks.
    """

    raw: str
    text: str


_BULLET = pattern(r"^\s*(?:(?:[-*+•·‣◦▪–—>#]+|\[[ xX]?\]|\(?\d{1,2}[.)]|[a-h]\))\s+)+|^\s*[•·‣◦▪>]+|^\s*-(?=[^\W\d])")
_MARKS = pattern(r"[*_`]{2,}|(?<!\w)[*_`](?=\S)|(?<=\S)[*_`](?!\w)|={2,}|-{3,}|_{2,}|~{2,}")
_GROUPED = pattern(r"(?<![\d.,])(\d{1,3})[.,](\d{3})(?=\s?(?:g|gr|gramm?e?s?|ml)\b)")
_DECIMAL = pattern(r"(?<![\d,])(\d+),(\d+)(?!\d|,\d)")
_LEADERS = pattern(r"(?:\s?\.){3,}")
_TWO_LABELS = pattern(r"(?i)(?<=\d)\s+(?=(?:og|fg)\b\s*[:=]?\s*\d)")
_LISTED = pattern(r"(?<=\d),(?=\d)")
_HOURS = pattern(r"(\d)\s?h\s?(\d{2})(?:\s?min)?\b")
_ALPHA = pattern(
    r"(?i)(?:\b(?:alphas[äa]uren?|alpha acids?|acides? alpha|alfazuur|alfasyre|alpha|alfa|aa)|α)\s*[:=]?\s*"
    r"(\d+(?:\.\d+)?(?:\s*-\s*\d+(?:\.\d+)?)?)(?!\s*(?:%|[\d.]|u\b|min|g\b|oz))(?:\s?%)?"
)
_COUNTED_LABEL = pattern(r"^([^\W\d]+(?: [^\W\d]+)?)\s+(?:no\.? ?)?\d{1,2}\s*[:.)](?=\s)")
_RATIO = pattern(
    r"(?<![\d/])(\d{2,3})\s?(°?\s?[CFcf])?\s?/\s?(\d{2,3})(?:\s?(?:min|')?)(?![\d/])(?!\s*(?:°|[a-zA-Z]*/))"
)
_DEGREES = pattern(
    r"(?i)(?<=\d)\s*(?:grader|grad|degr[ée]s?|graden|degrees|degree|degs?)\b\.?\s*(celsius|fahrenheit|plato|[cfp]\b)?"
)
_BARE_DEGREE = pattern(r"(?i)(?<=\d)\s?°\s*(?=[^\W\d])(?!(?:[cfpr]\b|ré|plato|brix|bx\b|balling|lov|l\b|dh\b|f\W|c\W))")
_LEADING_POINT = pattern(r"(?<![\w.,])\.(?=\d)")
_ORIGIN = pattern(r"(?i)\b(gallons?|gals?|pints?|quarts?|pts?|qts?)\.?\s*\(\s*(imp(?:erial)?|us|uk|british)\.?\s*\)")
_AND_A_HALF = pattern(r"(?i)\b(\d+) ([^\W\d_]+) and a half\b")
_TWO_GRAVITIES = pattern(
    r"(?i)(?<![\d.])(1\.\d{3}|1[01]\d\d)\s*(?:to|naar|auf|à|til|-|/|down to)\s*(1\.\d{3}|10\d\d)(?![\d.]\d)"
)
_ARROW = pattern(r"\s*(?:->|→|=>|⇒|…|\.\.\.)\s*")
COUNTS = {
    "a": "1", "an": "1", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7",
    "eight": "8", "nine": "9", "ten": "10", "twelve": "12", "fifteen": "15", "twenty": "20", "thirty": "30",
    "forty": "40", "sixty": "60", "ninety": "90", "half": "1/2", "half an": "1/2", "half a": "1/2",
    "quarter of an": "1/4", "a quarter of an": "1/4", "three quarters of an": "3/4", "ein": "1", "eine": "1",
    "einer": "1", "einen": "1", "zwei": "2", "drei": "3", "vier": "4", "fünf": "5", "sechs": "6", "zehn": "10",
    "halbe": "1/2", "halben": "1/2", "une": "1", "un": "1", "deux": "2", "trois": "3", "quatre": "4", "cinq": "5",
    "dix": "10", "demi": "1/2", "een": "1", "twee": "2", "drie": "3", "half uur": "1/2 h", "en": "1", "et": "1",
    "to": "2", "tre": "3", "fire": "4", "halv": "1/2", "fem": "5", "ti": "10", "eight and a half": "8 1/2",
    "an hour and a half": "1 1/2", "one and a half": "1 1/2", "two and a half": "2 1/2", "anderthalb": "1 1/2",
    "eineinhalb": "1 1/2", "halvanden": "1 1/2", "anderhalf": "1 1/2", "six months'": "6",
}  # fmt: skip
_TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}
_ONES = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
COUNTS |= {ten: str(value) for ten, value in _TENS.items()}
COUNTS |= {f"{ten}-{one}": str(value + at) for ten, value in _TENS.items() for at, one in enumerate(_ONES, 1)}
"""Numbers as words, read only in front of a unit; common practice."""
_UNITS_BEHIND = frozenset((
    "kg", "g", "lb", "oz", "l", "gal", "qt", "pt", "min", "h", "d", "week", "month", "quarter", "pack", "packet",
    "bushel", "stone", "firkin", "bbl", "sachet", "tsp", "tbsp", "cup", "vial",
))  # fmt: skip
_SPELLED = pattern(
    r"(?i)(?<![\w-])(" + "|".join(sorted(map(re.escape, COUNTS), key=len, reverse=True)) + r")[ -]([^\W\d_]+)"
)
_HOUR_AND_HALF = pattern(r"(?i)\b(?:an|one) hour and a half\b")


def lines_of_page(text: str) -> list[Line]:
    """The lines of a page, in order."""
    return [Line(raw, _plain(raw)) for raw in text.splitlines()]


def _plain(raw: str) -> str:
    text = tidy(raw.replace("\t", " | "))
    text = _BULLET().sub("", text.strip().strip("|").strip())
    text = _MARKS().sub(" ", _LEADERS().sub(" | ", text))
    text = text.replace("×", "x").replace("~", " ").replace("≈", " ").replace("\u200b", "")
    return numbers(" ".join(_ARROW().sub(" -- ", text).split()))


def numbers(text: str) -> str:
    """A text with its numbers as the format writes them."""
    text = _TWO_LABELS().sub(", ", _GROUPED().sub(r"\1\2", text))
    text = _DECIMAL().sub(r"\1.\2", text)
    text = _LISTED().sub(", ", text)
    text = _LEADING_POINT().sub("0.", text)
    text = _ORIGIN().sub(r"\2 \1", text)
    text = _TWO_GRAVITIES().sub(_falling, text)
    text = _HOURS().sub(r"\1 h \2 min", text)
    text = _ALPHA().sub(r"\1 %", text)
    text = _COUNTED_LABEL().sub(r"\1:", text)
    text = _RATIO().sub(_ratio, text)
    text = _DEGREES().sub(lambda found: f"°{(found[1] or ' ')[:1].upper()}", text)
    text = _BARE_DEGREE().sub("°  ", text)
    text = _HOUR_AND_HALF().sub("1 1/2 h", text)
    text = _SPELLED().sub(_spelled, text)
    return _AND_A_HALF().sub(r"\1 1/2 \2", text)


def _falling(found: re.Match[str]) -> str:
    """``1.054 to 1.013``: where the wort begins and the beer ends, and no range."""
    return f"{found[1]}, {found[2]}" if float(found[1]) > float(found[2]) else found[0]


def _ratio(found: re.Match[str]) -> str:
    """``66/60``: a temperature and its minutes; another ratio stays as it is."""
    degrees, minutes = int(found[1]), int(found[3])
    if not (35 <= degrees <= 80 or 95 <= degrees <= 176) or not 5 <= minutes <= 240:
        return found[0]
    scale = (found[2] or "°").strip().upper()
    return f"{found[1]} {scale if scale.startswith('°') else '°' + scale} {found[3]} min"


def _spelled(found: re.Match[str]) -> str:
    word = found[2]
    key = unit_key(word)
    if key not in _UNITS_BEHIND and WORDS.get(word.casefold()) not in _UNITS_BEHIND:
        return found[0]
    return f"{COUNTS[found[1].casefold()]} {word}"
