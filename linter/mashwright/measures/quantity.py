"""A quantity: a number and a unit in one scalar, as a brewer writes it, judged in a brewer's words.

What is taken: ``5 kg``, ``10 lb 8 oz``, ``1 1/2 lb``, ``½ oz``, ``1 h 30 min``, ``1.048``, ``1048``, ranges such as
``64-66 °C``, ``64 to 66 °C``, ``3–4 d``, kitchen and archaic measures. What is refused says what to write instead.
"""

import re
from functools import cache, lru_cache

from msgspec import Struct

from mashwright.finding import Path
from mashwright.measures.amounts import HOTTEST_C, LARGEST, SMALLEST, Amount, amount_of, refuse_unmeant
from mashwright.measures.archaic import implies_imperial
from mashwright.measures.constants import MIN_PER_DAY
from mashwright.measures.numerals import QUOTES, separators, tidy
from mashwright.measures.range import Range
from mashwright.measures.refusals import EXAMPLE, NOUN, SHOWN, Asked, QuantityError, ways
from mashwright.measures.spellings import unit_key
from mashwright.measures.unit_table import TABLES, Kind
from mashwright.measures.units import (
    convert,
    from_canonical,
    said,
    step_of,
    to_canonical,
    units_of,
)

__all__ = [
    "Kind",
    "Quantity",
    "QuantityError",
    "from_canonical",
    "implies_imperial",
    "read_quantity",
    "said",
    "step_of",
    "to_canonical",
    "units_of",
]

_LONGEST = 80  # characters; a quantity is a few words
_AT_THE_END = frozenset(("flameout", "flamesout", "knockout", "fo", "ko", "eob", "endofboil", "endoftheboil"))


class Quantity(Struct, frozen=True, gc=False):
    """A quantity as read.

    Attributes:
        kind: what it measures; for a field that takes several kinds, the one that was written.
        range: in the canonical unit of the kind; low and high as written, typical in the middle.
        unit: as written, in its usual spelling (``lb``, ``°F``, ``SG``; ``lb oz`` and ``h min`` for two together).
        text: as written.
        reading: a sentence where a choice was made, "" otherwise.
        note: a sentence that asks for something better, "" otherwise.
    """

    kind: Kind
    range: Range
    unit: str
    text: str
    reading: str = ""
    note: str = ""


def read_quantity(
    text: str | float,
    kind: Kind,
    *,
    what: str = "",
    imperial: bool = False,
    malt: bool = False,
    sugar: bool = False,
    substance: str = "",
    place: Path = (),
    scale: str = "",
) -> Quantity:
    """Read a quantity of a kind.

    Args:
        text: the scalar as it stands in the recipe, or its number.
        kind: what the field holds.
        what: the field's word in messages, such as ``weight``; by default that of the kind.
        imperial: the recipe is in British measures: a bare barrel is one, a bare gallon is asked about.
        malt: the thing weighed is malt, so a quarter weighs 336 lb.
        sugar: the thing weighed is sugar, so a quarter weighs 224 lb.
        substance: what spoons or cups hold; they are then read as a weight, a wide range with a note that asks for one.
        place: the path in the document, which tells the units to offer where none is written.
        scale: the unit of the other temperatures of the recipe, which is offered for a bare degree; "" for none.

    Raises:
        QuantityError: it cannot be taken, or nothing is known of what a spoon of the substance weighs; says what to
            write instead.
    """
    return _read(
        text if isinstance(text, str) else str(text), kind, what, imperial, malt, sugar, substance, place, scale
    )


@lru_cache(maxsize=8192)
def _read(
    text: str,
    kind: Kind,
    what: str,
    imperial: bool,
    malt: bool,
    sugar: bool,
    substance: str,
    place: Path = (),
    scale: str = "",
) -> Quantity:
    number, _, spelling = text.partition(" ")
    if len(number) < 10 and number.isascii() and number.replace(".", "", 1).isdigit() and kind in TABLES:
        unit = TABLES[kind].get(spelling)
        if (
            unit is not None
            and spelling == unit.name
            and not (unit.meaning or imperial or unit.name in ("barrels", "t"))
        ):
            value = convert(float(number), unit, kind)
            largest = HOTTEST_C if kind is Kind.TEMPERATURE else LARGEST
            if kind is not Kind.GRAVITY and (SMALLEST <= abs(value) <= largest or not value):
                return Quantity(kind, Range(value, value, value), unit.name, text)

    def again(better: str) -> Quantity:
        return _read(better, kind, what, imperial, malt, sugar, substance, place, scale)

    word = what or NOUN.get(kind, kind.value)
    asked = Asked(text.strip(), kind, word, imperial, malt, sugar, substance, place, again, scale)
    return _read_slowly(asked)


