"""What a brewer says is meant: a sour beer, one that is not boiled; by whole words, those taken back left out."""

import re
from functools import lru_cache

from mashwright.brew.brew import Brew
from mashwright.brew.once import once
from mashwright.finding import Path
from mashwright.ingredients.lookup import style as look_up_style
from mashwright.ingredients.lookup import yeast as look_up_yeast

_WORD = re.compile(r"[^\W_]+(?:['\u2019][^\W_]+)?")
_APART = str.maketrans(dict.fromkeys("-_\u2010\u2011", " "))
_CLAUSE_ENDS = re.compile(r"[;:,.!?\n]")
_NEGATING = frozenset({"not", "never", "nor", "cannot", "hardly", "no", "without", "non"})
_NO_SUCH_STEP = frozenset({"boil", "chill", "sparge", "mash"})
_NEAR = 80  # letters that hold so many words; judgement
_REACH = 3  # words that a "not" takes back: "not a very sour beer"; judgement

# A beer of these is sour wherever it is named.
_SOUR_BEERS = (
    *("berliner", "lichtenhain", "lichtenhainer", "gose", "goses", "lambic", "lambics", "lambiek", "gueuze", "geuze"),
    *("oud bruin", "soured", "souring", "sourdough"),
)
# These say it in a style, where a name may say anything: "Acid Rain", "Wild Wood", "Road to Berlin".
_SOUR_STYLES = ("berlin", "flanders", "wild", "acid", "acidic", "sours")
_SOUR_FRUIT = frozenset({"cherry", "cherries", "orange", "oranges", "plum", "plums", "apple", "apples", "grapes"})
# Notes tell of much that is sour; only of these things does it speak of the beer.
_SOUR_THINGS = ("sour beer", "sour ale", "sour wort", "sour mash", "kettle sour", "sour style", "sour culture")
_SOURING = re.compile(r"lacto|lactobac\w*|lactic|pedio|pedioc\w*|bacteri\w*|sour|soured|souring|sourdough")

_RAW_BEERS = (
    *("råøl", "keptinis", "sahti", "gose", "kvass", "gotlandsdricka", "koduõlu", "farmhouse", "kveik"),
    *("historic", "historical", "historically", "unboiled"),
)
_PLAINLY_RAW = ("raw ale", "raw ales", "raw beer", "råøl", "koduõlu", "unboiled")
_RAW_THINGS = frozenset({"wheat", "barley", "rye", "oats", "maize", "corn", "rice", "spelt", "grain", "grains"})
_RAW_THINGS |= {"honey", "sugar", "cane", "cocoa", "cacao", "milk"}
_NO_BOIL = re.compile(r"\b(?:no|not|not be|never|without|without a|without any)[ -]boil(?:s|ed|ing)?\b(?![ -]?over)")


_PARTI_GYLE = (
    *("parti gyle", "partigyle", "party gyle", "small beer", "small ale", "first runnings", "second runnings"),
    *("third runnings", "last runnings", "later runnings", "second wort", "second mash"),
)
_TURBID = ("lambic", "lambics", "lambiek", "gueuze", "geuze", "turbid", "turbid mash", "turbid mashing")


def said_of(text: str, *spellings: str) -> bool:
    """Whether one of these words, or of these words in a row, stands in a text and is not taken back by a "not"."""
    plain = _plain(text)
    return any(not _taken_back(plain, found.start()) for found in _pattern(spellings).finditer(plain))


@lru_cache(maxsize=64)
def _pattern(spellings: tuple[str, ...]) -> re.Pattern[str]:
    """Whole words, whatever spaces stand between them."""
    spaced = "|".join(r"\s+".join(map(re.escape, one.split())) for one in spellings)
    return re.compile(rf"\b(?:{spaced})\b")


def _plain(text: str) -> str:
    return text.casefold().translate(_APART)


