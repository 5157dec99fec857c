"""One line of a list as a brewer writes it, and the fields of format 1 that it states, each with its place in the line.

Nothing is guessed: where a piece of a line cannot be given a field, the line is not read at all, and is asked about.
"""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from msgspec import Struct

from mashwright.longhand.pieces import Amount, Phrase, Piece, Rest, cut
from mashwright.measures.quantity import Kind
from mashwright.patterns import pattern
from mashwright.words.vocabulary import mentions


class Field(NamedTuple):
    """One field that a line states.

    Attributes:
        name: of the field.
        text: its value, as it would be written under it.
        start, end: the piece of the line that says so; a change of the value is written there.
    """

    name: str
    text: str
    start: int
    end: int


class Unclear(Struct, frozen=True):
    """A line that is not read, since one piece of it has no field.

    Attributes:
        text: of that piece; "" where the line lacks something, such as a name.
        start, end: of that piece.
        fields: what else the line states.
        bare: whether it is a number that lacks its unit.
    """

    text: str
    start: int
    end: int
    fields: tuple[Field, ...]
    bare: bool = False


class _UnclearError(Exception):
    """A piece has no field here; None where something is missing."""

    def __init__(self, piece: Piece | None = None) -> None:
        super().__init__()
        self.piece = piece


_NEXT_WORD = pattern(r" ?[^\s\d.,;:()]+")
_NUMBER_OF_A_NAME = pattern(r"\d{1,3}")
_NUMBER_FIRST = pattern(r"[\d.,/½¼¾]+(?:\s|\Z)")


def _said(text: str, piece: Piece) -> str:
    return piece.said if isinstance(piece, Amount) else text[piece.start : piece.end]


class _Reader:
    """Gathers the fields of one line; each field once."""

    def __init__(self, text: str, kinds: tuple[Kind, ...], fields: frozenset[str]) -> None:
        self.text = text
        self.pieces = cut(text, kinds, fields)
        self.found: dict[str, Field] = {}

    def put(self, name: str, piece: Piece, text: str | None = None) -> None:
        if name in self.found:
            raise _UnclearError(piece)
        self.found[name] = Field(name, _said(self.text, piece) if text is None else text, *piece[-2:])

    def phrases(self) -> Iterator[Phrase]:
        return (one for one in self.pieces if isinstance(one, Phrase))

    def says(self, field: str) -> Phrase | None:
        """The phrase about a field, if one stands in the line."""
        return next((one for one in self.phrases() if any(meaning.field == field for meaning in one.meanings)), None)

    def amounts(self, kind: Kind | None) -> list[Amount]:
        return [one for one in self.pieces if isinstance(one, Amount) and one.kind is kind]

    def one_of(self, kind: Kind, field: str) -> None:
        """The amount of a kind, as a field; more than one is unclear."""
        for amount in self.amounts(kind):
            self.put(field, amount)

    def numbers_of_names(self) -> None:
        """Takes a bare number right behind a word as part of a name: ``crystal malt 60``."""
        pieces: list[Piece] = []
        for piece in self.pieces:
            before = pieces[-1] if pieces else None
            if isinstance(before, Rest) and piece.start == before.end + 1 and self.text[before.end] == " ":
                bare = isinstance(piece, Amount) and piece.kind is None and _NUMBER_OF_A_NAME().fullmatch(piece.text)
                if bare or (isinstance(piece, Rest) and before.text[-1].isdigit()):
                    pieces[-1] = Rest(self.text[before.start : piece.end], before.start, piece.end)
                    continue
            pieces.append(piece)
        self.pieces = pieces

    def name(self) -> Rest | None:
        """The words that are left, in one run; words of grammar within it belong to it."""
        runs: list[Rest] = []
        joined = False
        for piece in self.pieces:
            if isinstance(piece, Rest):
                if runs and joined:
                    runs[-1] = Rest(self.text[runs[-1].start : piece.end], runs[-1].start, piece.end)
                else:
                    runs.append(piece)
                joined = True
            else:
                grammar = isinstance(piece, Phrase) and not any(meaning.field for meaning in piece.meanings)
                joined = joined and grammar and not self.text[runs[-1].end : piece.start].strip()
        if len(runs) > 1:
            self.found.setdefault("", Field("", runs[0].text, runs[0].start, runs[0].end))
            raise _UnclearError(runs[1])
        if runs and _NUMBER_FIRST().match(runs[0].text):
            raise _UnclearError(runs[0])
        return runs[0] if runs else None

    def fields(self) -> tuple[Field, ...]:
        return tuple(sorted(self.found.values(), key=lambda one: one.start))


Fields = tuple[Field, ...]


