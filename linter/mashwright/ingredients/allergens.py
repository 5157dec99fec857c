"""What some drinkers must avoid, by the words that brewers write for it.

Groups as in the lists of allergens that labels must name; written down from memory, as no law was read for it, but for
the gluten cereals: [codex-118] and [ttb-2020-2] name barley, wheat and rye, and their relatives are taken with them.
"""

from functools import lru_cache
from typing import NamedTuple

from mashwright.ingredients.cautions import is_plural, words_of

GLUTEN_CEREALS = frozenset({"barley", "wheat", "rye", "spelt", "emmer", "einkorn", "khorasan", "triticale"})
"""Oats depend on cross-contact and on the country [codex-118] [oats-allergen-wiki]."""


class Group(NamedTuple):
    """One group of allergens, or what is of animals.

    Attributes:
        name: as a claim names it.
        of: what a thing of it comes from, as a message says it.
        words: one of them stands in the name of such a thing.
        unless: words beside which another thing is meant.
        claims: how a claim to be free of it names it.
        told: words that tell a drinker of it.
        must_tell: whether somebody could be hurt who is not told.
        animal: whether it is of animals.
        killed: whether an animal is killed for it, so that vegetarians leave it too.
    """

    name: str
    of: str
    words: frozenset[str]
    unless: frozenset[str]
    claims: tuple[str, ...]
    told: tuple[str, ...]
    must_tell: bool
    animal: bool
    killed: bool

    def behind(self, name: str) -> str:
        """What a thing of that name is made of: ``gelatine comes from animals``, ``oysters are shellfish``."""
        several = is_plural(name)
        if self.name == "shellfish":
            return f"{name} {'are' if several else 'is'} {self.of}"
        return f"{name} {'come' if several else 'comes'} from {self.of}"


_ANIMAL = ("milk", "egg", "shellfish", "fish", "honey", "animal")
_KILLED = ("shellfish", "fish", "animal")


def _group(name: str, of: str, words: str, unless: str = "", told: str = "", *, must_tell: bool = True) -> Group:
    claims = (name, f"{name}s", *told.split())
    said = (name, *told.split(), "allerg")
    animal, killed = name in _ANIMAL, name in _KILLED
    return Group(name, of, frozenset(words.split()), frozenset(unless.split()), claims, said, must_tell, animal, killed)


GROUPS: tuple[Group, ...] = (
    _group(
        "milk",
        "milk",
        "lactose milk whey cream casein butter buttermilk yoghurt yogurt kefir ghee curd",
        "coconut oat almond soy soya rice thistle cocoa cacao peanut nut shea tartar hemp ale cashew",
        "lactose dairy",
    ),
    _group(
        "nut",
        "nuts",
        "nut peanut almond hazelnut walnut pecan cashew pistachio macadamia praline marzipan nougat",
        "brown tiger wood leaf oak",
    ),
    _group("egg", "eggs", "egg eggs albumen albumin", "nog plant fruit"),
    _group(
        "shellfish",
        "shellfish",
        "oyster mussel crab lobster shrimp prawn clam scallop",
        "mushroom apple",
        "oyster mussel crab lobster",
    ),
    _group("soy", "soya", "soy soya soybean tofu miso"),
    _group("sesame", "sesame", "sesame tahini"),
    _group("mustard", "mustard", "mustard"),
    _group("celery", "celery", "celery celeriac"),
    _group("lupin", "lupins", "lupin lupine"),
    _group("fish", "fish", "isinglass fish anchovy", must_tell=False),
    _group("honey", "bees", "honey beeswax propolis", "malt type", must_tell=False),
    _group(
        "animal",
        "animals",
        "gelatin gelatine carmine cochineal bacon chicken meat beef ham lard shellac bone collagen",
        "vegan plant pod",
        must_tell=False,
    ),
)
SULFITES = frozenset({"metabisulfite", "metabisulphite", "campden", "sulfite", "sulphite", "bisulfite", "bisulphite"})


@lru_cache(maxsize=4096)
def groups_of(name: str) -> tuple[Group, ...]:
    """The groups that a thing of that name belongs to."""
    said = words_of(name)
    if said.isdisjoint(_triggers()):
        return ()
    return tuple(group for group in GROUPS if said & group.words and not said & group.unless)


def is_sulfite(name: str) -> bool:
    """Whether a thing of that name gives sulfite."""
    return not SULFITES.isdisjoint(words_of(name))


@lru_cache(maxsize=1)
def _triggers() -> frozenset[str]:
    return frozenset().union(*(group.words for group in GROUPS))
