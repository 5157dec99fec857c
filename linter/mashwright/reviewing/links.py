"""What a link may lead to: a stranger's link must not bring to light what lies elsewhere on the machine.

A link is followed to where a review would go by itself: inside the repository, and not into what is hidden, such as
git's own folder, whose config may hold a password. Where there is no repository, a link to a file stays inside its own
folder; folders on the way are then a person's own, such as a home on another disk.
"""

import os
from collections.abc import Iterator

from mashwright.reviewing.repository import ENTRY, is_inside


def refusal(path: str) -> str:
    """Why a path is not followed, in words; "" where it is, or where no part of it is a link. What it leads to is not
    opened.

    Args:
        path: of a file, or with a separator at its end of a folder. A folder on the way may be a link too, though a
            walk follows none: somebody may name a path that a stranger has turned into one.
    """
    for way in _ways(path):
        if os.path.islink(way) and (refused := _refused(way, last=len(way) == len(path))):
            return refused
    return ""


def _ways(path: str) -> Iterator[str]:
    """The folders on the way to a path, as it is written, then the path."""
    path = path.replace(os.altsep or os.sep, os.sep)
    end = path.find(os.sep, 1)
    while end >= 0:
        yield path[:end]
        end = path.find(os.sep, end + 1)
    if not path.endswith(os.sep):
        yield path


def _refused(link: str, *, last: bool) -> str:
    """Why one link is not followed, or ""."""
    own = os.path.realpath(os.path.dirname(link))
    repository = _repository(own)
    if repository is None and not last:
        return ""
    top, kind = (own, "folder") if repository is None else (repository, "repository")
    target = os.path.realpath(link)
    one, use = ("this link", "file") if last else (f"the folder {os.path.basename(link)} is a link that", "folder")
    if not is_inside(target, top):
        return f"{one} leads out of its {kind}, so it is not followed; use the {use} itself"
    if any(name.startswith(".") for name in target[len(top) :].split(os.sep)):
        return f"{one} leads to a hidden {use}, so it is not followed; use the {use} itself"
    return ""


def _repository(folder: str) -> str | None:
    """The top of the repository that a folder without links in its path lies in."""
    while not os.path.lexists(os.path.join(folder, ENTRY)):
        above = os.path.dirname(folder)
        if above == folder:
            return None
        folder = above
    return folder
