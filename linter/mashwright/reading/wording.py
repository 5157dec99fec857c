"""Schema errors in a brewer's words: what stands there, what may stand there, and an example of it."""

import re
from calendar import monthrange
from collections.abc import Callable
from typing import Any, NamedTuple

from mashwright.finding import Path
from mashwright.reading.fields import (
    ITEM,
    OTHER_SPELLINGS,
    Schema,
    at_path,
    examples,
    keys,
    kinds,
    layers,
    needed,
    places,
)
from mashwright.reading.nodes import Node
from mashwright.reading.syntax import short
from mashwright.reading.where_it_goes import way_out
from mashwright.words.nearest import nearest
from mashwright.words.plurals import in_a_row

# what brewers call a field, and what it is called here; the first that may stand at the place is meant
_KEYS_MEANT = {
    "name": ("recipe", "brewhouse", "hop", "what", "grain", "kind", "wort"),
    "title": ("recipe", "brewhouse", "wort"),
    "author": ("by",),
    "brewer": ("by",),
    "size": ("batch", "volume"),
    "volume": ("batch", "water"),
    "fermentables": ("grist",),
    "malts": ("grist",),
    "grains": ("grist",),
    "malt": ("grain", "grist"),
    "grain": ("grist",),
    "hop": ("hops",),
    "adjunct": ("grain",),
    "item": ("grain", "hop", "what"),
    "variety": ("hop", "grain"),
    "cultivar": ("hop",),
    "ingredient": ("grain", "hop", "what"),
    "wt": ("weight",),
    "mass": ("weight",),
    "amt": ("weight", "water", "pitch", "volume"),
    "qty": ("weight", "water", "pitch", "volume"),
    "amount": ("weight", "water", "pitch", "volume"),
    "quantity": ("weight", "water", "pitch", "volume"),
    "percentage": ("share",),
    "percent": ("share",),
    "lintner": ("diastatic-power",),
    "lovibond": ("colour",),
    "srm": ("colour",),
    "ebc": ("colour",),
    "yield": ("extract",),
    "fermentation": ("ferment",),
    "steps": ("rests",),
    "mash-steps": ("rests",),
    "temperature": ("at",),
    "temp": ("at",),
    "time": ("for", "boil", "when"),
    "minutes": ("for", "boil"),
    "duration": ("for",),
    "length": ("for",),
    "days": ("for", "dry"),
    "type": ("by", "form", "grain", "kind", "in"),
    "strain": ("kind",),
    "yeast": ("kind",),
    "aa": ("alpha",),
    "alpha-acid": ("alpha",),
    "alpha-acids": ("alpha",),
    "aau": ("alpha-units",),
    "ibu": ("bitterness",),
    "ibus": ("bitterness",),
    "original-gravity": ("og",),
    "final-gravity": ("fg",),
    "alcohol": ("abv",),
    "co2": ("carbonation",),
    "because": ("reason",),
    "copper": ("kettle",),
    "lauter": ("sparge",),
    "liquor": ("water",),
    "packaging": ("package",),
    "additives": ("additions",),
    "cooling": ("chill",),
    "aerate": ("aeration",),
    "oxygen": ("aeration",),
    "oxygenation": ("aeration",),
    "chilling": ("chill",),
    "cool": ("chill",),
    "dry-hop": ("dry",),
    "dry-hops": ("dry",),
    "dryhop": ("dry",),
    "fwh": ("first-wort",),
    "hop-stand": ("whirlpool",),
    "hopstand": ("whirlpool",),
    "stand": ("whirlpool",),
    "boil-time": ("for", "boil"),
    "boil-length": ("for", "boil"),
    "sparge-water": ("sparge", "water"),
    "priming-sugar": ("priming",),
    "carb": ("carbonation",),
    "fermentation-temperature": ("ferment",),
    "fermentation-temp": ("ferment",),
    "primary": ("ferment",),
    "mash-temperature": ("mash",),
    "mash-temp": ("mash",),
    "pre-boil": ("volume", "pre-boil-gravity"),
    "pre-boil-volume": ("volume",),
    "mash-water": ("water",),
    "strike-water": ("water",),
    "strike-temperature": ("strike",),
    "strike-temp": ("strike",),
    "vessel": ("in",),
    "container": ("in",),
    "comment": ("notes",),
    "comments": ("notes",),
    "remarks": ("notes",),
    "description": ("notes",),
    "from": ("source", "runnings"),
    "takes": ("runnings",),
    "running": ("runnings",),
    "gyle": ("wort",),
    "number-of-mashes": ("mashes",),
    "book": ("source",),
    "beer-style": ("style",),
    "fermenting": ("ferment",),
    "step": ("rests",),
    "schedule": ("rests", "ferment"),
    "mash-schedule": ("rests",),
    "spices": ("additions",),
    "other": ("additions",),
    "extras": ("additions",),
    "misc": ("additions",),
    "finings": ("additions",),
    "sg": ("og",),
    "alcohol-by-volume": ("abv",),
    "apparent-attenuation": ("attenuation",),
    "pitch-rate": ("pitch",),
    "temp-end": ("to",),
    "diastatic": ("diastatic-power",),
    "batch-size": ("batch",),
    "batch-volume": ("batch",),
    "brew-length": ("batch",),
    "recipe-name": ("recipe",),
    "beer": ("recipe", "wort"),
    "target": ("targets",),
    "addition": ("additions",),
    "grain-bill": ("grist",),
    "grainbill": ("grist",),
    "mash-bill": ("grist",),
    "bill": ("grist",),
    "hop-schedule": ("hops",),
    "hopping": ("hops",),
    "yeasts": ("yeast",),
    "kg": ("weight",),
    "g": ("weight",),
    "grams": ("weight",),
    "lb": ("weight",),
    "lbs": ("weight",),
    "oz": ("weight",),
    "litres": ("volume", "water", "batch"),
    "liters": ("volume", "water", "batch"),
    "gallons": ("volume", "water", "batch"),
    "min": ("for", "boil"),
    "mins": ("for", "boil"),
    "packets": ("pitch",),
    "packs": ("pitch",),
    "sachets": ("pitch",),
    "psi": ("pressure",),
    "volumes": ("carbonation",),
    "vols": ("carbonation",),
    "ratio": ("thickness",),
    "mash-ratio": ("thickness",),
    "mash-thickness": ("thickness",),
    "water-to-grist": ("thickness",),
    "gravity": ("og",),
    "starting-gravity": ("og",),
    "start-gravity": ("og",),
    "o.g.": ("og",),
    "f.g.": ("fg",),
    "finishing-gravity": ("fg",),
    "terminal-gravity": ("fg",),
    "end-gravity": ("fg",),
    "strike-volume": ("water",),
    "sparge-volume": ("sparge", "water"),
    "sparge-temperature": ("at",),
    "sparge-temp": ("at",),
    "boil-volume": ("volume",),
    "pre-boil-size": ("volume",),
    "boil-duration": ("for", "boil"),
    "pitch-temperature": ("at",),
    "pitching-temperature": ("at",),
    "pitch-temp": ("at",),
    "pitching-rate": ("pitch",),
    "color": ("colour",),
    "bitterness-ibu": ("bitterness",),
    "priming-rate": ("priming",),
    "mash-at": ("mash",),
    "ferment-at": ("ferment",),
    "hop-additions": ("hops",),
    "hop-addition": ("hops",),
}