def _taken_back(plain: str, at: int) -> bool:
    """Whether one of the last words before a place, in the same clause, takes back what stands there."""
    clause = _CLAUSE_ENDS.split(plain[max(0, at - _NEAR) : at])[-1]
    near = _WORD.findall(clause)[-_REACH:]
    return any(
        word.endswith(("n't", "n\u2019t")) or (word in _NEGATING and not (word == "no" and _is_ended(near[at + 1 :])))
        for at, word in enumerate(near)
    )


def _is_ended(after: list[str]) -> bool:
    """Whether a "no" goes with the word behind it and no further: a brew's number, "no boil"."""
    return bool(after) and (after[0].isdecimal() or after[0] in _NO_SUCH_STEP)


def sours(kind: str) -> bool:
    """Whether a culture of this kind turns a wort sour, by the tables or by its words."""
    known = look_up_yeast(kind) if kind else None
    if known is not None:
        return "Lactobacillus" in known.species or "lactic" in known.species
    return any(_SOURING.fullmatch(word) for word in _WORD.findall(_plain(kind)))


@once
def meant_sour(brew: Brew) -> bool:
    """Whether a sour beer is meant: by its style, its name, its notes or a culture that sours."""
    recipe = brew.recipe
    if any(sours(yeast.kind) for yeast in recipe.yeast):
        return True
    listed = look_up_style(recipe.style) if recipe.style else None
    styles = (recipe.style, listed.name if listed is not None else "")
    if any(said_of(text, *_SOUR_BEERS, *_SOUR_STYLES) or _plainly(text, "sour", _SOUR_FRUIT) for text in styles):
        return True
    if said_of(recipe.name, *_SOUR_BEERS) or _plainly(recipe.name, "sour", _SOUR_FRUIT):
        return True
    return said_of(recipe.notes, *_SOUR_BEERS, *_SOUR_THINGS)


def _plainly(text: str, wanted: str, of_other_things: frozenset[str]) -> bool:
    """Whether a word speaks of the beer: not of what follows it, as in sour cherries or raw wheat."""
    plain = _plain(text)
    return any(
        found[1] not in of_other_things and not _taken_back(plain, found.start())
        for found in re.finditer(rf"\b{wanted}\b(?:\s+(\w+))?", plain)
    )


def meant_raw(brew: Brew) -> bool:
    """Whether a beer is meant that is brewed without a boil: raw ale, an old one, or a sour one of that kind."""
    recipe = brew.recipe
    texts = (recipe.name, recipe.style, recipe.notes, *(yeast.kind for yeast in recipe.yeast))
    return any(_tells_raw(text) for text in texts if text) or meant_sour(brew)


def said_unboiled(brew: Brew) -> Path | None:
    """Where name, style or notes say plainly that the wort is not boiled."""
    recipe = brew.recipe
    for path, text in (
        (recipe.name.path, recipe.name),
        (recipe.style.path, recipe.style),
        (recipe.notes.path, recipe.notes),
    ):
        if text and (said_of(text, *_PLAINLY_RAW) or _NO_BOIL.search(text.casefold()) is not None):
            return path
    return None


def meant_parti_gyle(brew: Brew) -> bool:
    """Whether the grist gives more than this one beer: a small beer of later runnings, or a strong one of the first."""
    recipe = brew.recipe
    return any(said_of(text, *_PARTI_GYLE) for text in (recipe.name, recipe.style, recipe.notes))


def meant_turbid(brew: Brew) -> bool:
    """Whether a turbid mash is meant, as of lambic: its bed ends, and is sparged, hotter than others by custom."""
    recipe = brew.recipe
    return any(said_of(text, *_TURBID) for text in (recipe.name, recipe.style, recipe.notes))


def _tells_raw(text: str) -> bool:
    return (
        said_of(text, *_RAW_BEERS) or _plainly(text, "raw", _RAW_THINGS) or _NO_BOIL.search(text.casefold()) is not None
    )
