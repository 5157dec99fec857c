"""What git leaves out of a walk, asked in a way that runs nothing of the reviewed repository.

A git config can name programs (monitors, hooks, filters, aliases), and includes of it can name more. So no config is
read at all: git is given an empty git folder of our own, the reviewed tree as its work tree, and of the repository only
its index, since what is tracked is never left out, and its list of excludes. Neither is believed to be more than data.
Settings of the user and of the machine are not read either, so that a hook, a CI server and another brewer's machine
review the same recipes.

A repository is what lies below an entry called ``.git``, which no pull request can bring: git tracks nothing of that
name. A tracked folder that merely looks like a repository is never taken for one.
"""

import os
import re
import sys
from collections.abc import Sequence
from contextlib import suppress
from time import monotonic
from typing import NamedTuple

from mashwright.budgets import GIT_FILE_BYTES, GIT_MEMORY_BYTES, GIT_SECONDS
from mashwright.reviewing.ordinary import ordinary
from mashwright.reviewing.results import shown_path

ENTRY = ".git"
SO = "what git ignores is reviewed too"
MOST_NAMED = 3
"""Repositories, hidden files or links that are named where they are left out; of more it is said how many there are."""
MOST_QUOTED = 200
"""Characters of what git says when it fails."""
_NAME = "git.exe" if os.name == "nt" else "git"
_SHA256 = r"(?im)^[ \t]*objectformat[ \t]*=[ \t]*\"?sha256\b"


class Repository(NamedTuple):
    """Where a work tree lies, and what git keeps about it; all paths absolute and without links.

    Attributes:
        top: folder of the work tree.
        own: git's folder of this work tree, with its index.
        common: git's folder of all work trees of the repository, with the excludes.
    """

    top: str
    own: str
    common: str