_KEYS_ABROAD = {
    "recipe": "rezept recette receta ricetta recept",
    "batch": "menge ausschlagmenge ausschlag volumen cantidad",
    "grist": "schuettung schuttung malze malts maltas mouts",
    "grain": "malz malt malta malto mout",
    "weight": "gewicht menge poids peso",
    "mash": "maische maischen maischplan empatage maceracion ammostamento maisch",
    "rests": "rasten paliers",
    "boil": "kochen kochzeit ebullition hervido bollitura koken",
    "hops": "hopfen houblons houblon lupulos lupulo luppoli luppolo hoppen",
    "hop": "hopfen houblon lupulo luppolo",
    "alpha": "alphasaeure alphasaure",
    "yeast": "hefe levure levadura lievito gist",
    "sugar": "zucker sucre azucar zucchero suiker",
    "water": "wasser hauptguss eau agua acqua",
    "sparge": "nachguss rincage",
    "additions": "zusaetze zusatze ajouts",
    "notes": "notizen bemerkungen remarques notas note",
    "style": "stil bierstil estilo stile stijl",
    "at": "temperatur temperature temperatura",
    "for": "dauer duree duracion durata",
}
"""Fields in German, French, Spanish, Italian and Dutch, without accents; the first that may stand there is meant."""

