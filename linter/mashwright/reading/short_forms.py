"""Short forms of the format: a text where fields are meant, and everyday names of fields and values.

``boil: 60 min`` becomes what ``boil: {for: 60 min}`` would be, with each value at its place in the text, so that what
comes later knows one way to write a recipe only. What cannot be read for sure stays as it is, and is asked about.
"""

from collections.abc import Callable, Iterable

from msgspec.structs import replace

from mashwright.finding import Path
from mashwright.longhand.lexicon import values_of
from mashwright.longhand.lines import Fields, Shape, Unclear, addition_line, grist_line, hop_line, line, steps
from mashwright.measures.quantity import Kind
from mashwright.patterns import pattern
from mashwright.reading.fields import at_path, keys
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence
from mashwright.reading.scalars import core_value
from mashwright.reading.signs import marked_otherwise
from mashwright_schema import load

_NONE = frozenset(("none", "no", "nothing", "no hops", "unhopped", "-"))
"""What stands where a list is empty on purpose."""

_WATER = Shape(((Kind.VOLUME, "water"), (Kind.TEMPERATURE, "at"), (Kind.TIME, "for")), values=(("for", "for"),))
_SPARGE = Shape(((Kind.VOLUME, "water"), (Kind.TEMPERATURE, "at")), values=(("sparge-by", "by"),))
_BOIL = Shape(((Kind.TIME, "for"), (Kind.VOLUME, "volume")))
_YEAST = Shape(
    (
        (Kind.SHARE, "attenuation"),
        (Kind.TEMPERATURE, "at"),
        (Kind.MASS, "pitch"),
        (Kind.CELLS, "pitch"),
        (Kind.PACKS, "pitch"),
    ),
    "kind",
)
_PACKAGE = Shape(((Kind.CARBONATION, "carbonation"), (Kind.PRESSURE, "pressure"), (Kind.TEMPERATURE, "at")), "in")
_PRIMING = Shape(((Kind.DOSE, "rate"), (Kind.MASS, "weight")), "sugar")
_VESSEL = Shape(((Kind.VOLUME, "volume"),))

_LISTS: dict[str, Callable[[str], Fields | Unclear]] = {
    "grist": grist_line,
    "grain-bill": grist_line,
    "hops": hop_line,
    "additions": addition_line,
}
_SECTIONS = {
    "steep": _WATER,
    "sparge": _SPARGE,
    "boil": _BOIL,
    "yeast": _YEAST,
    "package": _PACKAGE,
    "mash-tun": _VESSEL,
    "kettle": _VESSEL,
    "fermenter": _VESSEL,
}

_KEYS = {
    "": {"grains": "grist", "malts": "grist", "fermentation": "ferment", "packaging": "package"},
    "hops": {
        "dry hop": "dry",
        "dry-hop": "dry",
        "dry_hop": "dry",
        "dryhop": "dry",
        "dry hops": "dry",
        "first wort": "first-wort",
        "first_wort": "first-wort",
        "fwh": "first-wort",
        "hop stand": "whirlpool",
        "hop-stand": "whirlpool",
        "hopstand": "whirlpool",
        "aa": "alpha",
        "ibu": "bitterness",
        "ibus": "bitterness",
        "aau": "alpha-units",
        "amount": "weight",
    },
    "grist": {"ebc": "colour", "srm": "colour", "lovibond": "colour", "amount": "weight", "malt": "grain"},
    "additions": {"amount": "weight"},
    "targets": {"ibu": "bitterness", "ibus": "bitterness", "srm": "colour", "ebc": "colour"},
    "measured": {"ibu": "bitterness", "srm": "colour", "ebc": "colour"},
}
"""Names that brewers use for fields, by the section or the list that they stand in."""
_KEYS["grain-bill"] = _KEYS["grist"]
_UNITS = {"ibu": "IBU", "ibus": "IBU", "aau": "AAU", "srm": "SRM", "ebc": "EBC", "lovibond": "°Lovibond"}
"""Units that stand as the name of a field, with a bare number under it."""

_VALUES = {
    ("hops", "form"): "form",
    ("grist", "add"): "add",
    ("grain-bill", "add"): "add",
    ("rests", "by"): "by",
    ("sparge", "by"): "sparge-by",
}
"""Fields that take one of a few words, each with the name under which the table of words has others for them."""


def expanded(root: Node) -> Node:
    """A recipe or a brewhouse with its short forms written out; the same node where there are none.

    Args:
        root: of the document.
    """
    if not isinstance(root, Mapping):
        return root
    entries = tuple(_entry("", key, value) for key, value in root.entries)
    return root if _same(entries, root.entries) else replace(root, entries=_each_once(root, entries))


