"""What a link may lead to: a stranger's link must not bring to light what lies elsewhere on the machine.

A link is followed to where a review would go by itself: inside the repository, and not into what is hidden, such as
git's own folder, whose config may hold a password. Where there is no repository, inside the link's own folder.
"""

import os

from mashwright.reviewing.repository import ENTRY, is_inside


def refusal(path: str) -> str:
    """Why a link is not followed, in words; "" where it is, or where the path is no link. What it names is not opened.

    Args:
        path: of a file; whether folders on the way are links is not asked, since a walk follows none of them.
    """
    if not os.path.islink(path):
        return ""
    top, kind = _top(path)
    target = os.path.realpath(path)
    if not is_inside(target, top):
        return f"this link leads out of its {kind}, so it is not followed; use the file itself"
    if any(name.startswith(".") for name in target[len(top) :].split(os.sep)):
        return "this link leads to a hidden file, so it is not followed; use the file itself"
    return ""


def _top(path: str) -> tuple[str, str]:
    """The folder in which a link has to stay, and what it is: the repository that the link lies in, or its folder."""
    own = here = os.path.realpath(os.path.dirname(path))
    while not os.path.lexists(os.path.join(here, ENTRY)):
        above = os.path.dirname(here)
        if above == here:
            return own, "folder"
        here = above
    return here, "repository"
