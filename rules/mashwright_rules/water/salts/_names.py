"""What each salt and acid is by its name: whether it is known, how it is measured, and whether it can hurt somebody."""

from collections.abc import Iterator

from mashwright.ingredients.minerals import ACIDULATED_MALT
from mashwright.ingredients.minerals import acid as known_acid
from mashwright.ingredients.minerals import nearest as nearest_mineral
from mashwright.ingredients.minerals import salt as known_salt
from mashwright.measures import Kind
from mashwright.recipe.model import Amount
from mashwright.rule import Finding, Level, say
from mashwright.words.vocabulary import mentions

_WEIGHED = ("citric acid", "tartaric acid", "malic acid")
_CAUSTIC = ("slaked lime", "washing soda")


def named_salt(amount: Amount, *, guess: bool) -> Iterator[Finding]:
    """What is to be said of a salt by its name alone.

    Args:
        amount: of it.
        guess: whether to look for a name that may be meant.
    """
    name, known = amount.name, known_salt(amount.name)
    if known is None:
        yield _unknown(amount, "salts", guess=guess)
    elif amount.quantity.known and amount.quantity.kind is Kind.VOLUME and known != "uncounted":
        sentence = "is-weighed-or-dissolved" if known == "calcium chloride" else "is-weighed"
        yield Finding(amount.path, Level.WARNING, say(sentence, name=name, amount=amount.quantity), gap=1.0)
    elif known in _CAUSTIC and (not amount.quantity.known or amount.quantity.range.high > 0):
        yield Finding(amount.path, Level.NOTE, say("caustic", name=name))


def named_acid(amount: Amount, strong_percent: float, *, guess: bool) -> Iterator[Finding]:
    """What is to be said of an acid by its name alone.

    Args:
        amount: of it.
        strong_percent: phosphoric acid above this burns, %.
        guess: whether to look for a name that may be meant.
    """
    name = amount.name
    found = known_acid(name)
    if mentions("poison-acid", "ingredient", name):
        yield Finding(amount.path, Level.ERROR, say("poison", name=name), gap=1.0)
        return
    if found is None:
        yield _unknown(amount, "acids", guess=guess)
        return
    known, percent = found
    if known == ACIDULATED_MALT:
        return
    if amount.quantity.known and amount.quantity.kind is Kind.VOLUME and known in _WEIGHED:
        yield Finding(amount.path, Level.WARNING, say("acid-is-weighed", name=name, amount=amount.quantity), gap=1.0)
    phosphoric = known == "phosphoric acid"
    if mentions("no-food-acid", "ingredient", name):
        yield Finding(amount.path, Level.ERROR, say("no-food", name=name), gap=1.0)
    elif phosphoric and percent is None:
        yield Finding(amount.path, Level.NOTE, say("which-strength", name=name).and_then(say("with-care")))
    elif known in ("hydrochloric acid", "sulfuric acid") or (phosphoric and (percent or 0) > strong_percent):
        yield Finding(amount.path, Level.NOTE, say("strong-acid", name=name).and_then(say("care")))


def _unknown(amount: Amount, table: str, *, guess: bool) -> Finding:
    """A name that is none of the table's: it stands in the wrong place, is misspelt, or nobody knows it."""
    name = amount.name
    if table == "salts" and known_acid(name):
        return Finding(amount.path, Level.WARNING, say("is-an-acid", name=name))
    if table == "acids" and known_salt(name):
        return Finding(amount.path, Level.WARNING, say("is-a-salt", name=name))
    other = "acids" if table == "salts" else "salts"
    near = (nearest_mineral(name, table) or nearest_mineral(name, other)) if guess else None
    if near is not None:
        message = say("unknown", name=name).and_then(say("did-you-mean", meant=near))
    else:
        message = say("unknown-salt" if table == "salts" else "unknown-acid", name=name)
    return Finding(amount.path, Level.WARNING, message, gap=1.0)