def unclear(path: Path, text: str) -> Unclear | None:
    """What is not understood of a text in a place that takes a short form; None where none can stand, or all is clear.

    Args:
        path: of the text.
        text: as it is written.
    """
    found: object = None
    match path:
        case (str(name), int()) if name in _LISTS:
            found = _LISTS[name](text)
        case (str(name),) | ("yeast" as name, int()) if name in _SECTIONS:
            found = line(text, _SECTIONS[name])
        case ("mash",) | ("cereal-mash",) | ("ferment",) | ("ferment", int()) | (_, "rests", int()):
            found = steps(text)
        case ("package", "priming"):
            found = line(text, _PRIMING)
    return found if isinstance(found, Unclear) else None


def _entry(section: str, key: Scalar, value: Node) -> tuple[Scalar, Node]:
    key, value = _renamed(section, key, value)
    if not section:
        value = _section(key.text, value)
    elif section == "package" and key.text == "priming":
        value = _shaped(value, _PRIMING)
    elif section in ("mash", "cereal-mash") and key.text == "rests":
        value = _stepped(value)
    elif section == "hops" and isinstance(value, Scalar):
        return _of_a_hop(key, value)
    table = _VALUES.get((section, key.text))
    if table is not None and isinstance(value, Scalar):
        value = _valued(value, table)
    return key, value


def _section(name: str, value: Node) -> Node:
    """What stands under one field at the top."""
    if name in _LISTS:
        return _listed(name, value)
    if name == "ferment":
        return _stepped(value)
    if name in ("mash", "cereal-mash"):
        value = _mashed(value)
    elif name == "yeast" and isinstance(value, Sequence):
        return _each(value, lambda item: _inside("yeast", _shaped(item, _YEAST)))
    elif name in _SECTIONS:
        value = _shaped(value, _SECTIONS[name])
    if name == "measured" and isinstance(value, Sequence):
        return _each(value, lambda item: _inside(name, item))
    return _inside(name, value)


def _inside(section: str, value: Node) -> Node:
    """A mapping with what stands under its own fields written out."""
    if not isinstance(value, Mapping):
        return value
    entries = tuple(_entry(section, key, inner) for key, inner in value.entries)
    if section == "hops":
        entries = _first_wort(entries)
    return value if _same(entries, value.entries) else replace(value, entries=_each_once(value, entries))


def _listed(name: str, value: Node) -> Node:
    if isinstance(value, Scalar) and value.text.strip().casefold() in _NONE and name in ("hops", "additions"):
        return Sequence((), value.start, value.end, flow=True, short=True)
    if not isinstance(value, Sequence):
        return value
    return _each(value, lambda item: _inside(name, _named(name, _as_fields(item, _LISTS[name]))))


def _named(name: str, item: Node) -> Node:
    """``pilsner malt: 3 kg``, where the name of a thing stands as if it were a field's."""
    if not isinstance(item, Mapping) or item.short or item.flow or len(item.entries) != 1:
        return item
    key, value = item.entries[0]
    if not (isinstance(value, Scalar) and key.plain and value.plain) or key.text in keys(
        at_path(load("recipe"), (name, 0))
    ):
        return item
    between = value.start - key.end
    found = _LISTS[name](f"{key.text}:{' ' * (between - 1)}{value.text}")
    whole = key.end - key.start == len(key.text) and value.end - value.start == len(value.text)
    if not isinstance(found, tuple) or not whole or len(found) < 2:
        return item
    return _mapping(found, key.start, key.start, value.end)


def _stepped(value: Node) -> Node:
    """Rests or steps: a text for all of them, or for one in its place of the list."""
    if isinstance(value, Scalar):
        return _steps_of(value) or value
    if not isinstance(value, Sequence):
        return value
    items: list[Node] = []
    for item in value.items:
        several = _steps_of(item) if isinstance(item, Scalar) else None
        items.append(several.items[0] if several is not None and len(several.items) == 1 else _inside("rests", item))
    return value if _all_same(items, value.items) else replace(value, items=tuple(items))


def _steps_of(value: Scalar) -> Sequence | None:
    begin = _begin(value)
    found = steps(value.text) if begin is not None else None
    if begin is None or not isinstance(found, list):
        return None
    items = tuple(_mapping(one, begin, begin + one[0].start, begin + max(field.end for field in one)) for one in found)
    return Sequence(items, value.start, value.end, flow=True, short=True)


