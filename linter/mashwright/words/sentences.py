"""Our own sentences: texts with places for values, each filled in one way.

A rule lists what it can say (``SAYS``), and a finding names one of these sentences with its values, so that all of them
can be read together, and whoever takes findings as data needs to parse no text.
"""

from collections.abc import Mapping
from typing import Self

from mashwright.finding import Say
from mashwright.words.plurals import counted, with_article


class Measure(str):
    """A number as it is told to a brewer, that is still known as one: ``26 l``.

    Attributes:
        value: in ``unit``; of a range the typical one.
        unit: as printed, "" for a bare number.
    """

    __slots__ = ("unit", "value")
    value: float
    unit: str

    def __new__(cls, text: str, value: float, unit: str) -> Self:
        made = super().__new__(cls, text)
        made.value, made.unit = value, unit
        return made

    def __reduce__(self) -> tuple[type[Self], tuple[str, float, str]]:
        return type(self), (str(self), self.value, self.unit)


class UntoldError(TypeError):
    """A value that cannot be told to a brewer; the message says what it is, for the rule's author."""


def spoken(sentences: Mapping[str, str], what: Say) -> str:
    """What is said, as a person reads it: the parts with their values, behind semicolons.

    Args:
        sentences: the rule's ``SAYS``. In a sentence ``{name}`` is a value, ``{name:a}`` the value with its article,
            ``{name:lot}`` a count with its noun; ``{{`` is a brace. A part that begins with a comma, a colon, a
            space or a question mark follows without a semicolon.
        what: the sentence with its values.

    Raises:
        KeyError: a sentence that is not there, or a value that it needs and is not given.
        UntoldError: a value that it needs is no text, number or quantity.
        ValueError: a place in it is not written in one of these ways, or a count is not a whole number.
    """
    text = ""
    for part in what:
        piece = sentences[part.id].format_map(_Values(part.values))
        text += piece if not text or piece.startswith((",", ":", " ", "?")) else f"; {piece}"
    return text


class _Values(dict[str, "_Value"]):
    """Values that fill their places in our own way."""

    def __init__(self, values: Mapping[str, object]) -> None:
        super().__init__({name: _Value(value) for name, value in values.items()})


class _Value:
    """One value, that knows how it is told."""

    __slots__ = ("_value",)

    def __init__(self, value: object) -> None:
        self._value = value

    def __format__(self, spec: str) -> str:
        value = getattr(self._value, "text", self._value)  # a quantity is told as its author wrote it
        if not isinstance(value, (str, int, float)):
            # a figure, a range or a list would be told as a programmer sees it
            raise UntoldError(
                f"a {type(value).__name__}; give a text, a number, a quantity or what said() or number() gives"
            )
        if spec == "a":
            return with_article(format(value))
        if spec:
            return counted(int(str(value)), spec)
        return format(value)
