"""Short forms of the format: a text where fields are meant, and everyday names of fields and values.

``boil: 60 min`` becomes what ``boil: {for: 60 min}`` would be, with each value at its place in the text, so that what
comes later knows one way to write a recipe only. What cannot be read for sure stays as it is, and is asked about.
"""

from msgspec.structs import replace

from mashwright.finding import Path
from mashwright.longhand.lexicon import values_of
from mashwright.longhand.lines import (
    AT_THE_START,
    Field,
    Fields,
    Unclear,
    grist_line,
    hop_line,
    line,
    mash_line,
    steps,
    target_line,
)
from mashwright.patterns import pattern
from mashwright.reading.fields import Schema, at_path, keys
from mashwright.reading.gathering import gathered
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence, data
from mashwright.reading.scalars import core_value
from mashwright.reading.written_out import (
    BARE,
    LISTS,
    SECTIONS,
    SPUND,
    VESSELS,
    as_fields,
    by_hand,
    known_in,
    lines_in,
    mash_of,
    named_item,
    package_line,
    packaged,
    priming_line,
    shaped,
    steps_of,
    with_its_unit,
)
from mashwright_schema import load

_NONE = frozenset(("none", "no", "nothing", "no hops", "unhopped", "-"))
"""What stands where a list is empty on purpose."""


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
        ("mash",): ("66 °C for 60 min", "52 °C 15 min, 65 °C 45 min, 72 °C 15 min", "66 °C for 60 min, 14 l"),
        ("grist",): ("4 kg pale ale malt, 500 g wheat malt",),
        ("targets",): ("OG 1.048, FG 1.011",),
        ("mash", "rests", 0): ("66 °C for 60 min",),
        ("sparge",): ("15 l at 76 °C", "fly sparge, 15 l", "none"),
        ("sparge", 0): ("10 l at 80 °C",),
        ("boil",): ("60 min", "25 l for 60 min"),
        ("chill",): ("no-chill", "45 min"),
        ("hops",): ("none", "25 g Fuggle (4.5 %) at 60 min"),
        ("hops", 0): ("30 g East Kent Golding (5.2 %) at 60 min", "25 g Cascade dry 4 d", "FWH 20 g Saaz"),
        ("additions", 0): ("15 g coriander seed, last 10 min of the boil", "1 tablet Irish moss at 15 min"),
        ("yeast",): ("English ale", "11 g English ale, 75 %, at 18 °C", "lager, 2 l starter"),
        ("yeast", 0): ("2 packs sour culture",),
        ("aeration",): ("oxygen, 10 mg/l", "air"),
        ("ferment",): ("19 °C for 10 d", "19 °C 7 d, 12 °C 14 d"),
        ("ferment", 0): ("19 °C for 10 d",),
        ("package",): ("bottles", "bottles, 2.3 volumes", "keg at 1.2 bar", "bottles with 120 g table sugar"),
        ("package", "priming"): ("120 g table sugar", "5.5 g/l dextrose", "1.5 l speise"),
        ("package", "spund"): ("1 bar at 12 °C", "1.014 SG"),
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
    if schema == "recipe":
        named = gathered(named, certain_field, _takes(()))
    entries = tuple((key, _section(schema, key.text, value)) for key, value in named.entries)
    wide = named if _same(entries, named.entries) else replace(named, entries=entries)
    return _from_the_start(wide) if schema == "recipe" else wide


def unclear(path: Path, text: str) -> Unclear | None:
    """What is not understood of a text in a place that takes a short form; None where none can stand, or all is clear.

    Args:
        path: of the text.
        text: as it is written.
    """
    found: object = None
    path = own(path)
    match path:
        case (str(name), int()) if name in LISTS:
            found = LISTS[name](text)
        case (str(name),) | ("yeast" | "package" | "sparge" as name, int()) if name in SECTIONS:
            found = package_line(text) if name == "package" else line(text, SECTIONS[name])
        case ("mash",) | ("cereal-mash",):
            found = mash_line(text)
        case ("ferment",) | ("ferment", int()) | (_, "rests", int()):
            found = steps(text)
        case ("package", "spund") | ("package", int(), "spund"):
            found = line(text, SPUND)
        case ("package", "priming") | ("package", int(), "priming"):
            found = priming_line(text)
    return found if isinstance(found, Unclear) else None


def own(path: Path) -> Path:
    """A place as it would be where the recipe gives one beer: what is one wort's own stands there at the top."""
    return path[2:] if path[:1] == ("worts",) and len(path) > 2 and isinstance(path[1], int) else path


def understands(path: Path, text: str) -> bool:
    """Whether a text at a place is a short form that is read."""
    path = own(path)
    if path == ("targets",):
        return target_line(text) is not None
    takes = path[:1] in {(name,) for name in (*SECTIONS, "mash", "ferment")} or path == ("package", "priming")
    return len(path) <= 2 and takes and unclear(path, text) is None


