"""Every name that recipes may use, with what is known of it: of the tables, the units, and the brewhouse's own."""

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from msgspec import Struct

from mashwright.brew.own import own_fermentable, said_of, sort_of
from mashwright.brewing.water import CALCIUM_CHLORIDE, SALTS, salt_gives
from mashwright.ingredients import enzymes, fermentables, lookup, minerals, tables
from mashwright.ingredients.kinds import IngredientKind, Sort
from mashwright.ingredients.sorts import plain_kind
from mashwright.ingredients.tables import Row
from mashwright.measures.quantity import Kind
from mashwright.measures.unit_table import TABLES, Unit
from mashwright.measures.units import convert, counted
from mashwright.recipe.brewhouse import Brewhouse, Described

if TYPE_CHECKING:
    from mashwright.ingredients.fermentables import Fermentable
    from mashwright.ingredients.hops import Hop
    from mashwright.ingredients.yeasts import Yeast

KINDS: dict[str, str] = {
    "malts": "malt, raw grain, grits, flakes, hulls",
    "sugars": "sugar, syrup, malt extract",
    "fruit": "fruit, roots and what else ferments",
    "hops": "cultivars, with the letters that brewers write for them",
    "yeasts": "kinds of yeast and other cultures",
    "enzymes": "enzymes that are added",
    "salts": "salts and acids for the water",
    "styles": "beer styles, their ranges by published guidelines",
    "units": "units of each quantity, with their spellings",
}
"""What there is to list, each with what it holds."""

_SWEET = {IngredientKind.SUGAR, IngredientKind.SYRUP, IngredientKind.DRY_EXTRACT, IngredientKind.LIQUID_EXTRACT}
_BRIEF = {
    "malts": ("kind", "colour", "diastatic-power"),
    "sugars": ("kind", "extract", "fermentable"),
    "fruit": ("extract",),
    "hops": ("origin", "alpha"),
    "yeasts": ("attenuation", "temperature", "tolerance"),
    "enzymes": ("works-on", "temperature"),
    "styles": ("og", "ibu", "srm"),
}
"""The values that stand in a list; of the others all of them do."""
_OF_RULES_ONLY = {
    Kind.TEMPERATURE_DIFFERENCE, Kind.GRAVITY_DIFFERENCE, Kind.MALT_COLOUR_DIFFERENCE, Kind.BEER_COLOUR_DIFFERENCE,
    Kind.EQUIVALENTS, Kind.EQUIVALENTS_TO_GRAIN, Kind.FACTOR, Kind.COUNT, Kind.NUMBER, Kind.PITCH, Kind.BOTTLE_RATING,
}  # fmt: skip
_EXACT = (Kind.MASS, Kind.VOLUME, Kind.TEMPERATURE, Kind.TIME, Kind.PRESSURE, Kind.ALTITUDE)
_SAMPLE = {Kind.TEMPERATURE: 100, Kind.GRAVITY: 12}  # where one of a unit says little
_CANONICAL = {Kind.SUGAR_COLOUR: "°Lovibond", Kind.PH: "pH"}


class Value(Struct, frozen=True):
    """One thing that is known.

    Attributes:
        what: as the tables and recipes call it, ``diastatic-power``.
        text: as a brewer reads it, with its unit.
        low, typical, high: in the unit; None where it is a word, or open at that end.
        sources: keys of the bibliography; empty where the brewhouse says it.
    """

    what: str
    text: str
    low: float | None = None
    typical: float | None = None
    high: float | None = None
    unit: str = ""
    sources: tuple[str, ...] = ()


class Known(Struct, frozen=True):
    """One name with what is known of it.

    Attributes:
        kind: one of ``KINDS``.
        also: its other names.
        own: the brewhouse says it.
    """

    kind: str
    name: str
    also: tuple[str, ...]
    values: tuple[Value, ...]
    own: bool = False

    @property
    def brief(self) -> str:
        """What stands beside it in a list."""
        values = {one.what: one for one in self.values}
        shown = [values[what] for what in _BRIEF.get(self.kind, values) if what in values]
        if self.kind == "units":
            return ", ".join(f"{one.what}: {one.text}" for one in shown)
        return ", ".join(f"{one.what} {one.text}" if _is_bare(one) else one.text for one in shown)


