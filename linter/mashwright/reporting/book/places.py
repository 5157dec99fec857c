"""Where each page lies in a book, and the links from one to another."""

from collections.abc import Iterable
from hashlib import sha256
from unicodedata import normalize
from urllib.parse import quote

from mashwright.patterns import pattern

_LONGEST = 150
"""Bytes of a name; systems take 255, and a page is written beside under a longer one."""
_REFUSED = pattern(r'[\x00-\x1f\x7f<>:"|?*\\]')
"""What some file system does not take in a name."""


def page_of(path: str) -> str:
    """The page of a recipe: its path below ``recipes/``, without ``.yaml``; ``.yml`` stays, so both have theirs."""
    path = path[:-5] if path.lower().endswith(".yaml") else path
    steps = [name_of(step) for step in path.split("/") if step not in ("", ".")]
    return f"recipes/{'/'.join(steps)}.html"


def name_of(step: str) -> str:
    """The name of a folder or page that any file system takes."""
    if step == "..":
        return "above"
    name = _REFUSED().sub("_", "".join(one if one.isprintable() else "_" for one in step)).strip(" ")
    if name.startswith("."):
        name = f"_{name[1:]}"
    if not name or name.endswith("."):
        name = f"{name}_"
    if len(name.encode()) <= _LONGEST:
        return name
    short = name.encode()[: _LONGEST - 17].decode("utf-8", "ignore")
    return f"{short}-{sha256(step.encode('utf-8', 'surrogatepass')).hexdigest()[:16]}"


def pages_of(paths: Iterable[str]) -> dict[str, str]:
    """A page for each recipe; two that some file system takes for one get a number."""
    taken: set[str] = set()
    found: dict[str, str] = {}
    for path in sorted(paths):
        found[path] = of_its_own(page_of(path), taken)
    return found


def of_its_own(page: str, taken: set[str]) -> str:
    """The place of a page, with a number where some file system takes it for one that is ``taken``; it is then too."""
    found, number = page, 1
    while (key := normalize("NFC", found).casefold()) in taken:
        number += 1
        found = f"{page[:-5]}-{number}.html"
    taken.add(key)
    return found


def link(page: str, other: str) -> str:
    """The address of a page of the book as it is seen from another; relative, so that it works from any folder."""
    return "../" * page.count("/") + quote(other, safe="/")


__all__ = ["link", "name_of", "of_its_own", "page_of", "pages_of"]
