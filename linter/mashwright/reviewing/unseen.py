"""Recipes that a walk passes over, since they are hidden or links, are told: nobody's recipe gets through by its name.

What is hidden counts where the repository tracks it, so that somebody handed it in. Outside of a repository hidden
folders are not looked into: they are caches and the settings of programs, and there may be many.
"""

import os
from collections.abc import Iterable, Iterator

from mashwright.reading.recognising import looks_like_recipe
from mashwright.reviewing.files import ENDINGS, Candidate, Unseen, load, walk
from mashwright.reviewing.repository import ENTRY, Git, is_inside, named


def told_of(unseen: Iterable[Unseen], found: Iterable[Candidate], folders: Iterable[str], git: Git) -> Iterator[str]:
    """Sentences about recipes that are not reviewed.

    Args:
        unseen: what walks passed over.
        found: what is reviewed.
        folders: that were walked.
        git: is asked what it tracks.
    """
    hidden = [path for path in _hidden(unseen, git) if _may_be_recipe(path)]
    links = [one.path for one in unseen if not one.hidden]
    if not hidden and not links:
        return
    files, roots = {os.path.realpath(one.path) for one in found}, [os.path.realpath(folder) for folder in folders]
    hidden = [path for path in hidden if os.path.realpath(path) not in files]
    links = [path for path in links if not _is_reviewed(path, files, roots)]
    if len(hidden) == 1:
        yield f"{named(hidden)} is hidden, so it is not reviewed, though it looks like a recipe; name it to review it"
    elif hidden:
        yield f"hidden files are not reviewed, though they look like recipes: {named(hidden)}; name them to review them"
    if len(links) == 1:
        yield f"{named(links)} is a link, so it is not reviewed; name what it leads to, or put that in its place"
    elif links:
        yield f"links are not reviewed: {named(links)}; name what they lead to, or put that in their place"


def _hidden(unseen: Iterable[Unseen], git: Git) -> list[str]:
    """Hidden YAML files: those that are tracked, and outside of a repository those in folders that are not hidden."""
    tracked: dict[str, None] = {}
    for below, repository in {one.below: one.repository for one in unseen if one.hidden}.items():
        for name in git.tracked(repository, below) if repository is not None else ():
            if name.startswith(".") or f"{os.sep}." in name:
                tracked[os.path.join(below, name).removeprefix("./")] = None
    loose = [one.path for one in unseen if one.hidden and one.repository is None]
    return [file for path in (*tracked, *loose) for file in _files(path, git) if file.lower().endswith(ENDINGS)]


def _files(path: str, git: Git) -> Iterable[str]:
    """A file; or of a submodule its files."""
    if os.path.islink(path) or not os.path.exists(os.path.join(path, ENTRY)):
        return () if os.path.islink(path) or os.path.isdir(path) else (path,)
    return walk(path, git, [])


def _may_be_recipe(path: str) -> bool:
    loaded = load(path)
    return loaded.problem is not None or looks_like_recipe(loaded.text)


def _is_reviewed(link: str, files: set[str], roots: list[str]) -> bool:
    """Whether what a link leads to is looked at in its own place, or is seen to be no recipe."""
    target = os.path.realpath(link)
    if os.path.isdir(target):
        below = [target[len(root) :] for root in roots if is_inside(target, root)]
        return any(f"{os.sep}." not in rest for rest in below)
    return target in files or not _may_be_recipe(link)
