"""The commands: read arguments, call the rooms below, print. Exit status 0, 1 or 2."""

import os
import sys
from collections.abc import Sequence
from importlib import import_module

import click

from mashwright import __version__
from mashwright.printable import complain, publish, say

COMPLETE = "_MASHWRIGHT_COMPLETE"
"""The environment variable by which a shell asks for completions; click's own name for it."""


COMMANDS = (
    *("amend", "begin", "book", "compare", "explain", "figures", "language-server", "names"),
    *("review", "schema", "sheet"),
)
"""The commands, each in the module of its name."""


class _Commands(click.Group):
    """Imports a command when it is called; the hook calls one, and pays for no other."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002  (click's signature)
        """Their names, as help shows them."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002  (as above)
        """One of them; None where there is none of that name."""
        if cmd_name not in COMMANDS:
            return None
        name = cmd_name.replace("-", "_")
        found: click.Command = getattr(import_module(f"mashwright.cli.{name}"), name)
        return found


@click.group(
    cls=_Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="A recipe is a YAML file: recipe, batch and grist, and as much else as you know. Figures are estimates.",
)
@click.version_option(__version__, prog_name="mashwright", message="%(prog)s %(version)s")
def command() -> None:
    """Checks beer recipes: does the brewing sums and says, line by line, what will not work and how to mend it."""


def run(arguments: Sequence[str]) -> int:
    """Run one command line.

    Returns:
        The exit status.

    Raises:
        KeyboardInterrupt, BrokenPipeError: left to the caller, who ends by the signal.
    """
    _plain_output()
    if asked := os.environ.get(COMPLETE):
        return _completed(asked)
    try:
        # not by click's own main: it ends a closed pipe with status 1, and answers an interrupt with an empty line
        with command.make_context("mashwright", list(arguments) or ["--help"]) as context:
            status = command.invoke(context)
    except click.exceptions.Exit as stop:
        return stop.exit_code
    except click.UsageError as error:
        complain(_lower(error.format_message()))
        say(f"{error.ctx.command_path if error.ctx else 'mashwright'} --help shows what it needs", sys.stderr)
        return 2
    except click.ClickException as error:
        complain(error.format_message())
        return 2
    return status if isinstance(status, int) else 0


def _completed(asked: str) -> int:
    """What a shell asks for, as click's ``shell_complete`` answers it; what a person has typed comes back in it."""
    from click.shell_completion import get_completion_class

    shell, _, what = asked.partition("_")
    found = get_completion_class(shell)
    if found is None or what not in ("source", "complete"):
        return 1
    answers = found(command, {}, "mashwright", COMPLETE)
    publish(answers.source() if what == "source" else answers.complete(), sys.stdout)
    return 0


def _lower(sentence: str) -> str:
    """A sentence of click's as ours are written: small at the beginning, no full stop."""
    return f"{sentence[:1].lower()}{sentence[1:]}".rstrip(".")


def _plain_output() -> None:
    """Print ° and × whatever the locale; what a terminal cannot show becomes a question mark, never a crash."""
    for stream in (sys.stdout, sys.stderr):
        if (stream.encoding or "").lower().replace("-", "") != "utf8" and hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding=None if stream.isatty() else "utf-8", errors="replace")
