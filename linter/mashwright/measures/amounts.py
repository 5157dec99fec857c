"""One end of a quantity: numbers with their units, as the canonical value of their kind."""

from itertools import pairwise
from typing import NamedTuple

from mashwright.measures import archaic
from mashwright.measures.numerals import tidy
from mashwright.measures.refusals import Asked, unknown_unit
from mashwright.measures.spellings import unit_key
from mashwright.measures.unit_table import TABLES, Kind, Unit
from mashwright.measures.units import convert, counted, find
from mashwright.measures.usual import usual_units

# In any canonical unit, and as a number by itself; judgement: more than all the beer there is, and a thousandth of what
# the finest scales of a laboratory show. Between them no sum of a few of them leaves what a float holds.
LARGEST, SMALLEST = 1e9, 1e-9
# Colder than dry ice (-78.5 °C, from memory) and hotter than a fire under a kettle; judgement.
COLDEST_C, HOTTEST_C = -100.0, 1000.0
_NEGATIVE = (Kind.TEMPERATURE, Kind.ALTITUDE)
_BARE = (Kind.PH, Kind.COUNT, Kind.NUMBER, Kind.GRAVITY)
_DEGREES = frozenset(("°", "deg", "degs", "degree", "degrees"))
_SMALLER = {"h": "min", "lb": "oz"}
"""The unit that a bare second number must mean: ``1 h 30``, ``10 lb 8``."""


class Amount(NamedTuple):
    """One end of a range: the value in the canonical unit of its kind."""

    kind: Kind
    value: float
    unit: Unit
    compound: str = ""


def amount_of(asked: Asked, terms: list[tuple[float, str]]) -> Amount:
    """Numbers and their units' spellings, as one amount.

    Raises:
        QuantityError: they are not one amount of a kind that the field takes.
    """
    if len(terms) == 1:
        return _one(asked, *terms[0])
    if any(not spelling for _, spelling in terms[:-1]):
        raise asked.unreadable()
    if not terms[-1][1]:
        smaller = _SMALLER.get(_one(asked, *terms[-2]).unit.name)
        if not smaller:
            raise asked.unreadable()
        if smaller != "min" or terms[-1][0] >= 60:  # "1h30" is said so; of 10 lb 8 the 8 may be quarters
            asked.refuse_for("has no unit after its last number", f"{tidy(asked.text)} {smaller}")
        terms = [*terms[:-1], (terms[-1][0], smaller)]
    parts = [_one(asked, number, spelling) for number, spelling in terms]
    kind = parts[0].kind
    falling = all(a.unit.scale > b.unit.scale for a, b in pairwise(parts))
    if kind not in (Kind.MASS, Kind.VOLUME, Kind.TIME) or {part.kind for part in parts} != {kind} or not falling:
        raise asked.unreadable("is not one quantity")
    names = " ".join(part.unit.name for part in parts)
    unit = next((part.unit for part in parts if part.unit.meaning), parts[0].unit)
    return Amount(kind, sum(part.value for part in parts), unit, names if names in TABLES[kind] else "")


def _one(asked: Asked, number: float, spelling: str) -> Amount:
    if not spelling or (spelling.casefold().rstrip(".") in _DEGREES and asked.kind not in _BARE):
        return _bare(asked, number, spelling)
    spelling = _by_place(asked, spelling)
    for kind in asked.kinds:
        unit = find(spelling, kind)
        if unit is not None:
            unit = _chosen(asked, number, unit)
            break
    else:
        unit, kind = _archaic(asked, number, spelling), Kind.MASS
    if number < 0 and kind not in _NEGATIVE:
        asked.refuse_for("is below zero", tidy(asked.text).lstrip("- "))
    if unit.name == "SG" and kind is Kind.GRAVITY:
        return _bare_gravity(asked, number)
    value = convert(number, unit, kind)
    if kind is Kind.TEMPERATURE and value < COLDEST_C:
        raise asked.unreadable("is colder than anything in a brewery")
    if kind is Kind.TEMPERATURE and value > HOTTEST_C:
        raise asked.unreadable("is hotter than anything in a brewery")
    if kind is Kind.GRAVITY and not 0.9 <= value <= 1.4:
        raise asked.unreadable("is not a gravity that wort or beer can have")
    refuse_unmeant(asked, value)
    return Amount(kind, value, unit)


_BOILED = (("boil",), ("whirlpool",), ("first-wort",))


def _by_place(asked: Asked, spelling: str) -> str:
    """A unit that means one thing where it stands: minutes of a boil or a rest, grams, spoons of a spice."""
    folded = spelling.casefold().rstrip(".")
    owner, key = asked.place[:1], asked.place[-1:]
    if folded == "m" and asked.kind is Kind.TIME:
        timed = key in _BOILED or (key == ("for",) and owner in (("boil",), ("mash",), ("cereal-mash",), ("steep",)))
        return "min" if timed else spelling
    if folded in ("gr", "grs", "grm") and Kind.MASS in asked.kinds and not asked.imperial:
        return "g"
    return spelling


