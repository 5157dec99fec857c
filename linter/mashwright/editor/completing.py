"""What can stand at the cursor: fields, words, names, units, and short forms of a section."""

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from mashwright.editor.where import Spot
from mashwright.finding import Path
from mashwright.ingredients.kinds import Cereal, IngredientKind
from mashwright.measures.quantity import Kind
from mashwright.measures.unit_table import ROWS, USUAL
from mashwright.reading.editing import in_flow
from mashwright.reading.fields import OTHER_SPELLINGS, Schema, at_path, examples, keys, kinds
from mashwright.reading.nodes import Scalar
from mashwright.reading.scalars import core_value
from mashwright.reading.short_forms import EXAMPLES
from mashwright.reading.wording import flow
from mashwright.recipe.brewhouse import Brewhouse
from mashwright.reporting.format_pages import field_in_words
from mashwright.reviewing.catalogue import Known, known
from mashwright.reviewing.plugins import Installed
from mashwright_schema import load

_HELD: dict[str, tuple[Kind, ...]] = {
    "mass": (Kind.MASS,),
    "volume": (Kind.VOLUME,),
    "batch": (Kind.VOLUME,),
    "amount": (Kind.MASS, Kind.VOLUME),
    "temperature": (Kind.TEMPERATURE,),
    "time": (Kind.TIME,),
    "time-if-known": (Kind.TIME,),
    "share": (Kind.SHARE,),
    "gravity": (Kind.GRAVITY,),
    "malt-colour": (Kind.MALT_COLOUR,),
    "beer-colour": (Kind.BEER_COLOUR,),
    "diastatic-power": (Kind.DIASTATIC_POWER,),
    "thickness": (Kind.THICKNESS,),
    "ph": (),
    "concentration": (Kind.CONCENTRATION,),
    "alkalinity": (Kind.ALKALINITY,),
    "bitterness": (Kind.BITTERNESS,),
    "carbon-dioxide": (Kind.CARBONATION,),
    "dose": (Kind.DOSE,),
    "alpha-units": (Kind.ALPHA_UNITS,),
    "pressure": (Kind.PRESSURE,),
    "pitch": (Kind.MASS, Kind.CELLS, Kind.PACKS),
    "extract-yield": (Kind.EXTRACT,),
    "rate": (Kind.RATE,),
    "absorption": (Kind.ABSORPTION,),
    "altitude": (Kind.ALTITUDE,),
}
"""What a definition of the schema holds, for its units."""
_SHORT_LINES: dict[tuple[str, ...], tuple[str, ...]] = {
    ("grist", "*"): ("malts", "sugars", "fruit"),
    ("grain-bill", "*"): ("malts", "sugars", "fruit"),
    ("hops", "*"): ("hops",),
    ("yeast",): ("yeasts",),
    ("yeast", "*"): ("yeasts",),
    ("package", "priming"): ("sugars",),
    ("ingredients", "*"): ("malts", "sugars", "fruit", "hops", "yeasts", "enzymes"),
}
"""Places where a name may stand in a line of text, behind its amount."""
_NAMED: dict[tuple[str, ...], tuple[str, ...]] = {
    ("grist", "*", "grain"): ("malts",),
    ("grist", "*", "sugar"): ("sugars",),
    ("grist", "*", "extract"): ("extracts",),
    ("grist", "*", "fruit"): ("fruit",),
    ("hops", "*", "hop"): ("hops",),
    ("yeast", "kind"): ("yeasts",),
    ("yeast", "*", "kind"): ("yeasts",),
    ("souring", "with"): ("yeasts",),
    ("package", "priming", "sugar"): ("sugars",),
    ("package", "priming", "extract"): ("extracts",),
    ("package", "*", "priming", "sugar"): ("sugars",),
    ("package", "*", "priming", "extract"): ("extracts",),
    ("style",): ("styles",),
    ("lots", "*", "of"): ("malts", "hops"),
    ("ingredients", "*", "kind"): ("malts", "sugars", "fruit", "hops", "yeasts", "enzymes"),
}
"""Fields that hold the name of something known."""
_KEYED = {"salts": ("salts",), "acid": ("acids",), "enzymes": ("enzymes",)}
"""Mappings whose keys are names of something known."""
_EXTRACTS = (IngredientKind.DRY_EXTRACT, IngredientKind.LIQUID_EXTRACT)
_AMOUNT = re.compile(r"(\d[\d.,/]*(?:[ -]\d[\d.,/]*)?)[ ]*([^\s\d]*)")
_BEHIND_AN_AMOUNT = re.compile(r"\d[\d.,/]*[ ]*[^\s\d]+[ ]+(?=[^\d\s]|$)")
_REST_OF_KEY = re.compile(r"[\w-]*([\"']?[ \t]*:)?")


