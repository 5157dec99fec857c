"""What a command line names: options by their names, and files, which are files whatever they are called."""

import os
from itertools import islice

import click

from mashwright.reviewing.files import ENDINGS


class TakesFiles(click.Command):
    """A command to which an argument that begins with a dash and is a file is never an option.

    A hook or a shell's ``*`` names whatever a repository holds, and a stranger may have called a file
    ``--baseline=x.yaml``.
    """

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """As click does it, once files and options are told apart."""
        return super().parse_args(ctx, self.told_apart(ctx, args))

    def told_apart(self, ctx: click.Context, args: list[str]) -> list[str]:
        """The arguments, in which a file that begins with a dash begins with ``./`` instead.

        Raises:
            click.ClickException: an argument could be either, as ``--quiet`` beside a file of that name: whoever put
                the file there must not take an option away either.
        """
        options = [one for one in self.get_params(ctx) if isinstance(one, click.Option)]
        named = {name for one in options for name in one.opts}
        with_value = {name for one in options if not (one.is_flag or one.count) for name in one.opts}
        told: list[str] = []
        left = iter(args)
        for arg in left:
            if arg == "--":
                return [*told, arg, *left]
            if arg.startswith("-") and arg != "-" and os.path.lexists(arg):
                # of values only a baseline's may have a recipe's ending, and without its baseline a review is stricter
                if arg.partition("=")[0] in named and not arg.lower().endswith(ENDINGS):
                    raise click.ClickException(
                        f"{arg} is an option and a file here; rename the file, or write {_plain(arg)} for it"
                    )
                told.append(_plain(arg))
                continue
            told += [arg, *islice(left, 1)] if arg in with_value else [arg]
        return told


def _plain(file: str) -> str:
    return os.path.join(os.curdir, file)
