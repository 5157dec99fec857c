"""A trusted copy of the collection, whose brewhouses and baseline count in place of those under review."""

import os

from msgspec import Struct

from mashwright.reviewing.plugins import ConfigurationError
from mashwright.reviewing.repository import is_inside, is_top
from mashwright.reviewing.results import shown_path


class Trusted(Struct, frozen=True):
    """Which folder stands for which.

    Attributes:
        folder: the trusted copy, such as a checkout of the branch that a pull request is for; absolute.
        reviewed: what it is a copy of: the top of the repository under review; absolute.
    """

    folder: str
    reviewed: str

    def holds(self, path: str) -> bool:
        """Whether a path lies in the copy."""
        return is_inside(os.path.abspath(path), self.folder)

    def covers(self, path: str) -> bool:
        """Whether a path lies in what it is a copy of."""
        return is_inside(os.path.abspath(path), self.reviewed)

    def twin(self, path: str) -> str:
        """The path in the copy for one under review; another stays as it is. Absolute."""
        return _moved(os.path.abspath(path), self.reviewed, self.folder)

    def back(self, path: str) -> str:
        """The path under review for one in the copy; another stays as it is. Absolute."""
        return _moved(os.path.abspath(path), self.folder, self.reviewed)


def trusted_of(folder: str, paths: tuple[str, ...]) -> Trusted:
    """What a folder is a trusted copy of, where these paths are reviewed.

    Args:
        folder: the copy.
        paths: files and folders that are there.

    Raises:
        ConfigurationError: it is no folder, could itself be part of what is reviewed, or nobody can say what it is a
            copy of; the message says what to do.
    """
    if not os.path.isdir(folder):
        raise ConfigurationError(f"--trusted {folder}: there is no such folder")
    tops = {_top(os.path.abspath(path), alone=len(paths) == 1) for path in paths}
    if len(tops) != 1 or "" in tops:
        message = "the paths are not of one repository, so --trusted could be a copy of either; review them one by one"
        raise ConfigurationError(message)
    reviewed = tops.pop()
    real, other = os.path.realpath(folder), os.path.realpath(reviewed)
    if is_inside(real, other) or is_inside(other, real):
        where = f"--trusted {folder} and what is reviewed ({shown_path(reviewed)}) lie in each other"
        raise ConfigurationError(f"{where}, so one could change the other; put the trusted copy elsewhere")
    return Trusted(os.path.abspath(folder), reviewed)


def _top(path: str, *, alone: bool) -> str:
    """The top of a path's repository; outside of any, the one folder that is named; else nothing."""
    here = path
    while not is_top(here):
        parent = os.path.dirname(here)
        if parent == here:
            return path if alone and os.path.isdir(path) else ""
        here = parent
    return here


def _moved(path: str, one: str, other: str) -> str:
    return os.path.normpath(os.path.join(other, os.path.relpath(path, one))) if is_inside(path, one) else path
