"""Findings and figures put into words and documents; each form is loaded when it is asked for."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from typing import TextIO

    from mashwright.reviewing.results import Review


def written(form: str, review: "Review") -> str:
    """A whole review as one document; text, which is made recipe by recipe, is in ``reporting.text``.

    Args:
        form: ``json`` or ``sarif``.
        review: what to write.

    Raises:
        KeyError: no document form has that name.
    """
    from mashwright.reporting.machine import dump

    if form == "json":
        from mashwright.reporting.machine import review_document

        return dump(review_document(review))
    if form == "sarif":
        from mashwright.reporting.sarif import sarif_log

        return dump(sarif_log(review), depth=4)
    raise KeyError(form)


def write(form: str, review: "Review", out: "TextIO") -> None:
    """Write a whole review into an open file; otherwise as ``written``."""
    out.write(written(form, review))
