"""Which packages bring rules: what installers have written down beside them, in ``entry_points.txt``.

Python's own reader, ``importlib.metadata``, takes a tenth of a cold start to load. What is written plainly is read
here; whatever is not is left to that one, so that it means the same.

Sources: the entry points, core metadata and recorded-project specifications of the Python Packaging User Guide.
"""

import os
import sys
from importlib.machinery import PathFinder
from typing import NamedTuple

_NOT_THERE = (FileNotFoundError, NotADirectoryError, IsADirectoryError, PermissionError)
"""What Python takes as a file that is not there."""

_JOINING = str.maketrans(dict.fromkeys("-_."))


class Entry(NamedTuple):
    """A package of rules.

    Attributes:
        name: what its distribution calls it.
        value: the package to import.
        origin: the distribution that brought it.
    """

    name: str
    value: str
    origin: str


class _NotPlainError(Exception):
    """It is written, or stored, as few are."""


def entries(group: str) -> list[Entry]:
    """The packages of every installed distribution that are listed under a group."""
    try:
        return _plain_entries(group)
    except _NotPlainError:
        return entries_by_python(group)


def entries_by_python(group: str) -> list[Entry]:
    """The same, as Python itself reads them."""
    from importlib.metadata import entry_points

    return [
        Entry(one.name, one.value, one.dist.name if one.dist is not None else one.value)
        for one in entry_points(group=group)
    ]


def _plain_entries(group: str) -> list[Entry]:
    if any(hasattr(finder, "find_distributions") and finder is not PathFinder for finder in sys.meta_path):
        raise _NotPlainError
    found: list[Entry] = []
    seen: set[str] = set()
    for folder in sys.path:
        for child in _children(folder):
            low = child.lower()
            if not low.endswith((".dist-info", ".egg-info")):
                continue
            name = _normalised(low.rpartition(".")[0].partition("-")[0])
            if name in seen:  # the first on the path is the one that is imported
                continue
            seen.add(name)
            about = os.path.join(folder, child)
            values = _values(about, group)
            if values:
                origin = _name(about)
                found.extend(Entry(name, value, origin) for name, value in values)
    return found


def _children(folder: str) -> list[str]:
    try:
        children = os.listdir(folder or ".")
    except OSError:
        if os.path.isfile(folder):  # an archive
            raise _NotPlainError from None
        return []
    if folder.lower().rstrip(os.sep).endswith(".egg"):
        raise _NotPlainError
    return children


def _normalised(name: str) -> str:
    """By which two spellings of a distribution's name are one."""
    name = name.replace(".", "_")
    while "__" in name:
        name = name.replace("__", "_")
    return name


def _values(about: str, group: str) -> list[tuple[str, str]]:
    """Names and packages of a group in a folder about a distribution."""
    text = _text(os.path.join(about, "entry_points.txt"))
    if group not in text:
        return []
    values = []
    section = None
    for line in filter(None, map(str.strip, text.splitlines())):
        if line.startswith("[") and line.endswith("]"):
            section = line.strip("[]")
        elif not line.startswith("#") and section is not None:
            name, equals, value = (part.strip() for part in line.partition("="))
            if not equals:
                raise _NotPlainError
            if section == group:
                if not all(part.isidentifier() for part in value.split(".")):
                    raise _NotPlainError
                values.append((name, value))
    return values


def _name(about: str) -> str:
    """A distribution's name as it writes it."""
    fields = _text(os.path.join(about, "METADATA")).partition("\n\n")[0].splitlines()
    for line, below in zip(fields, (*fields[1:], ""), strict=False):
        name = line.removeprefix("Name: ")
        if name != line and name.translate(_JOINING).isalnum() and not below.startswith((" ", "\t")):
            return name
        if not line[:1].isalpha():
            break
    raise _NotPlainError


def _text(path: str) -> str:
    """A text file; empty where there is none."""
    try:
        with open(path, encoding="utf-8") as file:
            return file.read()
    except _NOT_THERE:
        return ""
    except (OSError, UnicodeDecodeError):
        raise _NotPlainError from None
