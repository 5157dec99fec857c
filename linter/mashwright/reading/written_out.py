"""A text as the fields that it states, as nodes: each value at its place in the text.

Which places of a recipe or a brewhouse take a text, and of which shape it is there.
"""

import re
from collections.abc import Callable

from msgspec.structs import replace

from mashwright.longhand.lines import (
    Fields,
    Shape,
    Unclear,
    addition_line,
    grist_line,
    group_of,
    hop_line,
    line,
    mash_line,
    steps,
)
from mashwright.measures.quantity import Kind
from mashwright.patterns import pattern
from mashwright.reading.fields import at_path, keys
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence
from mashwright.reading.scalars import core_value
from mashwright.reading.signs import marked_otherwise
from mashwright_schema import load

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
        (Kind.VOLUME, "pitch"),
    ),
    "kind",
    instead=(("starter", "pitch"),),
    only=(("slurry", Kind.VOLUME),),
)
_PACKAGE = Shape(((Kind.CARBONATION, "carbonation"), (Kind.PRESSURE, "pressure"), (Kind.TEMPERATURE, "at")), "in")
SPUND = Shape(((Kind.GRAVITY, "gravity"), (Kind.PRESSURE, "pressure"), (Kind.TEMPERATURE, "at")))
_PRIMING = Shape(
    ((Kind.DOSE, "rate"), (Kind.MASS, "weight"), (Kind.VOLUME, "volume"), (Kind.GRAVITY, "gravity")), "sugar"
)
_WORTS = frozenset(("krausen", "kräusen", "kraeusen", "speise", "gyle", "wort"))
_VESSEL = Shape(((Kind.VOLUME, "volume"),))

VESSELS = ("mash-tun", "kettle", "fermenter")