def _read(
    text: str, kinds: tuple[Kind, ...], fields: frozenset[str], build: Callable[[_Reader], None]
) -> Fields | Unclear:
    reader = _Reader(text, kinds, fields)
    try:
        build(reader)
    except _UnclearError as unclear:
        return _unclear(text, unclear.piece, reader.fields())
    return reader.fields()


def _unclear(text: str, piece: Piece | None, fields: Fields) -> Unclear:
    start, end = (piece.start, piece.end) if piece is not None else (len(text), len(text))
    bare = isinstance(piece, Amount) and piece.kind is None
    if isinstance(piece, Rest):
        bare = _NUMBER_FIRST().match(piece.text) is not None
    elif bare and (word := _NEXT_WORD().match(text, end)) is not None:
        end = word.end()
    return Unclear(text[start:end], start, end, fields, bare)


_GRIST = (Kind.MASS, Kind.SHARE, Kind.MALT_COLOUR, Kind.TIME)


def grist_line(text: str) -> Fields | Unclear:
    """``4.5 kg pale ale malt``, ``pale ale malt 80 %``, ``8 oz crystal malt (60 L), steeped``."""
    return _read(text, _GRIST, frozenset({"add", "last"}), _grist)


def _grist(reader: _Reader) -> None:
    for kind, field in zip(_GRIST[:3], ("weight", "share", "colour"), strict=True):
        reader.one_of(kind, field)
    if reader.found.keys() & {"weight", "share"}:
        reader.numbers_of_names()
    name = reader.name()
    group = "grain" if name is None else group_of(name.text)
    if name is not None:
        reader.put(group, name)
    for bare in reader.amounts(None):
        raise _UnclearError(bare)
    if name is None:
        raise _UnclearError
    _value(reader, "add")
    _its_time(reader, group)


def _its_time(reader: _Reader, group: str) -> None:
    """How long a thing is in: minutes of a sugar are those of the boil, which changes nothing; fruit has days."""
    place = reader.found.get("add")
    for time in reader.amounts(Kind.TIME):
        if group == "fruit":
            reader.put("for", time)
        elif group == "grain" or _DAYS().search(time.text) or (place is not None and place.text != "kettle"):
            raise _UnclearError(time)
        elif place is None:
            reader.put("add", time, "kettle")
            place = reader.found["add"]


def group_of(name: str) -> str:
    """Under which of the four fields of a line of the grist a thing is named, by its words alone."""
    if mentions("malt-extract", "ingredient", name):
        return "extract"
    if mentions("sugar", "ingredient", name):
        return "sugar"
    return "fruit" if mentions("fruit", "ingredient", name) else "grain"


_HOP = (Kind.MASS, Kind.SHARE, Kind.ALPHA_UNITS, Kind.BITTERNESS, Kind.TEMPERATURE, Kind.TIME)
_PLACES = ("first-wort", "mash", "dry", "whirlpool", "boil")
AT_THE_START = "start"
"""Stands for the time of a hop that boils from the start, as long as the whole boil."""
_DAYS = pattern(r"(?i)\d\s*(?:d|days?|tage?n?|jours?|dag(?:e|en|er)?|w|wk|weeks?|wochen?|semaines?)\.?\Z")


def hop_line(text: str) -> Fields | Unclear:
    """``30 g East Kent Golding (5.2 %) at 60 min``, ``25 g Cascade dry 4 d``, ``FWH 20 g Tettnang``."""
    return _read(text, _HOP, frozenset({*_PLACES, "form"}), _hop)


def _hop(reader: _Reader) -> None:
    for kind, field in zip(_HOP[:4], ("weight", "alpha", "alpha-units", "bitterness"), strict=True):
        reader.one_of(kind, field)
    name = reader.name()
    if name is None:
        raise _UnclearError
    reader.put("hop", name)
    _value(reader, "form")
    where = next((field for field in _PLACES if reader.says(field) is not None), "")
    times = reader.amounts(Kind.TIME)
    bare = reader.amounts(None)
    if len(times) + len(bare) > 1:
        raise _UnclearError([*times, *bare][-1])
    for minutes in bare:  # "at 60", and no number that could be anything
        if not reader.text[: minutes.start].rstrip().casefold().endswith(("@", "at")) or where not in ("", "boil"):
            raise _UnclearError(minutes)
        reader.put("boil", minutes, _minutes(minutes))
    for time in times:
        field = where or ("dry" if _DAYS().search(time.text) else "boil")
        if field == "mash":
            raise _UnclearError(time)
        if field == "first-wort":
            reader.put("first-wort", _phrase(reader, "first-wort"), "true")
            field = "boil"
        reader.put(field, time, _minutes(time) if time.text.endswith("'") else time.text)
    if where and not times and not bare:
        phrase = _phrase(reader, where)
        value = next(one.value for one in phrase.meanings if one.field == where)
        if not value:
            raise _UnclearError(phrase)
        reader.put(where, phrase, value)
    for degrees in reader.amounts(Kind.TEMPERATURE):
        if where != "whirlpool":
            raise _UnclearError(degrees)
        reader.put("at", degrees)


