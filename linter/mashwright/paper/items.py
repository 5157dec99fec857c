"""Malt and hops of a page: a piece of a line that names one, read by the line's own reader once it is cleared of what
stands around it.
"""

from collections.abc import Callable
from itertools import pairwise
from typing import NamedTuple

from mashwright.longhand.lexicon import Table, of_pages
from mashwright.longhand.lines import AT_THE_START, Field, Unclear, grist_line, hop_line
from mashwright.longhand.pieces import Amount, Phrase, Rest, cut
from mashwright.measures.quantity import Kind
from mashwright.measures.units import find
from mashwright.paper.amounts import amounts, value
from mashwright.patterns import pattern

Names = Callable[[str], str]
"""What a name is known as: ``grist``, ``hop``, ``yeast``, or "" where nothing knows it."""

HOP_FIELDS = frozenset(("first-wort", "mash", "dry", "whirlpool", "boil", "form"))
_GRIST = (Kind.MASS, Kind.SHARE, Kind.MALT_COLOUR)
_HOP = (Kind.MASS, Kind.SHARE, Kind.ALPHA_UNITS, Kind.BITTERNESS, Kind.TEMPERATURE, Kind.TIME)
_KINDS = {
    "weight": Kind.MASS, "share": Kind.SHARE, "colour": Kind.MALT_COLOUR, "alpha": Kind.SHARE, "boil": Kind.TIME,
    "alpha-units": Kind.ALPHA_UNITS, "bitterness": Kind.BITTERNESS, "at": Kind.TEMPERATURE, "dry": Kind.TIME,
    "whirlpool": Kind.TIME,
}  # fmt: skip
_MOST_WORDS = 6
"""Of a name that is looked for; no known one is longer but for words that may be left out."""
_FROM_START = pattern(r"(?<![\w])T\s?\+?\s?(\d{1,3})(?:\s?(?:min|'))?(?!\w)")
_CRYSTAL = pattern(r"(?i)crystal|cara|lovibond")
_AMOUNT = pattern(r"(?i)\d(?![\s-]?row)")
"""What begins a run of words that is an amount and no name: ``67C`` is no crystal malt."""
_SMALL = pattern(r"(?i)of|de|the|a|an|and|or|no|with|some|in|for|at")
"""Words that a name neither begins nor ends with."""
_SCALE = pattern(r"(?i)[cf]\b")
_TIMES = pattern(
    r"(?i)(?:@|\b(?:at|bei|op|ved|à)\b)\s*\d{1,3}(?:\s*(?:,|/|and|und|et|en|og|,\s*and)\s*\d{1,3})+\s*(?:min\w*\.?|')?"
)
"""Several times in a row: ``@ 60, 30, 10``."""
_DIGITS = pattern(r"\d+")
_WORD = pattern(r"[^\s()\[\],;:@=~]+")


class Known(NamedTuple):
    """A run of words that something knows."""

    kind: str
    start: int
    end: int


class Item(NamedTuple):
    """A line of grist or hops.

    Attributes:
        fields: of the format, with their values in its units.
        starts: whether it goes in when the boil begins.
        after: minutes after the start of the boil, as text; "" where it is not counted from there.
        left: words that are not read.
    """

    fields: dict[str, str]
    starts: bool
    after: str
    left: tuple[str, ...]


def known_in(text: str, start: int, end: int, names: Names) -> list[Known]:
    """The longest runs of words between two places that are known, from the left."""
    words = [(found.start(), found.end()) for found in _WORD().finditer(text, start, end)]
    found: list[Known] = []
    at = 0
    while at < len(words):
        for count in range(min(_MOST_WORDS, len(words) - at), 0, -1):
            first, last = words[at][0], words[at + count - 1][1]
            if any(text[one[1] : other[0]].strip() for one, other in pairwise(words[at : at + count])):
                continue  # no name reaches over a comma
            run = text[first:last].strip(".'\"-/")
            if count > 1 and (
                _SMALL().fullmatch(text[first : words[at][1]])
                or _SMALL().fullmatch(text[words[at + count - 1][0] : last])
            ):
                continue
            scale = text[:first].rstrip()[-1:].isdigit() and _SCALE().match(run)
            if (
                len(run) > 1
                and not scale
                and not run.startswith("°")
                and not _AMOUNT().match(run)
                and (kind := names(run))
            ):
                found.append(Known(kind, first, last))
                at += count
                break
        else:
            at += 1
    return found


