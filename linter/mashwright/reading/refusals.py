"""What is said of a quantity that cannot be taken: what is wrong, and the text to write instead."""

from dataclasses import dataclass

from mashwright.reading.numerals import tidy
from mashwright.reading.spellings import WORDS, unit_key
from mashwright.reading.unit_table import EITHER, TABLES, Kind
from mashwright.reading.units import units_of

SHOWN = 40


class QuantityError(ValueError):
    """A quantity that cannot be taken.

    Attributes:
        message: one sentence: what is wrong, and what to write.
        suggestion: the exact text to write instead, where only one makes sense.
        advice: the second half of the message.
    """

    def __init__(self, message: str, suggestion: str | None = None, advice: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.suggestion = suggestion
        self.advice = advice


NOUN = {
    Kind.MASS: "weight",
    Kind.ABSORPTION: "absorption",
    Kind.DOSE: "rate",
    Kind.CELLS: "cell count",
    Kind.PACKS: "number of packs",
    Kind.PH: "pH",
    Kind.MALT_COLOUR: "colour",
    Kind.SUGAR_COLOUR: "colour",
    Kind.BEER_COLOUR: "colour",
}
EXAMPLE = {
    Kind.MASS: "2.5 kg",
    Kind.VOLUME: "20 l",
    Kind.TEMPERATURE: "66 °C",
    Kind.TIME: "60 min",
    Kind.GRAVITY: "1.048",
    Kind.DIASTATIC_POWER: "110 °Lintner",
    Kind.MALT_COLOUR: "40 °Lovibond",
    Kind.SUGAR_COLOUR: "5 °Lovibond",
    Kind.BEER_COLOUR: "6 SRM",
    Kind.BITTERNESS: "20 IBU",
    Kind.SHARE: "70 %",
    Kind.CARBONATION: "2.3 volumes",
    Kind.PRESSURE: "1.2 bar",
    Kind.CONCENTRATION: "60 mg/l",
    Kind.ALKALINITY: "110 mg/l",
    Kind.EXTRACT: "80 %",
    Kind.THICKNESS: "3.1 l/kg",
    Kind.ABSORPTION: "1.0 l/kg",
    Kind.RATE: "4 l/h",
    Kind.DOSE: "6 g/l",
    Kind.CELLS: "200 billion cells",
    Kind.PACKS: "2 packs",
    Kind.ALPHA_UNITS: "6 AAU",
    Kind.ALTITUDE: "120 m",
    Kind.PH: "5.4",
    Kind.COUNT: "2",
    Kind.NUMBER: "0.4",
    Kind.PITCH: "11 g",
    Kind.BOTTLE_RATING: "3.5 volumes",
}


@dataclass(frozen=True, slots=True)
class Asked:
    """One reading: the text, what the field takes, and what is known of the recipe around it."""

    text: str
    kind: Kind
    what: str
    imperial: bool
    malt: bool
    sugar: bool
    substance: str

    @property
    def kinds(self) -> tuple[Kind, ...]:
        return EITHER.get(self.kind, (self.kind,))

    def refuse(self, fault: str, advice: str, suggestion: str | None = None) -> QuantityError:
        shown = self.text if len(self.text) <= SHOWN else self.text[: SHOWN - 1] + "…"
        shown = "".join(letter if letter.isprintable() else " " for letter in shown)
        return QuantityError(f'the {self.what} "{shown}" {fault}; {advice}', suggestion, advice)

    def unreadable(self, fault: str = "is not a number and a unit") -> QuantityError:
        if self.kind in (Kind.PH, Kind.COUNT, Kind.NUMBER):
            fault = fault.replace("a number and a unit", "a number")
        return self.refuse(fault, f"write for instance {EXAMPLE[self.kind]}")


def unknown_unit(asked: Asked, number: float, spelling: str, key: str) -> QuantityError:
    if asked.kind is Kind.TIME and key == "m":
        better = f"{number:g} min"
        return asked.refuse("could be minutes or months", f"write {better} or {number:g} months", better)
    for kind, table in TABLES.items():
        unit = table.get(spelling) or table.get(key)
        if unit is not None and unit.name and kind not in asked.kinds:
            noun = NOUN.get(kind, kind.value)
            return asked.refuse(f"is {'an' if noun[0] in 'aeiou' else 'a'} {noun} in {unit.name}", ways(asked))
    if asked.kind in (Kind.PH, Kind.COUNT, Kind.NUMBER):
        return asked.unreadable()
    import difflib

    names = {name.casefold(): name for kind in asked.kinds for name in units_of(kind)}
    names |= {one: unit.name for kind in asked.kinds for one, unit in TABLES[kind].items() if len(one) > 2}
    names |= {
        word: table[short].name
        for kind in asked.kinds
        for table in (TABLES[kind],)
        for word, short in WORDS.items()
        if short in table
    }
    near = difflib.get_close_matches(spelling.casefold(), names, 1, 0.5) or difflib.get_close_matches(
        key, names, 1, 0.5
    )
    shown = spelling if len(spelling) <= 20 else spelling[:19] + "…"
    fault = f'has an unknown unit "{"".join(c if c.isprintable() else " " for c in shown)}"'
    clean = tidy(asked.text)
    if near and clean.count(spelling) == 1 and unit_key(spelling):
        better = clean.replace(spelling, names[near[0]])
        return asked.refuse(fault, f"did you mean {better}?", better)
    return asked.refuse(fault, ways(asked))


def ways(asked: Asked) -> str:
    names = [name for name in units_of(asked.kind) if name]
    if asked.kind is Kind.GRAVITY or not names:
        return f"write for instance {EXAMPLE[asked.kind]}"
    return f"write it in {either(names)}"


def either(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"