_SYNONYMS = dict(_KEYS_MEANT)
"""The English ones, which are read for what they mean."""

for _field, _words in _KEYS_ABROAD.items():
    for _word in _words.split():
        _KEYS_MEANT[_word] = (*_KEYS_MEANT.get(_word, ()), _field)

_VALUES_MEANT = {
    "boil": "kettle",
    "copper": "kettle",
    "whirlpool": "kettle",
    "primary": "fermenter",
    "secondary": "fermenter",
    "leaf": "cone",
    "whole": "cone",
    "direct": "heat",
    "glass": "bottles",
    "continuous": "fly",
    "malt": "base malt",
    "crystal malt": "caramel malt",
    "malted grain": "malted adjunct grain",
    "adjunct": "raw grain",
    "flakes": "flaked grain",
    "fail": "error",
    "info": "note",
}

_WEIGHT = r"[\d.,/½¼¾ ]+(?:kg|g|lbs?|oz)"
_TIMES = ("when", "use", "time", "timing", "addition", "stage", "added", "add")
_ADDITION_TIMES = (
    (r"flame ?-?out|knock ?-?out|end of (?:the )?boil|0 ?min.*", "boil: 0 min, or whirlpool: 20 min"),
    (r".*whirl ?-?pool.*|.*hop ?-?stand.*", "whirlpool: 20 min"),
    (r".*first ?-?wort.*", "first-wort: true"),
    (r".*dry.*", "dry: 4 d"),
    (r".*mash.*", "mash: true"),
)
"""When a hop goes in, in brewers' words, and the field that says so."""


class Wrong(NamedTuple):
    """A value that breaks one keyword of the schema; ``text`` as it is written, where it is a scalar."""

    keyword: str
    limit: Any
    value: Any
    text: str


def meant(root: Schema, path: Path, key: str, present: dict[str, Any]) -> str | None:
    """The key that an unknown one stands for: in another spelling, under another name, or mistyped."""
    here = keys(at_path(root, path))
    free = [name for name in here if name not in present]
    if {"sugar", "extract", "fruit"} & set(present):
        free = [name for name in free if name != "grain"]
    for name in free:
        if plain(name) == plain(key):
            return name
    dashed = _dashed_key(key)
    value = present.get(key)
    fitting = [name for name in _KEYS_MEANT.get(dashed, ()) if name in free]
    holding = [name for name in fitting if key not in present or _can_hold(at_path(root, (*path, name)), value)]
    if fitting := holding or ([] if _elsewhere(root, path, key) else fitting[:1]):
        # of several, the one whose list has the value
        return next((name for name in fitting if value in _choices(at_path(root, (*path, name)))), fitting[0])
    if any(name == key for name in here) or any(
        _elsewhere(root, path, name) for name in (key, *_KEYS_MEANT.get(dashed, ()))
    ):
        return None
    near = nearest(dashed, free, 0.65)
    if near is None and "weight" in free and isinstance(value, str) and re.fullmatch(_WEIGHT, value):
        return "weight"
    return near


_DOUBTFUL = frozenset(("volume", "size", "type", "yield", "adjunct", "item", "ingredient", "quantity", "grain"))
"""Names for a field that are asked about even where one field fits: each says too little."""