def _minutes(amount: Amount) -> str:
    return f"{amount.text.removesuffix(chr(39))} min"


def _phrase(reader: _Reader, field: str) -> Phrase:
    found = reader.says(field)
    if found is None:
        raise _UnclearError
    return found


def _value(reader: _Reader, field: str) -> None:
    """The value that a phrase gives a field, if one stands there."""
    phrase = reader.says(field)
    if phrase is not None:
        reader.put(field, phrase, next(one.value for one in phrase.meanings if one.field == field))


_STEP = (Kind.TEMPERATURE, Kind.TIME)


class Steps(NamedTuple):
    """Rests or steps, and what is said of all of them before or behind them: the water, or how thick the mash is."""

    steps: list[Fields]
    beside: Fields = ()


def steps(text: str, fields: frozenset[str] = frozenset({"by", "for", "to"})) -> list[Fields] | Unclear:
    """Rests, or steps of a fermentation: ``66 °C for 60 min``; ``52 °C 15 min, 65 °C 60 min``; ``72 to 68 °C``.

    Each temperature begins a step.
    """
    found = _in_steps(text, _STEP, fields)
    return found if isinstance(found, Unclear) else found.steps


def mash_line(text: str) -> Steps | Unclear:
    """Rests with the water of the mash before or behind them: ``66 °C for 60 min, 14 l``."""
    return _in_steps(text, (*_STEP, Kind.VOLUME, Kind.THICKNESS), frozenset({"by", "for", "to"}))


def _in_steps(text: str, kinds: tuple[Kind, ...], fields: frozenset[str]) -> Steps | Unclear:
    pieces = [one for one in cut(text, kinds, fields) if not _is_grammar(one)]
    found: list[dict[str, Field]] = []
    beside: dict[str, Field] = {}
    begun: dict[str, Field] = {}
    rising = False
    for index, piece in enumerate(pieces):
        if isinstance(piece, Phrase):
            field, said = _of_step(piece)
            if field == "to":
                rising = bool(found)
                continue
            behind = pieces[index + 1] if index + 1 < len(pieces) else piece
            if field == "by" and _is_degrees(behind) and (not found or not _parted(text, piece, behind)):
                if found or said != "infusion":  # which is else the way of the whole mash, and not of one rest
                    begun = {**begun, "by": Field("by", said, piece.start, piece.end)}
                continue
            if not found or field in found[-1]:
                return _unclear(text, piece, ())
            found[-1][field] = Field(field, said, piece.start, piece.end)
        elif not isinstance(piece, Amount) or piece.kind is None:
            return _unclear(text, piece, ())
        elif piece.kind is Kind.TEMPERATURE and rising:
            found[-1]["to"], rising = Field("to", piece.text, piece.start, piece.end), False
        elif piece.kind is Kind.TEMPERATURE:
            found.append({**begun, "at": Field("at", piece.text, piece.start, piece.end)})
            begun = {}
        elif (name := _OF_ALL.get(piece.kind, "")) and name not in beside and (not found or index == len(pieces) - 1):
            beside[name] = Field(name, piece.text, piece.start, piece.end)
        elif piece.kind is Kind.TIME and found and "for" not in found[-1] and "for" not in begun:
            found[-1]["for"] = Field("for", piece.said, piece.start, piece.end)
        elif piece.kind is Kind.TIME and "for" not in begun and _is_degrees(next(iter(pieces[index + 1 :]), piece)):
            begun = {**begun, "for": Field("for", piece.said, piece.start, piece.end)}  # "60 min at 66 °C"
        else:
            return _unclear(text, piece, ())
    return (
        Steps([tuple(step.values()) for step in found], tuple(beside.values())) if found else _unclear(text, None, ())
    )


def _parted(text: str, one: Piece, other: Piece) -> bool:
    """Whether a mark stands between two pieces, so that the first belongs to what is before it."""
    return bool(set(",;)") & set(text[one.end : other.start]))


_OF_ALL = {Kind.VOLUME: "water", Kind.THICKNESS: "thickness"}
"""Amounts that are said of a whole mash."""


def _is_degrees(piece: Piece) -> bool:
    return isinstance(piece, Amount) and piece.kind is Kind.TEMPERATURE


def _is_grammar(piece: Piece) -> bool:
    return isinstance(piece, Phrase) and not any(meaning.field for meaning in piece.meanings)


def _of_step(phrase: Phrase) -> tuple[str, str]:
    meaning = next(one for one in phrase.meanings if one.field)
    return meaning.field, meaning.value