def _section(schema: str, name: str, value: Node) -> Node:
    """What stands under one field at the top."""
    if schema == "brewhouse":
        if name == "ingredients":
            return _own_ingredients(value)
        return shaped(value, SECTIONS[name]) if name in VESSELS else _inside(schema, (name,), value)
    if name in LISTS:
        return _listed(name, value)
    if name == "worts" and isinstance(value, Sequence):
        return _with(value, [_wort(item) for item in value.items])
    if name == "batch" and isinstance(value, Scalar):
        return as_fields(value, _batch)
    if name == "boil" and isinstance(value, Scalar) and _plain(value.text) in ("none", "no", "no boil"):
        none = Scalar("0 min", "0 min", value.start, value.end, plain=True)
        key = Scalar("for", "for", value.start, value.start, plain=True)
        return Mapping(((key, none),), value.start, value.end, flow=True, short=True)
    if name == "batch" and isinstance(value, Mapping) and len(value.entries) == 1:
        return value.entries[0][1] if value.entries[0][0].text in ("volume", "size") else value
    if name == "ferment":
        return _stepped((name,), value)
    if name in ("yeast", "measured", "package", "sparge") and isinstance(value, Sequence):
        items = [_sectioned(name, item) for item in value.items]
        return _with(value, [_inside(schema, (name, 0), item) for item in items])
    if name in ("mash", "cereal-mash"):
        value = mash_of(value)
    elif name == "targets":
        value = as_fields(value, _targets)
    else:
        value = _sectioned(name, value)
    return _inside(schema, (name,), value)


_INTO = pattern(r"(.*\d.*?)\s+(?:into|in|to)\s+(?:the\s+)?(fermenter|kettle|fermentor|package|bottles?|keg|cask)")


def _batch(text: str) -> Fields | Unclear:
    """``20 l into the fermenter``."""
    found = _INTO().fullmatch(text)
    if found is None:
        return Unclear("", 0, 0, ())
    where = {"fermenter": "fermenter", "fermentor": "fermenter", "kettle": "kettle"}.get(found[2], "package")
    return (Field(where, found[1], found.start(1), found.end(1)),)


def _sectioned(name: str, value: Node) -> Node:
    """A text for a section of a recipe, or for an item of it."""
    if name == "package":
        return packaged(value)
    return shaped(value, SECTIONS[name]) if name in SECTIONS and name not in VESSELS else value


def _targets(text: str) -> Fields | Unclear:
    return target_line(text) or Unclear("", 0, 0, ())


def _own_ingredients(value: Node) -> Node:
    """A brewhouse's own things: a text is the kind of one."""
    if not isinstance(value, Mapping):
        return value
    entries = tuple(
        (key, _inside("brewhouse", ("ingredients", key.text), as_fields(thing, _as_a_kind)))
        for key, thing in value.entries
    )
    return value if _same(entries, value.entries) else replace(value, entries=entries)


def _as_a_kind(text: str) -> Fields:
    return (Field("kind", text, 0, len(text)),)


def _wort(item: Node) -> Node:
    """One of several worts, whose own fields are those of a recipe."""
    if not isinstance(item, Mapping):
        return item
    named = gathered(_renamed(load("recipe"), ("worts", 0), item), certain_field, _takes(("worts", 0)))
    entries = tuple((key, _section("recipe", key.text, value)) for key, value in named.entries)
    return _from_the_start(named if _same(entries, named.entries) else replace(named, entries=entries))


def _takes(path: Path) -> tuple[str, ...]:
    return keys(at_path(load("recipe"), path))


def _inside(schema: str, path: Path, value: Node) -> Node:
    """A mapping with its fields by their names, and what stands under them written out."""
    if not isinstance(value, Mapping):
        return value
    if path[:1] == ("hops",):
        value = _when_it_goes_in(value)
    elif path[:1] in (("grist",), ("grain-bill",)):
        value = _when_it_is_added(value)
    if path[-2:] == ("rests", 0) or path == ("ferment", 0):
        value = _without_its_name(value)
    named = _renamed(load(schema), path, value)
    if path in (("mash",), ("cereal-mash",)):
        named = _with_its_mash_out(_water_as_strike(_one_rest(named)))
    entries = tuple((key, _field(path, key.text, inner)) for key, inner in named.entries)
    if path[:1] == ("hops",):
        entries = _first_wort(entries)
    same = len(entries) == len(named.entries) and _same(entries, named.entries)
    return named if same else replace(named, entries=entries)


