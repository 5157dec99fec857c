"""The folder of a book: only what the book made itself is ever taken away, and each page is whole or not there."""

import os
from collections.abc import Iterable
from contextlib import suppress

MARKER = ".mashwright-book"
"""The file that says which pages are the book's own, a path a line."""
_MARKER_BYTES = 16 << 20
_HEAD = "mashwright book 1"


class FolderError(Exception):
    """The folder cannot take a book, in words."""


class Folder:
    """Takes the pages of a book.

    Args:
        path: absent, empty, or that of a book.

    Raises:
        FolderError: it is none of these.
    """

    def __init__(self, path: str) -> None:
        self.path = path
        self.written = 0
        self._before: frozenset[str] = frozenset()
        self._now: set[str] = set()
        if os.path.islink(path):
            raise FolderError(f"{path} is a link, and nothing is written through one; name the folder itself")
        if not os.path.lexists(path):
            return
        if not os.path.isdir(path):
            raise FolderError(f"{path} is no folder; name one that is empty or not there yet")
        try:
            held = os.listdir(path)
        except OSError as error:
            raise FolderError(f"{path} cannot be read: {error.strerror or error}") from None
        if MARKER in held:
            self._before = frozenset(self._listed())
        elif held:
            raise FolderError(f"{path} holds what is not a recipe book; name a folder that is empty or not there yet")

    def _listed(self) -> Iterable[str]:
        """The pages of the book that is there; what no book would name is passed over, whoever wrote it in."""
        marker = os.path.join(self.path, MARKER)
        if os.path.islink(marker) or not os.path.isfile(marker) or os.path.getsize(marker) > _MARKER_BYTES:
            raise FolderError(f"{marker} is not the list of a book's pages; remove it, or name another folder")
        with open(marker, encoding="utf-8", errors="replace") as file:
            lines = file.read().split("\n")
        if lines[0] != _HEAD:
            raise FolderError(f"{marker} is not the list of a book's pages; remove it, or name another folder")
        for line in lines[1:]:
            steps = line.split("/")
            if line.endswith(".html") and "\\" not in line and ":" not in line and not {"", ".", ".."} & {*steps}:
                yield line

    def begin(self, pages: Iterable[str], perhaps: Iterable[str] = ()) -> None:
        """See that no page takes the place of something strange, and write down which there will be.

        Args:
            pages: that will be put.
            perhaps: pages that may be put too.

        Raises:
            FolderError: one would; or nothing can be written.
        """
        self._now = {*pages}
        expected = sorted({*self._now, *perhaps})
        for page in expected:
            where = self._place(page)
            if page not in self._before and os.path.lexists(where):
                raise FolderError(f"{where} is not of this book, and a page would take its place; move it away")
        with _told(self.path):
            os.makedirs(self.path, exist_ok=True)
        # of a run that is stopped each page is known, the old ones and the new
        self._mark(sorted({*expected, *self._before}))

    def put(self, page: str, content: bytes) -> None:
        """Write a page, unless it stands there already.

        Raises:
            FolderError: it cannot be written.
        """
        where = self._place(page)
        self._now.add(page)
        with _told(where):
            if os.path.isfile(where) and not os.path.islink(where):
                with open(where, "rb") as file:
                    if file.read(len(content) + 1) == content:
                        return
            os.makedirs(os.path.dirname(where), exist_ok=True)
            _replace(where, content)
        self.written += 1

    def end(self) -> int:
        """Take away the pages that are no more, and the folders that are empty by that; their number."""
        gone = sorted(self._before.difference(self._now))
        for page in gone:
            where = self._place(page)
            if os.path.isfile(where) or os.path.islink(where):
                with _told(where):
                    os.unlink(where)
            folder = os.path.dirname(where)
            while len(folder) > len(self.path):
                try:
                    os.rmdir(folder)
                except OSError:
                    break
                folder = os.path.dirname(folder)
        self._mark(sorted(self._now))
        return len(gone)

    @property
    def pages(self) -> int:
        """How many there are."""
        return len(self._now)

    def _place(self, page: str) -> str:
        """Where a page lies; no folder on the way is a link, which could lead anywhere.

        Raises:
            FolderError: one is.
        """
        where = self.path
        steps = page.split("/")
        for step in steps[:-1]:
            where = os.path.join(where, step)
            if os.path.islink(where):
                raise FolderError(f"{where} is a link, and nothing is written through one; remove it")
        return os.path.join(where, steps[-1])

    def _mark(self, pages: Iterable[str]) -> None:
        where = os.path.join(self.path, MARKER)
        with _told(where):
            _replace(where, "".join(f"{line}\n" for line in (_HEAD, *pages)).encode())


class _told:  # noqa: N801  (used as a statement)
    """What the system refuses, in words."""

    def __init__(self, what: str) -> None:
        self.what = what

    def __enter__(self) -> None:
        """Nothing to do."""

    def __exit__(self, kind: object, error: BaseException | None, trace: object) -> None:
        """Tell it."""
        if isinstance(error, OSError):
            raise FolderError(f"{self.what} cannot be written: {error.strerror or error}") from None


def _replace(where: str, content: bytes) -> None:
    """Write a file beside and put it in place whole."""
    beside = os.path.join(os.path.dirname(where), f".mashwright-{os.urandom(16).hex()}.part")
    try:
        with open(beside, "xb") as file:
            file.write(content)
        os.replace(beside, where)
    except BaseException:
        with suppress(OSError):
            os.unlink(beside)
        raise