@cache
def _pattern(name: str) -> re.Pattern[str]:
    return re.compile(_PATTERNS[name], re.IGNORECASE | re.ASCII)


_PATTERNS = {
    "range": r"(?<=[^\s+-])(?<!\de)\s*(?:-|(?<![a-z])to(?![a-z]))\s*(?=[-+]?\.?\d)",
    "term": r"\s*([-+]?)(?:(?<=[-+])\s*)?(\d+(?:\s+\d+)?/\d+|\d+(?:\.\d+)?(?:e[-+]?\d{1,3}(?![\d.]))?"
    r"|\.\d+(?:e[-+]?\d{1,3}(?![\d.]))?)([^\d]*?)(?=\.?\d|$)",
    "named": r"(?<!\s)\s*\(?(?:of\s+|as\s+)?(?:co[2₂]|caco[3₃])\)?",
    "billion": r"(?<!\s)\s*[x×*]\s*10\s?(?:\^|\*\*)?\s?9\s*",
    "about": r"^(?:(?:ca|c|approx)\.?|about|circa|approximately|around|etwa|environ|[~≈])\s*(?=[\d.½¼¾])",
    "weighed": r"[\d.]+\s*[a-z]+\s*\(\s*([\d.]+\s*m?[gl])\s*\)",
    "label": r"(?:ph|sg|og|fg|s\.g\.|o\.g\.|f\.g\.)\s*(?:[:=]\s*)?(?=\d)",
    "yeast": r"(?<!\s)\s+(?:of\s+)?(?:(?:thick|thin|fresh|dry|dried|liquid|harvested|yeast)\s+){0,4}(?:slurry|yeast)",
    "hyphen": r"(\d+)\s?-\s?(\d+)/(\d+)",
}


def _read_slowly(asked: Asked) -> Quantity:
    text = asked.text
    if not text:
        raise QuantityError(
            f"the {asked.what} is empty; write for instance {EXAMPLE[asked.kind]}",
            advice=f"write for instance {EXAMPLE[asked.kind]}",
        )
    if len(text) > _LONGEST:
        raise asked.unreadable()
    clean = tidy(text)
    if not clean.isprintable():
        raise asked.unreadable("holds a character that cannot be seen")
    folded = clean.casefold()
    if "co" in folded:
        clean = _pattern("named").sub("", clean)
    if asked.kind in (Kind.CELLS, Kind.PITCH):
        clean = _pattern("billion").sub(" billion ", clean)
    if asked.kind is Kind.PITCH:
        clean = _pattern("yeast").sub("", clean)
    if asked.kind in (Kind.PH, Kind.GRAVITY) and folded[0].isalpha():
        clean = _pattern("label").sub("", clean, count=1)
    if clean[0] in QUOTES and clean[-1] in QUOTES and clean.strip(QUOTES):
        asked.refuse_for("stands in curly quotes", clean.strip(QUOTES).strip())
    clean = _pattern("about").sub("", clean) or clean
    if asked.kind is Kind.PITCH and (inner := _pattern("weighed").fullmatch(clean)) is not None:
        clean = inner[1]  # "1 packet (11 g)" says how much it is
    if asked.kind is Kind.TIME and (usual := _USUAL_TIMES.get((asked.place[-1:], folded))) is not None:
        return _usual_time(asked, usual)
    if asked.kind is Kind.TIME and folded.replace(" ", "").replace("-", "") in _AT_THE_END:
        if asked.place == ("hops", "boil"):
            reading = f'"{asked.text}" is read as 0 min'
            return Quantity(Kind.TIME, Range(0.0, 0.0, 0.0), "min", asked.text, reading)
        asked.refuse_for("is not a length of time", "0 min")
    _refuse_separators(asked, clean)
    sides = _pattern("range").split(clean)
    if len(sides) > 2:
        raise asked.unreadable("is not one number or one range")
    if len(sides) == 2 and (mixed := _pattern("hyphen").match(clean)) and int(mixed[2]) < int(mixed[3]):
        better = " ".join(clean.replace("-", " ", 1).split())
        asked.refuse_for("could be a range or a number with a fraction", better)
    terms = [_terms(asked, side) for side in sides]
    if len(terms) == 2:
        _share_unit(terms[0], terms[1])
        _share_unit(terms[1], terms[0])
    if (measure := _kitchen_measure(asked, terms[-1][-1][1])) in ("tsp", "tbsp", "cup"):
        return _kitchen(asked, [[number for number, _ in side] for side in terms], measure)
    amounts = [amount_of(asked, side) for side in terms]
    return _quantity(asked, amounts, sides)


