"""Finds recipes: in files and folders that are named, and in what a folder holds."""

import os
from collections.abc import Iterable, Iterator
from errno import ENAMETOOLONG
from fnmatch import fnmatchcase
from stat import S_ISDIR, S_ISLNK, S_ISREG
from typing import NamedTuple

from mashwright.budgets import FILE_BYTES
from mashwright.reading.nodes import Problem, Span
from mashwright.reviewing.links import refusal
from mashwright.reviewing.ordinary import ordinary
from mashwright.reviewing.repository import ENTRY as GIT_ENTRY
from mashwright.reviewing.repository import Git, Repository

ENDINGS = (".yaml", ".yml")
BREWHOUSE_NAMES = ("brewhouse.yaml", "brewhouse.yml")


class Candidate(NamedTuple):
    """A file that may be a recipe; ``named`` where somebody asked for this very file."""

    path: str
    named: bool


class Loaded(NamedTuple):
    """The text of a file, or why it could not be had; a text may be given beside a problem, for its place."""

    text: str
    problem: Problem | None


class Unseen(NamedTuple):
    """What a walk passes over though it may hold recipes: a hidden folder or YAML file, or a link to either.

    Attributes:
        path: as the walk came to it.
        hidden: by its name; else it is a link.
        repository: that the walk found it in; None outside of any.
        below: the folder from which on the walk was in that repository.
    """

    path: str
    hidden: bool
    repository: Repository | None
    below: str


def candidates(paths: tuple[str, ...], git: Git, unseen: list[Unseen]) -> Iterator[Candidate]:
    """Files in a fixed order, each once: named ones, and the YAML files of named folders.

    Args:
        git: is asked what it leaves out of folders.
        unseen: takes what is passed over in folders.
    """
    seen: set[str] = set()
    for path in paths:
        named = not os.path.isdir(path)
        folder = path if named else os.path.join(path, "")
        refused = not named and bool(refusal(folder))
        inside = iter((folder if refused else path,)) if named or refused else walk(path, git, unseen)
        for found in inside:
            key = os.path.normpath(found)
            if key not in seen:
                seen.add(key)
                yield Candidate(found, named)


def walk(folder: str, git: Git, unseen: list[Unseen]) -> Iterator[str]:
    """The YAML files below a folder in order; hidden folders and what git ignores left out, links not followed.

    What is hidden or a link, and not ignored, goes to ``unseen``. A repository within another is left out unless it is
    tracked there, as a submodule is; then it ignores for itself.
    """
    above = git.above(folder)
    pending = [(folder, folder, above, git.left_out(above, folder))]
    while pending:
        here, below, repository, ignored = pending.pop()
        try:
            entries = sorted(os.scandir(here), key=lambda entry: entry.name)
        except OSError:
            yield here.removeprefix("./")
            continue
        if here != folder and any(entry.name == GIT_ENTRY for entry in entries) and (inner := git.at(here)) is not None:
            if repository is not None and not git.tracks(repository, here):
                git.leave(here.removeprefix("./"))
                continue
            below, repository, ignored = here, inner, git.left_out(inner, here)
        folders = []
        for entry in entries:
            if entry.name == GIT_ENTRY or entry.path in ignored:
                continue
            path, is_yaml = entry.path.removeprefix("./"), entry.name.lower().endswith(ENDINGS)
            if (hidden := entry.name.startswith(".")) or entry.is_symlink():
                if is_yaml or os.path.isdir(entry.path):
                    unseen.append(Unseen(path, hidden, repository, below))
            elif entry.is_dir(follow_symlinks=False):
                folders.append((entry.path, below, repository, ignored))
            elif is_yaml:
                yield path
        pending.extend(reversed(folders))


def house_in(folder: str) -> str | None:
    """The brewhouse file in a folder, if there is one."""
    return next((path for name in BREWHOUSE_NAMES if os.path.lexists(path := os.path.join(folder, name))), None)


def houses_above(paths: Iterable[str]) -> Iterator[str]:
    """The brewhouse files beside paths and in any folder above them, each once; absolute."""
    seen: set[str] = set()
    for path in paths:
        folder = os.path.dirname(os.path.abspath(path))
        while folder not in seen:
            seen.add(folder)
            if (house := house_in(folder)) is not None:
                yield house
            folder = os.path.dirname(folder)


def matches(path: str, folder: str, globs: tuple[str, ...]) -> bool:
    """Whether a file lies where a brewhouse in ``folder`` says that its recipes are."""
    relative = os.path.relpath(path, folder or ".").replace(os.sep, "/")
    return any(glob_matches(relative, glob) for glob in globs)