def certain(
    root: Schema, path: Path, key: str, present: dict[str, Any], understands: Callable[[Path, str], bool]
) -> str | None:
    """The field that another name for it can only mean, so that it is read; None where it is to be asked about.

    Args:
        root: the schema.
        path: of the mapping that the name stands in.
        key: the name.
        present: the mapping, as data.
        understands: whether a text at a path is a short form that is read.
    """
    here = keys(at_path(root, path))
    if key in here:
        return None
    for name in here:
        if plain(name) == plain(key):
            return name if name not in present else None
    dashed = _dashed_key(key)
    if not key.isascii():
        return None
    field = next((name for name in _SYNONYMS.get(dashed, ()) if name in here), None)
    if field is not None and dashed in _DOUBTFUL:
        chosen = present[key] in _choices(at_path(root, (*path, field)))
        if not chosen and (dashed != "volume" or path not in (("mash",), ("sparge",), ("steep",))):
            return None
    if field is None or field in present or (field == "grain" and {"sugar", "extract", "fruit"} & set(present)):
        return None
    value = present[key]
    if _can_hold(at_path(root, (*path, field)), value):
        return field
    return field if isinstance(value, str) and understands((*path, field), value) else None


def other_names(field: str, fields: tuple[str, ...]) -> list[str]:
    """Names under which a field among others is read, in small letters with hyphens.

    Args:
        field: of the format.
        fields: all that may stand in the same mapping, the field too.
    """
    first = {name: next((one for one in meant if one in fields), None) for name, meant in _SYNONYMS.items()}
    return sorted(name for name, one in first.items() if one == field and name not in fields and name not in _DOUBTFUL)


def unknown(root: Schema, path: Path, present: dict[str, Any], guess: str | None, value: Node | None = None) -> str:
    """A key that the schema does not have at this place."""
    key, parent = str(path[-1]), path[:-1]
    if root["title"] == "Recipe" and (guess is None or plain(guess) != plain(key)):
        out = way_out(parent, _dashed_key(key), value)
        if out is not None:
            return f"`{short(key)}` is not a field here; {out}"
    if guess is not None:
        if plain(guess) == plain(key):
            return f"`{short(key)}` is written `{guess}`: the names of fields have small letters and hyphens"
        return f"`{short(key)}` is not known here; did you mean `{guess}`?"
    if "hops" in parent and key in _TIMES and (told := _addition_time(str(present[key]))):
        return f"`{key}` has its own field; write {told}"
    dashed = _dashed_key(key)
    for name in (key, dashed, *_KEYS_MEANT.get(dashed, ())):
        if elsewhere := _elsewhere(root, parent, name):
            as_name = "" if name == key else f" as `{name}`"
            return f"`{short(key)}` does not go here; it goes {' or '.join(elsewhere)}{as_name}"
    free = [
        name for name in keys(at_path(root, parent)) if name not in present and name not in OTHER_SPELLINGS.values()
    ]
    if not free:
        return f"`{short(key)}` is not known here; leave it out"
    own = "; data of your own can stand under `notes`" if "notes" in free else ""
    return f"`{short(key)}` is not a field here; the others are {in_a_row([f'`{name}`' for name in free])}{own}"


def _dashed_key(key: str) -> str:
    """A key as those that are known are written: small, with hyphens and without accents."""
    from unicodedata import normalize

    bare = "".join(sign for sign in normalize("NFKD", key.strip().lower()) if sign.isascii())
    return re.sub(r"[\s_]+", "-", bare)


def missing(root: Schema, path: Path) -> str:
    """A key that has to be there."""
    key, where = str(path[-1]), "this" if path[:-1] else f"the {root['title'].lower()}"
    return f"{where} has no `{key}`; add one, such as {_snippet(key, examples(at_path(root, path))[0])}"


