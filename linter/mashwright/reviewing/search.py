"""Looking for a name among all that is known: whole names, names that have its words, and the nearest ones."""

from collections.abc import Iterator
from typing import NamedTuple

from mashwright.ingredients.lookup import nearest
from mashwright.ingredients.minerals import nearest as nearest_mineral
from mashwright.ingredients.names import normalised, words
from mashwright.ingredients.slips import known_as, slips, with_words
from mashwright.reviewing.catalogue import KINDS, Known
from mashwright.words.nearest import close
from mashwright.words.tokens import written

_TABLES = {
    "malts": ("fermentables",), "sugars": ("fermentables",), "fruit": ("fermentables",), "hops": ("hops",),
    "yeasts": ("yeasts",), "enzymes": ("enzymes",), "salts": ("salts", "acids"), "styles": ("styles",), "units": (),
}  # fmt: skip
_WITH_NEAREST = ("fermentables", "hops", "yeasts", "styles")
_ALIKE = 0.75  # of the letters of a name that may be meant; judgement
_MOST_NEAR = 5
_SHORT_UNIT = 2  # letters of a unit that is a slip of nothing; judgement


class Search(NamedTuple):
    """What was found for a word.

    Attributes:
        whole: what has exactly that name.
        others: what has all its words, or words that begin so, in one of its names.
        near: names that come near, each with its kind; only where nothing else was found.
    """

    whole: tuple[Known, ...]
    others: tuple[Known, ...]
    near: tuple[tuple[str, str], ...]


def search(word: str, listed: tuple[Known, ...]) -> Search:
    """Look for a name.

    Args:
        word: one word or several, however they are written.
        listed: all that is gone through.
    """
    whole = tuple(one for one in listed if _is_it(word, one))
    whole = tuple(one for one in whole if one.own) or whole  # which a recipe here means
    begun = words(word)
    others = tuple(one for one in listed if one not in whole and begun and _has(begun, one))
    near = () if whole or others else tuple(_near(word, listed))[:_MOST_NEAR]
    return Search(whole, others, near)


def kind_named(word: str) -> str:
    """The kind that a word names, in whatever number; "" where it names none."""
    said = normalised(word)
    named = {normalised(kind): kind for kind in KINDS}
    return named.get(said, "") or _OTHER_WORDS.get(said, "")


_OTHER_WORDS = {
    "grain": "malts", "extract": "sugars", "syrup": "sugars", "acid": "salts", "water": "salts", "culture": "yeasts",
}  # fmt: skip


def _is_it(word: str, one: Known) -> bool:
    names = {normalised(name) for name in (one.name, *one.also)}
    if one.kind == "units":
        return word in (one.name, *one.also) or word.casefold() == one.name.casefold()
    if (said := normalised(word)) in names and said:
        return True
    return not one.own and any(known_as(word, table) == one.name for table in _TABLES[one.kind])


def _has(begun: frozenset[str], one: Known) -> bool:
    """Whether one of its names has all the words, each whole or as the beginning of one."""
    if one.kind == "units":
        texts = (one.name, *(value.what for value in one.values))
        return any(said in written(text) for said in begun if len(said) > 1 for text in texts)
    names = [words(name) for name in (one.name, *one.also)]
    return any(all(any(word.startswith(said) for word in name) for said in begun) for name in names)


def _near(word: str, listed: tuple[Known, ...]) -> Iterator[tuple[str, str]]:
    """Names that may be meant, the likest first."""
    tables = dict.fromkeys((table, one.kind) for one in listed for table in _TABLES[one.kind])
    found = [(kind, name) for table, kind in tables for name in _near_in(word, table) if _listed(name, kind, listed)]
    own = [(one.kind, name) for one in listed if one.own for name in (one.name, *one.also)]
    units = [("units", one.name) for one in listed if one.kind == "units" and len(one.name) > _SHORT_UNIT]
    alike = {name for _, name in close(word, [name for _, name in (*own, *units)], _ALIKE)}
    pairs = dict.fromkeys([*found, *(pair for pair in (*own, *units) if pair[1] in alike)])
    order = {name: -likeness for likeness, name in close(word, [name for _, name in pairs], 0.0)}
    return iter(sorted(pairs, key=lambda pair: order.get(pair[1], 0.0)))


def _near_in(word: str, table: str) -> list[str]:
    """Names of one table: of which it is a slip in a word, that have its words put right, or that are alike."""
    meant = list(slips(word, table)) or list(with_words(word, table))
    if table in _WITH_NEAREST:
        alike: tuple[str, ...] = nearest(word, table)
    else:
        mineral = nearest_mineral(word, table) if table in ("salts", "acids") else None
        alike = (mineral,) if mineral is not None else ()
    return [*meant, *(name for _, name in close(word, alike, _ALIKE))]


def _listed(name: str, kind: str, listed: tuple[Known, ...]) -> bool:
    """Whether a name is of what is listed under a kind, so that one of the grist is told once."""
    return any(one.kind == kind and _is_it(name, one) for one in listed)