class Git:
    """Asks git about repositories; what it could not say is kept to be told.

    Attributes:
        remarks: sentences for the person who reviews, each once.
    """

    def __init__(self) -> None:
        """Nothing was asked yet."""
        self.remarks: list[str] = []
        self._spent = 0.0
        self._others: list[str] = []

    def above(self, folder: str) -> Repository | None:
        """The repository of a folder: by the nearest ``.git`` in it or above it."""
        here = os.path.realpath(folder)
        while True:
            found = self.at(here)
            parent = os.path.dirname(here)
            if found is not None or parent == here:
                return found
            here = parent

    def at(self, folder: str) -> Repository | None:
        """The repository whose work tree begins at a folder."""
        top = os.path.realpath(folder)
        entry = os.path.join(top, ENTRY)
        if not os.path.lexists(entry):
            return None
        own = entry if os.path.isdir(entry) else _pointed_to(entry, top)
        if own is None or not os.path.lexists(os.path.join(own, "HEAD")):
            return None
        own = os.path.realpath(own)
        if own != entry and is_inside(own, top):
            self._say(f"{shown_path(entry)} points to files under review; {SO}")
            return None
        common = _small(os.path.join(own, "commondir")).strip()
        return Repository(top, own, os.path.realpath(os.path.join(own, common)) if common else own)

    def left_out(self, repository: Repository | None, folder: str) -> frozenset[str]:
        """What git ignores below a folder and does not track, as paths that begin as the folder does."""
        if repository is None:
            return frozenset()
        names = self._ask(repository, folder, "--others", "--ignored", "--exclude-standard", "--directory")
        return frozenset(
            os.path.join(folder, name.rstrip("/").replace("/", os.sep)) for name in names or () if name != "./"
        )

    def tracks(self, repository: Repository, folder: str) -> bool:
        """Whether a repository tracks a repository in it, as it does a submodule; so too where git cannot say it."""
        above, name = os.path.split(folder)
        tracked = self._ask(repository, above, "--cached", "--", name)
        return tracked is None or bool(tracked)

    def tracked(self, repository: Repository, folder: str) -> list[str]:
        """What a repository tracks below a folder, relative to it; nothing where git cannot say it, which is told."""
        return [name.replace("/", os.sep) for name in self._ask(repository, folder, "--cached") or ()]

    def ask(self, repository: Repository, *command: str) -> bytes | None:
        """What one of git's reading commands prints; None where it cannot be had."""
        import subprocess
        from tempfile import TemporaryDirectory

        program = _program(repository.top)
        if program is None:
            return None
        try:
            with TemporaryDirectory(prefix="mashwright-") as empty:
                _furnish(empty, repository)
                line = [program, *_options(empty, repository, repository.top), *command]
                status, printed, _ = self._run(line, empty, _environment(empty, repository))
        except (subprocess.TimeoutExpired, OSError):
            return None
        return printed if status == 0 else None

    def leave(self, folder: str) -> None:
        """A repository within another that does not track it is left out, and this is told."""
        self._others.append(folder)

    def told(self) -> list[str]:
        """All that is to be told once the walks are through."""
        if not self._others:
            return self.remarks
        names = named(self._others)
        if len(self._others) == 1:
            told = f"{names} is a repository that git does not track here; it is left out; name it to review it"
        else:
            told = f"repositories that git does not track here are left out: {names}; name them to review them"
        return [*self.remarks, told]

    def _say(self, sentence: str) -> None:
        if sentence not in self.remarks:
            self.remarks.append(sentence)

    def _ask(self, repository: Repository, folder: str, *arguments: str) -> list[str] | None:
        """What ``git ls-files`` lists, relative to a folder; None where it cannot be had, which is told."""
        import subprocess
        from tempfile import TemporaryDirectory

        program = _program(repository.top)
        if program is None:
            self._say(f"git is not found on PATH; {SO}")
            return None
        try:
            with TemporaryDirectory(prefix="mashwright-") as empty:
                _furnish(empty, repository)
                command = [program, *_options(empty, repository, folder), "ls-files", "-z", *arguments]
                status, listed, complaint = self._run(command, empty, _environment(empty, repository))
        except subprocess.TimeoutExpired:
            self._say(f"git did not say within {GIT_SECONDS:g} s what it leaves out; {SO}")
            return None
        except OSError as error:
            self._say(f"git cannot be asked what it leaves out ({error.strerror or error}); {SO}")
            return None
        if status:
            said = complaint.decode("utf-8", "replace").replace(empty, "").strip() or "it does not say why"
            why = said.rpartition("\n")[2][:MOST_QUOTED]
            self._say(f"git cannot say what it leaves out of {shown_path(repository.top)} ({why}); {SO}")
            return None
        return [name for name in os.fsdecode(listed).split("\0") if name]

    def _run(self, command: list[str], folder: str, environment: dict[str, str]) -> tuple[int, bytes, bytes]:
        """Status and outputs of a program that has a share of the time and memory that git gets.

        Raises:
            subprocess.TimeoutExpired: the time was over; the program is ended.
        """
        from subprocess import DEVNULL, PIPE, Popen

        start = monotonic()
        with Popen(command, env=environment, cwd=folder, stdin=DEVNULL, stdout=PIPE, stderr=PIPE) as process:  # noqa: S603
            try:
                _bound(process.pid)
                listed, complaint = process.communicate(timeout=max(GIT_SECONDS - self._spent, 0.0))
            finally:
                process.kill()  # where it has not ended by itself
                self._spent += monotonic() - start
        return process.returncode, listed, complaint


def named(paths: Sequence[str]) -> str:
    """The first few of what is left out, and how many more there are."""
    more = f" and {len(paths) - MOST_NAMED} more" if len(paths) > MOST_NAMED else ""
    return ", ".join(map(shown_path, paths[:MOST_NAMED])) + more


def is_top(folder: str) -> bool:
    """Whether a work tree begins at a folder, so that nothing above it belongs to it."""
    return os.path.exists(os.path.join(folder, ENTRY))


def is_inside(path: str, folder: str) -> bool:
    """Whether an absolute path is a folder or lies below it."""
    return os.path.join(path, "").startswith(os.path.join(folder, ""))


def _pointed_to(entry: str, top: str) -> str | None:
    """The folder that a ``.git`` file names, as in a linked work tree or a submodule."""
    word, colon, folder = _small(entry).partition(":")
    return os.path.join(top, folder.strip()) if colon and word == "gitdir" and folder.strip() else None