def _mashed(value: Node) -> Node:
    if not isinstance(value, Scalar) or (rests := _steps_of(value)) is None:
        return value
    key = Scalar("rests", "rests", value.start, value.start, plain=True)
    return Mapping(((key, rests),), value.start, value.end, flow=True, short=True)


def _shaped(value: Node, shape: Shape) -> Node:
    return _as_fields(value, lambda text: line(text, shape))


def _as_fields(value: Node, read: Callable[[str], Fields | Unclear]) -> Node:
    """A text as the fields that it states; the same node where it is no text, or not clear."""
    if not isinstance(value, Scalar) or (begin := _begin(value)) is None:
        return value
    found = read(value.text)
    return _mapping(found, begin, value.start, value.end) if isinstance(found, tuple) else value


def _mapping(fields: Fields, begin: int, start: int, end: int) -> Mapping:
    entries = tuple(
        (
            Scalar(field.name, field.name, begin + field.start, begin + field.start, plain=True),
            Scalar(core_value(field.text), field.text, begin + field.start, begin + field.end, plain=True),
        )
        for field in fields
    )
    return Mapping(entries, start, end, flow=True, short=True)


def _begin(value: Scalar) -> int | None:
    """Where the first letter of a text stands; None where not each of its letters stands there as it is."""
    if not value.text.strip() or "\n" in value.text or marked_otherwise(value.text) is not None:
        return None
    if value.end - value.start == len(value.text):
        return value.start
    return value.start + 1 if not value.plain and value.end - value.start == len(value.text) + 2 else None


def _renamed(section: str, key: Scalar, value: Node) -> tuple[Scalar, Node]:
    """A field under the name that the format has for it; the unit in its name goes to the number under it."""
    name = _KEYS.get(section, {}).get(key.text.casefold())
    if name is None:
        return key, value
    unit = _UNITS.get(key.text.casefold())
    if unit is not None and isinstance(value, Scalar) and _BARE().fullmatch(value.text):
        text = f"{value.text} {unit}"
        value = replace(value, value=text, text=text)
    return replace(key, value=name, text=name), value


_BARE = pattern(r"\d+(?:\.\d+)?(?:\s*(?:-|–|to)\s*\d+(?:\.\d+)?)?")


def _of_a_hop(key: Scalar, value: Scalar) -> tuple[Scalar, Node]:
    """``boil: flameout``, ``form: leaf``."""
    if key.text == "boil":
        word = value.text.strip().casefold().replace("-", " ")
        if word in values_of("boil"):
            return key, replace(value, value="0 min", text="0 min")
    return key, _valued(value, "form") if key.text == "form" else value


def _first_wort(entries: tuple[tuple[Scalar, Node], ...]) -> tuple[tuple[Scalar, Node], ...]:
    """``first-wort: 75 min`` says two things: where they go, and how long they boil there."""
    found: list[tuple[Scalar, Node]] = []
    names = {key.text for key, _ in entries}
    for key, value in entries:
        if key.text == "first-wort" and isinstance(value, Scalar) and "boil" not in names and value.text[:1].isdigit():
            found.append((key, Scalar(True, "true", value.start, value.end, plain=True)))
            found.append((replace(key, value="boil", text="boil"), value))
        else:
            found.append((key, value))
    return tuple(found)


def _valued(value: Scalar, table: str) -> Scalar:
    """A word as the format has it, where the table of words knows it as one of a few."""
    meant = values_of(table).get(value.text.strip().casefold().replace("-", " "))
    return value if meant is None or meant == value.text else replace(value, value=meant, text=meant)


def _each(value: Sequence, change: Callable[[Node], Node]) -> Sequence:
    items = [change(item) for item in value.items]
    return value if _all_same(items, value.items) else replace(value, items=tuple(items))


def _all_same(items: Iterable[Node], before: Iterable[Node]) -> bool:
    return all(one is other for one, other in zip(items, before, strict=True))


def _same(entries: tuple[tuple[Scalar, Node], ...], before: tuple[tuple[Scalar, Node], ...]) -> bool:
    return len(entries) == len(before) and all(
        key is other and value is inner for (key, value), (other, inner) in zip(entries, before, strict=True)
    )


def _each_once(owner: Mapping, entries: tuple[tuple[Scalar, Node], ...]) -> tuple[tuple[Scalar, Node], ...]:
    """The entries, but as they were where a field would stand there twice by another name."""
    names = [key.text for key, _ in entries]
    if len(set(names)) == len(names):
        return entries
    return owner.entries