def _field(path: Path, name: str, value: Node) -> Node:
    """What stands under one field of a section or of a line."""
    if path[:1] == ("package",) and name == "spund":
        return _inside("recipe", ("package", "spund"), shaped(value, SPUND))
    if path[:1] == ("package",) and name == "priming":
        return _inside("recipe", ("package", "priming"), as_fields(value, priming_line))
    if path in (("mash",), ("cereal-mash",)) and name == "rests":
        return _stepped((*path, name), value)
    if not isinstance(value, Scalar):
        return value
    if path[:1] == ("hops",) and name == "boil" and (said := values_of("boil").get(_plain(value.text))) is not None:
        return replace(value, value=said, text=said)
    table = _VALUES.get((next(str(step) for step in reversed(path) if step != 0), name))
    return value if table is None else _valued(value, table)


def _plain(text: str) -> str:
    return text.strip().casefold().replace("-", " ")


def _listed(name: str, value: Node) -> Node:
    if isinstance(value, Scalar) and value.text.strip().casefold() in _NONE and name in ("hops", "additions"):
        return Sequence((), value.start, value.end, flow=True, short=True)
    if isinstance(value, Scalar) and (several := lines_in(name, value)):
        return by_hand(several)
    if isinstance(value, Mapping) and all(key.text not in known_in(name) for key, _ in value.entries):
        one_each = [
            named_item(name, Mapping((entry,), entry[0].start, entry[1].end, flow=False)) for entry in value.entries
        ]
        short = all(isinstance(item, Mapping) and item.short for item in one_each)
        return by_hand(tuple(one_each)) if short else value
    if not isinstance(value, Sequence):
        return value
    items = [named_item(name, as_fields(item, LISTS[name])) for item in value.items]
    return _with(value, [_inside("recipe", (name, 0), item) for item in items])


def _stepped(path: Path, value: Node) -> Node:
    """Rests or steps: a text for all of them, or for one in its place of the list."""
    if isinstance(value, Scalar):
        return steps_of(value) or value
    if isinstance(value, Mapping):
        one = _inside("recipe", (*path, 0), value)
        known = set(keys(at_path(load("recipe"), (*path, 0))))
        fits = isinstance(one, Mapping) and one.entries and all(key.text in known for key, _ in one.entries)
        return by_hand((one,)) if fits else value
    if not isinstance(value, Sequence):
        return value
    items: list[Node] = []
    for item in value.items:
        several = _steps_in(path, item)
        items += several.items if several is not None else (_inside("recipe", (*path, 0), item),)
    same = len(items) == len(value.items) and all(one is other for one, other in zip(items, value.items, strict=True))
    return value if same else _list(value, items)


def _steps_in(path: Path, item: Node) -> Sequence | None:
    """The steps of one text, which may have a name in front of it: ``protein rest: 52 °C 15 min``."""
    if isinstance(item, Mapping) and len(item.entries) == 1 and not item.short:
        key, value = item.entries[0]
        of_the_format = key.text in keys(at_path(load("recipe"), (*path, 0)))
        item = item if of_the_format or any(sign.isdigit() for sign in key.text) else value
        if isinstance(item, Scalar) and certain_field((*path, 0), key.text) != key.text:
            return None
    return steps_of(item) if isinstance(item, Scalar) else None


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
        entries.append((replace(key, value=name, text=name), with_its_unit(key.text, value)))
    named = tuple(entries)
    return owner if _same(named, owner.entries) else replace(owner, entries=named)


_USES = frozenset(("at", "when", "use", "time", "timing", "addition", "stage", "added", "add", "for"))
"""Names under which brewers say when a hop goes in."""


def _when_it_goes_in(hop: Mapping) -> Mapping:
    """``use: dry hop, time: 4 d``: the words of both say together which field it is."""
    said = [(key, value) for key, value in hop.entries if key.text in _USES and isinstance(value, Scalar)]
    if not said or any(key.text in _PLACES_OF_HOPS for key, _ in hop.entries):
        return hop
    words = " ".join(f"@ {value.text}" if BARE().fullmatch(value.text) else value.text for _, value in said)
    found = hop_line(f"hop, {words}")
    if not isinstance(found, tuple):
        return hop
    fields = [one for one in found if one.name != "hop"]
    if not fields:
        return hop
    rest = tuple(entry for entry in hop.entries if not any(entry[0] is key for key, _ in said))
    return replace(hop, entries=(*rest, *(_said_by(one, said) for one in fields)))


