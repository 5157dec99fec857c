"""Where results go: standard output or a file, in colour or plain."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TextIO

import click


@contextmanager
def opened(output: str | None) -> Iterator[TextIO]:
    """Standard output, or a file that is complete or not there at all: it is written beside its place and renamed.

    Raises:
        click.ClickException: it cannot be written.
    """
    if output is None:
        yield sys.stdout
        return
    beside = f"{output}.{os.getpid()}.part"
    try:
        with open(beside, "w", encoding="utf-8", newline="\n") as file:
            yield file
        os.replace(beside, output)
    except OSError as error:
        raise click.ClickException(f"{output} cannot be written: {error.strerror or error}") from None
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
