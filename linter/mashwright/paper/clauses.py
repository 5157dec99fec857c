"""A line of a page cut into sentences, and sentences into clauses, each with its place in the line."""

from typing import NamedTuple

from mashwright.patterns import pattern


class Clause(NamedTuple):
    """A piece of a line between two commas, or what stands for one.

    Attributes:
        text: as it stands in the line.
        start: its place in the line.
        sentence: the number of the sentence that it is of.
        joined: whether a word like *and* stands in front of it.
    """

    text: str
    start: int
    sentence: int
    joined: bool

    @property
    def end(self) -> int:
        """Its end in the line."""
        return self.start + len(self.text)


_JOINS = "and|plus|with|und|mit|sowie|et|avec|en|met|og|med|samt|pluss"
_MORE = r"ca\.? |about |another |a further |noch |nog |yderligere |encore "
_PART = pattern(
    r"(?P<strong>;|(?<=[^\d\W]{2})[.!?](?=\s)|(?<=[\d)%])\.(?=\s+[^\W\da-z])| -- )"
    r"|(?P<weak>,(?!\d)|(?<=\D),|\||\s[-–—/]\s|:(?=\s|$))"
    rf"|(?P<joined>\s\+\s?(?=\d)|\s&\s|\s(?:{_JOINS})\s(?=(?:{_MORE})?(?:\d|[½¼¾]))"
    r"|\s(?:then|dann|puis|dan|så|derefter|deretter|daarna|danach)\s)",
)
_SHORT = frozenset((
    "ca", "approx", "abt", "dr", "nr", "no", "st", "ct", "env", "incl", "inkl", "bzw", "vol", "orig", "inc", "alc",
    "alk", "pkt", "pkg", "lbs", "lb", "oz", "gal", "qt", "pt", "fl", "tsp", "tbsp", "kg", "g",
))  # fmt: skip
"""Words written short, behind which a name may stand."""
_SHORT_AT_END = frozenset((
    "min", "mins", "max", "std", "sec", "secs", "hr", "hrs", "l", "ml", "temp", "resp", "pkts", "h", "d", "tg",
))  # fmt: skip
"""Words written short, behind which a sentence may end."""


def clauses(text: str) -> list[Clause]:
    """The clauses of a line in their order; together they hold all of it but what parts them."""
    found: list[Clause] = []
    start, sentence, joined = 0, 0, False
    for part in _PART().finditer(text):
        if part["strong"] and part["strong"] in ".!?" and _is_short(text[: part.start()], text[part.end() :].lstrip()):
            continue
        _add(found, text, start, part.start(), sentence, joined=joined)
        start, joined = part.end(), part["joined"] is not None
        sentence += part["strong"] is not None
    _add(found, text, start, len(text), sentence, joined=joined)
    return found


def _add(found: list[Clause], text: str, start: int, end: int, sentence: int, *, joined: bool) -> None:
    piece = text[start:end]
    start += len(piece) - len(piece.lstrip())
    piece = piece.strip().rstrip(".!?").rstrip()
    if piece:
        found.append(Clause(piece, start, sentence, joined))


def _is_short(before: str, after: str) -> bool:
    """Whether the full stop behind a text is that of a word written short."""
    word = before.rsplit(maxsplit=1)[-1].strip("(),").casefold() if before.split() else ""
    word = word.lstrip("0123456789./")
    return word in _SHORT or (word in _SHORT_AT_END and not after[:1].isupper())
