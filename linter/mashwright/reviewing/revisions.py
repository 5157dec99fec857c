"""The files of a repository as they were at a revision; nothing of the repository runs, and no setting of it counts."""

import os
import re
from hashlib import sha1, sha256
from typing import NamedTuple

from mashwright.budgets import FILE_BYTES
from mashwright.reviewing.repository import Git, Repository

_HEX = re.compile(r"[0-9a-f]{40}|[0-9a-f]{64}")
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._/-]*")
_MOST_LINKS = 5
_REF_BYTES = 10_000_000


class Blob(NamedTuple):
    """A file at a revision: its path from the top of the repository, and the name of its content."""

    path: str
    content: str


class NoRevisionError(Exception):
    """Why a revision cannot be had, in a sentence."""


def commit_of(repository: Repository, revision: str) -> str:
    """The commit that a branch, a tag or a full name means.

    Raises:
        NoRevisionError: there is no such revision here.
    """
    if _HEX.fullmatch(revision):
        return revision
    if revision != "HEAD" and not _NAME.fullmatch(revision):
        raise NoRevisionError(f"{revision} is neither a file nor a revision; name a branch, a tag or a full commit")
    places = ("", "refs/heads/", "refs/tags/", "refs/remotes/")
    for place in places if revision != "HEAD" else ("",):
        found = _ref(repository, f"{place}{revision}")
        if found is not None:
            return found
    raise NoRevisionError(f"this repository has no revision {revision}; fetch it, or name a branch, a tag or a commit")


def _ref(repository: Repository, name: str) -> str | None:
    """What a name stands for, through as many other names as stand in between."""
    for _ in range(_MOST_LINKS):
        if ".." in name.split("/") or not (name == "HEAD" or name.startswith("refs/")):
            return None
        text = next((text for folder in (repository.own, repository.common) if (text := _read(folder, name))), "")
        text = text or _packed(repository, name)
        if not text.startswith("ref: "):
            return text if _HEX.fullmatch(text) else None
        name = text.removeprefix("ref: ").strip()
    return None


def _read(folder: str, name: str) -> str:
    path = os.path.join(folder, *name.split("/"))
    try:
        if os.path.isfile(path) and os.path.getsize(path) < 1000:
            with open(path, encoding="ascii") as file:
                return file.read().strip()
    except (OSError, ValueError):
        pass
    return ""


def _packed(repository: Repository, name: str) -> str:
    path = os.path.join(repository.common, "packed-refs")
    try:
        if not os.path.isfile(path) or os.path.getsize(path) > _REF_BYTES:
            return ""
        with open(path, encoding="utf-8", errors="replace") as file:
            rows = (line.split() for line in file)
            return next((row[0] for row in rows if len(row) == 2 and row[1] == name), "")
    except OSError:
        return ""


def files_at(git: Git, repository: Repository, commit: str, endings: tuple[str, ...]) -> list[Blob]:
    """The files of a revision with one of some endings; no links and no submodules.

    Raises:
        NoRevisionError: git cannot say; a shallow clone lacks older ones.
    """
    listed = git.ask(repository, "ls-tree", "-r", "-z", "--full-tree", commit)
    if listed is None:
        raise NoRevisionError(
            f"the files of {commit[:12]} are not here; a shallow clone lacks them, so fetch them first"
        )
    found = []
    for row in listed.split(b"\0"):
        head, _, name = row.partition(b"\t")
        kind = head.split()
        path = os.fsdecode(name)
        hidden = any(part.startswith(".") for part in path.split("/"))
        if len(kind) == 3 and kind[0] in (b"100644", b"100755") and path.lower().endswith(endings) and not hidden:
            found.append(Blob(path, kind[2].decode("ascii", "replace")))
    return found


def bytes_of(git: Git, repository: Repository, content: str) -> bytes:
    """The bytes of a file's content.

    Raises:
        NoRevisionError: they are not here, or too many.
    """
    found = git.ask(repository, "cat-file", "blob", content)
    if found is None or len(found) > FILE_BYTES:
        raise NoRevisionError(f"the content {content[:12]} is not here, or is larger than a recipe can be")
    return found


def content_of(data: bytes, like: str) -> str:
    """The name that git gives to some bytes, of the kind that another name is."""
    made = sha256 if len(like) == 64 else sha1
    return made(b"blob %d\0" % len(data) + data, usedforsecurity=False).hexdigest()
