"""The colour of a beer in a glass, with the ends of its range beside it."""

from markupsafe import Markup

from mashwright.brewing.glass_colour import colour_word, srgb_of_srm
from mashwright.measures.range import Range
from mashwright.reporting.book.svg import el, picture, rect


def glass(srm: Range, told: str) -> Markup:
    """A glass of beer: its typical colour, and below as a strip the palest, typical and darkest of its range.

    Args:
        srm: colour of the beer, SRM.
        told: the same in words and numbers, as a figure shows it.
    """
    colours = [srgb_of_srm(max(0.0, one)) for one in (srm.low, srm.typical, srm.high)]
    parts = [
        el("path", d="M8 26 L14 140 L86 140 L92 26 Z", fill=colours[1], stroke="none"),
        el("path", d="M7 8 L8 26 L92 26 L93 8 Z", class_="foam"),
        el("path", d="M6 4 L14 142 L86 142 L94 4", class_="ink"),
    ]
    for index, colour in enumerate(colours):
        parts.append(el("rect", x=6 + 30 * index, y=152, width=28, height=12, fill=colour))
    parts.append(rect(6, 152, 88, 12, "open"))
    describes = f"{colour_word(srm.typical)}, {told}. Below the glass its range, from the palest to the darkest."
    return picture("glass", "Colour in the glass", describes, 168, *parts, width=100)


def swatch(srm: float) -> Markup:
    """A small square of a beer's colour; the word and the number stand beside it, so it says nothing by itself."""
    return el(
        "svg",
        el("rect", x=0.5, y=0.5, width=15, height=15, fill=srgb_of_srm(max(0.0, srm)), class_="edge"),
        viewBox="0 0 16 16",
        class_="swatch",
        aria_hidden="true",
    )
