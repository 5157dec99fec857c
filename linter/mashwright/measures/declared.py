"""A unit that is declared beside a number, as that of a rule's setting: its kind, its word, and texts read in it."""

from msgspec import Struct

from mashwright.measures.quantity import Kind, QuantityError, read_quantity
from mashwright.measures.unit_table import DIFFERENCES, TABLES
from mashwright.measures.units import from_canonical, units_of
from mashwright.words.plurals import in_a_row

_FIRST = {
    "": Kind.NUMBER,
    "g/l": Kind.DOSE,
    "mg/l": Kind.CONCENTRATION,
    "mEq/l": Kind.EQUIVALENTS,
    "SRM": Kind.BEER_COLOUR,
    "EBC": Kind.BEER_COLOUR,
}
"""Units of several kinds, and the kind that is meant where none is said; of others the first in the table is."""
_WITH_A_UNIT = frozenset(
    {Kind.SHARE, Kind.DIASTATIC_POWER, Kind.TEMPERATURE, Kind.MASS, Kind.DOSE, Kind.MALT_COLOUR, Kind.THICKNESS}
    | {Kind.TEMPERATURE_DIFFERENCE, Kind.MALT_COLOUR_DIFFERENCE, Kind.VOLUME, "min", "h"}
)
"""Kinds and units of which nobody can tell what a bare number is in; others are in the unit that is declared."""
_WORDS = {"%": "percent", "°P": "plato"}


class Declared(Struct, frozen=True, gc=False):
    """A unit as declared.

    Attributes:
        unit: as printed, such as ``% of grist``; "" for a bare number.
        kind: what it measures; ``Kind.NUMBER`` where no table knows the unit.
    """

    unit: str
    kind: Kind

    @property
    def name(self) -> str:
        """The unit's name in the table of its kind, such as ``%``."""
        return "%" if self.unit.startswith("%") else self.unit if self.kind is not Kind.NUMBER else ""

    @property
    def word(self) -> str:
        """How a name in code ends in the unit: ``g_per_l``, ``lintner``, ``percent``, ``plato``; "" for no unit."""
        unit = self.unit.split(" ", 1)[0]
        return _WORDS.get(unit, unit.casefold().replace("/", "_per_").removeprefix("°"))

    def read(self, text: str, what: str, example: float, *, below_zero: bool = False) -> float:
        """A text as a number in the declared unit.

        Args:
            text: in any unit of the kind; in the declared one without unit, where that is plain.
            what: the word for it in messages.
            example: a value that would do, in the declared unit.
            below_zero: whether it may be less than nothing.

        Raises:
            QuantityError: it cannot be taken; the message names units that can.
        """
        sign = 1.0
        if below_zero and self.kind is not Kind.TEMPERATURE and text[:1] in ("-", "−"):
            sign, text = -1.0, text[1:].lstrip()
        bare = text.removesuffix(self.unit).rstrip() if self.unit else text
        if bare != text or not (self.kind in _WITH_A_UNIT or self.unit in _WITH_A_UNIT):
            try:
                number = read_quantity(bare, Kind.NUMBER).range.typical
            except QuantityError:
                pass
            else:
                if bare != text or not self._is_gravity(number):
                    return sign * number
        try:
            found = read_quantity(text, self.kind, what=what)
        except QuantityError as error:
            raise self._refused(error, example) from None
        return sign * from_canonical(found.range.typical, self.name, self.kind)

    def _is_gravity(self, number: float) -> bool:
        return self.kind is Kind.GRAVITY and (0.9 <= number <= 1.2 or 900 <= number <= 1200)

    def _refused(self, error: QuantityError, example: float) -> QuantityError:
        """The same refusal with the units of this setting, where it names those of a recipe's fields."""
        units = list(dict.fromkeys(name for name in (self.name, *units_of(self.kind)) if name))
        how = f"write it in {in_a_row(units, 'or')}" if units else "write a number"
        if error.advice.startswith("write for instance"):
            how = f"{how}, for instance {example:g} {self.unit}".rstrip()
        elif not error.advice.startswith("write it in") or self.name in units_of(self.kind):
            return error
        return QuantityError(error.message.removesuffix(error.advice) + how, None, how)


def declared(unit: str, kind: Kind | None = None, *, difference: bool = False) -> Declared:
    """What is declared by a unit.

    Args:
        unit: as printed.
        kind: what it measures, where that is not the first that is thought of, as °Lovibond of a beer.
        difference: whether it is how far two values are apart.
    """
    plain = "%" if unit.startswith("%") else unit
    if kind is None:
        kind = _FIRST.get(plain) or _first_with(plain)
    return Declared(unit, DIFFERENCES.get(kind, kind) if difference else kind)


def _first_with(name: str) -> Kind:
    for kind, table in TABLES.items():
        unit = table.get(name)
        if unit is not None and unit.name == name:
            return kind
    return Kind.NUMBER
