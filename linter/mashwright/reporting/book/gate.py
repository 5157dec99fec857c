"""The one gate through which text comes into a page: all of it can be seen, and none of it is markup."""

from markupsafe import Markup

from mashwright.printable import harmless


def shown(text: str) -> str:
    """A text in which all can be seen; its line ends stay."""
    if text.isascii() and text.isprintable():
        return text
    return "\n".join(map(harmless, text.split("\n")))


def finalize(value: object) -> object:
    """What a template puts in: a text as it may be shown, a picture as it is.

    Raises:
        TypeError: nothing to show; a template tests for that itself.
    """
    if isinstance(value, Markup):
        return value
    if isinstance(value, str):
        return shown(value)
    if isinstance(value, int | float) and not isinstance(value, bool):
        return value
    raise TypeError(f"a template shows {type(value).__name__}, which is no text")
