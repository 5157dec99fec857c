"""A brewer's free text cut into words: the one way in which it is cut.

Small letters, each word in the singular, hyphens and underlines as blanks; a mark stands alone, so that no phrase
reaches over one. ``Goses, well-salted (1.5 g/l)`` becomes ``gose , well salted ( 1.5 g / l )``.
"""

from functools import lru_cache

from mashwright.budgets import NAME_CHARACTERS
from mashwright.patterns import pattern
from mashwright.words.singular import singular

_APOSTROPHES = str.maketrans(dict.fromkeys("\u2019\u02bc\u00b4`", "'") | {"\u00ba": "\u00b0"})
# A number with its point, a word with its apostrophes, a dash between blanks, a line's end, any other mark.
_TOKEN = pattern(r"\d+(?:[.,]\d+)+|[^\W_]+(?:'[^\W_]+)*|(?<!\S)-+(?!\S)|\n|[^\w\s\-\u2010\u2011]")
_COMBINING = pattern("[\u0300-\u036f]")
_WRAPPED = pattern(r"([^\n]{40,})\n(?![ \t]*[\n*\u2022-])")
"""The end of a line so long (judgement) is only where it was wrapped, unless an empty line or an item follows."""
_CLAUSE_END = pattern(r"(?<!\S)[;:,.!?\u2013\u2014\n](?!\S)")
_SENTENCE_END = pattern(r"(?<!\S)[;.!?](?!\S)")
_LONGEST_WORD = 40  # letters of a word that is kept in its common form; judgement


def plain(text: str) -> str:
    """A text as it is compared: its words and marks in order, parted by one blank each."""
    return _kept(text) if len(text) <= NAME_CHARACTERS else _kept_long(text)


def words_of(text: str) -> frozenset[str]:
    """The words of a text, whatever their order: ``Elder leaves`` gives ``elder`` and ``leaf``."""
    return _words_kept(text) if len(text) <= NAME_CHARACTERS else frozenset(in_order(text))


def in_order(text: str) -> list[str]:
    """The words of a text as they follow each other, without its marks."""
    return [token for token in plain(text).split() if token[0].isalnum()]


def written(text: str) -> list[str]:
    """The words of a text in small letters and in the number in which they stand."""
    return [_spelt(token) for token in _tokens(text) if token[0].isalnum()]


def clauses(text: str) -> list[str]:
    """What stands between the marks of a text as ``plain`` gives it; no "not" reaches further."""
    return _CLAUSE_END().split(text)


def sentences(text: str) -> list[str]:
    """The sentences of a text, as ``plain`` gives it."""
    return _SENTENCE_END().split(text)


def _tokens(text: str) -> list[str]:
    folded = text.casefold().translate(_APOSTROPHES)
    if not folded.isascii() and _COMBINING().search(folded) is not None:
        from unicodedata import normalize

        folded = normalize("NFC", folded)
    if "\n" in folded:
        folded = _WRAPPED().sub(r"\1 ", folded)
    return _TOKEN().findall(folded)


def _cut(text: str) -> str:
    return " ".join(_common(token) if len(token) <= _LONGEST_WORD else token for token in _tokens(text))


_kept = lru_cache(maxsize=4096)(_cut)
_kept_long = lru_cache(maxsize=8)(_cut)


@lru_cache(maxsize=4096)
def _words_kept(text: str) -> frozenset[str]:
    return frozenset(in_order(text))


@lru_cache(maxsize=8192)
def _common(token: str) -> str:
    """A token in its common form; a dash as such, so that it is no hyphen."""
    return "\u2013" if token[0] == "-" else singular(_spelt(token))


def _spelt(token: str) -> str:
    """A word without its apostrophes, but for that of a "not"."""
    if "'" not in token or len(token) == 1 or token.endswith("n't"):
        return token
    return token.removesuffix("'s").replace("'", "")
