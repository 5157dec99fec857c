"""Short forms of the format: a text where fields are meant, and everyday names of fields and values.

``boil: 60 min`` becomes what ``boil: {for: 60 min}`` would be, with each value at its place in the text, so that what
comes later knows one way to write a recipe only. What cannot be read for sure stays as it is, and is asked about.
"""

from collections.abc import Callable

from msgspec.structs import replace

from mashwright.finding import Path
from mashwright.longhand.lexicon import values_of
from mashwright.longhand.lines import Field, Fields, Shape, Unclear, addition_line, grist_line, hop_line, line, steps
from mashwright.measures.quantity import Kind
from mashwright.patterns import pattern
from mashwright.reading.fields import Schema, at_path, keys
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence, data
from mashwright.reading.scalars import core_value
from mashwright.reading.signs import marked_otherwise
from mashwright_schema import load

_NONE = frozenset(("none", "no", "nothing", "no hops", "unhopped", "-"))
"""What stands where a list is empty on purpose."""

_WATER = Shape(((Kind.VOLUME, "water"), (Kind.TEMPERATURE, "at"), (Kind.TIME, "for")), values=(("for", "for"),))
_SPARGE = Shape(((Kind.VOLUME, "water"), (Kind.TEMPERATURE, "at")), values=(("sparge-by", "by"),))
_BOIL = Shape(((Kind.TIME, "for"), (Kind.VOLUME, "volume")))
_CHILL = Shape(((Kind.TIME, "for"),), "by")
_AERATION = Shape(((Kind.CONCENTRATION, "oxygen"),), "by")
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
_SPUND = Shape(((Kind.GRAVITY, "gravity"), (Kind.PRESSURE, "pressure"), (Kind.TEMPERATURE, "at")))
_PRIMING = Shape(((Kind.DOSE, "rate"), (Kind.MASS, "weight")), "sugar")
_VESSEL = Shape(((Kind.VOLUME, "volume"),))

_VESSELS = ("mash-tun", "kettle", "fermenter")

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
    "chill": _CHILL,
    "aeration": _AERATION,
    "yeast": _YEAST,
    "package": _PACKAGE,
    "mash-tun": _VESSEL,
    "kettle": _VESSEL,
    "fermenter": _VESSEL,
}

_UNITS = {"ibu": "IBU", "ibus": "IBU", "aau": "AAU", "srm": "SRM", "ebc": "EBC", "lovibond": "°Lovibond"}
"""Units that stand as the name of a field, with a bare number under it."""

_VALUES = {
    ("hops", "form"): "form",
    ("grist", "add"): "add",
    ("grain-bill", "add"): "add",
    ("rests", "by"): "by",
    ("sparge", "by"): "sparge-by",
    ("chill", "by"): "chill-by",
    ("souring", "in"): "sours-in",
    ("aeration", "by"): "aerate-by",
}
"""Fields that take one of a few words, each with the name under which the table of words has others for them."""
VALUES = {
    ("hop", "form"): "form",
    ("grist-line", "add"): "add",
    ("rest", "by"): "by",
    ("sparge-fields", "by"): "sparge-by",
    ("chill", "by"): "chill-by",
    ("souring", "in"): "sours-in",
    ("aeration", "by"): "aerate-by",
}
"""The same fields by their definitions or sections in the schema of a recipe."""

EXAMPLES: dict[str, dict[Path, tuple[str, ...]]] = {
    "recipe": {
        ("grist", 0): ("4.5 kg pale ale malt", "8 oz crystal malt (60 °L), steeped", "500 g honey in the kettle"),
        ("grain-bill", 0): ("4.5 kg pale ale malt",),
        ("steep",): ("4 l at 68 °C for 30 min",),
        ("mash",): ("66 °C for 60 min", "52 °C 15 min, 65 °C 45 min, 72 °C 15 min"),
        ("mash", "rests", 0): ("66 °C for 60 min",),
        ("sparge",): ("15 l at 76 °C", "fly sparge, 15 l", "none"),
        ("sparge", 0): ("10 l at 80 °C",),
        ("boil",): ("60 min", "25 l for 60 min"),
        ("chill",): ("no-chill", "45 min"),
        ("hops",): ("none",),
        ("hops", 0): ("30 g East Kent Golding (5.2 %) at 60 min", "25 g Cascade dry 4 d", "FWH 20 g Saaz"),
        ("additions", 0): ("15 g coriander seed, last 10 min of the boil", "1 tablet Irish moss at 15 min"),
        ("yeast",): ("English ale", "11 g English ale, 75 %, at 18 °C"),
        ("yeast", 0): ("2 packs sour culture",),
        ("aeration",): ("oxygen, 10 mg/l", "air"),
        ("ferment",): ("19 °C for 10 d", "19 °C 7 d, 12 °C 14 d"),
        ("ferment", 0): ("19 °C for 10 d",),
        ("package",): ("bottles", "bottles, 2.3 volumes", "keg at 1.2 bar"),
        ("package", "spund"): ("1 bar at 12 °C", "1.014 SG"),
        ("package", "priming"): ("120 g table sugar", "5.5 g/l dextrose"),
    },
    "brewhouse": {
        ("mash-tun",): ("30 l",),
        ("kettle",): ("35 l",),
        ("fermenter",): ("30 l",),
        ("ingredients", "the pale"): ("pale ale malt",),
    },
}
"""Short forms by their place, each of which is read; for schemas and pages."""


