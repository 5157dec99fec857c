"""Reads ordinary files and nothing else: a pipe in the place of one is not awaited, nor a device read without end."""

import os
from stat import S_ISREG


def ordinary(path: str, most: int, *, follow: bool = False) -> bytes | None:
    """What is in an ordinary file, up to a byte more than ``most``; None where it is of another kind.

    Args:
        path: of the file.
        most: bytes.
        follow: a link in the last part of the path; else that is an error.

    Raises:
        OSError: it cannot be opened or read, or is a link that is not followed.
    """
    if not S_ISREG(os.stat(path).st_mode):
        return None  # there are devices that do something when they are opened
    with open(path, "rb", buffering=0, opener=_following if follow else _as_it_is) as file:
        status = os.fstat(file.fileno())
        if not S_ISREG(status.st_mode):
            return None
        # room for all that it may have would each time cost more than the reading
        return file.read(min(status.st_size, most) + 1) or b""


def _following(path: str, flags: int) -> int:
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))


def _as_it_is(path: str, flags: int) -> int:
    return _following(path, flags | getattr(os, "O_NOFOLLOW", 0))