def grist_item(text: str, names: Names) -> Item | None:
    """A line of the grist; None where it states no weight, or nothing that could be a name."""
    numbered = _numbered(text, names)
    if numbered is not None:
        hidden = "Q" * (numbered.end - numbered.start)
        said, text = text[numbered.start : numbered.end], f"{text[: numbered.start]}{hidden}{text[numbered.end :]}"
        found_names = names
        names = lambda name: "grist" if name == hidden else found_names(name)  # noqa: E731
    text, others = _without(text, _GRIST)
    cleared, left = _cleared(text, _GRIST, frozenset({"add"}), names, "grist")
    left += others
    found, more = _read(grist_line, cleared)
    fields = _fields(found)
    if numbered is not None:
        fields = {name: said if one == hidden else one for name, one in fields.items()}
    if "weight" in fields and "share" in fields:
        more.append(fields.pop("share"))
    if not ({"weight", "share"} & fields.keys()) or not {"grain", "sugar", "extract", "fruit"} & fields.keys():
        return None
    return Item(fields, False, "", (*left, *more))


def _without(text: str, kinds: tuple[Kind, ...]) -> tuple[str, list[str]]:
    """A text without the amounts that such a line cannot have, and those."""
    left: list[str] = []
    for one in amounts(text):
        colour = one.kind is Kind.BEER_COLOUR or (one.text.endswith("L") and _CRYSTAL().search(text) is not None)
        if one.kind is not None and one.kind not in kinds and not colour:
            left.append(one.text)
            text = _blank(text, one.start, one.end)
    return text, left


def _numbered(text: str, names: Names) -> Known | None:
    """A name that has a number in it, such as ``crystal 60``."""
    known = [one for one in known_in(text, 0, len(text), names) if one.kind == "grist"]
    best = max(known, key=lambda one: one.end - one.start, default=None)
    if best is None or not any(one.isdigit() for one in text[best.start : best.end]):
        return None
    return best if not text[best.start].isdigit() or text[best.start + 1 : best.start + 2] == "-" else None


def hop_item(text: str, names: Names, before: str) -> Item | None:
    """An addition of hops; None where it states no amount.

    Args:
        before: the hop of the addition before, whose name counts on where this one has none; "" for none.
    """
    listed = _TIMES().search(text)
    if listed is not None:  # several times for one weight: which of them, or how it is shared, nobody says
        text = _blank(text, listed.start(), listed.end())
    text, after = _taken(text, _FROM_START())
    starts = False
    said = cut(text, _HOP, frozenset({"topic"}), of_pages())
    for at, piece in enumerate(said):
        topics = _topics(piece)
        if "hop-start" in topics or ("hop-after" in topics and not after):
            if "hop-after" in topics:
                beside = next((one for one in (*said[at - 1 : at], *said[at + 1 : at + 2]) if _is_time(one)), None)
                if beside is None:
                    continue
                after = beside.text  # type: ignore[union-attr]
                text = _blank(text, beside.start, beside.end)
            else:
                starts = True
            text = _blank(text, piece.start, piece.end)
    text = _with_minutes(text)
    cleared, left = _cleared(text, _HOP, HOP_FIELDS, names, "hop")
    found, more = _read(hop_line, cleared)
    if not any(one.name == "hop" for one in found):
        if not before:
            return None
        found, more = _read(hop_line, f"{cleared}, {before}")
    fields = _fields(found)
    if not {"weight", "alpha-units", "bitterness"} & fields.keys() or find(fields.get("hop", ""), Kind.PACKS):
        return None  # "11 g packet" is yeast
    if fields.get("boil") == AT_THE_START:
        del fields["boil"]
        starts = True
    if starts and "boil" in fields:
        starts = False
    return Item(fields, starts, after, (*left, *more, *(_DIGITS().findall(listed[0]) if listed is not None else ())))


def each_of(text: str, names: Names) -> list[str]:
    """One text for each addition that *each* stands for, of several hops or at several times; none without the word.

    ``1 oz each Cascade and Centennial @ 60`` is two additions, ``1 oz Cascade each at 60, 30 and 10`` is three.
    """
    if not any("each" in _topics(piece) for piece in cut(text, _HOP, frozenset({"topic"}), of_pages())):
        return []
    hops = [one for one in known_in(text, 0, len(text), names) if one.kind == "hop"]
    texts = [text]
    if len(hops) > 1:
        texts = []
        for kept in hops:
            only = text
            for one in hops:
                only = only if one is kept else _blank(only, one.start, one.end)
            texts.append(only)
    listed = _TIMES().search(text)
    if listed is None:
        return texts if len(texts) > 1 else []
    times = _DIGITS().findall(listed[0])
    return [f"{_blank(one, listed.start(), listed.end())} @ {time}" for one in texts for time in times]


