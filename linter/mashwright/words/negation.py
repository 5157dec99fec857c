"""What a brewer says is not so: "not", "no", "without", "-free"."""

from mashwright.words.tokens import clauses, in_order

_DENYING = frozenset({
    "not", "never", "nor", "cannot", "hardly", "nicht", "kein", "pas", "niet", "ikke", "inte", "nie",
})  # fmt: skip
_LACKING = frozenset({"no", "without", "non", "zero"})
_LEFT_OUT = frozenset({"free", "less", "off", "negative", "removed", "pitted", "stoned", "destemmed"})
"""Beside a thing they say that it is not in there."""
_STEPS = frozenset({"boil", "chill", "sparge", "mash"})
"""A "no" before one of these goes no further: "no boil"."""
_REACH = 4  # words that a "not" takes back: "not meant to be sour"; judgement
_NEAR = 120  # letters that hold so many words; judgement


def taken_back(text: str, start: int) -> bool:
    """Whether one of the last words before a thing, in the same clause, says that it is not so.

    Args:
        text: as ``tokens.plain`` gives it.
        start: where in it the thing stands.
    """
    near = _near(text, start)
    return any(
        denies(word) or (word in _LACKING and not (word == "no" and _goes_no_further(near[at + 1 :])))
        for at, word in enumerate(near)
    )


def claim_taken_back(text: str, start: int) -> bool:
    """The same of a claim to be free of something: "no nuts and gluten-free" takes nothing back, "non" does.

    Args:
        text: as ``tokens.plain`` gives it.
        start: where in it the claim stands.
    """
    near = _near(text, start)
    return near[-1:] == ["non"] or "no longer" in " ".join(near) or any(map(denies, near))


def says_free(text: str, end: int) -> bool:
    """Whether "free" follows a thing, as in "smoke-free".

    Args:
        text: as ``tokens.plain`` gives it.
        end: where in it the thing ends.
    """
    if not text.startswith(" free", end):
        return False
    after = text[end + 5 : end + 11]
    return after[:1] in ("", " ") and not after.startswith((" from ", " of "))


def denies(word: str) -> bool:
    """Whether a word is a "not"."""
    return word in _DENYING or word.endswith("n't")


def lacks(name: str) -> bool:
    """Whether a name says of a thing that it is not in there: "cherries, stones removed", "nut-free"."""
    said = in_order(name)
    return any(
        denies(word)
        or word in _LEFT_OUT
        or (word in _LACKING and not (word == "no" and said[at + 1 : at + 2] and said[at + 1].isdecimal()))
        for at, word in enumerate(said)
    )


def _near(text: str, start: int) -> list[str]:
    last = clauses(text[max(0, start - _NEAR) : start])[-1]
    return [word for word in last.split() if word[0].isalnum()][-_REACH:]


def _goes_no_further(after: list[str]) -> bool:
    """Whether a "no" goes with the word behind it alone: a brew's number, "no boil"."""
    return bool(after) and (after[0].isdecimal() or after[0] in _STEPS)
