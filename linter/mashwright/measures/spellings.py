"""How units are spelt: full words, plurals, degrees and the place of "US" or "imp" forgiven."""

from functools import lru_cache

_SPELLINGS = {
    "kg": "kilogram kilogramme kilo kilogramm chilo chili kilos",
    "g": "gram gramme gm gramm gramos grammi",
    "gr": "grain",
    "mg": "milligram milligramme",
    "lb": "pound",
    "oz": "ounce unzen onces onza",
    "cwt": "hundredweight",
    "quarter": "qr qtr",
    "bushel": "bu",
    "l": "litre liter ltr lt litri litro litros",
    "ml": "millilitre milliliter cc",
    "hl": "hectolitre hectoliter",
    "gal": "gallon",
    "qt": "quart",
    "pt": "pint",
    "fl": "fluid",
    "bbl": "barrel brl",
    "min": "minute minuten minuti minuto minutos minuter minutter minut minuut",
    "h": "hour hr stunde stunden std heure uur uren ore ora hora timer",
    "d": "day tag tage tagen jour dag dage dagen dager dagar giorno giorni dia dias día",
    "week": "woche wochen semaine weken uge uger uke uker vecka veckor settimana settimane semana",
    "month": "monat monate mois maand maanden måned måneder mese mesi",
    "s": "second sekunden",
    "c": "celsius centigrade celcius",
    "f": "fahrenheit farenheit",
    "re": "réaumur reaumur ré",
    "p": "plato",
    "w": "windisch",
    "k": "kolbach",
    "vol": "volume",
    "%": "percent pct pc",
    "imp": "imperial uk british english",
    "us": "american usa us",
    "m": "metre meter",
    "ft": "foot feet",
    "tsp": "teaspoon teaspoonful",
    "tbsp": "tablespoon tablespoonful tbs",
    "cup": "cupful",
    "/": "per",
}
WORDS = {spelling: short for short, spellings in _SPELLINGS.items() for spelling in spellings.split()}
"""Full words, of other tongues too, and the short one that stands for each in a key."""
_DROPPED = frozenset(("deg", "degs", "degree", "degrees", "of", "as", "and", "brewing", "alkalinity", "hardness"))
_PUNCTUATION = str.maketrans(
    dict.fromkeys("°()[],-\t", " ") | dict.fromkeys(".'’", "") | {"/": " / ", "%": " % "},
)


@lru_cache(maxsize=1024)
def unit_key(spelling: str) -> str:
    """One key for all spellings of a unit, in lower case and short words, "US" or "imp" in front."""
    text = spelling.casefold().replace("per cent", "%").replace("u.s.", "us ").translate(_PUNCTUATION)
    words = [_word(word) for word in text.split() if word not in _DROPPED]
    if "us" in words or "imp" in words:
        parts = "\0".join(words).split("/")
        return "/".join("".join(sorted(part.split("\0"), key=_is_not_origin)) for part in parts)
    return "".join(words)


def _is_not_origin(word: str) -> bool:
    return word not in ("us", "imp")


def _word(word: str) -> str:
    short = WORDS.get(word)
    if short is None:
        bare = word.removeprefix("deg")
        bare = bare[:-1] if len(bare) > 2 and bare.endswith("s") else bare
        short = WORDS.get(bare, bare)
    return short
