"""``mashwright language-server``."""

import sys

import click

PARTS = ("pygls", "lsprotocol", "cattrs", "attrs", "attr")
"""What the extra ``editor`` brings."""


@click.command("language-server", short_help="Serve an editor: findings, mends and more while you type.")
@click.option("--stdio", is_flag=True, help="Speak over standard input and output, as it always does.")
def language_server(stdio: bool) -> int:  # noqa: ARG001  (editors pass it)
    """Serve an editor by the Language Server Protocol over standard input and output: findings while you type and what
    mends them. An editor starts it; it needs mashwright[editor].

    Exit status: 0 the editor asked to end it; 1 the editor was gone; 2 it could not start.
    """
    try:
        from mashwright.editor.server import serve
    except ModuleNotFoundError as error:
        if error.name is None or error.name.partition(".")[0] not in PARTS:
            raise
        raise click.ClickException(
            "the language server needs parts that are not installed; install them: "
            "python -m pip install 'mashwright[editor]'"
        ) from None
    return serve(sys.stdin.buffer, sys.stdout.buffer)