def expanded(root: Node, schema: str) -> Node:
    """A recipe or a brewhouse with its short forms written out; the same node where there are none.

    Args:
        root: of the document.
        schema: ``recipe`` or ``brewhouse``.
    """
    if not isinstance(root, Mapping):
        return root
    named = _renamed(load(schema), (), root)
    entries = tuple((key, _section(schema, key.text, value)) for key, value in named.entries)
    wide = named if _same(entries, named.entries) else replace(named, entries=entries)
    return _gathered(wide) if schema == "recipe" else wide


def unclear(path: Path, text: str) -> Unclear | None:
    """What is not understood of a text in a place that takes a short form; None where none can stand, or all is clear.

    Args:
        path: of the text.
        text: as it is written.
    """
    found: object = None
    path = own(path)
    match path:
        case (str(name), int()) if name in _LISTS:
            found = _LISTS[name](text)
        case (str(name),) | ("yeast" | "package" | "sparge" as name, int()) if name in _SECTIONS:
            found = line(text, _SECTIONS[name])
        case ("mash",) | ("cereal-mash",) | ("ferment",) | ("ferment", int()) | (_, "rests", int()):
            found = steps(text)
        case ("package", "spund") | ("package", int(), "spund"):
            found = line(text, _SPUND)
        case ("package", "priming") | ("package", int(), "priming"):
            found = line(text, _PRIMING)
    return found if isinstance(found, Unclear) else None


def own(path: Path) -> Path:
    """A place as it would be where the recipe gives one beer: what is one wort's own stands there at the top."""
    return path[2:] if path[:1] == ("worts",) and len(path) > 2 and isinstance(path[1], int) else path


def understands(path: Path, text: str) -> bool:
    """Whether a text at a place is a short form that is read."""
    path = own(path)
    takes = path[:1] in {(name,) for name in (*_SECTIONS, "mash", "ferment")} or path == ("package", "priming")
    return len(path) <= 2 and takes and unclear(path, text) is None


def _section(schema: str, name: str, value: Node) -> Node:
    """What stands under one field at the top."""
    if schema == "brewhouse":
        if name == "ingredients":
            return _own_ingredients(value)
        return _shaped(value, _SECTIONS[name]) if name in _VESSELS else _inside(schema, (name,), value)
    if name in _LISTS:
        return _listed(name, value)
    if name == "worts" and isinstance(value, Sequence):
        return _with(value, [_wort(item) for item in value.items])
    if name == "ferment":
        return _stepped((name,), value)
    if name in ("yeast", "measured", "package", "sparge") and isinstance(value, Sequence):
        shape = _SECTIONS.get(name)
        items = [item if shape is None else _shaped(item, shape) for item in value.items]
        return _with(value, [_inside(schema, (name, 0), item) for item in items])
    if name in ("mash", "cereal-mash"):
        value = _mashed(value)
    elif name in _SECTIONS and name not in _VESSELS:
        value = _shaped(value, _SECTIONS[name])
    return _inside(schema, (name,), value)


def _own_ingredients(value: Node) -> Node:
    """A brewhouse's own things: a text is the kind of one."""
    if not isinstance(value, Mapping):
        return value
    entries = tuple(
        (key, _inside("brewhouse", ("ingredients", key.text), _as_fields(thing, _as_a_kind)))
        for key, thing in value.entries
    )
    return value if _same(entries, value.entries) else replace(value, entries=entries)


def _as_a_kind(text: str) -> Fields:
    return (Field("kind", text, 0, len(text)),)


def _wort(item: Node) -> Node:
    """One of several worts, whose own fields are those of a recipe."""
    if not isinstance(item, Mapping):
        return item
    named = _renamed(load("recipe"), ("worts", 0), item)
    entries = tuple((key, _section("recipe", key.text, value)) for key, value in named.entries)
    return _gathered(named if _same(entries, named.entries) else replace(named, entries=entries))


