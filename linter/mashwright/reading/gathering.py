"""What is written at the top of a recipe and belongs to one of its sections: ``lagering: 2 °C for 4 weeks``.

Moved is only what is understood there, and only where nothing else says the same; the rest stays, and is asked about.
"""

from collections.abc import Callable, Iterable

from msgspec.structs import replace

from mashwright.finding import Path
from mashwright.longhand.lines import Shape, hop_line, line
from mashwright.measures.quantity import Kind
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence
from mashwright.reading.written_out import (
    LISTS,
    SECTIONS,
    as_fields,
    begin_of,
    by_hand,
    lines_in,
    mapping,
    mash_of,
    named_item,
    packaged,
    priming_line,
    steps_of,
    with_its_unit,
)

Entry = tuple[Scalar, Node]

_STEPS = frozenset(
    (
        *("primary", "primary-fermentation", "fermentation-temperature", "fermentation-temp", "ferment-temp"),
        *("secondary", "secondary-fermentation", "lagering", "lager", "conditioning", "condition", "cold-conditioning"),
        *("aging", "ageing", "maturation", "cold-crash", "diacetyl-rest", "d-rest"),
    )
)
"""Steps of the fermentation that have a name of their own; they follow each other as they are written."""

_LINES: dict[str, tuple[str, tuple[str, ...]]] = {
    **dict.fromkeys(
        (
            *("grain", "grains", "malt", "malts", "fermentables", "base-malt", "base-malts", "specialty-malts"),
            *("specialty-grains", "adjunct", "adjuncts", "sugar", "sugars", "extract", "extracts", "malt-extract"),
            *("fruit", "fruits", "honey"),
        ),
        ("grist", ()),
    ),
    **dict.fromkeys(("steeping-grains", "steeping-malts", "steeped-grains"), ("grist", ("add", "steep"))),
    **dict.fromkeys(
        ("hop", "kettle-hops", "boil-hops", "bittering-hops", "flavour-hops", "flavor-hops", "aroma-hops"),
        ("hops", ()),
    ),
    **dict.fromkeys(("dry-hops", "dry-hop", "dryhop", "dryhops", "dry-hopping"), ("hops", ("dry", "true"))),
    **dict.fromkeys(("whirlpool-hops", "hop-stand", "whirlpool"), ("hops", ("whirlpool", "true"))),
    **dict.fromkeys(("first-wort-hops", "fwh"), ("hops", ("first-wort", "true"))),
    **dict.fromkeys(
        (
            *("spice", "spices", "herbs", "fining", "finings", "nutrient", "nutrients", "yeast-nutrient"),
            *("other", "misc", "extras", "additives", "water-additions"),
        ),
        ("additions", ()),
    ),
}
"""Lists under a name of their own: which list they belong to, and a field that their name says of each line."""
_PLACES = ("boil", "whirlpool", "dry", "first-wort", "mash", "add")
"""Fields of which one says where a line goes, so that the name of its list need not."""

_STRIKE = Shape(((Kind.VOLUME, "water"), (Kind.TEMPERATURE, "strike")))
_PITCH = Shape(((Kind.MASS, "pitch"), (Kind.CELLS, "pitch"), (Kind.PACKS, "pitch"), (Kind.TEMPERATURE, "at")))
_FIELDS: dict[str, tuple[str, Shape]] = {
    **dict.fromkeys(
        ("mash-water", "strike-water", "strike", "strike-volume", "mash-in", "strike-temperature", "strike-temp"),
        ("mash", _STRIKE),
    ),
    **dict.fromkeys(
        ("mash-thickness", "thickness", "mash-ratio", "ratio"), ("mash", Shape(((Kind.THICKNESS, "thickness"),)))
    ),
    **dict.fromkeys(
        ("sparge-temperature", "sparge-temp", "sparge-volume", "sparge-water"),
        ("sparge", Shape(((Kind.VOLUME, "water"), (Kind.TEMPERATURE, "at")))),
    ),
    **dict.fromkeys(
        ("pre-boil-volume", "pre-boil", "boil-volume", "boil-size", "pre-boil-size", "boil-time", "boil-length"),
        ("boil", Shape(((Kind.VOLUME, "volume"), (Kind.TIME, "for")))),
    ),
    **dict.fromkeys(
        ("pitch", "pitching-rate", "pitch-rate", "pitch-temperature", "pitch-temp", "pitching-temperature", "pitch-at"),
        ("yeast", _PITCH),
    ),
    "starter": ("yeast", Shape(((Kind.VOLUME, "starter"),))),
    "yeast-starter": ("yeast", Shape(((Kind.VOLUME, "starter"),))),
    "attenuation": ("yeast", Shape(((Kind.SHARE, "attenuation"),))),
    "pressure": ("package", Shape(((Kind.PRESSURE, "pressure"),))),
}
"""Amounts of a section: the kind of the amount tells which of its fields it is."""