def _small(path: str) -> str:
    """The text of a small ordinary file; "" where it is none."""
    try:
        data = ordinary(path, GIT_FILE_BYTES, follow=True)
    except OSError:
        return ""
    return os.fsdecode(data) if data is not None and len(data) <= GIT_FILE_BYTES else ""


def _program(top: str) -> str | None:
    """Git on PATH, but never by an entry that counts from the current folder, nor out of what is reviewed."""
    here = os.path.realpath(os.curdir)
    for entry in os.environ.get("PATH", os.defpath).split(os.pathsep):
        path = os.path.join(entry, _NAME)
        if not os.path.isabs(entry) or not os.path.isfile(path) or not os.access(path, os.X_OK):
            continue
        places = (os.path.realpath(entry), os.path.dirname(os.path.realpath(path)))
        if not any(place == here or is_inside(place, top) for place in places):
            return path
    return None


def _bound(process: int) -> None:
    """Bound the memory of a process that was just begun, where the system can: trees of an index may have no end."""
    if sys.platform == "linux":
        import resource

        with suppress(OSError):  # a sandbox may not allow it
            resource.prlimit(process, resource.RLIMIT_AS, (GIT_MEMORY_BYTES, GIT_MEMORY_BYTES))


def _furnish(empty: str, repository: Repository) -> None:
    """Make a folder the least that git takes for a git folder, with the repository's excludes and no config of it."""
    for name in ("objects", "refs", "info"):
        os.mkdir(os.path.join(empty, name))
    _write(empty, "HEAD", "ref: refs/heads/none\n")
    _write(empty, os.path.join("info", "exclude"), _small(os.path.join(repository.common, "info", "exclude")))
    if re.search(_SHA256, _small(os.path.join(repository.common, "config"))):
        # one word is looked for as in any text: by it alone git can read an index with the longer kind of names
        _write(empty, "config", "[core]\n\trepositoryFormatVersion = 1\n[extensions]\n\tobjectFormat = sha256\n")
    for name in os.listdir(repository.own):
        if name.startswith("sharedindex.") and os.path.isfile(os.path.join(repository.own, name)):
            os.symlink(os.path.join(repository.own, name), os.path.join(empty, name))


def _write(folder: str, name: str, text: str) -> None:
    with open(os.path.join(folder, name), "wb") as file:
        file.write(os.fsencode(text))


def _options(empty: str, repository: Repository, folder: str) -> list[str]:
    """What git is told before its command; whatever a config could switch on is switched off as well."""
    blind = os.path.exists(os.path.join(repository.top, ENTRY.upper()))  # no tracked file can have that name
    settings = {
        "core.fsmonitor": "false",
        "core.hooksPath": os.devnull,
        "core.excludesFile": os.devnull,
        "core.attributesFile": os.devnull,
        "core.untrackedCache": "false",
        "core.ignoreCase": str(blind).lower(),
        "core.precomposeUnicode": str(sys.platform == "darwin").lower(),
        "submodule.recurse": "false",
    }
    return [
        f"--git-dir={empty}",
        f"--work-tree={repository.top}",
        "-C",
        os.path.realpath(folder),
        "--no-pager",
        "--no-optional-locks",
        "--literal-pathspecs",
        *(part for name, value in settings.items() for part in ("-c", f"{name}={value}")),
    ]


def _environment(empty: str, repository: Repository) -> dict[str, str]:
    """The environment without what git would heed in it, and with the places that it may look at."""
    kept = {name: value for name, value in os.environ.items() if not name.upper().startswith("GIT_")}
    index = os.path.join(repository.own, "index")
    objects = os.path.join(repository.common, "objects")
    return kept | {
        "HOME": empty,
        "XDG_CONFIG_HOME": empty,
        "LC_ALL": "C",
        "GIT_CONFIG_NOSYSTEM": "1",
        "GIT_CONFIG_GLOBAL": os.devnull,
        "GIT_ATTR_NOSYSTEM": "1",
        "GIT_NO_LAZY_FETCH": "1",
        # a pipe for an index would keep git waiting; with none at all, nothing is tracked
        "GIT_INDEX_FILE": index if os.path.isfile(index) else os.path.join(empty, "index"),
        "GIT_OBJECT_DIRECTORY": objects if os.path.isdir(objects) else os.path.join(empty, "objects"),
    }
