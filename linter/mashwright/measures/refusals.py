"""What is said of a quantity that cannot be taken: what is wrong, and the text to write instead."""

from collections.abc import Callable
from typing import NamedTuple, NoReturn

from mashwright.finding import Path
from mashwright.measures.constants import L_PER_IMPERIAL_GALLON, L_PER_US_GALLON
from mashwright.measures.numerals import tidy
from mashwright.measures.spellings import WORDS
from mashwright.measures.unit_table import EITHER, OF_SETTINGS, TABLES, Kind
from mashwright.measures.units import counted, units_of
from mashwright.words.plurals import in_a_row, with_article

SHOWN = 40


class QuantityError(ValueError):
    """A quantity that cannot be taken.

    Attributes:
        message: one sentence: what is wrong, and what to write.
        suggestion: the exact text to write instead, where only one makes sense.
        advice: the second half of the message.
        choices: the texts of which one is to be written; only the suggestion where there is one.
    """

    def __init__(
        self, message: str, suggestion: str | None = None, advice: str = "", choices: tuple[str, ...] = ()
    ) -> None:
        super().__init__(message)
        self.message = message
        self.suggestion = suggestion
        self.advice = advice
        self.choices = choices if suggestion is None else (suggestion,)


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
    Kind.TEMPERATURE_DIFFERENCE: "4 °C",
    Kind.GRAVITY_DIFFERENCE: "4 points",
    Kind.MALT_COLOUR_DIFFERENCE: "10 °Lovibond",
    Kind.BEER_COLOUR_DIFFERENCE: "2 SRM",
    Kind.EQUIVALENTS: "5 mEq/l",
    Kind.EQUIVALENTS_TO_GRAIN: "80 mEq/kg",
    Kind.FACTOR: "1.5 times",
}


class Asked(NamedTuple):
    """One reading: the text, what the field takes, where it stands, and what is known of the recipe around it."""

    text: str
    kind: Kind
    what: str
    imperial: bool
    malt: bool
    sugar: bool
    substance: str
    place: Path
    again: Callable[[str], object]
    scale: str = ""

    @property
    def kinds(self) -> tuple[Kind, ...]:
        return EITHER.get(self.kind, (self.kind,))

    def refuse_for_one_of(self, fault: str, choices: "list[str]") -> QuantityError:
        """The refusal of a text that may mean several, each of which can be written instead."""
        error = self.refuse(fault, f"write {in_a_row(choices, 'or')}")
        return QuantityError(error.message, None, error.advice, tuple(choices))

    def refuse(self, fault: str, advice: str, suggestion: str | None = None) -> QuantityError:
        shown = self.text if len(self.text) <= SHOWN else self.text[: SHOWN - 1] + "…"
        shown = "".join(letter if letter.isprintable() else " " for letter in shown)
        return QuantityError(f'the {self.what} "{shown}" {fault}; {advice}', suggestion, advice)

    def refuse_for(self, fault: str, better: str) -> NoReturn:
        """Refuse with the mended text; where that would be refused too, with what mends it as well."""
        if better == tidy(self.text):
            raise self.unreadable(fault)
        try:
            self.again(better)
        except QuantityError as error:
            raise self.refuse(fault, error.advice, error.suggestion) from None
        raise self.refuse(fault, f"write {better}", better)

    def unreadable(self, fault: str = "is not a number and a unit") -> QuantityError:
        if self.kind in (Kind.PH, Kind.COUNT, Kind.NUMBER):
            fault = fault.replace("a number and a unit", "a number")
        return self.refuse(fault, f"write for instance {EXAMPLE[self.kind]}")


_GRAVITIES = {"%": "°P", "lb": "lb/barrel"}
_NOT_A_GRAVITY = {
    "%": "a share; of sugar in the wort it is degrees Plato",
    "lb": "a weight; a gravity is pounds a barrel",
}
_SYRUP_KG = {
    "gal": 1.4 * L_PER_US_GALLON,
    "usgal": 1.4 * L_PER_US_GALLON,
    "impgal": 1.4 * L_PER_IMPERIAL_GALLON,
    "qt": 1.4 * L_PER_US_GALLON / 4,
    "pt": 1.4 * L_PER_US_GALLON / 8,
    "l": 1.4,
    "ml": 0.0014,
}
"""What measures of syrup, honey or molasses weigh, at 1.4 kg/l, common practice."""


def unknown_unit(asked: Asked, number: float, spelling: str, key: str) -> QuantityError:
    """The refusal of a unit that the field does not take.

    Args:
        asked: the field and its text.
        number: what stands before the unit.
        spelling: the unit as written.
        key: its key.
    """
    if asked.kind is Kind.GRAVITY and (scale := _GRAVITIES.get(key)) is not None:
        better = f"{number:g} {scale}"
        return asked.refuse(f"is {_NOT_A_GRAVITY[key]}", f"write {better}", better)
    if asked.kind is Kind.MASS and asked.sugar and key in _SYRUP_KG:
        kg = number * _SYRUP_KG[key]
        return asked.refuse("is a volume", f"weigh it: so much syrup, honey or molasses is about {kg:.2g} kg")
    if asked.kind is Kind.TIME and key == "m":
        better = f"{number:g} min"
        return asked.refuse("could be minutes or months", f"write {better} or {number:g} months", better)
    for kind, table in TABLES.items():
        unit = table.get(spelling) or table.get(key)
        if unit is not None and unit.name and kind not in asked.kinds and kind not in OF_SETTINGS:
            if asked.place == ("hops", "at") and kind is Kind.TIME:  # at what minute, and not at what temperature
                return asked.refuse("is a time", f"write boil: {asked.text}; `at` is the temperature of a stand")
            noun = NOUN.get(kind, kind.value)
            return asked.refuse(f"is {with_article(noun)} in {unit.name}", ways(asked))
    if asked.kind in (Kind.PH, Kind.COUNT, Kind.NUMBER):
        return asked.unreadable()
    shown = spelling if len(spelling) <= 20 else spelling[:19] + "…"
    fault = f'has an unknown unit "{shown}"'
    clean = tidy(asked.text)
    near = _nearest(asked, spelling, key)
    if near is not None and clean.count(spelling) == 1:
        better = counted(f"{number:g}", near) if clean == f"{number:g} {spelling}" else clean.replace(spelling, near)
        if _readable(asked, better):
            return asked.refuse(fault, f"did you mean {better}?", better)
    return asked.refuse(fault, ways(asked))


def _readable(asked: Asked, text: str) -> bool:
    try:
        asked.again(text)
    except QuantityError:
        return False
    return True


def _nearest(asked: Asked, spelling: str, key: str) -> str | None:
    from mashwright.words.nearest import nearest

    names: dict[str, str] = {}
    for table in (TABLES[kind] for kind in asked.kinds):
        names |= {word: table[short].name for word, short in WORDS.items() if short in table}
        names |= {one: unit.name for one, unit in table.items() if len(one) > 2}
    names |= {name.casefold(): name for kind in asked.kinds for name in units_of(kind)}
    for text in (spelling.casefold(), key):
        near = nearest(text, names, 0.5 if len(text) < 4 else 0.7)
        if near is not None:
            return names[near]
    return None


def ways(asked: Asked) -> str:
    names = [name for name in units_of(asked.kind) if name]
    if asked.kind is Kind.GRAVITY or not names:
        return f"write for instance {EXAMPLE[asked.kind]}"
    return f"write it in {in_a_row(names, 'or')}"