class Shape(NamedTuple):
    """A line of amounts of different kinds, each of one field, perhaps with a name.

    Attributes:
        kinds: of the amounts, with the field of each.
        name: the field of what is left, "" where nothing may be.
        values: fields of which phrases may say something, each with the field's own name.
        instead: phrases that give the amount of a field to another one: ``2 l starter``.
        only: phrases that say nothing more beside an amount of a kind, and are not clear without it: ``200 ml slurry``.
    """

    kinds: tuple[tuple[Kind, str], ...]
    name: str = ""
    values: tuple[tuple[str, str], ...] = ()
    instead: tuple[tuple[str, str], ...] = ()
    only: tuple[tuple[str, Kind], ...] = ()


def line(text: str, shape: Shape) -> Fields | Unclear:
    """The fields of a line of a shape."""
    return _read(
        text,
        tuple(kind for kind, _ in shape.kinds),
        frozenset(tag for tag, _ in (*shape.values, *shape.instead, *shape.only)),
        lambda reader: _shaped(reader, shape),
    )


def _shaped(reader: _Reader, shape: Shape) -> None:
    for kind, field in shape.kinds:
        reader.one_of(kind, field)
    for tag, kind in shape.only:
        if (said := reader.says(tag)) is not None and not reader.amounts(kind):
            raise _UnclearError(said)
    for tag, field in shape.instead:
        said, amount = reader.says(tag), reader.found.pop(field, None)
        if amount is not None:
            name_of_it = field if said is None else tag
            reader.found[name_of_it] = amount._replace(name=name_of_it)
        elif said is not None:
            raise _UnclearError(said)
    for tag, field in shape.values:
        phrase = reader.says(tag)
        if phrase is not None:
            reader.put(field, phrase, next(one.value for one in phrase.meanings if one.field == tag))
    name = reader.name()
    for left in (*reader.amounts(None), *([name] if name is not None and not shape.name else ())):
        raise _UnclearError(left)
    if name is not None:
        reader.put(shape.name, name)
    if not reader.found:
        raise _UnclearError


_WHEN = pattern(
    r",|(?<![\w/.])\d+ ?(?:min|mins|minutes|h|hours?|d|days?)\b"
    r"|\b(?:at|in|last|with|before|after|from|for|to the|into|flame ?out|whirlpool|bei|vor)\b"
)


def addition_line(text: str) -> Fields | Unclear:
    """``15 g coriander seed, last 10 min of the boil``: what stands behind the name says when."""
    begin = next((found for found in _WHEN().finditer(text) if text[: found.start()].strip()), None)
    end = len(text) if begin is None else begin.start()
    found = line(text[:end].rstrip(), _ADDITION)
    if isinstance(found, Unclear) and (count := _COUNTED().match(text)) is not None:  # "2 cinnamon sticks"
        start = count.end() + 1
        named = line(text[start:end].rstrip(), _ADDITION)
        if isinstance(named, tuple) and [one.name for one in named] == ["what"]:
            what = Field("what", named[0].text, named[0].start + start, named[0].end + start)
            found = (Field("count", count.group(), 0, count.end()), what)
    if isinstance(found, Unclear) or begin is None:
        return found
    behind = begin.end() if begin.group() == "," else begin.start()
    start = behind + len(text[behind:]) - len(text[behind:].lstrip())
    when = text[start:].rstrip()
    return (*found, Field("when", when, start, start + len(when))) if when else found


_COUNTED = pattern(r"\d+(?= +[^\W\d_])")
_ADDITION = Shape(((Kind.MASS, "weight"), (Kind.VOLUME, "volume"), (Kind.COUNT, "count")), "what")


_TARGET = pattern(
    r"(?i)\b(og|fg|abv|ibu|ibus|srm|ebc|bitterness|colou?r|original gravity|final gravity|alcohol|attenuation)\b"
    r"[ \t]*[:=]?[ \t]*([^\s,;:=]+(?:[ \t]+(?:°?[A-Za-z]+|%)(?=[ \t]*(?:[,;]|\Z|[A-Z]{2,3}\b)))?)"
)


def target_line(text: str) -> Fields | None:
    """``OG 1.048, FG 1.011``: each name of a target with the value behind it; None where more than that is said.

    The names are as written, in small letters with hyphens.
    """
    found: list[Field] = []
    end = 0
    for target in _TARGET().finditer(text):
        if text[end : target.start()].strip(" ,;\t") not in ("", "and") or not any(
            sign.isdigit() for sign in target[2]
        ):
            return None
        found.append(Field(target[1].casefold().replace(" ", "-"), target[2], target.start(2), target.end(2)))
        end = target.end()
    names = {one.name for one in found}
    return tuple(found) if found and len(names) == len(found) and not text[end:].strip(" .;,") else None