def _when_it_is_added(thing: Mapping) -> Mapping:
    """``when: 10 min`` of a sugar: minutes are those of the boil."""
    words = ("when", "use", "time", "timing", "stage")
    said = [(key, value) for key, value in thing.entries if key.text in words and isinstance(value, Scalar)]
    if len(said) != 1 or thing.get("add") is not None:
        return thing
    group = next((key.text for key, _ in thing.entries if key.text in ("sugar", "extract", "fruit")), "grain")
    what = {"sugar": "sugar", "extract": "dry extract", "fruit": "raspberries"}.get(group, "malt")
    found = grist_line(f"1 kg {what}, {said[0][1].text}")
    fields = [one for one in found if one.name in ("add", "for")] if isinstance(found, tuple) else []
    if not fields:
        return thing
    rest = tuple(entry for entry in thing.entries if entry[0] is not said[0][0])
    return replace(thing, entries=(*rest, *(_said_by(one, said) for one in fields)))


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
    return len(entries) == len(before) and all(
        key is other and value is inner for (key, value), (other, inner) in zip(entries, before, strict=True)
    )


_STEP = ("at", "for", "to", "by")


def _one_rest(mash: Mapping) -> Mapping:
    """``mash: {at: 66 °C, for: 60 min}``: the only rest, written without its list."""
    names = {key.text for key, _ in mash.entries}
    fields = {key.text: certain_field(("mash", "rests", 0), key.text) for key, _ in mash.entries}
    if "rests" in names or "at" not in fields.values():
        return mash
    rest = tuple(entry for entry in mash.entries if fields[entry[0].text] in _STEP)
    others = tuple(entry for entry in mash.entries if not any(entry is one for one in rest))
    first = rest[0][0]
    key = Scalar("rests", "rests", first.start, first.start, plain=True)
    one = Mapping(rest, first.start, rest[-1][1].end, flow=True)
    return replace(mash, entries=(*others, (key, by_hand((_inside("recipe", ("mash", "rests", 0), one),)))))


def _without_its_name(step: Mapping) -> Mapping:
    """``name: protein rest`` says nothing that its temperature does not; ``name: decoction`` says how."""
    found: list[tuple[Scalar, Node]] = []
    for key, value in step.entries:
        if key.text not in ("name", "step", "stage", "phase", "rest") or not isinstance(value, Scalar):
            found.append((key, value))
        elif (way := values_of("by").get(_plain(value.text))) is not None and step.get("by") is None:
            said = replace(value, value=way, text=way)
            found.append((replace(key, value="by", text="by"), said))
        elif any(sign.isdigit() for sign in value.text):
            found.append((key, value))
    return step if _same(tuple(found), step.entries) else replace(step, entries=tuple(found))


def _water_as_strike(mash: Mapping) -> Mapping:
    """``strike: 16 l``: the water and not its warmth."""
    strike = mash.get("strike")
    if not isinstance(strike, Scalar) or mash.get("water") is not None:
        return mash
    found = line(strike.text, SECTIONS["kettle"])
    if not isinstance(found, tuple):
        return mash
    names = (replace(key, value="water", text="water") if key.text == "strike" else key for key, _ in mash.entries)
    return replace(mash, entries=tuple(zip(names, (value for _, value in mash.entries), strict=True)))


def _with_its_mash_out(mash: Mapping) -> Mapping:
    """``mash-out: 78 °C``: one more rest, the last."""
    name = next((key.text for key, _ in mash.entries if _plain(key.text) in ("mash out", "mashout")), None)
    last = mash.get(name) if name is not None else None
    rests = mash.get("rests")
    if isinstance(rests, Scalar):
        rests = steps_of(rests)
    more = steps_of(last) if isinstance(last, Scalar) else None
    if more is None or not isinstance(rests, Sequence):
        return mash
    all_of = by_hand((*rests.items, *more.items))
    entries = ((key, all_of if key.text == "rests" else value) for key, value in mash.entries if key.text != name)
    return replace(mash, entries=tuple(entries))


def certain_field(path: Path, key: str) -> str:
    """The field at a path of a recipe that a name for it can only mean; the name itself where there is none."""
    from mashwright.reading.wording import certain

    return certain(load("recipe"), path, key, {key: ""}, understands) or key


def _from_the_start(root: Mapping) -> Mapping:
    """Hops that boil from the start boil as long as the wort does."""
    boil, hops = root.get("boil"), root.get("hops")
    time = boil.get("for") if isinstance(boil, Mapping) else None
    if not isinstance(time, Scalar) or not isinstance(hops, Sequence):
        return root
    items = [_boiled(item, time) if isinstance(item, Mapping) else item for item in hops.items]
    named = _with(hops, items)
    return (
        root
        if named is hops
        else replace(root, entries=tuple((key, named if value is hops else value) for key, value in root.entries))
    )


def _boiled(hop: Mapping, time: Scalar) -> Mapping:
    when = hop.get("boil")
    if not isinstance(when, Scalar) or when.text != AT_THE_START:
        return hop
    known = replace(when, value=time.value, text=time.text)
    return replace(hop, entries=tuple((key, known if value is when else value) for key, value in hop.entries))
