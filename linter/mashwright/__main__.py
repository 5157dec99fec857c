"""The command ``mashwright``, also as ``python -m mashwright``."""

# ruff: noqa: E402 -- nothing may be imported before the current folder is kept out
from mashwright.import_path import keep_out_here

keep_out_here()

import gc

# what a start makes stays, and what a recipe makes is let go at once, so that looking for rubbish every 700 objects
# only costs time; set for the process, so that a program that calls a command keeps its own measure
gc.set_threshold(70_000)

import errno
import io
import os
import signal
import sys
import threading
from contextlib import suppress
from typing import NoReturn

from mashwright import signals


def main() -> NoReturn:
    """Run the command line; interrupted or with its pipe closed it ends quietly, by the signal.

    Whatever else ends it is one sentence and status 2, never a traceback.
    """
    sys.unraisablehook = threading.excepthook = _left_behind
    try:
        signals.listen()
        _open_all()
        _keep_output()
        from mashwright.cli.command import run

        status = run(sys.argv[1:])
        sys.stdout.flush()
        if _only_ours():
            gc.freeze()  # else the end looks again and again through all that was loaded, and lets go of nothing
    except KeyboardInterrupt:
        _end_by("SIGINT")
    except signals.EndedError as ended:
        _end_by(ended.name)
    except BrokenPipeError:
        _end_by("SIGPIPE")
    except BaseException as error:  # noqa: BLE001  (the last net)
        with suppress(OSError, ValueError):
            sys.stdout.flush()  # what was found before it
        _drop_output()
        _tell(_why(error))
        sys.exit(2)
    sys.exit(status)


def _only_ours() -> bool:
    """Whether no rule of others was loaded, which may have left what must be let go of before the end."""
    plugins = sys.modules.get("mashwright.reviewing.plugins")
    return plugins is None or bool(plugins.only_ours())


_OUTPUT_FULL = (errno.ENOSPC, errno.EFBIG, errno.EIO, errno.EBADF, getattr(errno, "EDQUOT", errno.ENOSPC))
"""What writing to an output that takes no more ends in; such an error names no file."""


def _why(error: BaseException) -> str:
    """What ended the run, in words."""
    from mashwright import crash

    if isinstance(error, OSError) and error.filename is None and error.errno in _OUTPUT_FULL:
        return f"the results cannot be written: {error.strerror or error}"
    if isinstance(error, FileNotFoundError) and not _is_somewhere():
        return "the current folder is not there any more; change to one that is"
    return crash.missing_part(error) or crash.of_run(error)


def _is_somewhere() -> bool:
    try:
        os.getcwd()
    except OSError:
        return False
    return True


def _tell(sentence: str) -> None:
    from mashwright.printable import complain

    with suppress(OSError, ValueError):  # there may be nobody to tell it
        complain(sentence)


def _left_behind(left: "sys.UnraisableHookArgs | threading.ExceptHookArgs") -> None:
    """An error where nobody can take it: in a thread of a rule's own, or in what a rule has left to be cleared away."""
    from mashwright.crash import in_words

    if left.exc_value is not None:
        _tell(f"a rule or a library left an error behind: {in_words(left.exc_value)}")


def _keep_output() -> None:
    """Results go to a copy of standard output that only this program knows; what anybody else writes goes to stderr.

    A rule may write past ``sys.stdout``, by its descriptor, in C, or by a program that it starts.
    """
    old = sys.stdout
    try:
        copy = os.dup(old.fileno())
        os.dup2(sys.stderr.fileno(), old.fileno())
    except (OSError, ValueError):  # no descriptors behind them, as where another program has put its own in place
        return
    at_once = getattr(old, "write_through", False)  # as Python was asked to by -u or PYTHONUNBUFFERED
    new = open(copy, "wb", 0 if at_once else -1, closefd=False)  # noqa: SIM115  (open to the end)
    sys.stdout = io.TextIOWrapper(
        new, old.encoding, old.errors, line_buffering=bool(old.line_buffering), write_through=at_once
    )


def _open_all() -> None:
    """A standard stream that the caller has closed reads as empty, and takes what is written to it."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            nothing = os.open(os.devnull, os.O_RDWR)
            setattr(sys, name, open(nothing, mode, encoding="utf-8", closefd=False))  # noqa: SIM115
    for number, stream in enumerate((sys.stdin, sys.stdout, sys.stderr)):
        with suppress(OSError, ValueError):  # no descriptor behind it
            if not _is_open(number):
                os.dup2(stream.fileno(), number)  # else the next file that is opened gets what is meant for it


def _is_open(number: int) -> bool:
    try:
        os.fstat(number)
    except OSError:
        return False
    return True


def _drop_output() -> None:
    """What is still buffered for an output that takes no more would complain once more at exit."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _end_by(name: str) -> NoReturn:
    """End as a process ends that does not catch the signal, so that a shell sees why."""
    signals.heed_no_more()
    _drop_output()
    number = getattr(signal, name, None)
    if number is not None and os.name == "posix":
        signal.signal(number, signal.SIG_DFL)
        os.kill(os.getpid(), number)
    sys.exit(128 + _NUMBERS[name])  # as the first process of a container, which no signal ends by itself


_NUMBERS = {"SIGHUP": 1, "SIGINT": 2, "SIGPIPE": 13, "SIGTERM": 15}


if __name__ == "__main__":
    main()