def wrong_value(root: Schema, path: Path, wrong: Wrong) -> str:
    """A value of another kind than the schema asks for, or none of those that it lists."""
    here = at_path(root, path)
    name, such_as, types = _name(root, path), _such_as(path, here), kinds(here)
    if wrong.value is None:
        thing = "nothing under it" if {"object", "array"} & set(types) else "no value"
        optional = bool(path) and path[-1] not in needed(at_path(root, path[:-1]))
        return f"{name} has {thing}; write {such_as}{', or leave it out' if optional else ''}"
    if path == ("steep",) and isinstance(wrong.value, list):
        return "`steep` says how, not what; write it in a line of `grist`: - 250 g caramel malt, steeped"
    if path == ("water",) and re.fullmatch(_VOLUME, wrong.text):
        return f"`water` is what is dissolved in it; its volume goes elsewhere; write mash: {{water: {wrong.text}}}"
    match wrong.keyword:
        case "enum":
            return _choice(name, wrong)
        case "pattern" if re.fullmatch(r"\d{4}-\d\d-\d\d", wrong.text):
            return f"{name} is not a day of the calendar: {_no_day(wrong.text)}"
        case "const":
            quoted = wrong.text == str(wrong.limit)
            return f"{name} is {wrong.limit}, not {'that in quotes' if quoted else _shown(wrong)}; write {such_as}"
        case "minItems" | "minLength" | "minProperties":
            return f"{name} is empty; write {such_as}"
    if any("pattern" in layer for layer in here):
        return f"{name} is a date such as {flow(examples(here)[0])}, not {_shown(wrong)}"
    if types == ("boolean",):
        return _yes_or_no(name, path, wrong)
    if "object" in types:
        takes = "takes one value or fields" if "string" in types else "takes fields"
        return f"{name} {takes}, not {_shown(wrong)}; write {(path and _rewritten(root, path, wrong.text)) or such_as}"
    if "array" in types:
        return f"{name} is a list; put a dash in front of each thing in it: {_dashed(examples(here)[0][0])}"
    return f"{name} takes one value, such as {flow(examples(here)[0])}, not {_shown(wrong)}"


_VOLUME = r"[\d.]+ ?(?:l|litres?|liters?|gal|gallons?|qt|quarts?|hl)"


def shares_of_gas(text: str, found: str) -> str | None:
    """What to say of ``70/30``, which does not say which of its two numbers is carbon dioxide."""
    both = re.fullmatch(r"(\d+) ?/ ?(\d+)", found)
    if both is None or int(both[1]) + int(both[2]) != 100:
        return None
    vessel = re.match(r"[A-Za-z-]+", text)
    ways = [f"package: {{in: {vessel[0] if vessel else 'keg'}, gas: {share} % CO2}}" for share in (both[2], both[1])]
    return f'"{found}" does not say which is CO2; write {" or ".join(ways)}'


def _can_hold(here: list[Schema], value: Any) -> bool:
    types = kinds(here)
    if isinstance(value, dict):
        return "object" in types
    if isinstance(value, list):
        return "array" in types
    return not types or bool({"string", "boolean"} & set(types))


def _choices(here: list[Schema]) -> list[Any]:
    return [choice for layer in here for choice in layer.get("enum", ())]


def plain(key: str) -> str:
    """A key as it is compared: in small letters, without hyphens and blanks."""
    return re.sub(r"[\s_-]+", "", key).lower()


def _elsewhere(root: Schema, here: Path, key: str) -> list[str]:
    """Where a key belongs, in words, if that is one or two places: those below this one before the others."""
    place = tuple(ITEM if isinstance(step, int) else step for step in here)
    found = places(root, key)
    below = [other for other in found if place and other[: len(place)] == place] or found
    if not place and ("targets",) in below:
        below = [("targets",)]
    return [_place(root, other) for other in below] if len(below) <= 2 else []


def _place(root: Schema, place: tuple[str, ...]) -> str:
    if not place:
        return f"at the top of the {root['title'].lower()}"
    names = " under ".join(f"`{step}`" for step in reversed(place) if step != ITEM)
    return f"in an item of {names}" if place[-1] == ITEM else f"under {names}"


def _name(root: Schema, path: Path) -> str:
    """What a value is called: by its key, or as an item of a list."""
    if not path:
        return f"a {root['title'].lower()}"
    if isinstance(path[-1], str):
        return f"`{short(path[-1])}`"
    owner = next((step for step in reversed(path) if isinstance(step, str)), "")
    return f"an item of `{short(owner)}`"


def such_as(root: Schema, path: Path) -> str:
    """An example of what may stand at a path."""
    return _such_as(path, at_path(root, path))


def _such_as(path: Path, here: list[Schema]) -> str:
    example = examples(here)[0]
    if not path:
        return " and ".join(_snippet(key, value) for key, value in list(example.items())[:2])
    return _snippet(short(path[-1]), example) if isinstance(path[-1], str) else _dashed(example)


