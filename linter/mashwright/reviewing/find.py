"""The step before all others: which files are to be looked at, and what of that which was named is not there."""

import os
from collections.abc import Iterator

from mashwright.reviewing.files import BREWHOUSE_NAMES, ENDINGS, Candidate, Unseen, candidates
from mashwright.reviewing.repository import Git, is_inside
from mashwright.reviewing.unseen import told_of


class Search:
    """What was named, and what was found of it.

    Attributes:
        missing: named paths that are not there.
        empty: folders that were named and have no recipe in them, as far as is known.
        remarks: what is to be told of the search.
    """

    def __init__(self) -> None:
        self.missing: list[str] = []
        self.remarks: list[str] = []
        self._folders: list[str] = []
        self._empty: dict[str, str] = {}

    def find(self, paths: tuple[str, ...], *, below_brewhouses: bool = False) -> list[Candidate]:
        """The files to look at in files and folders, in a fixed order; what is not there goes to ``missing``.

        Args:
            paths: files and folders.
            below_brewhouses: with a brewhouse that is named, also what git tracks below its folder, since a change of
                it changes what is found there; drafts that nobody added are left alone.
        """
        self.missing.extend(path for path in paths if not os.path.lexists(path))
        git = Git()
        there = tuple(path for path in paths if os.path.lexists(path))
        if below_brewhouses:
            there = tuple(dict.fromkeys((*there, *(more for path in there for more in _below(path, git)))))
        folders = {os.path.abspath(path): path for path in there if os.path.isdir(path)}
        self._folders += folders
        self._empty |= folders
        unseen: list[Unseen] = []
        found = list(candidates(there, git, unseen))
        self.remarks += told_of(unseen, found, folders, git)
        self.remarks += git.told()
        return found

    @property
    def empty(self) -> list[str]:
        """Each by the name that it was given."""
        return list(self._empty.values())

    def has_recipe(self, path: str) -> None:
        """A recipe is there, so the folders around it are not empty."""
        if self._empty:
            there = os.path.abspath(path)
            self._empty = {folder: name for folder, name in self._empty.items() if not is_inside(there, folder)}

    def covers(self, folder: str) -> bool:
        """Whether a folder is looked at with all that is in it."""
        return any(is_inside(os.path.abspath(folder), one) for one in self._folders)


def _below(path: str, git: Git) -> Iterator[str]:
    """What git tracks below the folder of a brewhouse, but for what is hidden; nothing for any other file."""
    folder, name = os.path.split(path)
    if name not in BREWHOUSE_NAMES or (repository := git.above(folder or os.curdir)) is None:
        return
    for tracked in git.tracked(repository, os.path.realpath(folder or os.curdir)):
        found = os.path.join(folder, tracked)
        hidden = any(part.startswith(".") for part in tracked.split(os.sep))
        if tracked.lower().endswith(ENDINGS) and not hidden and os.path.isfile(found):
            yield found
