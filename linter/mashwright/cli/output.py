"""Where a recipe comes in, and where results go: standard output or a file, in colour or plain."""

import os
import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from errno import EISDIR
from functools import partial
from stat import S_IMODE
from typing import TextIO

import click

from mashwright.budgets import FILE_BYTES
from mashwright.patterns import pattern
from mashwright.reviewing.files import ENDINGS
from mashwright.reviewing.links import refusal

STANDARD_INPUT = "standard-input.yaml"
"""What a recipe from there is called unless ``--name`` says otherwise."""


def from_standard_input() -> bytes:
    """What comes in, up to a byte more than a file may have.

    Raises:
        click.ClickException: it cannot be read.
    """
    try:
        return sys.stdin.buffer.read(FILE_BYTES + 1)
    except OSError as error:
        raise click.ClickException(f"standard input cannot be read: {error.strerror or error}") from None


@contextmanager
def opened(output: str | None, what: str = "report") -> Iterator[TextIO]:
    """Standard output, a device or a pipe, or a file that is complete or not there at all.

    Args:
        output: path; None for standard output.
        what: is written, in a word.

    Raises:
        click.ClickException: it cannot be written, is a link, or may be a recipe.
    """
    number = descriptor(output)
    if number in _STANDARD:
        yield sys.stdout if number == 1 else sys.stderr
        return
    assert output is not None
    if output.lower().endswith(ENDINGS):
        raise click.ClickException(
            f"{output} could be a recipe, and a {what} would take its place; give it another ending"
        )
    try:
        with _to_descriptor(number) if number is not None else _to_file(output) as file:
            yield file
    except BrokenPipeError as error:
        if number is None and not _is_special(output):  # of standard output, which is written beside the file
            raise
        raise click.ClickException(_unwritable(output, error)) from None
    except OSError as error:
        raise click.ClickException(_unwritable(output, error)) from None


_STANDARD = (1, 2)
_DESCRIPTOR = pattern(r"/(?:dev|proc/self)/fd/(\d{1,6})", re.ASCII)


def descriptor(output: str | None) -> int | None:
    """The number of the stream that a place stands for; None where it is none. Not asked of the system, to which the
    first is no longer where this program's results go.
    """
    if output is None:
        return 1
    if found := _DESCRIPTOR().fullmatch(output):
        return int(found[1])
    return {"/dev/stdout": 1, "/dev/stderr": 2}.get(output)


def _unwritable(output: str, error: OSError) -> str:
    return f"{output} cannot be written: {error.strerror or error}"


def _to_descriptor(number: int) -> TextIO:
    return open(os.dup(number), "w", encoding="utf-8")


def _is_special(path: str) -> bool:
    """Whether a path is a device or a pipe, which nothing can be renamed to."""
    return os.path.exists(path) and not os.path.isfile(path) and not os.path.isdir(path)


@contextmanager
def _to_file(output: str) -> Iterator[TextIO]:
    folder = os.path.dirname(output)
    if refused := refusal(os.path.join(folder, "")):
        raise click.ClickException(f"{output}: {refused}")
    if os.path.islink(output):
        raise click.ClickException(f"{output} is a link, and nothing is written through one; name the file itself")
    if _is_special(output):
        with open(output, "w", encoding="utf-8", opener=_no_link) as file:
            yield file
        return
    if os.path.isdir(output) or not os.path.basename(output):
        raise IsADirectoryError(EISDIR, os.strerror(EISDIR))
    mode = _mode(output)
    beside = os.path.join(
        folder, f".mashwright-{os.urandom(16).hex()}.part"
    )  # known to nobody, so nobody can be there first
    try:
        with open(beside, "x", encoding="utf-8", newline="\n", opener=partial(_no_link, mode=mode)) as file:
            yield file
            file.flush()
            if mode is not None:
                os.chmod(file.fileno() if os.chmod in os.supports_fd else beside, mode)
            os.fsync(file.fileno())
        os.replace(beside, output)
    except BaseException:
        with suppress(OSError):
            os.unlink(beside)
        raise


def _mode(path: str) -> int | None:
    """Who may do what with a file; None where there is none yet, and the umask decides."""
    try:
        return S_IMODE(os.stat(path).st_mode) & 0o777
    except FileNotFoundError:
        return None


def _no_link(path: str, flags: int, mode: int | None = None) -> int:
    return os.open(path, flags | getattr(os, "O_NOFOLLOW", 0), 0o666 if mode is None else mode)


def wants_colour(stream: TextIO) -> bool:
    """Colour only on a terminal, and not where NO_COLOR is set or the terminal has none."""
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def width(stream: TextIO) -> int:
    """How wide to wrap: 80, or a narrower terminal."""
    if not stream.isatty():
        return 80
    try:
        return max(40, min(80, os.get_terminal_size(stream.fileno()).columns))
    except OSError:
        return 80
