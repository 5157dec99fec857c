"""Names as brewers write them, brought to one form.

Forgiven: case, accents, hyphens, apostrophes, plurals, the order of the words, British and American words, ``2-row``
for ``two-row``, a unit glued to a number (``60L``). What is left is the set of the words, in a fixed order, so that two
ways to write one name give one key. Crystal and caramel stay apart here, since *pale crystal* and *pale caramel* are
sold at different colours; looking up takes one for the other where only one is listed.
"""

from functools import lru_cache
from itertools import pairwise

from mashwright.words.singular import singular
from mashwright.words.tokens import written

_COMMON = {
    # the spellings of one word
    "caramelised": "caramel", "caramelized": "caramel", "husk": "hull", "husked": "dehusked", "candy": "candi",
    "pils": "pilsner", "pilsen": "pilsner", "pilsener": "pilsner", "torrified": "torrefied", "dextrine": "dextrin",
    "melanoidine": "melanoidin", "tef": "teff", "sirup": "syrup", "choc": "chocolate", "blond": "blonde",
    "pregelatinized": "pregelatinised", "roast": "roasted", "toast": "toasted", "smoke": "smoked", "flake": "flaked",
    "rowed": "row", "malted": "malt", "malz": "malt", "dried": "dry", "wiener": "vienna", "munchner": "munich",
    "munchener": "munich", "flemish": "flanders", "hallertauer": "hallertau", "spalter": "spalt",
    "tettnanger": "tettnang", "dunkler": "dunkel", "dunkles": "dunkel", "heller": "helles", "lite": "light",
    # two words for one thing
    "corn": "maize", "color": "colour", "rolled": "flaked", "unmalted": "raw", "micronised": "torrefied",
    "micronized": "torrefied", "puffed": "torrefied", "popped": "torrefied", "debittered": "dehusked", "juicy": "hazy",
    "english": "british", "uk": "british", "us": "american", "usa": "american",
    "two": "2", "six": "6", "i": "1", "ii": "2",
    # short forms and words written as one
    "dme": "dry malt extract", "lme": "liquid malt extract", "barleywine": "barley wine", "wheatwine": "wheat wine",
    "ipa": "india pale ale", "undermodified": "under modified", "mt": "mount",
    # words that add nothing beside a number or a name
    "l": "", "lovibond": "", "deg": "", "degree": "", "no": "",
    "de": "", "the": "", "of": "", "a": "", "and": "", "or": "",
}  # fmt: skip


@lru_cache(maxsize=4096)
def normalised(name: str) -> str:
    """The key of a name: its words without what brewers vary, sorted; empty if nothing is left."""
    return " ".join(sorted(words(name)))


def words(name: str) -> frozenset[str]:
    """The words behind a name's key."""
    plain = " ".join(written(name))
    if not plain.isascii():
        plain = _without_accents(plain)
    plain = plain.replace("oe", "o").replace("ue", "u").replace("ae", "a")
    if not plain.replace(" ", "").isalpha():
        plain = _parted(plain)
    return frozenset(" ".join(map(_word, plain.split())).split())


def _word(word: str) -> str:
    """One word in its common form; it may become several, or none."""
    if (same := _COMMON.get(word)) is not None:
        return same
    single = singular(word)
    return _COMMON.get(single, single)


def _parted(text: str) -> str:
    """Numbers and letters that touch, as in ``60l`` or ``c10``, set apart."""
    parted = text[:1]
    for before, letter in pairwise(text):
        parted += f" {letter}" if before.isdigit() != letter.isdigit() else letter
    return parted


def _without_accents(text: str) -> str:
    from unicodedata import combining, normalize

    folded = text.replace("ł", "l").replace("ø", "o")
    return "".join(letter for letter in normalize("NFKD", folded) if not combining(letter))
