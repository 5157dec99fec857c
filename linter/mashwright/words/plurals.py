"""The grammar of our own sentences: one or several, "a" or "an", and names in a row."""

import re
from collections.abc import Sequence
from functools import lru_cache

from mashwright.patterns import pattern
from mashwright.words.singular import ends_as_several
from mashwright.words.tokens import written

_PLURAL_WITHOUT_S = frozenset({"fungi", "bacteria", "algae", "cacti", "geese"})
_AFTER_THE_NOUN = frozenset({"raw", "fresh", "whole", "ground", "frozen", "wild", "ripe", "unripe", "green"})
_AFTER_THE_HEAD = pattern(r"[,;:(\[]|\s(?:of|in|with|without|from|for|to|at|by|on|off)\s")
_TO_AGREE = pattern(r"\{(\w+)\}")
_OF_SEVERAL = {"it": "they", "them": "them", "its": "their", "is": "are", "was": "were", "has": "have", "does": "do"}


@lru_cache(maxsize=4096)
def is_plural(name: str) -> bool:
    """Whether a brewer says "they" of a thing: of ``elder leaves, dried``, and not of ``oil of cloves``."""
    head = written(_AFTER_THE_HEAD().split(name.strip().casefold(), maxsplit=1)[0])
    while len(head) > 1 and _after_the_noun(head[-1]):
        head.pop()
    if not head:
        return False
    if "and" in head[1:-1]:  # two things, not "sweet and bitter orange peel"
        first = head[: head.index("and")]
        return len(head) == 3 or _names_several(first[-1]) or _names_several(head[-1])
    return _names_several(head[-1])


def _names_several(noun: str) -> bool:
    return ends_as_several(noun) or noun in _PLURAL_WITHOUT_S


def _after_the_noun(word: str) -> bool:
    participle = word.endswith("ed") and not word.endswith("eed")
    return participle or word in _AFTER_THE_NOUN or not any(map(str.isalpha, word))


def agreed(text: str, *, plural: bool) -> str:
    """A sentence that is written of one thing, of one or of several: ``{it} {holds}`` as "it holds" or "they hold"."""

    def word(found: re.Match[str]) -> str:
        one = found[1]
        if plural:
            return _OF_SEVERAL.get(one) or _plural_verb(one)
        return "it" if one == "them" else one

    return _TO_AGREE().sub(word, text)


def _plural_verb(verb: str) -> str:
    return f"{verb[:-3]}y" if verb.endswith("ies") else verb[:-1]


def counted(count: int, one: str, several: str = "") -> str:
    """A count with its noun: ``1 recipe``, ``2 recipes``."""
    return f"{count} {one if count == 1 else several or one + 's'}"


def with_article(noun: str) -> str:
    """A noun with its article: ``a weight``, ``an oxygen rate``."""
    return f"{'an' if noun[:1].casefold() in 'aeiou' else 'a'} {noun}"


def possessive(noun: str) -> str:
    """What is of a thing or of several: ``the keg's``, ``the bottles'``, without the article."""
    return f"{noun}'" if noun.endswith("s") else f"{noun}'s"


def with_noun(name: str, noun: str) -> str:
    """A name with its noun behind it, unless it ends with that: ``Fuggle hops``, ``aged hops``."""
    return name if written(name)[-1:] == [noun] else f"{name} {noun}"


def in_a_row(names: Sequence[str], last: str = "and") -> str:
    """Names as a sentence has them: ``wheat``, ``wheat and rye``, ``wheat, rye and oats``."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {last} {names[-1]}"