class Offer(NamedTuple):
    """One thing that may stand at the cursor.

    Attributes:
        label: as it is shown, and looked for.
        text: what is put in place of ``start`` to ``end``.
        sort: ``field``, ``word``, ``name``, ``unit`` or ``line``.
        beside: a few words beside the label.
        told: more, where it is looked at.
    """

    label: str
    text: str
    sort: str
    start: int
    end: int
    beside: str = ""
    told: str = ""


class _Asked(NamedTuple):
    """A cursor with all that is known where it stands."""

    text: str
    cursor: int
    spot: Spot
    place: tuple[str, ...]
    root: Schema
    house: Brewhouse
    found: Installed


def offers(text: str, index: int, spot: Spot, schema: str, house: Brewhouse, found: Installed) -> list[Offer]:
    """All that may stand at the cursor, the most fitting first.

    Args:
        schema: ``recipe`` or ``brewhouse``.
        house: whose lots and own names count.
        found: the rules, for their names and settings.
    """
    asked = _Asked(text, index, spot, _place(spot.path), load(schema), house, found)
    offered: list[Offer] = []
    if spot.role in ("key", "item") and not spot.begun[:1].isdigit():
        offered += _fields(asked)
    if spot.role in ("value", "item"):
        offered += _values(asked)
    return list({one.label: one for one in reversed(offered)}.values())[::-1]


def _place(path: Path) -> tuple[str, ...]:
    """A path with ``*`` for items; that of a wort as in a recipe, and names of the user's own as items."""
    if path[:1] == ("worts",) and len(path) > 2:
        path = path[2:]
    steps = ["*" if isinstance(step, int) else step for step in path]
    if steps[:1] == ["grain-bill"] and len(steps) > 2:
        steps[0] = "grist"
    if steps[:1] in (["lots"], ["ingredients"], ["vessels"]) and len(steps) > 1:
        steps[1] = "*"
    return tuple(steps)


def _fields(asked: _Asked) -> Iterator[Offer]:
    spot, here = asked.spot, at_path(asked.root, asked.spot.path)
    rest = _REST_OF_KEY.match(asked.text, asked.cursor)
    assert rest is not None
    end = rest.end() if spot.role == "key" and rest[1] else asked.cursor + len(rest[0])
    end = end if spot.begun[:1] not in ("'", '"') or rest[1] else asked.cursor
    behind = asked.text[rest.start(1) : rest.end(1)].lstrip("\"'") if rest[1] else ""

    def offer(key: str, colon: str, beside: str, told: str = "") -> Offer:
        return Offer(key, f"{_quoted(key)}{behind or colon}", "field", spot.start, end, beside, told)

    forbidden = _forbidden(here, spot.beside)
    fields = keys(here)
    for key in fields:
        if key in spot.beside or key in forbidden or key in OTHER_SPELLINGS.values():
            continue
        inner = at_path(asked.root, (*spot.path, key))
        held = kinds(inner)
        short = _place((*spot.path, key)) in EXAMPLES.get(asked.root["title"].lower(), {})
        colon = ":" if not spot.flow and held in (("object",), ("array",)) and not short else ": "
        words = inner[0].get("description", "") if inner else ""
        yield offer(
            key,
            colon,
            words.partition(";")[0].partition(". ")[0],
            field_in_words(asked.root, (*spot.path, key), fields),
        )
    last = asked.place[-1:] and asked.place[-1]
    if last in _KEYED and asked.place[:1] in (("mash",), ("sparge",), ("boil",)):
        for one in _known(asked, _KEYED[str(last)]):
            if one.name not in spot.beside:
                yield offer(one.name, ": ", one.brief)
    elif asked.place == ("rules",):
        for name, rule in asked.found.rules.items():
            if name not in spot.beside:
                yield offer(name, ": ", _question(rule.info.question), rule.info.page)
    elif asked.place[:1] == ("rules",) and len(asked.place) == 2 and asked.place[1] in asked.found.rules:
        for name, limit in asked.found.rules[asked.place[1]].limits.limits().items():
            if name not in spot.beside:
                yield offer(name, ": ", f"now {limit.default:g} {limit.unit}".rstrip())