def _rewritten(root: Schema, path: Path, text: str) -> str | None:
    """A value that stands alone, written under the one field that takes such a value."""
    if set(text) & set(",:{}[]#"):
        return None
    here = at_path(root, path)
    unit = match[1] if (match := re.fullmatch(r"[\d.,]+\s*(\D+)", text)) else None
    fitting = []
    for name in keys(here):
        field = next(layer["properties"][name] for layer in here if name in layer.get("properties", {}))
        if unit is not None:
            shown = (example for example in examples(layers(root, field)) if isinstance(example, str))
            fits = any(example.endswith(f" {unit}") for example in shown)
        else:
            fits = text in field.get("enum", ()) or (text[:1].isalpha() and field.get("$ref") == "#/$defs/name")
        if fits:
            fitting.append(name)
    if len(fitting) != 1 or not needed(here) <= set(fitting):
        return None
    fields = f"{{{fitting[0]}: {short(text)}}}"
    return f"{short(path[-1])}: {fields}" if path and isinstance(path[-1], str) else f"- {fields}"


def _addition_time(text: str) -> str:
    """The field for a time of adding hops: by a word for it, or minutes of the boil."""
    folded = text.strip().casefold()
    if re.fullmatch(r"[1-9]\d*(?: ?min\w*)?", folded):
        return f"boil: {re.sub(r'[^0-9]', '', folded)} min"
    if re.fullmatch(r"\d+ ?(?:d|days?)", folded):
        return f"dry: {re.sub(r'[^0-9]', '', folded)} d"
    return next((field for words, field in _ADDITION_TIMES if re.fullmatch(words, folded)), "")


def _no_day(text: str) -> str:
    year, month, day = (int(part) for part in text.split("-"))
    if not 1 <= month <= 12:
        return f"{text} has month {month:02d}; write year-month-day, such as 2027-12-31"
    _, last = monthrange(year, month)
    return f"{text} has day {day:02d}, and that month has {last}; write {year:04d}-{month:02d}-{last}"


def _yes_or_no(name: str, path: Path, wrong: Wrong) -> str:
    meaning = {"yes": "true", "y": "true", "on": "true", "no": "false", "n": "false", "off": "false"}
    word = meaning.get(wrong.text.strip().lower())
    if wrong.text in ("true", "false"):
        return f"{name} is {wrong.text} without quotes; write {path[-1]}: {wrong.text}"
    remedy = f"; write {path[-1]}: {word}" if word is not None else ""
    return f"{name} is true or false, not {_shown(wrong)}{remedy}"


def choice_meant(wrong: Wrong) -> str | None:
    """The word of an enumeration that another one stands for, or None."""
    choices = [str(choice) for choice in wrong.limit]
    given = re.sub(r"[\s_-]+", " ", wrong.text.strip().lower())
    guess = given if given in choices else _VALUES_MEANT.get(given)
    if guess not in choices:
        guess = nearest(given, choices, 0.55) if given else None
    return guess


def _choice(name: str, wrong: Wrong) -> str:
    choices, guess = [str(choice) for choice in wrong.limit], choice_meant(wrong)
    if guess is not None:
        return f"{name} does not take {_shown(wrong)}; did you mean {guess}?"
    if len(choices) > _MOST_CHOICES:
        return f"{name} takes words such as {in_a_row(choices[:3], 'and')}, not {_shown(wrong)}"
    return f"{name} takes {in_a_row(choices, 'or')}, not {_shown(wrong)}"


_MOST_CHOICES = 20
"""Words that are all told where none of them is meant."""


def _shown(wrong: Wrong) -> str:
    """The value as the message names it."""
    if isinstance(wrong.value, dict):
        return "fields"
    if isinstance(wrong.value, list):
        return "a list"
    return short(wrong.text) or "an empty text"


def _snippet(key: str, value: Any) -> str:
    return f"{key}: {flow(value)}"


def _dashed(value: Any) -> str:
    return f"- {flow(value)}"


def flow(value: Any) -> str:
    """An example as a brewer would write it in YAML, on one line."""
    if isinstance(value, dict):
        return f"{{{', '.join(_snippet(key, inner) for key, inner in value.items())}}}"
    if isinstance(value, list):
        return f"[{', '.join(flow(inner) for inner in value)}]"
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)
