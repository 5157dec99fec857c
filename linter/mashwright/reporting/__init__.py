"""Findings and figures put into words and documents; each form is loaded when it is asked for."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from mashwright.reviewing.results import Review

FORMS = ("text", "json", "sarif")
"""What a review can be written as. Text is made recipe by recipe, by ``reporting.text``; the others are one document."""


def document_form(name: str) -> "Callable[[Review], str]":
    """What writes a whole review as one document.

    Args:
        name: ``json`` or ``sarif``.

    Raises:
        KeyError: no document form has that name.
    """
    if name == "json":
        from mashwright.reporting.machine import dump, review_document

        return lambda review: dump(review_document(review))
    if name == "sarif":
        from mashwright.reporting.machine import dump
        from mashwright.reporting.sarif import sarif_log

        return lambda review: dump(sarif_log(review), depth=4)
    raise KeyError(name)
