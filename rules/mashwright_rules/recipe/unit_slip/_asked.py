"""What is asked behind a number that cannot be meant."""

from mashwright.rule import Say, say
from mashwright.words.sentences import Measure


def is_it(meant: Measure | None) -> Say | None:
    """Whether an ordinary number was meant; None where none is near."""
    return say("is-it", meant=meant) if meant is not None else None
