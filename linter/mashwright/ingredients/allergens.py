"""What some drinkers must avoid, by the words that brewers write for it; the table is allergens.csv, edited by hand.

A row is ``name,of,words,unless,told,flags,source``. Words are alternatives, parted by a slash; where one has several
words, all of them stand in the name. Groups as in the lists of allergens that labels must name: peanuts are no nuts,
and molluscs no crustaceans. Most was written down from memory; the gluten cereals are those of [codex-118] and
[ttb-2020-2] with their relatives.
"""

from functools import cache, lru_cache
from typing import NamedTuple

from mashwright.ingredients.kinds import Cereal
from mashwright.ingredients.tables import lines
from mashwright.words.plurals import is_plural
from mashwright.words.tokens import words_of
from mashwright.words.vocabulary import mentions

GLUTEN_CEREALS = frozenset({"barley", "wheat", "rye", "spelt", "emmer", "einkorn", "khorasan", "triticale"})
"""Oats depend on cross-contact and on the country [codex-118] [oats-allergen-wiki]."""
_NO_GLUTEN = frozenset({"rice", "sorghum", "millet", "maize", "corn", "buckwheat"})


class Group(NamedTuple):
    """One group of allergens, or what is of animals.

    Attributes:
        name: as a claim names it.
        of: what a thing of it comes from, as a message says it.
        words: one of them stands in the name of such a thing, all its words if it has several.
        unless: words beside which another thing is meant.
        claims: how a claim to be free of it names it.
        told: words that tell a drinker of it.
        must_tell: whether somebody could be hurt who is not told.
        animal: whether it is of animals.
        killed: whether an animal is killed for it, so that vegetarians leave it too.
        source: a key of the bibliography.
    """

    name: str
    of: str
    words: tuple[frozenset[str], ...]
    unless: frozenset[str]
    claims: tuple[str, ...]
    told: tuple[str, ...]
    must_tell: bool
    animal: bool
    killed: bool
    source: str

    @property
    def own_words(self) -> frozenset[str]:
        """The single words of such things."""
        return frozenset(word for one in self.words if len(one) == 1 for word in one)

    def holds(self, name: frozenset[str]) -> bool:
        """Whether a thing whose name has these words is of the group."""
        return name.isdisjoint(self.unless) and any(one <= name for one in self.words)

    def behind(self, name: str) -> str:
        """What a thing of that name is made of: ``gelatine comes from animals``, ``oysters are molluscs``."""
        several = is_plural(name)
        if self.name in _KINDS_OF_ANIMAL:
            return f"{name} {f'are {self.of}' if several else f'is a {self.name}'}"
        return f"{name} {'come' if several else 'comes'} from {self.of}"


_KINDS_OF_ANIMAL = ("crustacean", "mollusc")


@cache
def groups() -> tuple[Group, ...]:
    """The whole table."""
    found = []
    for line in lines("allergens"):
        name, of, words, unless, told, flags, source = line.split(",")
        tells = tuple(dict.fromkeys((name, *told.split())))
        nut = ("nut", "nuts") if name.endswith("nut") else ()  # whoever claims "nut-free" is believed of peanuts too
        found.append(
            Group(
                name,
                of,
                tuple(frozenset(one.split()) for one in words.split("/")),
                frozenset(unless.split()),
                tuple(dict.fromkeys((name, f"{name}s", *tells, *nut))),
                tells,
                "tell" in flags.split(),
                "animal" in flags.split(),
                "killed" in flags.split(),
                source,
            )
        )
    return tuple(found)


@lru_cache(maxsize=4096)
def groups_of(name: str) -> tuple[Group, ...]:
    """The groups that a thing of that name belongs to."""
    words = words_of(name)
    if words.isdisjoint(_triggers()):
        return ()
    return tuple(group for group in groups() if group.holds(words))


def cereal_named(name: str) -> str:
    """A gluten cereal or oats that a name holds, malt by itself being of barley; else nothing."""
    said = words_of(name)
    if named := sorted(said & (GLUTEN_CEREALS | {Cereal.OAT})):
        return named[0]
    return Cereal.BARLEY if "malt" in said and said.isdisjoint(_NO_GLUTEN) else ""


def is_sulfite(name: str) -> bool:
    """Whether a thing of that name gives sulfite."""
    return mentions("sulfite", "ingredient", name)


@cache
def _triggers() -> frozenset[str]:
    return frozenset(word for group in groups() for one in group.words for word in one)
