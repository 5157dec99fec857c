"""Where a recipe comes in, and where results go: standard output or a file, in colour or plain."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TextIO

import click

from mashwright.budgets import FILE_BYTES
from mashwright.reviewing.files import ENDINGS


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
def opened(output: str | None) -> Iterator[TextIO]:
    """Standard output, or a file that is complete or not there at all: it is written beside its place and renamed.

    Raises:
        click.ClickException: it cannot be written, or may be a recipe.
    """
    if output is None:
        yield sys.stdout
        return
    if output.endswith(ENDINGS):
        raise click.ClickException(
            f"{output} could be a recipe, and a report would take its place; give it another ending"
        )
    try:
        with _written(os.path.realpath(output)) as file:
            yield file
    except OSError as error:
        raise click.ClickException(f"{output} cannot be written: {error.strerror or error}") from None


@contextmanager
def _written(path: str) -> Iterator[TextIO]:
    if os.path.exists(path) and not os.path.isfile(path) and not os.path.isdir(path):
        with open(path, "w", encoding="utf-8") as file:  # a device or a pipe, which nothing can be renamed to
            yield file
        return
    beside = f"{path}.{os.getpid()}.part"
    try:
        with open(beside, "w", encoding="utf-8", newline="\n") as file:
            yield file
        os.replace(beside, path)
    finally:
        if os.path.exists(beside):
            os.unlink(beside)


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
