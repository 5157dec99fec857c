"""Findings and figures put into words and documents; each form is loaded when it is asked for."""

from typing import TYPE_CHECKING

from mashwright.printable import publish

if TYPE_CHECKING:
    from typing import TextIO

    from mashwright.reviewing.results import Review


def written(form: str, review: "Review") -> str:
    """A whole review as one document; text, which is made recipe by recipe, is in ``reporting.text``.

    Args:
        form: ``json``, ``sarif``, ``junit`` or ``markdown``.
        review: what to write.

    Raises:
        KeyError: no document form has that name.
    """
    if form == "json":
        from mashwright.reporting.machine import dump, review_document

        return dump(review_document(review))
    if form == "sarif":
        from mashwright.reporting.machine import dump
        from mashwright.reporting.sarif import sarif_log

        return dump(sarif_log(review), depth=4)
    if form == "junit":
        from mashwright.reporting.junit import junit

        return junit(review)
    if form == "markdown":
        from mashwright.reporting.markdown import markdown

        return markdown(review)
    raise KeyError(form)


def write(form: str, review: "Review", out: "TextIO") -> None:
    """Write a whole review into an open file; otherwise as ``written``."""
    publish(written(form, review), out)
