"""Nouns brought to the singular, by their endings alone."""

_S_OF_ONE = frozenset({
    "molasses", "species", "series", "gas", "christmas", "ananas", "pampas", "copperas", "sassafras",
})  # fmt: skip
_ENDINGS = (("leaves", "leaf"), ("ies", "y"), ("oes", "o"), ("shes", "sh"), ("ches", "ch"))


def singular(word: str) -> str:
    """A word without the ending of its plural: ``leaf`` of ``leaves``; ``hibiscus`` and ``gas`` stay.

    Args:
        word: in small letters.
    """
    if len(word) <= 3 or not ends_as_several(word):
        return word
    for ending, instead in _ENDINGS:
        if word.endswith(ending):
            return word[: -len(ending)] + instead
    return word[:-1]


def ends_as_several(word: str) -> bool:
    """Whether a word ends as a plural does; ``hibiscus`` and ``molasses`` do not.

    Args:
        word: in small letters.
    """
    return word[-1:] == "s" and not word.endswith(("ss", "us", "is", "myces")) and word not in _S_OF_ONE
