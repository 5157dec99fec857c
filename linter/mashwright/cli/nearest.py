"""The brewhouse of the current folder, for commands that are about no recipe."""

import sys
from typing import TYPE_CHECKING

import click

from mashwright.printable import say

if TYPE_CHECKING:
    from mashwright.recipe.brewhouse import Brewhouse
    from mashwright.reviewing.houses import HouseFile


def nearest() -> "tuple[HouseFile | None, Brewhouse]":
    """The brewhouse of the current folder.

    Raises:
        click.ClickException: the rules that are installed contradict each other, or the program cannot take it.
    """
    from mashwright.reviewing.files import BREWHOUSE_NAMES
    from mashwright.reviewing.houses import Houses
    from mashwright.reviewing.plugins import ConfigurationError, installed

    try:
        houses = Houses(installed())
    except ConfigurationError as error:
        raise click.ClickException(str(error)) from None
    file = houses.nearest(BREWHOUSE_NAMES[0])
    for fault in file.faults if file is not None else ():
        raise click.ClickException(f"{fault.path}: {fault.message}")
    return file, (file.house if file is not None else houses.plain()).brewhouse


def told(file: "HouseFile | None") -> bool:
    """Whether the brewhouse has errors, which are told."""
    from mashwright.finding import Level

    if file is None or file.reviewed is None:
        return False
    errors = [result for result in file.reviewed.results if result.level is Level.ERROR]
    for result in errors:
        where = f"{file.path}:{result.place.line}:{result.place.column}"
        say(f"{where}: {result.level.word}: {result.rule}: {result.message}", sys.stderr)
    return bool(errors)