LISTS: dict[str, Callable[[str], Fields | Unclear]] = {
    "grist": grist_line,
    "grain-bill": grist_line,
    "hops": hop_line,
    "additions": addition_line,
}
SECTIONS = {
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


def priming_line(text: str) -> Fields | Unclear:
    """``120 g table sugar``, ``1.5 l speise``: what primes is a sugar, an extract or a wort, by its name."""
    found = line(text, _PRIMING)
    if isinstance(found, Unclear):
        return found
    return tuple(one._replace(name=_primes(one.text)) if one.name == "sugar" else one for one in found)


def _primes(name: str) -> str:
    if _WORTS & set(name.casefold().split()):
        return "wort"
    return "extract" if group_of(name) == "extract" else "sugar"


def package_line(text: str) -> tuple[Fields, Fields] | Unclear:
    """``bottles, 2.3 volumes``, and what primes it behind a comma or ``with``: ``bottles, 120 g table sugar``."""
    found = line(text, _PACKAGE)
    if isinstance(found, tuple):
        return found, ()
    for mark in _THEN().finditer(text):
        before, behind = line(text[: mark.start()], _PACKAGE), priming_line(text[mark.end() :])
        if isinstance(before, tuple) and isinstance(behind, tuple) and len(behind) > 1:
            moved = mark.end()
            return before, tuple(one._replace(start=one.start + moved, end=one.end + moved) for one in behind)
    return found


_THEN = pattern(r",\s*|\s+with\s+|\s+primed with\s+")


def packaged(value: Node) -> Node:
    """A text that says in what the beer goes, with its gas or what primes it."""
    if not isinstance(value, Scalar) or (begin := begin_of(value)) is None:
        return value
    found = package_line(value.text)
    if isinstance(found, Unclear):
        return value
    whole = mapping(found[0], begin, value.start, value.end)
    if not found[1]:
        return whole
    priming = mapping(found[1], begin, begin + found[1][0].start, value.end)
    key = Scalar("priming", "priming", priming.start, priming.start, plain=True)
    return replace(whole, entries=(*whole.entries, (key, priming)))


def mash_of(value: Node) -> Node:
    """A mash that is a text or a list of rests, as a mapping."""
    if isinstance(value, Sequence):
        return Mapping(((_key("rests", value.start), value),), value.start, value.start, flow=True)
    if not isinstance(value, Scalar) or (begin := begin_of(value)) is None:
        return value
    found = mash_line(value.text)
    if isinstance(found, Unclear):
        return value
    entries: tuple[tuple[Scalar, Node], ...] = ((_key("rests", value.start), _steps(value, begin, found.steps)),)
    entries = (*entries, *mapping(found.beside, begin, value.start, value.end).entries)
    return Mapping(entries, value.start, value.end, flow=True, short=True)


def _key(name: str, place: int) -> Scalar:
    return Scalar(name, name, place, place, plain=True)


def _steps(value: Scalar, begin: int, found: list[Fields]) -> Sequence:
    items = tuple(
        mapping(one, begin, begin + min(field.start for field in one), begin + max(field.end for field in one))
        for one in found
    )
    return Sequence(items, value.start, value.end, flow=True, short=True)


def steps_of(value: Scalar) -> Sequence | None:
    """Rests or steps that a text states; None where it is not clear."""
    begin = begin_of(value)
    found = steps(value.text) if begin is not None else None
    return _steps(value, begin, found) if begin is not None and isinstance(found, list) else None


def shaped(value: Node, shape: Shape) -> Node:
    """A text of a shape as the fields that it states; the same node where it is no text, or not clear."""
    return as_fields(value, lambda text: line(text, shape))


def as_fields(value: Node, read: Callable[[str], Fields | Unclear]) -> Node:
    """A text as the fields that it states; the same node where it is no text, or not clear."""
    if not isinstance(value, Scalar) or (begin := begin_of(value)) is None:
        return value
    found = read(value.text)
    return mapping(found, begin, value.start, value.end) if isinstance(found, tuple) else value


def mapping(fields: Fields, begin: int, start: int, end: int) -> Mapping:
    """Fields of a text that begins at a place of the document; the whole of them stands from ``start`` to ``end``."""
    entries = tuple(
        (
            Scalar(field.name, field.name, begin + field.start, begin + field.start, plain=True),
            Scalar(core_value(field.text), field.text, begin + field.start, begin + field.end, plain=True),
        )
        for field in fields
    )
    return Mapping(entries, start, end, flow=True, short=True)


def known_in(name: str) -> tuple[str, ...]:
    """The fields of a line of a list."""
    return keys(at_path(load("recipe"), (name, 0)))


def named_item(name: str, item: Node) -> Node:
    """``pilsner malt: 3 kg``, where the name of a thing stands as if it were a field's."""
    if not isinstance(item, Mapping) or item.short or item.flow or len(item.entries) != 1:
        return item
    key, value = item.entries[0]
    if not (isinstance(value, Scalar) and key.plain and value.plain) or key.text in known_in(name):
        return item
    between = value.start - key.end
    found = LISTS[name](f"{key.text}:{' ' * (between - 1)}{value.text}")
    whole = key.end - key.start == len(key.text) and value.end - value.start == len(value.text)
    if not isinstance(found, tuple) or not whole or len(found) < 2:
        return item
    return mapping(found, key.start, key.start, value.end)


def lines_in(name: str, value: Scalar) -> tuple[Node, ...]:
    """The lines of a list that one text states, with commas or semicolons between them; none where one is not clear."""
    begin = begin_of(value)
    if begin is None:
        return ()
    for mark in (r"\Z", r";", r"\s\+\s", r"[,;]|\s\+\s|\sand\s"):
        found: list[Node] = []
        for piece in _split(value.text, mark):
            text = value.text[piece[0] : piece[1]]
            part = Scalar(text, text, begin + piece[0], begin + piece[1], plain=True)
            one = as_fields(part, LISTS[name])
            if not isinstance(one, Mapping) or not any(one.get(weighed) for weighed in _WEIGHED):
                break
            found.append(one)
        else:
            return tuple(found)
    return ()


_WEIGHED = ("weight", "share", "alpha-units", "bitterness", "volume", "count")


def _split(text: str, mark: str) -> list[tuple[int, int]]:
    """Where the pieces of a text between marks begin and end, without blanks; the last mark may end it."""
    ends = [found.span() for found in re.finditer(mark, text)] + [(len(text), len(text))]
    begins = [0, *(end for _, end in ends)]
    pieces = []
    for begin, (end, _) in zip(begins, ends, strict=False):
        piece = text[begin:end]
        if piece.strip():
            pieces.append((begin + len(piece) - len(piece.lstrip()), begin + len(piece.rstrip())))
    return pieces


def begin_of(value: Scalar) -> int | None:
    """Where the first letter of a text stands; None where not each of its letters stands there as it is."""
    if not value.text.strip() or "\n" in value.text or marked_otherwise(value.text) is not None:
        return None
    if value.end - value.start == len(value.text):
        return value.start
    return value.start + 1 if not value.plain and value.end - value.start == len(value.text) + 2 else None


def by_hand(items: tuple[Node, ...]) -> Sequence:
    """A list that is not written as one, so that nothing can be added to it; what is in it can be changed."""
    return Sequence(items, 0, 0, flow=False)


_UNITS = {
    "ibu": "IBU",
    "ibus": "IBU",
    "aau": "AAU",
    "srm": "SRM",
    "ebc": "EBC",
    "lovibond": "°Lovibond",
    "kg": "kg",
    "g": "g",
    "grams": "g",
    "lb": "lb",
    "lbs": "lb",
    "oz": "oz",
    "litres": "l",
    "liters": "l",
    "gallons": "gal",
    "minutes": "min",
    "min": "min",
    "mins": "min",
    "days": "d",
    "packets": "packs",
    "packs": "packs",
    "sachets": "packs",
    "psi": "psi",
    "volumes": "volumes",
    "vols": "volumes",
}
"""Units that stand as the name of a field, with a bare number under it."""


def with_its_unit(key: str, value: Node) -> Node:
    """A bare number under a name that is a unit: ``ibu: 30``."""
    unit = _UNITS.get(key.casefold())
    if unit is None or not isinstance(value, Scalar) or BARE().fullmatch(value.text) is None:
        return value
    text = f"{value.text} {unit}"
    return replace(value, value=text, text=text)


BARE = pattern(r"\d+(?:\.\d+)?(?:\s*(?:-|–|to)\s*\d+(?:\.\d+)?)?")
"""A number, or two with "to" between them, without a unit."""