def _kitchen_measure(asked: Asked, spelling: str) -> str:
    """The key of a unit; T and t are spoons of a spice or a salt, as in cookery books, and tonnes of malt."""
    if spelling in ("T", "t", "T.", "t.") and asked.kind is Kind.MASS:
        if asked.place[:1] != ("grist",) and asked.place[:1] != ("grain-bill",):
            return "tbsp" if spelling[0] == "T" else "tsp"
        if spelling[0] == "T":
            number = tidy(asked.text)[: -len(spelling)].strip()
            from mashwright.measures.kitchen import grams_in

            spoons = f" or {number} tbsp" if grams_in("tbsp", asked.substance) is not None else ""
            raise asked.refuse("could be tonnes or tablespoons", f"write {number} t{spoons}")
    return unit_key(spelling)


_OVERNIGHT = Range(8 * 60.0, 12 * 60.0, 16 * 60.0)  # common practice
_USUAL_TIMES: dict[tuple[Path, str], Range] = {
    (("dry",), "true"): Range(2 * MIN_PER_DAY, 4 * MIN_PER_DAY, 7 * MIN_PER_DAY),  # common practice
    (("whirlpool",), "true"): Range(10.0, 20.0, 30.0),  # common practice
    (("for",), "overnight"): _OVERNIGHT,
    (("for",), "over night"): _OVERNIGHT,
    (("for",), "all night"): _OVERNIGHT,
}
"""What a time is by custom where no number is written: by the field, and what stands there."""


def _usual_time(asked: Asked, usual: Range) -> Quantity:
    unit = "d" if usual.low >= MIN_PER_DAY else "h" if usual.low >= 120 else "min"
    amount = said(usual, unit, Kind.TIME)
    reading = f'"{asked.text}" is read as {amount}'
    note = f"`{asked.place[-1]}: {asked.text}` is counted as {amount.replace('-', ' to ', 1)}; write how long it was"
    return Quantity(Kind.TIME, usual, unit, asked.text, reading, note)


def _share_unit(side: list[tuple[float, str]], other: list[tuple[float, str]]) -> None:
    if len(side) == 1 and not side[0][1]:
        side[0] = (side[0][0], other[-1][1])


def _quantity(asked: Asked, amounts: list[Amount], sides: list[str]) -> Quantity:
    first, last = amounts[0], amounts[-1]
    if first.kind is not last.kind:
        raise asked.unreadable("mixes two kinds of unit")
    low, high = first.value, last.value
    if low > high:
        left, right = (_pattern("term").match(side) for side in sides)
        if left is None or right is None:
            raise asked.unreadable()
        unit = right[3].strip() or left[3].strip()
        join = " to " if "-" in left[1] + right[1] else "-"
        better = f"{right[1]}{right[2].strip()}{join}{left[1]}{left[2].strip()} {unit}".strip()
        asked.refuse_for("runs from high to low", better)
    spread = last.unit.spread
    found = Range(low * (1 - spread), (low + high) / 2, high * (1 + spread))
    unit = last.compound or last.unit.name
    return Quantity(last.kind, found, unit, asked.text, _reading(asked, last, found))


