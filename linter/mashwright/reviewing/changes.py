"""What the files under review change in the settings of a trusted copy, in a sentence each."""

import os
from collections import Counter
from collections.abc import Iterator

from mashwright.reading.document import Document, read_document
from mashwright.reading.nodes import Mapping, Node, Scalar, Sequence
from mashwright.reading.syntax import short
from mashwright.reviewing.baseline import Baseline
from mashwright.reviewing.files import Loaded, house_in, load
from mashwright.reviewing.houses import Houses
from mashwright.reviewing.results import shown_path
from mashwright.reviewing.trusted import Trusted


def of_houses(trusted: Trusted, houses: Houses, folder: str, done: set[str]) -> Iterator[str]:
    """What is changed in the brewhouses from a folder under review up to the nearest trusted one.

    Args:
        houses: that have read the trusted one.
        folder: absolute.
        done: folders of which all was told before; those that are looked at are added.
    """
    while folder not in done:
        done.add(folder)
        ours, theirs = house_in(folder), house_in(trusted.twin(folder))
        if theirs is None and ours is not None:
            yield f"{shown_path(ours)} is not in the trusted folder; it does not count"
        if theirs is not None:
            yield from _of_house(ours, theirs, shown_path(trusted.back(theirs)), houses)
            return
        parent = os.path.dirname(folder)
        if folder in (trusted.reviewed, parent):
            return
        folder = parent


def _of_house(ours: str | None, theirs: str, shown: str, houses: Houses) -> Iterator[str]:
    if ours is None:
        yield f"{shown} is gone here; the trusted one still counts"
        return
    if houses.loaded(ours).text == houses.loaded(theirs).text:
        return
    one, other = houses.read(ours).document.root, houses.read(theirs).document.root
    if one is None or other is None:
        yield f"{shown} cannot be read {'here' if one is None else 'in the trusted folder'}; the trusted one counts"
        return
    for change in _changes(one, other, ""):
        yield f"{shown}: {change}"


def of_acceptances(trusted: Trusted, document: Document, path: str) -> Iterator[str]:
    """What a recipe accepts that its trusted twin does not; this counts, since it is the recipe's own, and is told.

    Args:
        document: the recipe under review.
        path: of its file.
    """
    ours = _accepted(document.root)
    if ours:
        for item in ours - _accepted(_root(load(trusted.twin(path)))):
            yield f"{shown_path(path)}: {short(item)} is newly accepted by the recipe itself; is the reason good?"


def of_baseline(ours: Baseline, theirs: Baseline, shown: str) -> Iterator[str]:
    """How many findings only one of two baselines calls known."""
    here, there = _records(ours), _records(theirs)
    if more := (here - there).total():
        yield f"{shown}: {more} known only here; they do not count as known"
    if less := (there - here).total():
        yield f"{shown}: {less} known only in the trusted folder; they still count as known"


def _records(baseline: Baseline) -> Counter[object]:
    return Counter(record for records in baseline.records.values() for record in records)


def _root(loaded: Loaded) -> Node | None:
    return read_document(loaded.text).root if loaded.problem is None else None


def _accepted(root: Node | None) -> Counter[str]:
    return _items(_fields(root).get("accepted"))


def _changes(ours: Node | None, theirs: Node | None, where: str) -> Iterator[str]:
    """Where two documents part, as high up as one of them has nothing; each rule and lot by itself."""
    either = ours if ours is not None else theirs
    whole = "/" in where and (ours is None or theirs is None)  # one thing, such as a lot, that only one has
    if isinstance(either, Mapping) and isinstance(theirs, Mapping | None) and not whole:
        here, there = _fields(ours), _fields(theirs)
        for name in there | here:
            yield from _changes(here.get(name), there.get(name), f"{where}/{short(name)}".removeprefix("/"))
    elif isinstance(either, Sequence) and isinstance(theirs, Sequence | None) and not whole:
        mine, others = _items(ours), _items(theirs)
        yield from (f"{where} is new here ({short(item)}); it does not count" for item in mine - others)
        yield from (f"{where} is gone here ({short(item)}); it still counts" for item in others - mine)
    elif theirs is None and ours is not None:
        yield f"{where} is new here ({short(_written(ours))}); it does not count"
    elif ours is None and theirs is not None:
        yield f"{where} is gone here ({short(_written(theirs))}); it still counts"
    elif ours is not None and theirs is not None and (one := _written(ours)) != (other := _written(theirs)):
        yield f"{where or 'all'} is {short(one)} here; the trusted {short(other)} counts"


def _fields(node: Node | None) -> dict[str, Node]:
    return {key.text: value for key, value in node.entries} if isinstance(node, Mapping) else {}


def _items(node: Node | None) -> Counter[str]:
    return Counter(_written(item) for item in node.items) if isinstance(node, Sequence) else Counter()


def _written(node: Node) -> str:
    """A node on one line."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Sequence):
        return f"[{', '.join(map(_written, node.items))}]"
    return f"{{{', '.join(f'{key.text}: {_written(value)}' for key, value in node.entries)}}}"