_VESSELS = {
    **dict.fromkeys(("bottle", "bottles", "bottled", "bottling"), "bottles"),
    **dict.fromkeys(("keg", "kegs", "kegged", "kegging"), "keg"),
    **dict.fromkeys(("cask", "casks", "casked", "casking"), "cask"),
    **dict.fromkeys(("can", "cans", "canned", "canning"), "cans"),
}
"""What the beer is packaged in, as a field with its gas or its sugar under it."""

_GAS = {
    **dict.fromkeys(("priming", "priming-sugar", "priming-rate", "bottling-sugar"), "priming"),
    **dict.fromkeys(("carbonation", "carb", "co2", "carbonation-level"), "carbonation"),
}
"""What makes the gas, in the package."""

_TARGETS = ("og", "fg", "abv", "bitterness", "colour", "color")
_WAYS = ("method", "process", "technique", "type", "brewing-method", "brew-method", "recipe-type")
_BAG = frozenset(("biab", "bag", "brew in a bag", "in a bag", "brew-in-a-bag", "all grain biab", "biab all grain"))
_USUAL = frozenset(
    ("all grain", "all-grain", "allgrain", "extract", "partial mash", "mini mash", "infusion", "ale", "lager")
)
"""Ways of brewing that the rest of the recipe says better: what is mashed stands in the grist."""
_ASIDE = frozenset(
    (
        *("date", "brewed", "brew-date", "brewday", "created", "tasting", "units", "cost", "price", "rating", "link"),
        *("url", "version", "tags", "category", "difficulty", "servings", "batch-number", "date-brewed", "brewed-on"),
    )
)
"""What is written beside a recipe and no sum needs: it is of the notes."""


_OF_THE_MASH = ("biab", "bag", "mash-out", "mashout", "mash-time", "mash-temperature", "mash-temp")
_RESTS = ("rests", "steps", "mash-steps", "mash-schedule", "infusion")
NAMES = frozenset((*_ASIDE, *_WAYS, *_OF_THE_MASH, *_RESTS, *_STEPS, *_LINES, *_FIELDS, *_VESSELS, *_GAS, *_TARGETS))
"""Fields that may be understood at the top of a recipe, in small letters with hyphens."""


def gathered(root: Mapping, field_at: Callable[[Path, str], str], takes: tuple[str, ...]) -> Mapping:
    """A recipe with what is written at its top in the sections where it belongs; the same node where nothing moves.

    Args:
        root: of the recipe, its sections as they are written.
        field_at: the field at a path that a name for it can only mean, or the name itself.
        takes: the sections that the recipe, or a wort of it, may have.
    """
    recipe = _Recipe(root, field_at, takes)
    for key, value in root.entries:
        recipe.move(key, value, key.text.strip().casefold().replace("_", "-").replace(" ", "-"))
    return recipe.root


