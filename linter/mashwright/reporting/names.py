"""What is known of names: an overview, a list, or all of one name; 80 columns wide, or as the public JSON document."""

from collections.abc import Iterable, Iterator
from typing import Any

from mashwright.ingredients.bibliography import source
from mashwright.reporting.machine import rounded
from mashwright.reporting.words import INDENT, wrapped
from mashwright.reviewing.catalogue import KINDS, Known
from mashwright.reviewing.search import Search
from mashwright.words.plurals import in_a_row

OWN = "*"
"""Stands before what the brewhouse says."""
_LABELS = {
    "needs-mash": "needs a mash",
    "max-share": "usually at most",
    "storage-loss": "alpha acids lost in six months at 20 °C",
    "alpha": "alpha acids",
    "beta": "beta acids",
    "splits": "ferments dextrins",
    "quick": "ferments in days",
    "og": "OG",
    "fg": "FG",
    "abv": "ABV",
    "ibu": "bitterness",
    "srm": "colour",
}
"""What a page calls a value whose name in the tables says little."""
_BESIDE = 30
"""Columns of a name in a list; a longer one pushes what stands beside it."""
_CALLED = {"malts": "malt or grain", "sugars": "sugar or extract", "fruit": "fruit or other"}


def overview(listed: Iterable[Known], brewhouse: str, width: int = 80) -> Iterator[str]:
    """The kinds with what they hold and how many names.

    Args:
        listed: all that is known.
        brewhouse: the file whose own names are among it; "" without one.
        width: where lines wrap.
    """
    listed = list(listed)
    yield "What is known, by kind:"
    yield ""
    for kind, holds in KINDS.items():
        of_kind = [one for one in listed if one.kind == kind]
        own = sum(one.own for one in of_kind)
        first = f"  {kind:<9}{len(of_kind):>4}  "
        yield from wrapped(f"{holds}{f'; {own} of your own' if own else ''}", width, first, " " * len(first))
    yield ""
    if any(one.own for one in listed):
        yield from wrapped(f"Your own are those of {brewhouse}; {OWN} stands before them.", width)
    yield "mashwright names KIND lists a kind; mashwright names WORD looks in all of them."


def list_of(listed: Iterable[Known], width: int = 80) -> Iterator[str]:
    """Names with what is known of them in short, kind by kind."""
    listed = list(listed)
    kinds = list(dict.fromkeys(one.kind for one in listed))
    for number, kind in enumerate(kinds):
        if len(kinds) > 1:
            yield from ((), ("",))[number > 0]
            yield kind
        indent = "  " if len(kinds) > 1 else ""
        for one in listed:
            if one.kind == kind:
                first = f"{indent}{f'{OWN} ' if one.own else ''}{one.name}"
                yield from wrapped(one.brief, width, f"{first:<{_BESIDE}}  ", indent + " " * 6)


def card(one: Known, brewhouse: str, width: int = 80) -> Iterator[str]:
    """All that is known of one name, each value with its sources.

    Args:
        one: the name.
        brewhouse: the file that says it, where it is the brewhouse's own.
        width: where lines wrap.
    """
    called = _CALLED.get(one.kind, one.kind.removesuffix("s"))
    where = f", {OWN} of {brewhouse}" if one.own else ""
    yield from wrapped(f"{one.name}, {called}{where}", width, rest=INDENT)
    if one.also:
        yield from wrapped(", ".join(one.also), width, f"{INDENT}also: ", INDENT * 2)
    for value in one.values:
        said = f" [{', '.join(value.sources)}]" if value.sources else ""
        label = _LABELS.get(value.what) or value.what.replace("-", " ")
        given = " from 1 g in 1 l" if one.kind == "salts" and value.unit else ""
        yield from wrapped(f"{label}{given}: {value.text}{said}", width, INDENT, INDENT * 2)


def found_text(found: Search, brewhouse: str, width: int = 80) -> Iterator[str]:
    """What was found for a word: whole names with all that is known of them, the others in short, then the sources."""
    whole = found.whole or (found.others if len(found.others) == 1 else ())
    others = [one for one in found.others if one not in whole]
    for number, one in enumerate(whole):
        yield from ((), ("",))[number > 0]
        yield from card(one, brewhouse, width)
    if others:
        if whole:
            yield ""
            yield "With this word too:"
            yield ""
        yield from list_of(others, width)
    keys = sorted({key for one in whole for value in one.values for key in value.sources})
    if keys:
        yield ""
        yield "Sources"
        for key in keys:
            yield from wrapped(f"{key}: {source(key).citation}", width, INDENT, INDENT * 2)


def near_text(word: str, near: tuple[tuple[str, str], ...], kind: str) -> str:
    """What to say where nothing is known of a word."""
    names = [name if kind else f"{name} ({of})" for of, name in near]
    among = f" among the {kind}" if kind else ""
    asked = f"; did you mean {in_a_row(names, 'or')}?" if names else ""
    return f"nothing is known of {word}{among}{asked}"


def names_document(
    listed: tuple[Known, ...], shown: Iterable[Known], near: tuple[tuple[str, str], ...], brewhouse: str
) -> dict[str, Any]:
    """Names as ``mashwright-names``, version 1; its schema is ``names.schema.json``.

    Args:
        listed: all that is known of the kinds that were asked for.
        shown: what is given in full.
        near: names that may be meant, each with its kind.
        brewhouse: the file whose own names are among it; "" without one.
    """
    counts = {kind: [one.own for one in listed if one.kind == kind] for kind in KINDS}
    return {
        "format": "mashwright-names",
        "version": 1,
        "brewhouse": brewhouse or None,
        "kinds": [{"kind": kind, "count": len(own), "own": sum(own)} for kind, own in counts.items() if own],
        "names": [_entry(one) for one in shown],
        "near": [{"kind": kind, "name": name} for kind, name in near],
    }


def _entry(one: Known) -> dict[str, Any]:
    return {
        "kind": one.kind,
        "name": one.name,
        "also": list(one.also),
        "own": one.own,
        "values": [
            {
                "what": value.what,
                "text": value.text,
                "low": rounded(value.low),
                "typical": rounded(value.typical),
                "high": rounded(value.high),
                "unit": value.unit,
                "sources": list(value.sources),
            }
            for value in one.values
        ],
    }