def refuse_unmeant(asked: Asked, value: float, largest: float = LARGEST) -> None:
    """Refuse what nobody can mean; nothing at all can be meant.

    Raises:
        QuantityError: it is too large or too small.
    """
    if abs(value) > largest:
        raise asked.unreadable("is too large to be right")
    if 0 < abs(value) < SMALLEST:
        raise asked.unreadable("is too small to be meant")


def _chosen(asked: Asked, number: float, unit: Unit) -> Unit:
    """A unit whose bare name means two things, settled by the recipe around it, or asked about."""
    if unit.name == "barrels":
        if asked.imperial:
            return TABLES[Kind.VOLUME]["British barrels"]
        fault, ways = "could be a British or an American barrel", ("British barrels", "US barrels")
    elif asked.imperial and unit.name in archaic.ASKED:
        fault, ways = f"stands beside British measures; {unit.name} could be British or US", archaic.ASKED[unit.name]
    else:
        return unit
    raise asked.refuse_for_one_of(fault, [counted(f"{number:g}", way) for way in ways])


def _archaic(asked: Asked, number: float, spelling: str) -> Unit:
    key = unit_key(spelling)
    if key in ("quarter", "impquarter") and Kind.MASS in asked.kinds:
        if asked.malt:
            return TABLES[Kind.MASS]["quarters of malt"]
        if asked.sugar:
            return TABLES[Kind.MASS]["quarters of sugar"]
        malt, sugar = (f"{number * lb:g} lb" for lb in (archaic.QUARTER_OF_MALT_LB, archaic.QUARTER_OF_SUGAR_LB))
        fault = "is 336 lb a quarter for malt and 224 lb for brewing sugar"
        raise asked.refuse(fault, f"write {malt} or {sugar}")
    raise unknown_unit(asked, number, spelling, key)


def _bare(asked: Asked, number: float, degree: str = "") -> Amount:
    """A number without a unit, or with a degree sign that does not say which degrees."""
    kind = asked.kind
    if kind is Kind.GRAVITY:
        return _bare_gravity(asked, number)
    if kind in _BARE:
        if number < 0:
            raise asked.unreadable("is below zero")
        if kind is Kind.PH and number > 14:
            raise asked.unreadable("is not a pH, which runs from 0 to 14")
        return Amount(kind, number, TABLES[kind]["pH" if kind is Kind.PH else ""])
    clean = " ".join(tidy(asked.text).replace(degree, "").split()) if degree else tidy(asked.text)
    fault = "does not say which degrees" if degree else "has no unit"
    if kind is Kind.TEMPERATURE and (scale := _scale(asked, number)):
        better = f"{clean} {scale}"
        raise asked.refuse(fault, f"write {better}", better)
    if kind is Kind.SHARE and 0 < number < 1:
        raise asked.refuse_for_one_of(fault, [f"{clean} %", f"{number * 100:g} %"])
    names = usual_units(kind, number, asked.place)
    if len(names) == 1:
        asked.refuse_for(fault, f"{clean} {names[0]}")
    raise asked.refuse_for_one_of(fault, [f"{clean} {name}" for name in names])


def _scale(asked: Asked, number: float) -> str:
    """The scale that a bare degree can only be meant in, "" where it may be either."""
    if number > _BOILING_C:  # nothing in brewing is hotter than the boil
        return "°F"
    if asked.scale:
        return asked.scale
    return "°F" if asked.imperial and number >= _FREEZING_F else ""


_FREEZING_F, _BOILING_C = 32, 100


def _bare_gravity(asked: Asked, number: float) -> Amount:
    unit = TABLES[Kind.GRAVITY]["SG"]
    if 0.9 <= number <= 1.2:
        return Amount(Kind.GRAVITY, number, unit)
    if 900 <= number <= 1200:
        return Amount(Kind.GRAVITY, number / 1000, unit)
    if 1.2 < number < 2:  # a nought was lost: 1.52 for 1.052
        raise asked.refuse("is not a specific gravity", f"write {1 + (number - 1) / 10:.3f}, or {number:g} °P")
    if 2 <= number <= 40:
        raise asked.refuse("is not a specific gravity", f"write {number:g} °P, or {1 + number / 1000:.3f}")
    if 40 < number <= 200:
        better = f"{1 + number / 1000:.3f}"
        raise asked.refuse("is not a specific gravity", f"write {better}", better)
    raise asked.unreadable("is not a specific gravity")