class _Recipe:
    """A recipe from whose top one entry after the other moves."""

    def __init__(self, root: Mapping, field_at: Callable[[Path, str], str], takes: tuple[str, ...]) -> None:
        self.takes = takes
        self.root = root
        self.field_at = field_at

    def move(self, key: Scalar, value: Node, name: str) -> None:
        """Moves one entry to where it belongs, if that is known and it is understood there."""
        if name in _ASIDE or (name in _WAYS and _text(value) in _USUAL):
            self.aside(key, value)
        elif name in _WAYS and _text(value) in _BAG:
            self.fields(key, "mash", [_entry(key, "bag", "true", value)])
        elif name in _OF_THE_MASH or name == "water":
            self.of_the_mash(key, value, name)
        elif name in _RESTS and _is_rests(value):
            self.fields(key, "mash", [(replace(key, value="rests", text="rests"), value)])
        elif name in _STEPS:
            self.step(key, value)
        elif name in _LINES:
            self.lines(key, value, *_LINES[name])
        elif name in _FIELDS:
            section, shape = _FIELDS[name]
            if isinstance(found := as_fields(value, lambda text: line(text, shape)), Mapping) and found is not value:
                self.fields(key, section, list(found.entries))
        elif name in _VESSELS:
            self.vessel(key, value, _VESSELS[name])
        elif name in _GAS:
            self.fields(key, "package", [_under(key, _GAS[name], value)])
        elif (target := self.field_at(("targets",), key.text)) in _TARGETS:
            self.fields(key, "targets", [_under(key, target, with_its_unit(key.text, value))])

    def of_the_mash(self, key: Scalar, value: Node, name: str) -> None:
        """A temperature, a time, a mash-out, a bag, or the water, which is the mash's where the sparge has its own."""
        if name in ("biab", "bag"):
            if _text(value) in ("true", "yes"):
                self.fields(key, "mash", [_entry(key, "bag", "true", value)])
        elif name == "water":
            found = as_fields(value, lambda text: line(text, _STRIKE))
            bag = (
                any(
                    one.text.casefold() in (*_WAYS, "biab", "bag") and _text(way) in (*_BAG, "true", "yes")
                    for one, way in self.root.entries
                )
                or self.in_a_bag()
            )
            if isinstance(found, Mapping) and found is not value and (bag or self.root.get("sparge") is not None):
                self.fields(key, "mash", list(found.entries))
        elif name in ("mash-out", "mashout"):
            if isinstance(value, Scalar) and (rests := steps_of(value)) is not None:
                self.rests(key, rests.items)
        elif name in ("mash-time", "mash-temperature", "mash-temp") and isinstance(value, Scalar):
            self.only_rest(key, value, "for" if name == "mash-time" else "at")

    def in_a_bag(self) -> bool:
        mash = self.root.get("mash")
        return isinstance(mash, Mapping) and mash.get("bag") is not None

    def only_rest(self, key: Scalar, value: Scalar, field: str) -> None:
        """``mash-temperature`` and ``mash-time``: of the one rest that there is."""
        kind = Kind.TIME if field == "for" else Kind.TEMPERATURE
        if not isinstance(as_fields(value, lambda text: line(text, Shape(((kind, field),)))), Mapping):
            return
        mash = self.section("mash")
        if mash is None or (mash.get("rests") is None and mash.get("at") is None and mash.get("for") is None):
            self.fields(key, "mash", [_under(key, field, value)])
            return
        rests = mash.get("rests")
        only = rests.items[0] if isinstance(rests, Sequence) and len(rests.items) == 1 else None
        if rests is None and mash.get(field) is None:
            self.fields(key, "mash", [_under(key, field, value)])
        elif isinstance(only, Mapping) and only.get(field) is None:
            rest = _grown(only, [_under(key, field, value)])
            self.put(
                "mash",
                replace(
                    mash,
                    entries=tuple(
                        (one, by_hand((rest,)) if one.text == "rests" else node) for one, node in mash.entries
                    ),
                    short=False,
                ),
                key,
            )

    def rests(self, key: Scalar, more: Iterable[Node]) -> None:
        """Rests behind those of the mash."""
        mash = self.section("mash")
        rests = mash.get("rests") if mash is not None else None
        if isinstance(rests, Scalar):
            rests = steps_of(rests)
        if mash is None or not isinstance(rests, Sequence):
            return
        longer = by_hand((*rests.items, *more))
        entries = tuple((one, longer if one.text == "rests" else node) for one, node in mash.entries)
        self.put("mash", replace(mash, entries=entries, short=False), key)

    def step(self, key: Scalar, value: Node) -> None:
        """A step of the fermentation, behind those that are there."""
        more = steps_of(value) if isinstance(value, Scalar) else None
        there = self.root.get("ferment")
        items = _items(there) if there is not None else ()
        if isinstance(there, Scalar) and steps_of(there) is None:
            return
        fields = isinstance(value, Mapping) and all(
            self.field_at(("ferment", 0), one.text) in ("at", "to", "for") for one, _ in value.entries
        )
        if items is not None and (more is not None or fields):
            self.put("ferment", by_hand((*items, *(more.items if more is not None else (value,)))), key)

    def lines(self, key: Scalar, value: Node, section: str, said: tuple[str, ...]) -> None:
        """Lines of a list, behind those that are there."""
        there = self.root.get(section)
        before = _items(there) if there is not None else ()
        items = lines_in(section, value) if isinstance(value, Scalar) else _things(value)
        items = items or ((_with_a_word(key, value, said[0]),) if said and isinstance(value, Scalar) else ())
        more = [self.line(key, item, section, said) for item in items]
        if before is None or all(one is None for one in more):
            return
        if isinstance(there, Scalar) and not isinstance(as_fields(there, LISTS[section]), Mapping):
            return
        # a line that is not clear among others that are is asked about in the list
        self.put(section, by_hand((*before, *(one or item for one, item in zip(more, items, strict=True)))), key)

    def line(self, key: Scalar, item: Node, section: str, said: tuple[str, ...]) -> Mapping | None:
        wide = named_item(section, as_fields(item, LISTS[section]))
        if isinstance(wide, Scalar) and section == "hops" and said:
            wide = _with_a_word(key, wide, said[0])
        if not isinstance(wide, Mapping):
            return None
        if not any(self.field_at((section, 0), one.text) in _HEADS for one, _ in wide.entries):
            return None
        if not said or any(self.field_at((section, 0), one.text) in _PLACES for one, _ in wide.entries):
            return wide
        name = replace(key, value=said[0], text=said[0])
        flag: bool | str = True if said[1] == "true" else said[1]
        return _grown(wide, [(name, Scalar(flag, said[1], key.start, key.end, plain=True))])

    def vessel(self, key: Scalar, value: Node, vessel: str) -> None:
        """``bottles: 2.3 volumes``, ``bottling: 90 g table sugar``."""
        if self.root.get("package") is not None or not isinstance(value, Scalar):
            return
        inside: list[Entry] = [_entry(key, "in", vessel, key)]
        if _text(value) not in ("true", "yes"):
            package = packaged(value)
            priming = as_fields(value, priming_line)
            if isinstance(package, Mapping) and package.get("in") is None:
                inside += package.entries
            elif isinstance(priming, Mapping) and len(priming.entries) > 1:
                inside.append((replace(key, value="priming", text="priming"), priming))
            else:
                return
        self.put("package", Mapping(tuple(inside), key.start, key.end, flow=True), key)

    def fields(self, key: Scalar, section: str, more: list[Entry]) -> None:
        """Fields of a section, beside those that are there."""
        there = self.section(section)
        if there is None and self.root.get(section) is not None:
            return
        if there is not None and any(
            self.field_at((section,), one.text) == new.text for one, _ in there.entries for new, _ in more
        ):
            return
        empty = Mapping((), key.start, key.end, flow=True)
        self.put(section, _grown(there if there is not None else empty, more), key)

    def section(self, name: str) -> Mapping | None:
        """A section as fields; None where it is not there, or not understood."""
        there = self.root.get(name)
        if there is None:
            return None
        if name == "mash":
            there = mash_of(there)
        elif name == "package":
            there = packaged(there)
        elif name in SECTIONS:
            there = as_fields(there, lambda text: line(text, SECTIONS[name]))
        return there if isinstance(there, Mapping) else None

    def aside(self, key: Scalar, value: Node) -> None:
        """Into the notes, which are no sum's."""
        notes = self.root.get("notes")
        if notes is None:
            self.put("notes", Mapping(((key, value),), key.start, key.end, flow=True), key)
        elif isinstance(notes, Mapping) and notes.get(key.text) is None:
            self.put("notes", _grown(notes, [(key, value)]), key)
        elif isinstance(notes, Scalar):
            own = Scalar("notes", "notes", notes.start, notes.start, plain=True)
            self.put("notes", Mapping(((own, notes), (key, value)), notes.start, notes.end, flow=True), key)

    def put(self, section: str, value: Node, moved: Scalar) -> None:
        """Puts a section in place of the one that is there, or of the entry that moves into it."""
        if section not in self.takes:
            return
        entries: list[Entry] = []
        is_there = self.root.get(section) is not None
        for key, node in self.root.entries:
            if key is moved:
                if not is_there:
                    entries.append((replace(moved, value=section, text=section), value))
            else:
                entries.append((key, value if key.text == section else node))
        self.root = replace(self.root, entries=tuple(entries))