def _with_minutes(text: str) -> str:
    """A bare number behind a hop is minutes before the end of the boil."""
    found = [one for one in cut(text, _HOP, HOP_FIELDS) if isinstance(one, Amount)]
    bare = [one for one in found if one.kind is None]
    if len(bare) != 1 or bare[0] is not found[-1] or len(found) == 1 or any(one.kind is Kind.TIME for one in found):
        return text
    return f"{text[: bare[0].start]}@ {text[bare[0].start :]}"


def _is_time(piece: object) -> bool:
    return isinstance(piece, Amount) and piece.kind is Kind.TIME


def _topics(piece: object) -> set[str]:
    return {one.value for one in piece.meanings if one.field == "topic"} if isinstance(piece, Phrase) else set()


def _taken(text: str, where: "object") -> tuple[str, str]:
    found = where.search(text)  # type: ignore[attr-defined]
    return (text, "") if found is None else (_blank(text, found.start(), found.end()), f"{found[1]} min")


def _fields(found: tuple[Field, ...]) -> dict[str, str]:
    fields = {one.name: value(one.text, _KINDS.get(one.name)) for one in found}
    if fields.get("boil") == "0 min":
        fields["boil"] = "flameout"
    return fields


def _blank(text: str, start: int, end: int) -> str:
    return f"{text[:start]}{' ' * (end - start)}{text[end:]}"


def _read(read: Callable[[str], tuple[Field, ...] | Unclear], text: str) -> tuple[tuple[Field, ...], list[str]]:
    """What the line's reader finds once each piece that is unclear to it is left out, and those pieces."""
    left: list[str] = []
    while isinstance(found := read(text), Unclear):
        if found.start >= found.end or len(left) > _MOST_WORDS:
            return found.fields, left
        left.append(found.text)
        text = _blank(text, found.start, found.end)
    return found, left


def _cleared(
    text: str, kinds: tuple[Kind, ...], fields: frozenset[str], names: Names, kind: str
) -> tuple[str, list[str]]:
    """A text with one run of words left, its name, and the words that were taken away."""
    rests = [piece for piece in cut(text, kinds, fields) if isinstance(piece, Rest)]
    known = [one for rest in rests for one in known_in(text, rest.start, rest.end, names)]
    mine = [one for one in known if one.kind == kind] or known
    keep: tuple[int, int] | None = None
    if mine:
        best = max(mine, key=lambda one: one.end - one.start)
        keep = (best.start, best.end)
    elif rests:
        named = [one for one in rests if not only_grammar(one.text, of_pages())]
        if named:
            longest = max(named, key=lambda one: len(one.text))
            keep = _without_grammar(text, longest)
    left: list[str] = []
    for rest in rests:
        for start, end in _outside(rest, keep):
            part = text[start:end]
            if not only_grammar(part, of_pages()):
                left.append(part.strip())
            text = _blank(text, start, end)
    return text, left


def _outside(rest: Rest, keep: tuple[int, int] | None) -> list[tuple[int, int]]:
    if keep is None or keep[1] <= rest.start or keep[0] >= rest.end:
        return [(rest.start, rest.end)]
    return [one for one in ((rest.start, keep[0]), (keep[1], rest.end)) if one[0] < one[1]]


def _without_grammar(text: str, rest: Rest) -> tuple[int, int]:
    """Where a name stands in a run of words, without words of grammar around it."""
    words = [(found.start(), found.end()) for found in _WORD().finditer(text, rest.start, rest.end)]
    while len(words) > 1 and only_grammar(text[words[0][0] : words[0][1]], of_pages()):
        words = words[1:]
    while len(words) > 1 and only_grammar(text[words[-1][0] : words[-1][1]], of_pages()):
        words = words[:-1]
    return (words[0][0], words[-1][1]) if words else (rest.start, rest.end)


def only_grammar(text: str, table: Table) -> bool:
    """Whether words say nothing by themselves."""
    words = [found.group().casefold().strip(".!?'\"-/").replace("-", " ") for found in _WORD().finditer(text)]
    at = 0
    while at < len(words):
        for count in range(min(5, len(words) - at), 0, -1):
            run = " ".join(words[at : at + count])
            if not run or any(not one.field for one in table.get(run, ())):
                at += count
                break
        else:
            return False
    return True