def glob_matches(relative: str, glob: str) -> bool:
    """Whether a path with forward slashes matches a glob; ``**`` stands for any number of folders, none included.

    Only the last ``**`` is ever drawn longer: what fitted before it fits whatever that one takes. So many of them cost
    no more than names times patterns. (Within a name fnmatch goes the same way.)
    """
    names, patterns = relative.split("/"), glob.split("/")
    name_at = pattern_at = taken_to = 0
    last_star = -1
    while name_at < len(names):
        pattern = patterns[pattern_at] if pattern_at < len(patterns) else None
        if pattern == "**":
            last_star, taken_to = pattern_at, name_at
            pattern_at += 1
        elif pattern is not None and fnmatchcase(names[name_at], pattern):
            name_at += 1
            pattern_at += 1
        elif last_star >= 0:
            taken_to += 1
            name_at, pattern_at = taken_to, last_star + 1
        else:
            return False
    return all(pattern == "**" for pattern in patterns[pattern_at:])


def load(path: str) -> Loaded:
    """Read one file as text. Never raises: what hinders it becomes a problem."""
    try:
        if refused := refusal(path):
            return _failed(refused)
        status = os.lstat(path)
        if S_ISLNK(status.st_mode):
            return _linked(path)
        if S_ISDIR(status.st_mode):
            return _failed("this folder may not be opened; allow it to be read, or leave it out")
        if S_ISREG(status.st_mode) and (data := ordinary(path, FILE_BYTES)) is not None:
            return decode(data)
        return _failed("this is no ordinary file; name a text file")
    except FileNotFoundError:
        return _failed("this file was there a moment ago and is gone; was it moved while it was read?")
    except PermissionError:
        return _failed("this file may not be read; give yourself permission to read it")
    except (OSError, ValueError) as error:  # a value, where the path is none
        if isinstance(error, OSError) and error.errno == ENAMETOOLONG:
            return _failed("this path is longer than the system takes; move what lies here to a folder further up")
        why = error.strerror if isinstance(error, OSError) and error.strerror else error
        return _failed(f"this file cannot be read ({why}); look at the disk or the folder it lies in")


def _linked(path: str) -> Loaded:
    """What a link leads to, as far as it may; a recipe or a brewhouse, by its ending."""
    target = os.path.realpath(path)
    if not os.path.lexists(target):
        return _failed(f"this link points to {os.readlink(path)!r}, which is not there; mend or delete the link")
    if os.path.islink(target):
        return _failed("this link leads back to itself; use the file itself")
    if not target.lower().endswith(ENDINGS):
        return _failed("this link leads to no .yaml file, so it is not followed; use the file itself")
    return load(target)


def _failed(message: str, text: str = "") -> Loaded:
    return Loaded(text, Problem(Span(0, 0), message))


def _utf16_without_mark(data: bytes) -> str | None:
    """The codec of a text in which every other byte of the beginning is zero, as in Latin letters in UTF-16."""
    beginning = data[:64]
    even, odd = beginning[::2].count(0), beginning[1::2].count(0)
    if max(even, odd) * 4 < len(beginning) or min(even, odd):
        return None
    return "utf-16-le" if odd else "utf-16-be" if even else None


def decode(data: bytes) -> Loaded:
    """Bytes to text: UTF-8, with or without a byte-order mark."""
    if len(data) > FILE_BYTES:
        message = "this file is larger than 1 MiB, which no recipe is; split it, or name the right file"
        return _failed(message, data.decode("utf-8", errors="replace"))
    for mark, name in ((b"\xff\xfe\0\0", "utf-32"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16")):
        if data.startswith(mark):
            return _failed(f"this file is {name.upper()} text; save it as UTF-8", data.decode(name, errors="replace"))
    if (codec := _utf16_without_mark(data)) is not None:
        message = "this file is UTF-16 text without a mark; save it as UTF-8"
        return _failed(message, data.decode(codec, errors="replace"))
    data = data.removeprefix(b"\xef\xbb\xbf")
    try:
        return Loaded(data.decode("utf-8"), None)
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8")
        text = data.decode("utf-8", errors="replace")
        guess = data[error.start : error.start + 1].decode("cp1252", errors="replace")
        letter = f", perhaps {guess} of an older encoding" if guess.isprintable() and guess != "\ufffd" else ""
        message = f"the byte 0x{data[error.start]:02X} is not UTF-8{letter}; save the file as UTF-8"
        return Loaded(text, Problem(Span(len(before), len(before) + 1), message))