_WORD = {"dry": "dry hop", "whirlpool": "whirlpool", "first-wort": "fwh"}


def _with_a_word(key: Scalar, value: Scalar, place: str) -> Node:
    """A line of hops that is clear with the word that stands above its list: ``Citra 50 g 80 °C 30 min``."""
    begin = begin_of(value)
    found = hop_line(f"{value.text} {_WORD.get(place, '')}")
    if begin is None or not isinstance(found, tuple):
        return value
    end = len(value.text)
    inside = mapping(tuple(one for one in found if one.start < end), begin, value.start, value.end)
    above = [_entry(key, one.name, one.text, key) for one in found if one.start >= end]
    return _grown(inside, above)


def _text(value: Node) -> str:
    return " ".join(value.text.casefold().split()) if isinstance(value, Scalar) else ""


def _entry(key: Scalar, name: str, said: str, place: Node) -> Entry:
    """A field of which a word says that it is so."""
    flag: bool | str = True if said == "true" else said
    return replace(key, value=name, text=name), Scalar(flag, said, place.start, place.end, plain=True)


def _under(key: Scalar, name: str, value: Node) -> Entry:
    return replace(key, value=name, text=name), value


def _grown(owner: Mapping, more: list[Entry]) -> Mapping:
    """A mapping with entries that stand elsewhere, so that nothing can be added to it; what is in it can be changed."""
    return replace(owner, entries=(*owner.entries, *more), short=False)


def _is_rests(value: Node) -> bool:
    return isinstance(value, Sequence) or (isinstance(value, Scalar) and steps_of(value) is not None)


def _items(value: Node) -> tuple[Node, ...] | None:
    """What stands in a list; a text or fields are one item."""
    if isinstance(value, Sequence):
        return value.items
    return (value,)


def _things(value: Node) -> tuple[Node, ...]:
    """The lines that stand under a name: of a list, of a mapping with a name in each line, or the only one."""
    if isinstance(value, Sequence):
        return value.items
    if isinstance(value, Mapping) and value.entries and not any(key.text in _WHAT for key, _ in value.entries):
        return tuple(Mapping((one,), one[0].start, one[1].end, flow=False) for one in value.entries)
    return (value,)


_HEADS = ("grain", "sugar", "extract", "fruit", "hop", "what")
"""Fields that say what a line is about."""
_WHAT = ("grain", "sugar", "extract", "fruit", "hop", "what", "name", "weight", "amount")
