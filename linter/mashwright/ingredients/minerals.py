"""Brewing salts and acids by the names that brewers give them; what they are made of stands in the science.

Case, hyphens, plurals, American spellings and the order of the words are forgiven, as for grain.
"""

from functools import cache, lru_cache

from mashwright.ingredients.names import normalised, words
from mashwright.words.tokens import words_of

_SALTS = {
    "gypsum": ("gypsum", "calcium sulfate", "calcium sulfate dihydrate", "CaSO4", "burton salts", "plaster"),
    "calcium chloride": ("calcium chloride", "CaCl2", "CaCl", "calcium chloride flakes"),
    "calcium chloride dihydrate": ("calcium chloride dihydrate", "CaCl2 2H2O"),
    "anhydrous calcium chloride": ("anhydrous calcium chloride", "anhydrous CaCl2"),
    "Epsom salt": ("Epsom salt", "epsom", "magnesium sulfate", "magnesium sulfate heptahydrate", "MgSO4"),
    "magnesium chloride": ("magnesium chloride", "magnesium chloride hexahydrate", "MgCl2"),
    "table salt": (
        "table salt", "salt", "sodium chloride", "NaCl", "cooking salt", "kitchen salt", "sea salt", "kosher salt",
        "common salt", "canning salt", "rock salt", "pickling salt",
    ),
    "baking soda": (
        "baking soda", "sodium bicarbonate", "bicarbonate soda", "sodium hydrogen carbonate", "NaHCO3", "bicarb",
    ),
    "washing soda": ("washing soda", "sodium carbonate", "Na2CO3", "soda ash"),
    "chalk": ("chalk", "calcium carbonate", "CaCO3", "precipitated chalk"),
    "slaked lime": ("slaked lime", "calcium hydroxide", "pickling lime", "lime", "hydrated lime", "CaOH2", "Ca(OH)2"),
    "potassium chloride": ("potassium chloride", "KCl"),
}  # fmt: skip
_UNCOUNTED = (
    "potassium metabisulfite", "sodium metabisulfite", "campden", "campden tablet", "metabisulfite", "ascorbic acid",
    "zinc sulfate", "zinc chloride", "zinc", "yeast nutrient", "Irish moss", "vitamin c",
)  # fmt: skip
"""Known, and too little or of no ion that is counted here."""

ACIDULATED_MALT = "acidulated malt"
"""Among the acids, since some write it there; it is counted as malt."""
_ACIDS = {
    "lactic acid": ("lactic acid", "lactic"),
    "phosphoric acid": ("phosphoric acid", "phosphoric", "orthophosphoric acid", "H3PO4"),
    "hydrochloric acid": ("hydrochloric acid", "HCl", "muriatic acid"),
    "sulfuric acid": ("sulfuric acid", "sulphuric acid", "H2SO4", "battery acid", "oil vitriol"),
    "citric acid": ("citric acid", "citric"),
    "tartaric acid": ("tartaric acid", "tartaric"),
    "malic acid": ("malic acid", "malic"),
    ACIDULATED_MALT: ("acidulated malt", "acid malt", "sauermalz", "sour malt"),
}
_LISTED: dict[str, dict[str, tuple[str, ...]]] = {"salts": _SALTS, "acids": _ACIDS}


_BESIDE_SALT = frozenset({
    "salt", "sea", "table", "cooking", "kitchen", "kosher", "common", "rock", "pink", "himalayan", "grey", "gray",
    "smoked", "iodised", "iodized", "coarse", "fine", "ground", "flake", "flaked", "flaky", "pure",
})  # fmt: skip


def salt(name: str) -> str | None:
    """The salt of that name, ``uncounted`` where it is known but brings none of the ions, None where it is not."""
    for text in (name, name.partition("(")[0]):
        key = _key(text)
        if key in _uncounted():
            return "uncounted"
        if (known := _index("salts").get(key)) is not None:
            return known
    return None


def is_kitchen_salt(name: str) -> bool:
    """Whether it is the salt of the kitchen, of whatever grain and colour."""
    said = words_of(name)
    return salt(name) == "table salt" or ("salt" in said and said <= _BESIDE_SALT)


def acid(name: str) -> tuple[str, float | None] | None:
    """The acid of that name with its strength, % by weight, where the name says it; None where it is not known."""
    text, percent = name, None
    if any(letter.isdigit() for letter in name):
        import re

        found = re.search(r"(?<![\d.a-zA-Z])(\d+(?:\.\d+)?)\s*(?:%|per ?cent|$)(?:\s*w/w)?", name)
        if found is not None and 0 < float(found[1]) <= 100:
            percent, text = float(found[1]), name.replace(found[0], " ")
    known = _index("acids").get(_key(text))
    return None if known is None else (known, percent)


@lru_cache(maxsize=1024)  # each remedy that is tried asks again
def nearest(name: str, table: str) -> str | None:
    """The salt or acid that comes nearest to a name that is not known.

    Args:
        name: as a brewer wrote it.
        table: ``salts`` or ``acids``.
    """
    from mashwright.words.nearest import rank

    spellings = ((spelling, known) for known, all_of in _LISTED[table].items() for spelling in all_of)
    return next(iter(rank(name, spellings, 1, normalised)), None)


def listed(table: str) -> dict[str, tuple[str, ...]]:
    """What is known of ``salts`` or ``acids``, each with its spellings; last what is known and not counted."""
    uncounted = dict.fromkeys(_UNCOUNTED, tuple[str, ...]()) if table == "salts" else {}
    return {**_LISTED[table], **uncounted}


def names_of(table: str) -> tuple[str, ...]:
    """All names of ``salts`` or ``acids``."""
    uncounted = _UNCOUNTED if table == "salts" else ()
    return tuple(spelling for all_of in (*_LISTED[table].values(), uncounted) for spelling in all_of)


def _key(name: str) -> frozenset[str]:
    return frozenset(
        word.replace("sulph", "sulf") for word in words(name) if word not in ("food", "grade", "food-grade")
    )


@cache
def _index(table: str) -> dict[frozenset[str], str]:
    return {_key(spelling): known for known, all_of in _LISTED[table].items() for spelling in all_of}


@cache
def _uncounted() -> frozenset[frozenset[str]]:
    return frozenset(map(_key, _UNCOUNTED))