def _forbidden(here: list[Schema], beside: frozenset[str]) -> set[str]:
    """Fields that may not stand beside those that are there, by the conditions of the schema."""
    found: set[str] = set()
    for layer in here:
        for one in layer.get("allOf", ()):
            asked = one.get("if", {})
            wanted = asked.get("required") if set(asked) == {"required"} else None
            if wanted and beside.issuperset(wanted):
                properties = one.get("then", {}).get("properties", {})
                found.update(key for key, inner in properties.items() if inner.get("not") == {})
    return found


def _values(asked: _Asked) -> Iterator[Offer]:
    spot, here = asked.spot, at_path(asked.root, asked.spot.path)
    begun, space = spot.begun, " " if spot.close else ""
    closed = begun[:1] in ("'", '"') and asked.text[asked.cursor : asked.cursor + 1] == begun[:1]
    end = asked.cursor + closed

    def offer(text: str, sort: str, beside: str = "", told: str = "", start: int = spot.start) -> Offer:
        bare = sort == "unit" or (sort == "line" and not spot.flow)
        return Offer(text, f"{space}{text if bare else _quoted(text)}", sort, start, end, beside, told)

    line = _SHORT_LINES.get(asked.place)
    amount = _AMOUNT.fullmatch(begun)
    held = next((_HELD[name] for layer in here if (name := layer.get("$ref", "").rpartition("/")[2]) in _HELD), None)
    if amount is not None:
        for kind in held if held is not None else (Kind.MASS,) if line else ():
            for unit in _units(kind):
                yield offer(f"{amount[1]} {unit}", "unit", kind.value)
        return
    for layer in here:
        for word in layer.get("enum", ()):
            if isinstance(word, str):
                yield offer(word, "word")
    if kinds(here) == ("boolean",) or any(layer.get("$ref", "").endswith("/flag") for layer in here):
        yield offer("true", "unit")
    for name, beside in _names(asked):
        yield offer(name, "name", beside)
    if line:
        behind = _BEHIND_AN_AMOUNT.match(begun)
        for one in _known(asked, line) if behind or begun[:1].isalpha() or not begun else ():
            if not any(letter.isdigit() for letter in one.name):  # which in a line are amounts
                yield offer(one.name, "name", one.brief, start=spot.start + (behind.end() if behind else 0))
    if begun and not begun[:1].isalpha():
        return
    if "object" in kinds(here) or "array" in kinds(here) or line:
        schema = EXAMPLES["brewhouse" if asked.root["title"] == "Brewhouse" else "recipe"]
        for place, texts in schema.items():
            if _place(place) == asked.place:
                for text in texts:
                    yield offer(text, "line", "in short")
    elif held is not None:
        for example in examples(here)[:4]:
            yield offer(flow(example), "line", "an example")


def _names(asked: _Asked) -> Iterator[tuple[str, str]]:
    """Names that a field takes, each with a few words."""
    place = asked.place
    for one in _known(asked, _NAMED.get(place, ())):
        yield one.name, one.brief
    if place[-1:] == ("lot",):
        for name, lot in asked.house.lots.items():
            yield str(name), str(lot.of)
    elif place[-1:] == ("rule",):
        for rule in asked.found.rules.values():
            yield rule.id, _question(rule.info.question)
    elif place[-1:] == ("cereal",):
        for cereal in Cereal:
            yield str(cereal.value), ""
    elif place[:1] == ("rules",) and len(place) == 2:
        yield "off", "ask this rule nothing"


def _known(asked: _Asked, wanted: Iterable[str]) -> Iterator[Known]:
    """What is known of some kinds, the brewhouse's own first."""
    for kind in wanted:
        if kind in ("acids", "salts"):
            acids = kind == "acids"
            yield from (one for one in known("salts", asked.house) if _is_acid(one) is acids)
        elif kind in ("extracts", "sugars"):
            extracts = kind == "extracts"
            yield from (one for one in known("sugars", asked.house) if (_sort(one) in _EXTRACTS) is extracts)
        else:
            yield from known(kind, asked.house)


def _is_acid(one: Known) -> bool:
    return any(value.text == "an acid" for value in one.values)


def _sort(one: Known) -> str:
    return next((value.text for value in one.values if value.what == "kind"), "")


def _units(kind: Kind) -> list[str]:
    rows = ROWS.get(kind, ())
    names = [row[0][0] for row in rows[: USUAL.get(kind, len(rows))]]
    return [name for name in names if name and not (kind is Kind.GRAVITY and name == "SG")]


def _question(question: str) -> str:
    return question.partition("?")[0] + "?" if "?" in question else question


def _quoted(text: str) -> str:
    """A text as YAML takes it, with quotes where it would mean something else without them."""
    return in_flow(Scalar(core_value(text), text, 0, 0, plain=False))