def _is_bare(value: Value) -> bool:
    """Whether a value does not say by its unit what it is."""
    return value.unit.startswith(("%", "m")) and value.unit != "% ABV"


def known(kind: str, house: Brewhouse) -> tuple[Known, ...]:
    """All names of a kind: the brewhouse's own first, then those of the tables, in their order.

    Args:
        kind: one of ``KINDS``.
        house: the nearest brewhouse, or one that says nothing.
    """
    return (*_of_house(kind, house), *_of_tables(kind))


def _of_tables(kind: str) -> Iterator[Known]:
    match kind:
        case "malts" | "sugars" | "fruit":
            also = _also("fermentables")
            for name in tables.blocks("fermentables"):
                if _shelf(fermentables.entry(name).kind) == kind:
                    yield Known(kind, name, also.get(name, ()), _rows("fermentables", name))
        case "hops" | "yeasts" | "styles":
            also = _also(kind)
            for name in tables.blocks(kind):
                yield Known(kind, name, also.get(name, ()), _rows(kind, name))
        case "enzymes":
            yield from _enzymes()
        case "salts":
            yield from _minerals()
        case _:
            yield from _units()


def _shelf(kind: str) -> str:
    """Where a kind of fermentable is listed."""
    return "sugars" if kind in _SWEET else "fruit" if kind == IngredientKind.FRUIT_OR_OTHER else "malts"


def _also(table: str) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for alias, name in tables.aliases(table):
        found[name] = (*found.get(name, ()), alias)
    return found


def _rows(table: str, name: str) -> tuple[Value, ...]:
    return tuple(map(_value, tables.rows(table, name)))


def _value(row: Row) -> Value:
    if not row.unit:
        return Value(row.what, row.typical, sources=row.keys)
    low, typical, high = (float(number) if number else None for number in (row.low, row.typical, row.high))
    if low is None:
        text = row.typical
    elif high is None:
        text = f"{row.low} and more"
    else:
        text = row.low if low == high else f"{row.low}-{row.high}"
        typical = row.range.typical
    unit = "" if row.unit == "SG" else f" {row.unit}"
    return Value(row.what, f"{text}{unit}", low, typical, high, row.unit, row.keys)


def _enzymes() -> Iterator[Known]:
    names: dict[str, list[str]] = {}
    for name in enzymes.names_of_enzymes():
        entry = enzymes.enzyme(name)
        if entry is not None:
            names.setdefault(entry.name, []).append(name)
    for name, spelt in names.items():
        entry = enzymes.enzyme(name)
        if entry is None:
            continue
        source = (entry.source,)
        low, high = entry.low_c, entry.high_c
        yield Known(
            "enzymes",
            name,
            tuple(one for one in spelt if one != name),
            (
                Value("works-on", " and ".join(sorted(entry.works_on)), sources=source),
                Value("temperature", f"{low:g}-{high:g} °C", low, (low + high) / 2, high, "°C", source),
            ),
        )


def _minerals() -> Iterator[Known]:
    for table in ("salts", "acids"):
        for name, spelt in minerals.listed(table).items():
            yield Known("salts", name, tuple(one for one in spelt if one != name), tuple(_ions(name)))


def _ions(name: str) -> Iterator[Value]:
    """What 1 g of a salt in 1 l of water gives."""
    if name not in SALTS and name != CALCIUM_CHLORIDE:
        yield Value("water", "an acid" if name in minerals.listed("acids") else "known, and not counted")
        return
    for ion, value in salt_gives(name).items():
        unit = "mEq/l" if ion == "alkalinity" else "mg/l"
        low, high = f"{value.low:.3g}", f"{value.high:.3g}"
        text = f"{low if low == high else f'{low}-{high}'} {unit}"
        yield Value(ion, text, value.low, value.typical, value.high, unit, ("by-definition",))


