"""A line cut into what it is made of: amounts, phrases that say something, and the words that are left."""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.longhand.lexicon import MOST_WORDS, Meaning, Table, meanings
from mashwright.measures import archaic
from mashwright.measures.quantity import Kind
from mashwright.measures.spellings import unit_key
from mashwright.measures.units import find
from mashwright.patterns import pattern

_NUMBER = r"(?:\d+ \d+/\d+|\d+/\d+|\.\d+|\d*[½¼¾⅓⅔⅛⅜⅝⅞]|\d+(?:[.,]\d+)*)"
_AMOUNT = pattern(
    rf"(?<![\w.,-])(?<!\d/)(?:{_NUMBER}(?:\s*(?:-|–|—|\bto\b)\s*{_NUMBER})?)(?![\d])"
    r"|(?i:\b(?:an?|one|two|three|four|five|six|eight|ten)(?=\s+(?:hour|day|week|month)s?\b)"
    r"|\bhalf an?(?=\s+(?:hour|pack|packet|sachet|tablet|teaspoon|tsp|pound|kilo)\b))"
)
_IN_WORDS = pattern(r"(?i)(?:half an?|[a-z]+)(?=\s)")
_DIGITS = {"two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "eight": "8", "ten": "10"}
_WORD = pattern(r"[^\s()\[\],;:@=~]+")
_MARKS = frozenset("/–—-+")
"""Signs that stand alone between the pieces of a line, and say nothing."""
_UNIT = pattern(r"\s*((?:°\s?)?[^\W\d_]+[./]?(?:[^\W\d_]+\.?)*|°|%|'|#)")
_NEXT = pattern(r"[ \t]+([^\W\d_]+\.?)")


class Amount(NamedTuple):
    """A number with its unit. ``kind`` is None where no unit stands there: a bare number, or a bare degree."""

    kind: Kind | None
    text: str
    start: int
    end: int

    @property
    def said(self) -> str:
        """The text with its number in digits: ``a week`` is ``1 week``."""
        words = _IN_WORDS().match(self.text)
        if words is None:
            return self.text
        first = words[0].casefold()
        return f"{'0.5' if first.startswith('half') else _DIGITS.get(first, '1')}{self.text[words.end() :]}"


class Phrase(NamedTuple):
    """Words that say something, by the table of words."""

    meanings: tuple[Meaning, ...]
    start: int
    end: int


class Rest(NamedTuple):
    """Words that are neither, with nothing between them but blanks: a name, mostly."""

    text: str
    start: int
    end: int


Piece = Amount | Phrase | Rest


def cut(text: str, kinds: tuple[Kind, ...], fields: frozenset[str], table: Table | None = None) -> list[Piece]:
    """The pieces of a line in their order; between them stand blanks and marks only.

    Args:
        text: one line.
        kinds: what its amounts may be, the likeliest first where a unit could be of two.
        fields: what its phrases may say something about; others are words like any.
        table: of the phrases; those of a line unless said otherwise.
    """
    table = meanings() if table is None else table
    amounts = _joined(text, list(_amounts(text, kinds)))
    pieces: list[Piece] = []
    end = 0
    for amount in amounts:
        pieces += _words(text, end, amount.start, fields, table)
        pieces.append(amount)
        end = amount.end
    return [*pieces, *_words(text, end, len(text), fields, table)]


def _amounts(text: str, kinds: tuple[Kind, ...]) -> Iterator[Amount]:
    end = 0
    for number in _AMOUNT().finditer(text):
        if number.start() < end:
            continue
        kind, end = _unit(text, number.end(), kinds)
        if kind is not None or not text[end : end + 1].strip(" \t,;:/)]@"):
            yield Amount(kind, text[number.start() : end], number.start(), end)


def _unit(text: str, begin: int, kinds: tuple[Kind, ...]) -> tuple[Kind | None, int]:
    """The kind of the unit that stands behind a number, and where it ends: of as many words as make one."""
    first = _UNIT().match(text, begin)
    if first is None:
        return None, begin
    ends = [first.end()]
    while len(ends) < 3 and (more := _NEXT().match(text, ends[-1])) is not None:
        ends.append(more.end())
    spellings = [text[begin:end].strip().rstrip("/") for end in ends]
    ends = [end - 1 if text[end - 1] == "/" else end for end in ends]
    for place in range(len(ends) - 1, -1, -1):
        end, spelling = ends[place], spellings[place]
        if place and unit_key(spelling) == unit_key(spellings[place - 1]):
            continue  # the last word adds nothing: "% of"
        for kind in kinds:
            if find(spelling, kind) is not None or unit_key(spelling) in _OTHERS.get(kind, ()):
                return kind, end
    if first[1] in ("'", "°"):
        return (Kind.TIME if first[1] == "'" and Kind.TIME in kinds else None), first.end()
    return None, begin


_SPOONS = ("tsp", "tbsp", "cup")
"""Kitchen measures, of which it is known what they hold of many things; a field of weights takes them."""
_OTHERS = {
    Kind.MASS: frozenset((*_SPOONS, "quarter", *(key for _, keys, *_ in archaic.MASSES for key in keys))),
    Kind.VOLUME: frozenset(key for _, keys, *_ in archaic.VOLUMES for key in keys),
}
"""Units beside those of the table of units, by their keys: kitchen measures and those of old books."""
_JOINED = {("lb", "oz"), ("h", "min")}
"""Units of which the second may follow the first as part of the same amount: ``10 lb 8 oz``, ``1 h 30 min``."""
_NUMBER_SIGNS = "0123456789.,/½¼¾⅓⅔⅛⅜⅝⅞ -–"


def _joined(text: str, amounts: list[Amount]) -> list[Amount]:
    found: list[Amount] = []
    for amount in amounts:
        before = found[-1] if found else None
        if (
            before is not None
            and before.kind is not None
            and before.kind is amount.kind
            and text[before.end : amount.start].strip() in ("", "and")
            and (_unit_key(before), _unit_key(amount)) in _JOINED
        ):
            found[-1] = Amount(before.kind, text[before.start : amount.end], before.start, amount.end)
        else:
            found.append(amount)
    return found


def _unit_key(amount: Amount) -> str:
    return unit_key(amount.text.lstrip(_NUMBER_SIGNS))


def _words(text: str, begin: int, end: int, fields: frozenset[str], table: Table) -> Iterator[Piece]:
    """The phrases between two amounts, and the names."""
    words = [
        (found.start(), found.end()) for found in _WORD().finditer(text, begin, end) if not _MARKS.issuperset(found[0])
    ]
    at, name = 0, -1
    while at < len(words):
        phrase = _phrase(text, words[at : at + MOST_WORDS], fields, table)
        if phrase is None:
            name = at if name < 0 else name
            if at + 1 == len(words) or text[words[at][1] : words[at + 1][0]].strip():
                yield _rest(text, words[name : at + 1])
                name = -1
            at += 1
            continue
        if name >= 0:
            yield _rest(text, words[name:at])
            name = -1
        yield phrase
        at += sum(1 for start, _ in words[at:] if start < phrase.end)
    if name >= 0:
        yield _rest(text, words[name:])


def _rest(text: str, words: list[tuple[int, int]]) -> Rest:
    start, end = words[0][0], words[-1][1]
    return Rest(text[start:end], start, end)


def _phrase(text: str, words: list[tuple[int, int]], fields: frozenset[str], table: Table) -> Phrase | None:
    for count in range(len(words), 0, -1):
        start, end = words[0][0], words[count - 1][1]
        said = table.get(" ".join(text[start:end].casefold().replace("-", " ").split()).rstrip("."), ())
        found = tuple(one for one in said if not one.field or one.field in fields)
        if found:
            return Phrase(found, start, end)
    return None