def _inside(schema: str, path: Path, value: Node) -> Node:
    """A mapping with its fields by their names, and what stands under them written out."""
    if not isinstance(value, Mapping):
        return value
    if path[:1] == ("hops",):
        value = _when_it_goes_in(value)
    named = _renamed(load(schema), path, value)
    if path in (("mash",), ("cereal-mash",)):
        named = _one_rest(named)
    entries = tuple((key, _field(path, key.text, inner)) for key, inner in named.entries)
    if path[:1] == ("hops",):
        entries = _first_wort(entries)
    same = len(entries) == len(named.entries) and _same(entries, named.entries)
    return named if same else replace(named, entries=entries)


def _field(path: Path, name: str, value: Node) -> Node:
    """What stands under one field of a section or of a line."""
    if path[:1] == ("package",) and name == "spund":
        return _inside("recipe", ("package", "spund"), _shaped(value, _SPUND))
    if path[:1] == ("package",) and name == "priming":
        return _inside("recipe", ("package", "priming"), _shaped(value, _PRIMING))
    if path in (("mash",), ("cereal-mash",)) and name == "rests":
        return _stepped((*path, name), value)
    if not isinstance(value, Scalar):
        return value
    if path[:1] == ("hops",) and name == "boil" and _plain(value.text) in values_of("boil"):
        return replace(value, value="0 min", text="0 min")
    table = _VALUES.get((next(str(step) for step in reversed(path) if step != 0), name))
    return value if table is None else _valued(value, table)


def _plain(text: str) -> str:
    return text.strip().casefold().replace("-", " ")


def _listed(name: str, value: Node) -> Node:
    if isinstance(value, Scalar) and value.text.strip().casefold() in _NONE and name in ("hops", "additions"):
        return Sequence((), value.start, value.end, flow=True, short=True)
    if isinstance(value, Mapping) and all(key.text not in known_in(name) for key, _ in value.entries):
        one_each = [
            _named(name, Mapping((entry,), entry[0].start, entry[1].end, flow=False)) for entry in value.entries
        ]
        short = all(isinstance(item, Mapping) and item.short for item in one_each)
        return _by_hand(tuple(one_each)) if short else value
    if not isinstance(value, Sequence):
        return value
    items = [_named(name, _as_fields(item, _LISTS[name])) for item in value.items]
    return _with(value, [_inside("recipe", (name, 0), item) for item in items])


def known_in(name: str) -> tuple[str, ...]:
    """The fields of a line of a list."""
    return keys(at_path(load("recipe"), (name, 0)))


def _named(name: str, item: Node) -> Node:
    """``pilsner malt: 3 kg``, where the name of a thing stands as if it were a field's."""
    if not isinstance(item, Mapping) or item.short or item.flow or len(item.entries) != 1:
        return item
    key, value = item.entries[0]
    if not (isinstance(value, Scalar) and key.plain and value.plain) or key.text in known_in(name):
        return item
    between = value.start - key.end
    found = _LISTS[name](f"{key.text}:{' ' * (between - 1)}{value.text}")
    whole = key.end - key.start == len(key.text) and value.end - value.start == len(value.text)
    if not isinstance(found, tuple) or not whole or len(found) < 2:
        return item
    return _mapping(found, key.start, key.start, value.end)


def _stepped(path: Path, value: Node) -> Node:
    """Rests or steps: a text for all of them, or for one in its place of the list."""
    if isinstance(value, Scalar):
        return _steps_of(value) or value
    if isinstance(value, Mapping):
        one = _inside("recipe", (*path, 0), value)
        known = set(keys(at_path(load("recipe"), (*path, 0))))
        fits = isinstance(one, Mapping) and one.entries and all(key.text in known for key, _ in one.entries)
        return _by_hand((one,)) if fits else value
    if not isinstance(value, Sequence):
        return value
    items: list[Node] = []
    for item in value.items:
        several = _steps_of(item) if isinstance(item, Scalar) else None
        items.append(
            several.items[0] if several is not None and len(several.items) == 1 else _inside("recipe", (*path, 0), item)
        )
    return _with(value, items)


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


def _renamed(root: Schema, path: Path, owner: Mapping) -> Mapping:
    """A mapping with each field under the name that the format has for it, where another can only mean that one."""
    known = set(keys(at_path(root, path)))
    if all(key.text in known for key, _ in owner.entries):
        return owner
    from mashwright.reading.wording import certain

    present = {key.text: data(value) for key, value in owner.entries}
    entries: list[tuple[Scalar, Node]] = []
    for key, value in owner.entries:
        name = None if key.text in known else certain(root, path, key.text, present, understands)
        if name is None:
            entries.append((key, value))
            continue
        present[name] = present.pop(key.text)
        entries.append((replace(key, value=name, text=name), _with_its_unit(key.text, value)))
    named = tuple(entries)
    return owner if _same(named, owner.entries) else replace(owner, entries=named)