def _reading(asked: Asked, amount: Amount, found: Range) -> str:
    kind, unit = amount.kind, amount.unit
    if unit.meaning:
        return f'"{asked.text}" is read as {unit.meaning}: {said(found, units_of(kind)[0], kind)}'
    if unit.name in ("°Lovibond", "°Lintner") and asked.text.rstrip().endswith(("L", "l")):
        return f'"{asked.text}" is read as {unit.name}, since it is a {kind.value}'
    return ""


def _refuse_separators(asked: Asked, clean: str) -> None:
    """Refuse decimal commas and thousands separators, with the text to write instead."""
    wrong = separators(clean)
    if wrong is None:
        return
    if not wrong.mended:
        raise asked.unreadable(wrong.fault)
    if len(wrong.mended) == 1 or asked.kind is Kind.GRAVITY:
        fault = "has a decimal comma" if asked.kind is Kind.GRAVITY and "," in clean else wrong.fault
        asked.refuse_for(fault, wrong.mended[0])
    try:
        asked.again(wrong.mended[0])
    except QuantityError:
        asked.refuse_for(wrong.fault, wrong.mended[0])
    raise asked.refuse_for_one_of(wrong.fault, list(wrong.mended))


def _terms(asked: Asked, side: str) -> list[tuple[float, str]]:
    """Numbers with their units' spellings."""
    terms: list[tuple[float, str]] = []
    end = 0
    while end < len(side) or not terms:
        match = _pattern("term").match(side, end)
        if match is None or (match[1] and terms):
            raise asked.unreadable()
        end = match.end()
        terms.append((_number(asked, match), match[3].strip(" ,")))
    return terms


def _number(asked: Asked, match: re.Match[str]) -> float:
    written = match[2]
    if "/" in written:
        whole, _, fraction = written.rpartition(" ")
        top, _, bottom = fraction.partition("/")
        if not float(bottom):
            raise asked.unreadable("is divided by zero")
        value = float(whole or 0) + float(top) / float(bottom)
    else:
        value = float(written)
    if not value and match[2].casefold().partition("e")[0].strip("0."):  # less than a float can be
        raise asked.unreadable("is too small to be meant")
    refuse_unmeant(asked, value, LARGEST**2 if asked.kind in (Kind.CELLS, Kind.PITCH) else LARGEST)
    return -value if match[1] == "-" else value


def _kitchen(asked: Asked, numbers: list[list[float]], measure: str) -> Quantity:
    from mashwright.measures import kitchen

    if any(len(side) != 1 or side[0] < 0 for side in numbers):
        raise asked.unreadable()
    low, high = numbers[0][0], numbers[-1][0]
    if low > high:
        raise asked.unreadable("runs from high to low")
    word = kitchen.WORD[measure]
    if Kind.MASS in asked.kinds:
        held, kind, usual = kitchen.grams_in(measure, asked.substance), Kind.MASS, "g"
        if held is None and asked.substance and asked.place[:1] == ("additions",):
            held = kitchen.grams_of_anything(measure)
        if held is None:
            held_in = f"of {asked.substance[:SHOWN]} " if asked.substance else ""
            raise asked.refuse(
                f"is a {word} measure, and what one {held_in}weighs is not known", "weigh it and write g or oz"
            )
    elif Kind.VOLUME in asked.kinds:
        held, kind, usual = kitchen.VOLUME_ML[measure], Kind.VOLUME, "ml"
    else:
        raise asked.refuse(f"is a {word} measure", ways(asked))
    found = Range(low * held.low / 1000, (low + high) / 2 * held.typical / 1000, high * held.high / 1000)
    amount = said(found, usual, kind)
    of = f" of {asked.substance}" if asked.substance else ""
    reading = f'"{asked.text}"{of} is read as {amount}'
    verb, noun = ("weighs", "weigh it") if kind is Kind.MASS else ("holds", "measure it")
    note = f'"{asked.text}"{of} {verb} anything from {amount.replace("-", " to ", 1)}; {noun} and write {usual}'
    return Quantity(kind, found, usual, asked.text, reading, note)