def _units() -> Iterator[Known]:
    for kind, table in TABLES.items():
        if kind in _OF_RULES_ONLY:
            continue
        spelt: dict[Unit, list[str]] = {}
        for spelling, unit in table.items():
            spelt.setdefault(unit, []).append(spelling)
        first = _CANONICAL.get(kind) or next(unit.name for unit in spelt if unit.scale == 1 and not unit.offset)
        for unit, names in spelt.items():
            if unit.name:
                also = tuple(one for one in names if one != unit.name)
                yield Known("units", unit.name, also, (_worth(kind, unit, first),))


def _worth(kind: Kind, unit: Unit, first: str) -> Value:
    """What a unit is in the one in which its kind is counted."""
    sources = ("by-definition",) if kind in _EXACT else ()
    if unit.name == first:
        return Value(kind.value, unit.meaning or "counted in it", unit=first, sources=sources)
    sample = _SAMPLE.get(kind, 10 if unit.offset else 1)
    if kind is Kind.GRAVITY and unit.name == "points":
        sample = 48
    worth = convert(sample, unit, kind)
    number = f"{worth:.3f}" if kind is Kind.GRAVITY else f"{worth:.5g}"
    text = f"{counted(f'{sample:g}', unit.name)} = {counted(number, first)}"
    text = f"{text}; {unit.meaning}" if unit.meaning else text
    return Value(kind.value, text, typical=worth / sample if not unit.offset else None, unit=first, sources=sources)


def _of_house(kind: str, house: Brewhouse) -> Iterator[Known]:
    for thing in house.ingredients.values():
        sort = sort_of(thing)
        if sort is not None and _kind_of(sort, thing) == kind:
            yield Known(kind, thing.name, tuple(map(str, thing.also)), tuple(_own_values(thing, kind)), own=True)


def _kind_of(sort: Sort, thing: Described) -> str:
    """Where a thing of the brewhouse's own is listed."""
    if sort is not Sort.GRIST:
        return {Sort.HOP: "hops", Sort.YEAST: "yeasts"}.get(sort, "enzymes")
    entry = own_fermentable(thing, thing.name)
    return _shelf(entry.kind if entry is not None else plain_kind(thing.kind))


def _own_values(thing: Described, kind: str) -> Iterator[Value]:
    """What the brewhouse says of a thing, and what it has of the one of the tables that it is one of."""
    yield Value("kind", str(thing.kind))
    stated = said_of(thing)
    for field in sorted(stated):
        value = getattr(thing, field.replace("-", "_"))
        if getattr(value, "known", False):
            unit, span = value.unit, value.range
            yield Value(field, value.text, span.low, span.typical, span.high, unit)
        elif isinstance(value, bool):
            yield Value(field, "yes" if value else "no")
        elif isinstance(value, str):
            yield Value(field, str(value))
    inherited = _inherited(thing, kind)
    taken = {*stated, "kind", *(("splits",) if "diastatic" in stated else ())}
    yield from (one for one in inherited if one.what not in taken)


def _inherited(thing: Described, kind: str) -> tuple[Value, ...]:
    """What the tables know of the thing that one of the brewhouse's own is one of."""
    if kind == "enzymes":
        found = enzymes.enzyme(thing.kind)
        return next((one.values for one in _enzymes() if found is not None and one.name == found.name), ())
    table = kind if kind in ("hops", "yeasts") else "fermentables"
    look_up: dict[str, Callable[[str], Fermentable | Hop | Yeast | None]] = {
        "hops": lookup.hop,
        "yeasts": lookup.yeast,
        "fermentables": lambda name: own_fermentable(thing, name),
    }
    entry = look_up[table](thing.kind if table != "fermentables" else thing.name)
    return _rows(table, entry.name) if entry is not None and entry.name in tables.blocks(table) else ()