def _with_its_unit(key: str, value: Node) -> Node:
    """A bare number under a name that is a unit: ``ibu: 30``."""
    unit = _UNITS.get(key.casefold())
    if unit is None or not isinstance(value, Scalar) or _BARE().fullmatch(value.text) is None:
        return value
    text = f"{value.text} {unit}"
    return replace(value, value=text, text=text)


_BARE = pattern(r"\d+(?:\.\d+)?(?:\s*(?:-|–|to)\s*\d+(?:\.\d+)?)?")


_USES = frozenset(("when", "use", "time", "timing", "addition", "stage", "added", "add", "for"))
"""Names under which brewers say when a hop goes in."""


def _when_it_goes_in(hop: Mapping) -> Mapping:
    """``use: dry hop, time: 4 d``: the words of both say together which field it is."""
    said = [(key, value) for key, value in hop.entries if key.text in _USES and isinstance(value, Scalar)]
    if not said or any(key.text in _PLACES_OF_HOPS for key, _ in hop.entries):
        return hop
    words = " ".join(f"@ {value.text}" if _BARE().fullmatch(value.text) else value.text for _, value in said)
    found = hop_line(f"x, {words}")
    if not isinstance(found, tuple):
        return hop
    fields = [one for one in found if one.name != "hop"]
    if not fields:
        return hop
    rest = tuple(entry for entry in hop.entries if not any(entry[0] is key for key, _ in said))
    return replace(hop, entries=(*rest, *(_said_by(one, said) for one in fields)))


_PLACES_OF_HOPS = ("boil", "whirlpool", "dry", "first-wort", "mash")


def _said_by(field: Field, said: list[tuple[Scalar, Scalar]]) -> tuple[Scalar, Node]:
    """A field at the value that says it."""
    key, value = next((one for one in said if one[1].text in field.text), said[0])
    name = replace(key, value=field.name, text=field.name)
    return name, Scalar(core_value(field.text), field.text, value.start, value.end, plain=True)


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


def _with(value: Sequence, items: list[Node]) -> Sequence:
    return value if all(one is other for one, other in zip(items, value.items, strict=True)) else _list(value, items)


def _list(value: Sequence, items: list[Node]) -> Sequence:
    return replace(value, items=tuple(items))


def _same(entries: tuple[tuple[Scalar, Node], ...], before: tuple[tuple[Scalar, Node], ...]) -> bool:
    return all(key is other and value is inner for (key, value), (other, inner) in zip(entries, before, strict=True))


def _by_hand(items: tuple[Node, ...]) -> Sequence:
    """A list that is not written as one, so that nothing can be added to it; what is in it can be changed."""
    return Sequence(items, 0, 0, flow=False)


_STEP = ("at", "for", "to", "by")


def _one_rest(mash: Mapping) -> Mapping:
    """``mash: {at: 66 °C, for: 60 min}``: the only rest, written without its list."""
    names = {key.text for key, _ in mash.entries}
    if "rests" in names or not {"at", "temp", "temperature"} & names:
        return mash
    rest = tuple(entry for entry in mash.entries if entry[0].text in (*_STEP, "temp", "temperature", "time"))
    others = tuple(entry for entry in mash.entries if not any(entry is one for one in rest))
    first = rest[0][0]
    key = Scalar("rests", "rests", first.start, first.start, plain=True)
    one = Mapping(rest, first.start, rest[-1][1].end, flow=True)
    return replace(mash, entries=(*others, (key, _by_hand((_inside("recipe", ("mash", "rests", 0), one),)))))


_MOVED = {
    "targets": ("og", "fg", "abv", "bitterness", "colour", "color"),
    "package": ("carbonation", "priming"),
}
"""Fields that are understood at the top of a recipe, too, where their section is not there."""


def _gathered(root: Mapping) -> Mapping:
    """What was written at the top and belongs to a section that is not there: ``og: 1.050``."""
    names = {key.text for key, _ in root.entries}
    for section, fields in _MOVED.items():
        if section in names:
            continue
        moved: list[tuple[Scalar, Node]] = []
        others: list[tuple[Scalar, Node]] = []
        for key, value in root.entries:
            name = certain_target(section, key.text)
            if name in fields and name not in (one.text for one, _ in moved):
                moved.append((replace(key, value=name, text=name), _with_its_unit(key.text, value)))
            else:
                others.append((key, value))
        if moved:
            first = moved[0][0]
            inner = _inside("recipe", (section,), Mapping(tuple(moved), first.start, moved[-1][1].end, flow=True))
            key = Scalar(section, section, first.start, first.start, plain=True)
            root = replace(root, entries=(*others, (key, inner)))
    return root


def certain_target(section: str, key: str) -> str:
    """The name that a key at the top of a recipe would have in a section; the key itself where it is none there."""
    from mashwright.reading.wording import certain

    return certain(load("recipe"), (section,), key, {key: ""}, understands) or key
